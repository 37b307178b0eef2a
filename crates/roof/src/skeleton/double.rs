//! Double-double arithmetic: an unevaluated sum of two `f64`, about 32 significant digits.
//!
//! The skeleton compares heights at which different triples of lines meet. In plain `f64` a symmetric outline gives
//! heights that differ by rounding only, and a tolerance wide enough to hide that also hides real, tiny edges. With
//! twice the digits the two cannot be confused: coincidences agree to about 1e-30, real differences that an `f64`
//! outline can express are far larger.
//!
//! Only `+ - * /` and square root of IEEE `f64` are used, so results are the same bits on every machine.
//!
//! # Source
//! T. J. Dekker, "A floating-point technique for extending the available precision", Numer. Math. 18 (1971); D. E.
//! Knuth, The Art of Computer Programming, vol. 2, 4.2.2 (error-free sum) — published, from memory.
//!
//! # Valid range
//! Magnitudes from 1e-140 to 1e150: beyond it the error-free product would over- or underflow. The skeleton scales
//! its outline to size one first.

use std::cmp::Ordering;
use std::ops::{Add, Div, Mul, Neg, Sub};

/// Unevaluated sum `hi + lo` with `|lo|` at most half a unit in the last place of `hi`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Double {
    hi: f64,
    lo: f64,
}

impl Double {
    pub(super) const ZERO: Self = Self { hi: 0.0, lo: 0.0 };
    pub(super) const ONE: Self = Self { hi: 1.0, lo: 0.0 };

    /// The nearest `f64`.
    pub(super) fn to_f64(self) -> f64 {
        self.hi
    }

    /// Exact difference of two `f64`.
    pub(super) fn difference(a: f64, b: f64) -> Self {
        let (hi, lo) = two_sum(a, -b);
        Self { hi, lo }
    }

    /// Exact product with a power of two.
    pub(super) fn scaled(self, power_of_two: f64) -> Self {
        Self { hi: self.hi * power_of_two, lo: self.lo * power_of_two }
    }

    pub(super) fn is_zero(self) -> bool {
        self.hi == 0.0
    }

    pub(super) fn max(self, other: Self) -> Self {
        if self < other { other } else { self }
    }

    /// Square root of a positive value; zero for anything else.
    pub(super) fn sqrt(self) -> Self {
        if self.hi <= 0.0 {
            return Self::ZERO;
        }
        let root = self.hi.sqrt();
        let rest = self - Self::product(root, root);
        Self::from(root) + Self::from(rest.hi / (2.0 * root))
    }

    fn product(a: f64, b: f64) -> Self {
        let (hi, lo) = two_product(a, b);
        Self { hi, lo }
    }
}

impl From<f64> for Double {
    fn from(value: f64) -> Self {
        Self { hi: value, lo: 0.0 }
    }
}

impl PartialOrd for Double {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        match self.hi.partial_cmp(&other.hi) {
            Some(Ordering::Equal) => self.lo.partial_cmp(&other.lo),
            decided => decided,
        }
    }
}

impl Neg for Double {
    type Output = Self;
    fn neg(self) -> Self {
        Self { hi: -self.hi, lo: -self.lo }
    }
}

impl Add for Double {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        let (sum, error) = two_sum(self.hi, other.hi);
        let (low_sum, low_error) = two_sum(self.lo, other.lo);
        let (sum, error) = quick_two_sum(sum, error + low_sum);
        let (hi, lo) = quick_two_sum(sum, error + low_error);
        Self { hi, lo }
    }
}

impl Sub for Double {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        self + -other
    }
}

impl Mul for Double {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        let (product, error) = two_product(self.hi, other.hi);
        let (hi, lo) = quick_two_sum(product, error + (self.hi * other.lo + self.lo * other.hi));
        Self { hi, lo }
    }
}

impl Div for Double {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        let first = self.hi / other.hi;
        let rest = self - other * Self::from(first);
        let second = rest.hi / other.hi;
        let rest = rest - other * Self::from(second);
        let third = rest.hi / other.hi;
        let (hi, lo) = quick_two_sum(first, second);
        Self { hi, lo } + Self::from(third)
    }
}

/// Vector in the plan, in the skeleton's scaled frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Vector {
    pub(super) x: Double,
    pub(super) y: Double,
}

impl Vector {
    pub(super) fn dot(self, other: Self) -> Double {
        self.x * other.x + self.y * other.y
    }

    /// Third component of the vector product: positive when `other` lies to the left.
    pub(super) fn cross(self, other: Self) -> Double {
        self.x * other.y - self.y * other.x
    }

    /// Turned a quarter to the left.
    pub(super) fn left(self) -> Self {
        Self { x: -self.y, y: self.x }
    }

    pub(super) fn times(self, factor: Double) -> Self {
        Self { x: self.x * factor, y: self.y * factor }
    }

    pub(super) fn over(self, divisor: Double) -> Self {
        Self { x: self.x / divisor, y: self.y / divisor }
    }

    pub(super) fn to_f64(self) -> [f64; 2] {
        [self.x.to_f64(), self.y.to_f64()]
    }

    /// Length in plain `f64`, for tolerances and choices that need no more.
    pub(super) fn length(self) -> f64 {
        let [x, y] = self.to_f64();
        (x * x + y * y).sqrt()
    }
}

impl Neg for Vector {
    type Output = Self;
    fn neg(self) -> Self {
        Self { x: -self.x, y: -self.y }
    }
}

impl Add for Vector {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { x: self.x + other.x, y: self.y + other.y }
    }
}

impl Sub for Vector {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self { x: self.x - other.x, y: self.y - other.y }
    }
}

/// Sum and its exact rounding error.
fn two_sum(a: f64, b: f64) -> (f64, f64) {
    let sum = a + b;
    let b_part = sum - a;
    (sum, (a - (sum - b_part)) + (b - b_part))
}

/// As [`two_sum`], for `|a| >= |b|`.
fn quick_two_sum(a: f64, b: f64) -> (f64, f64) {
    let sum = a + b;
    (sum, b - (sum - a))
}

/// Product and its exact rounding error, by splitting each factor in two halves of 26 bits.
fn two_product(a: f64, b: f64) -> (f64, f64) {
    let product = a * b;
    let (a_hi, a_lo) = split(a);
    let (b_hi, b_lo) = split(b);
    (product, ((a_hi * b_hi - product) + a_hi * b_lo + a_lo * b_hi) + a_lo * b_lo)
}

fn split(a: f64) -> (f64, f64) {
    const HALF_BITS: f64 = 134_217_729.0; // 2^27 + 1
    let stretched = HALF_BITS * a;
    let hi = stretched - (stretched - a);
    (hi, a - hi)
}

#[cfg(test)]
mod tests {
    use super::{Double, Vector};

    /// Relative size that a result may be off, a few units of the 104-bit arithmetic.
    const EPSILON: f64 = 1e-30;

    fn third() -> Double {
        Double::ONE / Double::from(3.0)
    }

    #[test]
    fn quotient_times_divisor_gives_the_dividend_to_thirty_digits() {
        let rest = third() * Double::from(3.0) - Double::ONE;
        assert!(rest.to_f64().abs() < EPSILON, "{rest:?}");
    }

    #[test]
    fn small_part_survives_a_large_sum() {
        let sum = Double::from(1.0) + Double::from(1e-25);
        assert_eq!((sum - Double::ONE).to_f64().to_bits(), 1e-25_f64.to_bits());
    }

    #[test]
    fn square_of_root_gives_the_value_to_thirty_digits() {
        let root = Double::from(2.0).sqrt();
        assert!((root * root - Double::from(2.0)).to_f64().abs() < EPSILON);
    }

    #[test]
    fn difference_of_decimals_keeps_the_rounding_error() {
        // 0.3 - 0.1 is not exact in f64; both parts together are.
        let exact = Double::difference(0.3, 0.1);
        assert!((exact + Double::from(0.1) - Double::from(0.3)).is_zero());
    }

    #[test]
    fn cross_product_of_a_vector_with_itself_is_exactly_zero() {
        let v = Vector { x: third(), y: Double::from(2.0).sqrt() };
        assert!(v.cross(v).is_zero());
        assert!(v.cross(-v).is_zero());
    }

    #[test]
    fn comparison_looks_at_the_low_part_when_the_high_parts_agree() {
        let above = Double::ONE + Double::from(1e-28);
        assert!(above > Double::ONE);
        assert_eq!(above.max(Double::ONE), above);
    }
}
