//! A figure, or the two ends between which it lies.

use std::fmt;

use serde::de::{self, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer};

/// A number, or two: written `30` or `[6.4, 9.6]`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The lower end.
    pub low: f64,
    /// The upper end.
    pub high: f64,
}

impl Range {
    /// Half way between the ends.
    pub fn middle(self) -> f64 {
        f64::midpoint(self.low, self.high)
    }

    /// What is wrong with it, where it is to lie between two numbers, the lower one left out.
    pub(crate) fn fault(self, name: &str, above: f64, up_to: f64) -> Option<String> {
        let sound = self.low > above && self.low <= self.high && self.high <= up_to;
        (!sound).then(|| format!("`{name}` must be above {above} and at most {up_to}, the lower end first"))
    }
}

impl fmt::Display for Range {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.low < self.high { write!(f, "{} to {}", self.low, self.high) } else { self.low.fmt(f) }
    }
}

impl<'de> Deserialize<'de> for Range {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(OneOrTwo)
    }
}

struct OneOrTwo;

impl<'de> Visitor<'de> for OneOrTwo {
    type Value = Range;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a number, or two such as [6.4, 9.6]")
    }

    fn visit_f64<E: de::Error>(self, number: f64) -> Result<Range, E> {
        Ok(Range { low: number, high: number })
    }

    fn visit_i64<E: de::Error>(self, number: i64) -> Result<Range, E> {
        self.visit_f64(number as f64)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut ends: A) -> Result<Range, A::Error> {
        let wrong = || de::Error::custom("a range has two ends, such as [6.4, 9.6]");
        let [low, high] = [ends.next_element()?, ends.next_element()?].map(|end| end.ok_or_else(wrong));
        if ends.next_element::<f64>()?.is_some() {
            return Err(wrong());
        }
        Ok(Range { low: low?, high: high? })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Deserialize)]
    struct Held {
        range: Range,
    }

    fn read(text: &str) -> Result<Range, toml::de::Error> {
        toml::from_str::<Held>(&format!("range = {text}")).map(|held| held.range)
    }

    #[test]
    fn a_range_is_one_number_or_two() {
        assert_eq!(read("30").unwrap(), Range { low: 30.0, high: 30.0 });
        assert!((read("[6.5, 9]").unwrap().middle() - 7.75).abs() < 1e-12);
        for text in ["[1]", "[1, 2, 3]", "\"30\"", "[]", "true"] {
            assert!(read(text).is_err(), "{text}");
        }
    }

    #[test]
    fn ends_turned_and_numbers_that_are_none_are_faults() {
        assert_eq!(read("[2, 3]").unwrap().fault("x", 0.0, 3.0), None);
        for text in ["[3, 2]", "nan", "0", "-1", "4", "[nan, 2]", "[1, nan]"] {
            assert!(read(text).unwrap().fault("x", 0.0, 3.0).is_some(), "{text}");
        }
    }
}
