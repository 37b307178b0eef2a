//! The measured roof as tables.

use comfy_table::{CellAlignment, Table, presets};
use job::Units;
use measure::Length;
use roof::{EdgeId, EdgeKind, PlaneId, Roof};
use study::Study;
use takeoff::{Assumed, Of};

/// Planes, edges and openings of a roof.
pub(super) fn text(study: &Study) -> String {
    let (roof, units, assumed) = (&study.roof, study.job.units, &study.takeoff.assumed);
    let mut parts = vec![planes(roof, units, assumed).to_string(), edges(roof, units, assumed).to_string()];
    if !roof.openings.is_empty() {
        parts.push(openings(roof, units, assumed).to_string());
    }
    parts.push(sums(roof, units, assumed).to_string());
    parts
        .extend(parts.concat().contains(MARK).then(|| format!("{MARK}: a reading nobody took is behind it")));
    parts.join("\n\n")
}

/// Stands after what rests on a reading nobody took.
const MARK: char = '◊';

fn marked(text: String, is_assumed: bool) -> String {
    if is_assumed { format!("{text} {MARK}") } else { text }
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

fn planes(roof: &Roof, units: Units, assumed: &Assumed) -> Table {
    let mut table = table(&["plane", "pitch", "falls to", "plan", "slope", "squares"], 3);
    let is_assumed = |id: usize| assumed.touches(Of::Area(PlaneId(id)));
    for (i, plane) in roof.planes.iter().enumerate() {
        table.add_row([
            plane.name.clone(),
            units.pitch(plane.pitch),
            format!("{:.0}°", plane.azimuth_degrees),
            marked(units.area(plane.plan_area), is_assumed(i)),
            marked(units.area(plane.slope_area), is_assumed(i)),
            marked(format!("{:.2}", plane.slope_area.squares()), is_assumed(i)),
        ]);
    }
    let is_any = (0..roof.planes.len()).any(is_assumed);
    table.add_row([
        "whole roof".to_owned(),
        String::new(),
        String::new(),
        marked(units.area(roof.plan_area()), is_any),
        marked(units.area(roof.slope_area()), is_any),
        marked(format!("{:.2}", roof.slope_area().squares()), is_any),
    ]);
    table
}

fn edges(roof: &Roof, units: Units, assumed: &Assumed) -> Table {
    let mut table = table(&["edge", "kind", "planes", "from", "to", "length"], 5);
    for (i, edge) in roof.edges.iter().enumerate() {
        table.add_row([
            (i + 1).to_string(),
            edge.kind.name().to_owned(),
            between(roof, EdgeId(i)),
            roof.node(edge.from).kind.name().to_owned(),
            roof.node(edge.to).kind.name().to_owned(),
            marked(units.length(edge.length), assumed.touches(Of::Length(EdgeId(i)))),
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

fn openings(roof: &Roof, units: Units, assumed: &Assumed) -> Table {
    let mut table = table(&["opening", "kind", "plane", "nearest edges, in plan from its centre"], 4);
    for opening in &roof.openings {
        let near = opening.distances.iter().take(3).map(|d| {
            let text = format!(
                "{} to {} {}",
                units.length(d.plan_from_centre),
                roof.edge(d.edge).kind.name(),
                d.edge.number()
            );
            marked(text, assumed.touches(Of::Line(d.edge)))
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

fn sums(roof: &Roof, units: Units, assumed: &Assumed) -> Table {
    let mut table = table(&["all edges", "length"], 1);
    for kind in EdgeKind::ALL {
        let sum = roof.length_of(kind);
        if sum > Length::ZERO {
            let is_assumed = (0..roof.edges.len()).map(EdgeId);
            let is_assumed =
                is_assumed.filter(|id| roof.edge(*id).kind == kind).any(|id| assumed.touches(Of::Length(id)));
            table.add_row([kind.name().to_owned(), marked(units.length(sum), is_assumed)]);
        }
    }
    table
}
