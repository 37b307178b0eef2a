//! The one place that writes to the terminal.

use std::collections::BTreeMap;
use std::io::{self, Write};
use std::path::Path;

use anstream::ColorChoice;
use job::Problem;

use crate::args::Color;
use crate::failure::Failure;
use crate::report::Page;

/// Problems shown; of what comes after them the count is told, since one fault may have thousands of consequences.
const MOST_SHOWN: usize = 100;

/// Standard output for results, standard error for everything else.
pub(crate) struct Output {
    quiet: bool,
    color: bool,
}

impl Output {
    pub(crate) fn new(quiet: bool, color: Color) -> Self {
        let choice = match color {
            Color::Auto => ColorChoice::Auto,
            Color::Always => ColorChoice::Always,
            Color::Never => ColorChoice::Never,
        };
        choice.write_global();
        let color = match color {
            Color::Auto => anstream::AutoStream::choice(&io::stderr()) != ColorChoice::Never,
            Color::Always => true,
            Color::Never => false,
        };
        Self { quiet, color }
    }

    /// A result; ends with a line break. A reader that has gone away is no failure.
    pub(crate) fn result(text: &str) -> Result<(), Failure> {
        let mut out = io::stdout().lock();
        let end = if text.ends_with('\n') { "" } else { "\n" };
        match write!(out, "{text}{end}").and_then(|()| out.flush()) {
            Err(error) if error.kind() != io::ErrorKind::BrokenPipe => {
                Err(Failure::file("cannot write to", Path::new("standard output"))(error))
            }
            _ => Ok(()),
        }
    }

    /// A line about what was done, unless asked to be quiet.
    pub(crate) fn note(&self, text: &str) {
        if !self.quiet {
            error_line(text);
        }
    }

    /// Warnings of a job, unless asked to be quiet.
    pub(crate) fn warnings(&self, name: &str, text: &str, warnings: &[Problem]) {
        if !self.quiet {
            self.problems(name, text, warnings);
        }
    }

    pub(crate) fn failure(&self, failure: &Failure) {
        let told = match failure {
            Failure::Job { path, text, problems } => Some((path, text, problems.as_slice())),
            Failure::NamedFile { path, text, problem } => {
                Some((path, text, std::slice::from_ref(problem.as_ref())))
            }
            _ => None,
        };
        if let Some((path, text, problems)) = told {
            self.problems(&path.display().to_string(), text, problems);
        }
        error_line(&format!("weathershed: {failure}"));
        if let Some(mend) = failure.mend() {
            error_line(&format!("  {mend}"));
        }
    }

    fn problems(&self, name: &str, text: &str, problems: &[Problem]) {
        let page = Page::new(name, text, self.color);
        let (shown, rest) = problems.split_at(problems.len().min(MOST_SHOWN));
        for problem in shown {
            error_line(&page.render(problem));
        }
        if !rest.is_empty() {
            error_line(&format!(
                "{name}: {} more: {}\n  mend the first ones and check again; `weathershed check --json` lists them all",
                rest.len(),
                counted(rest)
            ));
        }
    }
}

/// How many there are of each kind, by the name of the kind.
fn counted(problems: &[Problem]) -> String {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for problem in problems {
        *counts.entry(problem.code).or_default() += 1;
    }
    counts.iter().map(|(code, count)| format!("{count} {code}")).collect::<Vec<_>>().join(", ")
}

fn error_line(text: &str) {
    let _gone = writeln!(anstream::stderr().lock(), "{}", text.trim_end());
}

/// A text of the job without what would command a terminal.
pub(crate) fn plain(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { '\u{fffd}' } else { c }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn escapes_in_a_title_do_not_reach_the_terminal() {
        assert_eq!(plain("a\u{1b}[31mred\u{7} é"), "a\u{fffd}[31mred\u{fffd} é");
    }
}
