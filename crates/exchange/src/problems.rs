//! Problems of a job document as JSON.

use job::{Place, Position, Positions, Problem, Severity};
use serde::Serialize;
use serde_json::Value;

use crate::VERSION;

#[derive(Serialize)]
struct Document {
    version: u32,
    problems: Vec<Entry>,
}

#[derive(Serialize)]
struct Entry {
    code: &'static str,
    severity: &'static str,
    message: String,
    mend: String,
    places: Vec<Where>,
}

#[derive(Serialize)]
struct Where {
    line: usize,
    column: usize,
    start: usize,
    end: usize,
    label: String,
}

/// Problems found in a document: `{"version", "problems": [{"code", "severity", "message", "mend", "places"}]}`. Lines and columns
/// count from 1, `start` and `end` are bytes of the document.
pub fn problems(found: &[Problem], text: &str) -> Value {
    let positions = Positions::of(text);
    let entry = |problem: &'_ Problem| Entry {
        code: problem.code,
        severity: match problem.severity {
            Severity::Error => "error",
            Severity::Warning => "warning",
        },
        message: problem.message.clone(),
        mend: problem.mend.clone(),
        places: problem.places.iter().map(|p| place(p, &positions)).collect(),
    };
    crate::number::value(&Document { version: VERSION, problems: found.iter().map(entry).collect() })
}

fn place(place: &Place, positions: &Positions<'_>) -> Where {
    let Position { line, column } = positions.at(place.range.start);
    Where { line, column, start: place.range.start, end: place.range.end, label: place.label.clone() }
}
