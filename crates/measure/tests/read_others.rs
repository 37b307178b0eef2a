//! Every quantity but lengths, as people write it and as they should not.

use std::fmt::Debug;
use std::str::FromStr;

use measure::{
    Area, Cause, Flow, Load, Money, Pitch, Pressure, RValue, RainRate, ReadError, Temperature,
    TemperatureDifference, UValue, Volume,
};

fn check<T: FromStr<Err = ReadError> + PartialEq + Debug>(texts: &[&str], expected: &T) {
    for text in texts {
        match text.parse::<T>() {
            Ok(quantity) => assert_eq!(quantity, *expected, "{text}"),
            Err(error) => panic!("{text}: {error}"),
        }
    }
}

fn check_refused<T: FromStr<Err = ReadError> + Debug>(text: &str, cause: Cause, found: &str, mends: &[&str]) {
    let error = text.parse::<T>().expect_err(text);
    assert_eq!(error.cause(), cause, "{text}");
    assert_eq!(&text[error.at()], found, "{text}");
    let quoted: Vec<String> = mends.iter().map(|mend| format!("`{mend}`")).collect();
    let expected = (!mends.is_empty()).then(|| format!("did you mean {}?", quoted.join(" or ")));
    assert_eq!(error.mend(), expected, "{text}");
}

#[test]
fn pitch_is_a_rise_in_twelve_or_degrees_or_percent() {
    check(&["6/12", "6:12", "6 in 12", "6 / 12", "6.0/12", "50 %", "50%"], &Pitch::from_rise_per_12(6.0));
    check(&["4.5/12", "4 1/2 /12", "4½/12", "4 1/2:12", "4 1/2 in 12"], &Pitch::from_rise_per_12(4.5));
    check(&["1/2 /12", "½/12", "½ in 12"], &Pitch::from_rise_per_12(0.5));
    check(&["26.57 deg", "26.57°", "26.57 degrees", "26.57º"], &Pitch::from_degrees(26.57));
    check(&["0/12", "0 %", "0 deg", "-0/12"], &Pitch::LEVEL);
}

#[test]
fn pitch_over_another_run_is_refused_as_rise_over_run_or_over_span() {
    check_refused::<Pitch>("3/8", Cause::RunNotTwelve, "3/8", &["4.5/12", "9/12"]);
    check_refused::<Pitch>("½", Cause::RunNotTwelve, "½", &["6/12", "12/12"]);
    check_refused::<Pitch>("6:10", Cause::RunNotTwelve, "6:10", &["7.2/12", "14.4/12"]);
    check_refused::<Pitch>("6:0", Cause::RunNotTwelve, "6:0", &[]);
    check_refused::<Pitch>("0:0", Cause::RunNotTwelve, "0:0", &[]);
    check_refused::<Pitch>("6/0", Cause::ZeroDenominator, "6/0", &[]);
}

#[test]
fn pitch_without_its_run_is_refused() {
    check_refused::<Pitch>("6", Cause::NoUnit, "6", &["6/12", "6 deg"]);
    check_refused::<Pitch>("4 1/2", Cause::NoUnit, "4 1/2", &["4 1/2 /12", "4 1/2 deg"]);
    check_refused::<Pitch>("4,5/12", Cause::Comma, "4,5", &["4.5/12"]);
    check_refused::<Pitch>("6/12/12", Cause::Trailing, "/12", &[]);
    check_refused::<Pitch>("6/12 hip", Cause::Trailing, "hip", &[]);
    check_refused::<Pitch>("6 rad", Cause::UnknownUnit, "rad", &[]);
}

#[test]
fn pitch_below_level_or_upright_is_refused() {
    check_refused::<Pitch>("-6/12", Cause::OutOfRange, "-6/12", &[]);
    check_refused::<Pitch>("90 deg", Cause::OutOfRange, "90", &[]);
    check_refused::<Pitch>("120°", Cause::OutOfRange, "120", &[]);
    assert!("89.99999999999999 deg".parse::<Pitch>().expect("steep").slope().is_finite());
}

#[test]
fn temperature_needs_its_scale() {
    check(&["22 F", "22 °F", "22F", "22 deg F", "22 º f"], &Temperature::from_f(22.0));
    check(&["-5.6 C", "\u{2212}5.6 °C"], &Temperature::from_c(-5.6));
    check(&["268 K"], &Temperature::from_k(268.0));
    check_refused::<Temperature>("22", Cause::NoUnit, "22", &["22 F", "22 C"]);
    check_refused::<Temperature>("-5,6 C", Cause::Comma, "5,6", &["-5.6 C"]);
    check_refused::<Temperature>("-460 F", Cause::OutOfRange, "-460 F", &[]);
    check_refused::<Temperature>("20 F difference", Cause::UnknownUnit, "F difference", &[]);
}

#[test]
fn temperature_difference_has_no_zero_point() {
    check(&["20 F", "20 °F"], &TemperatureDifference::from_f(20.0));
    check(&["-11 K", "-11 C", "-11 °C"], &TemperatureDifference::from_k(-11.0));
    check_refused::<TemperatureDifference>("20", Cause::NoUnit, "20", &["20 F", "20 K"]);
}

#[test]
fn area_groups_thousands_and_knows_the_roofing_square() {
    let feet =
        ["1200 ft2", "1,200 sq ft", "1,200 ft²", "1200 SQ. FT.", "1200 sf", "1200 square feet", "1200 ft^2"];
    check(&feet, &Area::from_ft2(1200.0));
    check(&["1,234,567.5 ft2"], &Area::from_ft2(1_234_567.5));
    check(&["17.5 sq", "17.5 squares", "17 1/2 sq."], &Area::from_squares(17.5));
    check(&["78 in2", "78 sq in", "78 in²"], &Area::from_in2(78.0));
    check(&["111 m2", "111 m²"], &Area::from_m2(111.0));
    check_refused::<Area>("1200", Cause::NoUnit, "1200", &["1200 ft2", "1200 m2"]);
    check_refused::<Area>("-3 m2", Cause::OutOfRange, "-3 m2", &[]);
    check_refused::<Area>("40 ft", Cause::UnknownUnit, "ft", &[]);
}

#[test]
fn comma_that_does_not_group_thousands_is_refused_everywhere() {
    check_refused::<Area>("8,5 ft2", Cause::Comma, "8,5", &["8.5 ft2"]);
    check_refused::<Area>("8,5", Cause::Comma, "8,5", &["8.5 ft2"]);
    check_refused::<Area>("1,2000 ft2", Cause::Comma, "1,2000", &["1.2000 ft2"]);
    check_refused::<Area>("1200,000 ft2", Cause::Comma, "1200,000", &["1200.000 ft2", "1200000 ft2"]);
    check_refused::<Area>("0,500 ft2", Cause::Comma, "0,500", &["0.500 ft2", "0500 ft2"]);
    check_refused::<Area>("1.5,000 ft2", Cause::Comma, "1.5,000", &[]);
    check_refused::<Load>("1,200 psf", Cause::Comma, "1,200", &["1.200 psf", "1200 psf"]);
    check_refused::<Money>("$8,5", Cause::Comma, "8,5", &["$8.5"]);
    check_refused::<RValue>("R-8,5", Cause::Comma, "8,5", &["R-8.5"]);
}

#[test]
fn volume_is_read_in_feet_and_metres() {
    check(&["9,600 ft3", "9600 cu ft", "9600 cu. ft.", "9600 ft³"], &Volume::from_ft3(9600.0));
    check(&["272 m3", "272 m³"], &Volume::from_m3(272.0));
}

#[test]
fn load_and_pressure_are_read_each_in_its_units() {
    check(&["60 psf", "60 PSF", "60 p.s.f.", "60 lb/ft2", "60 lb/sq ft"], &Load::from_psf(60.0));
    check(&["2.9 kPa", "2.9 kN/m²"], &Load::from_kpa(2.9));
    check(&["-20 psf"], &Load::from_psf(-20.0));
    check(&["50 Pa", "50 pa", "0.5 hPa", "0.5 mbar"], &Pressure::from_pa(50.0));
    check(&["0.2 inwc", "0.2 in w.c.", "0.2 in. w.c.", "0.2 in H2O"], &Pressure::from_inch_water(0.2));
    check_refused::<Load>("60 pfs", Cause::UnknownUnit, "pfs", &["60 psf"]);
    check_refused::<Pressure>("60 psf", Cause::UnknownUnit, "psf", &[]);
}

#[test]
fn r_value_is_read_with_its_letters_before_or_its_unit_after() {
    check(
        &["R-60", "R 60", "R60", "r-60", "R - 60", "60 h·ft²·°F/Btu", "60 h ft2 F/Btu"],
        &RValue::from_us(60.0),
    );
    check(&["RSI 10.5", "RSI-10.5", "10.5 m2K/W", "10.5 m²·K/W"], &RValue::from_si(10.5));
    check(&["R-0"], &RValue::ZERO);
    check_refused::<RValue>("60", Cause::NoUnit, "60", &["R-60", "RSI-60"]);
    check_refused::<RValue>("R--60", Cause::NoNumber, "-60", &[]);
    check_refused::<RValue>("R-60 blown", Cause::Trailing, "blown", &[]);
}

#[test]
fn u_value_is_read_like_an_r_value() {
    check(&["U-0.35", "U 0.35", "0.35 Btu/h·ft²·°F", "0.35 Btu/(h ft2 F)"], &UValue::from_us(0.35));
    check(&["USI 2", "2 W/m2K", "2 W/(m²·K)"], &UValue::from_si(2.0));
}

#[test]
fn flow_and_rain_rate_are_read() {
    check(&["550 cfm", "550 CFM", "550 ft3/min"], &Flow::from_cfm(550.0));
    check(&["25.9 gpm"], &Flow::from_gpm(25.9));
    check(&["1.6 L/s", "1.6 l/s"], &Flow::from_l_s(1.6));
    check(&["1,100 cfm"], &Flow::from_cfm(1100.0));
    check(&["0.26 m3/s"], &Flow::from_m3_s(0.26));
    check(&["6.0 in/h", "6 in/hr", "6 in./hr."], &RainRate::from_in_per_h(6.0));
    check(&["150 mm/h"], &RainRate::from_mm_per_h(150.0));
    check_refused::<RainRate>("6 in", Cause::UnknownUnit, "in", &[]);
    check_refused::<Flow>("550 cmf", Cause::UnknownUnit, "cmf", &["550 cfm"]);
}

#[test]
fn money_is_read_to_a_hundredth_of_a_cent() {
    check(&["$1,234.50", "$1234.5", "$ 1234.50"], &Money::from_cents(123_450));
    check(&["-$5", "\u{2212}$5.00", "- $5"], &Money::from_cents(-5_00));
    check(&["$0", "$.00", "-$0"], &Money::ZERO);
    let nail: Money = "$0.0375".parse().expect("a unit price");
    assert_eq!(nail.times(400), Some(Money::from_cents(15_00)));
}

#[test]
fn money_without_its_sign_or_too_fine_is_refused() {
    check_refused::<Money>("1,234.50", Cause::NoUnit, "1,234.50", &["$1,234.50"]);
    check_refused::<Money>("-5", Cause::NoUnit, "5", &["-$5"]);
    check_refused::<Money>("$0.00001", Cause::TooFine, "0.00001", &[]);
    check_refused::<Money>("$1000000001", Cause::OutOfRange, "1000000001", &[]);
    check_refused::<Money>(&format!("${}", "9".repeat(60)), Cause::OutOfRange, &"9".repeat(60), &[]);
    check_refused::<Money>("$5 each", Cause::Trailing, "each", &[]);
    check_refused::<Money>("$", Cause::NoNumber, "", &[]);
}

/// All messages, one per quantity, so that each shows the forms it accepts.
#[test]
fn message_of_each_quantity_shows_forms_that_it_reads() {
    fn check_examples<T: FromStr<Err = ReadError> + Debug>() {
        let message = "?".parse::<T>().expect_err("no number").to_string();
        let examples: Vec<&str> = message.split('`').skip(3).step_by(2).collect();
        assert!(examples.len() >= 2, "{message}");
        for example in examples {
            assert!(example.parse::<T>().is_ok(), "{example} of: {message}");
        }
    }
    check_examples::<measure::Length>();
    check_examples::<Pitch>();
    check_examples::<Area>();
    check_examples::<Volume>();
    check_examples::<Temperature>();
    check_examples::<TemperatureDifference>();
    check_examples::<Load>();
    check_examples::<Pressure>();
    check_examples::<RValue>();
    check_examples::<UValue>();
    check_examples::<Flow>();
    check_examples::<RainRate>();
    check_examples::<Money>();
}
