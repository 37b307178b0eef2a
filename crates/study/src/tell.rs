//! What a person is told of readings that do not fit.

use job::{Problem, Span, Units};

use crate::adjust::{Accused, Adjustment, Fit, Judged, Suspect, TOO_UNLIKELY};
use crate::observe::{Observation, Origin};
use crate::value::Value;

/// Warnings of an adjustment: each suspect, or readings that disagree without one.
pub(crate) fn warnings(adjustment: &Adjustment, units: Units) -> Vec<Problem> {
    let told = |suspect| warning(suspect, &adjustment.whole, units);
    let suspects = adjustment.suspects.iter().map(told);
    suspects.chain(disagreement(&adjustment.settled)).collect()
}

fn warning(suspect: &Suspect, fit: &Fit, units: Units) -> Problem {
    if suspect.rivals.is_empty() { alone(suspect, fit, units) } else { among_equals(suspect, fit, units) }
}

fn alone(suspect: &Suspect, fit: &Fit, units: Units) -> Problem {
    let reading = &fit.readings[suspect.first.reading];
    let message = format!(
        "{} does not fit the other readings: {}",
        reading.name,
        claim(&suspect.first, reading, units)
    );
    let mend = "tape it again and correct it; until then it is left out and the others give the roof";
    Problem::warning("reading-suspect", message, mend).at(reading.span.clone(), reading.name.clone())
}

fn among_equals(suspect: &Suspect, fit: &Fit, units: Units) -> Problem {
    let all: Vec<&Accused> = std::iter::once(&suspect.first).chain(&suspect.rivals).collect();
    let claims: Vec<String> = all
        .iter()
        .map(|accused| {
            let reading = &fit.readings[accused.reading];
            format!("{} ({})", reading.name, claim(accused, reading, units))
        })
        .collect();
    let message = format!(
        "the readings do not fit, and it cannot be told which of these is wrong: {}",
        claims.join("; ")
    );
    let left_out = &fit.readings[suspect.left_out].name;
    let mend = format!(
        "tape them again, or add a reading that tells them apart; until then the {left_out} is left out"
    );
    let problem = Problem::warning("reading-suspect", message, mend);
    let spans = all.iter().map(|accused| &fit.readings[accused.reading]);
    spans.fold(problem, |problem, reading| problem.at(reading.span.clone(), reading.name.clone()))
}

/// Both values and how far apart they are.
fn claim(accused: &Accused, reading: &Judged, units: Units) -> String {
    let (read, would_be) = (reading.read, accused.would_be);
    let off = read.with_si(read.si() - would_be.si());
    let way = match (off.si() > 0.0, off) {
        (true, Value::Length(_)) => "too long",
        (false, Value::Length(_)) => "too short",
        (true, Value::Pitch(_)) => "too steep",
        (false, Value::Pitch(_)) => "too flat",
    };
    let [read, would_be, off] = [read, would_be, off.abs()].map(|value| value.written(units));
    format!("it says {read} and would have to be {would_be}, {off} {way}")
}

/// Readings that all together disagree more than their spreads explain.
fn disagreement(fit: &Fit) -> Option<Problem> {
    if fit.chance >= TOO_UNLIKELY {
        return None;
    }
    let message = format!(
        "the readings disagree more than their spreads explain (chi-square {:.1} of {} degrees of freedom), and none stands out",
        fit.chi_square, fit.degrees_of_freedom
    );
    let mend = "tape again what differs most, or give the readings the spread they have";
    let worst = fit.readings.iter().filter(|reading| reading.origin == Origin::Spare && !reading.left_out);
    let worst = worst.max_by(|one, other| weight(one).total_cmp(&weight(other)));
    let problem = Problem::warning("readings-disagree", message, mend);
    Some(worst.into_iter().fold(problem, |problem, reading| problem.at(reading.span.clone(), "differs most")))
}

fn weight(reading: &Judged) -> f64 {
    reading.standardized.unwrap_or_default().abs()
}

/// The error of readings that no house fits.
pub(crate) fn contradiction(observations: &[Observation]) -> Problem {
    let spare = observations.iter().filter(|observation| observation.origin == Origin::Spare);
    let names: Vec<&str> = spare.clone().map(|observation| observation.name.as_str()).collect();
    let message = format!("no house fits the readings: {}", names.join(", "));
    let mend =
        "check each against the blocks: a height above the first floor, feet against inches, the right side";
    let problem = Problem::error("readings-contradict", message, mend);
    let place = |problem: Problem, (span, name): (Span, String)| problem.at(span, name);
    spare.map(|observation| (observation.span.clone(), observation.name.clone())).fold(problem, place)
}
