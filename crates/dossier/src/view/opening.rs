//! Openings as rows.

use roof::PlacedOpening;
use study::Study;
use takeoff::{Of, state_word};

use super::words::stated;
use crate::OpeningRow;

/// How many of the nearest edges stand in a row.
const NEAREST: usize = 3;

pub(super) fn rows(study: &Study) -> Vec<OpeningRow> {
    study.roof.openings.iter().map(|placed| row(study, placed)).collect()
}

fn row(study: &Study, placed: &PlacedOpening) -> OpeningRow {
    let state = study.job.openings.iter().find(|o| o.name == placed.name).map(|o| o.state);
    let distances = placed.distances.iter().take(NEAREST).map(|d| {
        let kind = study.roof.edge(d.edge).kind.name();
        let text = format!("{} to {kind} {}", study.job.units.length(d.slope_from_rim), d.edge.number());
        stated(text, study.takeoff.assumed.touches(Of::Line(d.edge)))
    });
    OpeningRow {
        name: placed.name.clone(),
        kind: placed.kind.key().replace('-', " "),
        state: state.map_or("", state_word).to_owned(),
        plane: study.roof.plane(placed.plane).name.clone(),
        distances: distances.collect(),
    }
}
