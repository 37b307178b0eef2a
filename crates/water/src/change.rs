//! What is otherwise between two ways of draining one roof.

use std::collections::BTreeSet;

use measure::Area;
use roof::EdgeId;

use crate::flow::{OutletKind, Water};
use crate::hung::{DownspoutId, GutterId};

/// Catchments that differ by less are the same, square metres: far below what anybody sees.
const SAME: f64 = 1e-6;

/// A catchment that is another one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// Where.
    pub place: Place,
    /// Its catchment before.
    pub before: Area,
    /// And now.
    pub now: Area,
}

/// Where water can be more or less.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// What comes to an edge.
    Edge(EdgeId),
    /// What a downspout carries.
    Downspout(DownspoutId),
    /// What leaves otherwise than by a downspout, or stands.
    Outlet(OutletKind),
}

impl Water {
    /// What is otherwise than before on the same roof with the same gutters: edges, downspouts, then where water leaves.
    pub fn changes(&self, before: &Self) -> Vec<Change> {
        let edges = (0..self.edges.len()).map(|i| Place::Edge(EdgeId(i)));
        let spouts = self.gutters.iter().enumerate().flat_map(|(g, gutter)| {
            let of = move |index| Place::Downspout(DownspoutId { gutter: GutterId(g), index });
            (0..gutter.downspouts.len()).map(of)
        });
        let kinds: BTreeSet<OutletKind> =
            self.outlets.iter().chain(&before.outlets).map(|o| o.kind).collect();
        let outlets = kinds.into_iter().filter(|k| !matches!(k, OutletKind::Downspout(_))).map(Place::Outlet);
        let change = |place| Change { place, before: before.at(place), now: self.at(place) };
        let all = edges.chain(spouts).chain(outlets).map(change);
        all.filter(|c| (c.now - c.before).m2().abs() > SAME).collect()
    }

    fn at(&self, place: Place) -> Area {
        match place {
            Place::Edge(id) => self.edge(id).catchment(),
            Place::Downspout(id) => self.gutters[id.gutter.0].downspouts[id.index].catchment(),
            Place::Outlet(kind) => self.leaving(kind),
        }
    }
}
