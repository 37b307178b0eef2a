//! Money: decimal, never a binary float.
//!
//! An amount is a whole number of hundredths of a cent, so that unit prices such as $0.0375 are exact.
//!
//! # Rounding
//! Halves go away from zero, as a till rounds, to 1/100 cent in products and to the cent in [`Money::to_cents`].
//! # Valid range
//! Every amount made here fits ±2⁶³ cents. Sums are held in 128 bits: it takes 2⁵⁷ such amounts to overflow one.

use std::fmt;
use std::iter::Sum;
use std::num::NonZeroU32;
use std::ops::{Add, AddAssign, Neg, Sub, SubAssign};
use std::str::FromStr;

use crate::read::{Notation, ReadError, Thousands, money, read};
use crate::write::with_thousands;

/// An amount of money in dollars.
///
/// ```
/// use measure::Money;
/// use std::num::NonZeroU32;
/// let hundredths = NonZeroU32::new(100).expect("not zero");
/// let labour = Money::from_cents(62_50).times_ratio(12_75, hundredths).expect("12.75 h at $62.50");
/// assert_eq!(labour.to_cents(), Money::from_cents(796_88));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Money(i128);

/// Hundredths of a cent in a cent.
const CENT: i128 = 100;
/// The largest amount a product may reach, in hundredths of a cent.
const LIMIT: i128 = i64::MAX as i128 * CENT;

impl Money {
    /// Nothing.
    pub const ZERO: Self = Self(0);

    /// From whole cents.
    pub const fn from_cents(cents: i64) -> Self {
        Self(cents as i128 * CENT)
    }

    /// Rounded to whole cents, halves away from zero.
    #[must_use]
    pub const fn to_cents(self) -> Self {
        Self(divide_half_away(self.0, CENT) * CENT)
    }

    /// So many times the amount, exactly; none past the valid range.
    #[must_use]
    pub fn times(self, count: i64) -> Option<Self> {
        self.times_ratio(count, NonZeroU32::MIN)
    }

    /// The amount times `numerator / denominator`, to 1/100 cent, halves away from zero; none past the valid range.
    #[must_use]
    pub fn times_ratio(self, numerator: i64, denominator: NonZeroU32) -> Option<Self> {
        let product = self.0.checked_mul(i128::from(numerator))?;
        let quotient = divide_half_away(product, i128::from(denominator.get()));
        (-LIMIT..=LIMIT).contains(&quotient).then_some(Self(quotient))
    }
}

/// Division by a positive divisor, to the nearest whole number, halves away from zero.
const fn divide_half_away(dividend: i128, divisor: i128) -> i128 {
    let (quotient, rest) = (dividend / divisor, dividend % divisor);
    if 2 * rest.abs() >= divisor { quotient + rest.signum() } else { quotient }
}

impl Add for Money {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for Money {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for Money {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl AddAssign for Money {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl SubAssign for Money {
    fn sub_assign(&mut self, other: Self) {
        self.0 -= other.0;
    }
}

impl Sum for Money {
    fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
        parts.fold(Self::ZERO, Add::add)
    }
}

static MONEY: Notation = Notation {
    what: "an amount of money",
    examples: "`$1,234.50` or `$0.0375`",
    units: &[],
    range: -1e13..=1e13, // in 1/100 cent
    limits: "-$1,000,000,000 to $1,000,000,000",
    thousands: Thousands::Grouped,
};

impl FromStr for Money {
    type Err = ReadError;
    fn from_str(text: &str) -> Result<Self, ReadError> {
        read(text, &MONEY, money).map(|hundredths| Self(i128::from(hundredths)))
    }
}

/// As `$1,234.50`; in 1/100 cent only where cents alone would not say it all.
impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let hundredths = self.0.unsigned_abs();
        let (dollars, cents, rest) = (hundredths / 10_000, hundredths / 100 % 100, hundredths % 100);
        write!(f, "{sign}${}.{cents:02}", with_thousands(dollars))?;
        if rest == 0 { Ok(()) } else { write!(f, "{rest:02}") }
    }
}

#[cfg(test)]
mod tests {
    use super::Money;
    use std::num::NonZeroU32;

    fn ratio(money: Money, numerator: i64, denominator: u32) -> Option<Money> {
        money.times_ratio(numerator, NonZeroU32::new(denominator).expect("not zero"))
    }

    #[test]
    fn halves_of_a_cent_go_away_from_zero() {
        for (hundredths, cents) in [(49, 0), (50, 1), (149, 1), (150, 2), (-49, 0), (-50, -1), (-150, -2)] {
            assert_eq!(Money(hundredths).to_cents(), Money::from_cents(cents), "{hundredths}");
        }
    }

    #[test]
    fn ratio_rounds_to_a_hundredth_of_a_cent() {
        assert_eq!(ratio(Money(1), 1, 2), Some(Money(1)));
        assert_eq!(ratio(Money(-1), 1, 2), Some(Money(-1)));
        assert_eq!(ratio(Money(100), 1, 3), Some(Money(33)));
        assert_eq!(ratio(Money(100), -2, 3), Some(Money(-67)));
    }

    #[test]
    fn product_past_the_valid_range_is_none() {
        let most = Money::from_cents(i64::MAX);
        assert_eq!(most.times(1), Some(most));
        assert_eq!(most.times(2), None);
        assert_eq!(most.times(i64::MIN), None);
        assert_eq!(ratio(most, 3, 3), Some(most));
    }

    #[test]
    fn tenth_of_a_dollar_ten_times_is_a_dollar() {
        let dimes: Money = std::iter::repeat_n(Money::from_cents(10), 10).sum();
        assert_eq!(dimes, Money::from_cents(1_00));
    }

    #[test]
    fn amount_shows_thousands_and_fine_decimals_only_where_there_are_any() {
        for (hundredths, text) in [
            (0, "$0.00"),
            (12_345_000, "$1,234.50"),
            (-12_345_678_900, "-$1,234,567.89"),
            (375, "$0.0375"),
            (-5, "-$0.0005"),
            (9_999_900, "$999.99"),
            (10_000_000, "$1,000.00"),
        ] {
            assert_eq!(Money(hundredths).to_string(), text);
        }
    }
}
