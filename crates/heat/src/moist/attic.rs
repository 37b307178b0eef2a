//! Vapor that air carries into an attic, and the frost it leaves under a cold deck.
//!
//! # Method
//! What comes in with air from the house and from outdoors and through the ceiling leaves with the air or goes onto a plane of the deck that is colder than
//! its dew point, at a rate by the analogy of heat and mass (Lewis; ASHRAE Handbook Fundamentals, chapter 6, from memory). Frost or water on a plane goes
//! back into drier air, and no more of it than is there. All of it falls with the ratio of the attic's air: the balance is one number, found by halving.

use super::air::{MoistAir, between};
use crate::air::SPECIFIC_HEAT;

/// Lewis number of vapor in air.
const LEWIS: f64 = 0.87;

/// How well vapor goes between air and a surface, kg/(s·m²) for each kg/kg of difference, by what heat does: W/(m²·K), 2 to 4 in attics.
pub fn exchange(convective: f64) -> f64 {
    convective / (SPECIFIC_HEAT * LEWIS.powf(2.0 / 3.0))
}

/// One plane of the deck.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Deck {
    /// m².
    pub area: f64,
    /// Of its underside, °C.
    pub temperature: f64,
    /// As [`exchange`] has it.
    pub exchange: f64,
    /// Frost or water on it, kg/m².
    pub held: f64,
}

/// Air and vapor of an attic.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Attic {
    /// Air from the house, kg/s of dry air.
    pub leak: f64,
    /// Air from outdoors, kg/s.
    pub vent: f64,
    /// The house's air.
    pub house: MoistAir,
    /// That outdoors.
    pub outdoors: MoistAir,
    /// Vapor through the ceiling itself, kg/s.
    pub through_ceiling: f64,
}

impl Attic {
    /// A step of time, s: what goes onto each plane, kg/(s·m²), below nothing what leaves it, and the ratio of the attic's air. Frost held changes.
    pub fn step(&self, decks: &mut [Deck], seconds: f64) -> (f64, Vec<f64>) {
        let ratio = self.ratio(decks, seconds);
        let fluxes: Vec<f64> = decks.iter().map(|deck| self.onto(deck, ratio, seconds)).collect();
        for (deck, flux) in decks.iter_mut().zip(&fluxes) {
            deck.held = (deck.held + flux * seconds).max(0.0);
        }
        (ratio, fluxes)
    }

    /// Vapor for each kg of the attic's dry air over a step, kg.
    pub fn ratio(&self, decks: &[Deck], seconds: f64) -> f64 {
        let left = |ratio: f64| {
            let air = self.leak * (self.house.ratio - ratio) + self.vent * (self.outdoors.ratio - ratio);
            let decks: f64 = decks.iter().map(|deck| deck.area * self.onto(deck, ratio, seconds)).sum();
            decks - air - self.through_ceiling
        };
        // more than comes with any air and lies on any deck there cannot be, but for what a still attic gathers through its ceiling
        between(0.0, 1.0, left)
    }

    /// Onto a plane, kg/(s·m²): none where it is dry and warmer than the dew point; no more leaves than is there.
    fn onto(&self, deck: &Deck, ratio: f64, seconds: f64) -> f64 {
        let held = MoistAir::saturated(deck.temperature, self.outdoors.pressure).ratio;
        (deck.exchange * (ratio - held)).max(-deck.held / seconds)
    }
}
