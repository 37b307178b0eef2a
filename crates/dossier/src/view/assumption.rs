//! Assumptions that stand behind this sheet, as rows.

use std::collections::BTreeSet;

use detail::{At, Place};
use study::Study;

use super::quantity::confidence;
use crate::{Assumption, Confidence};

pub(super) fn rows(study: &Study) -> Vec<Assumption> {
    let of_job =
        study.assumptions.iter().map(|a| row(a, touches(&a.path).unwrap_or("nothing on this sheet")));
    of_job.chain(walls(study)).collect()
}

/// Walls beside roofs that nobody described.
fn walls(study: &Study) -> impl Iterator<Item = Assumption> {
    let wall = |place: &Place| match place.at {
        At::Edge(id) | At::End(id, _) => study.roof.edge(id).wall_of.clone(),
        At::Opening(_) => None,
    };
    let assumed = study.details.places.iter().filter(|place| place.is_wall_assumed);
    let walls: BTreeSet<String> = assumed.filter_map(wall).collect();
    walls.into_iter().map(|wall| Assumption {
        name: format!("walls {wall} siding"),
        value: "lap, over a felt that does not lap".to_owned(),
        spread: String::new(),
        source: "the worse reading, until somebody looks".to_owned(),
        confidence: Confidence::Assumed,
        touches: "layers to wet, crew book, flashings".to_owned(),
    })
}

fn row(assumption: &job::Assumption, touches: &str) -> Assumption {
    Assumption {
        name: assumption.path.replace('.', " "),
        value: assumption.value.clone(),
        spread: if assumption.spread.is_empty() {
            String::new()
        } else {
            format!("± {}", assumption.spread)
        },
        source: assumption.source.text.clone(),
        confidence: confidence(assumption.source.confidence),
        touches: touches.to_owned(),
    }
}

/// Which results of this sheet a field touches, by its path; none for fields that other papers use.
fn touches(path: &str) -> Option<&'static str> {
    let (section, field) = (path.split('.').next()?, path.rsplit('.').next()?);
    match (section, field) {
        ("block", "fascia") => Some("where roofs pass or meet under an overhang"),
        ("block", _) if path.contains("framing") || path.contains("deck") => None,
        ("block", _) => Some("planes, edges, quantities"),
        ("site", "wall_line" | "wall_thickness" | "ice_history") => Some("ice barrier"),
        ("site", "code") => Some("every check by the code"),
        ("site", "rain") => Some("page 1 alone"),
        ("covering", "exposure") => Some("shingle courses, step flashing, nails"),
        ("covering", "layers") => Some("old roofing to take off"),
        ("opening", _) => Some("openings, vents"),
        ("attic", "soffit_open" | "ridge_vent" | "gable_louvers" | "vapor_retarder") => Some("ventilation"),
        _ => None,
    }
}
