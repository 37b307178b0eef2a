//! Temperatures, and the differences between them.
//!
//! 20 °F of difference is 11.1 K; a temperature of 20 °F is 266.5 K. They are different types, and only
//! differences add.

use std::ops::{Add, Sub};

use crate::quantity::{conversions, quantity};
use crate::unit::{CELSIUS, FAHRENHEIT, FAHRENHEIT_STEP, SI};

/// A temperature, held in kelvin.
///
/// ```
/// use measure::{Temperature, TemperatureDifference};
/// let melting = Temperature::from_c(0.0);
/// assert!((melting.f() - 32.0).abs() < 1e-9);
/// let warmer: Temperature = melting + TemperatureDifference::from_f(9.0);
/// assert!((warmer.c() - 5.0).abs() < 1e-9);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Temperature(f64);

impl Temperature {
    conversions! {
        "kelvin" from_k, k = SI;
        "degrees Celsius" from_c, c = CELSIUS;
        "degrees Fahrenheit" from_f, f = FAHRENHEIT;
    }
}

quantity! {
    /// How much warmer one temperature is than another.
    TemperatureDifference {
        "kelvin, the same as degrees Celsius of difference" from_k, k = SI;
        "degrees Fahrenheit of difference" from_f, f = FAHRENHEIT_STEP;
    }
}

impl Sub for Temperature {
    type Output = TemperatureDifference;
    fn sub(self, other: Self) -> TemperatureDifference {
        TemperatureDifference::from_k(self.0 - other.0)
    }
}

impl Add<TemperatureDifference> for Temperature {
    type Output = Self;
    fn add(self, warmer: TemperatureDifference) -> Self {
        Self(self.0 + warmer.k())
    }
}

impl Sub<TemperatureDifference> for Temperature {
    type Output = Self;
    fn sub(self, colder: TemperatureDifference) -> Self {
        Self(self.0 - colder.k())
    }
}
