//! Slope and hip factors against the rafter table stamped on a framing square.
//!
//! # Source
//! Row 1 (length of common rafter per foot of run) as published for 2/12 to 18/12, and 13.89 at 7/12 again in a
//! military builder's manual. Row 2 (length of hip or valley per foot of common run) as published for 3/12 to 11/12;
//! its 2/12 and 13/12 to 18/12 are computed as sqrt(288 + r²), there being no printed row at hand.
//! # Tolerance
//! Half of the last printed digit, 0.005 in.
//! # Known disagreement
//! The published row 2 has 20.79 at 12/12; sqrt(432) = 20.7846, which rounds to 20.78. The print is one digit high.

use measure::Pitch;

/// Rise in 12, row 1, row 2 [in per ft of common run].
const TABLE: [(f64, f64, f64); 17] = [
    (2.0, 12.17, 17.09),
    (3.0, 12.37, 17.23),
    (4.0, 12.65, 17.44),
    (5.0, 13.00, 17.69),
    (6.0, 13.42, 18.00),
    (7.0, 13.89, 18.36),
    (8.0, 14.42, 18.76),
    (9.0, 15.00, 19.21),
    (10.0, 15.62, 19.70),
    (11.0, 16.28, 20.22),
    (12.0, 16.97, 20.78),
    (13.0, 17.69, 21.38),
    (14.0, 18.44, 22.00),
    (15.0, 19.21, 22.65),
    (16.0, 20.00, 23.32),
    (17.0, 20.81, 24.02),
    (18.0, 21.63, 24.74),
];

const HALF_DIGIT: f64 = 0.005;

#[test]
fn slope_factor_gives_row_one() {
    for (rise, common, _) in TABLE {
        let ours = 12.0 * Pitch::from_rise_per_12(rise).slope_factor();
        assert!((ours - common).abs() <= HALF_DIGIT, "{rise}/12: {ours} against {common}");
    }
}

#[test]
fn hip_valley_factor_gives_row_two() {
    for (rise, _, hip) in TABLE {
        let ours = 12.0 * Pitch::from_rise_per_12(rise).hip_valley_factor();
        assert!((ours - hip).abs() <= HALF_DIGIT, "{rise}/12: {ours} against {hip}");
    }
}

#[test]
fn published_hip_at_12_in_12_is_one_digit_high() {
    let printed = 20.79;
    let ours = 12.0 * Pitch::from_rise_per_12(12.0).hip_valley_factor();
    assert!(printed - ours > HALF_DIGIT && printed - ours < 2.0 * HALF_DIGIT);
}

/// The 3-4-5 triangle both ways up and the half square; degrees to two decimals.
#[test]
fn degrees_of_known_triangles() {
    for (rise, degrees) in [(9.0, 36.87), (12.0, 45.0), (16.0, 53.13)] {
        assert!((Pitch::from_rise_per_12(rise).degrees() - degrees).abs() <= HALF_DIGIT);
        assert!((Pitch::from_degrees(degrees).rise_per_12() - rise).abs() <= HALF_DIGIT);
    }
}
