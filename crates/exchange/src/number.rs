//! Figures as they are written: rounded to far below what can be measured, so that the text does not carry the noise of
//! the arithmetic.

use serde::Serialize;
use serde_json::Value;

/// Rounds to a nanometre, a square millimetre's thousandth, and the like; zero has no sign.
pub(crate) fn tidy(x: f64) -> f64 {
    let rounded = (x * 1e9).round() / 1e9;
    if rounded == 0.0 { 0.0 } else { rounded }
}

/// Rounds every coordinate of a point.
pub(crate) fn point(p: [f64; 3]) -> [f64; 3] {
    p.map(tidy)
}

/// A wire document as a JSON value. Wire types hold text, numbers and lists of them alone, which always have one.
pub(crate) fn value<T: Serialize>(document: &T) -> Value {
    serde_json::to_value(document).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn noise_goes_and_zero_has_no_sign() {
        assert_eq!(format!("{:?}", point([0.1 + 0.2, -1e-13, 2.0])), "[0.3, 0.0, 2.0]");
        assert!(tidy(-1e-13).is_sign_positive());
    }
}
