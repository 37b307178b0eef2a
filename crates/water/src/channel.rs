//! Which downspout serves a place at an eave.
//!
//! Each place of a gutter runs to the outlet nearest to it: the gutter is highest halfway between two. Where that outlet is blocked,
//! or the whole gutter, the place is as if no gutter hung there.

use std::collections::{BTreeMap, BTreeSet};

use measure::Length;
use roof::plan::distance;
use roof::{EdgeId, EdgeKind, NodeId, Roof};

use crate::hung::{DownspoutId, GutterId, HungDownspout, HungGutter, Part};
use crate::packet::{Flow, Line};

/// The gutters of a roof, ready for water.
pub(crate) struct Channels<'a> {
    pub(crate) gutters: &'a [HungGutter],
    by_edge: BTreeMap<EdgeId, GutterId>,
    blocked: BTreeSet<Part>,
}

/// A length of gutter that runs to one outlet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leg {
    /// From here to there along the eave's edge, metres; without bound where no other outlet follows.
    pub span: [f64; 2],
    /// The outlet.
    pub downspout: DownspoutId,
}

impl<'a> Channels<'a> {
    pub(crate) fn of(gutters: &'a [HungGutter], blocked: &[Part]) -> Self {
        let by_edge = gutters.iter().enumerate().map(|(i, hung)| (hung.edge, GutterId(i))).collect();
        Self { gutters, by_edge, blocked: blocked.iter().copied().collect() }
    }

    pub(crate) fn gutter(&self, id: GutterId) -> &'a HungGutter {
        &self.gutters[id.0]
    }

    pub(crate) fn downspout(&self, id: DownspoutId) -> &'a HungDownspout {
        &self.gutter(id.gutter).downspouts[id.index]
    }

    /// The downspout that takes what comes to a place along an edge, if one does.
    pub(crate) fn serving(&self, edge: EdgeId, at: f64) -> Option<DownspoutId> {
        let gutter = *self.by_edge.get(&edge)?;
        let legs = legs(self.gutter(gutter), gutter);
        let leg = legs.iter().find(|leg| at <= leg.span[1]).or(legs.last())?;
        self.open(leg)
    }

    /// The downspout of a leg, unless that or the gutter is blocked.
    fn open(&self, leg: &Leg) -> Option<DownspoutId> {
        let parts = leg.downspout.parts();
        (!parts.iter().any(|part| self.blocked.contains(part))).then_some(leg.downspout)
    }

    /// The downspout that takes a stream which ends at a node: of the eaves there whose gutter does, that of the longest.
    pub(crate) fn serving_end(&self, roof: &Roof, node: NodeId) -> Option<DownspoutId> {
        let eaves = roof.node(node).edges.iter().filter(|e| roof.edge(**e).kind == EdgeKind::Eave);
        let serving = eaves.filter_map(|id| {
            let edge = roof.edge(*id);
            let at = if edge.from == node { Length::ZERO } else { edge.plan_length };
            Some((edge.length.m(), self.serving(*id, at.m())?))
        });
        serving.max_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, downspout)| downspout)
    }

    /// What comes over an edge in parts, each with the downspout that takes it. `along` tells where on the edge a point is.
    pub(crate) fn parts(
        &self,
        edge: EdgeId,
        flow: &Flow,
        along: impl Fn([f64; 2]) -> f64,
    ) -> Vec<(Option<DownspoutId>, Flow)> {
        let Some(gutter) = self.by_edge.get(&edge) else { return vec![(None, *flow)] };
        match flow {
            Flow::Stream(stream) => vec![(self.serving(edge, along(stream.at)), *flow)],
            Flow::Line(line) => {
                let [from, to] = line.ends.map(&along);
                let legs = legs(self.gutter(*gutter), *gutter);
                let changes = legs.windows(2).filter(|w| self.open(&w[0]) != self.open(&w[1]));
                let cuts = changes.map(|w| (w[0].span[1] - from) / (to - from));
                let pieces = cut(line, cuts);
                let served = |piece: &Line| self.serving(edge, along(piece.middle()));
                pieces.into_iter().map(|p| (served(&p), Flow::along(p, p.amount()))).collect()
            }
        }
    }
}

/// A line cut at parts of its length; those beyond its ends do not cut it.
fn cut(line: &Line, at: impl Iterator<Item = f64>) -> Vec<Line> {
    let mut cuts: Vec<f64> = at.filter(|t| *t > 0.0 && *t < 1.0).chain([0.0, 1.0]).collect();
    cuts.sort_by(f64::total_cmp);
    cuts.dedup();
    cuts.windows(2)
        .map(|w| line.part(w[0], w[1]))
        .filter(|piece| distance(piece.ends[0], piece.ends[1]) > 0.0)
        .collect()
}

/// The lengths of a gutter by the outlet nearest to them, in order; from end to end of the eave for whoever asks beyond.
pub fn legs(hung: &HungGutter, gutter: GutterId) -> Vec<Leg> {
    let mut order: Vec<usize> = (0..hung.downspouts.len()).collect();
    order.sort_by(|a, b| hung.downspouts[*a].at.m().total_cmp(&hung.downspouts[*b].at.m()));
    let at = |k: usize| hung.downspouts[order[k]].at.m();
    let high = |k: usize| 0.5 * (at(k) + at(k + 1));
    let last = order.len().saturating_sub(1);
    let leg = |k: usize| Leg {
        span: [
            if k == 0 { f64::NEG_INFINITY } else { high(k - 1) },
            if k == last { f64::INFINITY } else { high(k) },
        ],
        downspout: DownspoutId { gutter, index: order[k] },
    };
    (0..order.len()).map(leg).collect()
}
