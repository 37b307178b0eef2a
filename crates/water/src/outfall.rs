//! Where what an edge gathered goes on from its end.

use roof::plan::{P2, along, flat, outward, scale};
use roof::{Edge, EdgeId, EdgeKind, Family, NodeId, PlaneId, Roof};

use crate::below::Layers;
use crate::descent::steps;

/// How water leaves the end of an edge that gathers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Outfall {
    /// As a stream down a plane, from this point.
    Plane(PlaneId, P2),
    /// Into another edge that gathers, at its high end.
    Edge(EdgeId),
    /// Off the roof, at this point.
    Falls(P2),
    /// Nowhere.
    None,
}

/// Edges that rise by no more than this from end to end are level, metres.
const LEVEL: f64 = 1e-4;
/// How far from a node one looks for what goes on there, metres.
const NEXT: f64 = 0.002;

/// How far beside a border that runs with the fall water runs, metres.
const BESIDE: f64 = 1e-4;

/// Whether an edge carries water to an end rather than letting it pass.
pub(crate) fn gathers(kind: EdgeKind) -> bool {
    matches!(kind.family(), Family::Gathers) || kind == EdgeKind::Rake
}

/// The ends of an edge to which its water runs: the lower, or both where it is level.
pub(crate) fn low_ends(roof: &Roof, edge: &Edge) -> Vec<NodeId> {
    let [from, to] = [edge.from, edge.to].map(|n| roof.node(n).at[2]);
    match () {
        () if to - from > LEVEL => vec![edge.from],
        () if from - to > LEVEL => vec![edge.to],
        () => vec![edge.from, edge.to],
    }
}

/// Where the water of an edge goes on from one of its ends.
pub(crate) fn outfall(roof: &Roof, layers: &Layers, id: EdgeId, node: NodeId) -> Outfall {
    let edge = roof.edge(id);
    let at = flat(roof.node(node).at);
    let meeting: Vec<EdgeId> = roof.node(node).edges.iter().copied().filter(|e| *e != id).collect();
    let steeper =
        |a: &PlaneId, b: &PlaneId| roof.plane(*b).pitch.slope().total_cmp(&roof.plane(*a).pitch.slope());
    let mut others: Vec<PlaneId> =
        meeting.iter().flat_map(|e| roof.edge(*e).planes.iter().copied()).collect();
    others.sort_by(steeper);
    let mut planes = edge.planes.clone();
    planes.sort_by(steeper);
    planes.extend(others);
    let down = planes.iter().find_map(|p| goes_on(roof, layers, *p, at).map(|next| Outfall::Plane(*p, next)));
    let channel = || {
        let shares = |e: &&EdgeId| roof.edge(**e).planes.iter().any(|p| edge.planes.contains(p));
        let runs_on = |e: &&EdgeId| {
            let next = roof.edge(**e);
            gathers(next.kind) && next.kind != EdgeKind::Rake && !low_ends(roof, next).contains(&node)
        };
        let on = meeting.iter().filter(shares).filter(runs_on);
        // of two that fall alike the longer, so that it does not hang on the order of edges
        let choice = |e: &&EdgeId| (steps(roof.edge(**e).slope), steps(roof.edge(**e).length.m()));
        on.max_by_key(choice).map(|e| Outfall::Edge(*e))
    };
    let is_free = |e: &EdgeId| matches!(roof.edge(*e).kind.family(), Family::LetsGo | Family::Ends);
    let falls =
        || (is_free(&id) || meeting.iter().any(is_free)).then(|| Outfall::Falls(outside(roof, &planes, at)));
    down.or_else(channel).or_else(falls).unwrap_or(Outfall::None)
}

/// A point a little further down a plane from one of its corners, if the plane goes on there: also just beside a border that runs with
/// the fall.
fn goes_on(roof: &Roof, layers: &Layers, plane: PlaneId, at: P2) -> Option<P2> {
    let fall = roof.plane(plane).fall();
    let next = along(at, fall, NEXT);
    let beside = [0.0, BESIDE, -BESIDE].map(|by| along(next, outward(fall), by));
    let has_fall = roof.plane(plane).pitch.slope() > 0.0;
    let is_on = beside.map(|p| has_fall && layers.covers(plane, p));
    match is_on {
        [_, true, true] => Some(next),
        [_, true, false] => Some(beside[1]),
        [_, false, true] => Some(beside[2]),
        [is_on, false, false] => is_on.then_some(next),
    }
}

/// A point just off a node, the way its planes fall.
fn outside(roof: &Roof, planes: &[PlaneId], at: P2) -> P2 {
    let fall = planes.iter().map(|p| roof.plane(*p).fall()).fold([0.0; 2], |s, f| [s[0] + f[0], s[1] + f[1]]);
    let length = fall[0].hypot(fall[1]);
    if length > 1e-6 { along(at, scale(fall, 1.0 / length), 0.5 * NEXT) } else { at }
}
