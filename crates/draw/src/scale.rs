//! Drawing scales, and the bar that shows them.
//!
//! # Source
//! The scales on an architect's rule, feet and metric, and on an engineer's rule where that has none: common practice.

use job::Units;
use measure::Length;

/// A scale: so many times smaller than the house.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Scale {
    pub(crate) ratio: f64,
    /// As written on the drawing.
    pub(crate) name: String,
}

/// Rule scales in feet.
const FEET: [(f64, &str); 18] = [
    (4.0, "3\" = 1'"),
    (8.0, "1 1/2\" = 1'"),
    (12.0, "1\" = 1'"),
    (16.0, "3/4\" = 1'"),
    (24.0, "1/2\" = 1'"),
    (32.0, "3/8\" = 1'"),
    (48.0, "1/4\" = 1'"),
    (64.0, "3/16\" = 1'"),
    (96.0, "1/8\" = 1'"),
    (128.0, "3/32\" = 1'"),
    (192.0, "1/16\" = 1'"),
    (240.0, "1\" = 20'"),
    (360.0, "1\" = 30'"),
    (384.0, "1/32\" = 1'"),
    (480.0, "1\" = 40'"),
    (600.0, "1\" = 50'"),
    (720.0, "1\" = 60'"),
    (1200.0, "1\" = 100'"),
];

/// A house of 100 km would fit a hand.
const SMALLEST: u32 = 1_000_000;

const METRES: [f64; 13] =
    [5.0, 10.0, 20.0, 25.0, 50.0, 75.0, 100.0, 125.0, 150.0, 200.0, 250.0, 500.0, 1000.0];

impl Scale {
    /// The largest scale of a rule that fits; beyond the rule, doubling. When none does, the smallest tried.
    pub(crate) fn first(units: Units, fits: impl Fn(&Self) -> bool) -> Self {
        let mut all = Self::from_largest(units);
        let smallest = Self::plain(f64::from(SMALLEST));
        all.find(fits).unwrap_or(smallest)
    }

    fn from_largest(units: Units) -> impl Iterator<Item = Self> {
        let rule: Vec<Self> = match units {
            Units::Us => FEET.iter().map(|&(ratio, name)| Self { ratio, name: name.into() }).collect(),
            Units::Si => METRES.iter().map(|&ratio| Self::plain(ratio)).collect(),
        };
        let beyond =
            std::iter::successors(Some(2000), |ratio| Some(ratio * 2)).take_while(|&ratio| ratio < SMALLEST);
        rule.into_iter().chain(beyond.map(|ratio| Self::plain(f64::from(ratio))))
    }

    fn plain(ratio: f64) -> Self {
        Self { ratio, name: format!("1:{ratio}") }
    }

    /// Millimetres on paper for a metre of house.
    pub(crate) fn mm_per_m(&self) -> f64 {
        1000.0 / self.ratio
    }

    /// Length on paper of one of the bar's four parts and what it stands for: the largest round part with which
    /// the bar stays within `room` mm.
    pub(crate) fn bar_part(&self, units: Units, room: f64) -> (f64, BarPart) {
        let on_paper = |part: &BarPart| part.length().m() * self.mm_per_m();
        let parts = BarPart::from_largest(units);
        let last = parts[parts.len() - 1];
        let part = parts.into_iter().find(|part| 4.0 * on_paper(part) <= room).unwrap_or(last);
        (on_paper(&part), part)
    }
}

/// A part of a scale bar: so many of a unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct BarPart {
    pub(crate) count: u32,
    pub(crate) unit: &'static str,
}

impl BarPart {
    fn from_largest(units: Units) -> Vec<Self> {
        let (large, small, counts): (_, _, &[u32]) = match units {
            Units::Us => ("ft", "in", &[6, 3, 2, 1]),
            Units::Si => ("m", "cm", &[50, 20, 10, 5, 2, 1]),
        };
        let part = |count: u32, unit: &'static str| Self { count, unit };
        let large = [1000, 500, 200, 100, 50, 20, 10, 5, 2, 1].into_iter().map(|count| part(count, large));
        large.chain(counts.iter().map(|&count| part(count, small))).collect()
    }

    /// What so many parts stand for, in words: in the larger unit where that is a whole number.
    pub(crate) fn times(self, parts: u32) -> (u32, &'static str) {
        let (count, small) = (self.count * parts, self.unit);
        let (per_large, large) = if small == "cm" { (100, "m") } else { (12, "ft") };
        let is_small = small == "cm" || small == "in";
        // Two parts decide, so that all numbers of a bar are in one unit.
        if is_small && (2 * self.count).is_multiple_of(per_large) {
            (count / per_large, large)
        } else {
            (count, small)
        }
    }

    fn length(self) -> Length {
        let count = f64::from(self.count);
        match self.unit {
            "ft" => Length::from_ft(count),
            "in" => Length::from_in(count),
            "cm" => Length::from_m(count / 100.0),
            _ => Length::from_m(count),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_shrink_step_by_step() {
        for units in [Units::Us, Units::Si] {
            let ratios: Vec<_> = Scale::from_largest(units).map(|scale| scale.ratio).collect();
            assert!(ratios.is_sorted_by(|a, b| a < b), "{ratios:?}");
        }
    }

    #[test]
    fn bar_at_an_eighth_inch_counts_five_feet_a_part() {
        let eighth = Scale::from_largest(Units::Us).find(|scale| scale.name.starts_with("1/8")).unwrap();
        let (part, stands_for) = eighth.bar_part(Units::Us, 70.0);
        assert_eq!(stands_for, BarPart { count: 5, unit: "ft" });
        assert!((part - 5.0 * 25.4 / 8.0).abs() < 1e-9);
    }

    #[test]
    fn bar_of_a_large_drawing_counts_inches() {
        let large = Scale::from_largest(Units::Us).find(|scale| scale.name == "1\" = 1'").unwrap();
        let (part, stands_for) = large.bar_part(Units::Us, 28.0);
        assert_eq!(stands_for, BarPart { count: 3, unit: "in" });
        assert!(part * 4.0 <= 28.0);
    }
}
