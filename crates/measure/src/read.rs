//! Reading quantities from text.
//!
//! One small scanner ([`scan`]) finds numbers and words; each quantity has a [`Notation`]: its names of units, its
//! range and how it is written. Most are a number and a unit and are read by [`mod@plain`]; lengths, pitches, R- and
//! U-values and money have forms of their own.
//!
//! # Rules that hold for all
//! - A number is digits with a decimal point, a fraction (`1/16`, `½`) or both (`6 1/2`). No powers of ten.
//! - A comma stands between thousands and nowhere else, and only where [`Thousands::Grouped`] says so:
//!   `1,200 ft2` is read, `8,5` never.
//! - No quantity is read without its unit.
//! - Case, spaces and points inside a unit do not matter: `SQ. FT.` is `sq ft`.
//! - What is read is finite and within the range of its notation.
//! - A suggestion is offered only if it can itself be read.

mod comma;
mod error;
mod length;
mod money;
mod notation;
mod pitch;
mod plain;
mod prefixed;
mod scan;
mod unit_name;

pub use error::{Cause, ReadError};
pub(crate) use length::length;
pub(crate) use money::money;
pub(crate) use notation::{Notation, Thousands};
pub(crate) use pitch::pitch;
pub(crate) use plain::plain;
pub(crate) use prefixed::prefixed;

use error::Fault;
use scan::Scanner;

/// Reads the whole of `text` by `rule`, and makes of its fault an error that can stand alone.
pub(crate) fn read<T>(
    text: &str,
    notation: &'static Notation,
    rule: impl Fn(&mut Scanner<'_>, &'static Notation) -> Result<T, Fault>,
) -> Result<T, ReadError> {
    let mut scan = Scanner::new(text);
    if scan.is_done() {
        return Err(ReadError::new(text, notation, Fault::new(0..text.len(), Cause::Empty)));
    }
    rule(&mut scan, notation).map_err(|fault| {
        let can_be_read = |meant: &str| rule(&mut Scanner::new(meant), notation).is_ok();
        ReadError::new(text, notation, fault.offering_only(text, can_be_read))
    })
}
