//! A scanner over one short text: spaces, marks, words and numbers, each with its place.

use std::ops::Range;

use super::error::{Cause, Fault};
use super::{Notation, Thousands, comma};

/// Fractions that have a character of their own.
const VULGAR: [(char, f64, f64); 9] = [
    ('½', 1.0, 2.0),
    ('¼', 1.0, 4.0),
    ('¾', 3.0, 4.0),
    ('⅛', 1.0, 8.0),
    ('⅜', 3.0, 8.0),
    ('⅝', 5.0, 8.0),
    ('⅞', 7.0, 8.0),
    ('⅓', 1.0, 3.0),
    ('⅔', 2.0, 3.0),
];

/// A place in a text and what can be taken from there.
#[derive(Debug)]
pub(crate) struct Scanner<'a> {
    text: &'a str,
    /// Invariant: a character boundary of `text`.
    at: usize,
}

/// A number without sign.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Number {
    pub(crate) at: Range<usize>,
    pub(crate) whole: Option<Digits>,
    pub(crate) fraction: Option<Ratio>,
}

/// Digits, perhaps with a decimal point, thousands commas dropped.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Digits(String);

/// A common fraction. Invariant: `below` is not zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Ratio {
    pub(crate) above: f64,
    pub(crate) below: f64,
}

impl Number {
    pub(crate) fn value(&self) -> f64 {
        let whole = self.whole.as_ref().map_or(0.0, Digits::value);
        self.fraction.map_or(whole, |part| whole + part.above / part.below)
    }

    /// This whole number with a fraction of one after it.
    pub(crate) fn with_fraction(self, fraction: Number) -> Result<Self, Fault> {
        let at = self.at.start..fraction.at.end;
        match fraction {
            Number { whole: None, fraction: Some(part), .. } if part.above < part.below => {
                Ok(Self { at, whole: self.whole, fraction: Some(part) })
            }
            Number { whole: None, .. } => Err(Fault::new(at, Cause::ImproperFraction)),
            _ => Err(Fault::new(fraction.at, Cause::Trailing)),
        }
    }

    /// Digits alone.
    pub(crate) fn is_whole(&self) -> bool {
        self.fraction.is_none() && self.whole.as_ref().is_some_and(Digits::is_whole)
    }

    /// A fraction alone.
    pub(crate) fn is_fraction(&self) -> bool {
        self.whole.is_none()
    }
}

impl Digits {
    /// Infinite when there are more digits than `f64` can hold; range checks catch it.
    fn value(&self) -> f64 {
        self.0.parse().unwrap_or(f64::INFINITY)
    }

    fn is_whole(&self) -> bool {
        !self.0.contains('.')
    }

    /// The digits before and after the decimal point.
    pub(crate) fn around_point(&self) -> (&str, &str) {
        self.0.split_once('.').unwrap_or((&self.0, ""))
    }
}

impl<'a> Scanner<'a> {
    pub(crate) fn new(text: &'a str) -> Self {
        Self { text, at: 0 }
    }

    pub(crate) fn at(&self) -> usize {
        self.at
    }

    pub(crate) fn slice(&self, at: Range<usize>) -> &'a str {
        self.text.get(at).unwrap_or_default()
    }

    /// The place from `start` to here.
    pub(crate) fn since(&self, start: usize) -> Range<usize> {
        start..self.at
    }

    /// What is left, without space at its ends, and its place.
    pub(crate) fn take_rest(&mut self) -> (&'a str, Range<usize>) {
        self.skip_space();
        let (start, rest) = (self.at, self.rest().trim_end());
        self.at = self.text.len();
        (rest, start..start + rest.len())
    }

    /// Whether only space is left.
    pub(crate) fn is_done(&self) -> bool {
        self.rest().trim_start().is_empty()
    }

    /// A fault if anything but space is left.
    pub(crate) fn expect_done(&mut self) -> Result<(), Fault> {
        if self.is_done() { Ok(()) } else { Err(Fault::new(self.take_rest().1, Cause::Trailing)) }
    }

    /// Back to a place that [`at`](Self::at) gave.
    pub(crate) fn go_back(&mut self, to: usize) {
        self.at = to;
    }

    pub(crate) fn skip_space(&mut self) {
        self.take_while(char::is_whitespace);
    }

    /// The longest run of such characters, perhaps none.
    pub(crate) fn take_while(&mut self, belongs: impl Fn(char) -> bool) -> &'a str {
        let rest = self.rest();
        let end = rest.find(|c| !belongs(c)).unwrap_or(rest.len());
        self.at += end;
        &rest[..end]
    }

    /// Letters, with the point of an abbreviation or the power of an area or a volume.
    pub(crate) fn take_word(&mut self) -> &'a str {
        let start = self.at;
        if self.take_while(char::is_alphabetic).is_empty() || self.take_any(&["."]).is_some() {
            return self.slice(self.since(start));
        }
        let end = self.at;
        let is_power = self.take_any(&["2", "3", "²", "³"]).is_some();
        if is_power && self.rest().starts_with(|c: char| !c.is_whitespace()) {
            self.at = end; // the digit begins the inches of `24ft2in`
        }
        self.slice(self.since(start))
    }

    /// The first of these that stands here, in any case.
    pub(crate) fn take_any(&mut self, wanted: &[&str]) -> Option<&'a str> {
        let rest = self.rest();
        let starts = |lead: &&str| rest.get(..lead.len()).is_some_and(|head| head.eq_ignore_ascii_case(lead));
        let length = wanted.iter().copied().find(starts)?.len();
        self.at += length;
        rest.get(..length)
    }

    /// Minus one after a minus sign, else one.
    pub(crate) fn sign(&mut self) -> f64 {
        self.skip_space();
        let sign = if self.take_any(&["-", "\u{2212}"]).is_some() { -1.0 } else { 1.0 };
        self.skip_space();
        sign
    }

    /// A number: digits, a fraction, or digits and a fraction under one.
    pub(crate) fn number(&mut self, notation: &Notation) -> Result<Number, Fault> {
        let start = self.at;
        let (whole, fraction) = match self.fraction()? {
            Some(alone) => (None, Some(alone)),
            None => self.mixed(notation)?,
        };
        if whole.is_some() && fraction.is_some_and(|part| part.above >= part.below) {
            return Err(Fault::new(self.since(start), Cause::ImproperFraction));
        }
        self.refuse_exponent(start)?;
        Ok(Number { at: self.since(start), whole, fraction })
    }

    /// Digits, perhaps with thousands commas and a decimal point.
    pub(crate) fn digits(&mut self, notation: &Notation) -> Result<Digits, Fault> {
        let start = self.at;
        self.grouped_digits(notation)?;
        if self.rest().strip_prefix('.').is_some_and(|after| after.starts_with(is_digit)) {
            self.at += 1;
            self.take_while(is_digit);
            self.refuse_comma(start, notation)?;
        }
        if self.at == start {
            return Err(Fault::new(self.take_rest().1, Cause::NoNumber));
        }
        Ok(Digits(self.slice(self.since(start)).replace(',', "")))
    }

    fn rest(&self) -> &'a str {
        self.slice(self.at..self.text.len())
    }

    /// Digits and the fraction after them, if digits are whole and one is there.
    fn mixed(&mut self, notation: &Notation) -> Result<(Option<Digits>, Option<Ratio>), Fault> {
        let whole = self.digits(notation)?;
        let end = self.at;
        self.skip_space();
        let fraction = if whole.is_whole() { self.fraction()? } else { None };
        if fraction.is_none() {
            self.at = end;
        }
        Ok((Some(whole), fraction))
    }

    /// A fraction such as `1/16` or `½`, if one stands here.
    fn fraction(&mut self) -> Result<Option<Ratio>, Fault> {
        let start = self.at;
        if let Some(&(c, above, below)) = VULGAR.iter().find(|(c, ..)| self.rest().starts_with(*c)) {
            self.at += c.len_utf8();
            return Ok(Some(Ratio { above, below }));
        }
        let above = self.take_while(is_digit);
        let slash = self.take_any(&["/", "\u{2044}"]);
        let below = self.take_while(is_digit);
        if above.is_empty() || slash.is_none() || below.is_empty() {
            self.at = start;
            return Ok(None);
        }
        let ratio = Ratio { above: whole_value(above), below: whole_value(below) };
        if ratio.below == 0.0 {
            Err(Fault::new(self.since(start), Cause::ZeroDenominator))
        } else {
            Ok(Some(ratio))
        }
    }

    fn grouped_digits(&mut self, notation: &Notation) -> Result<(), Fault> {
        let start = self.at;
        let lead = self.take_while(is_digit);
        let may_group =
            notation.thousands == Thousands::Grouped && matches!(lead.len(), 1..=3) && !lead.starts_with('0');
        while may_group && starts_with_group(self.rest()) {
            self.at += ",000".len();
        }
        self.refuse_comma(start, notation)
    }

    /// A fault if a comma stands here; it is then shown with all that clings to it.
    fn refuse_comma(&mut self, start: usize, notation: &Notation) -> Result<(), Fault> {
        if !self.rest().starts_with(',') {
            return Ok(());
        }
        self.take_while(|c| is_digit(c) || c == ',' || c == '.');
        let missing = notation.usual_names().next().filter(|_| self.is_done());
        Err(comma::fault(self.slice(self.since(start)), self.since(start), missing))
    }

    fn refuse_exponent(&mut self, start: usize) -> Result<(), Fault> {
        let Some(power) = self.rest().strip_prefix(['e', 'E']) else { return Ok(()) };
        if !power.strip_prefix(['+', '-']).unwrap_or(power).starts_with(is_digit) {
            return Ok(());
        }
        self.take_while(|c| c.is_ascii_alphanumeric() || c == '+' || c == '-');
        Err(Fault::new(self.since(start), Cause::Exponent))
    }
}

fn is_digit(c: char) -> bool {
    c.is_ascii_digit()
}

fn whole_value(digits: &str) -> f64 {
    digits.parse().unwrap_or(f64::INFINITY)
}

/// A comma and exactly three digits.
fn starts_with_group(rest: &str) -> bool {
    let group = rest.strip_prefix(',').map(|after| after.len() - after.trim_start_matches(is_digit).len());
    group == Some(3)
}
