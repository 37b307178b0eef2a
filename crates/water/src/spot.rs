//! Where findings lie on the plan.

use roof::plan::{P2, distance, flat, midpoint, outward, to_segment, unit};
use roof::{EdgeId, PlaneId, Roof, Walk};

use crate::eave::point_at;
use crate::finding::Finding;
use crate::flow::Spill;
use crate::hung::{DownspoutId, GutterId, HungGutter};

/// How far out from an edge what lies below it is looked for, metres.
const OUT: f64 = 0.01;
/// Parts an edge is looked at in.
const PARTS: u32 = 40;

impl Finding {
    /// The point of the plan to look at: the place itself, or the middle of what it is about.
    pub fn spot(&self, roof: &Roof, gutters: &[HungGutter]) -> P2 {
        match *self {
            Self::StandsAt(id, _) | Self::DeadValley(id, _) | Self::MeetsWall(id, _) => middle(roof, id),
            Self::StandsOn(id, _) => center(roof.plane(id).outline.iter().map(|p| flat(*p))),
            Self::StreamBesideWall { from, .. } | Self::StreamOntoRoof { from, .. } => {
                source(roof, gutters, from)
            }
            Self::OpeningInStream(i, _) => center(roof.openings[i].rim.iter().map(|p| flat(*p))),
            Self::DripsOnWalk { from, walk, .. } => above(roof, gutters, from, &roof.walks[walk]),
            Self::DripsOnRoof { edge, onto, .. } => over(roof, edge, onto),
            Self::DownspoutOntoRoof { downspout, .. }
            | Self::DownspoutOntoWalk { downspout, .. }
            | Self::DownspoutOverloaded(downspout, _)
            | Self::RunTooLong { downspout, .. } => foot(roof, gutters, downspout),
            Self::SplashOver { at, .. } => flat(roof.node(at).at),
            Self::EndAtWall(id, _) => wall_end(roof, gutters, id),
            Self::GutterOverloaded(id, _)
            | Self::NoDownspout(id, _)
            | Self::FallOutOfRange { gutter: id, .. } => middle(roof, gutters[id.0].edge),
        }
    }
}

fn middle(roof: &Roof, id: EdgeId) -> P2 {
    let [a, b] = roof.ends(id).map(flat);
    midpoint(a, b)
}

fn center(points: impl Iterator<Item = P2> + Clone) -> P2 {
    let count = points.clone().count() as f64;
    points.fold([0.0; 2], |sum, p| [sum[0] + p[0] / count, sum[1] + p[1] / count])
}

fn foot(roof: &Roof, gutters: &[HungGutter], id: DownspoutId) -> P2 {
    let hung = &gutters[id.gutter.0];
    point_at(roof, hung.edge, hung.downspouts[id.index].at)
}

fn source(roof: &Roof, gutters: &[HungGutter], from: Spill) -> P2 {
    match from {
        Spill::Edge(id) => middle(roof, id),
        Spill::End(node) => flat(roof.node(node).at),
        Spill::Downspout(id) => foot(roof, gutters, id),
    }
}

/// Where what wets a walk leaves the roof: of an edge the point nearest to the walk's middle.
fn above(roof: &Roof, gutters: &[HungGutter], from: Spill, walk: &Walk) -> P2 {
    let Spill::Edge(id) = from else { return source(roof, gutters, from) };
    let [a, b] = roof.ends(id).map(flat);
    let (_, part) = to_segment(midpoint(walk.from, walk.to), a, b);
    roof::plan::between(a, b, part)
}

/// The middle of the part of an edge that lies over a plane.
fn over(roof: &Roof, id: EdgeId, onto: PlaneId) -> P2 {
    let [a, b] = roof.ends(id).map(flat);
    let outline: Vec<P2> = roof.plane(onto).outline.iter().map(|p| flat(*p)).collect();
    let out = outward(unit(a, b));
    let on =
        |p: P2| [OUT, -OUT].iter().any(|by| roof::plan::contains(&outline, roof::plan::along(p, out, *by)));
    let parts = (0..PARTS).map(|i| roof::plan::between(a, b, (f64::from(i) + 0.5) / f64::from(PARTS)));
    let over: Vec<P2> = parts.filter(|p| on(*p)).collect();
    if over.is_empty() { midpoint(a, b) } else { over[over.len() / 2] }
}

/// The end of a gutter that is nearest to a wall of another block.
fn wall_end(roof: &Roof, gutters: &[HungGutter], id: GutterId) -> P2 {
    let edge = gutters[id.0].edge;
    let block = &roof.plane(roof.edge(edge).planes[0]).block;
    let walls = || roof.walls.iter().filter(|w| w.block != *block);
    let away = |p: &P2| walls().map(|w| to_segment(*p, w.from, w.to).0).fold(f64::INFINITY, f64::min);
    let [a, b] = roof.ends(edge).map(flat);
    if away(&a) <= away(&b) { a } else { b }
}

/// Whether a way on the plan comes within a distance of a point.
pub(crate) fn passes(way: &[[P2; 2]], p: P2, within: f64) -> bool {
    way.iter().any(|[a, b]| {
        let near = if distance(*a, *b) > 0.0 { to_segment(p, *a, *b).0 } else { distance(*a, p) };
        near <= within
    })
}
