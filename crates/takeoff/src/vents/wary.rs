//! Vents that work against one another, or that have nowhere to be.
//!
//! # Source
//! Common practice: one kind of exhaust over one space, at one height; the nearest of two takes its air from the other. What comes in low must
//! find a way out high.

use book::LookupError;
use job::{Attic, FreeArea, Opening, OpeningKind, Problem};
use measure::{Area, Length};
use roof::{EdgeKind, TOUCH};

use super::parts::{roof_vents, soffits, state_of};
use super::{When, apart};
use crate::case::Case;

/// Of all attics, as planned.
pub(crate) fn warnings(case: &Case<'_>) -> Result<Vec<Problem>, LookupError> {
    let told = |attic: &Attic| {
        let exhausts = exhausts(case, attic);
        let takes_in = state_of(attic, When::Plan).soffit.as_ref().is_some_and(is_any);
        let no_way_out = (takes_in && exhausts.is_empty()).then(|| ends_at_wall(case, attic)).flatten();
        let no_soffit = takes_in.then(|| no_soffit(case, attic)).flatten();
        [mixed(attic, &exhausts), no_way_out, no_soffit]
    };
    let mut all: Vec<Problem> = case.job.attics.iter().flat_map(told).flatten().collect();
    all.extend(apart::warnings(case)?);
    Ok(all)
}

pub(super) fn is_any(free: &FreeArea) -> bool {
    match free {
        FreeArea::Total(area) => *area > Area::ZERO,
        FreeArea::PerLength(per) => *per > Length::ZERO,
        FreeArea::PerLengthOver(per, over) => *per > Length::ZERO && *over > Length::ZERO,
    }
}

/// The kinds of ways out over an attic, with their names where they have some.
fn exhausts(case: &Case<'_>, attic: &Attic) -> Vec<String> {
    let state = state_of(attic, When::Plan);
    let vents = roof_vents(case, attic, When::Plan);
    let of_kind = |kind: OpeningKind, what: &str| {
        let of_kind = vents.iter().filter(|(opening, _)| opening.kind == kind);
        let names: Vec<String> = of_kind.map(|(Opening { name, .. }, _)| format!("`{name}`")).collect();
        (!names.is_empty()).then(|| format!("{what} ({})", names.join(", ")))
    };
    [
        state.ridge_vent.as_ref().filter(|free| is_any(free)).map(|_| "ridge vent".to_owned()),
        state.louvers.filter(|area| *area > Area::ZERO).map(|_| "gable louvers".to_owned()),
        of_kind(OpeningKind::BoxVent, "box vents"),
        of_kind(OpeningKind::PowerVent, "power vent"),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn mixed(attic: &Attic, exhausts: &[String]) -> Option<Problem> {
    if exhausts.len() < 2 {
        return None;
    }
    let message = format!(
        "attic `{}` lets its air out in more than one way: {}; the nearest takes its air, and snow, from the other and not from the soffits",
        attic.name,
        exhausts.join(", ")
    );
    let mend = "keep one kind, at one height, and close the rest: holes of roof vents decked over, gable louvers boarded from inside, a fan's wiring made \
                dead by an electrician; then hold the free area against the code again";
    Some(Problem::warning("mixed-exhaust", message, mend).at(attic.span.clone(), "this attic"))
}

/// A roof without a way out whose planes end at walls.
fn ends_at_wall(case: &Case<'_>, attic: &Attic) -> Option<Problem> {
    let walls = case.all_edges(&[EdgeKind::Headwall]).into_iter();
    let over = walls.filter(|(_, edge)| edge.planes.iter().all(|plane| case.is_over(*plane, &attic.under)));
    let names: Vec<String> = over.map(|(id, _)| id.to_string()).collect();
    if names.is_empty() {
        return None;
    }
    let message = format!(
        "air comes in at the soffits of attic `{}`, but its roof ends at a wall ({}) and nothing lets it out",
        attic.name,
        names.join(", ")
    );
    let mend = "a wall vent flashing with a baffle along that wall, of a kind made for it where snow slides onto it, by its printed free area; or a roof \
                without vents, if the official takes it";
    Some(Problem::warning("vents-end-at-wall", message, mend).at(attic.span.clone(), "this attic"))
}

/// Soffit vents where the roof stops at the wall.
fn no_soffit(case: &Case<'_>, attic: &Attic) -> Option<Problem> {
    let eaves = soffits(case, attic);
    let is_flush = |edge| case.roof.edge(edge).overhang.m() < TOUCH;
    if eaves.is_empty() || !eaves.iter().all(|(edge, _)| is_flush(*edge)) {
        return None;
    }
    let message = format!(
        "attic `{}` counts on soffit vents, but its roof has no overhang to have a soffit",
        attic.name
    );
    let mend = "take air in over the fascia or under the first shingles, by vents with a printed free area; drip edge and starter kept well out, for the \
                wall below stains";
    Some(Problem::warning("no-soffit", message, mend).at(attic.span.clone(), "this attic"))
}
