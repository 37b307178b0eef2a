//! Edges of a block: for each wall line its plate, what rises from it and how far the roof reaches out.

use measure::Length;

use super::footprint::{Contour, Footprint};
use super::form::FormDraft;
use super::overhangs::OverhangReader;
use super::slopes::slopes;
use crate::read::notation::{Reaches, Sided};
use crate::read::table::Table;
use crate::suggest::listed;
use crate::{Basis, BlockEdge, EdgeSlope, Figure, Problem, Side};

/// What the edges of a block are made from.
pub(super) struct Edging<'b> {
    pub(super) footprint: &'b Footprint,
    pub(super) roof: &'b FormDraft,
    pub(super) plate: Sided<Figure<Length>>,
    pub(super) reaches: Reaches,
}

/// The edges of all contours; none after reporting what is missing.
pub(super) fn edges(edging: &Edging<'_>, table: &mut Table<'_, '_>) -> Option<Vec<Vec<BlockEdge>>> {
    let slopes = slopes(edging.footprint, edging.roof, table)?;
    require_plates(edging, &slopes, table)?;
    let mut overhangs = OverhangReader::new(&edging.reaches);
    let contours = edging.footprint.contours.iter().zip(slopes);
    let edges: Vec<Option<Vec<BlockEdge>>> = contours
        .map(|(contour, slopes)| {
            let sides = contour.sides.iter().zip(slopes);
            let edges: Vec<Option<BlockEdge>> =
                sides.map(|(&side, slope)| edge(edging, side, slope, &mut overhangs, table)).collect();
            edges.into_iter().collect()
        })
        .collect();
    edges.into_iter().collect()
}

fn edge(
    edging: &Edging<'_>,
    side: Side,
    slope: EdgeSlope,
    overhangs: &mut OverhangReader<'_>,
    table: &mut Table<'_, '_>,
) -> Option<BlockEdge> {
    let overhang = overhangs.of(side, &slope, table)?;
    let plate = edging.plate.of(side).cloned().or_else(|| lowest(&edging.plate))?;
    Some(BlockEdge { side, plate, slope, overhang })
}

/// A side that slopes needs its plate.
fn require_plates(edging: &Edging<'_>, slopes: &[Vec<EdgeSlope>], table: &mut Table<'_, '_>) -> Option<()> {
    let sides =
        edging.footprint.contours.iter().zip(slopes).flat_map(|(contour, slopes)| sloping(contour, slopes));
    let bare: Vec<String> =
        sides.filter(|side| edging.plate.of(*side).is_none()).map(|side| side.to_string()).collect();
    if bare.is_empty() {
        return Some(());
    }
    let message = format!(
        "`{}.plate` says nothing of the sloping side {}",
        table.path,
        listed(bare.iter().map(String::as_str))
    );
    let problem =
        Problem::error("missing-side", message, "add it to `plate`, or write one height for all sides");
    table.desk.refuse(problem.at(edging.plate.span.clone(), ""))
}

fn sloping<'c>(contour: &'c Contour, slopes: &'c [EdgeSlope]) -> impl Iterator<Item = Side> + 'c {
    let sides = contour.sides.iter().zip(slopes);
    sides.filter(|(_, slope)| matches!(slope, EdgeSlope::Pitch(_))).map(|(side, _)| *side)
}

/// A wall that runs up to the roof has no plate of its own: the lowest of the block's stands in.
fn lowest(plate: &Sided<Figure<Length>>) -> Option<Figure<Length>> {
    let plates = plate.sides.iter().map(|(_, plate)| plate);
    let low = plates.reduce(|low, plate| if plate.value < low.value { plate } else { low })?;
    Some(Figure { basis: Basis::Derived, ..low.clone() })
}
