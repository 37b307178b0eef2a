//! The columns of every plane of a roof, and which eave each one's water comes to.
//!
//! # Checks
//! property: columns of a plane add up to its plan area (`tests/properties.rs`)

use std::collections::BTreeSet;

use roof::column::{self, Axes, Column};
use roof::plan::{P2, between, flat, to_segment};
use roof::{EdgeId, EdgeKind, NodeId, Plane, PlaneId, Roof};

/// All columns of a roof, by plane.
pub(crate) struct Columns<'a> {
    roof: &'a Roof,
    by_plane: Vec<Vec<Column<EdgeId>>>,
}

impl<'a> Columns<'a> {
    pub(crate) fn of(roof: &'a Roof) -> Self {
        let by_plane = (0..roof.planes.len()).map(|plane| cut(roof, PlaneId(plane))).collect();
        Self { roof, by_plane }
    }

    /// The columns of a plane.
    pub(crate) fn on(&self, plane: PlaneId) -> &[Column<EdgeId>] {
        &self.by_plane[plane.0]
    }

    /// The eave whose strips run through a column's foot: the eave at the foot itself; the eave at the low end of the valley
    /// at the foot, whose strip runs on into it; the eave below a pitch break. None where the foot is a wall.
    pub(crate) fn eave_below(&self, plane: PlaneId, column: &Column<EdgeId>) -> Option<EdgeId> {
        self.eave_through(plane, column, &mut BTreeSet::new())
    }

    fn eave_through(
        &self,
        plane: PlaneId,
        column: &Column<EdgeId>,
        seen: &mut BTreeSet<PlaneId>,
    ) -> Option<EdgeId> {
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
    fn headed_by(&self, plane: PlaneId, head: EdgeId, at: P2) -> Option<&Column<EdgeId>> {
        let off = |column: &&Column<EdgeId>| to_segment(at, column.quad[2], column.quad[3]).0;
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

fn cut(roof: &Roof, id: PlaneId) -> Vec<Column<EdgeId>> {
    let plane = roof.plane(id);
    if plane.pitch.slope() <= 0.0 {
        return Vec::new();
    }
    column::columns(&Axes::of(plane), &column::borders(roof, plane), &below_breaks(roof, plane))
}

/// Corners of the planes below a plane's pitch breaks, so that a column stands on one column below.
fn below_breaks(roof: &Roof, plane: &Plane) -> Vec<P2> {
    let is_break = |kind| matches!(kind, EdgeKind::PitchBreakConvex | EdgeKind::PitchBreakConcave);
    let breaks = plane.edges.iter().filter(|edge| is_break(roof.edge(**edge).kind));
    let beside = breaks.flat_map(|edge| &roof.edge(*edge).planes);
    beside.flat_map(|other| &roof.plane(*other).outline).map(|p| flat(*p)).collect()
}
