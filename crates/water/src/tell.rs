//! Findings in words.

use roof::{EdgeId, Roof};

use crate::finding::Finding;
use crate::flow::Spill;
use crate::hang::{DownspoutId, HungGutter};
use crate::outfall::gathers;

impl Finding {
    /// Key in program output: lower case, words joined by `_`.
    pub const fn key(&self) -> &'static str {
        match self {
            Self::StandsAt(..) => "stands_at_edge",
            Self::StandsOn(..) => "stands_on_plane",
            Self::DeadValley(..) => "dead_valley",
            Self::MeetsWall(..) => "meets_wall",
            Self::StreamBesideWall { .. } => "stream_beside_wall",
            Self::StreamOntoRoof { .. } => "stream_onto_roof",
            Self::OpeningInStream(..) => "opening_in_stream",
            Self::DripsOnRoof { .. } => "drips_on_roof",
        }
    }

    /// What is there, without its amount; edges by their numbers on papers, gutters by their names.
    pub fn told(&self, roof: &Roof, gutters: &[HungGutter]) -> String {
        let edge = |id: EdgeId| named(roof, id);
        let plane = |id: roof::PlaneId| &roof.plane(id).name;
        match *self {
            Self::StandsAt(id, _) => format!("water stands at {}: it has no way out", edge(id)),
            Self::StandsOn(id, _) => format!("water stands on {}", plane(id)),
            Self::DeadValley(id, _) => format!("{} has no fall of its own", edge(id)),
            Self::MeetsWall(id, _) => format!("water runs into {}", edge(id)),
            Self::StreamBesideWall { from, wall, .. } => {
                format!("the stream of {} falls beside {}", spill(roof, gutters, from), edge(wall))
            }
            Self::StreamOntoRoof { from, onto, .. } => {
                format!("the stream of {} falls onto {}", spill(roof, gutters, from), plane(onto))
            }
            Self::OpeningInStream(i, _) => {
                format!("opening `{}` stands in a stream", roof.openings[i].name)
            }
            Self::DripsOnRoof { edge: id, onto, .. } => format!("{} drips on {}", edge(id), plane(onto)),
        }
    }
}

/// An edge by kind and number, with the wall it runs along.
fn named(roof: &Roof, id: EdgeId) -> String {
    let edge = roof.edge(id);
    let name = format!("{} {}", edge.kind.name(), id.number());
    match &edge.wall_of {
        Some(block) => format!("{name} (wall of {block})"),
        None => name,
    }
}

/// What water falls from, by name.
fn spill(roof: &Roof, gutters: &[HungGutter], from: Spill) -> String {
    match from {
        Spill::Edge(id) => named(roof, id),
        Spill::Downspout(id) => downspout(gutters, id).to_owned(),
        Spill::End(node) => {
            let names: Vec<String> = (roof.node(node).edges.iter())
                .filter(|e| gathers(roof.edge(**e).kind))
                .map(|e| named(roof, *e))
                .collect();
            names.join(" and ")
        }
    }
}

/// A downspout by name.
fn downspout(gutters: &[HungGutter], id: DownspoutId) -> &str {
    &gutters[id.gutter.0].downspouts[id.index].name
}
