//! Problems as a person reads them on a terminal: the line they stand on, what is wrong, what would mend it.

use std::fmt;

use job::{Problem, Severity};
use miette::{Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, NamedSource, SourceCode};

/// Lines longer than this are not drawn: no terminal shows them, and the renderer counts columns to 65,535.
const LONGEST_LINE: usize = 2_000;

/// A document whose problems are to be shown.
pub(crate) struct Page<'a> {
    name: &'a str,
    text: &'a str,
    color: bool,
    /// None where its lines are too long to be drawn.
    source: Option<NamedSource<String>>,
}

impl<'a> Page<'a> {
    /// Of a document; with colour for a terminal that shows it.
    pub(crate) fn new(name: &'a str, text: &'a str, color: bool) -> Self {
        let drawable = text.lines().all(|line| line.len() <= LONGEST_LINE);
        let source = drawable.then(|| NamedSource::new(name, text.to_owned()));
        Self { name, text, color, source }
    }

    /// A problem with the lines it stands on, or in words.
    pub(crate) fn render(&self, problem: &Problem) -> String {
        let drawn = self.source.as_ref().and_then(|source| self.drawn(&Located { problem, source }).ok());
        drawn.unwrap_or_else(|| format!("{}:{}", self.name, problem.plain(self.text)))
    }

    fn drawn(&self, located: &Located<'_>) -> Result<String, fmt::Error> {
        let theme = if self.color { GraphicalTheme::unicode() } else { GraphicalTheme::unicode_nocolor() };
        let mut drawn = String::new();
        let handler = GraphicalReportHandler::new_themed(theme).with_width(100);
        handler.render_report(&mut drawn, located).map(|()| drawn)
    }
}

/// A problem with the text it was found in.
struct Located<'a> {
    problem: &'a Problem,
    source: &'a NamedSource<String>,
}

impl fmt::Debug for Located<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl fmt::Display for Located<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.problem.message)
    }
}

impl std::error::Error for Located<'_> {}

impl Diagnostic for Located<'_> {
    fn code<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        Some(Box::new(self.problem.code))
    }

    fn severity(&self) -> Option<miette::Severity> {
        Some(match self.problem.severity {
            Severity::Warning => miette::Severity::Warning,
            Severity::Error => miette::Severity::Error,
        })
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        Some(Box::new(&self.problem.mend))
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(self.source)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let label = |p: &job::Place| {
            let words = (!p.label.is_empty()).then(|| p.label.clone());
            LabeledSpan::new_with_span(words, p.range.clone())
        };
        Some(Box::new(self.problem.places.iter().map(label)))
    }
}
