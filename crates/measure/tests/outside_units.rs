//! Conversion factors against the printed ones.
//!
//! # Source
//! NIST SP 811 (2008), appendix B.8, factors to seven digits, and those exact by definition to all their digits;
//! published, from memory.
//! # Tolerance
//! Half of the last printed digit.

#![expect(clippy::float_cmp, reason = "what is exact by definition is compared exactly")]

use measure::{Area, Flow, Length, Load, Pressure, RValue, RainRate, Temperature, UValue, Volume};

/// Agreement to half of the seventh significant digit.
fn check(ours: f64, printed: f64) {
    let unit_of_last_digit = 10_f64.powf(printed.abs().log10().floor() - 6.0);
    assert!((ours - printed).abs() <= 0.5 * unit_of_last_digit, "{ours} against {printed}");
}

#[test]
fn exact_lengths_are_exact() {
    assert_eq!(Length::from_ft(1.0).m(), 0.3048);
    assert_eq!(Length::from_in(1.0).m(), 0.0254);
    assert_eq!(Length::from_mm(7480.0).m(), 7.48);
}

#[test]
fn exact_temperatures_are_exact_to_rounding() {
    for (f, c) in [(32.0, 0.0), (212.0, 100.0), (-40.0, -40.0)] {
        assert!((Temperature::from_f(f).c() - c).abs() < 1e-9);
        assert!((Temperature::from_c(c).f() - f).abs() < 1e-9);
    }
    assert_eq!(Temperature::from_c(0.0).k(), 273.15);
}

#[test]
fn areas_and_volumes_match() {
    check(Area::from_ft2(1.0).m2(), 9.290304e-2);
    check(Area::from_in2(1.0).m2(), 6.4516e-4);
    check(Area::from_squares(1.0).m2(), 9.290304);
    check(Volume::from_ft3(1.0).m3(), 2.831685e-2);
}

#[test]
fn loads_and_pressures_match() {
    check(Load::from_psf(1.0).pa(), 4.788026e1);
    check(Pressure::from_inch_water(1.0).pa(), 2.490889e2);
    check(Pressure::from_hpa(1.0).pa(), 100.0);
}

#[test]
fn thermal_values_match() {
    check(RValue::from_us(1.0).si(), 1.761102e-1);
    check(UValue::from_us(1.0).si(), 5.678263);
}

#[test]
fn flows_match() {
    check(Flow::from_cfm(1.0).m3_s(), 4.719474e-4);
    check(Flow::from_gpm(1.0).m3_s(), 6.309020e-5);
    check(RainRate::from_in_per_h(1.0).m_s(), 7.055556e-6);
    check(RainRate::from_in_per_h(1.0).mm_per_h(), 25.4);
}
