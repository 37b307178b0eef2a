//! Quantities as rows.

use study::Study;
use takeoff::{Amount, Line, Quantity};

use super::words::{area, length, stated};
use crate::{Because, Confidence, QuantityRow, Stated};
use job::Units;

pub(super) fn rows(study: &Study) -> Vec<QuantityRow> {
    study.takeoff.lines.iter().map(|line| row(line, study.job.units)).collect()
}

fn row(line: &Line, units: Units) -> QuantityRow {
    let assumed = line.is_assumed();
    let (net, ordered, package) = match &line.amount {
        Amount::Ordered { net, count, package } => {
            (stated(quantity(*net, units), assumed), stated(count.to_string(), assumed), package.clone())
        }
        Amount::Measured(net) => {
            (stated(quantity(*net, units), assumed), Stated::measured(""), String::new())
        }
        Amount::Refused(why) => (Stated::measured("refused"), Stated::measured("none"), why.clone()),
    };
    QuantityRow { item: line.item.name.clone(), net, ordered, package, because: because(&line.because) }
}

fn quantity(quantity: Quantity, units: Units) -> String {
    match quantity {
        Quantity::Area(value) => area(value, units),
        Quantity::Length(value) => length(value, units),
        Quantity::Count(count) => count.to_string(),
        Quantity::Ratio(ratio) => format!("{ratio:.1} times"),
    }
}

/// How a number was reached, step by step.
pub(super) fn because(steps: &[book::Because]) -> Vec<Because> {
    let step = |b: &book::Because| {
        let inputs: Vec<String> = b.inputs.iter().map(|(name, value)| format!("{name}: {value}")).collect();
        Because {
            what: b.what.clone(),
            inputs: inputs.join("; "),
            rule: b.rule.clone(),
            source: b.source.text.clone(),
            confidence: confidence(b.source.confidence),
        }
    };
    steps.iter().map(step).collect()
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
