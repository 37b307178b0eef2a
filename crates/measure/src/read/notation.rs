//! How a quantity is written: its units by name, its range, its examples.

use std::fmt;
use std::ops::{Range, RangeInclusive};

use super::unit_name::UnitName;
use super::{Cause, Fault};
use crate::unit::Unit;

/// The notation of one quantity.
#[derive(PartialEq)]
pub(crate) struct Notation {
    /// The quantity with its article, for messages.
    pub(crate) what: &'static str,
    /// Accepted forms, for messages.
    pub(crate) examples: &'static str,
    /// Units with their names, the most usual first.
    pub(crate) units: &'static [(Unit, &'static [&'static str])],
    /// What can sensibly be written, in SI.
    pub(crate) range: RangeInclusive<f64>,
    /// The range in words.
    pub(crate) limits: &'static str,
    pub(crate) thousands: Thousands,
}

/// Whether commas may group thousands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Thousands {
    /// `1,200` is twelve hundred.
    Grouped,
    /// Any comma is ambiguous.
    Refused,
}

/// By its quantity: the rest is the same wherever it is shown.
impl fmt::Debug for Notation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.what)
    }
}

impl Notation {
    /// The unit written as `name`, or a fault that offers a name one slip away.
    pub(crate) fn unit(&self, name: &str, at: Range<usize>) -> Result<Unit, Fault> {
        let known = self.units().find(|(_, known)| known.is(name));
        known.map(|(unit, _)| unit).ok_or_else(|| {
            let near = self.units().map(|(_, known)| known).find(|known| known.is_one_slip_from(name));
            Fault::new(at, Cause::UnknownUnit).perhaps(near.map(|known| known.0))
        })
    }

    /// The fault of a number without unit, offering it with the two most usual ones.
    pub(crate) fn unit_missing(&self, number: &str, at: Range<usize>) -> Fault {
        Fault::new(at, Cause::NoUnit).perhaps(self.usual_names().take(2).map(|name| name.after(number)))
    }

    /// The first name of each unit, the most usual unit first.
    pub(crate) fn usual_names(&self) -> impl Iterator<Item = UnitName> {
        self.units.iter().filter_map(|(_, names)| names.first().copied().map(UnitName))
    }

    /// The SI value, finite and within range, or a fault. A zero loses its sign.
    pub(crate) fn in_range(&self, si: f64, at: Range<usize>) -> Result<f64, Fault> {
        if self.range.contains(&si) { Ok(si + 0.0) } else { Err(Fault::new(at, Cause::OutOfRange)) }
    }

    fn units(&self) -> impl Iterator<Item = (Unit, UnitName)> {
        self.units.iter().flat_map(|(unit, names)| names.iter().map(|name| (*unit, UnitName(name))))
    }
}
