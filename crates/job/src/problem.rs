//! What is wrong with a job document: one shape for every crate, rendered by whoever has a screen.

use std::fmt::Write as _;
use std::ops::Range;

use book::LookupError;

use crate::Position;

/// How much a [`Problem`] matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// The answer stands, but a person should look.
    Warning,
    /// No answer can be given until it is mended.
    Error,
}

impl Severity {
    /// In one word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Warning => "warning",
            Self::Error => "error",
        }
    }
}

/// A place in the job document.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// Byte range in the text of the document.
    pub range: Range<usize>,
    /// What stands there, in a few words; empty when the message says it all.
    pub label: String,
}

/// One finding: where, what, and what would mend it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// Stable name for programs and for looking up, such as `opening-off-roof`.
    pub code: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// Cause, in one sentence that names the block, opening or edge at fault.
    pub message: String,
    /// What would mend it, in one sentence.
    pub mend: String,
    /// Where in the document, the first place being the one at fault.
    pub places: Vec<Place>,
}

impl Problem {
    /// An error at a place.
    pub fn error(code: &'static str, message: impl Into<String>, mend: impl Into<String>) -> Self {
        Self {
            code,
            severity: Severity::Error,
            message: message.into(),
            mend: mend.into(),
            places: Vec::new(),
        }
    }

    /// An error for a row the books lack.
    pub fn not_in_books(lost: &LookupError) -> Self {
        Self::error("not-in-books", lost.to_string(), "name a row the books have, or add it in an overlay")
    }

    /// A warning at a place.
    pub fn warning(code: &'static str, message: impl Into<String>, mend: impl Into<String>) -> Self {
        Self { severity: Severity::Warning, ..Self::error(code, message, mend) }
    }

    /// Adds a place and what stands there.
    #[must_use]
    pub fn at(mut self, range: Range<usize>, label: impl Into<String>) -> Self {
        self.places.push(Place { range, label: label.into() });
        self
    }

    /// Whether this stops the job.
    pub fn is_error(&self) -> bool {
        self.severity == Severity::Error
    }

    /// Where the fault stands in `text`; none for a problem of the whole document.
    pub fn position(&self, text: &str) -> Option<Position> {
        self.places.first().map(|place| Position::of(text, place.range.start))
    }

    /// As plain lines: severity and code, the places, the message, the mend.
    ///
    /// ```text
    /// 12:9: error[unreadable]: `block.main.plate` ...
    ///   see 4:1: the other one
    ///   mend: ...
    /// ```
    pub fn plain(&self, text: &str) -> String {
        let mut lines = String::new();
        if let Some(Position { line, column }) = self.position(text) {
            let _ = write!(lines, "{line}:{column}: ");
        }
        let _ = writeln!(lines, "{}[{}]: {}", self.severity.word(), self.code, self.message);
        for place in self.places.iter().skip(1) {
            let Position { line, column } = Position::of(text, place.range.start);
            let _ = writeln!(lines, "  see {line}:{column}: {}", place.label);
        }
        let _ = writeln!(lines, "  mend: {}", self.mend);
        lines
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plain_shows_every_place() {
        let problem =
            Problem::error("twice", "two blocks are named `a`", "rename one").at(2..3, "").at(0..1, "first");
        assert_eq!(
            problem.plain("a\nb"),
            "2:1: error[twice]: two blocks are named `a`\n  see 1:1: first\n  mend: rename one\n"
        );
    }
}
