//! One drop, from where it falls to where it leaves.

use measure::Length;
use roof::plan::{P2, flat};
use roof::{EdgeId, NodeId, PlaneId, Point3};

use crate::descent::Stop;
use crate::eave::point_at;
use crate::flow::OutletKind;
use crate::hung::{Discharge, DownspoutId, GutterId};
use crate::outfall::Outfall;
use crate::rim::Aside;
use crate::route::{LONGEST_WAY, Router, Turn};

/// The way of a drop.
#[derive(Clone, Debug, PartialEq)]
pub struct Path {
    /// From where it fell on, each part of its way in order.
    pub steps: Vec<Step>,
    /// Where it leaves, or stays.
    pub end: OutletKind,
}

/// A straight part of a drop's way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// Where it begins.
    pub from: Point3,
    /// Where it ends.
    pub to: Point3,
    /// What it runs on.
    pub way: Way,
}

/// What a drop runs on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Down a plane.
    Plane(PlaneId),
    /// Across the slope behind an opening, or to the wall it splashes on.
    Aside(PlaneId),
    /// Along an edge that gathers.
    Edge(EdgeId),
    /// Through the air, onto a roof below.
    Falls(PlaneId),
    /// Along a gutter, to its outlet.
    Gutter(GutterId),
    /// Down a downspout, to a lower gutter or a lower roof.
    Downspout(DownspoutId),
}

/// Where a drop is.
enum At {
    /// On a plane.
    Plane(PlaneId, P2),
    /// On an edge that gathers.
    Edge(EdgeId, P2),
    /// In the gutter of a downspout.
    Gutter(DownspoutId, Point3),
    /// At the front of a gutter that does not take it.
    Over(EdgeId, Point3),
    /// Gone.
    End(OutletKind),
}

impl Router<'_> {
    /// Follows a drop from the highest plane at a point.
    pub(crate) fn trace(&self, p: P2) -> Option<Path> {
        let plane = self.layers.below(p, f64::INFINITY)?;
        let mut walk = Walk { router: self, steps: Vec::new() };
        let mut at = At::Plane(plane, p);
        for _ in 0..LONGEST_WAY {
            at = match at {
                At::Plane(plane, p) => walk.down(plane, p),
                At::Edge(id, p) => walk.along(id, p),
                At::Gutter(id, from) => walk.along_gutter(id, from),
                At::Over(id, from) => walk.over(id, from),
                At::End(end) => return Some(Path { steps: walk.steps, end }),
            };
        }
        Some(Path { steps: walk.steps, end: OutletKind::StandsOn(plane) })
    }
}

struct Walk<'r, 'a> {
    router: &'r Router<'a>,
    steps: Vec<Step>,
}

impl Walk<'_, '_> {
    fn on(&self, plane: PlaneId, p: P2) -> Point3 {
        [p[0], p[1], self.router.roof.plane(plane).height_at(p)]
    }

    fn step(&mut self, from: Point3, to: Point3, way: Way) {
        let moves = from.iter().zip(&to).any(|(a, b)| (a - b).abs() > 0.0);
        if moves {
            self.steps.push(Step { from, to, way });
        }
    }

    fn down(&mut self, plane: PlaneId, p: P2) -> At {
        let descent = &self.router.descents[plane.0];
        if descent.is_level() {
            return At::End(OutletKind::StandsOn(plane));
        }
        let (stop, foot) = descent.foot_below(p);
        self.step(self.on(plane, p), self.on(plane, foot), Way::Plane(plane));
        match stop {
            Stop::Opening(i) => self.aside(i, plane, foot),
            Stop::Edge(id) => self.at_edge(id, plane, foot),
            Stop::LowSide => At::Plane(plane, foot),
        }
    }

    /// Round the nearer side of an opening.
    fn aside(&mut self, opening: usize, plane: PlaneId, p: P2) -> At {
        let rim = &self.router.rims[opening];
        let descent = &self.router.descents[plane.0];
        let end = usize::from(descent.local(p)[0] >= descent.local(rim.parting())[0]);
        let (Aside::Down(to) | Aside::Onto(_, to)) = rim.aside(end);
        self.step(self.on(plane, p), self.on(plane, to), Way::Aside(plane));
        match rim.aside(end) {
            Aside::Down(_) => At::Plane(plane, to),
            Aside::Onto(edge, _) => self.at_edge(edge, plane, to),
        }
    }

    fn at_edge(&mut self, id: EdgeId, plane: PlaneId, p: P2) -> At {
        match self.router.turn(id, plane) {
            Turn::Along => At::Edge(id, p),
            Turn::Off => {
                let from = self.on(plane, p);
                match self.router.channels.serving(id, self.router.along(id, p)) {
                    Some(downspout) => At::Gutter(downspout, from),
                    None => At::Over(id, from),
                }
            }
            Turn::Over(next) => At::Plane(next, p),
            Turn::Stands => At::End(OutletKind::StandsAt(id)),
        }
    }

    /// Off a free edge that nothing catches.
    fn over(&mut self, id: EdgeId, from: Point3) -> At {
        let plane = self.router.roof.edge(id).planes[0];
        let Some(below) = self.router.below_edge(id, plane, flat(from)) else {
            return At::End(OutletKind::OffEdge(id));
        };
        let at = roof::plan::along(flat(from), self.router.out(plane), 1.0);
        self.step(from, self.on(below, at), Way::Falls(below));
        At::Plane(below, at)
    }

    /// Along a gutter to a downspout, and down that.
    fn along_gutter(&mut self, id: DownspoutId, from: Point3) -> At {
        let channels = &self.router.channels;
        let (gutter, downspout) = (channels.gutter(id.gutter), channels.downspout(id));
        let outlet = self.at_eave(gutter.edge, downspout.at);
        self.step(from, outlet, Way::Gutter(id.gutter));
        match downspout.to {
            Discharge::Ground | Discharge::Drain => At::End(OutletKind::Downspout(id)),
            Discharge::Gutter(lower) => self.pours_into(id, outlet, lower),
            Discharge::Roof { plane, at } => {
                self.step(outlet, self.on(plane, at), Way::Downspout(id));
                self.lands(plane, at)
            }
        }
    }

    /// Down a downspout into a lower gutter, where that is nearest.
    fn pours_into(&mut self, id: DownspoutId, outlet: Point3, lower: GutterId) -> At {
        let edge = self.router.channels.gutter(lower).edge;
        let along = self.router.along(edge, flat(outlet));
        let to = self.at_eave(edge, Length::from_m(along));
        self.step(outlet, to, Way::Downspout(id));
        match self.router.channels.serving(edge, along) {
            Some(next) => At::Gutter(next, to),
            None => At::Over(edge, to),
        }
    }

    /// A place along an eave.
    fn at_eave(&self, edge: EdgeId, at: Length) -> Point3 {
        self.on(self.router.roof.edge(edge).planes[0], point_at(self.router.roof, edge, at))
    }

    /// Along a gathering edge to its open end: the nearer, where there are two.
    fn along(&mut self, id: EdgeId, p: P2) -> At {
        let roof = self.router.roof;
        let away = |n: &NodeId| roof::plan::distance(flat(roof.node(*n).at), p);
        let ends = self.router.open_ends(id);
        let Some(end) = ends.iter().min_by(|a, b| away(a).total_cmp(&away(b))) else {
            return At::End(OutletKind::StandsAt(id));
        };
        let from = self.on(roof.edge(id).planes[0], p);
        if let Outfall::Plane(plane, at) = self.router.outfall(id, *end)
            && let Some((opening, back)) = self.router.behind(id, plane, at)
            && self.on(plane, back)[2] <= from[2]
        {
            self.step(from, self.on(plane, back), Way::Edge(id));
            return self.aside(opening, plane, back);
        }
        self.step(from, roof.node(*end).at, Way::Edge(id));
        self.off_end(id, *end)
    }

    fn off_end(&mut self, id: EdgeId, node: NodeId) -> At {
        match self.router.outfall(id, node) {
            Outfall::Plane(plane, at) => At::Plane(plane, at),
            Outfall::Edge(next) => At::Edge(next, flat(self.router.roof.node(node).at)),
            Outfall::Falls(at) => self.stream_falls(node, at),
            Outfall::None => At::End(OutletKind::StandsAt(id)),
        }
    }

    fn stream_falls(&mut self, node: NodeId, at: P2) -> At {
        let from = self.router.roof.node(node).at;
        if let Some(downspout) = self.router.channels.serving_end(self.router.roof, node) {
            return At::Gutter(downspout, from);
        }
        let Some(plane) = self.router.layers.below_stream(at, from[2]) else {
            return At::End(OutletKind::OffEnd(node));
        };
        self.step(from, self.on(plane, at), Way::Falls(plane));
        self.lands(plane, at)
    }

    /// A stream on a roof, which runs on along a wall close by.
    fn lands(&mut self, plane: PlaneId, at: P2) -> At {
        match self.router.splashed_wall(plane, at) {
            Some((wall, beside)) => {
                self.step(self.on(plane, at), self.on(plane, beside), Way::Aside(plane));
                At::Edge(wall, beside)
            }
            None => At::Plane(plane, at),
        }
    }
}
