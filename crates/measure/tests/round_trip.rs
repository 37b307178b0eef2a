//! What is written reads back as the same, and no text at all makes the reader fail.

#![expect(clippy::float_cmp, reason = "counts of fractions are whole numbers")]

use std::fmt::{Debug, Display};
use std::str::FromStr;

use measure::{
    Area, Flow, Fraction, Length, Load, Money, Pitch, Pressure, RValue, RainRate, ReadError, Temperature,
    TemperatureDifference, UValue, Volume,
};
use proptest::prelude::*;

/// 10 km in whole inches, rounded down.
const FARTHEST: i32 = 393_700;

/// A fraction and how many of it make an inch.
fn fractions() -> impl Strategy<Value = (Fraction, i32)> {
    prop_oneof![
        Just((Fraction::Half, 2)),
        Just((Fraction::Quarter, 4)),
        Just((Fraction::Eighth, 8)),
        Just((Fraction::Sixteenth, 16)),
    ]
}

/// A fraction, how many of it make an inch, and how many of it make a length.
fn counts() -> impl Strategy<Value = (Fraction, f64, f64)> {
    fractions().prop_flat_map(|(fraction, per_inch)| {
        let count = -FARTHEST * per_inch..=FARTHEST * per_inch;
        count.prop_map(move |count| (fraction, f64::from(per_inch), f64::from(count)))
    })
}

/// Texts made of what measurements are made of.
fn measurement_like() -> impl Strategy<Value = String> {
    let pieces = vec![
        "0",
        "1",
        "6",
        "12",
        "16",
        "24",
        "999999999999",
        ".",
        ",",
        "/",
        ":",
        "-",
        "\u{2212}",
        "–",
        "'",
        "\"",
        "''",
        "′",
        "″",
        "½",
        "⅞",
        "⁄",
        " ",
        "\u{a0}",
        "ft",
        "in",
        "m",
        "mm",
        "ft2",
        "sq",
        "F",
        "°",
        "C",
        "%",
        "deg",
        "R",
        "R-",
        "RSI",
        "U",
        "psf",
        "Pa",
        "cfm",
        "in/h",
        "$",
        "e",
        "E",
        "+",
        "inf",
        "NaN",
        "é",
        "\u{1f3e0}",
    ];
    proptest::collection::vec(proptest::sample::select(pieces), 0..9).prop_map(|pieces| pieces.concat())
}

/// Reads `text`; a value must be finite and an error must hold its promises.
fn check_sound<T: FromStr<Err = ReadError>>(text: &str, si: impl Fn(T) -> f64) {
    match text.parse::<T>() {
        Ok(quantity) => assert!(si(quantity).is_finite(), "{text}"),
        Err(error) => {
            assert!(text.get(error.at()).is_some(), "{text}: {:?}", error.at());
            assert!(!error.to_string().is_empty());
            let mend = error.mend().unwrap_or_default();
            for meant in mend.split('`').skip(1).step_by(2) {
                assert!(meant.parse::<T>().is_ok(), "{text}: {mend}");
            }
        }
    }
}

fn check_all_sound(text: &str) {
    check_sound(text, Length::m);
    check_sound(text, Pitch::slope);
    check_sound(text, Area::m2);
    check_sound(text, Volume::m3);
    check_sound(text, Temperature::k);
    check_sound(text, TemperatureDifference::k);
    check_sound(text, Load::pa);
    check_sound(text, Pressure::pa);
    check_sound(text, RValue::si);
    check_sound(text, UValue::si);
    check_sound(text, Flow::m3_s);
    check_sound(text, RainRate::m_s);
    check_sound(text, |_: Money| 0.0);
}

/// Writes, reads back, writes again: the same text.
fn check_display<T: FromStr<Err = ReadError> + Display + Debug>(quantity: &T) {
    let written = quantity.to_string();
    match written.parse::<T>() {
        Ok(read) => assert_eq!(read.to_string(), written),
        Err(error) => panic!("{quantity:?}: {error}"),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4096, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn whole_count_of_fractions_written_and_read_is_the_identical_length((fraction, per_inch, count) in counts()) {
        let length = Length::from_in(count / per_inch);
        let text = length.trade(fraction).to_string();
        let read: Length = text.parse().expect("what was written reads");
        prop_assert_eq!(read, length, "{}", text);
        prop_assert_eq!((read.inches() * per_inch).round(), count);
        prop_assert_eq!(read.trade(fraction).to_string(), text);
    }

    #[test]
    fn any_length_written_is_the_nearest_fraction_and_stays(
        metres in -9_999.0..9_999.0,
        (fraction, per_inch) in fractions(),
    ) {
        let length = Length::from_m(metres);
        let text = length.trade(fraction).to_string();
        let read: Length = text.parse().expect("what was written reads");
        prop_assert!((read - length).abs().inches() <= 0.5 / f64::from(per_inch) + 1e-9, "{}", text);
        prop_assert_eq!(read.trade(fraction).to_string(), text);
    }

    #[test]
    fn quantity_written_reads_back_as_the_same_text(x in 0.0..1000.0) {
        check_display(&Pitch::from_rise_per_12(x / 50.0));
        check_display(&Area::from_ft2(x * 10.0));
        check_display(&Volume::from_ft3(x * 100.0));
        check_display(&Temperature::from_f(x - 400.0));
        check_display(&TemperatureDifference::from_f(x - 500.0));
        check_display(&Load::from_psf(x - 500.0));
        check_display(&Pressure::from_pa(x - 500.0));
        check_display(&RValue::from_us(x));
        check_display(&UValue::from_us(x / 10.0));
        check_display(&Flow::from_cfm(x));
        check_display(&RainRate::from_in_per_h(x / 10.0));
    }

    #[test]
    fn money_written_reads_back_as_the_same_amount(cents in -100_000_000_000_i64..=100_000_000_000) {
        let money = Money::from_cents(cents);
        prop_assert_eq!(money.to_string().parse::<Money>().expect("what was written reads"), money);
    }

    #[test]
    fn any_text_is_read_or_refused_soundly(text in any::<String>()) {
        check_all_sound(&text);
    }

    #[test]
    fn any_text_that_looks_like_a_measurement_is_read_or_refused_soundly(text in measurement_like()) {
        check_all_sound(&text);
    }
}
