//! Writing decimal numbers with their unit.

use std::fmt;

/// A number with its unit, ready to be written: `1286.6 ft²`, `R-60`, `7.480 m`.
///
/// Decimals that are zero are left out unless the place of the number asks for all of them; a precision such as
/// `{:.1}` writes exactly that many.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Written {
    before: &'static str,
    value: f64,
    after: &'static str,
    places: Places,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Places {
    Exactly(usize),
    UpTo(usize),
}

impl Written {
    pub(crate) const fn exactly(
        places: usize,
        before: &'static str,
        value: f64,
        after: &'static str,
    ) -> Self {
        Self { before, value, after, places: Places::Exactly(places) }
    }

    pub(crate) const fn up_to(places: usize, before: &'static str, value: f64, after: &'static str) -> Self {
        Self { before, value, after, places: Places::UpTo(places) }
    }
}

impl fmt::Display for Written {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let number = decimal(self.value, f.precision().map_or(self.places, Places::Exactly));
        write!(f, "{}{number}{}", self.before, self.after)
    }
}

/// The number in decimals; what rounds to zero has no sign.
fn decimal(value: f64, places: Places) -> String {
    let number = match places {
        Places::Exactly(places) => format!("{value:.places$}"),
        Places::UpTo(places) => without_trailing_zeros(format!("{value:.places$}")),
    };
    let is_zero = number.chars().all(|c| "-0.".contains(c));
    if is_zero { number.trim_start_matches('-').to_owned() } else { number }
}

fn without_trailing_zeros(number: String) -> String {
    if !number.contains('.') {
        return number;
    }
    number.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// A whole number with its thousands grouped: `1,234`.
pub(crate) fn with_thousands(number: u128) -> String {
    let digits = number.to_string();
    let is_group_end = |i: usize| i > 0 && (digits.len() - i).is_multiple_of(3);
    digits
        .char_indices()
        .flat_map(|(i, digit)| is_group_end(i).then_some(',').into_iter().chain([digit]))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{Written, with_thousands};
    use crate::{Area, Length, Load, Pitch, RValue, Temperature};

    #[test]
    fn decimals_that_are_zero_are_left_out() {
        assert_eq!(Area::from_ft2(1200.0).to_string(), "1200 ft²");
        assert_eq!(Area::from_ft2(1286.64).to_string(), "1286.6 ft²");
        assert_eq!(Pitch::from_rise_per_12(6.0).to_string(), "6/12");
        assert_eq!(Pitch::from_rise_per_12(4.5).to_string(), "4.5/12");
        assert_eq!(RValue::from_us(60.0).to_string(), "R-60");
        assert_eq!(Temperature::from_f(22.0).to_string(), "22 °F");
    }

    #[test]
    fn precision_writes_exactly_that_many_decimals() {
        assert_eq!(format!("{:.2}", Area::from_ft2(1286.64)), "1286.64 ft²");
        assert_eq!(format!("{:.0}", Area::from_ft2(1286.64)), "1287 ft²");
        assert_eq!(format!("{:.1}", Load::from_psf(60.0)), "60.0 psf");
    }

    #[test]
    fn metric_twin_is_in_si() {
        assert_eq!(Length::from_m(7.48).metric().to_string(), "7.480 m");
        assert_eq!(Load::from_psf(60.0).metric().to_string(), "2.87 kPa");
        assert_eq!(RValue::from_us(60.0).metric().to_string(), "RSI 10.57");
        assert_eq!(Temperature::from_c(-5.6).metric().to_string(), "-5.6 °C");
    }

    #[test]
    fn what_rounds_to_zero_has_no_sign() {
        assert_eq!(Written::up_to(1, "", -0.04, " F").to_string(), "0 F");
        assert_eq!(Written::exactly(1, "", -0.04, " F").to_string(), "0.0 F");
    }

    #[test]
    fn thousands_are_grouped_from_the_right() {
        for (number, text) in [(0, "0"), (999, "999"), (1000, "1,000"), (1234567, "1,234,567")] {
            assert_eq!(with_thousands(number), text);
        }
    }
}
