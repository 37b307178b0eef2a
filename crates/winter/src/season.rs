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

mod air;
mod house;
mod joined;
mod search;
mod told;

use heat::air::SPECIFIC_HEAT;

pub use self::air::{Airflow, Passing, Steady, Through};
pub use self::house::{Aspect, Attic, Below, Hour, House, Strip};
use self::search::Search;
pub use self::told::{Ledger, Sums};
use crate::column::{Column, Fall, Outcome, Ready, Trial};
use crate::sky::on_cosine;
use crate::surface::Sky;

/// Passes over all strips in a step, and those after which what is bracketed is halved: air that quickens as an attic warms is not in the slope.
const PASSES: usize = 48;
const HALVED: usize = 8;
/// An attic this near its balance has found it, K; between two passes it is sought more finely.
const STILL: f64 = 1e-4;
const FINE: f64 = 2e-5;

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

    /// One step.
    pub fn step(&mut self, hour: &Hour) {
        self.step_in(hour, hour.rooms, hour.sky.longwave);
    }

    /// One step with other rooms, °C, under a sky that sends otherwise, W/m².
    pub fn step_in(&mut self, hour: &Hour, rooms: f64, longwave: f64) {
        (self.work.rooms, self.work.longwave) = (rooms, longwave);
        if self.work.before.is_empty() {
            // whether attics exchange air is known once air has been asked
            self.move_air(hour);
        }
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
            for (i, [at_pass, _]) in from.iter().enumerate() {
                let (left, slope) = self.left_over(i, *at_pass, hour);
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
}
