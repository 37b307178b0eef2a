//! Ice barrier at eaves, as the adopted edition asks it and as it is laid.
//!
//! # Formula
//! level reach from the roof edge = overhang + what is asked inside the wall line (+ wall thickness where the wall line
//! is read as the inside face); on the slope times the slope factor, and on steep roofs no less than the edition's
//! length along the slope. Courses: 1 up to a roll's width, then one more for each width less side lap. Laid as whole
//! courses.
//!
//! Two areas are given. By length: eave length times width on the slope. Exact: mitred at hips and run on into valleys
//! ([`crate::band`]).
//! # Clause
//! IRC R905.1.2 (R905.2.7.1 in 2009 and 2012); the books hold each edition's figures. Only where ice has a history.
//! # What it does not judge
//! A roof on posts never comes inside a wall line, and a detached building is excepted where no attic is recorded under it;
//! whether the official agrees is to be asked. A plane covered whole needs no strip.

use std::collections::BTreeMap;

use book::{Because, LookupError, Roll};
use job::{Block, WallLine};
use measure::{Area, Length};
use roof::{Edge, EdgeId, EdgeKind, PlaneId};

use crate::band::{Inwards, band};
use crate::case::Case;
use crate::columns::Columns;
use crate::line::{because, computed, input, packages};

/// The ice barrier of a roof.
#[derive(Clone, Debug, PartialEq)]
pub struct IceBarrier {
    /// Whether the place has a history of ice, which turns the clause on.
    pub asked: bool,
    /// Reading of the wall line that is laid.
    pub taken: WallLine,
    /// Eaves that get strips.
    pub eaves: Vec<EaveStrip>,
    /// Eaves that get none.
    pub spared: Vec<Spared>,
    /// What the clause asks, the wall line read as the outside face.
    pub outside: Band,
    /// What the clause asks, the wall line read as the inside face.
    pub inside: Band,
    /// As laid: whole courses that reach what the reading taken asks.
    pub laid: Band,
    /// All that is cut from the rolls, eaves and the rest.
    pub parts: Vec<Part>,
    /// How the strips at eaves were reached.
    pub because: Vec<Because>,
}

/// The strips along one eave.
#[derive(Clone, Debug, PartialEq)]
pub struct EaveStrip {
    /// The eave.
    pub edge: EdgeId,
    /// Reach by the outside face of the wall.
    pub outside: Reach,
    /// Reach by the inside face.
    pub inside: Reach,
    /// Courses that reach what the reading taken asks.
    pub courses: u64,
    /// What those courses cover, from the roof edge along the slope.
    pub cover: Length,
}

/// How far up a strip must come from the roof edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    /// Level.
    pub level: Length,
    /// On the slope.
    pub along: Length,
}

/// An eave without strips.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spared {
    /// The eave.
    pub edge: EdgeId,
    /// Why.
    pub why: Why,
}

/// Why an eave gets no strips.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Why {
    /// Its whole plane is covered.
    CoveredWhole,
    /// A roof on posts: no wall line to get inside of.
    OnPosts,
    /// A detached building the clause lets off.
    Detached,
}

impl Why {
    /// In words, for papers.
    pub const fn words(self) -> &'static str {
        match self {
            Self::CoveredWhole => "its whole plane is covered",
            Self::OnPosts => "a roof on posts has no wall line to get inside of",
            Self::Detached => "detached, with no attic recorded under it",
        }
    }
}

/// Area of the strips along all eaves.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// Eave lengths times widths on the slope.
    pub by_length: Area,
    /// Mitred at hips and run on into valleys.
    pub exact: Area,
    /// The exact area by plane.
    pub planes: BTreeMap<PlaneId, Area>,
}

/// Something cut from the rolls.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What it is.
    pub name: &'static str,
    /// Material it takes, without laps and offcuts.
    pub area: Area,
    /// How it was reached.
    pub because: Because,
}

const EAVES: [EdgeKind; 2] = [EdgeKind::Eave, EdgeKind::SkewRake];

impl IceBarrier {
    /// The strips at eaves; the other parts are for [`crate::membrane`] to add.
    pub(crate) fn of(case: &Case<'_>) -> Result<Self, LookupError> {
        let asked = case.job.site.ice_history.value;
        let taken = case.job.site.wall_line.value;
        let (mut eaves, mut spared) = (Vec::new(), Vec::new());
        for (id, edge) in case.edges(&EAVES).into_iter().filter(|_| asked) {
            match spares(case, edge) {
                Some(why) => spared.push(Spared { edge: id, why }),
                None => eaves.extend(strip(case, id, edge, taken)?),
            }
        }
        let columns = Columns::of(case.roof);
        let along = |get: fn(&EaveStrip) -> Length| band_of(case, &columns, &eaves, get);
        let (outside, inside) = (along(|eave| eave.outside.along), along(|eave| eave.inside.along));
        let laid = along(|eave| eave.cover);
        let mut found = Self {
            asked,
            taken,
            eaves,
            spared,
            outside,
            inside,
            laid,
            parts: Vec::new(),
            because: Vec::new(),
        };
        found.because = reasons(case, &found);
        Ok(found)
    }
}

/// Why an eave gets no strips, if it gets none.
fn spares(case: &Case<'_>, eave: &Edge) -> Option<Why> {
    let plane = *eave.planes.first()?;
    if case.is_covered_whole(plane) {
        return Some(Why::CoveredWhole);
    }
    let blocks = &case.roof.plane(plane).blocks;
    let all = |test: &dyn Fn(&Block) -> bool| {
        let mut of_plane = case.job.blocks.iter().filter(|block| blocks.contains(&block.name)).peekable();
        of_plane.peek().is_some() && of_plane.all(test)
    };
    let has_attic = |block: &Block| case.job.attics.iter().any(|attic| attic.under.contains(&block.name));
    let excepted = case.edition.ice_barrier.detached_excepted;
    if all(&|block| block.open) {
        Some(Why::OnPosts)
    } else if excepted && all(&|block| block.detached && !has_attic(block)) {
        Some(Why::Detached)
    } else {
        None
    }
}

fn strip(
    case: &Case<'_>,
    id: EdgeId,
    eave: &Edge,
    taken: WallLine,
) -> Result<Option<EaveStrip>, LookupError> {
    let Some(inwards) = Inwards::of(case.roof, id) else { return Ok(None) };
    let roll = case.package("ice-barrier")?.roll()?;
    let thickness = case.job.site.wall_thickness.value;
    let outside = reach(case, eave, inwards.slope_factor, Length::ZERO);
    let inside = reach(case, eave, inwards.slope_factor, thickness);
    let needed = by_reading(taken, outside.along, inside.along);
    let courses = courses(roll, needed);
    Ok(Some(EaveStrip { edge: id, outside, inside, courses, cover: cover(roll, courses) }))
}

impl EaveStrip {
    /// How far up it must come by a reading of the wall line.
    pub fn asked(&self, taken: WallLine) -> Reach {
        by_reading(taken, self.outside, self.inside)
    }
}

/// What belongs to the reading of the wall line that is taken.
fn by_reading<T>(taken: WallLine, outside: T, inside: T) -> T {
    match taken {
        WallLine::Outside => outside,
        WallLine::Inside => inside,
    }
}

fn reach(case: &Case<'_>, eave: &Edge, slope_factor: f64, thickness: Length) -> Reach {
    let clause = &case.edition.ice_barrier;
    let level = eave.overhang + thickness + *clause.inside_wall_line;
    let pitch = eave.planes.first().map(|plane| case.roof.plane(*plane).pitch);
    let steep =
        clause.steep.as_ref().filter(|steep| pitch.is_some_and(|pitch| !pitch.is_flatter_than(*steep.from)));
    let least = steep.map_or(Length::ZERO, |steep| *steep.along_slope);
    let along = (level * slope_factor).max(least);
    Reach { level: along / slope_factor, along }
}

/// Courses of a roll that cover a width; at least one.
fn courses(roll: &Roll, width: Length) -> u64 {
    let more = width - *roll.width;
    1 + packages(more.m(), (*roll.width - *roll.side_lap).m())
}

/// Width some courses cover.
fn cover(roll: &Roll, courses: u64) -> Length {
    *roll.width + (*roll.width - *roll.side_lap) * (courses.saturating_sub(1) as f64)
}

/// Both areas of strips of some width on the slope.
fn band_of(
    case: &Case<'_>,
    columns: &Columns<'_>,
    eaves: &[EaveStrip],
    width: fn(&EaveStrip) -> Length,
) -> Band {
    let level =
        |eave: &EaveStrip| Some((eave.edge, width(eave) / Inwards::of(case.roof, eave.edge)?.slope_factor));
    let reaches = eaves.iter().filter_map(level).collect();
    let mut planes = band(case.roof, columns, &reaches);
    planes.retain(|plane, _| case.takes_shingles(*plane) && !case.is_covered_whole(*plane));
    Band {
        by_length: eaves.iter().map(|eave| case.roof.edge(eave.edge).length * width(eave)).sum(),
        exact: planes.values().sum(),
        planes,
    }
}

fn reasons(case: &Case<'_>, found: &IceBarrier) -> Vec<Because> {
    let site = &case.job.site;
    let clause = &case.edition.ice_barrier;
    let mut all: Vec<Because> = case.assumed("the site", &site.ice_history).into_iter().collect();
    if !found.asked {
        let rule = format!("{}: asked only where ice has a history; the job says it has none", clause.clause);
        all.push(because("no ice barrier at eaves", [], rule, clause.source.clone()));
        return all;
    }
    all.extend(case.assumed("the site", &site.wall_line));
    all.extend(by_reading(found.taken, None, case.assumed("the site", &site.wall_thickness)));
    all.push(reach_because(case, found));
    all.push(readings_because(case, found));
    all.push(spared_because(case, found));
    all.retain(|reason| !reason.inputs.is_empty());
    all
}

fn reach_because(case: &Case<'_>, found: &IceBarrier) -> Because {
    let (words, clause) = (case.words, &case.edition.ice_barrier);
    let mut inputs = vec![
        input("inside the wall line", clause.inside_wall_line.text()),
        input("wall thickness, inside face only", words.tape(case.job.site.wall_thickness.value)),
    ];
    for eave in &found.eaves {
        let overhang = words.tape(case.roof.edge(eave.edge).overhang);
        let (out, inner) = (words.inches(eave.outside.along), words.inches(eave.inside.along));
        let value = format!("overhang {overhang}: {out} by the outside face, {inner} by the inside face");
        inputs.push(input(eave.edge.to_string(), value));
    }
    let steep = clause.steep.as_ref().map_or(String::new(), |steep| {
        format!("; from {} at least {} along the slope", steep.from.text(), steep.along_slope.text())
    });
    let rule = format!(
        "{} of {}: from the lowest roof edge to {} inside the exterior wall line, level, times the slope factor{steep}",
        clause.clause,
        case.edition.name,
        clause.inside_wall_line.text(),
    );
    because("reach of the ice barrier on the slope, by eave", inputs, rule, clause.source.clone())
}

fn readings_because(case: &Case<'_>, found: &IceBarrier) -> Because {
    let area = |area| case.words.area(area);
    let both =
        |band: &Band| format!("{} by length times width, {} exact", area(band.by_length), area(band.exact));
    let taken = by_reading(found.taken, "outside face", "inside face");
    let inputs = [
        input("asked, wall line read as the outside face", both(&found.outside)),
        input("asked, wall line read as the inside face", both(&found.inside)),
        input("reading taken", taken),
        input("laid in whole courses", both(&found.laid)),
    ];
    let rule = "length times width takes each eave apart; exact mitres the strips at hips and runs them on into valleys";
    because("area of the strips at eaves", inputs, rule, computed())
}

fn spared_because(case: &Case<'_>, found: &IceBarrier) -> Because {
    let inputs: Vec<_> =
        found.spared.iter().map(|spared| input(spared.edge.to_string(), spared.why.words())).collect();
    let clause = &case.edition.ice_barrier;
    let rule = format!("{}: not asked there, or met otherwise; ask the building department", clause.clause);
    because("eaves without strips", inputs, rule, clause.source.clone())
}

#[cfg(test)]
mod tests {
    use book::Book;

    use super::*;

    fn roll() -> Roll {
        Book::builtin().package("ice-barrier").unwrap().roll().unwrap().clone()
    }

    /// Source: a roll's width is 36 in with 3 1/2 in of side lap, so courses cover 36, 68 1/2, 101 in.
    #[test]
    fn courses_step_at_exactly_what_they_cover() {
        for (width_in, wanted) in
            [(0.0, 1), (36.0, 1), (36.01, 2), (44.72, 2), (68.5, 2), (68.51, 3), (101.0, 3), (101.1, 4)]
        {
            assert_eq!(courses(&roll(), Length::from_in(width_in)), wanted, "{width_in} in");
        }
    }

    #[test]
    fn two_courses_cover_68_and_a_half_inches() {
        assert!((cover(&roll(), 1).inches() - 36.0).abs() < 1e-9);
        assert!((cover(&roll(), 2).inches() - 68.5).abs() < 1e-9);
        assert!((cover(&roll(), 3).inches() - 101.0).abs() < 1e-9);
    }
}
