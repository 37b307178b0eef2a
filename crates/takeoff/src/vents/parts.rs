//! The ways air gets into and out of an attic in one of its states.

use std::collections::BTreeSet;

use book::{Because, HighPlace, LookupError};
use job::{Attic, AtticState, FreeArea, Opening, OpeningKind, State};
use measure::{Area, Length};
use roof::plan::{P2, along, contains, dot, scale};
use roof::{Edge, EdgeId, EdgeKind, NodeId, PlacedOpening, Plane, Point3};

use super::{Place, Region, VentPart, When, trimmed};
use crate::case::Case;
use crate::plan::ends;
use crate::ridge::VentRidges;

/// What a state of the attic says, the plan taking over from what was found where it says nothing.
pub(super) fn state_of(attic: &Attic, when: When) -> AtticState {
    match when {
        When::Found => attic.found.clone(),
        When::Plan => {
            let (found, plan) = (&attic.found, &attic.plan);
            AtticState {
                soffit: plan.soffit.clone().or_else(|| found.soffit.clone()),
                ridge_vent: plan.ridge_vent.clone().or_else(|| found.ridge_vent.clone()),
                louvers: plan.louvers.or(found.louvers),
                ..plan.clone()
            }
        }
    }
}

pub(super) fn parts(case: &Case<'_>, attic: &Attic, when: When) -> Result<Vec<VentPart>, LookupError> {
    let state = state_of(attic, when);
    let space = Space::of(case, &attic.under);
    let part = |name: &str, place, area| VentPart { name: name.to_owned(), place, area };
    let mut parts = Vec::new();
    parts.extend(state.soffit.map(|free| {
        let area = free_area(&free, soffits(case, attic).iter().map(|(_, length)| *length).sum());
        part("soffit", Place::Low, area)
    }));
    if let Some(free) = &state.ridge_vent {
        parts.extend(ridge_parts(case, attic, free)?);
    }
    parts.extend(state.louvers.map(|area| part("gable louvers", Place::Unknown, area)));
    for (opening, placed) in roof_vents(case, attic, when) {
        let place = space.place(case, placed.at[2]);
        parts.push(part(&opening.name, place, vent_area(case, opening).0));
    }
    parts.retain(|part| part.area > Area::ZERO);
    Ok(parts)
}

fn free_area(free: &FreeArea, length: Length) -> Area {
    match free {
        FreeArea::Total(area) => *area,
        FreeArea::PerLength(per) => *per * length,
        FreeArea::PerLengthOver(per, over) => *per * *over,
    }
}

/// The ridge vent, ridge by ridge where its area goes by length.
pub(super) fn ridge_parts(
    case: &Case<'_>,
    attic: &Attic,
    free: &FreeArea,
) -> Result<Vec<VentPart>, LookupError> {
    let space = Space::of(case, &attic.under);
    let ridges = VentRidges::over(case, &attic.under, &Region::of(case.job, attic))?;
    let place = |height: Length| space.place(case, height.m());
    let highest = ridges
        .ridges
        .iter()
        .map(|ridge| ridge.height)
        .fold(None, |most: Option<Length>, height| Some(most.map_or(height, |most| most.max(height))));
    Ok(match free {
        FreeArea::PerLength(per) => (ridges.ridges.iter())
            .map(|ridge| VentPart {
                name: format!("ridge vent, {}", ridge.edge),
                place: place(ridge.height),
                area: *per * ridge.slot,
            })
            .collect(),
        whole => {
            let place = highest.map_or(Place::High, place);
            vec![VentPart { name: "ridge vent".to_owned(), place, area: free_area(whole, ridges.length()) }]
        }
    })
}

/// Vents on the roof over an attic that are there in a state.
pub(super) fn roof_vents<'a>(
    case: &Case<'a>,
    attic: &Attic,
    when: When,
) -> Vec<(&'a Opening, &'a PlacedOpening)> {
    let gone = if when == When::Found { State::Plan } else { State::Remove };
    let is_vent = |kind| matches!(kind, OpeningKind::BoxVent | OpeningKind::PowerVent);
    let vents =
        case.placed().into_iter().filter(|(opening, _)| is_vent(opening.kind) && opening.state != gone);
    vents.filter(|(_, placed)| over_attic(case, placed).is_some_and(|over| over.name == attic.name)).collect()
}

/// The attic under an opening: the one with walls around its plan position, or else one whose blocks' roof it is on.
fn over_attic<'a>(case: &Case<'a>, placed: &PlacedOpening) -> Option<&'a Attic> {
    let p = [placed.at[0], placed.at[1]];
    let over = case.job.attics.iter().filter(|attic| Region::of(case.job, attic).holds(p));
    let is_inside = |attic: &&Attic| {
        let blocks = case.job.blocks.iter().filter(|block| attic.under.contains(&block.name));
        blocks.filter_map(|block| block.contours.first()).any(|contour| contains(contour, p))
    };
    let over: Vec<&Attic> = over.filter(|attic| case.is_over(placed.plane, &attic.under)).collect();
    over.iter().copied().find(is_inside).or_else(|| over.first().copied())
}

/// Free area of a vent, and the because where it is assumed. A power ventilator counts only by a written area: it is shut or sucks.
pub(super) fn vent_area(case: &Case<'_>, opening: &Opening) -> (Area, Option<Because>) {
    match &opening.net_free_area {
        Some(area) => (area.value, case.assumed(&opening.name, area)),
        None => (Area::ZERO, None),
    }
}

pub(super) fn assumed_areas(case: &Case<'_>, attic: &Attic) -> Vec<Because> {
    let all = [When::Found, When::Plan].map(|when| roof_vents(case, attic, when));
    let mut seen = BTreeSet::new();
    let once = all.into_iter().flatten().filter(|(opening, _)| seen.insert(opening.name.clone()));
    once.filter_map(|(opening, _)| vent_area(case, opening).1).collect()
}

/// The heights an attic's roof spans.
struct Space {
    top: f64,
    eave: f64,
}

impl Space {
    fn of(case: &Case<'_>, blocks: &[String]) -> Self {
        let over = case.planes().filter(|(id, _)| case.is_over(*id, blocks));
        let heights = over.flat_map(|(_, plane)| &plane.outline).map(|corner: &Point3| corner[2]);
        let start = Self { top: f64::NEG_INFINITY, eave: f64::INFINITY };
        heights.fold(start, |space, z| Self { top: space.top.max(z), eave: space.eave.min(z) })
    }

    /// Where a vent at a height sits, as the adopted edition counts it.
    fn place(&self, case: &Case<'_>, z: f64) -> Place {
        /// A hair, so that a vent just at the limit is inside it, metres.
        const HAIR: f64 = 1e-6;
        let is_high = match &case.edition.attic_vents.high_place {
            HighPlace::AboveEaveVents(height) => z - self.eave >= height.m() - HAIR,
            HighPlace::BelowRidge(depth) => self.top - z <= depth.m() + HAIR,
        };
        if is_high { Place::High } else { Place::Between }
    }
}

/// Soffits that open into an attic, by eave, without the overhang round each outside corner and rake end.
pub(super) fn soffits(case: &Case<'_>, attic: &Attic) -> Vec<(EdgeId, Length)> {
    let (eaves, region) = (case.edges(&[EdgeKind::Eave]), Region::of(case.job, attic));
    let is_over = |edge: &Edge| edge.planes.iter().all(|plane| case.is_over(*plane, &attic.under));
    let over = eaves.into_iter().filter(|(_, edge)| is_over(edge));
    let runs = over.map(|(id, edge)| {
        let returns = [edge.from, edge.to].map(|end| corner_return(case, id, end));
        let run = (edge.length - returns[0] - returns[1]).max(Length::ZERO);
        let [a, b] = at_wall(case, id, edge);
        let [a, b] = trimmed(a, b, returns.map(|back| back / edge.length));
        (id, run * region.share(a, b))
    });
    runs.filter(|(_, run)| *run > Length::ZERO || region == Region::default()).collect()
}

/// An eave in plan, moved in over the wall below it.
fn at_wall(case: &Case<'_>, eave: EdgeId, edge: &Edge) -> [P2; 2] {
    /// Just inside, metres.
    const INSIDE: f64 = 0.01;
    let in_by = |p: P2| {
        let plane = edge.planes.first().map(|plane| case.roof.plane(*plane));
        let fall = plane.map_or([0.0; 2], Plane::fall);
        let steepness = dot(fall, fall).sqrt();
        let inward = if steepness > 0.0 { scale(fall, -1.0 / steepness) } else { [0.0; 2] };
        along(p, inward, edge.overhang.m() + INSIDE)
    };
    ends(case.roof, eave).map(in_by)
}

/// How far an eave runs past the wall at its end: the overhang of the rake, or of the eave round the outside corner.
fn corner_return(case: &Case<'_>, eave: EdgeId, end: NodeId) -> Length {
    let node = case.roof.node(end);
    let has = |kind| node.edges.iter().any(|other| case.roof.edge(*other).kind == kind);
    let is_inside = has(EdgeKind::Valley) || has(EdgeKind::LevelValley);
    let others = node.edges.iter().filter(|other| **other != eave).map(|other| case.roof.edge(*other));
    let turns = others.filter(|edge| match edge.kind {
        EdgeKind::Rake | EdgeKind::SkewRake => true,
        EdgeKind::Eave => !is_inside,
        _ => false,
    });
    turns.map(|edge| edge.overhang).fold(Length::ZERO, Length::max)
}
