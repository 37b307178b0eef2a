//! Roof pitch.
//!
//! # Formula
//! m = rise / run; angle = atan m; slope factor = sqrt(1 + m²); hip and valley factor = sqrt(2 + m²)
//! # Valid range
//! 0 ≤ m, the angle under 90°. Reading refuses the rest; constructors take the caller's word.
//! # Checks
//! outside: `tests/outside_framing_square.rs`

use crate::quantity::{conversions, text};
use crate::read::{Notation, Thousands, pitch};
use crate::unit::{DEGREE, PERCENT, RISE_PER_12, SI};

/// The steepness of a roof plane, held as its slope, rise over run.
///
/// ```
/// use measure::Pitch;
/// let pitch = Pitch::from_rise_per_12(6.0);
/// assert_eq!(pitch.slope(), 0.5);
/// assert_eq!(pitch.hip_valley_factor(), 1.5);
/// assert!((pitch.degrees() - 26.565).abs() < 0.001);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Pitch(f64);

impl Pitch {
    /// A level plane.
    pub const LEVEL: Self = Self(0.0);

    conversions! {
        "rise over run" from_slope, slope = SI;
        "inches of rise in 12 inches of run" from_rise_per_12, rise_per_12 = RISE_PER_12;
        "percent" from_percent, percent = PERCENT;
    }

    /// From degrees above level.
    pub fn from_degrees(degrees: f64) -> Self {
        Self(DEGREE.to_si(degrees).tan())
    }

    /// In degrees above level.
    pub fn degrees(self) -> f64 {
        DEGREE.count(self.0.atan())
    }

    /// Whether it is under a limit; the limit itself, however it was worked out, is not.
    pub fn is_flatter_than(self, limit: Self) -> bool {
        /// Pitches closer than this in slope are one pitch; far below what any gauge shows.
        const SAME_SLOPE: f64 = 1e-9;
        self.0 < limit.0 - SAME_SLOPE
    }

    /// Length on the slope per length of run; also slope area per plan area.
    pub fn slope_factor(self) -> f64 {
        (1.0 + self.0 * self.0).sqrt()
    }

    /// Length of a hip or valley per length of common run, between two planes of this pitch whose eaves meet
    /// at a right angle.
    pub fn hip_valley_factor(self) -> f64 {
        (2.0 + self.0 * self.0).sqrt()
    }
}

static PITCH: Notation = Notation {
    what: "a pitch",
    examples: "`6/12`, `4 1/2 /12`, `6 in 12`, `26.57 deg` or `50 %`",
    units: &[(DEGREE, &["deg", "°", "degrees", "degree"]), (PERCENT, &["%", "percent"])],
    range: 0.0..=STEEPEST,
    limits: "0 to under 90 degrees",
    thousands: Thousands::Refused,
};

/// Above the tangent of every angle under 90° that `f64` can hold.
const STEEPEST: f64 = 1e17;

text! { Pitch: PITCH, pitch; trade "" rise_per_12 "/12" 2 }

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pitch_at_the_limit_is_not_flatter_however_it_was_worked_out() {
        let limit = Pitch::from_rise_per_12(4.0);
        assert!(!limit.is_flatter_than(limit));
        assert!(!Pitch::from_slope(1.0 / 3.0 - 1e-12).is_flatter_than(limit));
        assert!(Pitch::from_rise_per_12(3.99).is_flatter_than(limit));
    }
}
