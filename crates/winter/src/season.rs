//! A roof through the hours: strips of snow and ice over attics whose air leaks, vents and loses heat through them.
//!
//! # Method
//! Each step takes a temperature of every attic, moves the air it makes, sends heat and water down all strips from the highest to the lowest and asks
//! what heat each attic is left with. That falls strictly with its temperature, and its slope is known from the strips, so Newton's steps find where
//! nothing is left. What the last pass did to snow and ice then holds.
//!
//! # Ledger
//! Mass and heat of all strips, and heat of the attics, close in each step; the worst of each is kept ([`Ledger`]).

use heat::air::SPECIFIC_HEAT;

use crate::column::{Base, Column, Outcome, Weather};
use crate::sky::on_cosine;
use crate::surface::Sky;

/// Passes over all strips in a step, and those after which what is bracketed is halved: air that quickens as an attic warms is not in the slope.
const PASSES: usize = 48;
const HALVED: usize = 8;
/// An attic this near its balance has found it, K.
const STILL: f64 = 1e-4;

/// What lies under a strip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Below {
    /// The air of an attic, by its number.
    Attic(usize),
    /// Air outdoors, as under an overhang.
    Outdoors,
}

/// A strip across a plane, or along a valley.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// The plane it lies in, by its number.
    pub plane: usize,
    /// Area on the slope, m².
    pub area: f64,
    /// What lies under it.
    pub below: Below,
    /// Deck and covering.
    pub base: Base,
    /// Snow on a m² of it for each kg/m² that falls on open ground: by the slope and the wind.
    pub catch: f64,
    /// Strips after it in order into which its water runs, each with its share; the rest leaves the roof.
    pub to: Vec<(usize, f64)>,
}

/// How a plane lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Aspect {
    /// Cosine of its slope.
    pub cosine: f64,
}

/// An attic.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Attic {
    /// Heat through ceiling and walls to the rooms for each kelvin, W/K.
    pub to_rooms: f64,
    /// Heat through gables straight to the air outdoors, W/K.
    pub to_outdoors: f64,
    /// Heat its air holds, J/K; may be 0.
    pub capacity: f64,
}

/// A roof over its attics.
#[derive(Clone, Debug, PartialEq)]
pub struct House {
    /// Strips, those uphill before those their water runs into.
    pub strips: Vec<Strip>,
    /// Planes, by number.
    pub planes: Vec<Aspect>,
    /// Attics, by number.
    pub attics: Vec<Attic>,
}

/// Air through an attic, kg/s.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Through {
    /// From the rooms.
    pub leak: f64,
    /// From outdoors.
    pub vent: f64,
}

/// What moves air.
pub trait Airflow {
    /// Air through each attic at the temperatures of outdoors, rooms and attics, °C, and wind, m/s.
    fn through(&mut self, outdoors: f64, rooms: f64, wind: f64, attics: &[f64], flows: &mut [Through]);
}

/// Air that moves alike in every hour.
#[derive(Clone, Debug, PartialEq)]
pub struct Steady(pub Vec<Through>);

impl Airflow for Steady {
    fn through(&mut self, _: f64, _: f64, _: f64, _: &[f64], flows: &mut [Through]) {
        flows.copy_from_slice(&self.0);
    }
}

/// Weather of a step over the whole roof.
#[derive(Clone, Debug, PartialEq)]
pub struct Hour {
    /// Over a level surface; its sun is not used.
    pub sky: Sky,
    /// Air of the rooms, °C.
    pub rooms: f64,
    /// Sun on each plane, W/m².
    pub sun: Vec<f64>,
    /// Snow on open ground, kg/m².
    pub snow: f64,
    /// Rain on open ground, kg/m².
    pub rain: f64,
    /// Length, s.
    pub seconds: f64,
}

/// What does not close, at its worst.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Ledger {
    /// Of a strip in a step, kg/m².
    pub mass: f64,
    /// Of a strip in a step, J/m².
    pub heat: f64,
    /// Of an attic in a step, W.
    pub attic: f64,
}

impl Ledger {
    /// The worse of both.
    #[must_use]
    pub const fn worst(self, other: Self) -> Self {
        Self {
            mass: self.mass.max(other.mass),
            heat: self.heat.max(other.heat),
            attic: self.attic.max(other.attic),
        }
    }
}

/// Sums over the hours, for the whole roof unless it says otherwise.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sums {
    /// Snow and ice melted by what is under them, kg.
    pub base_melt: f64,
    /// Snow melted from above, kg.
    pub melt: f64,
    /// Water frozen on the deck, kg.
    pub freeze: f64,
    /// Water off the roof while it froze outdoors, kg.
    pub cold_drip: f64,
    /// Water off the roof otherwise, kg.
    pub drip: f64,
    /// Snow and rain that fell on it, kg.
    pub fallen: f64,
    /// Vapour that left, kg.
    pub sublimation: f64,
    /// Heat from the rooms into the attics through ceilings, J.
    pub through_ceiling: f64,
    /// And with the air that leaks, J.
    pub with_leaks: f64,
    /// Heat from below through the decks, whichever way it went, J.
    pub moved: f64,
    /// Heat that did not close in the strips, whichever way it missed, J.
    pub missed: f64,
}

/// A roof on its way through the hours.
#[derive(Clone, Debug)]
pub struct Season<'h, A> {
    house: &'h House,
    air: A,
    columns: Vec<Column>,
    /// Those of the pass that is tried.
    tried: Vec<Column>,
    outcomes: Vec<Outcome>,
    inflows: Vec<f64>,
    /// By plane, in the step.
    skies: Vec<Sky>,
    attics: Vec<f64>,
    flows: Vec<Through>,
    sums: Sums,
    ledger: Ledger,
}

/// The search for a temperature at which an attic is left with no heat.
#[derive(Clone, Copy, Debug)]
struct Search {
    /// Temperatures between which it lies.
    bounds: [f64; 2],
    /// The last one tried, and what was left there.
    last: Option<[f64; 2]>,
}

impl Default for Search {
    fn default() -> Self {
        Self { bounds: [f64::NEG_INFINITY, f64::INFINITY], last: None }
    }
}

impl Search {
    /// Where to look next: by the line through the last two, which has in it how air quickens, or by the slope that is known; halfway between the bounds
    /// where that leads out of them, or has led on long enough.
    fn next(&mut self, at: f64, left: f64, slope: f64, may_lead: bool) -> f64 {
        self.bounds[usize::from(left <= 0.0)] = at;
        let secant = self.last.map(|[other, over]| (over - left) / (at - other));
        let slope = secant.filter(|secant| *secant > 0.2 * slope && *secant < 20.0 * slope).unwrap_or(slope);
        self.last = Some([at, left]);
        let next = at + left / slope;
        let is_in = may_lead && next > self.bounds[0] && next < self.bounds[1];
        if is_in || self.bounds.iter().any(|end| end.is_infinite()) {
            next
        } else {
            f64::midpoint(self.bounds[0], self.bounds[1])
        }
    }
}

impl<'h, A: Airflow> Season<'h, A> {
    /// A roof that is bare and as cold as the air outdoors.
    pub fn bare(house: &'h House, air: A, outdoors: f64) -> Self {
        Self::from(house, air, vec![Column::bare(outdoors); house.strips.len()], outdoors)
    }

    /// From given columns, attics at a temperature.
    pub fn from(house: &'h House, air: A, columns: Vec<Column>, attics: f64) -> Self {
        let count = columns.len();
        Self {
            house,
            air,
            tried: columns.clone(),
            columns,
            outcomes: vec![Outcome::default(); count],
            inflows: vec![0.0; count],
            skies: Vec::with_capacity(house.planes.len()),
            attics: vec![attics; house.attics.len()],
            flows: vec![Through::default(); house.attics.len()],
            sums: Sums::default(),
            ledger: Ledger::default(),
        }
    }

    /// The roof.
    pub const fn house(&self) -> &House {
        self.house
    }

    /// Columns of the strips.
    pub fn columns(&self) -> &[Column] {
        &self.columns
    }

    /// Temperatures of the attics, °C.
    pub fn attics(&self) -> &[f64] {
        &self.attics
    }

    /// Air through the attics.
    pub fn flows(&self) -> &[Through] {
        &self.flows
    }

    /// What the last step gave, by strip.
    pub fn outcomes(&self) -> &[Outcome] {
        &self.outcomes
    }

    /// Sums over the steps so far.
    pub const fn sums(&self) -> &Sums {
        &self.sums
    }

    /// What did not close.
    pub const fn ledger(&self) -> &Ledger {
        &self.ledger
    }

    /// All water on the roof, kg.
    pub fn mass(&self) -> f64 {
        self.columns.iter().zip(&self.house.strips).map(|(column, strip)| column.mass() * strip.area).sum()
    }

    /// Heat and mass that did not close, as shares of what moved and fell, of a season that began bare.
    pub fn closure(&self) -> [f64; 2] {
        let Sums { fallen, drip, cold_drip, sublimation, moved, missed, .. } = self.sums;
        let share = |part: f64, whole: f64| if whole > 0.0 { part / whole } else { 0.0 };
        [share(missed, moved), share((fallen - drip - cold_drip - sublimation - self.mass()).abs(), fallen)]
    }

    /// One step.
    pub fn step(&mut self, hour: &Hour) {
        let before = self.attics.clone();
        self.skies.clear();
        self.skies.extend(self.house.planes.iter().zip(&hour.sun).map(|(plane, sun)| Sky {
            sun: *sun,
            longwave: on_cosine(plane.cosine, hour.sky.longwave, hour.sky.air),
            ..hour.sky
        }));
        let mut searches = vec![Search::default(); self.attics.len()];
        for pass in 0..PASSES {
            self.air.through(hour.sky.air, hour.rooms, hour.sky.wind, &self.attics, &mut self.flows);
            self.tried.clone_from(&self.columns);
            self.fall(hour);
            let mut is_still = true;
            for (i, search) in searches.iter_mut().enumerate() {
                let (left, slope) = self.left_over(i, hour, before[i]);
                let at = self.attics[i];
                let next = search.next(at, left, slope, pass < HALVED);
                // by the slope that is known, which is the lesser: no steep line through two points near each other ends the search
                if (left / slope).abs() >= STILL {
                    is_still = false;
                    self.attics[i] = next;
                }
            }
            if is_still {
                break;
            }
        }
        self.tell(hour, &before);
        std::mem::swap(&mut self.columns, &mut self.tried);
    }

    /// Heat and water down all strips, into the tried columns.
    fn fall(&mut self, hour: &Hour) {
        self.inflows.fill(0.0);
        for (i, strip) in self.house.strips.iter().enumerate() {
            let below = match strip.below {
                Below::Attic(attic) => self.attics[attic],
                Below::Outdoors => hour.sky.air,
            };
            let weather = Weather {
                sky: self.skies[strip.plane],
                below,
                snow: hour.snow * strip.catch,
                rain: hour.rain * self.house.planes[strip.plane].cosine,
                inflow: self.inflows[i],
                seconds: hour.seconds,
            };
            let outcome = self.tried[i].step(&strip.base, &weather);
            for (next, share) in &strip.to {
                self.inflows[*next] += outcome.runoff * share * strip.area / self.house.strips[*next].area;
            }
            self.outcomes[i] = outcome;
        }
    }

    /// Heat an attic is left with, W, and how fast that falls as it warms, W/K.
    fn left_over(&self, attic: usize, hour: &Hour, before: f64) -> (f64, f64) {
        let Attic { to_rooms, to_outdoors, capacity } = self.house.attics[attic];
        let Through { leak, vent } = self.flows[attic];
        let at = self.attics[attic];
        let stored = capacity / hour.seconds;
        let (mut taken, mut slope) = (0.0, 0.0);
        for (strip, outcome) in self.house.strips.iter().zip(&self.outcomes) {
            if strip.below == Below::Attic(attic) {
                taken += outcome.from_below * strip.area / hour.seconds;
                slope += outcome.yielding * strip.area / hour.seconds;
            }
        }
        let from_rooms = (to_rooms + leak * SPECIFIC_HEAT) * (hour.rooms - at);
        let from_outdoors = (to_outdoors + vent * SPECIFIC_HEAT) * (hour.sky.air - at);
        let left = from_rooms + from_outdoors - taken - stored * (at - before);
        let all = to_rooms + to_outdoors + (leak + vent) * SPECIFIC_HEAT + slope + stored;
        // an attic that nothing warms or cools keeps its temperature
        (left, if all > 0.0 { all } else { 1.0 })
    }

    /// Sums and ledger after the last pass.
    fn tell(&mut self, hour: &Hour, before: &[f64]) {
        for (i, (strip, outcome)) in self.house.strips.iter().zip(&self.outcomes).enumerate() {
            let area = strip.area;
            let leaves = 1.0 - strip.to.iter().map(|(_, share)| share).sum::<f64>();
            let cosine = self.house.planes[strip.plane].cosine;
            let sums = &mut self.sums;
            sums.base_melt += outcome.base_melt * area;
            sums.melt += outcome.melt * area;
            sums.freeze += outcome.base_freeze * area;
            let off = outcome.runoff * leaves * area;
            *if hour.sky.air < 0.0 { &mut sums.cold_drip } else { &mut sums.drip } += off;
            sums.fallen += (hour.snow * strip.catch + hour.rain * cosine) * area;
            sums.sublimation += outcome.sublimation * area;
            sums.moved += outcome.from_below.abs() * area;
            sums.missed += outcome.heat_error.abs() * area;
            self.ledger.mass = self.ledger.mass.max(outcome.mass_error.abs());
            self.ledger.heat = self.ledger.heat.max(outcome.heat_error.abs());
            debug_assert!(strip.to.iter().all(|(next, _)| *next > i), "water runs on to later strips");
        }
        for (i, attic) in self.house.attics.iter().enumerate() {
            let warmer = hour.rooms - self.attics[i];
            self.sums.through_ceiling += attic.to_rooms * warmer * hour.seconds;
            self.sums.with_leaks += self.flows[i].leak * SPECIFIC_HEAT * warmer * hour.seconds;
            let (left, _) = self.left_over(i, hour, before[i]);
            self.ledger.attic = self.ledger.attic.max(left.abs());
        }
    }
}
