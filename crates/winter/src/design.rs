//! What of a year a roof is judged by: cold that is seldom passed, frost that comes and goes.
//!
//! One typical year is warm at its ends, since it is put together of months that are like others: the coldest hours of ten years are 1 to 2 K colder.

use crate::weather::Hour;

/// Water freezes and ice thaws this far from 0 °C, K, so that a temperature that hovers there is no cycle (chosen).
const HYSTERESIS: f64 = 0.6;
/// Air in which water from a snowy roof freezes at the eave and roofs still melt, °C: from measurements of roofs at 22 °F and from the warmest air in which eaves
/// stay frozen (derived).
const ICE: std::ops::RangeInclusive<f64> = -12.0..=-1.0;

/// The temperature that a share of hours are warmer than, °C: of n hours in rising order the one at ⌊(1 − share)·n⌋ (percentiles as design temperatures of
/// handbooks are meant; how to round is chosen here). None without hours.
///
/// ```
/// let colder: Vec<f64> = (0..8760).map(f64::from).collect();
/// assert_eq!(winter::design::exceeded(&colder, 0.99), Some(87.0));
/// ```
pub fn exceeded(temperatures: &[f64], share: f64) -> Option<f64> {
    let mut sorted = temperatures.to_vec();
    sorted.sort_by(f64::total_cmp);
    // 0.01 of 8700 is a hair under 87 in binary
    let below = ((1.0 - share) * sorted.len() as f64 + 1e-6).floor();
    let place = (0..sorted.len()).take_while(|place| *place as f64 <= below).last()?;
    sorted.get(place).copied()
}

/// Frost over a row of hours.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Frost {
    /// Hours below 0 °C.
    pub hours: usize,
    /// How often the temperature went over 0 °C, up or down.
    pub crossings: usize,
    /// How often it froze, thawed and froze again, 0.6 K either side of 0 °C.
    pub cycles: usize,
    /// Freezing index, kelvin days.
    pub index: f64,
    /// Hours in which eaves ice while roofs melt, if there is snow: −12 to −1 °C.
    pub icing: usize,
}

impl Frost {
    /// Of temperatures hour by hour, °C.
    pub fn of(temperatures: impl IntoIterator<Item = f64>) -> Self {
        let mut frost = Self::default();
        let mut before: Option<f64> = None;
        let mut frozen: Option<bool> = None;
        let mut has_thawed = false;
        for t in temperatures {
            frost.hours += usize::from(t < 0.0);
            frost.icing += usize::from(ICE.contains(&t));
            frost.index += (-t).max(0.0) / 24.0;
            frost.crossings += usize::from(before.is_some_and(|before| (before < 0.0) != (t < 0.0)));
            before = Some(t);
            if t > HYSTERESIS {
                has_thawed |= frozen == Some(true);
                frozen = Some(false);
            } else if t < -HYSTERESIS {
                frost.cycles += usize::from(has_thawed);
                has_thawed = false;
                frozen = Some(true);
            }
        }
        frost
    }

    /// Of hours of weather.
    pub fn of_hours<'a>(hours: impl IntoIterator<Item = &'a Hour>) -> Self {
        Self::of(hours.into_iter().map(|hour| hour.temperature))
    }
}

/// Degree days of heating: how far the mean of each day is below a base in °C, K·d.
pub fn degree_days(hours: &[Hour], base: f64) -> f64 {
    let mean = |day: &[Hour]| day.iter().map(|hour| hour.temperature).sum::<f64>() / day.len() as f64;
    hours.chunks(24).map(|day| (base - mean(day)).max(0.0)).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Of 8760 hours the 99 % temperature is the one at 87, the 99.6 % one at 35 (percentiles by the definition of handbooks; rounding chosen). Exact.
    #[test]
    fn percentiles_are_places_in_order() {
        // a shuffled year: 17 and 8760 have no common factor
        let shuffled: Vec<f64> = (0..8760_u32).map(|k| f64::from(k * 17 % 8760)).collect();
        assert_eq!(exceeded(&shuffled, 0.99), Some(87.0));
        assert_eq!(exceeded(&shuffled, 0.996), Some(35.0));
        assert_eq!(exceeded(&shuffled, 1.0), Some(0.0));
        assert_eq!(exceeded(&shuffled, 0.0), Some(8759.0));
        assert_eq!(exceeded(&[], 0.99), None);
    }

    /// By hand: −1, −1, 1, −1, 1, 0.3, −0.3, −1 °C. Five hours are below 0, it crosses at the third, fourth, fifth and seventh; frozen, thawed, frozen,
    /// thawed, frozen are two cycles, and the hover between 0.3 and −0.3 is none of its own.
    #[test]
    fn frost_that_comes_and_goes() {
        let frost = Frost::of([-1.0, -1.0, 1.0, -1.0, 1.0, 0.3, -0.3, -1.0]);
        assert_eq!((frost.hours, frost.crossings, frost.cycles), (5, 4, 2));
        assert!((frost.index - 4.3 / 24.0).abs() < 1e-12);
        assert_eq!(frost.icing, 4);
        let hover = Frost::of([-0.5, 0.5, -0.5, 0.5]);
        assert_eq!((hover.crossings, hover.cycles), (3, 0));
        // it has to have been frozen first
        assert_eq!(Frost::of([5.0, -5.0]).cycles, 0);
    }
}
