//! Vapor of the attics through a winter, and the wood it wets.
//!
//! # Method
//! Air that leaks up from the rooms brings their vapor, air through the vents that of outdoors, and a little goes through the ceiling itself. The underside of
//! each strip of deck and the framing take it up and give it off ([`heat::moist::dampen`]). All begin the winter in balance with autumn air.
//!
//! # Range
//! One air in each attic: above a leak it is wetter than told. What drips is not followed. Wood is reckoned as softwood of 500 kg/m³.

use ::winter::season::{Hour, Season};
use book::thermal::MoldClass;
use book::{Book, LookupError};
use heat::moist::{
    MoistAir, Mold, Moved, Store, Wet, WoodLimits, WoodState, dampen, exchange, saturation_over_water,
};
use measure::Length;

use super::log::Watch;
use super::model::Model;
use crate::heat::vapor::{PERM, has_boards, humidity, mold_class, perms};

/// Wood, kg/m³.
const DENSITY: f64 = 500.0;
/// Autumn air (common practice).
const AUTUMN: f64 = 0.8;
/// Rafters or trusses: surface for each m² of ceiling, and half their thickness, m (2x8 at 16 in have 0.9; common practice).
const FRAMING: (f64, f64) = (0.9, 0.019);
/// Half-inch panels and inch boards, m, where nobody measured the deck.
const PANEL: f64 = 0.0127;
const BOARD: f64 = 0.019;
/// Heat between air and deck by which vapor goes too, W/(m²·K) (2 to 4 in attics; from memory).
const CONVECTIVE: f64 = 3.0;

/// What the vapor of an attic did in a winter.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Damp {
    /// The attic.
    pub attic: String,
    /// Highest moisture of the deck through its thickness, at its wettest strip, share of its dry weight; frost on it apart.
    pub wood: f64,
    /// How wood so moist stands.
    pub stands: WoodState,
    /// Most frost or water on the underside of a strip, kg/m².
    pub frost: f64,
    /// Most of it on a strip that was not frozen: what may drip in a thaw, kg/m².
    pub thaw: f64,
    /// Highest mold index on a strip, 0 to 6.
    pub mold: f64,
}

impl Damp {
    fn take_worse(&mut self, other: &Self) {
        self.wood = self.wood.max(other.wood);
        self.frost = self.frost.max(other.frost);
        self.thaw = self.thaw.max(other.thaw);
        self.mold = self.mold.max(other.mold);
    }
}

/// Attics of the season being watched.
#[derive(Clone)]
pub(super) struct Damping {
    spaces: Vec<Space>,
    limits: WoodLimits,
    /// Relative humidity of the rooms.
    rooms: f64,
}

/// A clean surface; what grows on panels declines half as fast as on sawn pine where it is dry (Ojanen and others 2010, from memory).
fn bare_mold(has_boards: bool) -> Mold {
    let mut mold = Mold::new(0.0);
    mold.declines = if has_boards { 1.0 } else { 0.5 };
    mold
}

/// One of them: its strips, and the framing last.
#[derive(Clone)]
struct Space {
    damp: Damp,
    strips: Vec<usize>,
    stores: Vec<Store>,
    wet: Vec<Wet>,
    class: MoldClass,
    mold: Vec<Mold>,
    /// Vapor through its ceiling, kg/(s·Pa).
    ceiling: f64,
    /// Vapor in its air, kg for each kg of dry air; none before the first hour.
    ratio: Option<f64>,
}

impl Damping {
    /// Before the winter, at a temperature outdoors.
    pub(super) fn of(model: &Model<'_>, outdoors: f64, book: &Book) -> Result<Self, LookupError> {
        let spaces =
            model.parts.all().enumerate().map(|(part, of)| Space::of(model, (part, of), outdoors, book));
        let rooms = humidity(&model.study.job, book);
        Ok(Self { spaces: spaces.collect::<Result<_, _>>()?, limits: WoodLimits::of(book)?, rooms })
    }

    /// Air that comes into an attic from outdoors and from other attics, kg/s, and the vapor in it; of attics that come after it as it was an hour before.
    fn brought(&self, attic: usize, season: &Season<'_>, outdoors: f64) -> (f64, f64) {
        let vent = season.flows()[attic].vent;
        let passing = season.passing().iter().filter(|passing| passing.to == attic);
        passing.fold((vent, vent * outdoors), |(air, vapor), passing| {
            let ratio = self.spaces[passing.from].ratio.unwrap_or(outdoors);
            (air + passing.flow, vapor + passing.flow * ratio)
        })
    }

    /// After the winter, each attic by the worst of its parts.
    pub(super) fn told(self) -> Vec<Damp> {
        let mut told: Vec<Damp> = Vec::new();
        for Space { damp, .. } in self.spaces {
            match told.last_mut().filter(|last| last.attic == damp.attic) {
                Some(last) => last.take_worse(&damp),
                None => told.push(damp),
            }
        }
        told.into_iter().map(|damp| Damp { stands: self.limits.state(damp.wood), ..damp }).collect()
    }
}

impl Space {
    fn of(
        model: &Model<'_>,
        (part, (attic, share)): (usize, (usize, f64)),
        outdoors: f64,
        book: &Book,
    ) -> Result<Self, LookupError> {
        let surveyed = model.surveyed(attic);
        let has_boards = has_boards(&model.study.job, surveyed);
        let strips = model.parts.over(part);
        let slow = exchange(CONVECTIVE);
        let ceiling = model.ceiling(attic).m2() * share;
        let thickness = model.deck_thickness(attic).map_or(if has_boards { BOARD } else { PANEL }, Length::m);
        let deck = |strip: &usize| Store::wood(model.shaped[*strip].area.m2(), thickness, DENSITY, slow);
        let framing = Store::wood(FRAMING.0 * ceiling, FRAMING.1, DENSITY, slow);
        let stores: Vec<Store> = strips.iter().map(deck).chain([framing]).collect();
        Ok(Self {
            damp: Damp { attic: surveyed.name.clone(), ..Damp::default() },
            class: mold_class(has_boards, book)?.clone(),
            wet: stores.iter().map(|store| store.in_balance(outdoors, AUTUMN)).collect(),
            mold: vec![bare_mold(has_boards); strips.len()],
            ceiling: ceiling * PERM * perms(surveyed, book)?,
            ratio: None,
            strips,
            stores,
        })
    }

    fn hour(&mut self, moved: &Moved, temperatures: &[f64], seconds: f64) {
        self.ratio = Some(dampen(moved, &self.stores, temperatures, &mut self.wet, seconds));
        let strips = self.stores.iter().zip(&self.wet).zip(temperatures).zip(&mut self.mold);
        for (((store, wet), temperature), mold) in strips {
            let free = store.free(*wet, *temperature);
            self.damp.frost = self.damp.frost.max(free);
            if *temperature > 0.0 {
                self.damp.thaw = self.damp.thaw.max(free);
            }
            self.damp.wood = self.damp.wood.max(store.moisture(*wet, *temperature).unwrap_or(0.0));
            mold.pass(&self.class, *temperature, 100.0 * store.humidity(*wet, *temperature), 1);
            self.damp.mold = self.damp.mold.max(mold.index);
        }
    }
}

impl Watch for Damping {
    fn hour(&mut self, _: &Model<'_>, lived: &Season<'_>, _: &Season<'_>, hour: &Hour) {
        let ratio =
            |vapor: f64, temperature: f64| MoistAir::of_vapor(temperature, vapor, hour.sky.pressure).ratio;
        let outdoors = ratio(hour.sky.vapour, hour.sky.air);
        // in mild weather rooms are no drier than the air that comes in
        let rooms = ratio(self.rooms * saturation_over_water(hour.rooms), hour.rooms).max(outdoors);
        for i in 0..self.spaces.len() {
            let (air, vapor) = self.brought(i, lived, outdoors);
            let space = &mut self.spaces[i];
            let (attic, flow) = (lived.attics()[i], lived.flows()[i]);
            let under = |strip: &usize| Model::underside(lived.columns()[*strip].deck(), attic);
            let temperatures: Vec<f64> = space.strips.iter().map(under).chain([attic]).collect();
            let moved = Moved {
                air: [flow.leak, air],
                ratio: [rooms, if air > 0.0 { vapor / air } else { outdoors }],
                ceiling: space.ceiling,
                pressure: hour.sky.pressure,
            };
            space.hour(&moved, &temperatures, hour.seconds);
        }
    }
}
