//! Quantities as rows.

use study::Study;
use takeoff::{Amount, Line};

use super::words::stated;
use crate::{Because, Confidence, QuantityRow, Stated};
use job::Units;

pub(super) fn rows(study: &Study) -> Vec<QuantityRow> {
    study.takeoff.lines.iter().map(|line| row(line, study.job.units)).collect()
}

fn row(line: &Line, units: Units) -> QuantityRow {
    let assumed = line.is_assumed();
    let (net, ordered, package) = match &line.amount {
        Amount::Ordered { net, count, package } => {
            (stated(net.written(units), assumed), stated(count.to_string(), assumed), package.clone())
        }
        Amount::Measured(net) => (stated(net.written(units), assumed), Stated::measured(""), String::new()),
        Amount::Refused(why) => (Stated::measured("refused"), Stated::measured("none"), why.clone()),
    };
    QuantityRow { item: line.item.name.clone(), net, ordered, package, because: because(&line.because) }
}

/// How a number was reached, step by step; what was assumed in one line, since the table of assumptions tells the rest.
pub(super) fn because(steps: &[book::Because]) -> Vec<Because> {
    let (assumed, reached): (Vec<_>, Vec<_>) =
        steps.iter().partition(|step| step.source.confidence == book::Confidence::Assumed);
    let resting = resting(&assumed);
    reached.into_iter().map(step).chain(resting).collect()
}

/// One line for all that is assumed.
fn resting(assumed: &[&book::Because]) -> Option<Because> {
    let name = |step: &&book::Because| step.what.trim_start_matches("assumed: ").to_owned();
    let mut names: Vec<String> = assumed.iter().map(name).collect();
    names.dedup();
    (!names.is_empty()).then(|| Because {
        what: "rests on".to_owned(),
        inputs: String::new(),
        rule: names.join("; "),
        source: "see the table of assumptions".to_owned(),
        confidence: Confidence::Assumed,
    })
}

fn step(step: &book::Because) -> Because {
    let inputs: Vec<String> = step.inputs.iter().map(|(name, value)| format!("{name}: {value}")).collect();
    Because {
        what: step.what.clone(),
        inputs: inputs.join("; "),
        rule: step.rule.clone(),
        source: step.source.text.clone(),
        confidence: confidence(step.source.confidence),
    }
}

pub(super) const fn confidence(confidence: book::Confidence) -> Confidence {
    match confidence {
        book::Confidence::Computed => Confidence::Computed,
        book::Confidence::Published => Confidence::Published,
        book::Confidence::PublishedFromMemory => Confidence::FromMemory,
        book::Confidence::CommonPractice => Confidence::CommonPractice,
        book::Confidence::Assumed => Confidence::Assumed,
    }
}
