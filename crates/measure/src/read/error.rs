//! What went wrong in reading a quantity: where, why, and what would mend it.

use std::error::Error;
use std::fmt;
use std::ops::Range;

use super::Notation;

/// A text that is not a quantity, or could be more than one.
///
/// ```
/// use measure::{Cause, Length};
/// let error = "8,5".parse::<Length>().expect_err("a comma is ambiguous");
/// assert_eq!(error.cause(), Cause::Comma);
/// assert_eq!(error.at(), 0..3);
/// assert_eq!(error.mend().as_deref(), Some("did you mean `8.5'` or `8' 5\"`?"));
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct ReadError {
    text: String,
    /// Invariant: within `text`, on character boundaries.
    at: Range<usize>,
    cause: Cause,
    /// Invariant: each can itself be read.
    mends: Vec<String>,
    notation: &'static Notation,
}

/// Why a text could not be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// There is nothing but space.
    Empty,
    /// A number was due.
    NoNumber,
    /// A number stands without its unit.
    NoUnit,
    /// The unit is not one of this quantity.
    UnknownUnit,
    /// A comma could be a decimal point, or could part two values.
    Comma,
    /// A hyphen could join or subtract, or join feet to inches or a whole number to its fraction.
    Hyphen,
    /// The number is written with a power of ten.
    Exponent,
    /// A fraction over zero.
    ZeroDenominator,
    /// The fraction of a mixed number is not under one.
    ImproperFraction,
    /// Feet with a fraction, and inches after them.
    FractionalFeet,
    /// The inches after feet are not under twelve.
    InchesPastTwelve,
    /// A pitch over something other than 12.
    RunNotTwelve,
    /// The value is beyond what this quantity can sensibly be.
    OutOfRange,
    /// An amount finer than 1/100 cent.
    TooFine,
    /// Something follows a quantity that is already complete.
    Trailing,
}

/// A fault found while scanning, before it is tied to its text.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Fault {
    /// Invariant: within the text, on character boundaries.
    at: Range<usize>,
    cause: Cause,
    /// What could stand there instead.
    mends: Vec<String>,
}

impl ReadError {
    pub(crate) fn new(text: &str, notation: &'static Notation, fault: Fault) -> Self {
        let Fault { at, cause, mends } = fault;
        Self { text: text.to_owned(), at, cause, mends, notation }
    }

    /// The bytes at fault within the text given to `parse`.
    pub fn at(&self) -> Range<usize> {
        self.at.clone()
    }

    /// The kind of fault.
    pub fn cause(&self) -> Cause {
        self.cause
    }

    /// What the writer may have meant, as a question; none where there is no good guess.
    pub fn mend(&self) -> Option<String> {
        let quoted: Vec<String> = self.mends.iter().map(|text| format!("`{text}`")).collect();
        (!quoted.is_empty()).then(|| format!("did you mean {}?", quoted.join(" or ")))
    }

    fn found(&self) -> &str {
        self.text.get(self.at.clone()).unwrap_or(&self.text).trim()
    }
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Notation { what, examples, limits, .. } = self.notation;
        let found = self.found();
        match self.cause {
            Cause::Empty => write!(f, "nothing is written here"),
            Cause::NoNumber if found.is_empty() => write!(f, "a number is missing at the end"),
            Cause::NoNumber => write!(f, "`{found}` is not a number"),
            Cause::NoUnit => write!(f, "`{found}` has no unit"),
            Cause::UnknownUnit => write!(f, "`{found}` is not a unit for {what}"),
            Cause::Comma => write!(f, "the comma in `{found}` may be a decimal point or part two values"),
            Cause::Hyphen => write!(f, "the hyphen in `{found}` can be taken in more than one way"),
            Cause::Exponent => write!(f, "`{found}` has a power of ten, which must be written out"),
            Cause::ZeroDenominator => write!(f, "`{found}` divides by zero"),
            Cause::ImproperFraction => write!(f, "the fraction in `{found}` is not under 1"),
            Cause::FractionalFeet => write!(f, "`{found}` feet are not whole, yet inches follow"),
            Cause::InchesPastTwelve => write!(f, "the inches in `{found}` are not under 12"),
            Cause::RunNotTwelve => write!(f, "`{found}` is not a rise in 12"),
            Cause::OutOfRange => write!(f, "`{found}` is outside the range {limits}"),
            Cause::TooFine => write!(f, "`{found}` is finer than 1/100 cent"),
            Cause::Trailing => write!(f, "`{found}` follows {what} that is already complete"),
        }?;
        write!(f, "; {what} is written like {examples}")
    }
}

impl Error for ReadError {}

impl Fault {
    pub(crate) fn new(at: Range<usize>, cause: Cause) -> Self {
        Self { at, cause, mends: Vec::new() }
    }

    /// Adds texts the writer may have meant in place of what is at fault.
    pub(crate) fn perhaps<S: Into<String>>(mut self, instead: impl IntoIterator<Item = S>) -> Self {
        self.mends.extend(instead.into_iter().map(Into::into));
        self
    }

    /// Adds texts that are more likely than those already offered.
    pub(crate) fn rather(mut self, instead: impl IntoIterator<Item = String>) -> Self {
        self.mends.splice(0..0, instead);
        self
    }

    pub(crate) fn at(&self) -> Range<usize> {
        self.at.clone()
    }

    /// Puts each suggestion into its place in `text` and keeps the first two that can be read.
    pub(crate) fn offering_only(mut self, text: &str, can_be_read: impl Fn(&str) -> bool) -> Self {
        let (before, after) = (&text[..self.at.start], &text[self.at.end..]);
        let in_place = |instead: &String| format!("{before}{instead}{after}").trim().to_owned();
        self.mends = self.mends.iter().map(in_place).filter(|meant| can_be_read(meant)).take(2).collect();
        self
    }
}
