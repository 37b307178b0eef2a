//! Attic ventilation as a table, found beside planned.

use book::Confidence;
use measure::Area;
use study::Study;
use takeoff::{Place, VentCheck, Vented};

use super::quantity::because;
use super::words::stated;
use crate::{Stated, VentRow, Ventilation};

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
    let row = |what: &str, of: &dyn Fn(&Vented) -> Area| VentRow {
        name: named(what),
        found: state(units.free_area(of(&check.found))),
        plan: state(units.free_area(of(&check.plan))),
        ratio: ratio(of(&check.found), of(&check.plan)),
    };
    // low and high are always told, the others where there is something: the rows add up to all
    let is_told = |place: &Place| {
        let is_any = [&check.found, &check.plan].iter().any(|state| state.at(*place) > Area::ZERO);
        is_any || matches!(place, Place::Low | Place::High)
    };
    let places = Place::ALL.into_iter().filter(is_told);
    let both = |what: &str, found: String, plan: String| VentRow {
        name: named(what),
        found: state(found),
        plan: state(plan),
        ratio: String::new(),
    };
    let share = |v: &Vented| v.high_share.map_or_else(String::new, |s| format!("{:.1} %", 100.0 * s));
    // what is asked goes by the ceiling or the walls, which are measured
    let asked = |what: &str, area: Area| VentRow {
        name: named(what),
        found: Stated::measured(units.free_area(area)),
        plan: Stated::measured(units.free_area(area)),
        ratio: String::new(),
    };
    let mut rows: Vec<VentRow> =
        places.map(|place| row(place.words(), &|vented: &Vented| vented.at(place))).collect();
    rows.extend([
        row("all", &|vented: &Vented| vented.total),
        row("what works, low and others in series", &|vented: &Vented| vented.effective),
        both("share that is high", share(&check.found), share(&check.plan)),
        asked("required", check.required),
        asked("required where the conditions are met", check.reduced),
        both(
            "by the adopted edition",
            check.found.verdict.words().to_owned(),
            check.plan.verdict.words().to_owned(),
        ),
    ]);
    rows
}

/// How many times the found area the planned one is.
fn ratio(found: Area, plan: Area) -> String {
    if found > Area::ZERO { format!("{:.1}", plan / found) } else { String::new() }
}
