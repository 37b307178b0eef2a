//! What is wrong with a job document: one shape for every crate, rendered by whoever has a screen.

use std::ops::Range;

/// How much a [`Problem`] matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// The answer stands, but a person should look.
    Warning,
    /// No answer can be given until it is mended.
    Error,
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
}
