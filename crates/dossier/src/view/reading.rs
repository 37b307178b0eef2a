//! Spare readings as rows, with what the adjustment made of them.

use job::Units;
use study::{Adjustment, Judged, Origin, Study};

use crate::{Reading, Verdict};

/// What was read more often than needed, what the adjustment changed, and whatever is suspect; nothing where there are no spare
/// readings.
pub(super) fn rows(study: &Study) -> Vec<Reading> {
    let Some(adjustment) = &study.adjustment else { return Vec::new() };
    let readings = &adjustment.settled.readings;
    let rows = readings.iter().enumerate().map(|(i, judged)| {
        let suspect = is_suspect(adjustment, i);
        (judged.origin == Origin::Spare || suspect, row(judged, suspect, study.job.units))
    });
    rows.filter(|(always, row)| *always || row.read != row.adjusted).map(|(_, row)| row).collect()
}

fn is_suspect(adjustment: &Adjustment, reading: usize) -> bool {
    adjustment
        .suspects
        .iter()
        .any(|s| s.first.reading == reading || s.rivals.iter().any(|r| r.reading == reading))
}

fn row(judged: &Judged, suspect: bool, units: Units) -> Reading {
    Reading {
        name: judged.name.clone(),
        read: judged.read.written(units),
        adjusted: judged.adjusted.written(units),
        residual: judged.residual.written(units),
        verdict: if suspect { Verdict::FirstSuspect } else { Verdict::Agrees },
    }
}
