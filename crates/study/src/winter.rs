//! Ice through a winter: the house as found, with each fix alone, and as planned.
//!
//! [`Winter::of`] takes a study and a year of weather. The roof is cut into strips ([`winter::shape`]) over the attics of the job; insulation, leakage and vents
//! are those surveyed or those planned, by which of the [`Fixes`] are done. Every state goes through the same winter twice: as lived in, and with rooms as
//! cold as the air outdoors. The ice of the first less that of the second is the ice the building makes; the sun makes the rest.
//!
//! # Range
//! Air in a plane's strips is that of one attic: what a low heel lets through warms all of it, not the strip over the wall alone. Lateral heat in the deck, water that wicks, wind in snow are not reckoned: expect half to twice the
//! ice, and trust the order of the states before their amounts.

pub(crate) mod model;
mod tell;

use ::winter::column::Column;
use ::winter::dam::Dam;
use ::winter::season::{Hour, Ledger, Season};
use ::winter::sky::{Sky, black};
use ::winter::slope::{Diffuse, Received};
use ::winter::weather::Weather;
use heat::moist::saturation_over_water;
use job::Problem;
use measure::Length;

use crate::Study;
use model::Model;
pub use tell::{Ablation, State};

/// What is done about the ice. As found nothing is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[allow(clippy::struct_excessive_bools, reason = "each may be done without the others")]
pub struct Fixes {
    /// Leaks of the ceiling are sealed.
    pub seal: bool,
    /// Insulation is laid.
    pub insulate: bool,
    /// Vents at the eaves are opened.
    pub low_vents: bool,
    /// Vents at the ridge are cut, others closed.
    pub high_vents: bool,
}

impl Fixes {
    /// All of them.
    pub const ALL: Self = Self { seal: true, insulate: true, low_vents: true, high_vents: true };

    /// Each worth looking at alone, and together, in words for papers.
    pub const ABLATION: [(&'static str, Self); 7] = {
        let none = Self { seal: false, insulate: false, low_vents: false, high_vents: false };
        [
            ("as found", none),
            ("ridge vent alone, eaves as found", Self { high_vents: true, ..none }),
            ("leaks sealed alone", Self { seal: true, ..none }),
            ("insulated alone", Self { insulate: true, ..none }),
            ("vented at eaves and ridge alone", Self { low_vents: true, high_vents: true, ..none }),
            ("sealed and insulated, vents as found", Self { seal: true, insulate: true, ..none }),
            ("as planned", Self::ALL),
        ]
    };
}

/// Ice as found and as planned.
#[derive(Clone, Debug, PartialEq)]
pub struct Winter {
    /// Where the weather was read.
    pub weather: String,
    /// What of it was filled in, left out or corrected, in words.
    pub filled: Vec<String>,
    /// As surveyed.
    pub found: State,
    /// As it will be.
    pub plan: State,
    /// Each fix alone and together, at 22 °F under a foot of snow.
    pub ablation: Vec<Ablation>,
    /// What did not close in a step, at its worst over all runs.
    pub ledger: Ledger,
    /// Heat and mass that did not close over the winter, as shares of what moved and fell, at their worst.
    pub closure: [f64; 2],
}

/// Snow that falls on a roof, as a share of what falls on open ground (0.6 to 0.8 by wind; common practice).
const CATCH: f64 = 0.8;
/// Ground under snow throws back so much of the sun, and bare so much (0.6 to 0.7 and 0.2; from memory).
const SNOWY: f64 = 0.65;
const BARE: f64 = 0.2;
/// Snow on the ground that counts as such, kg/m²; it wanes by a twentieth of each degree-hour above 0 °C (0.2 kg/m² an hour for each K: a rough index).
const COVERED: f64 = 5.0;
const WANES: f64 = 0.2;
/// Months colder than this are run through, °C.
const COOL: f64 = 10.0;
/// The air at which vents are sized: 22 °F (Tobiasson, Buska and Greatorex, guidelines for ventilating attics and cathedral ceilings).
pub(crate) const DESIGN: f64 = -50.0 / 9.0;
/// Wind in which that is, m/s (chosen: a still winter's day).
pub(crate) const BREEZE: f64 = 2.0;
/// Days after which a state at that air is steady.
const DAYS: u32 = 10;

impl Winter {
    /// The winter of a studied house.
    ///
    /// # Errors
    /// What the survey lacks to reckon with, each by its field.
    pub fn of(study: &Study, weather: &Weather) -> Result<Self, Vec<Problem>> {
        let model = Model::of(study)?;
        let hours = hours(&model, weather);
        let rows = Fixes::ABLATION.map(|(name, fixes)| at_design(&model, name, fixes));
        // the first is as found, the last as planned
        let [(as_found, _), .., (as_planned, _)] = &rows;
        let (found, first) = state(&model, Fixes::default(), &hours, as_found);
        let (plan, second) = state(&model, Fixes::ALL, &hours, as_planned);
        let ledger = rows.iter().fold(first.worst(second), |worst, (_, own)| worst.worst(*own));
        let ablation = rows.into_iter().map(|(row, _)| row).collect();
        let closure = [0, 1].map(|i| f64::max(found.closure[i], plan.closure[i]));
        let told = weather.filled.iter().map(|(what, how, hours)| format!("{what} in {hours} hours {how}"));
        let filled = told.collect();
        Ok(Self { weather: weather.site.name.clone(), filled, found, plan, ablation, ledger, closure })
    }
}

/// Weather on the planes of a house, from the warmest month on.
fn hours(model: &Model<'_>, weather: &Weather) -> Vec<Hour> {
    let mut ground = 0.0_f64;
    let of = |hour: &::winter::weather::Hour| {
        ground = (ground + hour.snow - WANES * hour.temperature.max(0.0)).max(0.0);
        let albedo = if ground > COVERED { SNOWY } else { BARE };
        let sun = weather.on(hour, &model.planes, albedo, Diffuse::Perez);
        Hour {
            sky: ::winter::surface::Sky {
                air: hour.temperature,
                vapour: hour.vapour(),
                pressure: hour.pressure,
                wind: hour.wind,
                sun: 0.0,
                longwave: hour.sky_down(&Sky::default()),
            },
            rooms: model.rooms,
            sun: sun.iter().map(Received::total).collect(),
            snow: hour.snow,
            rain: hour.rain,
            seconds: 3600.0,
        }
    };
    // what is warm before and after the winter makes no ice
    let means = weather.by_month(|hour| hour.temperature);
    let is_cool = |hour: &&::winter::weather::Hour| means[usize::from(hour.date.month()) - 1] < COOL;
    weather.through_winter().filter(is_cool).map(of).collect()
}

/// A state through the winter, less the ice of cold rooms.
fn state(model: &Model<'_>, fixes: Fixes, hours: &[Hour], design: &Ablation) -> (State, Ledger) {
    let house = model.house(fixes);
    let mut lived = Season::bare(&house, model.air(fixes), hours[0].sky.air);
    let mut cold = Season::bare(&house, model.air(fixes), hours[0].sky.air);
    let mut told = State::default();
    for hour in hours {
        lived.step(hour);
        cold.step(&Hour { rooms: hour.sky.air, ..hour.clone() });
        told.add(model, &lived, &cold, hour);
    }
    told.end(&lived, &cold);
    told.deck_at_design = design.deck;
    told.attic_at_design = design.attic;
    (told, lived.ledger().worst(*cold.ledger()))
}

/// A state after ten days at 22 °F under a foot of snow without sun, under a sky as cold as the air.
fn at_design(model: &Model<'_>, name: &str, fixes: Fixes) -> (Ablation, Ledger) {
    let (row, ledger, _) = steady(model, name, fixes, DESIGN);
    (row, ledger)
}

/// The same in air of another temperature, and what each attic and the deck over it come to, °C.
pub(crate) fn steady(
    model: &Model<'_>,
    name: &str,
    fixes: Fixes,
    outdoors: f64,
) -> (Ablation, Ledger, Vec<[f64; 2]>) {
    const FOOT: f64 = 0.3048;
    const SETTLED: f64 = 250.0;
    let house = model.house(fixes);
    let column = Column::bare(outdoors).under_snow(FOOT, SETTLED, outdoors);
    let mut season = Season::from(&house, model.air(fixes), vec![column; house.strips.len()], outdoors);
    let sky = ::winter::surface::Sky {
        air: outdoors,
        vapour: 0.8 * saturation_over_water(outdoors),
        pressure: model.pressure,
        wind: BREEZE,
        sun: 0.0,
        longwave: black(outdoors),
    };
    let hour = Hour {
        sky,
        rooms: model.rooms,
        sun: vec![0.0; model.planes.len()],
        snow: 0.0,
        rain: 0.0,
        seconds: 3600.0,
    };
    let mut melted = 0.0;
    for day in 0..DAYS {
        let before = season.sums().base_melt;
        for _ in 0..24 {
            season.step(&hour);
        }
        if day + 1 == DAYS {
            melted = season.sums().base_melt - before;
        }
    }
    let flows = season.flows();
    let row = Ablation {
        name: name.to_owned(),
        deck: model.deck(&season),
        attic: season.attics().first().copied().unwrap_or(outdoors),
        melt_day: melted,
        vent: flows.iter().map(|flow| flow.vent).sum(),
        leak: flows.iter().map(|flow| flow.leak).sum(),
    };
    let attics = season.attics().iter().zip(model.decks(&season)).map(|(air, deck)| [*air, deck]).collect();
    (row, *season.ledger(), attics)
}

/// How far up an eave's slope water may stand behind the ice, the lowest dam of that mass.
fn pond(ice: f64, eave: &model::Eave) -> Length {
    let dam = Dam { pitch: eave.pitch, cold: eave.cold };
    dam.pond(dam.thickness(ice))
}
