//! What a ceiling resists, as its survey or its plan has it: by its layers, by what was read of it, and with its hatch and side walls.
//!
//! # Method
//! Insulation up to the top of the joists lies beside wood, what is over them does not; both ways of adding up and the mean of ISO 6946 stand beside one another.
//! Where the job says what the insulation really resists (`effective`), that is what is reckoned with; else it is the mean of the layers less what is known to
//! be wrong with them. Field, hatch and side walls add by area.

mod derate;

use book::{Book, LookupError};
use heat::{Across, Assembly, AssemblyError, Bounds, Layer, beside};
use job::{Attic, AtticState, Basis, Block};
use measure::{Area, Length, RValue, UValue};

use super::desk::Desk;
use super::kind::Kind;
use super::{CEILING, dressed};
use derate::Survey;

pub use derate::Derate;

/// A ceiling in one state.
#[derive(Clone, Debug, PartialEq)]
pub struct Ceiling {
    /// Name of its insulation in the books.
    pub kind: String,
    /// Whether the job names it.
    pub kind_is_named: bool,
    /// What its label or its depth says, where the job's words do.
    pub label: Option<RValue>,
    /// How deep it is taken to be.
    pub depth: Length,
    /// Its layers from the rooms up, films included, with what each resists on each path.
    pub layers: Vec<(String, Vec<RValue>)>,
    /// Share of the area of each path: insulation, then wood.
    pub shares: Vec<f64>,
    /// By layers: as if heat could not spread sideways, as if each layer were one temperature.
    pub bounds: Bounds,
    /// What is wrong with it, and what that does.
    pub derates: Vec<Derate>,
    /// What is reckoned with, from air to air, in the field.
    pub reckoned: RValue,
    /// Whether that was read, and not worked out from layers.
    pub is_read: bool,
    /// Field, hatch and side walls together, by area.
    pub whole: UValue,
    /// What is lost through all of it for each kelvin, W/K.
    pub loss: f64,
}

impl Ceiling {
    /// As found, or as planned where `before` is what was found.
    pub(super) fn of(
        desk: &Desk<'_>,
        attic: &Attic,
        area: Area,
        before: Option<&Self>,
    ) -> Result<Option<Self>, LookupError> {
        let state = if before.is_some() { &attic.plan } else { &attic.found };
        let read = state.effective.as_ref().filter(|r| r.basis == Basis::Measured).map(|r| r.value);
        let words = state.insulation.as_deref();
        let kind = Kind::of(words.or(attic.found.insulation.as_deref()), desk.book)?;
        let by_depth = |depth: Length| RValue::from_si(depth.m() * kind.per_metre());
        let label = words.and_then(labelled).or_else(|| words.and_then(deep).map(by_depth));
        let Some(nominal) = label.or_else(|| state.effective.as_ref().map(|r| r.value)) else {
            return Ok(before.cloned());
        };
        let depth = words.and_then(deep).unwrap_or_else(|| kind.depth(nominal));
        let built = built(desk.book, desk.blocks(attic).next(), (nominal, depth))?;
        let Ok((assembly, layers, shares)) = built else { return Ok(None) };
        let bounds = assembly.bounds();
        let survey = Survey { desk, attic, state, is_plan: before.is_some() };
        let derates = survey.derates((kind, nominal, depth), read.is_some())?;
        let kept: f64 = derates.iter().filter_map(|derate| derate.keeps).product();
        let ceiling = RValue::from_us(CEILING);
        let reckoned = match read {
            Some(read) => read + ceiling,
            None => (bounds.mean() - ceiling).max(RValue::ZERO) * kept + ceiling,
        };
        let surfaces = surfaces(desk, attic, state, (area, reckoned));
        let whole =
            beside(surfaces.iter().copied()).unwrap_or_else(|| UValue::from_si(reckoned.si().recip()));
        let loss = surfaces.iter().map(|(area, u)| area.m2() * u.si()).sum();
        Ok(Some(Self {
            kind: kind.row.name.clone(),
            kind_is_named: kind.is_named,
            label,
            depth,
            layers,
            shares,
            bounds,
            derates,
            reckoned,
            is_read: read.is_some(),
            whole,
            loss,
        }))
    }
}

type Built = Result<(Assembly, Vec<(String, Vec<RValue>)>, Vec<f64>), AssemblyError>;

/// Gypsum, insulation beside joists, insulation over them.
fn built(
    book: &Book,
    block: Option<&Block>,
    (nominal, depth): (RValue, Length),
) -> Result<Built, LookupError> {
    let framing = block.and_then(|block| block.framing.as_ref());
    let spacing = framing.and_then(|framing| framing.spacing.as_ref()).map(|spacing| spacing.value);
    let row = if spacing.is_some_and(|spacing| spacing.inches() > 20.0) {
        "attic-trusses-24"
    } else {
        "attic-joists-16"
    };
    let wood = book.thermal().framing(row)?.share.of_one();
    let joist = framing.and_then(|framing| framing.joist).map_or(depth, dressed);
    let beside = depth.min(joist);
    let between = if depth > Length::ZERO { nominal * (beside / depth) } else { RValue::ZERO };
    let film = *book.thermal().film("still-up")?.resistance;
    let lumber = WOOD * beside.inches();
    let gypsum = RValue::from_us(CEILING) - film - film;
    let even = |name: &str, r: RValue| Layer { name: name.to_owned(), across: Across::Even(r) };
    let joists = Layer {
        name: "insulation between joists | joists".to_owned(),
        across: Across::Paths(vec![between, lumber]),
    };
    let layers =
        vec![even("gypsum board", gypsum), joists, even("insulation over joists", nominal - between)];
    let told = std::iter::once(("film below".to_owned(), vec![film]))
        .chain(layers.iter().map(|layer| {
            let paths = match &layer.across {
                Across::Even(r) => vec![*r],
                Across::Paths(paths) => paths.clone(),
            };
            (layer.name.clone(), paths)
        }))
        .chain([("film above".to_owned(), vec![film])])
        .collect();
    let shares = vec![1.0 - wood, wood];
    Ok(Assembly::new(shares.clone(), [film, film], layers).map(|assembly| (assembly, told, shares)))
}

/// An inch of spruce, pine or fir (ASHRAE Handbook Fundamentals, chapter 26, from memory).
const WOOD: RValue = RValue::from_us(1.25);

/// Field, hatch and side walls, each with what it lets through.
fn surfaces(
    desk: &Desk<'_>,
    attic: &Attic,
    state: &AtticState,
    (area, field): (Area, RValue),
) -> Vec<(Area, UValue)> {
    let ceiling = RValue::from_us(CEILING);
    let through = |r: RValue| UValue::from_si(r.si().recip());
    let hatch = state.hatch.as_ref().map(|hatch| {
        let [short, long] = &desk.edition.attic_access.opening;
        let [a, b] = attic.access.unwrap_or([**short, **long]);
        (a * b, through(hatch.value + ceiling))
    });
    let hole = hatch.map_or(Area::ZERO, |(hole, _)| hole).min(area);
    // films of still air on both sides of an upright wall
    let walls = state
        .side_walls
        .as_ref()
        .or(attic.found.side_walls.as_ref())
        .map(|walls| (walls.area, through(walls.effective.value + RValue::from_us(2.0 * UPRIGHT))));
    [Some((area - hole, through(field))), hatch, walls].into_iter().flatten().collect()
}

/// Film of still air on an upright wall, h·ft²·°F/Btu (ASHRAE Handbook Fundamentals, chapter 26, from memory).
const UPRIGHT: f64 = 0.68;

/// A resistance written in words, such as `R-60 blown`.
fn labelled(words: &str) -> Option<RValue> {
    words.split(|c: char| c.is_whitespace() || c == ',').find_map(|word| word.parse::<RValue>().ok())
}

/// A depth written in words, such as `3.5 in batts`.
fn deep(words: &str) -> Option<Length> {
    let all: Vec<&str> = words.split_whitespace().collect();
    let unit = all.iter().position(|word| matches!(*word, "in" | "inch" | "inches" | "mm" | "cm"))?;
    let figure = all.get(unit.checked_sub(1)?)?;
    let unit = if all[unit].starts_with("in") { "in" } else { all[unit] };
    format!("{figure} {unit}").parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_and_depths_are_read_out_of_words() {
        let us = |words: &str| labelled(words).map(|r| r.us().round());
        assert_eq!(
            (us("R-60 blown glass-fibre"), us("old, R-11"), us("cellulose")),
            (Some(60.0), Some(11.0), None)
        );
        let inches = |words: &str| deep(words).map(Length::inches);
        assert_eq!(inches("3.5 in glass-fibre batt").map(|d| (d * 10.0).round()), Some(35.0));
        assert_eq!(inches("batts in all bays"), None);
    }
}
