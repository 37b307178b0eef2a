//! Figures of the code sheet, written so that two that differ do so on paper.
//!
//! # Rounding
//! Decimals are added until required and provided differ in print, or are the same in fact: 24 in against 23.9996 in is never `24 in` twice,
//! nor is it called the same. Two figures closer than a billionth are one.

use job::Units;
use measure::{Area, Length, Pitch, RValue};

/// A figure of one kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Figure {
    /// A length, lap, leg, width or height.
    Length(Length),
    /// Net free area of vents.
    FreeArea(Area),
    /// A slope.
    Pitch(Pitch),
    /// What insulation resists.
    Resistance(RValue),
    /// So many.
    Count(i64),
    /// Whether it is so.
    YesNo(bool),
}

/// Figures closer than this part of the larger are one: the noise of the arithmetic.
const ONE: f64 = 1e-9;

/// More decimals than this tell nothing.
const MOST_DECIMALS: usize = 9;

impl Figure {
    /// The number in SI units, and the unit as programs read it; yes is 1.
    pub const fn si(self) -> (f64, &'static str) {
        match self {
            Self::Length(length) => (length.m(), "m"),
            Self::FreeArea(area) => (area.m2(), "m2"),
            Self::Pitch(pitch) => (pitch.slope(), "rise_over_run"),
            Self::Resistance(r) => (r.si(), "m2k_w"),
            Self::Count(count) => (count as f64, "pieces"),
            Self::YesNo(is) => (if is { 1.0 } else { 0.0 }, "yes_no"),
        }
    }

    /// How it compares with another of its kind, none where the kinds differ; what is as good as the same is the same.
    pub fn compare(self, other: Self) -> Option<std::cmp::Ordering> {
        let ((a, unit), (b, other_unit)) = (self.si(), other.si());
        let is_one = (a - b).abs() <= ONE * a.abs().max(b.abs());
        let order = if is_one { std::cmp::Ordering::Equal } else { a.total_cmp(&b) };
        (unit == other_unit).then_some(order)
    }

    /// This less another of its kind; none where that is no number.
    pub fn less(self, other: Self) -> Option<Self> {
        Some(match (self, other) {
            (Self::Length(a), Self::Length(b)) => Self::Length(a - b),
            (Self::FreeArea(a), Self::FreeArea(b)) => Self::FreeArea(a - b),
            (Self::Pitch(a), Self::Pitch(b)) => Self::Pitch(Pitch::from_slope(a.slope() - b.slope())),
            (Self::Resistance(a), Self::Resistance(b)) => Self::Resistance(a - b),
            (Self::Count(a), Self::Count(b)) => Self::Count(a - b),
            _ => return None,
        })
    }

    /// As papers in these units write it alone.
    pub fn written(self, units: Units) -> String {
        self.with_decimals(units, self.decimals(units))
    }

    /// The number papers print, and its unit.
    fn counted(self, units: Units) -> Option<(f64, &'static str)> {
        match (self, units) {
            (Self::Length(length), Units::Us) => Some((length.inches(), " in")),
            (Self::Length(length), Units::Si) => Some((length.mm(), " mm")),
            (Self::FreeArea(area), Units::Us) => Some((area.in2(), " in²")),
            (Self::FreeArea(area), Units::Si) => Some((area.m2() * 1e4, " cm²")),
            (Self::Pitch(pitch), Units::Us) => Some((pitch.rise_per_12(), "/12")),
            (Self::Pitch(pitch), Units::Si) => Some((pitch.degrees(), "°")),
            (Self::Resistance(r), Units::Us) => Some((r.us(), "")),
            (Self::Resistance(r), Units::Si) => Some((r.si(), "")),
            (Self::Count(_) | Self::YesNo(_), _) => None,
        }
    }

    pub(super) fn with_decimals(self, units: Units, decimals: usize) -> String {
        match (self, self.counted(units)) {
            (Self::YesNo(is), _) => if is { "yes" } else { "no" }.to_owned(),
            (Self::Count(count), _) => count.to_string(),
            (Self::Resistance(_), Some((value, _))) => {
                format!("{}{}", if units == Units::Us { "R-" } else { "RSI " }, trimmed(value, decimals))
            }
            (_, Some((value, unit))) => format!("{}{unit}", trimmed(value, decimals)),
            (_, None) => String::new(),
        }
    }

    /// Decimals that keep two hundredths of what is printed: more for a thickness than for a length.
    fn decimals(self, units: Units) -> usize {
        let Some((value, _)) = self.counted(units) else { return 0 };
        // an eighth of an inch, or a tenth of a millimetre
        let least = if units == Units::Us { 3 } else { 1 };
        let keeps = |decimals: &usize| {
            let printed: f64 = format!("{value:.decimals$}").parse().unwrap_or(value);
            (printed - value).abs() <= 0.005 * value.abs()
        };
        (least..=MOST_DECIMALS).find(keeps).unwrap_or(MOST_DECIMALS)
    }
}

/// Two figures as papers write them beside each other: alike only if they are.
pub fn apart(one: Figure, other: Figure, units: Units) -> [String; 2] {
    let decimals = decimals_apart(one, other, units);
    [one, other].map(|figure| figure.with_decimals(units, decimals))
}

/// Decimals by which two figures differ in print, if they do in fact.
pub(super) fn decimals_apart(one: Figure, other: Figure, units: Units) -> usize {
    let least = one.decimals(units).max(other.decimals(units));
    let differ = one.compare(other) != Some(std::cmp::Ordering::Equal);
    let tells =
        |decimals: &usize| one.with_decimals(units, *decimals) != other.with_decimals(units, *decimals);
    let decimals = if differ { (least..=MOST_DECIMALS).find(tells) } else { None };
    decimals.unwrap_or(least)
}

/// A number without the zeros that end its decimals; zero has no sign.
fn trimmed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn inches(value: f64) -> Figure {
        Figure::Length(Length::from_in(value))
    }

    #[test]
    fn two_that_differ_differ_in_print_and_the_same_look_the_same() {
        for (one, other, wanted) in [
            (24.0, 23.9996, ["24 in", "23.9996 in"]),
            (30.0, 30.125, ["30 in", "30.125 in"]),
            (30.0, 30.001, ["30 in", "30.001 in"]),
            (44.721_359_55, 68.5, ["44.721 in", "68.5 in"]),
            (0.019, 0.0179, ["0.019 in", "0.0179 in"]),
            (36.0, 36.0 + 1e-12, ["36 in", "36 in"]),
        ] {
            assert_eq!(apart(inches(one), inches(other), Units::Us), wanted);
        }
    }

    #[test]
    fn areas_pitches_counts_and_answers_are_written_in_the_units_of_papers() {
        let free = |value| Figure::FreeArea(Area::from_in2(value));
        assert_eq!(apart(free(798.72), free(768.0), Units::Us), ["798.72 in²", "768 in²"]);
        let pitch = |rise| Figure::Pitch(Pitch::from_rise_per_12(rise));
        assert_eq!(apart(pitch(2.0), pitch(1.999), Units::Us), ["2/12", "1.999/12"]);
        assert_eq!(apart(Figure::Count(1), Figure::Count(2), Units::Us), ["1", "2"]);
        assert_eq!(Figure::YesNo(true).written(Units::Si), "yes");
        let twenty = Figure::Resistance(RValue::from_us(20.0));
        assert_eq!([Units::Us, Units::Si].map(|units| twenty.written(units)), ["R-20", "RSI 3.52"]);
        assert_eq!(inches(4.0).written(Units::Si), "101.6 mm");
    }

    #[test]
    fn figures_of_different_kinds_do_not_compare() {
        assert_eq!(inches(1.0).compare(Figure::Count(1)), None);
        assert_eq!(inches(1.0).less(Figure::Count(1)), None);
    }

    proptest! {
        /// Alike in print if and only if alike in fact, whatever the size of the figures and of what is between them.
        #[test]
        fn print_tells_apart_what_differs(value in 0.001_f64..5000.0, share in -8.0_f64..0.0, up in any::<bool>()) {
            let other = value * if up { 1.0 + 10_f64.powf(share) } else { 1.0 };
            let of = |value: f64| Figure::Length(Length::from_in(value));
            for units in [Units::Us, Units::Si] {
                let [a, b] = apart(of(value), of(other), units);
                prop_assert_eq!(a == b, !up || (other - value).abs() * 25.4 < 1e-9, "{} {}", a, b);
            }
        }
    }
}
