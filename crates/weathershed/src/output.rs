//! The one place that writes to the terminal.

use std::io::{self, Write};

use anstream::ColorChoice;
use job::Problem;

use crate::args::Color;
use crate::failure::Failure;
use crate::report;

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
    pub(crate) fn result(text: &str) {
        let mut out = io::stdout().lock();
        let end = if text.ends_with('\n') { "" } else { "\n" };
        let _gone = write!(out, "{text}{end}").and_then(|()| out.flush());
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
            for warning in warnings {
                error_line(&report::render(warning, name, text, self.color));
            }
        }
    }

    pub(crate) fn failure(&self, failure: &Failure) {
        if let Failure::Job { path, text, problems } = failure {
            for problem in problems {
                error_line(&report::render(problem, &path.display().to_string(), text, self.color));
            }
        }
        error_line(&format!("weathershed: {failure}"));
        if let Some(mend) = failure.mend() {
            error_line(&format!("  {mend}"));
        }
    }
}

fn error_line(text: &str) {
    let _gone = writeln!(anstream::stderr().lock(), "{}", text.trim_end());
}
