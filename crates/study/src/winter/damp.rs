//! Vapor of the attics through a winter, and the wood it wets.
//!
//! # Method
//! Air that leaks up from the rooms brings their vapor, air through the vents that of outdoors, and a little goes through the ceiling itself. The underside of
//! each strip of deck and the framing take it up and give it off ([`heat::moist::dampen`]). All begin the winter in balance with autumn air.
//!
//! Rooms hold more vapor than outdoors by what people give off. That excess is what was read in a cold spell, in a tighter house as many times as much as less air goes through
//! it; as it gets milder it goes to nothing at 20 °C (ISO 13788:2012, annex A, has its classes of humidity so; from memory).
//!
//! # Range
//! One air in each attic: above a leak it is wetter than told. What drips is counted and not followed into insulation and ceiling. Wood is reckoned as softwood of 500 kg/m³.

use ::winter::season::{Hour, Season};
use book::thermal::MoldClass;
use book::{Book, LookupError};
use heat::moist::{
    At, MoistAir, Mold, Moved, Store, Wet, WoodLimits, WoodState, dampen, exchange, saturation_over_water,
};
use measure::Length;

use super::log::Watch;
use super::model::Model;
use super::run::Spell;
use crate::heat::vapor::{PERM, has_boards, humidity, mold_class, perms};

/// Outdoors from which rooms hold no more vapor, °C.
pub(super) const MILD: f64 = 20.0;
/// Wood, kg/m³.
const DENSITY: f64 = 500.0;
/// Half-inch panels and inch boards, m, where nobody measured the deck.
const PANEL: f64 = 0.0127;
const BOARD: f64 = 0.019;

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
    /// Water that dripped off decks and framing, kg.
    pub dripped: f64,
    /// Highest mold index on a strip, 0 to 6.
    pub mold: f64,
}

impl Damp {
    /// With another part of the same attic.
    fn take_worse(&mut self, other: &Self) {
        self.wood = self.wood.max(other.wood);
        self.frost = self.frost.max(other.frost);
        self.thaw = self.thaw.max(other.thaw);
        self.mold = self.mold.max(other.mold);
        self.dripped += other.dripped;
    }
}

/// Attics of the season being watched.
#[derive(Clone)]
pub(super) struct Damping {
    spaces: Vec<Space>,
    limits: WoodLimits,
    /// Vapor the rooms hold over that outdoors while it freezes, kg for each kg of dry air.
    excess: f64,
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
    /// Before a winter.
    pub(super) fn of(model: &Model<'_>, spell: &Spell, book: &Book) -> Result<Self, LookupError> {
        let first = spell.first_air();
        let spaces =
            model.parts.all().enumerate().map(|(part, of)| Space::of(model, (part, of), first, book));
        let excess = excess(humidity(&model.study.job, book), &spell.hours);
        Ok(Self { spaces: spaces.collect::<Result<_, _>>()?, limits: WoodLimits::of(book)?, excess })
    }

    /// In a house through which so many times as much air goes as when its humidity was read.
    pub(super) fn aired(&self, times: f64) -> Self {
        Self { excess: self.excess / times, ..self.clone() }
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

/// Vapor in air of outdoors or of the rooms, kg for each kg of dry air.
fn ratio(vapor: f64, temperature: f64, hour: &Hour) -> f64 {
    MoistAir::of_vapor(temperature, vapor, hour.sky.pressure).ratio
}

/// Share of the excess of freezing weather that rooms hold at a temperature outdoors.
fn colder(outdoors: f64) -> f64 {
    (1.0 - outdoors / MILD).clamp(0.0, 1.0)
}

/// Vapor that rooms of a humidity hold over that outdoors, mean over freezing hours.
fn excess(humidity: f64, hours: &[Hour]) -> f64 {
    let freezing: Vec<&Hour> = hours.iter().filter(|hour| hour.sky.air < 0.0).collect();
    let of = |hour: &&Hour| {
        let rooms = ratio(humidity * saturation_over_water(hour.rooms), hour.rooms, hour);
        rooms - ratio(hour.sky.vapour, hour.sky.air, hour)
    };
    let all: f64 = freezing.iter().map(of).sum();
    (all / freezing.len().max(1) as f64).max(0.0)
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
        let taken = model.study.taken;
        let slow = exchange(taken.convective);
        let ceiling = model.ceiling(attic).m2() * share;
        let thickness = model.deck_thickness(attic).map_or(if has_boards { BOARD } else { PANEL }, Length::m);
        let deck = |strip: &usize| Store::wood(model.shaped[*strip].area.m2(), thickness, DENSITY, slow);
        let framing = Store::wood(taken.framing * ceiling, taken.framing_depth, DENSITY, slow);
        let stores: Vec<Store> = strips.iter().map(deck).chain([framing]).collect();
        Ok(Self {
            damp: Damp { attic: surveyed.name.clone(), ..Damp::default() },
            class: mold_class(has_boards, book)?.clone(),
            wet: stores.iter().map(|store| store.in_balance(outdoors, taken.autumn)).collect(),
            mold: vec![bare_mold(has_boards); strips.len()],
            ceiling: ceiling * PERM * perms(surveyed, book)?,
            ratio: None,
            strips,
            stores,
        })
    }

    fn hour(&mut self, moved: &Moved, at: &[At], seconds: f64) {
        self.ratio = Some(dampen(moved, &self.stores, at, &mut self.wet, seconds));
        let strips = self.stores.iter().zip(&self.wet).zip(at).zip(&mut self.mold);
        for (((store, wet), at), mold) in strips {
            let (free, temperature) = (store.free(*wet, at), at.temperature());
            self.damp.frost = self.damp.frost.max(free);
            if temperature > 0.0 {
                self.damp.thaw = self.damp.thaw.max(free);
            }
            self.damp.wood = self.damp.wood.max(store.moisture(*wet, at).unwrap_or(0.0));
            mold.pass(&self.class, temperature, 100.0 * store.humidity(*wet, at), 1);
            self.damp.mold = self.damp.mold.max(mold.index);
        }
        for ((store, wet), at) in self.stores.iter().zip(&mut self.wet).zip(at) {
            self.damp.dripped += store.drip(wet, at) * store.area;
        }
    }
}

impl Watch for Damping {
    fn hour(&mut self, model: &Model<'_>, lived: &Season<'_>, _: &Season<'_>, hour: &Hour) {
        let outdoors = ratio(hour.sky.vapour, hour.sky.air, hour);
        let rooms = outdoors + self.excess * colder(hour.sky.air);
        for i in 0..self.spaces.len() {
            let (air, vapor) = self.brought(i, lived, outdoors);
            let space = &mut self.spaces[i];
            let (attic, flow) = (lived.attics()[i], lived.flows()[i]);
            let under = |strip: &usize| model.underside(lived.columns()[*strip].deck(), attic);
            let at: Vec<At> = space.strips.iter().map(under).chain([attic]).map(At::of).collect();
            let moved = Moved {
                air: [flow.leak, air],
                ratio: [rooms, if air > 0.0 { vapor / air } else { outdoors }],
                ceiling: space.ceiling,
                pressure: hour.sky.pressure,
            };
            space.hour(&moved, &at, hour.seconds);
        }
    }
}

#[cfg(test)]
mod tests {
    use ::winter::surface::Sky;

    use super::*;

    fn hour(air: f64) -> Hour {
        let vapour = 0.8 * saturation_over_water(air);
        let sky = Sky { air, vapour, pressure: 101_325.0, wind: 2.0, sun: 0.0, longwave: 250.0 };
        Hour { sky, rooms: 21.0, sun: vec![], snow: 0.0, rain: 0.0, wind_from: None, seconds: 3600.0 }
    }

    /// 40 % at 21 °C over 80 % at −8 °C: 6.17 less 1.65 g/kg, 0.622·995/100330 and 0.622·268/101057 with 2488 Pa and, over water as stations have it, 335 Pa of saturation (steam
    /// tables, from memory; by hand).
    #[test]
    fn rooms_hold_more_vapor_than_outdoors_by_what_was_read_in_the_cold() {
        let found = excess(0.40, &[hour(-8.0), hour(12.0)]);
        assert!((found - 4.52e-3).abs() < 0.02e-3, "{found}");
        for (outdoors, share) in [(-30.0, 1.0), (0.0, 1.0), (5.0, 0.75), (20.0, 0.0), (30.0, 0.0)] {
            assert!((colder(outdoors) - share).abs() < 1e-12, "{outdoors}");
        }
        assert!(excess(0.05, &[hour(-1.0)]).abs() < 1e-12, "rooms are no drier than outdoors");
        assert!(excess(0.40, &[hour(3.0)]).abs() < 1e-12, "where it never freezes nobody knows");
    }
}
