//! Water that runs along lines of the roof, growing on its way: in valleys, beside walls, in gutters.

use measure::{Area, Length};
use roof::plan::{P2, flat};
use roof::{EdgeId, EdgeKind, Family, Roof};
use water::{Discharge, DownspoutId, Drainage, GutterId, HungGutter, Water, legs, place_along, point_at};

/// Places at which a current is gauged between its ends.
const PLACES: u32 = 12;
/// Ends of an edge closer in height than this are level, metres: 1/4 in, what walls of a tape survey may miss by.
const LEVEL: f64 = 0.006_35;

/// Water along a line.
#[derive(Clone, Debug)]
pub(super) struct Current {
    /// The edge it runs along, or hangs at.
    pub(super) edge: EdgeId,
    /// Whether it runs in a gutter outside the edge.
    pub(super) in_gutter: bool,
    /// On the plan, the way it runs.
    pub(super) ends: [P2; 2],
    /// What passes, as catchment, at even places from end to end.
    pub(super) passing: Vec<Area>,
}

impl Current {
    /// What it carries at its end.
    pub(super) fn amount(&self) -> Area {
        self.passing.iter().copied().fold(Area::ZERO, Area::max)
    }
}

/// Along edges that gather and fall.
pub(super) fn along_edges(roof: &Roof, water: &Water) -> Vec<Current> {
    let current = |i: usize| {
        let (id, edge) = (EdgeId(i), &roof.edges[i]);
        let [low, high] = roof.ends(id);
        let gathers = edge.kind.family() == Family::Gathers || edge.kind == EdgeKind::Rake;
        let flow = water.edge(id);
        if !gathers || high[2] - low[2] < LEVEL || flow.catchment() == Area::ZERO {
            return None;
        }
        let length = edge.plan_length;
        let passing = shares().map(|share| flow.passing(length * (1.0 - share)));
        Some(Current {
            edge: id,
            in_gutter: false,
            ends: [flat(high), flat(low)],
            passing: passing.collect(),
        })
    };
    (0..roof.edges.len()).filter_map(current).collect()
}

fn shares() -> impl Iterator<Item = f64> {
    (0..=PLACES).map(|i| f64::from(i) / f64::from(PLACES))
}

/// In the gutters, to each downspout from both sides.
pub(super) fn in_gutters(roof: &Roof, drainage: &Drainage) -> Vec<Current> {
    let hung = drainage.gutters.iter().enumerate();
    hung.flat_map(|(g, gutter)| Channel { roof, drainage, id: GutterId(g), gutter }.currents()).collect()
}

/// A gutter with what comes to it.
struct Channel<'a> {
    roof: &'a Roof,
    drainage: &'a Drainage,
    id: GutterId,
    gutter: &'a HungGutter,
}

impl Channel<'_> {
    fn currents(&self) -> Vec<Current> {
        let whole = self.roof.edge(self.gutter.edge).plan_length;
        let open = legs(self.gutter, self.id).into_iter().filter(|leg| !self.is_blocked(leg.downspout));
        let currents = open.flat_map(|leg| {
            let to = self.gutter.downspouts[leg.downspout.index].at;
            leg.span.map(|end| self.current(Length::from_m(end.clamp(0.0, whole.m())), to))
        });
        currents.flatten().collect()
    }

    fn is_blocked(&self, downspout: DownspoutId) -> bool {
        downspout.parts().iter().any(|part| self.drainage.blocked.contains(part))
    }

    /// From where the gutter is highest, or ends, to a downspout.
    fn current(&self, from: Length, to: Length) -> Option<Current> {
        let place = |share: f64| from + (to - from) * share;
        let passing: Vec<Area> = shares().map(|share| self.between(from, place(share))).collect();
        let on = |at: Length| point_at(self.roof, self.gutter.edge, at);
        let current = Current { edge: self.gutter.edge, in_gutter: true, ends: [from, to].map(on), passing };
        (current.amount() > Area::ZERO).then_some(current)
    }

    /// What comes into the gutter between two places.
    fn between(&self, a: Length, b: Length) -> Area {
        let edge = self.roof.edge(self.gutter.edge);
        let (low, high) = (a.min(b), a.max(b));
        let flow = self.drainage.water.edge(self.gutter.edge);
        let past = |at: Length| if at >= edge.plan_length { Area::ZERO } else { flow.passing(at) };
        let inside = |at: Length| at >= low && at <= high;
        let at_end = |node| if edge.from == node { Length::ZERO } else { edge.plan_length };
        let throats = &self.drainage.water.gutters[self.id.0].throats;
        let streams = throats.iter().filter(|throat| inside(at_end(throat.node))).map(|throat| throat.amount);
        let poured = self.poured().into_iter().filter(|(at, _)| inside(*at)).map(|(_, amount)| amount);
        past(low) - past(high) + streams.chain(poured).sum()
    }

    /// What upper downspouts bring, and where.
    fn poured(&self) -> Vec<(Length, Area)> {
        let mut all = Vec::new();
        for (gutter, flow) in self.drainage.gutters.iter().zip(&self.drainage.water.gutters) {
            for (spout, flow) in gutter.downspouts.iter().zip(&flow.downspouts) {
                if spout.to == Discharge::Gutter(self.id) {
                    let foot = point_at(self.roof, gutter.edge, spout.at);
                    all.push((place_along(self.roof, self.gutter.edge, foot), flow.catchment()));
                }
            }
        }
        all
    }
}
