//! Degree days: how cold it is, and for how long, K·d.

use book::{Book, LookupError};
use measure::Temperature;

/// Spread of the days of a month, K: at a mean of 0 °C, more for each °C, more for each K of the spread over the year (Erbs, Klein and Beckman 1983; from
/// memory).
const SPREAD: [f64; 3] = [1.45, -0.0290, 0.0664];
const SHAPE: f64 = 1.698;
/// Hours of a day.
const HOURS: f64 = 24.0;

/// The base degree days are published for.
///
/// # Errors
/// A rule the books lack.
pub fn usual_base(book: &Book) -> Result<Temperature, LookupError> {
    book.rule("balance-point")?.get()
}

/// Below a base, from temperatures hour by hour, °C.
pub fn heating(hours: &[f64], base: f64) -> f64 {
    hours.iter().map(|t| (base - t).max(0.0)).sum::<f64>() / HOURS
}

/// Above a base, from temperatures hour by hour, °C.
pub fn cooling(hours: &[f64], base: f64) -> f64 {
    hours.iter().map(|t| (t - base).max(0.0)).sum::<f64>() / HOURS
}

/// Below a base, from the lowest and highest of each day, as stations publish them: their mean stands for the day.
pub fn of_extremes(days: &[[f64; 2]], base: f64) -> f64 {
    days.iter().map(|[low, high]| (base - f64::midpoint(*low, *high)).max(0.0)).sum()
}

/// Spread of twelve monthly means about that of the year, K.
pub fn yearly_spread(means: &[f64; 12]) -> f64 {
    let mean = means.iter().sum::<f64>() / 12.0;
    (means.iter().map(|t| (t - mean).powi(2)).sum::<f64>() / 12.0).sqrt()
}

/// Temperature outdoors below which a house is heated, °C: where what it loses is what people, sun and lamps give, W, by its loss, W/K.
pub fn balance_point(inside: f64, gains: f64, loss: f64) -> f64 {
    inside - gains / loss
}

/// A month of which no more than its mean is known (Erbs, Klein and Beckman 1983; from memory).
///
/// # Valid range
/// Years and cold months. Months about as warm as the base come out too small with the constants as they are remembered: against two typical years it lacked
/// 2 % of the year, but three quarters of June. Take days or hours where they are known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthlyMean {
    /// °C.
    pub mean: f64,
    /// How long it is.
    pub days: f64,
    /// As [`yearly_spread`] has it, K.
    pub yearly_spread: f64,
}

impl MonthlyMean {
    /// Spread of its days, K.
    pub fn spread(&self) -> f64 {
        SPREAD[0] + SPREAD[1] * self.mean + SPREAD[2] * self.yearly_spread
    }

    /// Below a base, K·d.
    pub fn heating(&self, base: f64) -> f64 {
        self.beyond(base - self.mean)
    }

    /// Above a base, K·d.
    pub fn cooling(&self, base: f64) -> f64 {
        self.beyond(self.mean - base)
    }

    /// What days are beyond a base their mean is short of it by so much.
    fn beyond(&self, short: f64) -> f64 {
        // a spread of nothing has days all alike
        let spread = self.spread().max(1e-9);
        let root = self.days.sqrt();
        let h = short / (spread * root);
        let a = SHAPE * root;
        // ln(2·cosh x) without its overflow
        let cosh = (a * h).abs() + (-2.0 * (a * h).abs()).exp().ln_1p();
        spread * self.days.powf(1.5) * (h / 2.0 + cosh / (2.0 * a))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        /// Degree days below and above a base differ by mean and base alone, hour by hour and from a mean.
        #[test]
        fn below_and_above_differ_by_the_mean(
            hours in prop::collection::vec(-40.0..40.0_f64, 24..200), base in -10.0..30.0_f64, spread in 0.0..15.0_f64
        ) {
            let days = hours.len() as f64 / 24.0;
            let mean = hours.iter().sum::<f64>() / hours.len() as f64;
            let apart = days * (base - mean);
            prop_assert!((heating(&hours, base) - cooling(&hours, base) - apart).abs() < 1e-9);
            let month = MonthlyMean { mean, days: 30.0, yearly_spread: spread };
            prop_assert!((month.heating(base) - month.cooling(base) - 30.0 * (base - mean)).abs() < 1e-6);
            prop_assert!(month.heating(base) >= -1e-9);
        }
    }

    #[test]
    fn a_day_of_extremes_and_a_balance() {
        assert!((of_extremes(&[[-10.0, 0.0], [30.0, 40.0]], 18.0) - 23.0).abs() < 1e-12);
        assert!((balance_point(20.0, 500.0, 200.0) - 17.5).abs() < 1e-12);
        assert!(
            (yearly_spread(&[1.0, 3.0, 1.0, 3.0, 1.0, 3.0, 1.0, 3.0, 1.0, 3.0, 1.0, 3.0]) - 1.0).abs()
                < 1e-12
        );
    }
}
