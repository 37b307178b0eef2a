//! Quantities written as a number and a unit: `60 psf`, `1,200 sq ft`, `22 °F`.

use super::Notation;
use super::error::Fault;
use super::scan::{Number, Scanner};
use crate::unit::Unit;

/// Reads sign, number and unit to the end; the value in SI.
pub(crate) fn plain(scan: &mut Scanner<'_>, notation: &'static Notation) -> Result<f64, Fault> {
    let start = scan.at();
    let sign = scan.sign();
    let number = scan.number(notation)?;
    let value = sign * number.value();
    let unit = unit_after(scan, &number, notation)?;
    notation.in_range(unit.to_si(value), scan.since(start))
}

fn unit_after(scan: &mut Scanner<'_>, number: &Number, notation: &Notation) -> Result<Unit, Fault> {
    let (name, at) = scan.take_rest();
    if name.is_empty() {
        return Err(notation.unit_missing(scan.slice(number.at.clone()), number.at.clone()));
    }
    notation.unit(name, at)
}
