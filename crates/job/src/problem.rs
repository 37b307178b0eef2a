//! What is wrong with a job document: one shape for every crate, rendered by whoever has a screen.

use std::fmt::Write as _;
use std::ops::Range;

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

/// Line and column of a place, both from 1; columns count characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Position {
    /// Line.
    pub line: usize,
    /// Column.
    pub column: usize,
}

impl Position {
    /// The position of byte `offset` of `text`; past the end it is that of the end. A byte order mark takes no column.
    ///
    /// ```
    /// use job::Position;
    /// assert_eq!(Position::of("a\r\nbé c", 7), Position { line: 2, column: 4 });
    /// ```
    pub fn of(text: &str, offset: usize) -> Self {
        let before = text.get(..floor_boundary(text, offset)).unwrap_or(text);
        let line = before.bytes().filter(|&byte| byte == b'\n').count() + 1;
        let start = before.rfind('\n').map_or(0, |newline| newline + 1);
        let column = before[start..].chars().filter(|&c| c != '\u{feff}').count() + 1;
        Self { line, column }
    }
}

/// The last character boundary at or before `offset`.
fn floor_boundary(text: &str, offset: usize) -> usize {
    (0..=offset.min(text.len())).rev().find(|&at| text.is_char_boundary(at)).unwrap_or(0)
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
    fn positions_count_characters_and_ignore_a_byte_order_mark() {
        let text = "\u{feff}ab\r\n\tdé=1";
        let at = |needle: &str| Position::of(text, text.find(needle).unwrap());
        assert_eq!(at("b"), Position { line: 1, column: 2 });
        assert_eq!(at("d"), Position { line: 2, column: 2 });
        assert_eq!(at("="), Position { line: 2, column: 4 });
    }

    #[test]
    fn positions_past_the_end_or_inside_a_character_are_the_nearest_before() {
        assert_eq!(Position::of("é", 1), Position { line: 1, column: 1 });
        assert_eq!(Position::of("ab", 99), Position { line: 1, column: 3 });
    }

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
