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
