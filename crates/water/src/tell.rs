//! Findings in words.

use job::Units;
use measure::Length;
use roof::{EdgeId, EdgeKind, NodeId, Roof};

use crate::finding::{Finding, Splash};
use crate::flow::Spill;
use crate::hung::{DownspoutId, GutterId, HungGutter};
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
            Self::DripsOnWalk { .. } => "drips_on_walk",
            Self::DownspoutOntoWalk { .. } => "downspout_onto_walk",
            Self::DripsOnRoof { .. } => "drips_on_roof",
            Self::DownspoutOntoRoof { .. } => "downspout_onto_roof",
            Self::EndAtWall(..) => "gutter_end_at_wall",
            Self::GutterOverloaded(..) => "gutter_overloaded",
            Self::DownspoutOverloaded(..) => "downspout_overloaded",
            Self::NoDownspout(..) => "no_downspout",
            Self::SplashOver { .. } => "splash_over",
            Self::RunTooLong { .. } => "gutter_run_too_long",
            Self::FallOutOfRange { .. } => "gutter_fall_out_of_range",
        }
    }

    /// What is there, without its amount; edges by their numbers on papers, gutters by their names.
    pub fn told(&self, roof: &Roof, gutters: &[HungGutter], units: Units) -> String {
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
            Self::DripsOnWalk { from, walk, .. } => {
                let name = &roof.walks[walk].name;
                format!("{} drips on `{name}`: a gutter keeps it clear of ice", spill(roof, gutters, from))
            }
            Self::DownspoutOntoWalk { downspout: id, walk, .. } => {
                let name = &roof.walks[walk].name;
                format!(
                    "{} lets its water go on `{name}`: lead it past, or into a drain",
                    downspout(gutters, id)
                )
            }
            Self::DripsOnRoof { edge: id, onto, .. } => format!("{} drips on {}", edge(id), plane(onto)),
            Self::DownspoutOntoRoof { downspout: id, onto, .. } => {
                format!("{} empties on {}: pipe it to the gutter below", downspout(gutters, id), plane(onto))
            }
            Self::SplashOver { gutter: id, at, asks, .. } => format!(
                "{} shoots into the corner of {}: {}",
                valleys(roof, at),
                gutter(gutters, id),
                splash(asks, units)
            ),
            Self::EndAtWall(id, _) => format!("{} ends at a wall: stop it short", gutter(gutters, id)),
            Self::GutterOverloaded(id, _) => format!("{} is too small for what comes", gutter(gutters, id)),
            Self::DownspoutOverloaded(id, _) => {
                format!("{} is too small for what comes", downspout(gutters, id))
            }
            Self::NoDownspout(id, _) => format!("{} has no downspout and runs over", gutter(gutters, id)),
            Self::RunTooLong { downspout: id, serves, one_way, .. } => {
                format!("{} {}", downspout(gutters, id), run(serves, one_way, units))
            }
            Self::FallOutOfRange { gutter: id, is_steep, .. } => {
                format!("{} falls too {}", gutter(gutters, id), if is_steep { "steeply" } else { "little" })
            }
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
        Spill::Downspout(id) => downspout(gutters, id),
        Spill::End(node) => {
            let names: Vec<String> = (roof.node(node).edges.iter())
                .filter(|e| gathers(roof.edge(**e).kind))
                .map(|e| named(roof, *e))
                .collect();
            names.join(" and ")
        }
    }
}

/// The valleys that end at a node.
fn valleys(roof: &Roof, node: NodeId) -> String {
    let edges = roof.node(node).edges.iter().filter(|e| roof.edge(**e).kind == EdgeKind::Valley);
    edges.map(|e| named(roof, *e)).collect::<Vec<_>>().join(" and ")
}

/// What an inside corner takes.
fn splash(asks: Splash, units: Units) -> String {
    let mut parts = vec!["it takes a splash guard".to_owned()];
    parts.extend(asks.wider.map(|width| format!("a gutter {} wide", units.lap(width))));
    parts.extend(asks.outlet_within.map(|reach| format!("an outlet within {}", units.length(reach))));
    parts.extend(asks.split.then(|| "part of the flow led elsewhere".to_owned()));
    parts.join(", ")
}

/// What is too long about the run to an outlet.
fn run(serves: Option<Length>, one_way: Option<Length>, units: Units) -> String {
    let all = serves.map(|most| format!("serves more than {} of gutter", units.length(most)));
    let side = one_way.map(|most| {
        format!("takes more than {} of it from one side: let it fall both ways", units.length(most))
    });
    all.into_iter().chain(side).collect::<Vec<_>>().join(" and ")
}

/// A gutter by name.
fn gutter(gutters: &[HungGutter], id: GutterId) -> String {
    format!("gutter `{}`", gutters[id.0].name)
}

/// A downspout by name.
fn downspout(gutters: &[HungGutter], id: DownspoutId) -> String {
    format!("downspout `{}`", gutters[id.gutter.0].downspouts[id.index].name)
}
