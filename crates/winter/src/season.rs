//! A roof through the hours: strips of snow and ice over attics whose air leaks, vents and loses heat through them.
//!
//! # Method
//! Each step takes a temperature of every attic, sends heat and water down all strips from the highest to the lowest and asks what heat each attic is
//! left with. That falls strictly with its temperature, and its slope is known from the strips. Between two passes over the strips the attics are sought at
//! which nothing would be left if the strips went on along that slope, air and all; where no phase changes in between, the second pass finds it so. What the
//! last pass did to snow and ice then holds.
//!
//! # Ledger
//! Mass and heat of all strips, and heat of the attics, close in each step; the worst of each is kept ([`Ledger`]).

mod joined;
mod search;

use heat::air::SPECIFIC_HEAT;

use self::search::Search;
use crate::column::{Base, Column, Fall, Outcome, Ready, Trial};
use crate::sky::on_cosine;
use crate::slide::{Moved, Moves};
use crate::surface::Sky;

/// Passes over all strips in a step, and those after which what is bracketed is halved: air that quickens as an attic warms is not in the slope.
const PASSES: usize = 48;
const HALVED: usize = 8;
/// An attic this near its balance has found it, K; between two passes it is sought more finely.
const STILL: f64 = 1e-4;
const FINE: f64 = 2e-5;

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
    /// Snow that slides and drifts.
    pub moves: Moves,
}

/// Air through an attic, kg/s.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Through {
    /// From the rooms.
    pub leak: f64,
    /// From outdoors.
    pub vent: f64,
}

/// Air that passes from one attic to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Passing {
    /// The attic it comes from, by number.
    pub from: usize,
    /// The attic it comes to.
    pub to: usize,
    /// kg/s, at least 0.
    pub flow: f64,
}

/// What moves air.
pub trait Airflow: std::fmt::Debug {
    /// Air through each attic at the temperatures of outdoors, rooms and attics, °C, and wind, m/s.
    fn through(&mut self, outdoors: f64, rooms: f64, wind: f64, attics: &[f64], flows: &mut [Through]);

    /// What passed from attic to attic then; a way that is there is told also while nothing passes.
    fn between(&self) -> &[Passing] {
        &[]
    }
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
    /// Where the wind comes from, degrees clockwise from north, where it is known.
    pub wind_from: Option<f64>,
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
    /// Snow that slid off to the ground, kg.
    pub slid: f64,
    /// Snow that slid onto a lower roof or a less steep one, kg.
    pub landed: f64,
    /// Snow that the wind blew off, kg.
    pub blown: f64,
    /// Snow that the wind moved behind ridges, kg.
    pub drifted: f64,
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
#[derive(Debug)]
pub struct Season<'h> {
    house: &'h House,
    /// Of all strips, m².
    area: f64,
    air: Box<dyn Airflow + 'h>,
    columns: Vec<Column>,
    outcomes: Vec<Outcome>,
    attics: Vec<f64>,
    flows: Vec<Through>,
    work: Work,
    sums: Sums,
    ledger: Ledger,
}

/// What a step works with: kept from one to the next for its memory alone.
#[derive(Clone, Debug, Default)]
struct Work {
    /// Air of the rooms, °C, and what the sky sends, W/m².
    rooms: f64,
    longwave: f64,
    /// Attics before the step.
    before: Vec<f64>,
    /// By plane.
    skies: Vec<Sky>,
    /// By strip, drawn up once for all passes.
    ready: Vec<Ready>,
    /// By strip, of the pass that is tried.
    tried: Vec<Column>,
    trials: Vec<Trial>,
    inflows: Vec<f64>,
    /// By attic: heat its strips take, W, and how that grows as it warms, W/K, in the pass that is tried.
    taken: Vec<[f64; 2]>,
    /// By attic: where the last pass was, and what it left, W.
    from: Vec<[f64; 2]>,
    /// By attic, over the passes, and between two.
    searches: Vec<Search>,
    inner: Vec<Search>,
}

impl<'h> Season<'h> {
    /// A roof that is bare and as cold as the air outdoors.
    pub fn bare(house: &'h House, air: impl Airflow + 'h, outdoors: f64) -> Self {
        Self::from(house, air, vec![Column::bare(outdoors); house.strips.len()], outdoors)
    }

    /// From given columns, attics at a temperature.
    pub fn from(house: &'h House, air: impl Airflow + 'h, columns: Vec<Column>, attics: f64) -> Self {
        let count = columns.len();
        Self {
            house,
            area: house.strips.iter().map(|strip| strip.area).sum(),
            air: Box::new(air),
            outcomes: vec![Outcome::default(); count],
            attics: vec![attics; house.attics.len()],
            flows: vec![Through::default(); house.attics.len()],
            work: Work {
                ready: vec![Ready::default(); count],
                tried: columns.clone(),
                trials: vec![Trial::default(); count],
                inflows: vec![0.0; count],
                taken: vec![[0.0; 2]; house.attics.len()],
                ..Work::default()
            },
            columns,
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

    /// Air that passes between them.
    pub fn passing(&self) -> &[Passing] {
        self.air.between()
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
        let Sums { fallen, drip, cold_drip, sublimation, slid, blown, moved, missed, .. } = self.sums;
        let share = |part: f64, whole: f64| if whole > 0.0 { part / whole } else { 0.0 };
        [
            share(missed, moved),
            share((fallen - drip - cold_drip - sublimation - slid - blown - self.mass()).abs(), fallen),
        ]
    }

    /// One step.
    pub fn step(&mut self, hour: &Hour) {
        self.step_in(hour, hour.rooms, hour.sky.longwave);
    }

    /// One step with other rooms, °C, under a sky that sends otherwise, W/m².
    pub fn step_in(&mut self, hour: &Hour, rooms: f64, longwave: f64) {
        (self.work.rooms, self.work.longwave) = (rooms, longwave);
        self.make_ready(hour);
        for pass in 0..PASSES {
            let is_rough = self.fall(hour, pass == 0) || pass == 0;
            let is_still = !is_rough
                && (0..self.attics.len()).all(|i| {
                    let (left, slope) = self.left_over(i, self.attics[i], hour);
                    // by the slope that is known, which is the lesser: no steep line through two points near each other ends the search
                    (left / slope).abs() < STILL
                });
            if is_still {
                break;
            }
            if self.air.between().is_empty() {
                self.seek(hour, is_rough, pass < HALVED);
            } else {
                self.seek_together(hour, pass < HALVED);
            }
        }
        for (i, (strip, tried)) in self.house.strips.iter().zip(&mut self.work.tried).enumerate() {
            self.outcomes[i] = tried.finished(&self.work.ready[i], &strip.base, self.work.trials[i]);
        }
        self.tell(hour);
        std::mem::swap(&mut self.columns, &mut self.work.tried);
        let moved = self.house.moves.step(self.house, &mut self.columns, hour);
        self.tell_moved(&moved);
    }

    /// Lets snow and rain fall on all strips, and draws up what no attic changes.
    fn make_ready(&mut self, hour: &Hour) {
        let Work { before, skies, ready, searches, longwave, .. } = &mut self.work;
        before.clone_from(&self.attics);
        searches.clear();
        searches.resize(self.attics.len(), Search::default());
        skies.clear();
        skies.extend(self.house.planes.iter().zip(&hour.sun).map(|(plane, sun)| Sky {
            sun: *sun,
            longwave: on_cosine(plane.cosine, *longwave, hour.sky.air),
            ..hour.sky
        }));
        for ((strip, column), ready) in self.house.strips.iter().zip(&mut self.columns).zip(ready) {
            let rain = hour.rain * self.house.planes[strip.plane].cosine;
            let fall = Fall { snow: hour.snow * strip.catch, rain, seconds: hour.seconds };
            column.make_ready(&strip.base, &skies[strip.plane], fall, ready);
        }
    }

    fn move_air(&mut self, hour: &Hour) {
        self.air.through(hour.sky.air, self.work.rooms, hour.sky.wind, &self.attics, &mut self.flows);
    }

    /// Heat and water down all strips, into the tried columns; whether any strip is rough yet, as those over attics may be at first.
    fn fall(&mut self, hour: &Hour, is_first: bool) -> bool {
        let mut is_rough = false;
        let Work { ready, tried, trials, inflows, taken, .. } = &mut self.work;
        inflows.fill(0.0);
        taken.fill([0.0; 2]);
        for (i, strip) in self.house.strips.iter().enumerate() {
            let below = match strip.below {
                Below::Attic(attic) => self.attics[attic],
                Below::Outdoors => hour.sky.air,
            };
            // a strip to which nothing comes otherwise than in the pass before stays as that made it
            if is_first || !trials[i].is_of(below, inflows[i]) {
                tried[i] = self.columns[i];
                let may_be_rough = is_first && strip.below != Below::Outdoors;
                trials[i] = tried[i].tried(&mut ready[i], &strip.base, below, inflows[i], may_be_rough);
            }
            is_rough |= trials[i].is_rough;
            let outcome = &trials[i].outcome;
            if let Below::Attic(attic) = strip.below {
                taken[attic][0] += outcome.from_below * strip.area / hour.seconds;
                taken[attic][1] += outcome.yielding * strip.area / hour.seconds;
            }
            for (next, share) in &strip.to {
                inflows[*next] += outcome.runoff * share * strip.area / self.house.strips[*next].area;
            }
        }
        is_rough
    }

    /// Attics at which nothing would be left, air and all, if their strips went on along the slopes of the last pass; held between the bounds that passes have
    /// shown. A rough pass shows none, and knows no air yet but that of the step before.
    fn seek(&mut self, hour: &Hour, is_rough: bool, may_lead: bool) {
        let count = self.attics.len();
        let mut from = std::mem::take(&mut self.work.from);
        from.clear();
        from.extend((0..count).map(|i| [self.attics[i], self.left_over(i, self.attics[i], hour).0]));
        if is_rough {
            // where they would be if air went on as it went: the search for the air that goes sets out nearer its end
            for i in 0..count {
                let (left, slope) = self.left_over(i, from[i][0], hour);
                self.attics[i] += left / slope;
            }
            self.move_air(hour);
        }
        self.work.inner.resize(count, Search::default());
        for search in &mut self.work.inner {
            *search = search.anew();
        }
        for turn in 0..PASSES {
            let mut is_still = true;
            for (i, [at_pass, _]) in from.iter().enumerate() {
                let (left, slope) = self.left_over(i, *at_pass, hour);
                if (left / slope).abs() >= FINE {
                    is_still = false;
                    let at = self.attics[i];
                    self.attics[i] = self.work.inner[i].next(at, left, slope, turn < HALVED);
                }
            }
            if is_still {
                break;
            }
            self.move_air(hour);
        }
        let mut is_led = true;
        for (i, [at, left]) in from.iter().copied().enumerate().filter(|_| !is_rough) {
            let sought = self.attics[i];
            self.attics[i] = self.work.searches[i].led(at, left, sought, may_lead);
            is_led &= self.attics[i].to_bits() == sought.to_bits();
        }
        if !is_led {
            self.move_air(hour);
        }
        self.work.from = from;
    }

    /// Heat an attic is left with at a temperature, W, with its strips on the line of the last pass, and how fast that falls as it warms, W/K: what passes to
    /// other attics aside.
    fn left_over(&self, attic: usize, from: f64, hour: &Hour) -> (f64, f64) {
        let Attic { to_rooms, to_outdoors, capacity } = self.house.attics[attic];
        let Through { leak, vent } = self.flows[attic];
        let at = self.attics[attic];
        let stored = capacity / hour.seconds;
        let [taken, slope] = self.work.taken[attic];
        let from_rooms = (to_rooms + leak * SPECIFIC_HEAT) * (self.work.rooms - at);
        let from_outdoors = (to_outdoors + vent * SPECIFIC_HEAT) * (hour.sky.air - at);
        let kept = stored * (at - self.work.before[attic]);
        let passing = self.air.between().iter().filter(|passing| passing.to == attic);
        let passes: f64 =
            passing.map(|passing| passing.flow * SPECIFIC_HEAT * (self.attics[passing.from] - at)).sum();
        let left = from_rooms + from_outdoors + passes - taken - slope * (at - from) - kept;
        let all = to_rooms + to_outdoors + (leak + vent) * SPECIFIC_HEAT + slope + stored;
        // an attic that nothing warms or cools keeps its temperature
        (left, if all > 0.0 { all } else { 1.0 })
    }

    /// Sums and ledger of snow that moved.
    fn tell_moved(&mut self, moved: &Moved) {
        let sums = &mut self.sums;
        sums.slid += moved.slid;
        sums.landed += moved.landed;
        sums.blown += moved.blown;
        sums.drifted += moved.drifted;
        sums.missed += moved.heat_error.abs();
        self.ledger.mass = self.ledger.mass.max(moved.mass_error.abs() / self.area);
        self.ledger.heat = self.ledger.heat.max(moved.heat_error.abs() / self.area);
    }

    /// Sums and ledger after the last pass.
    fn tell(&mut self, hour: &Hour) {
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
            let warmer = self.work.rooms - self.attics[i];
            self.sums.through_ceiling += attic.to_rooms * warmer * hour.seconds;
            self.sums.with_leaks += self.flows[i].leak * SPECIFIC_HEAT * warmer * hour.seconds;
            let (left, _) = self.left_over(i, self.attics[i], hour);
            self.ledger.attic = self.ledger.attic.max(left.abs());
        }
    }
}
