//! A winter hour by hour: the weather, and what roof, attics and the worst eave do with it as found and as planned.
//!
//! Nothing of it is kept unless [`Winter::logged`](super::Winter::logged) asks for it: whoever runs many winters watches with `()`, which costs nothing.

use ::winter::calendar::Date;
use ::winter::season::{Hour, Season};
use ::winter::shape::Place;
use ::winter::weather::Weather;
use measure::{Length, Pitch};
use roof::{EdgeKind, PlaneId};

use super::model::Model;
use super::{Ablation, cool, pond};

/// What looks at a state in every hour.
pub(super) trait Watch {
    /// After an hour, lived in and with rooms as cold as outdoors.
    fn hour(&mut self, model: &Model<'_>, lived: &Season<'_>, cold: &Season<'_>, hour: &Hour);
}

impl Watch for () {
    fn hour(&mut self, _: &Model<'_>, _: &Season<'_>, _: &Season<'_>, _: &Hour) {}
}

impl<W: Watch> Watch for Option<W> {
    fn hour(&mut self, model: &Model<'_>, lived: &Season<'_>, cold: &Season<'_>, hour: &Hour) {
        if let Some(watch) = self {
            watch.hour(model, lived, cold, hour);
        }
    }
}

impl<W: Watch, V: Watch> Watch for (W, V) {
    fn hour(&mut self, model: &Model<'_>, lived: &Season<'_>, cold: &Season<'_>, hour: &Hour) {
        self.0.hour(model, lived, cold, hour);
        self.1.hour(model, lived, cold, hour);
    }
}

/// What is kept of an hour before the worst eave is known.
#[derive(Clone, Debug)]
pub(super) struct Raw {
    depth: f64,
    water: f64,
    attics: Vec<f64>,
    /// By strip.
    decks: Vec<f64>,
    /// By eave: ice, and that of cold rooms, kg on a metre of eave.
    ice: Vec<[f64; 2]>,
}

impl Watch for Vec<Raw> {
    fn hour(&mut self, model: &Model<'_>, lived: &Season<'_>, cold: &Season<'_>, _: &Hour) {
        let columns = lived.columns();
        let strips = || columns.iter().zip(&lived.house().strips);
        let area: f64 = strips().map(|(_, strip)| strip.area).sum();
        let mean = |of: fn(&::winter::column::Column) -> f64| {
            strips().map(|(column, strip)| of(column) * strip.area).sum::<f64>() / area
        };
        let on_metre = |season: &Season<'_>, eave: &super::model::Eave| {
            season.columns()[eave.strip].ice() * eave.cold.m()
        };
        self.push(Raw {
            depth: mean(::winter::column::Column::snow_depth),
            water: mean(::winter::column::Column::snow_water),
            attics: model.parts.means(lived.attics()),
            decks: columns.iter().map(::winter::column::Column::deck).collect(),
            ice: model.eaves.iter().map(|eave| [on_metre(lived, eave), on_metre(cold, eave)]).collect(),
        });
    }
}

/// A winter hour by hour. It holds the months that are cold, from the first after the warmest on.
#[derive(Clone, Debug, PartialEq)]
pub struct Log {
    /// Hours the clock of the place is ahead of universal time.
    pub zone: f64,
    /// Names of the attics, in the order of [`State::attics`].
    pub attics: Vec<String>,
    /// Where most ice stands as found; none where no eave reaches past its wall.
    pub slope: Option<Slope>,
    /// The weather.
    pub weather: Vec<Outdoors>,
    /// As found, by the same hours.
    pub found: Vec<State>,
    /// As planned.
    pub plan: Vec<State>,
}

/// The weather of an hour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outdoors {
    /// The day.
    pub date: Date,
    /// The hour that begins, 0 to 23.
    pub hour: u8,
    /// Air, °C.
    pub temperature: f64,
    /// Wind where it is measured, m/s.
    pub wind: f64,
    /// Snow on open ground, kg/m².
    pub snow: f64,
    /// Rain on open ground, kg/m².
    pub rain: f64,
}

/// The roof at the end of an hour.
#[derive(Clone, Debug, PartialEq)]
pub struct State {
    /// Depth of the snow square to the roof, mean of all planes, m.
    pub snow_depth: f64,
    /// Water in it, frozen or not, mean of all planes, kg/m².
    pub snow_water: f64,
    /// Of each attic, °C.
    pub attics: Vec<f64>,
    /// Deck of each band of [`Log::slope`], °C.
    pub decks: Vec<f64>,
    /// Ice on the eave of that slope, kg on a metre.
    pub ice: f64,
    /// The part of it that cold rooms would leave.
    pub sun_ice: f64,
    /// How far up the slope past the cold zone water stands behind the lowest dam of that ice, m.
    pub pond: f64,
}

/// The slope over the eave on which most ice stands, from its edge upward.
#[derive(Clone, Debug, PartialEq)]
pub struct Slope {
    /// Its plane.
    pub plane: String,
    /// Numbers of its eaves on the drawings.
    pub eaves: Vec<usize>,
    /// Pitch.
    pub pitch: Pitch,
    /// Along the slope from the eave's edge to the wall line.
    pub cold: Length,
    /// Along the slope from the eave's edge to the top.
    pub top: Length,
    /// Top of the wall under it, above the zero of heights.
    pub plate: Length,
    /// Whether another slope leans on it at the top.
    pub is_ridged: bool,
    /// Along the slope from the eave's edge over which ice barrier is laid by plan.
    pub membrane: Length,
    /// Strips from the eave upward.
    pub bands: Vec<SlopeBand>,
}

/// A strip of a slope.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SlopeBand {
    /// Along the slope from the eave's edge.
    pub from: Length,
    /// To.
    pub to: Length,
    /// Whether an attic lies under it.
    pub is_over_attic: bool,
    /// Its number among all strips of the roof.
    pub(super) strip: usize,
}

impl Slope {
    /// Decks of a state at 22 °F by band, °C.
    pub fn decks(&self, row: &Ablation) -> Vec<f64> {
        self.bands.iter().map(|band| row.decks[band.strip]).collect()
    }

    fn of(model: &Model<'_>, eave: &super::model::Eave) -> Self {
        let plane = model.shaped[eave.strip].plane;
        let of = model.study.roof.plane(plane);
        let edges = of.edges.iter().copied();
        let is = |kinds: &'static [EdgeKind]| {
            move |edge: &roof::EdgeId| kinds.contains(&model.study.roof.edge(*edge).kind)
        };
        let heights = of.outline.iter().map(|point| point[2]);
        let low = heights.clone().fold(f64::INFINITY, f64::min);
        let high = heights.fold(f64::NEG_INFINITY, f64::max);
        let top = Length::from_m((high - low) / of.pitch.slope().max(1e-6) * of.pitch.slope_factor());
        Self {
            plane: of.name.clone(),
            eaves: edges.clone().filter(is(&[EdgeKind::Eave])).map(roof::EdgeId::number).collect(),
            pitch: of.pitch,
            cold: eave.cold,
            top,
            plate: plate(model, plane),
            is_ridged: edges.clone().any(|edge| is(&[EdgeKind::Ridge, EdgeKind::Hip])(&edge)),
            membrane: eave.membrane,
            bands: bands(model, plane, eave, top),
        }
    }
}

/// Top of the wall under the foot of a plane: the lowest plate of its blocks.
fn plate(model: &Model<'_>, plane: PlaneId) -> Length {
    let blocks = &model.study.roof.plane(plane).blocks;
    let walls = model.study.roof.walls.iter().filter(|wall| blocks.contains(&wall.block));
    Length::from_m(walls.map(|wall| wall.plate.m()).fold(f64::INFINITY, f64::min))
}

/// Overhang and bands over the attic of a plane, each over the attic that has most of it.
fn bands(model: &Model<'_>, plane: PlaneId, eave: &super::model::Eave, top: Length) -> Vec<SlopeBand> {
    let mut bands =
        vec![SlopeBand { from: Length::ZERO, to: eave.cold, is_over_attic: false, strip: eave.strip }];
    let height = (top - eave.cold) * (super::model::BANDS as f64).recip();
    for number in 0..super::model::BANDS {
        let is_it = |place: Place| matches!(place, Place::Over { plane: of, band, .. } if of == plane.0 && band == number);
        let strips = model.shaped.iter().enumerate().filter(|(_, shaped)| is_it(shaped.place));
        let largest = strips.max_by(|a, b| a.1.area.m2().total_cmp(&b.1.area.m2()));
        bands.extend(largest.map(|(strip, _)| SlopeBand {
            from: eave.cold + height * number as f64,
            to: eave.cold + height * (number + 1) as f64,
            is_over_attic: true,
            strip,
        }));
    }
    bands
}

impl Log {
    pub(super) fn of(model: &Model<'_>, weather: &Weather, found: Vec<Raw>, plan: Vec<Raw>) -> Self {
        let most =
            |eave: usize| found.iter().map(|raw| raw.ice[eave][0] - raw.ice[eave][1]).fold(0.0, f64::max);
        // of two alike the first
        let worst = (0..model.eaves.len()).rev().max_by(|a, b| most(*a).total_cmp(&most(*b)));
        let slope = worst.map(|eave| Slope::of(model, &model.eaves[eave]));
        let state = |raw: Raw| {
            let [ice, sun_ice] = worst.map_or([0.0; 2], |eave| raw.ice[eave]);
            State {
                snow_depth: raw.depth,
                snow_water: raw.water,
                decks: slope
                    .iter()
                    .flat_map(|slope| &slope.bands)
                    .map(|band| raw.decks[band.strip])
                    .collect(),
                attics: raw.attics,
                ice,
                sun_ice,
                pond: worst.map_or(0.0, |eave| pond(ice, &model.eaves[eave]).m()),
            }
        };
        Self {
            zone: weather.site.zone,
            attics: model.attics().map(str::to_owned).collect(),
            weather: cool(weather).map(Outdoors::of).collect(),
            found: found.into_iter().map(state).collect(),
            plan: plan.into_iter().map(state).collect(),
            slope,
        }
    }
}

impl Outdoors {
    const fn of(hour: &::winter::weather::Hour) -> Self {
        let &::winter::weather::Hour { date, hour: number, temperature, wind, snow, rain, .. } = hour;
        Self { date, hour: number.saturating_sub(1), temperature, wind, snow, rain }
    }
}
