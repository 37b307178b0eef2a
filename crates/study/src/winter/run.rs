//! One house through one winter, and held at 22 °F: the steps behind every figure.

use ::winter::column::Column;
use ::winter::dam::Dam;
use ::winter::season::{Hour, Ledger, Season};
use ::winter::sky::{CLOUD, Clouds, Sky, black};
use ::winter::slope::{Diffuse, Received};
use ::winter::weather::Weather;
use heat::moist::saturation_over_water;
use measure::Length;

use super::log::Watch;
use super::model::{self, Model};
use super::unknown::Draw;
use super::{Ablation, Fixes, State, Taken};

/// Snow on the ground that counts as such, kg/m²; it wanes by a twentieth of each degree-hour above 0 °C (0.2 kg/m² an hour for each K: a rough index).
const COVERED: f64 = 5.0;
const WANES: f64 = 0.2;
/// Months colder than this are run through, °C.
pub(super) const COOL: f64 = 10.0;
/// The air at which vents are sized: 22 °F (Tobiasson, Buska and Greatorex, guidelines for ventilating attics and cathedral ceilings).
pub(crate) const DESIGN: f64 = -50.0 / 9.0;
/// Wind in which that is, m/s (chosen: a still winter's day).
pub(crate) const BREEZE: f64 = 2.0;
/// Days after which a state at that air is steady.
const DAYS: u32 = 10;

/// A house with its unknowns as drawn, through the winter as found and as planned, and with every fix at 22 °F.
#[derive(Clone, Debug)]
pub(super) struct Run {
    pub(super) found: State,
    pub(super) plan: State,
    pub(super) ablation: Vec<Ablation>,
}

impl Run {
    pub(super) fn of(model: &Model<'_>, spell: &Spell, draw: &Draw) -> Self {
        let rows = Fixes::worth(model.study).into_iter();
        let ablation: Vec<Ablation> =
            rows.map(|(name, fixes)| at_design(model, name, fixes, draw).0).collect();
        let through = |fixes: Fixes, design: Option<&Ablation>| {
            let (mut told, _) = state(model, fixes, spell, draw, true, &mut ());
            told.take_design(design);
            told
        };
        // the first is as found, the last as planned
        let found = through(Fixes::NONE, ablation.first());
        let plan = through(Fixes::ALL, ablation.last());
        Self { found, plan, ablation }
    }
}

/// The winter over the planes of a house.
#[derive(Clone, Debug)]
pub(super) struct Spell {
    pub(super) hours: Vec<Hour>,
    /// By hour, W/m² more from the sky for what clouds make up of what a clear one lacks.
    by_clouds: Vec<f64>,
}

impl Spell {
    pub(super) fn of(model: &Model<'_>, weather: &Weather) -> Self {
        let down = |hour: &::winter::weather::Hour, share: f64| {
            hour.sky_down(&Sky { clouds: Clouds::Share(share), ..Sky::default() })
        };
        let by_clouds = cool(weather).map(|hour| down(hour, 1.0) - down(hour, 0.0)).collect();
        Self { hours: hours(model, weather), by_clouds }
    }

    /// Air outdoors as it begins.
    pub(super) fn first_air(&self) -> f64 {
        self.hours.first().map_or(COOL, |hour| hour.sky.air)
    }

    /// The same in shorter steps.
    pub(super) fn finer(self, steps: u32) -> Self {
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
    let Taken { snowy, bare, .. } = model.study.taken;
    let mut ground = 0.0_f64;
    let of = |hour: &::winter::weather::Hour| {
        ground = (ground + hour.snow - WANES * hour.temperature.max(0.0)).max(0.0);
        let albedo = if ground > COVERED { snowy } else { bare };
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
pub(super) fn cool(weather: &Weather) -> impl Iterator<Item = &::winter::weather::Hour> {
    let is_cool = in_cool_months(weather);
    weather.through_winter().filter(move |hour| is_cool(hour))
}

/// Whether an hour lies in a month that is cool in a year.
pub(super) fn in_cool_months(weather: &Weather) -> impl Fn(&::winter::weather::Hour) -> bool + use<> {
    let months = weather.by_month(|hour| hour.temperature).map(|mean| mean < COOL);
    move |hour| months[usize::from(hour.date.month()) - 1]
}

/// A state through the winter, less the ice of cold rooms.
pub(super) fn state<W: Watch>(
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
pub(super) fn at_design(model: &Model<'_>, name: &str, fixes: Fixes, draw: &Draw) -> (Ablation, Ledger) {
    let Held { row, ledger, .. } = held(model, name, fixes, DESIGN, draw);
    (row, ledger)
}

/// What a state comes to in air of one temperature.
pub(crate) struct Held {
    pub(crate) row: Ablation,
    pub(super) ledger: Ledger,
    /// Air of each attic and the deck over it, °C.
    pub(crate) attics: Vec<[f64; 2]>,
    /// Air of the attics of the season, °C.
    pub(crate) parts: Vec<f64>,
}

/// The same of the job as written, in air of another temperature.
pub(crate) fn steady(model: &Model<'_>, name: &str, fixes: Fixes, outdoors: f64) -> Held {
    held(model, name, fixes, outdoors, &model.as_written())
}

fn held(model: &Model<'_>, name: &str, fixes: Fixes, outdoors: f64, draw: &Draw) -> Held {
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
    let air = model.parts.means(season.attics());
    let row = Ablation {
        fixes,
        name: name.to_owned(),
        deck: model.deck(&season),
        attic: air.first().copied().unwrap_or(outdoors),
        melt_day: melted,
        decks: season.columns().iter().map(Column::deck).collect(),
        ceiling: house.attics.iter().map(|attic| attic.to_rooms).sum(),
        vent: flows.iter().map(|flow| flow.vent).sum(),
        leak: flows.iter().map(|flow| flow.leak).sum(),
    };
    let attics = air.iter().zip(model.decks(&season)).map(|(air, deck)| [*air, deck]).collect();
    Held { row, ledger: *season.ledger(), attics, parts: season.attics().to_vec() }
}

/// How far up an eave's slope water may stand behind the ice, the lowest dam of that mass.
pub(super) fn pond(ice: f64, eave: &model::Eave) -> Length {
    let dam = Dam { pitch: eave.pitch, cold: eave.cold };
    dam.pond(dam.thickness(ice))
}
