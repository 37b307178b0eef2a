//! Ice through a winter: the house as found, with each fix alone, and as planned.
//!
//! [`Winter::of`] takes a study and a year of weather. The roof is cut into strips ([`winter::shape`]) over the attics of the job; insulation, leakage and vents
//! are those surveyed or those planned, by which of the [`Fixes`] are done. Every state goes through the same winter twice: as lived in, and with rooms as
//! cold as the air outdoors. The ice of the first less that of the second is the ice the building makes; the sun makes the rest.
//!
//! # Range
//! Air in a plane's strips is that of one attic: what a low heel lets through warms all of it, not the strip over the wall alone. Lateral heat in the deck, water that wicks, wind that blows through snow are not reckoned: expect half to twice the
//! ice, and trust the order of the states before their amounts.

mod damp;
mod falls;
pub(crate) mod fans;
mod log;
pub(crate) mod model;
mod parameters;
mod sample;
mod sensitivity;
mod spread;
mod surface;
mod tell;
mod unknown;

use ::winter::column::Column;
use ::winter::dam::Dam;
use ::winter::season::{Hour, Ledger, Season};
use ::winter::sky::{CLOUD, Clouds, Sky, black};
use ::winter::slope::{Diffuse, Received};
use ::winter::weather::Weather;
use book::Book;
use heat::moist::saturation_over_water;
use job::Problem;
use measure::Length;

use crate::Study;
pub use damp::Damp;
use damp::Damping;
pub use falls::OnRoof;
pub use log::{Log, Outdoors, Slope, SlopeBand, State as LoggedState};
use log::{Raw, Watch};
use model::Model;
pub use parameters::parameters;
pub use sensitivity::{Index, indices};
pub use spread::{Band, Bands, FixBands, Influence, Measure, Sampling, Spread};
pub use tell::{Ablation, FREEZING_AIR, State};
use unknown::Draw;

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
    pub fn of(study: &Study, weather: &Weather, book: &Book) -> Result<Self, Vec<Problem>> {
        Ok(Self::watched(&Model::of(study)?, weather, book, || ())?.0)
    }

    /// The winter of a studied house, and what it was in every hour of it.
    ///
    /// # Errors
    /// As [`Winter::of`].
    pub fn logged(study: &Study, weather: &Weather, book: &Book) -> Result<(Self, Log), Vec<Problem>> {
        let model = Model::of(study)?;
        let (winter, found, plan) = Self::watched(&model, weather, book, Vec::<Raw>::new)?;
        Ok((winter, Log::of(&model, weather, found, plan)))
    }

    /// Fixes that take less than a tenth off the melt at 22 °F, and why; none where nothing melts.
    pub fn useless(&self) -> Vec<(&Ablation, &'static str)> {
        let Some((found, fixes)) = self.ablation.split_first().filter(|(found, _)| found.melt_day > 0.0)
        else {
            return Vec::new();
        };
        let helps_nothing = |row: &&Ablation| row.melt_day > 0.9 * found.melt_day;
        fixes.iter().filter(helps_nothing).map(|row| (row, row.why_useless(found))).collect()
    }

    /// A winter whose hours, as found and as planned, are looked at: what looked at them comes back.
    fn watched<W: Watch>(
        model: &Model<'_>,
        weather: &Weather,
        book: &Book,
        watch: impl Fn() -> W,
    ) -> Result<(Self, W, W), Vec<Problem>> {
        let spell = Spell::of(model, weather);
        let damping = Damping::of(model, spell.first_air(), book);
        let damping = damping.map_err(|lost| vec![Problem::not_in_books(&lost)])?;
        let (mut in_found, mut in_plan) = ((damping.clone(), watch()), (damping, watch()));
        let draw = model.as_written();
        let Run { mut found, mut plan, ablation, ledger } =
            Run::watched(model, &spell, &draw, &mut in_found, &mut in_plan);
        found.damp = in_found.0.told();
        plan.damp = in_plan.0.told();
        let closure = [0, 1].map(|i| f64::max(found.closure[i], plan.closure[i]));
        let told = weather.filled.iter().map(|(what, how, hours)| format!("{what} in {hours} hours {how}"));
        let filled = told.collect();
        let winter =
            Self { weather: weather.site.name.clone(), filled, found, plan, ablation, ledger, closure };
        Ok((winter, in_found.1, in_plan.1))
    }

    /// One state through the winter, with some fixes done, in steps of so many to the hour and so many bands over the attics in a plane: how fine is fine enough.
    ///
    /// # Errors
    /// As [`Self::of`].
    pub fn state(
        study: &Study,
        weather: &Weather,
        fixes: Fixes,
        fineness: Fine,
    ) -> Result<State, Vec<Problem>> {
        let model = Model::with(study, fineness.bands)?;
        let draw = model.as_written();
        let spell = Spell::of(&model, weather).finer(fineness.steps);
        Ok(state(&model, fixes, &spell, &draw, fineness.is_heated, &mut ()).0)
    }
}

/// How finely a state is reckoned, and whether anybody heats.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fine {
    /// Bands over the attic in a plane.
    pub bands: usize,
    /// Steps in an hour.
    pub steps: u32,
    /// Whether rooms are warm; else they are as cold as the air outdoors.
    pub is_heated: bool,
}

impl Default for Fine {
    fn default() -> Self {
        Self { bands: model::BANDS, steps: 1, is_heated: true }
    }
}

/// A house with its unknowns as drawn, through the winter and at 22 °F.
#[derive(Clone, Debug)]
struct Run {
    found: State,
    plan: State,
    ablation: Vec<Ablation>,
    ledger: Ledger,
}

impl Run {
    fn of(model: &Model<'_>, spell: &Spell, draw: &Draw) -> Self {
        Self::watched(model, spell, draw, &mut (), &mut ())
    }

    /// Whose hours, as found and as planned, are looked at.
    fn watched<W: Watch>(
        model: &Model<'_>,
        spell: &Spell,
        draw: &Draw,
        in_found: &mut W,
        in_plan: &mut W,
    ) -> Self {
        let rows = Fixes::ABLATION.map(|(name, fixes)| at_design(model, name, fixes, draw));
        // the first is as found, the last as planned
        let [(as_found, _), .., (as_planned, _)] = &rows;
        let through = |fixes: Fixes, design: &Ablation, watch: &mut W| {
            let (mut told, ledger) = state(model, fixes, spell, draw, true, watch);
            (told.deck_at_design, told.attic_at_design) = (design.deck, design.attic);
            (told, ledger)
        };
        let (found, first) = through(Fixes::default(), as_found, in_found);
        let (plan, second) = through(Fixes::ALL, as_planned, in_plan);
        let ledger = rows.iter().fold(first.worst(second), |worst, (_, own)| worst.worst(*own));
        Self { found, plan, ablation: rows.into_iter().map(|(row, _)| row).collect(), ledger }
    }
}

/// The winter over the planes of a house.
#[derive(Clone, Debug)]
struct Spell {
    hours: Vec<Hour>,
    /// By hour, W/m² more from the sky for what clouds make up of what a clear one lacks.
    by_clouds: Vec<f64>,
}

impl Spell {
    fn of(model: &Model<'_>, weather: &Weather) -> Self {
        let down = |hour: &::winter::weather::Hour, share: f64| {
            hour.sky_down(&Sky { clouds: Clouds::Share(share), ..Sky::default() })
        };
        let by_clouds = cool(weather).map(|hour| down(hour, 1.0) - down(hour, 0.0)).collect();
        Self { hours: hours(model, weather), by_clouds }
    }

    /// Air outdoors as it begins.
    fn first_air(&self) -> f64 {
        self.hours.first().map_or(COOL, |hour| hour.sky.air)
    }

    /// The same in shorter steps.
    fn finer(self, steps: u32) -> Self {
        let parts = f64::from(steps.max(1));
        let part = |hour: Hour| {
            let (seconds, snow, rain) = (hour.seconds / parts, hour.snow / parts, hour.rain / parts);
            std::iter::repeat_n(Hour { seconds, snow, rain, ..hour }, steps.max(1) as usize)
        };
        let again = |by: f64| std::iter::repeat_n(by, steps.max(1) as usize);
        Self {
            hours: self.hours.into_iter().flat_map(part).collect(),
            by_clouds: self.by_clouds.into_iter().flat_map(again).collect(),
        }
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
            wind_from: hour.wind_from,
            seconds: 3600.0,
        }
    };
    cool(weather).map(of).collect()
}

/// Hours of months that are cool: what is warm before and after the winter makes no ice.
fn cool(weather: &Weather) -> impl Iterator<Item = &::winter::weather::Hour> {
    let means = weather.by_month(|hour| hour.temperature);
    weather.through_winter().filter(move |hour| means[usize::from(hour.date.month()) - 1] < COOL)
}

/// A state through the winter, less the ice of cold rooms.
fn state<W: Watch>(
    model: &Model<'_>,
    fixes: Fixes,
    spell: &Spell,
    draw: &Draw,
    is_heated: bool,
    watch: &mut W,
) -> (State, Ledger) {
    let house = model.house(fixes, draw);
    let first = spell.first_air();
    let mut lived = Season::bare(&house, model.air(fixes, draw), first);
    let mut cold = Season::bare(&house, model.air(fixes, draw), first);
    let mut told = State::default();
    for (hour, by_clouds) in spell.hours.iter().zip(&spell.by_clouds) {
        let longwave = hour.sky.longwave + (draw.clouds - CLOUD) * by_clouds;
        let rooms = if is_heated { hour.rooms + draw.rooms } else { hour.sky.air };
        lived.step_in(hour, rooms, longwave);
        cold.step_in(hour, hour.sky.air, longwave);
        told.add(model, &lived, &cold, hour, rooms);
        watch.hour(model, &lived, &cold, hour);
    }
    told.end(&lived, &cold);
    (told, lived.ledger().worst(*cold.ledger()))
}

/// A state after ten days at 22 °F under a foot of snow without sun, under a sky as cold as the air.
fn at_design(model: &Model<'_>, name: &str, fixes: Fixes, draw: &Draw) -> (Ablation, Ledger) {
    let (row, ledger, _) = held(model, name, fixes, DESIGN, draw);
    (row, ledger)
}

/// The same of the job as written, in air of another temperature, and what each attic and the deck over it come to, °C.
pub(crate) fn steady(
    model: &Model<'_>,
    name: &str,
    fixes: Fixes,
    outdoors: f64,
) -> (Ablation, Ledger, Vec<[f64; 2]>) {
    held(model, name, fixes, outdoors, &model.as_written())
}

fn held(
    model: &Model<'_>,
    name: &str,
    fixes: Fixes,
    outdoors: f64,
    draw: &Draw,
) -> (Ablation, Ledger, Vec<[f64; 2]>) {
    const FOOT: f64 = 0.3048;
    const SETTLED: f64 = 250.0;
    let house = model.house(fixes, draw);
    let column = Column::bare(outdoors).under_snow(FOOT, SETTLED, outdoors);
    let mut season = Season::from(&house, model.air(fixes, draw), vec![column; house.strips.len()], outdoors);
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
        rooms: model.rooms + draw.rooms,
        sun: vec![0.0; model.planes.len()],
        snow: 0.0,
        rain: 0.0,
        wind_from: None,
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
        fixes,
        name: name.to_owned(),
        deck: model.deck(&season),
        attic: season.attics().first().copied().unwrap_or(outdoors),
        melt_day: melted,
        decks: season.columns().iter().map(Column::deck).collect(),
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
