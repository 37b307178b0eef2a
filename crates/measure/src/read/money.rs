//! Money: `$1,234.50`, to 1/100 cent.

use super::Notation;
use super::error::{Cause, Fault};
use super::scan::Scanner;

/// Decimals of a dollar down to 1/100 cent.
const DECIMALS: usize = 4;

/// Reads an amount to the end, in hundredths of a cent.
pub(crate) fn money(scan: &mut Scanner<'_>, notation: &'static Notation) -> Result<i64, Fault> {
    let is_negative = scan.sign() < 0.0;
    let is_marked = scan.take_any(&["$"]).is_some();
    scan.skip_space();
    let start = scan.at();
    let digits = scan.digits(notation)?;
    let at = scan.since(start);
    if !is_marked {
        let marked = format!("${}", scan.slice(at.clone()));
        return Err(Fault::new(at, Cause::NoUnit).perhaps([marked]));
    }
    scan.expect_done()?;
    let (dollars, decimals) = digits.around_point();
    if decimals.len() > DECIMALS {
        return Err(Fault::new(at, Cause::TooFine));
    }
    let amount = format!("{dollars}{decimals:0<DECIMALS$}").parse().unwrap_or(i64::MAX);
    notation.in_range(amount as f64, at)?;
    Ok(if is_negative { -amount } else { amount })
}
