//! Pitches: a rise in 12 (`6/12`, `4 1/2 /12`, `6 in 12`), degrees or percent.

use std::ops::Range;

use super::Notation;
use super::error::{Cause, Fault};
use super::scan::{Number, Scanner};
use crate::Pitch;
use crate::unit::{DEGREE, RISE_PER_12};

/// Reads a pitch to the end; its slope, rise over run.
pub(crate) fn pitch(scan: &mut Scanner<'_>, notation: &'static Notation) -> Result<f64, Fault> {
    scan.skip_space();
    let start = scan.at();
    let sign = scan.sign();
    let number = scan.number(notation)?;
    let slope = match (run_after(scan, &number, notation)?, number.fraction) {
        (Some(run), _) => slope(number.value(), run, scan.since(start))?,
        (None, Some(over)) if number.is_fraction() => slope(over.above, over.below, number.at)?,
        _ => slope_in_unit(scan, &number, notation)?,
    };
    let slope = notation.in_range(sign * slope, scan.since(start))?;
    scan.expect_done()?;
    Ok(slope)
}

/// The run after `/`, `:` or `in`, if one of them stands here.
fn run_after(scan: &mut Scanner<'_>, rise: &Number, notation: &Notation) -> Result<Option<f64>, Fault> {
    let end = scan.at();
    scan.skip_space();
    // `6/12/12` is a slip, `1/2 /12` and `½/12` are not.
    let is_apart = scan.at() > end || !rise.is_fraction() || !scan.slice(rise.at.clone()).contains('/');
    if !is_apart || scan.take_any(&["/", ":", "in"]).is_none() {
        return Ok(None);
    }
    scan.skip_space();
    scan.number(notation).map(|run| Some(run.value()))
}

/// A rise over a run of 12. Another run is refused: `3/8` is rise over run to one and rise over span to another.
#[expect(clippy::float_cmp, reason = "the run is the number as written")]
fn slope(rise: f64, run: f64, at: Range<usize>) -> Result<f64, Fault> {
    if run == 12.0 {
        return Ok(RISE_PER_12.to_si(rise));
    }
    let rise_in_12 = 12.0 * rise / run;
    let meant = [rise_in_12, 2.0 * rise_in_12].map(|rise| Pitch::from_rise_per_12(rise).to_string());
    Err(Fault::new(at, Cause::RunNotTwelve).perhaps(meant))
}

fn slope_in_unit(scan: &mut Scanner<'_>, number: &Number, notation: &Notation) -> Result<f64, Fault> {
    let written = scan.slice(number.at.clone());
    let (name, at) = scan.take_rest();
    if name.is_empty() {
        let gap = if number.is_whole() { "" } else { " " };
        let fault = Fault::new(number.at.clone(), Cause::NoUnit);
        return Err(fault.perhaps([format!("{written}{gap}/12"), format!("{written} deg")]));
    }
    let unit = notation.unit(name, at)?;
    let value = number.value();
    if unit == DEGREE && value >= 90.0 {
        return Err(Fault::new(number.at.clone(), Cause::OutOfRange));
    }
    Ok(if unit == DEGREE { Pitch::from_degrees(value).slope() } else { unit.to_si(value) })
}
