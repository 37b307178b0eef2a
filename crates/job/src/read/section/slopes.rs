//! What rises from each wall line, by the form of the roof.

use super::footprint::Footprint;
use super::form::{FormDraft, Pitches, Slopes};
use crate::read::notation::Marked;
use crate::read::table::Table;
use crate::suggest::listed;
use crate::{EdgeSlope, Problem, Side};

/// The slope of every edge, contour by contour; none after reporting what is missing or left over.
pub(super) fn slopes(
    footprint: &Footprint,
    roof: &FormDraft,
    table: &mut Table<'_, '_>,
) -> Option<Vec<Vec<EdgeSlope>>> {
    let slopes = match &roof.slopes {
        Slopes::Along { ridge, pitch } => {
            require_rectangle(footprint, table)?;
            around(footprint, pitch, &ridge.ends(), table)
        }
        Slopes::Around { pitch, gables } => {
            let gables: Vec<Side> = gables.iter().map(|gable| gable.value).collect();
            around(footprint, pitch, &gables, table)
        }
        Slopes::Below { high, pitch } => {
            require_rectangle(footprint, table)?;
            let low = opposite(high.value);
            let slope = |side| if side == low { EdgeSlope::Pitch(pitch.clone()) } else { EdgeSlope::Gable };
            Some(vec![Side::COMPASS.map(slope).to_vec()])
        }
        Slopes::Listed(lists) => as_listed(footprint, lists, table),
    }?;
    let any = slopes.iter().flatten().any(|slope| matches!(slope, EdgeSlope::Pitch(_)));
    if any { Some(slopes) } else { table.desk.refuse(no_slope(table)) }
}

impl Slopes {
    /// The sides it names.
    pub(super) fn named_sides(&self) -> Vec<&Marked<Side>> {
        match self {
            Self::Along { pitch, .. } => pitch.named().collect(),
            Self::Around { pitch, gables } => pitch.named().chain(gables).collect(),
            Self::Below { high, .. } => vec![high],
            Self::Listed(_) => Vec::new(),
        }
    }
}

/// A ridge or a high side only makes sense between four walls at right angles.
fn require_rectangle(footprint: &Footprint, table: &mut Table<'_, '_>) -> Option<()> {
    if footprint.is_rectangle {
        return Some(());
    }
    let message =
        format!("the roof form of `{}` needs a rectangle, but the block has an outline", table.path);
    let mend = "write `at` and `size`, or a form that takes any outline: hip, mansard or per-edge";
    let span = table.span_of("roof");
    table.desk.refuse(Problem::error("needs-rectangle", message, mend).at(span, ""))
}

fn around(
    footprint: &Footprint,
    pitches: &Pitches,
    gables: &[Side],
    table: &mut Table<'_, '_>,
) -> Option<Vec<Vec<EdgeSlope>>> {
    refuse_pitch_on_gable(pitches, gables, table);
    let slope = |side: &Side| match pitches.of(*side) {
        _ if gables.contains(side) => Some(EdgeSlope::Gable),
        pitch => pitch.cloned().map(EdgeSlope::Pitch),
    };
    let all = || footprint.contours.iter().flat_map(|contour| contour.sides.iter());
    let bare: Vec<String> = all().filter(|side| slope(side).is_none()).map(Side::to_string).collect();
    if !bare.is_empty() {
        let sides = listed(bare.iter().map(String::as_str));
        let message = format!("`{}.roof.pitch` says nothing of the side {sides}", table.path);
        let problem = Problem::error("missing-side", message, "add it, or write one pitch for all sides");
        return table.desk.refuse(problem.at(pitches.span.clone(), ""));
    }
    Some(footprint.contours.iter().map(|contour| contour.sides.iter().filter_map(slope).collect()).collect())
}

fn refuse_pitch_on_gable(pitches: &Pitches, gables: &[Side], table: &mut Table<'_, '_>) {
    for (side, _) in pitches.sides.iter().filter(|(side, _)| gables.contains(&side.value)) {
        let message = format!(
            "`{}.roof.pitch` gives a pitch to the side `{}`, which is a gable",
            table.path, side.value
        );
        let problem =
            Problem::error("pitch-on-gable", message, "take that pitch out, or turn the ridge the other way");
        table.desk.report(problem.at(side.span.clone(), ""));
    }
}

fn as_listed(
    footprint: &Footprint,
    lists: &[Marked<Vec<EdgeSlope>>],
    table: &mut Table<'_, '_>,
) -> Option<Vec<Vec<EdgeSlope>>> {
    let counts: Vec<usize> = footprint.contours.iter().map(|contour| contour.sides.len()).collect();
    let given: Vec<usize> = lists.iter().map(|list| list.value.len()).collect();
    if counts != given {
        return table.desk.refuse(miscounted(&counts, &given, lists, table));
    }
    let slope = |list: &Marked<Vec<EdgeSlope>>, side: Side| list.value.get(position(side)).cloned();
    let contours = footprint.contours.iter().zip(lists);
    contours.map(|(contour, list)| contour.sides.iter().map(|side| slope(list, *side)).collect()).collect()
}

/// Where a side stands in a list of its contour's edges.
fn position(side: Side) -> usize {
    match side {
        Side::Edge { number, .. } => number.saturating_sub(1),
        compass => Side::COMPASS.iter().position(|known| *known == compass).unwrap_or_default(),
    }
}

/// The error of a contour with more or fewer edges listed than it has, or of lists for more or fewer holes.
fn miscounted(
    counts: &[usize],
    given: &[usize],
    lists: &[Marked<Vec<EdgeSlope>>],
    table: &Table<'_, '_>,
) -> Problem {
    let differs = |contour: &usize| counts.get(*contour) != given.get(*contour);
    let contour = (0..counts.len().max(given.len())).find(differs).unwrap_or_default();
    let name = if contour == 0 { "the outline".to_owned() } else { format!("hole {contour}") };
    let number = |edges: Option<&usize>| edges.map_or("no".to_owned(), usize::to_string);
    let (has, listed) = (number(counts.get(contour)), number(given.get(contour)));
    let message = format!("`{}` lists {listed} edges for {name}, which has {has}", table.path);
    let mend = "list one pitch or `gable` for each edge, in the order of the points";
    let place = lists.get(contour).map_or_else(|| table.span_of("roof"), |list| list.span.clone());
    Problem::error("edge-count", message, mend).at(place, "")
}

fn no_slope(table: &Table<'_, '_>) -> Problem {
    let message = format!("no side of `{}` has a slope", table.path);
    Problem::error("no-slope", message, "give at least one side a pitch").at(table.span_of("roof"), "")
}

fn opposite(side: Side) -> Side {
    match side {
        Side::South => Side::North,
        Side::East => Side::West,
        Side::North => Side::South,
        Side::West => Side::East,
        edge @ Side::Edge { .. } => edge, // a rectangle has none
    }
}
