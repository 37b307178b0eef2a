//! What a season tells: sums over its hours, and what does not close.

use heat::air::SPECIFIC_HEAT;

use super::{Hour, Season};
use crate::slide::Moved;

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

impl Season<'_> {
    /// Heat and mass that did not close, as shares of what moved and fell, of a season that began bare.
    pub fn closure(&self) -> [f64; 2] {
        let Sums { fallen, drip, cold_drip, sublimation, slid, blown, moved, missed, .. } = self.sums;
        let share = |part: f64, whole: f64| if whole > 0.0 { part / whole } else { 0.0 };
        [
            share(missed, moved),
            share((fallen - drip - cold_drip - sublimation - slid - blown - self.mass()).abs(), fallen),
        ]
    }

    /// Sums and ledger of snow that moved.
    pub(super) fn tell_moved(&mut self, moved: &Moved) {
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
    pub(super) fn tell(&mut self, hour: &Hour) {
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
