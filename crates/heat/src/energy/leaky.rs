//! Air that comes in by itself, by where the leaks of a house are.
//!
//! # Sources
//! By area: Sherman and Grimsrud 1980 (listing of the paper seen, constants from memory). By the power law: Walker and Wilson 1998 (abstract seen, constants
//! from memory), for houses without a flue. The basic model of the handbook has typical places for leaks in it; these ask where they are.
//!
//! # Valid range
//! Leaks of ceiling and floor together no more than all; one zone of one temperature.

use book::thermal::{self, Shielding, Terrain};
use measure::{Area, Flow, Length, Temperature};
use thiserror::Error;

use crate::air::{GRAVITY, Leak, density};

/// Where the leaks of a house are, and how high it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeakyHouse {
    /// From its lowest leaks to its highest.
    pub height: Length,
    /// Share of its leaks in the ceiling.
    pub ceiling: f64,
    /// Share in the floor.
    pub floor: f64,
}

/// Area of leaks counted part by part, by number, metres or square metres as each row asks: as found and made tight.
pub fn leak_area(parts: &[(&thermal::Leak, f64)]) -> [Area; 2] {
    let sum = |cm2: fn(&thermal::Leak) -> f64| {
        Area::from_m2(parts.iter().map(|(part, count)| cm2(part) * count).sum::<f64>() / 1e4)
    };
    [sum(|part| part.found_cm2.middle()), sum(|part| part.tight_cm2.middle())]
}

/// Shares that are none.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
#[error(
    "shares of leaks in ceiling and floor are at least 0 and together at most 1, and a house has a height"
)]
pub struct LeakyError;

/// The weather a house leaks in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Driving {
    /// Indoors.
    pub indoors: Temperature,
    /// Outdoors.
    pub outdoors: Temperature,
    /// Wind, m/s.
    pub wind: f64,
}

impl LeakyHouse {
    /// Checked.
    ///
    /// # Errors
    /// Shares that are none, a house of no height.
    pub fn new(height: Length, ceiling: f64, floor: f64) -> Result<Self, LeakyError> {
        let is_share = ceiling >= 0.0 && floor >= 0.0 && ceiling + floor <= 1.0;
        let is_high = height.m() > 0.0 && height.m().is_finite();
        if is_share && is_high { Ok(Self { height, ceiling, floor }) } else { Err(LeakyError) }
    }

    /// Ceiling and floor together, and how much more of it is in the ceiling.
    fn together(&self) -> (f64, f64) {
        (self.ceiling + self.floor, self.ceiling - self.floor)
    }

    /// By the area of its leaks at 4 Pa; wind of the open at 10 m.
    pub fn by_area(
        &self,
        leaks: Area,
        driving: &Driving,
        (shielding, terrain): (&Shielding, &Terrain),
    ) -> Flow {
        let (both, apart) = self.together();
        let height = self.height.m();
        let even = (1.0 - apart.powi(2) / (2.0 - both).powi(2)).max(0.0).powf(1.5);
        let stack = (1.0 + both / 2.0) / 3.0 * even * (GRAVITY * height / driving.indoors.k()).sqrt();
        let local = terrain.gain * (height / 10.0).powf(terrain.exponent);
        let wind = shielding.factor * (1.0 - both).cbrt() * local;
        let difference = (driving.indoors - driving.outdoors).k().abs();
        Flow::from_m3_s(leaks.m2() * (stack.powi(2) * difference + (wind * driving.wind).powi(2)).sqrt())
    }

    /// By the power law of its leaks; `shelter` is the share of the wind at the eaves that reaches them, `pressure` that of the station, Pa.
    pub fn by_power_law(&self, leaks: Leak, driving: &Driving, shelter: f64, pressure: f64) -> Flow {
        let (both, apart) = self.together();
        let n = leaks.exponent;
        let cold = density(pressure, driving.outdoors.c());
        let difference = (driving.indoors - driving.outdoors).k().abs();
        let stack_pressure = cold * GRAVITY * self.height.m() * difference / driving.indoors.k();
        let wind_pressure = cold * (shelter * driving.wind).powi(2) / 2.0;
        let even = 0.5 - 0.5 * (apart.powi(2) / (2.0 - both)).powf(1.25);
        let by_stack = (1.0 + n * both) / (n + 1.0) * even.max(0.0).powf(n + 1.0);
        let by_wind = 0.19 * (2.0 - n) * (1.0 - f64::midpoint(apart, both).max(0.0).powf(1.5));
        let [stack, wind] = [by_stack * leaks.flow(stack_pressure), by_wind * leaks.flow(wind_pressure)];
        let both = stack.powf(n.recip()) + wind.powf(n.recip()) - 0.33 * (stack * wind).powf(0.5 / n);
        Flow::from_m3_s(both.max(0.0).powf(n))
    }
}
