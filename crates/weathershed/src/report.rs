//! Problems as a person reads them on a terminal: the line they stand on, what is wrong, what would mend it.

use std::fmt;

use job::{Problem, Severity};
use miette::{Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, NamedSource, SourceCode};

/// A problem with the text it was found in.
struct Located<'a> {
    problem: &'a Problem,
    source: NamedSource<String>,
}

/// Lines longer than this are not drawn: no terminal shows them, and the renderer counts columns to 65,535.
const LONGEST_LINE: usize = 2_000;

/// Renders a problem; with colour for a terminal that shows it.
pub(crate) fn render(problem: &Problem, name: &str, text: &str, color: bool) -> String {
    if text.lines().any(|line| line.len() > LONGEST_LINE) {
        return format!("{name}:{}", problem.plain(text));
    }
    let theme = if color { GraphicalTheme::unicode() } else { GraphicalTheme::unicode_nocolor() };
    let located = Located { problem, source: NamedSource::new(name, text.to_owned()) };
    let mut rendered = String::new();
    match GraphicalReportHandler::new_themed(theme).with_width(100).render_report(&mut rendered, &located) {
        Ok(()) => rendered,
        Err(fmt::Error) => problem.plain(text),
    }
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
        Some(&self.source)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let label = |p: &job::Place| {
            let words = (!p.label.is_empty()).then(|| p.label.clone());
            LabeledSpan::new_with_span(words, p.range.clone())
        };
        Some(Box::new(self.problem.places.iter().map(label)))
    }
}
