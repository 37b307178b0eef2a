//! Solar arrays: what they ask of the work on the planes they stand on. They pierce nothing that is counted.
//!
//! # Source
//! Common practice.

use job::{Array, Problem, State};

use crate::case::Case;

/// What to order and to do for each array of the job.
pub(crate) fn warnings(case: &Case<'_>) -> Vec<Problem> {
    case.job.arrays.iter().map(warning).collect()
}

fn warning(array: &Array) -> Problem {
    const MOUNTS: &str = "its mounts stand in rafters, each with a flashing of its own";
    const ONE_DAY: &str = "plan each plane it covers to be opened and closed in one day";
    let on = &array.on;
    let (message, mend) = match array.state {
        State::Found => (
            format!("a solar array stands on `{on}` and comes off before the tear-off of that plane"),
            format!("a licensed electrician takes it off before and puts it back after; {MOUNTS}; {ONE_DAY}"),
        ),
        State::Plan => (
            format!("a solar array comes onto `{on}` once that plane is laid"),
            format!("a licensed electrician puts it up; {MOUNTS}; mark the rafters while the deck is bare"),
        ),
        State::Remove => (
            format!("a solar array goes from `{on}` for good, before the tear-off of that plane"),
            format!(
                "a licensed electrician takes it off; close the holes of its mounts in the deck; {ONE_DAY}"
            ),
        ),
    };
    Problem::warning("solar-array", message, mend).at(array.span.clone(), "this array")
}
