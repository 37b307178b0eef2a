//! A year hour by hour out of monthly normals, where no weather file is near.
//!
//! # Method
//! Days first, then hours. *Temperature*: a periodic cubic through the middles of the months whose monthly means are the normals; days wander about it, each keeping 0.7 of
//! the last; the day's shape by Erbs, flatter on wet days and fuller on clear ones. *Precipitation*: wet days follow one another more often than by chance, amounts
//! are exponential, months come to their totals; what falls takes 6 to 10 hours. *Sun*: each day a share of what comes above the air, half as much on wet
//! days, months come to their normals. *Wind*: Weibull with shape 2, each hour keeping 0.85 of the last. Random numbers come from a seed: the
//! same seed is the same year on every machine.
//!
//! One such year is as normal as its months and hides the one week in ten years that makes the ice: look at several seeds, and at [`Normals::changed`] winters.
//!
//! # Checks
//! outside: shapes and laws by their closed forms (`tests/year.rs`) · property: monthly means of temperature within 0.1 K of the normals, precipitation within 1 %,
//! both hemispheres · the normals of a station in New Hampshire (in crate `exchange`)

mod day;
mod hour;
mod random;
mod shape;

use thiserror::Error;

use crate::weather::{Filled, How, Site, Weather, What};

pub use shape::{above_air, deviation, diurnal, noise, share_of_day, sunset};

pub use random::Random;
pub use shape::above;

/// Density of new snow by which a depth becomes a mass, kg/m³ (what snow models fall back on; seen in one).
pub const NEW_SNOW: f64 = 100.0;

/// What is normal in a month.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Month {
    /// Mean temperature, °C.
    pub mean: f64,
    /// Mean of the days' highest, °C.
    pub high: f64,
    /// Mean of the days' lowest, °C.
    pub low: f64,
    /// Rain and snow, kg/m².
    pub precipitation: f64,
    /// Depth of new snow, m.
    pub snowfall: Option<f64>,
    /// Days on which anything falls.
    pub wet_days: Option<f64>,
    /// Global radiation on level ground, J/m² a day.
    pub global: Option<f64>,
    /// Mean speed of the wind, m/s.
    pub wind: Option<f64>,
    /// Mean dew point, °C.
    pub dew_point: Option<f64>,
    /// By how much the means of days deviate, K.
    pub deviation: Option<f64>,
}

/// What is normal in a place, January first.
#[derive(Clone, Debug, PartialEq)]
pub struct Normals {
    /// Where.
    pub site: Site,
    /// The months.
    pub months: [Month; 12],
}

/// Why normals make no year.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum NormalsError {
    /// A place that is none.
    #[error("the {field} of the place is {value}, which cannot be")]
    Site {
        /// Which field.
        field: &'static str,
        /// What it says.
        value: f64,
    },
    /// A value that cannot be.
    #[error("month {month}: {what} of {value} cannot be")]
    Value {
        /// 1 to 12.
        month: usize,
        /// Which value.
        what: &'static str,
        /// What it says.
        value: f64,
    },
    /// A mean that is not between lowest and highest.
    #[error("month {month}: the mean {mean} °C is not between the lowest {low} °C and the highest {high} °C")]
    Range {
        /// 1 to 12.
        month: usize,
        /// °C.
        mean: f64,
        /// °C.
        low: f64,
        /// °C.
        high: f64,
    },
}

impl Month {
    fn fault(&self, month: usize) -> Option<NormalsError> {
        let given = [
            ("a mean temperature", Some(self.mean), -60.0..=45.0),
            ("a precipitation", Some(self.precipitation), 0.0..=3000.0),
            ("a snowfall", self.snowfall, 0.0..=20.0),
            ("wet days", self.wet_days, 0.0..=31.0),
            ("a global radiation", self.global, 0.0..=45e6),
            ("a wind", self.wind, 0.0..=30.0),
            ("a dew point", self.dew_point, -70.0..=35.0),
            ("a deviation", self.deviation, 0.0..=15.0),
        ];
        let off = given.into_iter().find_map(|(what, value, range)| {
            value.filter(|value| !range.contains(value)).map(|value| NormalsError::Value {
                month,
                what,
                value,
            })
        });
        let Self { mean, low, high, .. } = *self;
        let is_between = low <= mean && mean <= high && high - low <= 40.0;
        off.or((!is_between).then_some(NormalsError::Range { month, mean, low, high }))
    }
}

impl Normals {
    /// A year of them.
    ///
    /// # Errors
    /// A place or values that cannot be.
    pub fn year(&self, seed: u64) -> Result<Weather, NormalsError> {
        if let Some((field, value)) = self.site.fault() {
            return Err(NormalsError::Site { field, value });
        }
        let fault = self.months.iter().enumerate().find_map(|(at, month)| month.fault(at + 1));
        if let Some(fault) = fault {
            return Err(fault);
        }
        let mut random = Random::new(seed);
        let days = day::of(self, &mut random);
        let hours = hour::of(self, &days, &mut random);
        let mut filled = Filled::default();
        let all = hours.len();
        let given =
            |of: fn(&Month) -> bool| if self.months.iter().all(of) { How::Drawn } else { How::Assumed };
        filled.add_many(What::Temperature, How::Drawn, all);
        filled.add_many(What::Precipitation, How::Drawn, all);
        filled.add_many(What::Light, given(|month| month.global.is_some()), all);
        filled.add_many(What::Cloud, How::Derived, all);
        filled.add_many(What::Wind, given(|month| month.wind.is_some()), all);
        filled.add_many(What::DewPoint, given(|month| month.dew_point.is_some()), all);
        filled.add_many(What::Pressure, How::Derived, all);
        Ok(Weather { site: self.site.clone(), hours, filled })
    }

    /// The same place in another year: so many kelvin warmer (below 0 colder), and in months that freeze so many times as much falls.
    #[must_use]
    pub fn changed(&self, kelvin: f64, times: f64) -> Self {
        let months = self.months.map(|month| {
            let times = if month.mean + kelvin < 0.0 { times } else { 1.0 };
            Month {
                mean: month.mean + kelvin,
                high: month.high + kelvin,
                low: month.low + kelvin,
                dew_point: month.dew_point.map(|t| t + kelvin),
                precipitation: month.precipitation * times,
                snowfall: month.snowfall.map(|depth| depth * times),
                ..month
            }
        });
        Self { site: self.site.clone(), months }
    }
}
