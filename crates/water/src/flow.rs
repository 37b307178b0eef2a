//! What comes to every edge and opening, and where it leaves.

use std::collections::BTreeMap;

use measure::{Area, Length};
use roof::{EdgeId, NodeId, PlaneId, Roof};

use crate::finding::{self, Finding};
use crate::hung::{DownspoutId, HungGutter, Part};
use crate::route::Router;
use crate::trace::Path;

/// Rain over all of a roof, and where it goes.
#[derive(Clone, Debug, PartialEq)]
pub struct Water {
    /// What comes to each edge, in the order of [`Roof::edges`].
    pub edges: Vec<EdgeFlow>,
    /// What comes to each opening, in the order of [`Roof::openings`]; nothing to one that goes.
    pub openings: Vec<OpeningFlow>,
    /// Water that falls from one roof onto another, by where it comes from.
    pub falls: Vec<Fall>,
    /// Where water leaves the roof, or stays.
    pub outlets: Vec<Outlet>,
    /// Water that falls from the roof onto the ground, piece by piece in the order found.
    pub drips: Vec<Drip>,
    /// What each gutter takes, in the order they hang; none where none was asked for.
    pub gutters: Vec<GutterFlow>,
    /// All the area in plan that takes rain; of walls what they add to it.
    pub rain: Area,
    /// What was held to stand where it was, or to leave there, since it went on from part to part without end: none, but where walls a
    /// millimetre or two long deceive.
    pub circles: Area,
}

/// Water that a gutter takes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct GutterFlow {
    /// What runs to each of its downspouts, in their order: that of the length nearest to it, what ends there as a stream and what
    /// upper downspouts bring.
    pub downspouts: Vec<DownspoutFlow>,
    /// Streams that come into it at an end of its eave.
    pub throats: Vec<Throat>,
}

/// Water that a downspout carries.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DownspoutFlow {
    /// Its catchment by the plane the rain fell on.
    pub sources: BTreeMap<PlaneId, Area>,
}

/// A stream that comes into a gutter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Throat {
    /// The end of what gathered it.
    pub node: NodeId,
    /// Its catchment.
    pub amount: Area,
}

/// Water that comes to an edge.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct EdgeFlow {
    /// Piece by piece, in the order found.
    pub inflows: Vec<Inflow>,
}

/// Water that comes to a stretch of an edge, or to one point of it where the stretch has no length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Inflow {
    /// The stretch, as distances in plan from the edge's first end, in order.
    pub span: [Length; 2],
    /// How deep a strip of roof drains there, in plan, at both ends of the stretch; zero for a point.
    pub depth: [Length; 2],
    /// Its catchment.
    pub amount: Area,
    /// The plane the rain fell on.
    pub source: PlaneId,
}

/// Water that comes to the uphill side of an opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OpeningFlow {
    /// Catchment behind it.
    pub behind: Area,
    /// The part of it that comes as streams.
    pub streams: Area,
    /// The parts of it that run on beside the opening, left and right of one who looks up the slope: what each valley of a cricket
    /// carries, where one parts the water.
    pub sides: [Area; 2],
}

/// Water that falls from one roof onto another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fall {
    /// From where.
    pub from: Spill,
    /// The plane it falls on.
    pub onto: PlaneId,
    /// The wall along which it runs on, being a stream that falls close to it.
    pub beside: Option<EdgeId>,
    /// Its catchment.
    pub amount: Area,
    /// The plane the rain fell on.
    pub source: PlaneId,
}

/// Water that falls from the roof onto the ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drip {
    /// From where.
    pub from: Spill,
    /// The line in plan along which it falls; its ends are one point for a stream.
    pub ends: [[f64; 2]; 2],
    /// How deep a strip of roof drains there, in plan, at both ends of the line; zero for a point.
    pub depth: [Length; 2],
    /// Its catchment.
    pub amount: Area,
}

/// Where water leaves a part of the roof.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Spill {
    /// Along a free edge.
    Edge(EdgeId),
    /// As a stream, at the end of what gathered it.
    End(NodeId),
    /// As a stream, from a downspout.
    Downspout(DownspoutId),
}

/// Where water leaves the roof, or stays.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outlet {
    /// Where.
    pub kind: OutletKind,
    /// Its catchment.
    pub amount: Area,
    /// The plane the rain fell on.
    pub source: PlaneId,
}

/// How water leaves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum OutletKind {
    /// Spread along a free edge with no roof below.
    OffEdge(EdgeId),
    /// As a stream, from the end of what gathered it.
    OffEnd(NodeId),
    /// It stands: in a level valley or against a wall with no way out.
    StandsAt(EdgeId),
    /// It stands on a level plane, or between things that leave it no way.
    StandsOn(PlaneId),
    /// To the ground or a drain, by a downspout.
    Downspout(DownspoutId),
}

impl OutletKind {
    /// Whether water stays on the roof.
    pub const fn stands(self) -> bool {
        matches!(self, Self::StandsAt(_) | Self::StandsOn(_))
    }
}

impl Water {
    /// Sends rain down over all of a roof.
    ///
    /// # Complexity
    /// Each strip of a plane between two fall lines is followed by itself; streams that come together go on as one.
    pub fn of(roof: &Roof) -> Self {
        Router::of(roof).rain()
    }

    /// Sends rain down over all of a roof with gutters hung, some of them or of their downspouts blocked. What a gutter catches leaves by
    /// the downspout nearest to it. Where that one is blocked, or none is there, water runs over the gutter's front as over an eave
    /// without one.
    pub fn with(roof: &Roof, gutters: &[HungGutter], blocked: &[Part]) -> Self {
        Router::with(roof, gutters, blocked).rain()
    }

    /// Follows one drop that falls on the highest plane at a point, to where it leaves; none where there is no roof.
    pub fn trace(roof: &Roof, at: [f64; 2]) -> Option<Path> {
        Router::of(roof).trace(at)
    }

    /// Follows one drop as [`Self::trace`] does, with gutters hung, some of them or of their downspouts blocked.
    pub fn trace_with(roof: &Roof, gutters: &[HungGutter], blocked: &[Part], at: [f64; 2]) -> Option<Path> {
        Router::with(roof, gutters, blocked).trace(at)
    }

    /// What a person should look at, worst first.
    pub fn findings(&self, roof: &Roof) -> Vec<Finding> {
        finding::findings(roof, self)
    }

    /// What comes to an edge.
    pub fn edge(&self, id: EdgeId) -> &EdgeFlow {
        &self.edges[id.0]
    }

    /// What leaves at one place.
    pub fn leaving(&self, kind: OutletKind) -> Area {
        self.outlets.iter().filter(|o| o.kind == kind).map(|o| o.amount).sum()
    }
}

impl GutterFlow {
    /// Catchment of all that it takes.
    pub fn catchment(&self) -> Area {
        self.downspouts.iter().map(DownspoutFlow::catchment).sum()
    }
}

impl DownspoutFlow {
    /// Catchment of all that it carries.
    pub fn catchment(&self) -> Area {
        self.sources.values().sum()
    }
}

impl EdgeFlow {
    /// Catchment of all that comes to the edge.
    pub fn catchment(&self) -> Area {
        self.inflows.iter().map(|i| i.amount).sum()
    }

    /// Catchment by the plane the rain fell on.
    pub fn sources(&self) -> BTreeMap<PlaneId, Area> {
        let mut by_plane = BTreeMap::new();
        for inflow in &self.inflows {
            *by_plane.entry(inflow.source).or_insert(Area::ZERO) += inflow.amount;
        }
        by_plane
    }

    /// Catchment of what comes as streams, each at one point.
    pub fn streams(&self) -> Area {
        self.inflows.iter().filter(|i| i.is_stream()).map(|i| i.amount).sum()
    }

    /// Catchment of what an edge that gathers carries past a distance in plan from its low end.
    pub fn passing(&self, at: Length) -> Area {
        self.inflows.iter().map(|i| i.beyond(at)).sum()
    }
}

impl Inflow {
    /// Whether it comes at one point.
    pub fn is_stream(&self) -> bool {
        self.span[0] == self.span[1]
    }

    /// The part of it that comes further from the first end than a distance.
    fn beyond(&self, at: Length) -> Area {
        let [from, to] = self.span.map(Length::m);
        let at = at.m();
        if at <= from {
            return self.amount;
        }
        if at >= to {
            return Area::ZERO;
        }
        let [near, far] = self.depth.map(Length::m);
        let here = near + (far - near) * (at - from) / (to - from);
        Area::from_m2(0.5 * (here + far) * (to - at))
    }
}
