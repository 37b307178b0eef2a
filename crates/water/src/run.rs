//! Water being followed, strip by strip, until it leaves.

use std::collections::BTreeMap;

use measure::{Area, Length};
use roof::plan::{P2, along, flat};
use roof::{EdgeId, NodeId, PlaneId};

use crate::descent::Stop;
use crate::eave::{height_of, point_at};
use crate::flow::{
    DownspoutFlow, Drip, EdgeFlow, Fall, GutterFlow, Inflow, OpeningFlow, Outlet, OutletKind, Spill, Throat,
    Water,
};
use crate::hung::{Discharge, DownspoutId, GutterId};
use crate::outfall::Outfall;
use crate::packet::{Flow, Packet, Stream};
use crate::rim::Aside;
use crate::route::{LONGEST_WAY, Router, Turn};
use crate::wall::Foot;

impl Router<'_> {
    /// Rain everywhere, followed to its end.
    pub(crate) fn rain(&self) -> Water {
        let mut run = Run::of(self);
        for (p, descent) in self.descents.iter().enumerate() {
            let source = PlaneId(p);
            if !descent.falls() {
                run.leaves(OutletKind::StandsOn(source), self.layers.area_of(source).m2(), source);
            }
            for (stop, flow) in descent.rain() {
                run.arrives(stop, source, Packet { flow, source }, 0);
            }
        }
        run.follow();
        run.finish(self.layers.area())
    }

    /// Rain that runs down walls, from their feet to its end.
    pub(crate) fn wall_rain(&self, feet: &[Foot]) -> Water {
        let mut run = Run::of(self);
        for foot in feet {
            let packet = Packet { flow: Flow::Line(foot.line), source: foot.plane };
            if foot.runs_away {
                run.waiting.push((foot.plane, packet, 0));
            } else {
                run.arrives(Stop::Edge(foot.edge), foot.plane, packet, 0);
            }
        }
        run.follow();
        run.finish(feet.iter().map(|foot| Area::from_m2(foot.line.amount())).sum())
    }
}

/// Where streams come together before they go on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Mouth {
    /// At the end of an edge that gathers.
    End(EdgeId, NodeId),
    /// In a downspout.
    Downspout(DownspoutId),
}

/// Water being followed.
struct Run<'r, 'a> {
    router: &'r Router<'a>,
    edges: Vec<EdgeFlow>,
    openings: Vec<OpeningFlow>,
    falls: BTreeMap<(Spill, PlaneId, Option<EdgeId>, PlaneId), f64>,
    outlets: BTreeMap<(OutletKind, PlaneId), f64>,
    /// What goes in a circle.
    circles: f64,
    drips: Vec<Drip>,
    /// On planes, still to go down, with how far they have come.
    waiting: Vec<(PlaneId, Packet, usize)>,
    /// Streams that came together, by the plane their rain fell on, with how far they have come.
    gathered: BTreeMap<(Mouth, PlaneId), (f64, usize)>,
    /// What went down each downspout.
    carried: BTreeMap<(DownspoutId, PlaneId), f64>,
    /// Streams that gutters took at the end of an eave.
    throats: BTreeMap<(GutterId, NodeId), f64>,
    open_ends: BTreeMap<EdgeId, Vec<NodeId>>,
}

impl<'r, 'a> Run<'r, 'a> {
    fn of(router: &'r Router<'a>) -> Self {
        Self {
            router,
            edges: vec![EdgeFlow::default(); router.roof.edges.len()],
            openings: vec![
                OpeningFlow { behind: Area::ZERO, streams: Area::ZERO, sides: [Area::ZERO; 2] };
                router.roof.openings.len()
            ],
            falls: BTreeMap::new(),
            outlets: BTreeMap::new(),
            circles: 0.0,
            drips: Vec::new(),
            waiting: Vec::new(),
            gathered: BTreeMap::new(),
            carried: BTreeMap::new(),
            throats: BTreeMap::new(),
            open_ends: BTreeMap::new(),
        }
    }

    fn follow(&mut self) {
        loop {
            while let Some((plane, packet, steps)) = self.waiting.pop() {
                self.goes_down(plane, packet, steps);
            }
            let highest =
                self.gathered.keys().copied().max_by(|a, b| self.mouth(a.0).total_cmp(&self.mouth(b.0)));
            let Some(key) = highest else { return };
            let Some((amount, steps)) = self.gathered.remove(&key) else { return };
            match key {
                (Mouth::End(edge, node), source) => self.goes_on((edge, node, source), amount, steps),
                (Mouth::Downspout(id), source) => self.pours(id, source, amount, steps),
            }
        }
    }

    /// Height of the place where streams come together.
    fn mouth(&self, mouth: Mouth) -> f64 {
        match mouth {
            Mouth::End(_, node) => self.height(node),
            Mouth::Downspout(id) => height_of(self.router.roof, self.router.channels.gutter(id.gutter).edge),
        }
    }

    /// A stream comes to where others come together with it. What has come far and is little does not end what has come less far: a level
    /// valley may send half of its water round to itself, again and again.
    fn joins(&mut self, mouth: Mouth, source: PlaneId, amount: f64, steps: usize) {
        let (sum, shortest) = self.gathered.entry((mouth, source)).or_insert((0.0, steps));
        *sum += amount;
        *shortest = steps.min(*shortest);
    }

    fn height(&self, node: NodeId) -> f64 {
        self.router.roof.node(node).at[2]
    }

    /// Whether water has gone on from part to part for so long that it never ends; then it is counted.
    fn goes_round(&mut self, steps: usize, amount: f64) -> bool {
        if steps > LONGEST_WAY {
            self.circles += amount;
        }
        steps > LONGEST_WAY
    }

    fn leaves(&mut self, kind: OutletKind, amount: f64, source: PlaneId) {
        *self.outlets.entry((kind, source)).or_insert(0.0) += amount;
    }

    fn goes_down(&mut self, plane: PlaneId, packet: Packet, steps: usize) {
        let descent = &self.router.descents[plane.0];
        let goes_round = self.goes_round(steps, packet.flow.amount());
        if descent.is_level() || goes_round {
            return self.leaves(OutletKind::StandsOn(plane), packet.flow.amount(), packet.source);
        }
        for (stop, flow) in descent.down(&packet.flow) {
            self.arrives(stop, plane, Packet { flow, ..packet }, steps + 1);
        }
    }

    /// Water of a plane at the border below it.
    fn arrives(&mut self, stop: Stop, plane: PlaneId, packet: Packet, steps: usize) {
        let id = match stop {
            Stop::Opening(i) => return self.parts(i, plane, packet, steps),
            Stop::LowSide => return self.waiting.push((plane, packet, steps)),
            Stop::Edge(id) => id,
        };
        self.record(id, &packet);
        match self.router.turn(id, plane) {
            Turn::Along => self.collects(id, &packet, steps),
            Turn::Off => self.falls(id, plane, packet, steps),
            Turn::Over(next) => self.waiting.push((next, packet, steps)),
            Turn::Stands => self.leaves(OutletKind::StandsAt(id), packet.flow.amount(), packet.source),
        }
    }

    fn record(&mut self, id: EdgeId, packet: &Packet) {
        let along = |p: P2| self.router.along(id, p);
        let (mut span, mut depth) = match packet.flow {
            Flow::Line(line) => (line.ends.map(along), line.per_m),
            Flow::Stream(stream) => ([along(stream.at); 2], [0.0; 2]),
        };
        if span[0] > span[1] {
            span.reverse();
            depth.reverse();
        }
        self.edges[id.0].inflows.push(Inflow {
            span: span.map(Length::from_m),
            depth: depth.map(Length::from_m),
            amount: Area::from_m2(packet.flow.amount()),
            source: packet.source,
        });
    }

    /// Water behind an opening parts in the middle and runs down beside it.
    fn parts(&mut self, opening: usize, plane: PlaneId, packet: Packet, steps: usize) {
        let amount = Area::from_m2(packet.flow.amount());
        self.openings[opening].behind += amount;
        if matches!(packet.flow, Flow::Stream(_)) {
            self.openings[opening].streams += amount;
        }
        let rim = &self.router.rims[opening];
        let descent = &self.router.descents[plane.0];
        let side = |p: P2| descent.local(p)[0] - descent.local(rim.parting())[0];
        for (end, amount) in halves(&packet.flow, side, rim.parting()).into_iter().enumerate() {
            self.openings[opening].sides[end] += Area::from_m2(amount);
            if amount > 0.0 {
                let stream = |at| Packet { flow: Flow::Stream(Stream { at, amount }), ..packet };
                match rim.aside(end) {
                    Aside::Down(at) => self.waiting.push((plane, stream(at), steps)),
                    Aside::Onto(edge, at) => self.arrives(Stop::Edge(edge), plane, stream(at), steps + 1),
                }
            }
        }
    }

    /// Water on an edge that gathers, on its way to the end.
    fn collects(&mut self, id: EdgeId, packet: &Packet, steps: usize) {
        let router = self.router;
        let ends = self.open_ends.entry(id).or_insert_with(|| router.open_ends(id)).clone();
        let amount = packet.flow.amount();
        if ends.is_empty() {
            return self.leaves(OutletKind::StandsAt(id), amount, packet.source);
        }
        for end in &ends {
            self.joins(Mouth::End(id, *end), packet.source, amount / ends.len() as f64, steps);
        }
    }

    /// A stream at the end of an edge that gathers.
    fn goes_on(&mut self, (id, node, source): (EdgeId, NodeId, PlaneId), amount: f64, steps: usize) {
        let stream = |at| Packet { flow: Flow::Stream(Stream { at, amount }), source };
        match self.router.outfall(id, node) {
            _ if self.goes_round(steps, amount) => self.leaves(OutletKind::StandsAt(id), amount, source),
            Outfall::Plane(plane, at) => match self.router.behind(id, plane, at) {
                Some((opening, back)) => self.parts(opening, plane, stream(back), steps + 1),
                None => self.waiting.push((plane, stream(at), steps + 1)),
            },
            Outfall::Edge(next) => {
                let packet = stream(flat(self.router.roof.node(node).at));
                self.record(next, &packet);
                self.collects(next, &packet, steps + 1);
            }
            Outfall::Falls(at) => self.stream_falls(node, stream(at), at, steps + 1),
            Outfall::None => self.leaves(OutletKind::StandsAt(id), amount, source),
        }
    }

    fn stream_falls(&mut self, node: NodeId, packet: Packet, at: P2, steps: usize) {
        let amount = packet.flow.amount();
        if let Some(id) = self.router.channels.serving_end(self.router.roof, node) {
            *self.throats.entry((id.gutter, node)).or_insert(0.0) += amount;
            return self.joins(Mouth::Downspout(id), packet.source, amount, steps);
        }
        if let Some(plane) = self.router.layers.below_stream(at, self.height(node)) {
            return self.stream_lands(Spill::End(node), plane, packet, at, steps);
        }
        self.drips(Spill::End(node), &packet.flow);
        self.leaves(OutletKind::OffEnd(node), amount, packet.source);
    }

    /// A stream comes onto a roof, and runs on along a wall close by.
    fn stream_lands(&mut self, from: Spill, plane: PlaneId, packet: Packet, at: P2, steps: usize) {
        let wall = self.router.splashed_wall(plane, at);
        let amount = packet.flow.amount();
        *self.falls.entry((from, plane, wall.map(|(e, _)| e), packet.source)).or_insert(0.0) += amount;
        match wall {
            Some((wall, at)) => {
                let packet = Packet { flow: Flow::Stream(Stream { at, amount }), ..packet };
                self.record(wall, &packet);
                self.collects(wall, &packet, steps);
            }
            None => self.waiting.push((plane, packet, steps)),
        }
    }

    /// What a downspout carries, at its foot.
    fn pours(&mut self, id: DownspoutId, source: PlaneId, amount: f64, steps: usize) {
        *self.carried.entry((id, source)).or_insert(0.0) += amount;
        let (roof, channels) = (self.router.roof, &self.router.channels);
        let stream = |at| Packet { flow: Flow::Stream(Stream { at, amount }), source };
        let goes_round = self.goes_round(steps, amount);
        match channels.downspout(id).to {
            Discharge::Gutter(lower) if !goes_round => {
                let from = point_at(roof, channels.gutter(id.gutter).edge, channels.downspout(id).at);
                let edge = channels.gutter(lower).edge;
                let along = self.router.along(edge, from);
                if let Some(next) = channels.serving(edge, along) {
                    return self.joins(Mouth::Downspout(next), source, amount, steps + 1);
                }
                let at = point_at(roof, edge, Length::from_m(along));
                self.spills(edge, roof.edge(edge).planes[0], stream(at), steps + 1);
            }
            Discharge::Roof { plane, at } if !goes_round => {
                self.stream_lands(Spill::Downspout(id), plane, stream(at), at, steps + 1);
            }
            _ => self.leaves(OutletKind::Downspout(id), amount, source),
        }
    }

    /// Water over a free edge of a plane: into the gutter that hangs there, or past it.
    fn falls(&mut self, id: EdgeId, plane: PlaneId, packet: Packet, steps: usize) {
        let router = self.router;
        for (downspout, flow) in router.channels.parts(id, &packet.flow, |p| router.along(id, p)) {
            match downspout {
                Some(to) => self.joins(Mouth::Downspout(to), packet.source, flow.amount(), steps),
                None => self.spills(id, plane, Packet { flow, ..packet }, steps),
            }
        }
    }

    /// Water over a free edge that nothing catches.
    fn spills(&mut self, id: EdgeId, plane: PlaneId, packet: Packet, steps: usize) {
        let source = self.router.roof.plane(plane);
        let out = self.router.out(plane);
        let parts = match packet.flow {
            Flow::Line(line) => {
                let heights = line.ends.map(|p| source.height_at(p));
                self.router.layers.parts(&line.moved(out), heights)
            }
            Flow::Stream(s) => {
                let at = along(s.at, out, 1.0);
                vec![(self.router.below_edge(id, plane, s.at), Flow::Stream(Stream { at, ..s }))]
            }
        };
        for (below, flow) in parts {
            let Some(next) = below else {
                self.drips(Spill::Edge(id), &flow);
                self.leaves(OutletKind::OffEdge(id), flow.amount(), packet.source);
                continue;
            };
            *self.falls.entry((Spill::Edge(id), next, None, packet.source)).or_insert(0.0) += flow.amount();
            self.waiting.push((next, Packet { flow, ..packet }, steps));
        }
    }

    /// Water on its way to the ground.
    fn drips(&mut self, from: Spill, flow: &Flow) {
        let (ends, depth) = match flow {
            Flow::Line(line) => (line.ends, line.per_m),
            Flow::Stream(stream) => ([stream.at; 2], [0.0; 2]),
        };
        let (depth, amount) = (depth.map(Length::from_m), Area::from_m2(flow.amount()));
        self.drips.push(Drip { from, ends, depth, amount });
    }

    fn finish(self, rain: Area) -> Water {
        let outlets = self.outlets.into_iter().map(|((kind, source), amount)| Outlet {
            kind,
            amount: Area::from_m2(amount),
            source,
        });
        let falls = self.falls.into_iter().map(|((from, onto, beside, source), amount)| Fall {
            source,
            from,
            onto,
            beside,
            amount: Area::from_m2(amount),
        });
        let gutters = self.router.channels.gutters.iter().enumerate().map(|(g, hung)| {
            let gutter = GutterId(g);
            let of = |index| DownspoutFlow { sources: sources(&self.carried, DownspoutId { gutter, index }) };
            let throats = self.throats.iter().filter(|((id, _), _)| *id == gutter);
            GutterFlow {
                downspouts: (0..hung.downspouts.len()).map(of).collect(),
                throats: throats
                    .map(|((_, node), amount)| Throat { node: *node, amount: Area::from_m2(*amount) })
                    .collect(),
            }
        });
        Water {
            gutters: gutters.collect(),
            edges: self.edges,
            openings: self.openings,
            falls: falls.collect(),
            outlets: outlets.collect(),
            drips: self.drips,
            rain,
            circles: Area::from_m2(self.circles),
        }
    }
}

/// What went down one downspout, by the plane its rain fell on.
fn sources(carried: &BTreeMap<(DownspoutId, PlaneId), f64>, id: DownspoutId) -> BTreeMap<PlaneId, Area> {
    let of = carried.range((id, PlaneId(0))..=(id, PlaneId(usize::MAX)));
    of.map(|((_, plane), amount)| (*plane, Area::from_m2(*amount))).collect()
}

/// How much of a flow goes to either side of a point of its line: `side` is negative on the first.
fn halves(flow: &Flow, side: impl Fn(P2) -> f64, parting: P2) -> [f64; 2] {
    match flow {
        Flow::Stream(s) if side(s.at) == 0.0 => [0.5 * s.amount; 2],
        Flow::Stream(s) if side(s.at) < 0.0 => [s.amount, 0.0],
        Flow::Stream(s) => [0.0, s.amount],
        Flow::Line(line) => {
            let t = line.part_at(parting).clamp(0.0, 1.0);
            let (first, last) = (line.part(0.0, t).amount(), line.part(t, 1.0).amount());
            if side(line.ends[0]) < side(line.ends[1]) { [first, last] } else { [last, first] }
        }
    }
}
