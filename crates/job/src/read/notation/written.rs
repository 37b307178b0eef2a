//! Quantities written as text, and what a message or a schema says of each.
//!
//! Those of the trade are read by `measure`; the few that only the job document writes (a turn, a nominal lumber size,
//! a gust, a price of fuel) are read here.

use std::ops::Range;

use book::Share;
use measure::{
    Area, Flow, Length, Load, Money, Pitch, Pressure, RValue, RainRate, ReadError, Temperature, Volume,
};

use crate::suggest::listed;
use crate::{FuelPrice, FuelUnit, Lumber};

/// A quantity written as text.
pub(crate) trait Written: Sized + Copy + Send + Sync + 'static {
    /// Name of its notation in schemas.
    const NAME: &'static str;
    /// With its article.
    const NOUN: &'static str;
    /// As the document writes it, quotes included.
    const EXAMPLE: &'static str;
    /// Regular expression that every text it can be read from matches.
    const PATTERN: &'static str;

    /// Reads it.
    fn parse(text: &str) -> Result<Self, Unread>;

    /// What a bare number may have meant, the likeliest first.
    fn dressed(number: &str) -> Vec<String>;

    /// As a number that grows evenly with the count of a unit; none where no bound needs telling in another unit.
    fn count(self, _unit: &str) -> Option<f64> {
        None
    }
}

/// Units of one length that go together, as in `24' 6 in`.
const FEET_AND_INCHES: [&str; 8] = ["'", "\"", "in", "ft", "′", "″", "inches", "feet"];

/// The unit at the end of a text.
fn unit_of(text: &str) -> &str {
    let is_of_number = |c: char| c.is_numeric() || c.is_whitespace() || ".,/⁄".contains(c);
    let unit = text.trim_end().rfind(|c: char| c.is_numeric()).map_or("", |last| &text[last..]);
    unit.trim_start_matches(is_of_number).trim_end()
}

/// A bound as one would write it who wrote `text`, rounded to the side of what is allowed; none where its own words will do.
pub(crate) fn retold<Q: Written>(bound: Q, words: &str, text: &str, is_least: bool) -> Option<String> {
    let [unit, own] = [text, words].map(unit_of);
    let go_together = [unit, own].iter().all(|unit| FEET_AND_INCHES.contains(unit));
    if unit.is_empty() || unit == own || go_together {
        return None;
    }
    let of = |count: u8| Q::parse(&format!("{count} {unit}")).ok()?.count(unit);
    let (none, one) = (of(0), of(1)?);
    let none = none.unwrap_or_default(); // a pitch of nothing cannot be written
    let count = (bound.count(unit)? - none) / (one - none);
    Some(format!("{} {unit}", four_figures(count, is_least)))
}

/// A number to four figures, up or down.
fn four_figures(x: f64, up: bool) -> f64 {
    if x == 0.0 {
        return x;
    }
    let places = 3.0 - x.abs().log10().floor();
    let scale = 10_f64.powf(places);
    let steps = x * scale;
    let near = steps.round();
    let whole = if (steps - near).abs() < 1e-6 {
        near
    } else if up {
        steps.ceil()
    } else {
        steps.floor()
    };
    whole / scale
}

/// Why a text could not be read.
#[derive(Debug, PartialEq)]
pub(crate) struct Unread {
    pub(crate) message: String,
    /// Empty where there is no good guess.
    pub(crate) mend: String,
    /// The bytes at fault within the text.
    pub(crate) at: Range<usize>,
}

impl Unread {
    fn whole(text: &str, message: impl Into<String>) -> Self {
        Self { message: message.into(), mend: String::new(), at: 0..text.len() }
    }
}

impl From<ReadError> for Unread {
    fn from(error: ReadError) -> Self {
        Self { message: error.to_string(), mend: error.mend().unwrap_or_default(), at: error.at() }
    }
}

/// Start of a number with a unit after it.
const MEASURED: &str = r"^\s*[-−]?\s*[0-9.½¼¾⅛⅜⅝⅞⅓⅔][0-9½¼¾⅛⅜⅝⅞⅓⅔.,/⁄\s]*[^0-9½¼¾⅛⅜⅝⅞⅓⅔.,/⁄\s]";
/// Start of a number with a slash, a colon or a unit after it.
const PITCHED: &str = r"^\s*[-−]?\s*[0-9.½¼¾⅛⅜⅝⅞⅓⅔].*[/⁄:°º%A-Za-z]";
/// A letter or a number first.
const RESISTING: &str = r"^\s*([Rr]|[-−]?\s*[0-9.½¼¾⅛⅜⅝⅞⅓⅔].*[A-Za-z])";
/// A dollar sign first.
const PRICED: &str = r"^\s*[-−]?\s*\$\s*[0-9.]";

macro_rules! measured {
    ($($type:ty, $name:literal, $noun:literal, $example:literal, $pattern:ident, $number:ident => $($dressed:literal),+ $(; $count:expr)?;)+) => {
        $(impl Written for $type {
            const NAME: &'static str = $name;
            const NOUN: &'static str = $noun;
            const EXAMPLE: &'static str = $example;
            const PATTERN: &'static str = $pattern;

            fn parse(text: &str) -> Result<Self, Unread> {
                text.parse().map_err(Unread::from)
            }

            fn dressed($number: &str) -> Vec<String> {
                vec![$(format!($dressed)),+]
            }

            $(fn count(self, unit: &str) -> Option<f64> {
                let count: fn(Self, &str) -> f64 = $count;
                Some(count(self, unit))
            })?
        })+
    };
}

measured! {
    Length, "length", "a length", r#""16 in""#, MEASURED, number => "{number}'", "{number} in"; |length, _| length.m();
    Area, "area", "an area", r#""1200 ft2""#, MEASURED, number => "{number} ft2"; |area, _| area.m2();
    Volume, "volume", "a volume", r#""19200 ft3""#, MEASURED, number => "{number} ft3"; |volume, _| volume.m3();
    Pitch, "pitch", "a pitch", r#""6/12""#, PITCHED, number => "{number}/12"; |pitch, unit| if matches!(unit, "°" | "º" | "deg") { pitch.degrees() } else { pitch.slope() };
    Temperature, "temperature", "a temperature", r#""-9 F""#, MEASURED, number => "{number} F"; |temperature, _| temperature.k();
    Load, "load", "a load", r#""60 psf""#, MEASURED, number => "{number} psf"; |load, _| load.pa();
    Pressure, "pressure", "an air pressure", r#""48.6 Pa""#, MEASURED, number => "{number} Pa"; |pressure, _| pressure.pa();
    RainRate, "rain", "a rate of rain", r#""6.0 in/h""#, MEASURED, number => "{number} in/h"; |rate, _| rate.m_s();
    RValue, "r_value", "a thermal resistance", r#""R-19""#, RESISTING, number => "R-{number}"; |value, _| value.si();
    Flow, "flow", "a flow", r#""40 cfm""#, MEASURED, number => "{number} cfm"; |flow, _| flow.m3_s();
    Money, "money", "an amount of money", r#""$38.50""#, PRICED, number => "${number}";
}

impl Written for Share {
    const NAME: &'static str = "share";
    const NOUN: &'static str = "a share";
    const EXAMPLE: &'static str = r#""38 %""#;
    const PATTERN: &'static str = r"%\s*$";

    fn parse(text: &str) -> Result<Self, Unread> {
        text.parse().map_err(|error| Unread::whole(text, format!("{error}")))
    }

    fn dressed(number: &str) -> Vec<String> {
        vec![format!("{number} %")]
    }
}

/// An angle in plan, degrees counter-clockwise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Degrees(pub(crate) f64);

impl Written for Degrees {
    const NAME: &'static str = "angle";
    const NOUN: &'static str = "an angle";
    const EXAMPLE: &'static str = r#""30 deg""#;
    const PATTERN: &'static str = r"^\s*[-+]?[0-9.]+\s*(deg|degree|degrees|°)\s*$";

    fn parse(text: &str) -> Result<Self, Unread> {
        let angle = unit_after(text, &["degrees", "degree", "deg", "°"]).filter(|angle| angle.abs() <= 360.0);
        angle
            .map(Self)
            .ok_or_else(|| Unread::whole(text, "expected degrees from -360 to 360, such as `30 deg`"))
    }

    fn dressed(number: &str) -> Vec<String> {
        vec![format!("{number} deg")]
    }
}

/// Speed of wind, metres per second.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Gust(pub(crate) f64);

/// Units of wind speed and their size in metres per second: the mile is 1609.344 m (1959 agreement).
const SPEEDS: [(&str, f64); 3] = [("mph", 1609.344 / 3600.0), ("km/h", 1000.0 / 3600.0), ("m/s", 1.0)];

impl Written for Gust {
    const NAME: &'static str = "speed";
    const NOUN: &'static str = "a wind speed";
    const EXAMPLE: &'static str = r#""58 mph""#;
    const PATTERN: &'static str = r"^\s*[-+]?[0-9.]+\s*(mph|km/h|m/s)\s*$";

    fn parse(text: &str) -> Result<Self, Unread> {
        let speed = SPEEDS.iter().find_map(|(unit, size)| Some(unit_after(text, &[unit])? * size));
        let sensible = speed.filter(|speed| (0.0..=150.0).contains(speed));
        sensible
            .map(Self)
            .ok_or_else(|| Unread::whole(text, "expected a wind speed, such as `58 mph` or `26 m/s`"))
    }

    fn dressed(number: &str) -> Vec<String> {
        vec![format!("{number} mph")]
    }
}

impl Written for Lumber {
    const NAME: &'static str = "lumber";
    const NOUN: &'static str = "a nominal lumber size";
    const EXAMPLE: &'static str = r#""2x8""#;
    const PATTERN: &'static str = r"^\s*[0-9]{1,2}\s*[xX×]\s*[0-9]{1,2}\s*$";

    fn parse(text: &str) -> Result<Self, Unread> {
        let sides = text
            .split_once(['x', 'X', '×'])
            .and_then(|(thickness, depth)| Some((side(thickness)?, side(depth)?)));
        let fault = || Unread::whole(text, "expected a nominal lumber size in inches, such as `2x8`");
        sides.map(|(thickness, depth)| Self { thickness, depth }).ok_or_else(fault)
    }

    fn dressed(number: &str) -> Vec<String> {
        vec![format!("2x{number}")]
    }
}

fn side(text: &str) -> Option<u8> {
    let digits = text.trim();
    let plain = digits.bytes().all(|byte| byte.is_ascii_digit()) && digits.len() <= 2;
    digits.parse().ok().filter(|inches| plain && (1..=24).contains(inches))
}

/// Air leakage with the house at 50 Pa.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub(crate) struct Leakage(pub(crate) Flow);

impl Written for Leakage {
    const NAME: &'static str = "leakage";
    const NOUN: &'static str = "an air leakage at 50 Pa";
    const EXAMPLE: &'static str = r#""550 cfm50""#;
    const PATTERN: &'static str = r"[A-Za-z]50\s*$";

    fn parse(text: &str) -> Result<Self, Unread> {
        let flow = text.trim_end().strip_suffix("50").filter(|flow| flow.ends_with(char::is_alphabetic));
        let fault = || Unread::whole(text, "expected a flow with the house at 50 Pa, such as `550 cfm50`");
        flow.ok_or_else(fault)?.parse().map(Self).map_err(Unread::from)
    }

    fn dressed(number: &str) -> Vec<String> {
        vec![format!("{number} cfm50")]
    }
}

/// Free area per length, which is a length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct AreaPerLength(pub(crate) Length);

impl Written for AreaPerLength {
    const NAME: &'static str = "area_per_length";
    const NOUN: &'static str = "an area per length";
    const EXAMPLE: &'static str = r#""9 in2/ft""#;
    const PATTERN: &'static str = r"/\s*(ft|m)\s*$";

    fn parse(text: &str) -> Result<Self, Unread> {
        let form = || Unread::whole(text, "expected an area per foot or metre, such as `9 in2/ft`");
        let (area, unit) = text.rsplit_once('/').ok_or_else(form)?;
        let length = match unit.trim() {
            "ft" => Length::from_ft(1.0),
            "m" => Length::from_m(1.0),
            _ => return Err(form()),
        };
        let area: Area = area.parse().map_err(Unread::from)?;
        Ok(Self(area / length))
    }

    fn dressed(number: &str) -> Vec<String> {
        vec![format!("{number} in2/ft")]
    }
}

/// Units fuel is sold by.
pub(crate) const FUEL_UNITS: [(&str, FuelUnit); 4] = [
    ("therm", FuelUnit::Therm),
    ("gal", FuelUnit::Gallon),
    ("kWh", FuelUnit::KilowattHour),
    ("cord", FuelUnit::Cord),
];

impl Written for FuelPrice {
    const NAME: &'static str = "fuel_price";
    const NOUN: &'static str = "a price of fuel";
    const EXAMPLE: &'static str = r#""$1.32/therm""#;
    const PATTERN: &'static str = r"^\s*[-−]?\s*\$.*/\s*[A-Za-z]+\s*$";

    fn parse(text: &str) -> Result<Self, Unread> {
        let units = || listed(FUEL_UNITS.iter().map(|(name, _)| *name));
        let (amount, unit) = text.rsplit_once('/').ok_or_else(|| {
            Unread::whole(text, format!("expected an amount per {}, such as `$1.32/therm`", units()))
        })?;
        let per = FUEL_UNITS.iter().find(|(name, _)| name.eq_ignore_ascii_case(unit.trim()));
        let (_, per) =
            per.ok_or_else(|| Unread::whole(text, format!("fuel is sold by {}, not by `{unit}`", units())))?;
        let amount: Money = amount.parse().map_err(Unread::from)?;
        if amount < Money::ZERO {
            return Err(Unread::whole(text, "a price is not negative"));
        }
        Ok(Self { amount, per: *per })
    }

    fn dressed(number: &str) -> Vec<String> {
        vec![format!("${number}/therm")]
    }
}

/// The number before one of the units.
fn unit_after(text: &str, units: &[&str]) -> Option<f64> {
    let number = units.iter().find_map(|unit| text.trim().strip_suffix(unit))?.trim_end();
    let plain = number.bytes().all(|byte| byte.is_ascii_digit() || matches!(byte, b'.' | b'-' | b'+'));
    number.parse().ok().filter(|value: &f64| plain && value.is_finite())
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use regex::Regex;

    use super::*;

    fn check<Q: Written>(text: &str) {
        let matches = || Regex::new(Q::PATTERN).is_ok_and(|pattern| pattern.is_match(text));
        assert!(Q::parse(text).is_err() || matches(), "{} of {text:?}", Q::NAME);
    }

    fn check_all(text: &str) {
        check::<Length>(text);
        check::<Area>(text);
        check::<Volume>(text);
        check::<Pitch>(text);
        check::<Temperature>(text);
        check::<Load>(text);
        check::<Pressure>(text);
        check::<RainRate>(text);
        check::<RValue>(text);
        check::<Flow>(text);
        check::<Money>(text);
        check::<Share>(text);
        check::<Degrees>(text);
        check::<Gust>(text);
        check::<Lumber>(text);
        check::<Leakage>(text);
        check::<AreaPerLength>(text);
        check::<FuelPrice>(text);
    }

    fn example_reads_and_bare_number_does_not<Q: Written + std::fmt::Debug>() {
        let example = Q::EXAMPLE.trim_matches('"');
        assert!(Q::parse(example).is_ok(), "{}: {example}", Q::NAME);
        let pattern = Regex::new(Q::PATTERN).expect("a regular expression");
        assert!(pattern.is_match(example) && !pattern.is_match("16"), "{}", Q::NAME);
        assert!(Q::dressed("16").iter().all(|text| Q::parse(text).is_ok()), "{:?}", Q::dressed("16"));
    }

    #[test]
    fn examples_read_and_bare_numbers_are_dressed_so_that_they_read() {
        example_reads_and_bare_number_does_not::<Length>();
        example_reads_and_bare_number_does_not::<Area>();
        example_reads_and_bare_number_does_not::<Volume>();
        example_reads_and_bare_number_does_not::<Pitch>();
        example_reads_and_bare_number_does_not::<Temperature>();
        example_reads_and_bare_number_does_not::<Load>();
        example_reads_and_bare_number_does_not::<Pressure>();
        example_reads_and_bare_number_does_not::<RainRate>();
        example_reads_and_bare_number_does_not::<RValue>();
        example_reads_and_bare_number_does_not::<Flow>();
        example_reads_and_bare_number_does_not::<Money>();
        example_reads_and_bare_number_does_not::<Share>();
        example_reads_and_bare_number_does_not::<Degrees>();
        example_reads_and_bare_number_does_not::<Gust>();
        example_reads_and_bare_number_does_not::<Lumber>();
        example_reads_and_bare_number_does_not::<Leakage>();
        example_reads_and_bare_number_does_not::<AreaPerLength>();
        example_reads_and_bare_number_does_not::<FuelPrice>();
    }

    #[test]
    fn a_leakage_is_read_only_at_50_pascals() {
        assert_eq!(Leakage::parse("550 cfm50"), Ok(Leakage(Flow::from_cfm(550.0))));
        for text in ["550 cfm", "550", "50", "550 50", "cfm50"] {
            assert!(Leakage::parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn a_price_of_fuel_names_its_unit() {
        let price = FuelPrice::parse("$1.32 / therm").expect("a price");
        assert_eq!((price.amount, price.per), (Money::from_cents(132), FuelUnit::Therm));
        for text in ["$1.32", "1.32/therm", "$1.32/bucket", "-$1.32/therm"] {
            assert!(FuelPrice::parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn wind_and_turns_keep_to_their_range() {
        assert!((Gust::parse("100 km/h").expect("a speed").0 - 27.777_777_8).abs() < 1e-6);
        assert_eq!(Degrees::parse("-15°"), Ok(Degrees(-15.0)));
        for text in ["1e3 deg", "361 deg", "nan deg", "inf mph", "-1 mph"] {
            assert!(Degrees::parse(text).is_err() && Gust::parse(text).is_err(), "{text}");
        }
    }

    proptest! {
        #[test]
        fn whatever_reads_matches_the_pattern(
            text in r#" {0,2}[-−R$]{0,2}[0-9½., /⁄:-]{0,6} ?('|"|in|ft|m|ft2|in2/ft|ft3|/12|%|°|deg|F|C|K|psf|Pa|kPa|in/h|mm/h|R|RSI|cfm|cfm50|L/s|/therm|mph|x8)?[0-9 "]{0,3}"#,
        ) {
            check_all(&text);
        }
    }
}
