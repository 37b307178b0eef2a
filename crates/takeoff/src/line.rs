//! One line of a takeoff: a quantity, what is ordered for it, and why.
//!
//! # Rounding
//! What is sold whole is counted up: need over size, to the next whole number. A need within a millionth of a
//! package of a whole number is that number, so that 40 ft out of 10 ft pieces is four of them however the feet were
//! added up.

use book::{Because, Confidence, Package, Source};
use job::Units;
use measure::{Area, Length};

/// A quantity, what is ordered for it, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What of.
    pub item: Item,
    /// How much.
    pub amount: Amount,
    /// How it was reached, first things first; the last one tells of the rounding where something is ordered.
    pub because: Vec<Because>,
}

/// What a line counts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// Name for programs and price books, such as `drip-edge`.
    pub key: String,
    /// Name for papers.
    pub name: String,
}

/// How much of an item.
#[derive(Clone, Debug, PartialEq)]
pub enum Amount {
    /// Counted and ordered.
    Ordered {
        /// What the roof takes, without laps and waste.
        net: Quantity,
        /// Packages to order.
        count: u64,
        /// What one of them is, such as `roll of self-adhering ice barrier, 36 in x 66' 8"`.
        package: String,
    },
    /// Measured; nothing is ordered by it.
    Measured(Quantity),
    /// No figure: the rule that forbids it, and what to do instead.
    Refused(String),
}

/// A value and what it is counted in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Quantity {
    /// Area on the slope, or of material.
    Area(Area),
    /// True length.
    Length(Length),
    /// Pieces.
    Count(u64),
    /// So many times.
    Ratio(f64),
}

impl Quantity {
    /// The value in the units papers are written in, and the unit as programs read it.
    pub fn in_units(self, units: Units) -> (f64, &'static str) {
        match (self, units) {
            (Self::Area(area), Units::Us) => (area.ft2(), "ft2"),
            (Self::Area(area), Units::Si) => (area.m2(), "m2"),
            (Self::Length(length), Units::Us) => (length.ft(), "ft"),
            (Self::Length(length), Units::Si) => (length.m(), "m"),
            (Self::Count(count), _) => (count as f64, "pieces"),
            (Self::Ratio(ratio), _) => (ratio, "times"),
        }
    }

    /// As papers in these units write it.
    pub fn written(self, units: Units) -> String {
        match self {
            Self::Area(area) => units.area(area),
            Self::Length(length) => units.length(length),
            Self::Count(count) => count.to_string(),
            Self::Ratio(ratio) => format!("{ratio:.1} times"),
        }
    }
}

impl Line {
    /// What the roof takes, where that is a figure.
    pub fn net(&self) -> Option<Quantity> {
        match &self.amount {
            Amount::Ordered { net, .. } => Some(*net),
            Amount::Measured(quantity) => Some(*quantity),
            Amount::Refused(_) => None,
        }
    }

    /// Packages to order, where anything is.
    pub fn ordered(&self) -> Option<u64> {
        if let Amount::Ordered { count, .. } = self.amount { Some(count) } else { None }
    }

    /// Whether anything it was reached from is assumed.
    pub fn is_assumed(&self) -> bool {
        self.because.iter().any(|because| because.source.confidence == Confidence::Assumed)
    }

    pub(crate) fn ordered_as(
        item: Item,
        package: &Package,
        net: Quantity,
        count: u64,
        because: Vec<Because>,
    ) -> Self {
        let package = format!("{} of {}", package.unit, package.name);
        Self { item, amount: Amount::Ordered { net, count, package }, because }
    }

    pub(crate) fn measured(item: Item, quantity: Quantity, because: Vec<Because>) -> Self {
        Self { item, amount: Amount::Measured(quantity), because }
    }

    pub(crate) fn refused(item: Item, reason: &str, because: Vec<Because>) -> Self {
        Self { item, amount: Amount::Refused(reason.to_owned()), because }
    }
}

impl Item {
    pub(crate) fn new(key: impl Into<String>, name: impl Into<String>) -> Self {
        Self { key: key.into(), name: name.into() }
    }
}

/// Packages that hold `need` of which one is `size`; none where there is no need.
pub(crate) fn packages(need: f64, size: f64) -> u64 {
    /// Part of a package that is rounding of the arithmetic, not need.
    const SLACK: f64 = 1e-6;
    whole((need / size - SLACK).ceil())
}

/// A whole number of things; nothing where it is not a number above zero.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "whole and not negative; the cast saturates"
)]
pub(crate) fn whole(count: f64) -> u64 {
    count.max(0.0) as u64
}

/// How a number was reached.
pub(crate) fn because(
    what: impl Into<String>,
    inputs: impl Into<Vec<(String, String)>>,
    rule: impl Into<String>,
    source: Source,
) -> Because {
    Because { what: what.into(), inputs: inputs.into(), rule: rule.into(), source }
}

/// Name and value of something a number was reached from.
pub(crate) fn input(name: impl Into<String>, value: impl Into<String>) -> (String, String) {
    (name.into(), value.into())
}

/// The source of what follows from the measured roof by arithmetic alone.
pub(crate) fn computed() -> Source {
    Source { text: "worked out from the measured roof".to_owned(), confidence: Confidence::Computed }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_exact_multiple_takes_no_package_more() {
        assert_eq!(packages(40.0, 10.0), 4);
        assert_eq!(packages(0.1 + 0.2, 0.1), 3);
        assert_eq!(packages(Length::from_ft(105.0).m(), Length::from_in(1260.0).m()), 1);
    }

    #[test]
    fn a_little_more_takes_one_package_more_and_nothing_takes_none() {
        assert_eq!(packages(40.001, 10.0), 5);
        assert_eq!(packages(0.001, 10.0), 1);
        assert_eq!(packages(0.0, 10.0), 0);
        assert_eq!(packages(-3.0, 10.0), 0);
    }

    #[test]
    fn what_is_not_a_number_orders_nothing() {
        assert_eq!(packages(f64::NAN, 10.0), 0);
        assert_eq!(packages(0.0, 0.0), 0);
    }

    #[test]
    fn quantities_are_written_in_the_units_of_the_job() {
        let check = |quantity: Quantity, units, wanted: f64, unit| {
            let (value, found) = quantity.in_units(units);
            assert!((value - wanted).abs() < 1e-9 && found == unit, "{value} {found}");
        };
        check(Quantity::Area(Area::from_ft2(200.0)), Units::Us, 200.0, "ft2");
        check(Quantity::Length(Length::from_m(3.0)), Units::Si, 3.0, "m");
        check(Quantity::Count(4), Units::Si, 4.0, "pieces");
    }
}
