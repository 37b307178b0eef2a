//! Quantities whose unit may stand in front: `R-60`, `RSI 10.5`, `U-0.35`.

use super::error::Fault;
use super::scan::Scanner;
use super::{Notation, plain};
use crate::unit::Unit;

/// Reads a number after one of the letters (of which the longer come first), or else a number and a unit; the value in SI.
///
/// The hyphen after the letters joins; it is not a minus sign.
pub(crate) fn prefixed(
    scan: &mut Scanner<'_>,
    notation: &'static Notation,
    letters: &[(&str, Unit)],
) -> Result<f64, Fault> {
    scan.skip_space();
    let start = scan.at();
    let Some(&(_, unit)) = letters.iter().find(|(name, _)| scan.take_any(&[name]).is_some()) else {
        return plain(scan, notation).map_err(|fault| offer_letters(fault, scan, letters));
    };
    scan.skip_space();
    scan.take_any(&["-"]);
    scan.skip_space();
    let number = scan.number(notation)?;
    let value = notation.in_range(unit.to_si(number.value()), scan.since(start))?;
    scan.expect_done()?;
    Ok(value)
}

fn offer_letters(fault: Fault, scan: &Scanner<'_>, letters: &[(&str, Unit)]) -> Fault {
    let number = scan.slice(fault.at());
    fault.rather(letters.iter().rev().map(|(name, _)| format!("{name}-{number}")))
}
