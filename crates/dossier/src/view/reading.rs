//! Spare readings as rows, with what the adjustment made of them.

use study::{Adjustment, Judged, Origin, Study};

use crate::{Reading, Verdict};

/// What was read more often than needed, and whatever is suspect; nothing where there are no spare readings.
pub(super) fn rows(study: &Study) -> Vec<Reading> {
    let Some(adjustment) = &study.adjustment else { return Vec::new() };
    let readings = &adjustment.settled.readings;
    let told = readings.iter().enumerate().map(|(i, judged)| (judged, is_suspect(adjustment, i)));
    told.filter(|(judged, suspect)| judged.origin == Origin::Spare || *suspect)
        .map(|(judged, suspect)| row(judged, suspect))
        .collect()
}

fn is_suspect(adjustment: &Adjustment, reading: usize) -> bool {
    adjustment
        .suspects
        .iter()
        .any(|s| s.first.reading == reading || s.rivals.iter().any(|r| r.reading == reading))
}

fn row(judged: &Judged, suspect: bool) -> Reading {
    Reading {
        name: judged.name.clone(),
        read: judged.read.to_string(),
        adjusted: judged.adjusted.to_string(),
        residual: judged.residual.to_string(),
        verdict: if suspect { Verdict::FirstSuspect } else { Verdict::Agrees },
    }
}
