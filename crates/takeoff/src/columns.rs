//! Planes cut into columns along the fall, and where each column's water starts and ends.
//!
//! Fall lines through all corners of a plane cut it into trapezoids: each has one edge of the plane at its foot, one at
//! its head and two fall lines for sides. Whatever is laid or flows along the fall can then be followed exactly, column
//! by column.
//!
//! # Validity
//! Any plane of a [`Roof`] with a slope; holes are cut out. A level plane has no fall and gives no columns.
//! # Degenerate cases
//! Columns narrower than 0.1 µm are rounding of edges that run along the fall, and are left out.
//! # Complexity
//! Square in the corners of a plane.
//! # Checks
//! property: columns of a plane add up to its plan area (`tests/properties.rs`)

use std::collections::BTreeSet;

use roof::{EdgeId, EdgeKind, NodeId, Plane, PlaneId, Roof};

use crate::plan::{P2, between, distance, dot, ends, flat, sides};

/// Narrowest column, metres.
const NARROWEST: f64 = 1e-7;

/// A trapezoid of a plane between two neighbouring fall lines.
#[derive(Clone, Debug)]
pub(crate) struct Column {
    /// Corners in plan: the foot's two, then the head's.
    pub(crate) quad: [P2; 4],
    /// The edge at its low end.
    foot: EdgeId,
    /// The edge at its high end.
    head: EdgeId,
}

/// All columns of a roof, by plane.
pub(crate) struct Columns<'a> {
    roof: &'a Roof,
    by_plane: Vec<Vec<Column>>,
}

impl<'a> Columns<'a> {
    pub(crate) fn of(roof: &'a Roof) -> Self {
        let by_plane = (0..roof.planes.len()).map(|plane| cut(roof, PlaneId(plane))).collect();
        Self { roof, by_plane }
    }

    /// The columns of a plane.
    pub(crate) fn on(&self, plane: PlaneId) -> &[Column] {
        &self.by_plane[plane.0]
    }

    /// The eave whose strips run through a column's foot: the eave at the foot itself; the eave at the low end of the valley
    /// at the foot, whose strip runs on into it; the eave below a pitch break. None where the foot is a wall.
    pub(crate) fn eave_below(&self, plane: PlaneId, column: &Column) -> Option<EdgeId> {
        self.eave_through(plane, column, &mut BTreeSet::new())
    }

    fn eave_through(&self, plane: PlaneId, column: &Column, seen: &mut BTreeSet<PlaneId>) -> Option<EdgeId> {
        let edge = self.roof.edge(column.foot);
        match edge.kind {
            EdgeKind::Eave | EdgeKind::SkewRake => Some(column.foot),
            EdgeKind::Valley => self.eave_down_from(plane, edge.from),
            EdgeKind::LevelValley => {
                [edge.from, edge.to].into_iter().find_map(|end| self.eave_down_from(plane, end))
            }
            EdgeKind::PitchBreakConvex | EdgeKind::PitchBreakConcave => {
                let below = other_plane(self.roof, column.foot, plane).filter(|below| seen.insert(*below))?;
                let next =
                    self.headed_by(below, column.foot, between(column.quad[0], column.quad[1], 0.5))?;
                self.eave_through(below, next, seen)
            }
            _ => None,
        }
    }

    /// The column of a plane whose head is at a point of an edge.
    fn headed_by(&self, plane: PlaneId, head: EdgeId, at: P2) -> Option<&Column> {
        let off = |column: &&Column| distance(at, [column.quad[2], column.quad[3]]);
        let headed = self.on(plane).iter().filter(|column| column.head == head);
        headed.min_by(|a, b| off(a).total_cmp(&off(b)))
    }

    /// The eave of a plane at a node, or at the end of the valleys that run down from it along the plane.
    fn eave_down_from(&self, plane: PlaneId, node: NodeId) -> Option<EdgeId> {
        let (mut plane, mut node) = (plane, node);
        // Each step goes down a valley or over a pitch break; a roof has no more of them than edges.
        for _ in 0..=self.roof.edges.len() {
            let here = &self.roof.node(node).edges;
            let bounding = |id: &EdgeId| self.roof.edge(*id).planes.contains(&plane);
            let find = |kinds: &[EdgeKind]| {
                here.iter().copied().filter(bounding).find(|id| kinds.contains(&self.roof.edge(*id).kind))
            };
            if let Some(eave) = find(&[EdgeKind::Eave, EdgeKind::SkewRake]) {
                return Some(eave);
            }
            let is_top_of_valley = |id: &EdgeId| {
                let edge = self.roof.edge(*id);
                edge.kind == EdgeKind::Valley && edge.to == node
            };
            let below = find(&[EdgeKind::PitchBreakConvex, EdgeKind::PitchBreakConcave]);
            if let Some(valley) = here.iter().copied().filter(bounding).find(is_top_of_valley) {
                node = self.roof.edge(valley).from;
            } else {
                plane = other_plane(self.roof, below?, plane)?;
            }
        }
        None
    }
}

/// The other plane of a shared edge.
fn other_plane(roof: &Roof, edge: EdgeId, plane: PlaneId) -> Option<PlaneId> {
    roof.edge(edge).planes.iter().copied().find(|other| *other != plane)
}

/// A plane's own axes: `across` the fall, and `up` against it.
struct Axes {
    across: P2,
    up: P2,
}

impl Axes {
    fn of(plane: &Plane) -> Self {
        let fall = plane.fall();
        Self { across: [-fall[1], fall[0]], up: [-fall[0], -fall[1]] }
    }

    fn local(&self, p: P2) -> P2 {
        [dot(p, self.across), dot(p, self.up)]
    }

    fn plan(&self, [across, up]: P2) -> P2 {
        [self.across[0] * across + self.up[0] * up, self.across[1] * across + self.up[1] * up]
    }
}

fn cut(roof: &Roof, id: PlaneId) -> Vec<Column> {
    let plane = roof.plane(id);
    if plane.pitch.slope() <= 0.0 {
        return Vec::new();
    }
    let axes = Axes::of(plane);
    let rings = std::iter::once(&plane.outline).chain(&plane.holes);
    let rings: Vec<Vec<P2>> = rings.map(|ring| ring.iter().map(|p| axes.local(flat(*p))).collect()).collect();
    let borders: Vec<(P2, P2)> = rings.iter().flat_map(|ring| sides(ring)).collect();
    let cuts = fall_lines(roof, plane, &axes, &borders);
    cuts.windows(2).flat_map(|pair| between_lines(roof, plane, &axes, &borders, [pair[0], pair[1]])).collect()
}

/// Where fall lines cut a plane: through its corners, through the ends of its edges, and through the corners of planes
/// below its pitch breaks, so that a column stands on one column below.
fn fall_lines(roof: &Roof, plane: &Plane, axes: &Axes, borders: &[(P2, P2)]) -> Vec<f64> {
    let is_break = |kind| matches!(kind, EdgeKind::PitchBreakConvex | EdgeKind::PitchBreakConcave);
    let breaks = plane.edges.iter().filter(|edge| is_break(roof.edge(**edge).kind));
    let beside =
        breaks.flat_map(|edge| &roof.edge(*edge).planes).flat_map(|other| &roof.plane(*other).outline);
    let nodes = plane.edges.iter().flat_map(|edge| ends(roof, *edge));
    let points = nodes.chain(beside.map(|p| flat(*p)));
    let mut lines: Vec<f64> =
        borders.iter().map(|(a, _)| a[0]).chain(points.map(|p| axes.local(p)[0])).collect();
    lines.sort_by(f64::total_cmp);
    lines.dedup_by(|next, kept| *next - *kept < NARROWEST);
    lines
}

/// The columns between two neighbouring fall lines.
fn between_lines(
    roof: &Roof,
    plane: &Plane,
    axes: &Axes,
    borders: &[(P2, P2)],
    lines: [f64; 2],
) -> Vec<Column> {
    let middle = 0.5 * (lines[0] + lines[1]);
    let mut crossing: Vec<(P2, P2)> =
        borders.iter().copied().filter(|(a, b)| (a[0] < middle) != (b[0] < middle)).collect();
    crossing.sort_by(|s, t| height(*s, middle).total_cmp(&height(*t, middle)));
    let pairs = crossing.chunks_exact(2);
    pairs.filter_map(|pair| column(roof, plane, axes, [pair[0], pair[1]], lines)).collect()
}

fn column(
    roof: &Roof,
    plane: &Plane,
    axes: &Axes,
    [low, high]: [(P2, P2); 2],
    lines: [f64; 2],
) -> Option<Column> {
    let at = |side, line| axes.plan([line, height(side, line)]);
    let quad = [at(low, lines[0]), at(low, lines[1]), at(high, lines[1]), at(high, lines[0])];
    let edge_at = |a, b| nearest(roof, plane, between(a, b, 0.5));
    Some(Column { quad, foot: edge_at(quad[0], quad[1])?, head: edge_at(quad[2], quad[3])? })
}

/// How far up a side is at a fall line.
fn height((a, b): (P2, P2), line: f64) -> f64 {
    a[1] + (b[1] - a[1]) * ((line - a[0]) / (b[0] - a[0]))
}

/// The edge of a plane a border point lies on.
fn nearest(roof: &Roof, plane: &Plane, p: P2) -> Option<EdgeId> {
    let off = |edge: &EdgeId| distance(p, ends(roof, *edge));
    plane.edges.iter().copied().min_by(|a, b| off(a).total_cmp(&off(b)))
}
