//! Edges as rows.

use job::Units;
use measure::Pitch;
use roof::{Edge, EdgeId, Node, NodeKind, Roof};
use study::Study;
use takeoff::Of;

use super::words::stated;
use crate::{EdgeRow, Stated};

pub(super) fn rows(study: &Study) -> Vec<EdgeRow> {
    let row = |i: usize| {
        let edge = study.roof.edge(EdgeId(i));
        let assumed = study.takeoff.assumed.touches(Of::Length(EdgeId(i)));
        EdgeRow {
            number: EdgeId(i).number().to_string(),
            kind: edge.kind.name().to_owned(),
            length: stated(study.job.units.length(edge.length), assumed),
            slope: Stated::measured(slope(edge, study.job.units)),
            planes: between(&study.roof, edge),
            from: end(&study.roof, edge, study.roof.node(edge.from), study.job.units, true),
            to: end(&study.roof, edge, study.roof.node(edge.to), study.job.units, false),
        }
    };
    (0..study.roof.edges.len()).map(row).collect()
}

fn slope(edge: &Edge, units: Units) -> String {
    let pitch = Pitch::from_slope(edge.slope);
    match units {
        _ if edge.slope < 1e-3 => "level".to_owned(),
        Units::Us => format!("{}/12", (pitch.rise_per_12() * 100.0).round() / 100.0),
        Units::Si => format!("{:.1}°", pitch.degrees()),
    }
}

/// The planes an edge bounds, and what it runs along or above.
fn between(roof: &Roof, edge: &Edge) -> String {
    let planes: Vec<&str> = edge.planes.iter().map(|p| roof.plane(*p).name.as_str()).collect();
    let mut text = planes.join(" | ");
    if let Some(block) = &edge.wall_of {
        text = format!("{text} | {block} wall");
    }
    let over: Vec<&str> = edge.over.iter().map(|b| roof.plane(b.plane).name.as_str()).collect();
    if !over.is_empty() {
        text = format!("{text}, above {}", over.join(", "));
    }
    text
}

/// What an end of an edge is; a throat tells how near it is to a wall.
fn end(roof: &Roof, edge: &Edge, node: &Node, units: Units, low: bool) -> String {
    let name = node.kind.name().to_owned();
    let is_throat = matches!(node.kind, NodeKind::ValleyThroat | NodeKind::ValleyDeadEnd);
    match edge.wall_near_low_end.as_ref().filter(|_| low && is_throat) {
        Some(near) => {
            let kind = roof.edge(near.edge).kind.name();
            format!("{name}, {} from {kind} {}", units.length(near.distance), near.edge.number())
        }
        None => name,
    }
}
