//! Lengths as people write them, and as they should not.

use measure::{Cause, Length};

fn check(text: &str, expected: Length) {
    match text.parse::<Length>() {
        Ok(length) => assert_eq!(length, expected, "{text}"),
        Err(error) => panic!("{text}: {error}"),
    }
}

/// The cause, what is at fault, and the suggestions.
fn check_refused(text: &str, cause: Cause, found: &str, mends: &[&str]) {
    let error = text.parse::<Length>().expect_err(text);
    assert_eq!(error.cause(), cause, "{text}");
    assert_eq!(&text[error.at()], found, "{text}");
    let quoted: Vec<String> = mends.iter().map(|mend| format!("`{mend}`")).collect();
    let expected = (!mends.is_empty()).then(|| format!("did you mean {}?", quoted.join(" or ")));
    assert_eq!(error.mend(), expected, "{text}");
}

#[test]
fn feet_and_inches_in_every_spelling_are_the_same_length() {
    let spellings = [
        "24' 6 1/2\"",
        "24'-6 1/2\"",
        "24' - 6 1/2\"",
        "24'-6-1/2\"",
        "24-6 1/2",
        "24-6-1/2",
        "24-6.5",
        "24\u{2013}6½",
        "24'6½\"",
        "24′ 6 ½″",
        "24’ 6 1⁄2”",
        "24' 6 1/2''",
        "24 ft 6 1/2 in",
        "24 FT. 6.5 IN.",
        "24ft6.5in",
        "24ft. 6 1/2in.",
        "24 ft.-6 1/2 in.",
        "24ft.6 1/2in",
        "24 feet 6.5 inches",
        "  24'  6 1/2\"  ",
        "24'\u{a0}6\u{202f}1/2\"",
        "294.5 in",
        "294.5\"",
        "294 1/2 in",
    ];
    for spelling in spellings {
        check(spelling, Length::from_in(294.5));
    }
}

#[test]
fn feet_alone_are_whole_or_decimal() {
    for text in ["24'", "24 ft", "24.0'", "288 in", "24' 0\"", "24-0"] {
        check(text, Length::from_ft(24.0));
    }
    check("8.5'", Length::from_ft(8.5));
    check("8.5 ft", Length::from_in(102.0));
    check(".5'", Length::from_in(6.0));
    check("24ft2in", Length::from_in(290.0));
    check("8 1/2'", Length::from_ft(8.5));
}

#[test]
fn fractions_of_an_inch_are_read_with_and_without_a_whole() {
    check("1/16 in", Length::from_in(0.0625));
    check("6 1/2\"", Length::from_in(6.5));
    check("6⅞\"", Length::from_in(6.875));
    check("¼ in", Length::from_in(0.25));
    check("3/2 in", Length::from_in(1.5));
    check("24' 3/8\"", Length::from_in(288.375));
}

#[test]
fn metric_lengths_are_read() {
    for text in ["7.48 m", "748 cm", "7480 mm", "7480mm", "7.48 metres"] {
        check(text, Length::from_m(7.48));
    }
}

#[test]
fn minus_of_either_kind_takes_the_whole_length_negative() {
    for text in ["-24' 6\"", "\u{2212}24' 6\"", "- 24-6", "-24.5'"] {
        check(text, Length::from_in(-294.0));
    }
    check("-0'", Length::ZERO);
    assert!("-0'".parse::<Length>().expect("zero").m().is_sign_positive());
}

#[test]
fn nothing_is_refused() {
    check_refused("", Cause::Empty, "", &[]);
    check_refused(" \t", Cause::Empty, " \t", &[]);
}

#[test]
fn bare_number_is_refused_and_offered_both_units() {
    check_refused("16", Cause::NoUnit, "16", &["16'", "16 in"]);
    check_refused("-16", Cause::NoUnit, "16", &["-16'", "-16 in"]);
    check_refused(" 6 1/2", Cause::NoUnit, "6 1/2", &["6 1/2'", "6 1/2 in"]);
    check_refused("24 6", Cause::NoUnit, "24 6", &["24' 6\""]);
    check_refused("24' 6", Cause::NoUnit, "6", &["24' 6\""]);
    check_refused("24 ft 6", Cause::NoUnit, "6", &["24 ft 6\""]);
}

#[test]
fn comma_is_refused_wherever_it_stands() {
    check_refused("8,5", Cause::Comma, "8,5", &["8.5'", "8' 5\""]);
    check_refused("-8,5", Cause::Comma, "8,5", &["-8.5'", "-8' 5\""]);
    check_refused("8,5 m", Cause::Comma, "8,5", &["8.5 m"]);
    check_refused("1,200'", Cause::Comma, "1,200", &["1.200'", "1200'"]);
    check_refused("1,200.5 ft", Cause::Comma, "1,200.5", &["1200.5 ft"]);
    check_refused("8.5,6", Cause::Comma, "8.5,6", &[]);
    check_refused("8',6\"", Cause::Comma, ",6", &[]);
}

#[test]
fn fractional_feet_before_inches_are_refused() {
    check_refused("8.5-6", Cause::FractionalFeet, "8.5", &["8-6"]);
    check_refused("8.5' 6\"", Cause::FractionalFeet, "8.5", &["8' 6\""]);
    check_refused("8 1/2' 6\"", Cause::FractionalFeet, "8 1/2", &["8' 6\""]);
    check_refused("1/2' 6\"", Cause::FractionalFeet, "1/2", &[]);
}

#[test]
fn twelve_inches_or_more_after_feet_are_refused() {
    check_refused("24-13", Cause::InchesPastTwelve, "24-13", &["25' 1\""]);
    check_refused("8' 14\"", Cause::InchesPastTwelve, "8' 14\"", &["9' 2\""]);
    check_refused("-8' 12\"", Cause::InchesPastTwelve, "8' 12\"", &["-9' 0\""]);
    check_refused("8' 12 1/2\"", Cause::InchesPastTwelve, "8' 12 1/2\"", &[]);
}

#[test]
fn hyphen_that_can_be_taken_two_ways_is_refused() {
    check_refused("5-1/2\"", Cause::Hyphen, "5-1/2\"", &["5 1/2\"", "5' 1/2\""]);
    check_refused("5-1/2", Cause::Hyphen, "5-1/2", &["5 1/2\"", "5' 1/2\""]);
    check_refused("5-1/2 ft", Cause::Hyphen, "5-1/2 ft", &["5 1/2 ft", "5' 1/2\""]);
    check_refused("24 - 6", Cause::Hyphen, "24 - 6", &["24' 6\""]);
}

#[test]
fn number_that_is_none_is_refused() {
    check_refused("NaN", Cause::NoNumber, "NaN", &[]);
    check_refused("inf ft", Cause::NoNumber, "inf ft", &[]);
    check_refused("--3'", Cause::NoNumber, "-3'", &[]);
    check_refused("24'-", Cause::NoNumber, "", &[]);
    check_refused("1e3'", Cause::Exponent, "1e3", &[]);
    check_refused("1.5E-3 m", Cause::Exponent, "1.5E-3", &[]);
    check_refused("1/0\"", Cause::ZeroDenominator, "1/0", &[]);
    check_refused("6 16/16\"", Cause::ImproperFraction, "6 16/16", &[]);
    check_refused("24-6-3/2", Cause::ImproperFraction, "6-3/2", &[]);
}

#[test]
fn unknown_unit_is_refused_and_a_slip_is_mended() {
    check_refused("16 furlongs", Cause::UnknownUnit, "furlongs", &[]);
    check_refused("24 fete", Cause::UnknownUnit, "fete", &["24 feet"]);
    check_refused("6 inchs", Cause::UnknownUnit, "inchs", &["6 inches"]);
    for (text, unit) in [("24 ft2", "ft2"), ("24 ft²", "ft²"), ("7 m3", "m3")] {
        check_refused(text, Cause::UnknownUnit, unit, &[]);
    }
    check_refused("24' 6 x", Cause::UnknownUnit, "x", &[]);
}

#[test]
fn anything_after_a_complete_length_is_refused() {
    check_refused("24' 6\" 3", Cause::Trailing, "3", &[]);
    check_refused("6\" 24'", Cause::Trailing, "24'", &[]);
    check_refused("7 m 48 cm", Cause::Trailing, "48 cm", &[]);
    check_refused("24-6-3", Cause::Trailing, "3", &[]);
}

#[test]
fn length_past_ten_kilometres_is_refused() {
    check("10000 m", Length::from_m(10_000.0));
    check_refused("10001 m", Cause::OutOfRange, "10001 m", &[]);
    check_refused("-32809'", Cause::OutOfRange, "-32809'", &[]);
    let long = "9".repeat(400);
    check_refused(&format!("{long}'"), Cause::OutOfRange, &format!("{long}'"), &[]);
    check_refused(&format!("{long}/{long} in"), Cause::OutOfRange, &format!("{long}/{long} in"), &[]);
}

#[test]
fn message_says_what_was_found_and_how_lengths_are_written() {
    let error = "24-13".parse::<Length>().expect_err("13 inches");
    assert_eq!(
        error.to_string(),
        "the inches in `24-13` are not under 12; \
         a length is written like `24' 6 1/2\"`, `24-6`, `16 in`, `8.5 ft` or `7.48 m`"
    );
}
