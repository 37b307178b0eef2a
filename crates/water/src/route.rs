//! A roof ready for water: what its edges, walls and openings do with what comes to them.

use roof::plan::{P2, flat, scale, to_segment};
use roof::{EdgeId, EdgeKind, Family, NodeId, PlacedOpening, PlaneId, Roof};

use crate::below::Layers;
use crate::channel::Channels;
use crate::descent::{Descent, steps};
use crate::eave::place_along;
use crate::hung::{HungGutter, Part};
use crate::outfall::{Outfall, gathers, low_ends, outfall};
use crate::packet::Line;
use crate::rim::{Rim, stands};

/// A stream that falls this close to a wall runs on along it, metres (12 in and a hair, so that 12 in counts; common practice).
const SPLASH: f64 = 0.3048 + 0.001;
/// How far out from an edge water falls, metres.
const OUT: f64 = 0.001;
/// Times water may go from one part to the next; what goes on longer goes in a circle.
pub(crate) const LONGEST_WAY: usize = 200;

/// A roof ready for water.
pub(crate) struct Router<'a> {
    pub(crate) roof: &'a Roof,
    pub(crate) layers: Layers<'a>,
    pub(crate) descents: Vec<Descent>,
    pub(crate) rims: Vec<Rim>,
    pub(crate) channels: Channels<'a>,
}

impl<'a> Router<'a> {
    pub(crate) fn of(roof: &'a Roof) -> Self {
        Self::with(roof, &[], &[])
    }

    /// With gutters hung, some of them or of their downspouts blocked.
    pub(crate) fn with(roof: &'a Roof, gutters: &'a [HungGutter], blocked: &[Part]) -> Self {
        let on = |p: usize| -> Vec<usize> {
            let is_on = |o: &PlacedOpening| o.plane == PlaneId(p) && stands(o);
            (0..roof.openings.len()).filter(|i| is_on(&roof.openings[*i])).collect()
        };
        let descents: Vec<Descent> =
            (roof.planes.iter().enumerate()).map(|(p, plane)| Descent::of(roof, plane, &on(p))).collect();
        let channels = Channels::of(gutters, blocked);
        let mut router = Self { roof, layers: Layers::of(roof), descents, rims: Vec::new(), channels };
        router.rims = (0..roof.openings.len()).map(|opening| router.rim(opening)).collect();
        router
    }

    /// Distance in plan from an edge's first end.
    pub(crate) fn along(&self, id: EdgeId, p: P2) -> f64 {
        place_along(self.roof, id, p).m()
    }

    /// The wall a stream that falls on a plane runs on along, and where it comes to it.
    pub(crate) fn splashed_wall(&self, plane: PlaneId, p: P2) -> Option<(EdgeId, P2)> {
        let walls = self.roof.plane(plane).edges.iter().filter(|e| {
            let kind = self.roof.edge(**e).kind;
            matches!(kind, EdgeKind::Sidewall | EdgeKind::SkewWall | EdgeKind::Step | EdgeKind::BackWall)
        });
        let near = walls.filter_map(|e| {
            let [a, b] = self.roof.ends(*e).map(flat);
            let (off, part) = to_segment(p, a, b);
            (off <= SPLASH).then(|| (off, *e, roof::plan::between(a, b, part)))
        });
        // where two walls meet it is as near to both: along the one that falls more, or else the longer
        let choice = |&(off, e, _): &(f64, EdgeId, P2)| {
            let wall = self.roof.edge(e);
            (steps(off), -steps(wall.slope), -steps(wall.length.m()))
        };
        near.min_by_key(choice).map(|(_, e, at)| (e, at))
    }

    /// What an edge at the foot of a plane does with its water.
    pub(crate) fn turn(&self, id: EdgeId, plane: PlaneId) -> Turn {
        let edge = self.roof.edge(id);
        let other = edge.planes.iter().copied().find(|p| *p != plane);
        match (edge.kind.family(), other) {
            _ if gathers(edge.kind) => Turn::Along,
            (Family::LetsGo | Family::Ends, _) => Turn::Off,
            (_, Some(next)) => Turn::Over(next),
            (_, None) => Turn::Stands,
        }
    }

    /// Where water falls that leaves a plane at a point of its edge.
    pub(crate) fn out(&self, plane: PlaneId) -> P2 {
        scale(self.roof.plane(plane).fall(), OUT)
    }

    /// The plane on which water falls that leaves another over its edge at a point.
    pub(crate) fn below_edge(&self, id: EdgeId, plane: PlaneId, p: P2) -> Option<PlaneId> {
        let line = Line { ends: self.roof.ends(id).map(flat), per_m: [0.0; 2] };
        let heights = line.ends.map(|end| self.roof.plane(plane).height_at(end));
        self.layers.below_line(&line.moved(self.out(plane)), heights, line.part_at(p).clamp(0.0, 1.0))
    }

    pub(crate) fn outfall(&self, id: EdgeId, node: NodeId) -> Outfall {
        outfall(self.roof, &self.layers, id, node)
    }

    /// The ends of a gathering edge that have a way on; none where its water stands.
    pub(crate) fn open_ends(&self, id: EdgeId) -> Vec<NodeId> {
        let ends = low_ends(self.roof, self.roof.edge(id));
        ends.into_iter().filter(|n| self.outfall(id, *n) != Outfall::None).collect()
    }
}

/// What an edge does with the water of the plane above it.
pub(crate) enum Turn {
    /// Gathers it and carries it along.
    Along,
    /// Lets it go.
    Off,
    /// Passes it on to another plane.
    Over(PlaneId),
    /// Keeps it.
    Stands,
}
