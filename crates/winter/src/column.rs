//! Snow, ice and water in one column over a deck or the ground.
//!
//! A [`Column`] is up to three layers of snow, ice on the wood under them, and the deck. [`Column::step`] lets snow and rain fall on it, water come in
//! from up the slope, heat come from below and go to the sky; it gives back the water that runs out below and what heat it took.
//!
//! # Reference
//! Ice at 0 °C holds nothing; water at 0 °C holds the heat of fusion. Water runs in and out at 0 °C.
//!
//! # Checks
//! conservation: mass and heat close in every step (limits in the tests) · outside: measured snow of an alpine winter (`tests/col_de_porte.rs`)

mod given;
mod pack;
mod ready;
mod shed;

pub use self::given::{Base, Outcome, Weather};
pub use self::pack::Layer;
use self::pack::{End, Pack};
use self::ready::Solved;
pub(crate) use self::ready::{Fall, Ready, Trial};
pub(crate) use self::shed::Load;
use crate::chain::{MOST, Node};
use crate::snow::{Albedo, FUSION, ICE_HEAT, SUBLIMATION, WATER_HEAT, fresh_density};
use crate::surface::{Sky, Surface};

/// Snow this deep hides what lies under it from the sun's light (common practice), m.
const HIDES: f64 = 0.05;
/// Sun in snow dims by this for each metre (range 10 to 50 1/m; from memory).
const DIMMING: f64 = 20.0;

/// The state of a column.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Column {
    /// Middle of the deck, °C.
    deck: f64,
    /// Of the surface under the sky, °C.
    surface: f64,
    /// Ice on the deck, kg/m².
    ice: f64,
    /// Water at the foot of the snow, kg/m².
    foot: f64,
    snow: Pack,
    albedo: Albedo,
    /// Heat that found no ice to melt, kept for the next step, J/m².
    kept: f64,
}

impl Column {
    /// Bare, at a temperature.
    pub fn bare(temperature: f64) -> Self {
        Self {
            deck: temperature,
            surface: temperature,
            ice: 0.0,
            foot: 0.0,
            snow: Pack::default(),
            albedo: Albedo::fresh(),
            kept: 0.0,
        }
    }

    /// With snow of a depth and density on it, all at one temperature no warmer than 0 °C.
    #[must_use]
    pub fn under_snow(mut self, depth: f64, density: f64, temperature: f64) -> Self {
        self.snow.fall(depth * density, density, temperature.min(0.0));
        self
    }

    /// Middle of the deck, °C.
    pub const fn deck(&self) -> f64 {
        self.deck
    }

    /// Surface under the sky, °C.
    pub const fn surface(&self) -> f64 {
        self.surface
    }

    /// Ice on the deck, kg/m².
    pub const fn ice(&self) -> f64 {
        self.ice
    }

    /// All water in the snow, frozen or not, kg/m².
    pub fn snow_water(&self) -> f64 {
        self.snow.mass()
    }

    /// Depth of the snow, m.
    pub fn snow_depth(&self) -> f64 {
        self.snow.depth()
    }

    /// Layers of snow from the deck upward.
    pub fn layers(&self) -> &[Layer] {
        self.snow.layers()
    }

    /// Share of the sun it throws back.
    pub const fn albedo(&self) -> f64 {
        self.albedo.share()
    }

    /// Heat it holds, J/m².
    pub(crate) fn heat(&self, base: &Base) -> f64 {
        base.capacity * self.deck + self.snow.heat() + FUSION * self.foot + self.kept
    }

    /// All water, frozen or not, kg/m².
    pub fn mass(&self) -> f64 {
        self.ice + self.foot + self.snow.mass()
    }

    /// One step.
    pub fn step(&mut self, base: &Base, weather: &Weather) -> Outcome {
        let mut ready = Ready::default();
        self.make_ready(base, &weather.sky, weather.fall(), &mut ready);
        let mut after = *self;
        let trial = after.tried(&mut ready, base, weather.below, weather.inflow, false);
        let outcome = after.finished(&ready, base, trial);
        *self = after;
        outcome
    }

    /// Lets snow and rain fall, and draws up what no heat from below and no water from up the slope changes.
    pub(crate) fn make_ready(&mut self, base: &Base, sky: &Sky, fall: Fall, ready: &mut Ready) {
        (ready.heat, ready.mass) = (self.heat(base), self.mass());
        ready.brought = self.fall(base.snow.denser, sky.air, fall);
        let of_snow = if self.snow.is_none() { fall.rain } else { self.snow.percolated(base.snow.held) };
        ready.water = self.foot + of_snow;
        (ready.surface, ready.sun_below) = self.over(base, sky, fall);
        ready.count = self.nodes(base, fall.seconds, ready.sun_below, &mut ready.nodes);
        (ready.at, ready.fall) = (self.surface, fall);
        ready.is_tried = false;
    }

    /// Makes a column that is ready what heat from below and water from up the slope make of it; not yet settled. A rough try is good enough to seek by.
    pub(crate) fn tried(
        &mut self,
        ready: &mut Ready,
        base: &Base,
        below: f64,
        inflow: f64,
        is_rough: bool,
    ) -> Trial {
        let water = inflow + ready.water;
        let solved = ready.solved(base, below, water, is_rough);
        let mut outcome = Outcome::default();
        if self.snow.is_none() && self.ice <= 0.0 && water <= 0.0 {
            // bare and dry, nothing melts, freezes or runs
            [self.deck, self.surface] = [0, 1].map(|i| solved.found.temperatures[i]);
            (self.kept, self.foot) = (0.0, 0.0);
        } else {
            outcome = self.changed(&solved, ready, water);
            self.foot = outcome.runoff.min(base.snow.wicks * self.snow.ice());
            outcome.runoff -= self.foot;
        }
        outcome.from_below = solved.found.from_below * ready.fall.seconds;
        outcome.yielding = solved.found.yielding * ready.fall.seconds;
        let Solved { found, vapour, is_rough } = solved;
        Trial { outcome, below, inflow, to_above: found.to_above, vapour, is_rough }
    }

    /// Settles what was tried, and closes its ledger.
    pub(crate) fn finished(&mut self, ready: &Ready, base: &Base, trial: Trial) -> Outcome {
        let Fall { snow, rain, seconds } = ready.fall;
        let Trial { mut outcome, inflow, to_above, vapour, .. } = trial;
        if base.snow.settles {
            self.snow.settled(seconds);
        }
        self.snow.layered(base.snow.layers);
        self.albedo = if self.snow.is_none() {
            Albedo::fresh()
        } else {
            self.albedo.aged(seconds, snow / seconds, self.surface > -1e-6)
        };
        let carried = FUSION * (rain + inflow - outcome.runoff);
        // heat of vapour for which there was no ice has not gone
        let stayed = SUBLIMATION * (vapour * seconds - outcome.sublimation);
        let through = (ready.sun_below - to_above) * seconds + outcome.from_below;
        let into = through + ready.brought + carried + stayed;
        outcome.heat_error = self.heat(base) - ready.heat - into;
        let came = snow + rain + inflow;
        outcome.mass_error = self.mass() - ready.mass - came + outcome.runoff + outcome.sublimation;
        outcome
    }

    /// Snow and rain fall; heat that the snow brings, J/m².
    fn fall(&mut self, denser: f64, air: f64, fall: Fall) -> f64 {
        let mut brought = 0.0;
        if fall.snow > 0.0 {
            let air = air.min(0.0);
            let before = self.snow.heat();
            self.snow.fall(fall.snow, denser * fresh_density(air), air);
            brought = self.snow.heat() - before;
        }
        self.snow.rain(fall.rain);
        brought
    }

    /// What is over the surface, and how much of the sun goes through the snow to the deck, W/m².
    fn over(&self, base: &Base, sky: &Sky, fall: Fall) -> (Surface, f64) {
        let depth = self.snow.depth();
        let covered = (depth / HIDES).min(1.0);
        let dark = 1.0 - self.albedo.share() - base.snow.brighter;
        let taken = covered * dark + (1.0 - covered) * base.absorbed;
        let through = if self.snow.is_none() || sky.sun <= 0.0 { 0.0 } else { (-DIMMING * depth).exp() };
        let is_icy = !self.snow.is_none() || self.ice > 0.0;
        let surface = Surface {
            sky: *sky,
            turbulence: base.turbulence,
            emissivity: if is_icy { base.snow.emissivity } else { base.emissivity },
            absorbed: taken * (1.0 - through),
            is_icy: is_icy && base.snow.evaporates,
            // rain on a bare deck runs off as warm as it came
            source: if is_icy { WATER_HEAT * fall.rain * sky.air.max(0.0) / fall.seconds } else { 0.0 },
        };
        (surface, taken * through * sky.sun)
    }

    /// Deck, interface, layers and surface as nodes, without what water at the interface may freeze; how many.
    fn nodes(&self, base: &Base, seconds: f64, sun_below: f64, nodes: &mut [Node; MOST]) -> usize {
        let by_heat = FUSION / seconds;
        let layers = self.snow.layers();
        let half = |layer: &Layer| layer.depth / base.snow.conductivity.at(layer.density()) / 2.0;
        nodes[0] = Node {
            temperature: self.deck,
            stored: base.capacity / seconds,
            upward: base.outward.recip(),
            ..Node::default()
        };
        nodes[1] = Node {
            upward: layers.first().map_or(0.0, |first| half(first).recip()),
            source: sun_below + self.kept / seconds,
            most_melt: by_heat * (self.ice + self.snow.ice()),
            ..Node::default()
        };
        if layers.is_empty() {
            return 2;
        }
        for (i, layer) in layers.iter().enumerate() {
            let next = layers.get(i + 1).map_or(0.0, half);
            nodes[2 + i] = Node {
                temperature: layer.temperature,
                stored: ICE_HEAT * layer.ice / seconds,
                upward: (half(layer) + next).recip(),
                source: 0.0,
                most_melt: by_heat * layer.ice,
                most_freeze: by_heat * layer.liquid,
            };
        }
        nodes[2 + layers.len()] = Node { most_melt: by_heat * self.snow.ice(), ..Node::default() };
        3 + layers.len()
    }

    /// Ice and water as the heat of the step leaves them.
    fn changed(&mut self, solved: &Solved, ready: &Ready, water: f64) -> Outcome {
        let Solved { found, vapour, .. } = solved;
        let (count, seconds) = (ready.count, ready.fall.seconds);
        let kg = |node: usize| found.melts[node] * seconds / FUSION;
        let mut outcome = Outcome::default();
        self.deck = found.temperatures[0];
        self.surface = found.temperatures[count - 1];
        self.kept = 0.0;
        for (i, layer) in self.snow.layers_mut().iter_mut().enumerate() {
            let held = ICE_HEAT * layer.ice * found.temperatures[2 + i];
            let melt = kg(2 + i).clamp(-layer.liquid, layer.ice);
            self.kept += (kg(2 + i) - melt) * FUSION;
            layer.ice -= melt;
            layer.liquid += melt;
            if melt > 0.0 {
                outcome.melt += melt;
                layer.depth *= (layer.ice / (layer.ice + melt)).max(1e-9);
            }
            // what a layer without ice left holds goes on to what has some
            let is_left = layer.ice > 0.0 && held < 0.0;
            layer.temperature = if is_left { held / (ICE_HEAT * layer.ice) } else { 0.0 };
            self.kept += if is_left { 0.0 } else { held };
        }
        if count > 2 {
            let melt = self.snow.take(End::Sky, kg(count - 1));
            self.snow.rain(melt);
            outcome.melt += melt;
            self.kept += (kg(count - 1) - melt) * FUSION;
        }
        let base = kg(1);
        outcome.base_freeze = (-base).clamp(0.0, water);
        let of_ice = base.clamp(0.0, self.ice);
        outcome.base_melt = of_ice + self.snow.take(End::Deck, base.max(0.0) - of_ice);
        self.ice += outcome.base_freeze - of_ice;
        self.kept += (base + outcome.base_freeze - outcome.base_melt) * FUSION;
        outcome.sublimation = self.sublimed(vapour * seconds);
        let (freed, heat) = self.snow.cleared();
        self.kept += heat;
        outcome.runoff = water - outcome.base_freeze + outcome.base_melt + freed;
        outcome
    }

    /// Vapour leaves or settles; how much did.
    fn sublimed(&mut self, vapour: f64) -> f64 {
        let gone = if vapour <= 0.0 && self.snow.ice() > 0.0 {
            self.snow.frost(-vapour);
            vapour
        } else if vapour <= 0.0 && self.ice > 0.0 {
            self.ice -= vapour;
            vapour
        } else if vapour <= 0.0 {
            0.0 // the ice it would have settled on has melted
        } else {
            let of_snow = self.snow.take(End::Sky, vapour);
            let of_ice = (vapour - of_snow).min(self.ice);
            self.ice -= of_ice;
            of_snow + of_ice
        };
        // heat of vapour that found no ice
        self.kept += (vapour - gone) * SUBLIMATION;
        gone
    }
}

#[cfg(test)]
mod tests {
    use heat::moist::saturation_over_water;
    use rand::rngs::ChaCha8Rng;
    use rand::{RngExt, SeedableRng};

    use super::*;
    use crate::snow::Law;
    use crate::surface::Turbulence;

    const ROOF: Base = Base {
        capacity: 14_000.0,
        inward: 0.2,
        outward: 0.0935,
        absorbed: 0.9,
        emissivity: 0.9,
        turbulence: Turbulence::Film { still: 4.0, windy: 4.0 },
        snow: Law::FULL,
    };

    /// Mass and heat close to a billionth of what moves, whatever comes: storms, thaws, rain on snow, water from above, a warm or cold attic.
    #[test]
    fn mass_and_heat_close_in_every_step() {
        let mut rng = ChaCha8Rng::seed_from_u64(11);
        let mut random = || rng.random::<f64>();
        for house in 0..40 {
            let mut column = Column::bare(0.0);
            let mut mean = 0.0;
            for hour in 0..1500 {
                mean += 0.1 * (-3.0 - mean) + 3.0 * (random() - 0.5);
                let air = mean + 6.0 * random() - 3.0;
                let falls = if random() < 0.15 { 4.0 * random() } else { 0.0 };
                let share = crate::weather::snow_share(air);
                let sky = Sky {
                    air,
                    vapour: (0.5 + 0.5 * random()) * saturation_over_water(air),
                    pressure: 95_000.0,
                    wind: 8.0 * random(),
                    sun: if hour % 24 > 8 && hour % 24 < 16 { 500.0 * random() } else { 0.0 },
                    longwave: 200.0 + 120.0 * random(),
                };
                let weather = Weather {
                    sky,
                    below: if house % 2 == 0 { 12.0 * random() - 4.0 } else { air },
                    snow: falls * share,
                    rain: falls * (1.0 - share),
                    inflow: if random() < 0.3 { random() } else { 0.0 },
                    seconds: 3600.0,
                };
                let outcome = column.step(&ROOF, &weather);
                assert!(outcome.mass_error.abs() < 1e-10, "{house} {hour}: {outcome:?} {column:?}");
                assert!(outcome.heat_error.abs() < 1e-4, "{house} {hour}: {outcome:?} {column:?}");
                for layer in column.layers() {
                    assert!(layer.ice > 0.0 && layer.liquid >= 0.0 && layer.temperature <= 0.0, "{column:?}");
                    assert!(layer.depth > 0.0 && layer.temperature > -80.0, "{column:?}");
                }
                assert!(column.ice >= 0.0 && (column.snow.is_none() || column.surface <= 1e-6));
            }
        }
    }
}
