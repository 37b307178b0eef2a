//! Writing lengths in feet, inches and a fraction of an inch.
//!
//! # Rounding
//! A length is first counted in whole fractions, halves away from zero, and then split into feet, inches and
//! fraction as integers. So 15.97 in rounds to 16 in, that carries to `1' 4"`, and no `12"` or `16/16` is ever written.
//! # Valid range
//! Reading back what was written gives the same count of fractions over the range that can be read, ±10 km.
//! # Checks
//! property: `tests/round_trip.rs`

use std::fmt;

use crate::Length;

/// The fraction of an inch to which a length is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fraction {
    /// 1/2 in.
    Half,
    /// 1/4 in.
    Quarter,
    /// 1/8 in: what a crew cuts to.
    Eighth,
    /// 1/16 in: what a tape shows.
    Sixteenth,
}

/// A length ready to be written as the trade does.
///
/// ```
/// use measure::{Fraction, Length};
/// let rafter = Length::from_in(294.53);
/// assert_eq!(rafter.trade(Fraction::Sixteenth).to_string(), "24' 6 1/2\"");
/// assert_eq!(Length::from_in(-0.375).trade(Fraction::Eighth).to_string(), "-3/8\"");
/// assert_eq!(Length::from_ft(24.0).to_string(), "24'");
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trade {
    length: Length,
    fraction: Fraction,
}

impl Fraction {
    const fn per_inch(self) -> u8 {
        match self {
            Self::Half => 2,
            Self::Quarter => 4,
            Self::Eighth => 8,
            Self::Sixteenth => 16,
        }
    }
}

impl Trade {
    pub(crate) const fn new(length: Length, fraction: Fraction) -> Self {
        Self { length, fraction }
    }

    /// In inches alone, however many, as laps and legs are marked: `36`, `5 1/2`.
    pub fn inches(self) -> String {
        self.told(|count, per_inch| mixed(count, per_inch).unwrap_or_else(|| "0".to_owned()))
    }

    /// With its sign, the fractions of an inch written in one way; what is no length is shown as it is.
    fn told(self, written: impl Fn(u64, u64) -> String) -> String {
        let per_inch = self.fraction.per_inch();
        let count = (self.length.inches() * f64::from(per_inch)).round();
        if !count.is_finite() {
            return format!("{count}\""); // show it rather than a number that looks like a length
        }
        let sign = if count < 0.0 { "-" } else { "" };
        format!("{sign}{}", written(whole(count), u64::from(per_inch)))
    }
}

impl fmt::Display for Trade {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.told(feet_and_inches))
    }
}

/// The integer a rounded number is, without its sign.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole, finite and not negative")]
const fn whole(rounded: f64) -> u64 {
    rounded.abs() as u64
}

/// So many fractions of an inch, of which `per_inch` make one.
fn feet_and_inches(count: u64, per_inch: u64) -> String {
    let feet = count / (12 * per_inch);
    let inches = mixed(count % (12 * per_inch), per_inch);
    match (feet, inches) {
        (0, None) => "0\"".to_owned(),
        (0, Some(inches)) => format!("{inches}\""),
        (_, None) => format!("{feet}'"),
        (_, Some(inches)) => format!("{feet}' {inches}\""),
    }
}

/// A whole and a fraction, of which either is left out when zero; none when both are.
fn mixed(above: u64, below: u64) -> Option<String> {
    match (above / below, above % below) {
        (0, 0) => None,
        (whole, 0) => Some(whole.to_string()),
        (0, part) => Some(reduced(part, below)),
        (whole, part) => Some(format!("{whole} {}", reduced(part, below))),
    }
}

/// A fraction under one and over zero in lowest terms; its denominator is a power of two, so halving finds them.
fn reduced(above: u64, below: u64) -> String {
    if above.is_multiple_of(2) { reduced(above / 2, below / 2) } else { format!("{above}/{below}") }
}

#[cfg(test)]
mod tests {
    use super::Fraction;
    use crate::Length;

    fn check(inches: f64, fraction: Fraction, expected: &str) {
        assert_eq!(Length::from_in(inches).trade(fraction).to_string(), expected, "{inches}");
    }

    #[test]
    fn parts_that_are_zero_are_left_out() {
        check(0.0, Fraction::Sixteenth, "0\"");
        check(-0.0, Fraction::Sixteenth, "0\"");
        check(288.0, Fraction::Sixteenth, "24'");
        check(6.0, Fraction::Sixteenth, "6\"");
        check(0.375, Fraction::Sixteenth, "3/8\"");
        check(288.375, Fraction::Sixteenth, "24' 3/8\"");
        check(294.5, Fraction::Sixteenth, "24' 6 1/2\"");
    }

    #[test]
    fn rounding_carries_into_inches_and_feet() {
        check(5.97, Fraction::Sixteenth, "6\"");
        check(11.97, Fraction::Sixteenth, "1'");
        check(287.8, Fraction::Half, "24'");
        check(287.7, Fraction::Half, "23' 11 1/2\"");
    }

    #[test]
    fn halves_round_away_from_zero_and_what_rounds_to_nothing_has_no_sign() {
        check(0.25, Fraction::Half, "1/2\"");
        check(-0.25, Fraction::Half, "-1/2\"");
        check(-0.2, Fraction::Half, "0\"");
        check(-0.375, Fraction::Eighth, "-3/8\"");
        check(-294.5, Fraction::Eighth, "-24' 6 1/2\"");
    }

    #[test]
    fn fractions_are_in_lowest_terms() {
        for (sixteenths, text) in
            [(1.0, "1/16"), (2.0, "1/8"), (4.0, "1/4"), (8.0, "1/2"), (12.0, "3/4"), (15.0, "15/16")]
        {
            check(sixteenths / 16.0, Fraction::Sixteenth, &format!("{text}\""));
        }
    }

    #[test]
    fn what_is_not_a_length_does_not_look_like_one() {
        check(f64::NAN, Fraction::Half, "NaN\"");
        check(f64::INFINITY, Fraction::Half, "inf\"");
    }
}
