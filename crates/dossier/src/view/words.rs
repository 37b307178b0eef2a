//! Numbers and names as the papers write them.

use job::{Basis, Figure, Units};
use measure::{Area, Fraction, Length};

use crate::Stated;

/// Feet and inches to 1/8 in, or metres to the millimetre.
pub(super) fn length(value: Length, units: Units) -> String {
    match units {
        Units::Us => value.trade(Fraction::Eighth).to_string(),
        Units::Si => value.metric().to_string(),
    }
}

/// Square feet to one decimal, or square metres to two.
pub(super) fn area(value: Area, units: Units) -> String {
    match units {
        Units::Us => format!("{:.1} ft²", value.ft2()),
        Units::Si => format!("{:.2} m²", value.m2()),
    }
}

/// Net free area: square inches, or square centimetres.
pub(super) fn free_area(value: Area, units: Units) -> String {
    match units {
        Units::Us => format!("{:.1} in²", value.in2()),
        Units::Si => format!("{:.0} cm²", value.m2() * 1e4),
    }
}

/// A text that is set differently when an assumption stands behind it.
pub(super) fn stated(text: String, assumed: bool) -> Stated {
    if assumed { Stated::assumed(text) } else { Stated::measured(text) }
}

/// Whether a figure of the survey was assumed.
pub(super) fn is_assumed<T>(figure: &Figure<T>) -> bool {
    matches!(figure.basis, Basis::Assumed { .. })
}

/// A name as part of a file name: lower case, words joined by `-`, nothing but letters and digits.
pub(super) fn file_name(name: &str) -> String {
    let kept: String = name.chars().map(|c| if c.is_alphanumeric() { c } else { ' ' }).collect();
    kept.to_lowercase().split_whitespace().collect::<Vec<_>>().join("-")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn file_names_hold_no_separators() {
        assert_eq!(file_name("main N"), "main-n");
        assert_eq!(file_name("../Büro: 2/1"), "büro-2-1");
    }
}
