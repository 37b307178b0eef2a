//! Wall lines of a block in plan: a rectangle, or an outline with holes, turned as the document says.
//!
//! # Validity
//! What comes out has sound contours (see [`super::outline`]), the outline counter-clockwise and the holes clockwise.

use measure::Length;

use super::block::{AT, HOLES, OUTLINE, SIZE, TURN};
use super::outline::{Corner, faults, signed_area};
use crate::read::notation::Marked;
use crate::read::roll::Shape;
use crate::read::table::Table;
use crate::{Problem, Side};

/// A block smaller than this on a side is looked at twice.
const SMALL: Length = Length::from_ft(3.5);

/// The wall lines of a block.
pub(super) struct Footprint {
    /// The outline, then the holes.
    pub(super) contours: Vec<Contour>,
    pub(super) turn_degrees: f64,
    pub(super) is_rectangle: bool,
}

/// One closed line.
pub(super) struct Contour {
    pub(super) points: Vec<[f64; 2]>,
    /// The side that starts at each point, as the document counts sides.
    pub(super) sides: Vec<Side>,
    /// Whether the document went the other way round.
    pub(super) was_turned_over: bool,
}

impl Footprint {
    /// The sides it has.
    pub(super) fn shape(&self) -> Shape {
        if self.is_rectangle {
            return Shape::Rectangle;
        }
        Shape::Outline(self.contours.iter().map(|contour| contour.points.len()).collect())
    }
}

/// Reads the wall lines of a block; none after reporting what is wrong with them.
pub(super) fn footprint(table: &mut Table<'_, '_>) -> Option<Footprint> {
    let (at, size) = (table.may(&AT), table.may(&SIZE));
    let (outline, holes) = (table.may(&OUTLINE), table.may(&HOLES));
    let turn = if table.has(TURN.0.key) { table.may(&TURN).map(|turn| turn.0) } else { Some(0.0) };
    let footprint = if table.has(OUTLINE.0.key) {
        refuse_both(table)?;
        let holes = if table.has(HOLES.0.key) { holes } else { Some(Vec::new()) };
        outlined(table, &outline?, &holes?)
    } else {
        require_rectangle(table)?;
        let (at, size) = (at?, size?);
        warn_of_small(table, size);
        Some(rectangle(at, size))
    }?;
    Some(footprint.turned(turn?))
}

/// A rectangle and an outline exclude each other.
fn refuse_both(table: &mut Table<'_, '_>) -> Option<()> {
    let Some(extra) = [AT.0.key, SIZE.0.key].into_iter().find(|key| table.has(key)) else { return Some(()) };
    let message = format!("`{}` has both an outline and `{extra}`", table.path);
    let problem = Problem::error("two-footprints", message, "keep the outline, or `at` and `size`, not both")
        .at(table.span_of(extra), "")
        .at(table.span_of(OUTLINE.0.key), "the outline");
    table.desk.refuse(problem)
}

/// Without an outline, `at` and `size` are needed, and holes have nothing to be in.
fn require_rectangle(table: &mut Table<'_, '_>) -> Option<()> {
    if table.has(HOLES.0.key) {
        let message = format!("`{}` has holes but no outline", table.path);
        let problem = Problem::error(
            "missing-key",
            message,
            "write the wall line as `outline` instead of `at` and `size`",
        );
        let span = table.span_of(HOLES.0.key);
        return table.desk.refuse(problem.at(span, ""));
    }
    let missing: Vec<&str> = [AT.0.key, SIZE.0.key].into_iter().filter(|key| !table.has(key)).collect();
    if missing.is_empty() {
        return Some(());
    }
    let message = format!("`{}` has no `{}`", table.path, missing.join("` and no `"));
    let mend = format!("add `at = {}` and `size = {}`, or an `outline`", AT.0.example, SIZE.0.example);
    let span = table.span.clone();
    table.desk.refuse(Problem::error("missing-key", message, mend).at(span, ""))
}

/// A block no wider than a door was probably meant in feet.
fn warn_of_small(table: &mut Table<'_, '_>, size: [Length; 2]) {
    let [width, depth] = size;
    if width.min(depth) < SMALL {
        let message = format!("`{}` is only {width} by {depth}", table.path);
        let problem = Problem::warning(
            "small-block",
            message,
            "check feet against inches; nothing need change if it is a bay",
        );
        let span = table.span_of(SIZE.0.key);
        table.desk.report(problem.at(span, ""));
    }
}

fn rectangle(at: [Length; 2], size: [Length; 2]) -> Footprint {
    let ([x, y], [width, depth]) = (at.map(Length::m), size.map(Length::m));
    let points = vec![[x, y], [x + width, y], [x + width, y + depth], [x, y + depth]];
    let contour = Contour { points, sides: Side::COMPASS.to_vec(), was_turned_over: false };
    Footprint { contours: vec![contour], turn_degrees: 0.0, is_rectangle: true }
}

fn outlined(
    table: &mut Table<'_, '_>,
    outline: &[Marked<[Length; 2]>],
    holes: &[Vec<Marked<[Length; 2]>>],
) -> Option<Footprint> {
    let metres = |corner: &Marked<[Length; 2]>| Marked {
        value: corner.value.map(Length::m),
        span: corner.span.clone(),
    };
    let written: Vec<Vec<Corner>> = std::iter::once(outline)
        .chain(holes.iter().map(Vec::as_slice))
        .map(|contour| contour.iter().map(metres).collect())
        .collect();
    let faults = faults(&table.path, &written);
    if !faults.is_empty() {
        for problem in faults {
            table.desk.report(problem);
        }
        return None;
    }
    let contours =
        written.into_iter().enumerate().map(|(number, corners)| contour(number, &corners)).collect();
    Some(Footprint { contours, turn_degrees: 0.0, is_rectangle: false })
}

/// The contour turned its proper way round, each edge still known by its number in the document.
fn contour(number: usize, corners: &[Corner]) -> Contour {
    let mut points: Vec<[f64; 2]> = corners.iter().map(|corner| corner.value).collect();
    let mut sides: Vec<Side> =
        (1..=points.len()).map(|edge| Side::Edge { contour: number, number: edge }).collect();
    let is_outer = number == 0;
    let was_turned_over = (signed_area(&points) > 0.0) != is_outer;
    if was_turned_over {
        points.reverse();
        points.rotate_right(1); // the first corner stays the first
        sides.reverse(); // the last edge ran back to the first corner, so it now comes first
    }
    Contour { points, sides, was_turned_over }
}

impl Footprint {
    /// Turned counter-clockwise about its first corner.
    fn turned(mut self, degrees: f64) -> Self {
        let Some(&pivot) = self.contours.first().and_then(|contour| contour.points.first()) else {
            return self;
        };
        let (sine, cosine) = sine_cosine(degrees);
        for point in self.contours.iter_mut().flat_map(|contour| contour.points.iter_mut()) {
            let [x, y] = [point[0] - pivot[0], point[1] - pivot[1]];
            *point = [pivot[0] + x * cosine - y * sine, pivot[1] + x * sine + y * cosine];
        }
        self.turn_degrees = degrees;
        self
    }
}

/// Exact at quarter turns, so that a square stays square.
fn sine_cosine(degrees: f64) -> (f64, f64) {
    match degrees.rem_euclid(360.0) {
        0.0 => (0.0, 1.0),
        90.0 => (1.0, 0.0),
        180.0 => (0.0, -1.0),
        270.0 => (-1.0, 0.0),
        _ => degrees.to_radians().sin_cos(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quarter_turns_are_exact() {
        let turned =
            rectangle([Length::from_m(1.0), Length::from_m(2.0)], [Length::from_m(4.0), Length::from_m(3.0)])
                .turned(-90.0);
        assert_eq!(turned.contours[0].points, [[1.0, 2.0], [1.0, -2.0], [4.0, -2.0], [4.0, 2.0]]);
    }
}
