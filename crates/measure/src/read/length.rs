//! Lengths: one number with its unit, or feet and inches.
//!
//! Feet and inches are `24' 6 1/2"`, `24'-6 1/2"`, `24 ft 6 in`, or as carpenters write them, `24-6`. The feet are then
//! whole and the inches under 12. After feet a hyphen may also join a whole to its fraction: `24'-6-1/2"`. Alone,
//! `5-1/2"` is refused: it is 5 1/2" to one and 5' 1/2" to another.

use std::ops::Range;

use super::Notation;
use super::error::{Cause, Fault};
use super::scan::{Number, Scanner};
use crate::unit::{FOOT, INCH, Unit};

/// A number and the unit after it, if any.
struct Part {
    number: Number,
    unit: Option<Unit>,
}

/// What stands between feet and inches.
#[derive(Clone, Copy, PartialEq)]
enum Joint {
    /// Space, or nothing.
    Open,
    /// A hyphen, close on both sides.
    Hyphen,
    /// A hyphen with space about it, which could be a minus sign.
    LooseHyphen,
}

/// Reads a length to the end, in metres.
pub(crate) fn length(scan: &mut Scanner<'_>, notation: &'static Notation) -> Result<f64, Fault> {
    scan.skip_space();
    let start = scan.at();
    let sign = scan.sign();
    let first = part(scan, notation)?;
    let metres =
        if scan.is_done() { single(&first, scan, notation)? } else { with_inches(&first, scan, notation)? };
    notation.in_range(sign * metres, scan.since(start))
}

fn single(part: &Part, scan: &Scanner<'_>, notation: &Notation) -> Result<f64, Fault> {
    let missing = || notation.unit_missing(scan.slice(part.number.at.clone()), part.number.at.clone());
    part.unit.map(|unit| unit.to_si(part.number.value())).ok_or_else(missing)
}

/// Reads the inches after what ought to be feet.
fn with_inches(feet: &Part, scan: &mut Scanner<'_>, notation: &Notation) -> Result<f64, Fault> {
    let joint = joint(scan);
    let start = scan.at();
    let inches = hyphenated(part(scan, notation)?, scan, notation)?;
    let pair = Pair { feet, joint, inches: &inches, inches_at: scan.since(start) };
    scan.expect_done()?;
    pair.check_joint(scan)?;
    pair.check_units(scan)?;
    pair.check_numbers(scan)?;
    Ok(INCH.to_si(feet.number.value() * 12.0 + inches.number.value()))
}

/// Two numbers that ought to be feet and inches.
struct Pair<'p> {
    feet: &'p Part,
    joint: Joint,
    inches: &'p Part,
    /// The inches with their unit.
    inches_at: Range<usize>,
}

impl Pair<'_> {
    /// Without a foot mark, only a close hyphen before whole inches makes feet and inches.
    fn check_joint(&self, scan: &Scanner<'_>) -> Result<(), Fault> {
        if self.feet.unit.is_some() || (self.joint == Joint::Hyphen && !self.inches.number.is_fraction()) {
            return Ok(());
        }
        let (feet, inches) = self.written(scan);
        let both = format!("{feet}' {inches}\"");
        Err(if self.joint == Joint::Open {
            self.fault(Cause::NoUnit).perhaps([both])
        } else {
            let unit = scan.slice(self.inches.number.at.end..self.inches_at.end);
            let unit = if unit.trim().is_empty() { "\"" } else { unit };
            self.fault(Cause::Hyphen).perhaps([format!("{feet} {inches}{unit}"), both])
        })
    }

    fn check_units(&self, scan: &Scanner<'_>) -> Result<(), Fault> {
        let is_feet = self.feet.unit.is_none_or(|unit| unit == FOOT);
        let is_inches = self.inches.unit.is_none_or(|unit| unit == INCH);
        if !is_feet || !is_inches {
            return Err(Fault::new(self.inches_at.clone(), Cause::Trailing));
        }
        if self.inches.unit.is_none() && self.joint != Joint::Hyphen {
            let at = self.inches.number.at.clone();
            let marked = format!("{}\"", scan.slice(at.clone()));
            return Err(Fault::new(at, Cause::NoUnit).perhaps([marked]));
        }
        Ok(())
    }

    fn check_numbers(&self, scan: &Scanner<'_>) -> Result<(), Fault> {
        let (feet, inches) = (&self.feet.number, &self.inches.number);
        if !feet.is_whole() {
            let whole = scan.slice(feet.at.clone()).split(['.', ' ']).next();
            return Err(Fault::new(feet.at.clone(), Cause::FractionalFeet).perhaps(whole));
        }
        if inches.value() >= 12.0 {
            let carried = feet.value() + (inches.value() / 12.0).floor();
            let carried = inches.is_whole().then(|| format!("{carried}' {}\"", inches.value() % 12.0));
            return Err(self.fault(Cause::InchesPastTwelve).perhaps(carried));
        }
        Ok(())
    }

    fn fault(&self, cause: Cause) -> Fault {
        Fault::new(self.feet.number.at.start..self.inches_at.end, cause)
    }

    fn written<'a>(&self, scan: &Scanner<'a>) -> (&'a str, &'a str) {
        (scan.slice(self.feet.number.at.clone()), scan.slice(self.inches.number.at.clone()))
    }
}

fn part(scan: &mut Scanner<'_>, notation: &Notation) -> Result<Part, Fault> {
    let number = scan.number(notation).map_err(|fault| offer_feet_and_inches(fault, scan))?;
    let unit = unit(scan, notation)?;
    Ok(Part { number, unit })
}

/// The unit after a number, if one stands there: a mark or a word.
fn unit(scan: &mut Scanner<'_>, notation: &Notation) -> Result<Option<Unit>, Fault> {
    let end = scan.at();
    scan.skip_space();
    let start = scan.at();
    let mark = scan.take_any(&["\"", "″", "”", "''", "′′", "’’", "'", "′", "’"]);
    let name = mark.unwrap_or_else(|| scan.take_word());
    if name.is_empty() {
        scan.go_back(end);
        return Ok(None);
    }
    notation.unit(name, scan.since(start)).map(Some)
}

fn joint(scan: &mut Scanner<'_>) -> Joint {
    let start = scan.at();
    scan.skip_space();
    if scan.take_any(&["-", "\u{2013}"]).is_none() {
        return Joint::Open;
    }
    scan.skip_space();
    let is_loose = scan.slice(scan.since(start)).contains(char::is_whitespace);
    if is_loose { Joint::LooseHyphen } else { Joint::Hyphen }
}

/// Whole inches with the fraction that a hyphen may join to them, as in `24'-6-1/2"`.
fn hyphenated(inches: Part, scan: &mut Scanner<'_>, notation: &Notation) -> Result<Part, Fault> {
    let end = scan.at();
    if inches.unit.is_some() || !inches.number.is_whole() || joint(scan) != Joint::Hyphen {
        scan.go_back(end);
        return Ok(inches);
    }
    let fraction = part(scan, notation)?;
    let number = inches.number.with_fraction(fraction.number)?;
    Ok(Part { number, unit: fraction.unit })
}

/// The comma of `8,5` may also have parted feet from inches.
fn offer_feet_and_inches(fault: Fault, scan: &Scanner<'_>) -> Fault {
    let parted = scan.slice(fault.at()).split_once(',').map(|(feet, inches)| format!("{feet}' {inches}\""));
    fault.perhaps(parted)
}
