//! Openings that will be there together in one place.
//!
//! What counts is the plan: every opening lies on the plane on top where it is, so rims that overlap in plan overlap on the roof.
//! Rims that touch, as skylights set side by side, do not: an overlap is deeper than [`TOUCH`]. Old openings that go
//! (`state = "remove"`) may lie anywhere.

use job::{Opening, Problem, State};

use crate::contact::TOUCH;
use crate::model::{Point3, Roof};
use crate::plan::{P2, dot, edges, flat, outward, unit};

/// An opening with the place it takes: its rim, and the cricket behind it.
struct Footprint<'a> {
    opening: &'a Opening,
    plane: &'a str,
    rim: Vec<P2>,
    cricket: Option<Vec<P2>>,
}

/// An error for each pair of openings that stay or come and overlap. `openings` are those placed on the roof, in its order.
pub(crate) fn errors(roof: &Roof, openings: &[&Opening]) -> Vec<Problem> {
    let all: Vec<Footprint> = (openings.iter().enumerate())
        .filter(|(_, opening)| opening.state != State::Remove)
        .map(|(i, opening)| Footprint::of(roof, i, opening))
        .collect();
    let pairs = all.iter().enumerate().flat_map(|(k, a)| all[..k].iter().map(move |b| (b, a)));
    pairs.filter_map(|(a, b)| overlap(a, b)).collect()
}

impl<'a> Footprint<'a> {
    fn of(roof: &'a Roof, index: usize, opening: &'a Opening) -> Self {
        let placed = &roof.openings[index];
        let cricket = roof.crickets.iter().find(|c| c.opening == index);
        Self {
            opening,
            plane: &roof.plane(placed.plane).name,
            rim: in_plan(&placed.rim),
            // its top lies on the line between its two low corners
            cricket: cricket.map(|c| in_plan(&[c.planes[0][0], c.planes[1][0], c.planes[0][2]])),
        }
    }

    fn stands_in_cricket_of(&self, other: &Self) -> bool {
        other.cricket.as_ref().is_some_and(|cricket| are_overlapping(&self.rim, cricket))
    }
}

fn in_plan(points: &[Point3]) -> Vec<P2> {
    points.iter().map(|p| flat(*p)).collect()
}

fn overlap(a: &Footprint, b: &Footprint) -> Option<Problem> {
    let names = |a: &Footprint, b: &Footprint| (a.opening.name.clone(), b.opening.name.clone());
    let message = if are_overlapping(&a.rim, &b.rim) {
        let (first, second) = names(a, b);
        format!("openings `{first}` and `{second}` overlap on plane `{}`", b.plane)
    } else if a.stands_in_cricket_of(b) || b.stands_in_cricket_of(a) {
        let (standing, wide) = if a.stands_in_cricket_of(b) { names(a, b) } else { names(b, a) };
        format!("opening `{standing}` stands in the cricket behind `{wide}` on plane `{}`", b.plane)
    } else {
        return None;
    };
    let mend = "move one of them, or write `state = \"remove\"` in the one that goes";
    Some(
        Problem::error("openings-overlap", message, mend)
            .at(b.opening.at_span.clone(), "centre of this opening")
            .at(a.opening.at_span.clone(), "and of this one"),
    )
}

/// Whether two convex polygons overlap by more than [`TOUCH`] across every side of either: no line parts them.
fn are_overlapping(a: &[P2], b: &[P2]) -> bool {
    let across = edges(a).chain(edges(b)).map(|(p, q)| outward(unit(p, q)));
    across.into_iter().all(|axis| {
        let ([a_min, a_max], [b_min, b_max]) = (extent(a, axis), extent(b, axis));
        a_max - b_min > TOUCH && b_max - a_min > TOUCH
    })
}

fn extent(polygon: &[P2], axis: P2) -> [f64; 2] {
    let along = polygon.iter().map(|p| dot(*p, axis));
    along.fold([f64::INFINITY, f64::NEG_INFINITY], |[min, max], d| [min.min(d), max.max(d)])
}
