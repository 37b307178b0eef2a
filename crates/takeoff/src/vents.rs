//! Ventilation of each attic, as found and as planned, against the adopted edition.
//!
//! # Formula
//! required = vented space / 150, or / 300 under conditions. Found and planned: low openings (soffit) and the others added up.
//! Effective area is that of low and other openings in series, 1 / √(1/low² + 1/other²): air that goes out must first
//! come in.
//! # Clause
//! IRC R806.2; the books hold each edition's conditions. The part that sits high is taken of the required area for its
//! least, and of what is provided for its most, so that more intake than asked does no harm and more exhaust than intake
//! does not pass.
//! # What it does not judge
//! Where gable louvers sit: the job document has no height for them. They count towards the sum, not as high; for the most
//! that may be high they do count, so that the exception is given only if it holds wherever they are.
//! Cross ventilation of each bay, screens, openings that look open and are not.

use book::{Because, LookupError};
use job::{Attic, State};
use measure::{Area, Length};
use roof::EdgeId;

use crate::case::Case;
use crate::line::{because, computed, input};
use crate::words::percent;

mod apart;
mod clause;
pub(crate) mod order;
mod parts;
mod region;
pub(crate) mod wary;

use clause::{Needed, Provided, conditions, conditions_because, is_excepted, verdict};
use parts::{assumed_areas, parts, ridge_parts, roof_vents, soffits, vent_area};
pub use region::Region;
pub(crate) use region::trimmed;

/// Ventilation of one attic.
#[derive(Clone, Debug, PartialEq)]
pub struct VentCheck {
    /// Attic.
    pub attic: String,
    /// Area of the vented space, in plan.
    pub space: Area,
    /// Eaves whose soffits open into it, each with the length that does.
    pub soffits: Vec<(EdgeId, Length)>,
    /// Net free area required without conditions.
    pub required: Area,
    /// Net free area required under conditions.
    pub reduced: Area,
    /// As surveyed.
    pub found: Vented,
    /// As it will be.
    pub plan: Vented,
    /// Free area of the planned ridge vent over that of the roof vents it replaces.
    pub gain: Option<f64>,
    /// How it was reached.
    pub because: Vec<Because>,
}

/// Vents of an attic in one state.
#[derive(Clone, Debug, PartialEq)]
pub struct Vented {
    /// What lets air in and out.
    pub parts: Vec<VentPart>,
    /// Sum of the low openings.
    pub low: Area,
    /// Sum of the openings that count as high; those of unknown height do not.
    pub high: Area,
    /// Sum of all.
    pub total: Area,
    /// Part of all that is high; none where there is nothing.
    pub high_share: Option<f64>,
    /// Area of low and other openings in series.
    pub effective: Area,
    /// The conditions for the reduced area: enough of it high, then the retarder.
    pub conditions: Vec<Condition>,
    /// Whether enough of them hold for it.
    pub excepted: bool,
    /// What the adopted edition says of it.
    pub verdict: Verdict,
}

/// One way in or out.
#[derive(Clone, Debug, PartialEq)]
pub struct VentPart {
    /// What it is.
    pub name: String,
    /// Where it sits.
    pub place: Place,
    /// Net free area.
    pub area: Area,
}

/// Where a vent sits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// At the eave.
    Low,
    /// Above the eave, but not where the edition counts it as high.
    Between,
    /// Where the edition counts it as high.
    High,
    /// Somewhere above the eave: the job does not say how high.
    Unknown,
}

impl Place {
    /// All places: what is provided there adds up to all that is provided.
    pub const ALL: [Self; 4] = [Self::Low, Self::Between, Self::High, Self::Unknown];

    /// In words, for papers.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Low => "low",
            Self::Between => "between low and high",
            Self::High => "high",
            Self::Unknown => "height not recorded, not counted as high",
        }
    }
}

/// A condition for the reduced area.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Condition {
    /// In words.
    pub what: String,
    /// Whether it exists where this house stands.
    pub applies: Applies,
    /// Whether it is met.
    pub met: bool,
}

/// Whether a condition exists in the house's climate zone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Applies {
    /// It does.
    Yes,
    /// It does not.
    No,
    /// The job does not say the zone.
    ZoneUnknown,
}

/// What an edition says of vents.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Enough without conditions.
    Enough,
    /// Enough, because the conditions for the reduced area are met.
    EnoughByException,
    /// Not enough.
    NotEnough,
}

impl Verdict {
    /// In words, for papers.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Enough => "enough without conditions",
            Self::EnoughByException => "enough by the exception only",
            Self::NotEnough => "NOT enough",
        }
    }
}

/// Which of an attic's states.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum When {
    Found,
    Plan,
}

impl VentCheck {
    pub(crate) fn of(case: &Case<'_>, attic: &Attic) -> Result<Self, LookupError> {
        let clause = &case.edition.attic_vents;
        let (space, space_because) = space(case, attic);
        let required = space / f64::from(clause.divisor.get());
        let reduced = space / f64::from(clause.reduced_divisor.get());
        let needs = Needed { required, reduced };
        let found = Vented::of(case, attic, When::Found, &needs)?;
        let plan = Vented::of(case, attic, When::Plan, &needs)?;
        let mut because = vec![space_because, needs.because(case, space)];
        because.extend(case.assumed_shape());
        because.extend(assumed_areas(case, attic));
        because.push(state_because(case, "vents as found", &found));
        because.push(state_because(case, "vents as planned", &plan));
        because.push(conditions_because(case, &plan));
        let gain = gain(case, attic)?;
        let soffits = soffits(case, attic);
        Ok(Self { attic: attic.name.clone(), space, soffits, required, reduced, found, plan, gain, because })
    }
}

/// Area of the vented space, and how it is known.
fn space(case: &Case<'_>, attic: &Attic) -> (Area, Because) {
    if let Some(ceiling) = attic.ceiling {
        let inputs = [input("ceiling area", case.words.area(ceiling))];
        return (ceiling, because("vented space", inputs, "ceiling area as the job states it", computed()));
    }
    let blocks = case.job.blocks.iter().filter(|block| attic.under.contains(&block.name));
    let region = Region::of(case.job, attic);
    let footprint = |contours: &[Vec<[f64; 2]>]| {
        let areas: Vec<Area> = contours.iter().map(|contour| region.area(contour)).collect();
        areas.first().copied().unwrap_or(Area::ZERO) - areas.iter().skip(1).sum()
    };
    let sizes: Vec<_> = blocks.map(|block| (&block.name, footprint(&block.contours))).collect();
    let inputs: Vec<_> = sizes.iter().map(|(name, area)| input(*name, case.words.area(*area))).collect();
    let space = sizes.iter().map(|(_, area)| *area).sum();
    let rule = if region == Region::default() {
        "wall-line footprints of the blocks it lies under, added up"
    } else {
        "wall-line footprints of the blocks it lies under, each as far as it lies under this space, added up"
    };
    (space, because("vented space", inputs, rule, computed()))
}

impl Vented {
    /// Sum of the openings that sit in a place.
    pub fn at(&self, place: Place) -> Area {
        at(&self.parts, place)
    }

    fn of(case: &Case<'_>, attic: &Attic, when: When, needs: &Needed) -> Result<Self, LookupError> {
        let parts = parts(case, attic, when)?;
        let [low, high, unknown] = [Place::Low, Place::High, Place::Unknown].map(|place| at(&parts, place));
        let total = parts.iter().map(|part| part.area).sum();
        let provided = Provided { low, high, unknown, total };
        let conditions = conditions(case, attic, &provided, needs);
        let excepted = is_excepted(&case.edition.attic_vents, &conditions);
        let verdict = verdict(excepted, total, needs);
        let high_share = (total > Area::ZERO).then(|| high / total);
        Ok(Self {
            low,
            high,
            total,
            high_share,
            effective: in_series(low, total - low),
            conditions,
            excepted,
            verdict,
            parts,
        })
    }
}

fn at(parts: &[VentPart], place: Place) -> Area {
    parts.iter().filter(|part| part.place == place).map(|part| part.area).sum()
}

/// Area of two openings that the same air passes one after the other.
fn in_series(a: Area, b: Area) -> Area {
    let both = a.m2().hypot(b.m2());
    if both > 0.0 { Area::from_m2(a.m2() * b.m2() / both) } else { Area::ZERO }
}

/// Free area of the planned ridge vent over that of the roof vents taken away.
fn gain(case: &Case<'_>, attic: &Attic) -> Result<Option<f64>, LookupError> {
    let Some(planned) = &attic.plan.ridge_vent else { return Ok(None) };
    let gone = roof_vents(case, attic, When::Found).into_iter().filter(|(o, _)| o.state == State::Remove);
    let old: Area = gone.map(|(opening, _)| vent_area(case, opening).0).sum();
    let new: Area = ridge_parts(case, attic, planned)?.iter().map(|part| part.area).sum();
    Ok((old > Area::ZERO && new > Area::ZERO).then(|| new / old))
}

fn state_because(case: &Case<'_>, what: &str, vented: &Vented) -> Because {
    let vent = |area| case.words.vent(area);
    let mut inputs: Vec<_> = vented
        .parts
        .iter()
        .map(|part| input(&part.name, format!("{}, {}", vent(part.area), part.place.words())))
        .collect();
    let places = Place::ALL.into_iter().filter(|place| vented.at(*place) > Area::ZERO);
    inputs.extend(places.map(|place| input(place.words(), vent(vented.at(place)))));
    inputs.extend([
        input("in all", vent(vented.total)),
        input("part that is high", vented.high_share.map_or("none".to_owned(), percent)),
        input("effective, in series", vent(vented.effective)),
        input("verdict", vented.verdict.words()),
    ]);
    let mut rule =
        "areas added up; in series 1 / √(1/low² + 1/other²), because what goes out must first come in"
            .to_owned();
    if vented.at(Place::Unknown) > Area::ZERO {
        rule += "; the job has no height for gable louvers, so they count towards all, but not as high";
    }
    because(what, inputs, rule, computed())
}
