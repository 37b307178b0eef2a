//! Temperatures, and the differences between them.
//!
//! 20 °F of difference is 11.1 K; a temperature of 20 °F is 266.5 K. They are different types, and only
//! differences add.

use std::ops::{Add, Sub};

use crate::quantity::{conversions, quantity, text};
use crate::read::{Notation, Thousands, plain};
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

static TEMPERATURE: Notation = Notation {
    what: "a temperature",
    examples: "`22 F`, `-5.6 °C` or `268 K`",
    units: &[
        (FAHRENHEIT, &["F", "°F", "deg F", "degrees F", "Fahrenheit"]),
        (CELSIUS, &["C", "°C", "deg C", "degrees C", "Celsius"]),
        (SI, &["K", "kelvin"]),
    ],
    range: 0.0..=1000.0,
    limits: "0 K to 1000 K",
    thousands: Thousands::Refused,
};

static DIFFERENCE: Notation = Notation {
    what: "a temperature difference",
    examples: "`20 F`, `11 °C` or `11 K`",
    units: &[
        (FAHRENHEIT_STEP, &["F", "°F", "deg F", "degrees F"]),
        (SI, &["K", "kelvin", "C", "°C", "deg C", "degrees C"]),
    ],
    range: -1000.0..=1000.0,
    limits: "-1000 K to 1000 K",
    thousands: Thousands::Refused,
};

text! { Temperature: TEMPERATURE, plain; trade "" f " °F" 1; metric "" c " °C" 1 }
text! { TemperatureDifference: DIFFERENCE, plain; trade "" f " °F" 1; metric "" k " K" 1 }
