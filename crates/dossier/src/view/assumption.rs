//! Assumptions that stand behind this sheet, as rows.

use study::Study;

use super::quantity::confidence;
use crate::Assumption;

pub(super) fn rows(study: &Study) -> Vec<Assumption> {
    study.assumptions.iter().map(|a| row(a, touches(&a.path).unwrap_or("nothing on this sheet"))).collect()
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
