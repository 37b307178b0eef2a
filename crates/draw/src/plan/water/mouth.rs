//! Where water leaves a part of the roof, and how much.

use std::collections::BTreeMap;

use measure::Area;
use roof::plan::{P2, along, between, contains, flat, outward, unit};
use roof::{EdgeId, NodeId, PlaneId, Roof};
use water::{Discharge, Drainage, OutletKind, Spill, Water};

/// How far out from an edge what lies below it is looked for, metres.
const OUT: f64 = 0.01;
/// Parts an edge is looked at in.
const PARTS: u32 = 60;

/// What it leaves by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum By {
    Edge(EdgeId),
    End(NodeId),
    /// A downspout of the gutter at an edge.
    Spout(EdgeId),
    /// It stays.
    Nothing,
}

/// Water that leaves.
#[derive(Clone, Debug)]
pub(super) struct Mouth {
    pub(super) by: By,
    /// On the plan.
    pub(super) at: P2,
    /// Unit direction in which it goes over an edge or an end.
    pub(super) out: P2,
    /// The roof it falls onto; none where it leaves the house.
    pub(super) onto: Option<PlaneId>,
    /// Whether a lower gutter takes it.
    pub(super) is_taken: bool,
    /// Its catchment by the plane the rain fell on.
    pub(super) sources: BTreeMap<PlaneId, Area>,
}

impl Mouth {
    pub(super) fn amount(&self) -> Area {
        self.sources.values().sum()
    }

    pub(super) fn is_spout(&self) -> bool {
        matches!(self.by, By::Spout(_))
    }

    /// Whether it leaves the house.
    pub(super) fn is_last(&self) -> bool {
        self.onto.is_none() && !self.is_taken
    }
}

/// All that is not by downspouts.
pub(super) fn unguttered(roof: &Roof, water: &Water) -> Vec<Mouth> {
    let mut sources: BTreeMap<(OutletKind, Option<PlaneId>), BTreeMap<PlaneId, Area>> = BTreeMap::new();
    let mut add = |kind, onto, source, amount| {
        *sources.entry((kind, onto)).or_default().entry(source).or_insert(Area::ZERO) += amount;
    };
    for outlet in water.outlets.iter().filter(|o| !matches!(o.kind, OutletKind::Downspout(_))) {
        add(outlet.kind, None, outlet.source, outlet.amount);
    }
    for fall in &water.falls {
        match fall.from {
            Spill::Edge(id) => add(OutletKind::OffEdge(id), Some(fall.onto), fall.source, fall.amount),
            Spill::End(node) => add(OutletKind::OffEnd(node), Some(fall.onto), fall.source, fall.amount),
            Spill::Downspout(_) => {}
        }
    }
    sources.into_iter().map(|((kind, onto), sources)| mouth(roof, kind, onto, sources)).collect()
}

fn mouth(roof: &Roof, kind: OutletKind, onto: Option<PlaneId>, sources: BTreeMap<PlaneId, Area>) -> Mouth {
    let (by, at, out) = match kind {
        OutletKind::OffEdge(id) => (By::Edge(id), over(roof, id, onto), edge_out(roof, id)),
        OutletKind::OffEnd(node) => (By::End(node), flat(roof.node(node).at), node_out(roof, node)),
        OutletKind::StandsAt(id) => {
            let [a, b] = roof.ends(id).map(flat);
            (By::Nothing, between(a, b, 0.5), [0.0; 2])
        }
        OutletKind::StandsOn(id) => {
            let outline = &roof.plane(id).outline;
            let first = outline.first().map_or([0.0; 2], |p| flat(*p));
            let middle = outline.get(outline.len() / 2).map_or(first, |p| flat(*p));
            (By::Nothing, between(first, middle, 0.5), [0.0; 2])
        }
        OutletKind::Downspout(_) => (By::Nothing, [0.0; 2], [0.0; 2]),
    };
    Mouth { by, at, out, onto, is_taken: false, sources }
}

/// The downspouts.
pub(super) fn spouts(roof: &Roof, drainage: &Drainage) -> Vec<Mouth> {
    let mut mouths = Vec::new();
    for (gutter, flow) in drainage.gutters.iter().zip(&drainage.water.gutters) {
        for (spout, flow) in gutter.downspouts.iter().zip(&flow.downspouts) {
            let onto = match spout.to {
                Discharge::Roof { plane, .. } => Some(plane),
                _ => None,
            };
            mouths.push(Mouth {
                by: By::Spout(gutter.edge),
                at: water::point_at(roof, gutter.edge, spout.at),
                out: edge_out(roof, gutter.edge),
                onto,
                is_taken: matches!(spout.to, Discharge::Gutter(_)),
                sources: flow.sources.clone(),
            });
        }
    }
    mouths
}

/// Square to an edge, away from its plane.
fn edge_out(roof: &Roof, id: EdgeId) -> P2 {
    let [a, b] = roof.ends(id).map(flat);
    let out = outward(unit(a, b));
    let outline: Vec<P2> = outline(roof, roof.edge(id).planes[0]);
    let middle = between(a, b, 0.5);
    if contains(&outline, along(middle, out, OUT)) { [-out[0], -out[1]] } else { out }
}

/// The way the planes at a corner fall.
fn node_out(roof: &Roof, node: NodeId) -> P2 {
    let edges = roof.node(node).edges.iter();
    let falls = edges.flat_map(|e| &roof.edge(*e).planes).map(|p| roof.plane(*p).fall());
    let sum = falls.fold([0.0; 2], |sum, fall| [sum[0] + fall[0], sum[1] + fall[1]]);
    unit([0.0; 2], sum)
}

fn outline(roof: &Roof, plane: PlaneId) -> Vec<P2> {
    roof.plane(plane).outline.iter().map(|p| flat(*p)).collect()
}

/// The middle of the longest part of an edge that lies over a plane, or over none.
fn over(roof: &Roof, id: EdgeId, onto: Option<PlaneId>) -> P2 {
    let [a, b] = roof.ends(id).map(flat);
    let out = edge_out(roof, id);
    let others: Vec<(PlaneId, Vec<P2>)> = (0..roof.planes.len())
        .map(PlaneId)
        .filter(|p| !roof.edge(id).planes.contains(p))
        .map(|p| (p, outline(roof, p)))
        .collect();
    let fits = |share: f64| {
        let p = along(between(a, b, share), out, OUT);
        match onto {
            Some(plane) => others.iter().any(|(other, ring)| *other == plane && contains(ring, p)),
            None => !others.iter().any(|(_, ring)| contains(ring, p)),
        }
    };
    let mut best = [0.0, 0.0];
    let mut here: Option<f64> = None;
    for i in 0..=PARTS {
        let share = |i: u32| f64::from(i) / f64::from(PARTS);
        let is_on = i < PARTS && fits((f64::from(i) + 0.5) / f64::from(PARTS));
        match (is_on, here) {
            (true, None) => here = Some(share(i)),
            (false, Some(from)) => {
                if share(i) - from > best[1] - best[0] + 1e-9 {
                    best = [from, share(i)];
                }
                here = None;
            }
            _ => {}
        }
    }
    let middle = if best[1] > best[0] { f64::midpoint(best[0], best[1]) } else { 0.5 };
    between(a, b, middle)
}
