//! Attic ventilation as a table, found beside planned.

use book::Confidence;
use measure::Area;
use study::Study;
use takeoff::{VentCheck, Vented};

use super::quantity::because;
use super::words::stated;
use crate::{VentRow, Ventilation};

pub(super) fn of(study: &Study) -> Option<Ventilation> {
    let checks = &study.takeoff.vents;
    (!checks.is_empty()).then(|| Ventilation {
        rows: checks.iter().flat_map(|c| rows(study, c)).collect(),
        because: checks.iter().flat_map(|c| because(&c.because)).collect(),
    })
}

fn rows(study: &Study, check: &VentCheck) -> Vec<VentRow> {
    let units = study.job.units;
    let assumed = check.because.iter().any(|reason| reason.source.confidence == Confidence::Assumed);
    let state = |text: String| stated(text, assumed);
    let named = |what: &str| format!("attic {}: {what}", check.attic);
    let row = |what: &str, of: fn(&Vented) -> Area| VentRow {
        name: named(what),
        found: state(units.free_area(of(&check.found))),
        plan: state(units.free_area(of(&check.plan))),
        ratio: ratio(of(&check.found), of(&check.plan)),
    };
    let both = |what: &str, found: String, plan: String| VentRow {
        name: named(what),
        found: state(found),
        plan: state(plan),
        ratio: String::new(),
    };
    let share = |v: &Vented| v.high_share.map_or_else(String::new, |s| format!("{:.1} %", 100.0 * s));
    let asked = |what: &str, area: Area| both(what, units.free_area(area), units.free_area(area));
    vec![
        row("low", |v| v.low),
        row("high", |v| v.high),
        row("all", |v| v.total),
        row("what works, low and high in series", |v| v.effective),
        both("share that is high", share(&check.found), share(&check.plan)),
        asked("required", check.required),
        asked("required where the conditions are met", check.reduced),
        both(
            "by the adopted edition",
            check.found.verdict.words().to_owned(),
            check.plan.verdict.words().to_owned(),
        ),
    ]
}

/// How many times the found area the planned one is.
fn ratio(found: Area, plan: Area) -> String {
    if found > Area::ZERO { format!("{:.1}", plan / found) } else { String::new() }
}
