//! The measured roof as tables.

use comfy_table::{CellAlignment, Table, presets};
use job::Units;
use measure::Length;
use roof::{EdgeId, EdgeKind, Roof};

/// Planes, edges and openings of a roof.
pub(super) fn text(roof: &Roof, units: Units) -> String {
    let mut parts = vec![planes(roof, units).to_string(), edges(roof, units).to_string()];
    if !roof.openings.is_empty() {
        parts.push(openings(roof, units).to_string());
    }
    parts.push(sums(roof, units).to_string());
    parts.join("\n\n")
}

/// A table with a heading; columns from the given one on hold numbers.
pub(super) fn table(heading: &[&str], numbers_from: usize) -> Table {
    let mut table = Table::new();
    table.load_style(presets::UTF8_HORIZONTAL_ONLY).set_header(heading);
    for column in table.column_iter_mut().skip(numbers_from) {
        column.set_cell_alignment(CellAlignment::Right);
    }
    table
}

fn planes(roof: &Roof, units: Units) -> Table {
    let mut table = table(&["plane", "pitch", "falls to", "plan", "slope", "squares"], 3);
    for plane in &roof.planes {
        table.add_row([
            plane.name.clone(),
            units.pitch(plane.pitch),
            format!("{:.0}°", plane.azimuth_degrees),
            units.area(plane.plan_area),
            units.area(plane.slope_area),
            format!("{:.2}", plane.slope_area.squares()),
        ]);
    }
    table.add_row([
        "whole roof".to_owned(),
        String::new(),
        String::new(),
        units.area(roof.plan_area()),
        units.area(roof.slope_area()),
        format!("{:.2}", roof.slope_area().squares()),
    ]);
    table
}

fn edges(roof: &Roof, units: Units) -> Table {
    let mut table = table(&["edge", "kind", "planes", "from", "to", "length"], 5);
    for (i, edge) in roof.edges.iter().enumerate() {
        table.add_row([
            (i + 1).to_string(),
            edge.kind.name().to_owned(),
            between(roof, EdgeId(i)),
            roof.node(edge.from).kind.name().to_owned(),
            roof.node(edge.to).kind.name().to_owned(),
            units.length(edge.length),
        ]);
    }
    table
}

/// The planes an edge bounds and the wall it runs along.
fn between(roof: &Roof, id: EdgeId) -> String {
    let edge = roof.edge(id);
    let planes: Vec<&str> = edge.planes.iter().map(|p| roof.plane(*p).name.as_str()).collect();
    match &edge.wall_of {
        Some(block) => format!("{} | wall of {block}", planes.join(", ")),
        None => planes.join(" | "),
    }
}

fn openings(roof: &Roof, units: Units) -> Table {
    let mut table = table(&["opening", "kind", "plane", "nearest edges, in plan from its centre"], 4);
    for opening in &roof.openings {
        let near = opening.distances.iter().take(3).map(|d| {
            format!(
                "{} to {} {}",
                units.length(d.plan_from_centre),
                roof.edge(d.edge).kind.name(),
                d.edge.number()
            )
        });
        table.add_row([
            opening.name.clone(),
            opening.kind.key().to_owned(),
            roof.plane(opening.plane).name.clone(),
            near.collect::<Vec<_>>().join(", "),
        ]);
    }
    table
}

fn sums(roof: &Roof, units: Units) -> Table {
    let mut table = table(&["all edges", "length"], 1);
    for kind in EdgeKind::ALL {
        let sum = roof.length_of(kind);
        if sum > Length::ZERO {
            table.add_row([kind.name().to_owned(), units.length(sum)]);
        }
    }
    table
}
