//! Round an opening: where water goes that comes to its uphill side.

use job::State;
use roof::column::{Border, borders};
use roof::plan::{P2, between, contains, distance, flat, line_crossing, midpoint, segments_cross, sub};
use roof::{EdgeId, Family, NodeId, PlacedOpening, PlaneId};

use crate::descent::{Descent, Stop};
use crate::outfall::Outfall;
use crate::route::{Router, Turn};

/// How far beside an opening its water runs down, as a part of its width.
const CLEAR: f64 = 1e-4;
/// Parts of a roof one looks ahead for whether water comes back under the opening it ran round.
const AHEAD: usize = 6;

/// The high side of an opening, from left to right of one who looks up the slope, and where water goes that runs aside at either end of it.
pub(crate) struct Rim {
    high: [P2; 2],
    aside: [Aside; 2],
}

/// Where water goes from an end of the uphill side of an opening.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Aside {
    /// Down the plane from a point beside the opening, or from on it where there is no way beside it.
    Down(P2),
    /// Onto an edge that the opening lies over, so that there is no plane beside it.
    Onto(EdgeId, P2),
}

impl Rim {
    /// Middle of the uphill side.
    pub(crate) fn parting(&self) -> P2 {
        midpoint(self.high[0], self.high[1])
    }

    /// Where water goes that runs aside at one end of the uphill side, clear of the side wall.
    pub(crate) fn aside(&self, end: usize) -> Aside {
        self.aside[end]
    }
}

/// Whether an opening is there when the job is done.
pub(crate) fn stands(opening: &PlacedOpening) -> bool {
    opening.state != State::Remove
}

/// The uphill side of an opening, from left to right of one who looks up the slope.
fn high_side(descent: &Descent, opening: &PlacedOpening) -> [P2; 2] {
    let mut corners = opening.rim.map(flat);
    corners.sort_by(|a, b| descent.local(*a)[1].total_cmp(&descent.local(*b)[1]));
    let [_, _, a, b] = corners;
    if descent.local(a)[0] < descent.local(b)[0] { [a, b] } else { [b, a] }
}

impl Router<'_> {
    /// The way round an opening of the roof: where there is none on one side, all goes round the other; where there is none at all, it comes
    /// out at the low side.
    pub(crate) fn rim(&self, opening: usize) -> Rim {
        let placed = &self.roof.openings[opening];
        let high = high_side(&self.descents[placed.plane.0], placed);
        let ends = [-CLEAR, 1.0 + CLEAR].map(|past| between(high[0], high[1], past));
        let met = self.met(placed.plane, ends);
        let [left, right] = ends.map(|end| self.way(opening, end, &met));
        let over = Aside::Down(flat(placed.at));
        let aside = [left.or(right).unwrap_or(over), right.or(left).unwrap_or(over)];
        Rim { high, aside }
    }

    /// The edges of a plane a line crosses, each with where.
    fn met(&self, plane: PlaneId, [from, to]: [P2; 2]) -> Vec<(EdgeId, P2)> {
        let mut around = borders(self.roof, self.roof.plane(plane));
        // over a pitch break water would come back from the plane above
        around.retain(|border| self.roof.edge(border.label).kind.family() != Family::Passes);
        let crossed = around.iter().filter(|b| segments_cross(from, to, b.ends[0], b.ends[1]));
        let at =
            |b: &Border<EdgeId>| line_crossing(from, sub(to, from), b.ends[0], sub(b.ends[1], b.ends[0]));
        crossed.filter_map(|b| Some((b.label, at(b)?))).collect()
    }

    /// The way on from an end of the uphill side of an opening, if it does not lead back under it.
    fn way(&self, opening: usize, end: P2, met: &[(EdgeId, P2)]) -> Option<Aside> {
        let plane = self.roof.openings[opening].plane;
        if self.layers.covers(plane, end) {
            // shut by another opening, or by an edge further down that carries its water in under this one
            let is_shut =
                self.descents[plane.0].is_covered(end) || self.comes_under(opening, plane, end, AHEAD);
            return (!is_shut).then_some(Aside::Down(end));
        }
        let nearest = met.iter().min_by(|a, b| distance(a.1, end).total_cmp(&distance(b.1, end)));
        let open = nearest.filter(|(edge, at)| !self.edge_leads_under(opening, (*edge, plane), *at, AHEAD));
        open.map(|(edge, at)| Aside::Onto(*edge, *at))
    }

    /// Whether all water from a point of a plane comes under an opening.
    fn comes_under(&self, opening: usize, plane: PlaneId, p: P2, ahead: usize) -> bool {
        let placed = &self.roof.openings[opening];
        let descent = &self.descents[plane.0];
        if plane == placed.plane && contains(&placed.rim.map(flat), p) {
            return true;
        }
        if ahead == 0 || descent.is_level() {
            return false;
        }
        match descent.foot_below(p) {
            (Stop::Edge(id), at) => self.edge_leads_under(opening, (id, plane), at, ahead - 1),
            (Stop::Opening(other), _) => other == opening,
            (Stop::LowSide, at) => self.comes_under(opening, plane, at, ahead - 1),
        }
    }

    /// Whether all water that comes from a plane to a point of its edge comes under an opening.
    fn edge_leads_under(&self, opening: usize, (id, plane): (EdgeId, PlaneId), at: P2, ahead: usize) -> bool {
        match self.turn(id, plane) {
            Turn::Along => self.runs_under(opening, id, ahead),
            Turn::Over(next) => self.comes_under(opening, next, at, ahead),
            Turn::Off | Turn::Stands => false,
        }
    }

    /// Whether all water of an edge that gathers comes under an opening.
    fn runs_under(&self, opening: usize, id: EdgeId, ahead: usize) -> bool {
        let end_does = |node: &NodeId| match self.outfall(id, *node) {
            Outfall::Plane(plane, at) => self.comes_under(opening, plane, at, ahead),
            Outfall::Edge(next) if ahead > 0 => self.runs_under(opening, next, ahead - 1),
            _ => false,
        };
        let ends = self.open_ends(id);
        !ends.is_empty() && ends.iter().all(end_does)
    }

    /// The opening at whose uphill side an edge ends that runs in under it onto this point of a plane, and where.
    pub(crate) fn behind(&self, id: EdgeId, plane: PlaneId, at: P2) -> Option<(usize, P2)> {
        let [a, b] = self.roof.ends(id).map(flat);
        let descent = &self.descents[plane.0];
        let over = |o: &PlacedOpening| o.plane == plane && stands(o) && contains(&o.rim.map(flat), at);
        let meets = |o: &PlacedOpening| {
            let [p, q] = high_side(descent, o);
            segments_cross(p, q, a, b).then(|| line_crossing(p, sub(q, p), a, sub(b, a))).flatten()
        };
        let mut openings = self.roof.openings.iter().enumerate().filter(|(_, o)| over(o));
        openings.find_map(|(i, o)| Some((i, meets(o)?)))
    }
}
