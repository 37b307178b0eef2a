//! Hold points of sealing and insulating: nobody goes on, and nobody leaves, before they pass.
//!
//! # Source
//! Common practice. What is covered cannot be sealed, looked at or led outdoors any more, and a tighter house can turn a flue round. Local code and licensed practice decide.

use book::{Book, LookupError};
use job::{FanEnd, Job, VentClass};
use measure::Length;

use super::Breathing;
use crate::Study;

/// A hold point: nobody leaves before it passes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hold {
    /// What is done.
    pub what: String,
    /// What passes.
    pub passes: String,
    /// What it keeps from happening.
    pub prevents: String,
}

/// Those of a studied house, in the order of the work; none where the job neither seals nor insulates.
///
/// # Errors
/// A row the books lack.
pub fn work_holds(study: &Study, book: &Book) -> Result<Vec<Hold>, LookupError> {
    let job = &study.job;
    let is_done =
        job.attics.iter().any(|attic| attic.plan.leakage.is_some() || attic.plan.tells_insulation());
    if !is_done {
        return Ok(Vec::new());
    }
    Ok(holds(job, &Breathing::of((job, book), None)?))
}

/// What passes before insulation covers it.
fn before(job: &Job) -> Vec<Hold> {
    let hold = |what: String, passes: &str, prevents: &str| Hold {
        what,
        passes: passes.to_owned(),
        prevents: prevents.to_owned(),
    };
    let inside = job.fans.iter().enumerate().filter(|(_, fan)| fan.ends.value != FanEnd::Outdoors);
    let names: Vec<String> = inside.map(|(i, fan)| format!("fan {} ({})", i + 1, fan.room.name())).collect();
    let fans = (!names.is_empty()).then(|| {
        hold(
            format!("{}: first of all, a smooth duct, insulated, to a hood of its own", names.join(", ")),
            "air is felt at the hood outdoors; no duct ends in the attic, at a soffit or at a ridge vent",
            "the rooms' water on the cold deck",
        )
    });
    let is_laid = job.attics.iter().any(|attic| attic.plan.tells_insulation());
    let wires = is_laid.then(|| {
        hold(
            "wires, lights and flues in the attic are looked at before anything is laid over them".to_owned(),
            &format!("no knob-and-tube wiring is live, by an electrician's word on paper; lights not made for contact with insulation keep {} clear, flues and chimneys what their listing and the code ask", job.units.lap(Length::from_in(3.0))),
            "fire under the insulation",
        )
    });
    let is_sealed = job.attics.iter().any(|attic| attic.plan.leakage.is_some());
    let order = (is_laid && is_sealed).then(|| {
        hold(
            "leaks are sealed before insulation is laid or blown".to_owned(),
            "each leak photographed sealed; the blower door reads the ceiling's goal with the ceiling still bare",
            "leaks that nobody reaches again",
        )
    });
    [fans, wires, order].into_iter().flatten().collect()
}

/// What must hold wherever leaks are sealed, in the order of the work.
pub(super) fn holds(job: &Job, breathing: &Breathing) -> Vec<Hold> {
    let draws = breathing.burns.iter().any(|(_, vent, _)| *vent != VentClass::Sealed);
    let whom = if breathing.burns.is_empty() {
        "nobody has written what burns in this house: look for it".to_owned()
    } else if draws {
        let drawing = breathing.burns.iter().filter(|(_, vent, _)| *vent != VentClass::Sealed);
        let names: Vec<&str> = drawing.map(|(kind, ..)| kind.as_str()).collect();
        format!("{} draws air from the rooms", names.join(", "))
    } else {
        "all that burns is sealed from the rooms, by the survey".to_owned()
    };
    let unvented = breathing.burns.iter().filter(|(_, vent, _)| *vent == VentClass::Unvented);
    let goes = unvented.map(|(kind, ..)| Hold {
        what: format!("`{kind}` burns into the room"),
        passes: "it is out of use or replaced before the house is made tighter".to_owned(),
        prevents: "what it burns, and the water in it, stay in the house".to_owned(),
    });
    let flues = job.openings.iter().any(|opening| opening.kind == job::OpeningKind::Chimney);
    let around = flues.then(|| Hold {
        what: "gaps round chimney and flues are closed with sheet metal and fire-rated sealant, not with foam".to_owned(),
        passes: "clearances as the code, the appliance and the flue ask are kept; no opening for combustion air is closed".to_owned(),
        prevents: "fire, and burners without air".to_owned(),
    });
    let tested = Hold {
        what: format!(
            "after sealing, before anyone sleeps there: spillage and carbon monoxide tested at the worst the fans can do, by a qualified person; {whom}"
        ),
        passes: "no spillage, carbon monoxide within the limits of the test, an alarm on every floor"
            .to_owned(),
        prevents: "a tighter house turns a flue round".to_owned(),
    };
    before(job).into_iter().chain(around).chain(goes).chain([tested]).collect()
}
