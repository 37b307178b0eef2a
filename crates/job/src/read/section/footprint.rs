//! Wall lines of a block in plan: a rectangle or an outline with holes, turned, all counter-clockwise.
//!
//! # Validity
//! What comes out has at least three corners to a contour, none within a millimetre of another, no two edges of a
//! contour that cross or touch, the outline counter-clockwise and the holes clockwise.

use measure::Length;

use super::block::{AT, HOLES, OUTLINE, SIZE, TURN};
use crate::read::notation::Marked;
use crate::read::roll::Shape;
use crate::read::table::Table;
use crate::{Problem, Side, Span};

/// Corners nearer than this are the same one, metres.
const SAME_POINT: f64 = 0.001;

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

/// A corner as written, metres, and where it stands.
type Corner = Marked<[f64; 2]>;

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
        points[1..].reverse(); // the first corner stays the first
        sides.reverse(); // the last edge ran back to the first corner, so it now comes first
    }
    Contour { points, sides, was_turned_over }
}

/// What is wrong with the contours of a block.
fn faults(path: &str, contours: &[Vec<Corner>]) -> Vec<Problem> {
    let repeated = contours.iter().filter_map(|corners| repeated(path, corners));
    let faults: Vec<Problem> = repeated.collect();
    if !faults.is_empty() {
        return faults; // two corners in one place also look like a crossing
    }
    let edges: Vec<WallEdge<'_>> =
        contours.iter().enumerate().flat_map(|(number, corners)| wall_edges(number, corners)).collect();
    let crossing = crossing(path, &edges);
    if crossing.is_some() {
        return crossing.into_iter().collect();
    }
    let Some((outer, holes)) = contours.split_first() else { return Vec::new() };
    holes.iter().filter_map(|hole| outside(path, outer, hole)).collect()
}

fn repeated(path: &str, corners: &[Corner]) -> Option<Problem> {
    let pairs = (0..corners.len()).flat_map(|one| (one + 1..corners.len()).map(move |other| (one, other)));
    let (one, other) = pairs
        .into_iter()
        .find(|&(one, other)| distance(corners[one].value, corners[other].value) < SAME_POINT)?;
    let message = format!("points {} and {} of the outline of `{path}` are the same", one + 1, other + 1);
    let mend = "take one out: the outline closes by itself, and each corner is written once";
    let problem = Problem::error("repeated-point", message, mend);
    Some(problem.at(corners[other].span.clone(), "").at(corners[one].span.clone(), "the same point"))
}

/// One wall line between two corners.
struct WallEdge<'c> {
    side: Side,
    from: &'c Corner,
    to: &'c Corner,
}

fn wall_edges(contour: usize, corners: &[Corner]) -> impl Iterator<Item = WallEdge<'_>> {
    let next = corners.iter().cycle().skip(1);
    corners.iter().zip(next).enumerate().map(move |(index, (from, to))| WallEdge {
        side: Side::Edge { contour, number: index + 1 },
        from,
        to,
    })
}

impl WallEdge<'_> {
    /// Whether the two meet anywhere but in a corner they share.
    fn crosses(&self, other: &Self) -> bool {
        let shares = |a: &Corner, b: &Corner| a.span == b.span;
        if shares(self.to, other.from) {
            return folds_back(self.from.value, self.to.value, other.to.value);
        }
        if shares(other.to, self.from) {
            return folds_back(other.from.value, other.to.value, self.to.value);
        }
        segments_meet([self.from.value, self.to.value], [other.from.value, other.to.value])
    }
}

/// The first two wall lines that cross or touch; one of them is enough to see what is wrong.
fn crossing(path: &str, edges: &[WallEdge<'_>]) -> Option<Problem> {
    let pairs = edges
        .iter()
        .enumerate()
        .flat_map(|(index, one)| edges[index + 1..].iter().map(move |other| (one, other)));
    let (one, other) = pairs.into_iter().find(|(one, other)| one.crosses(other))?;
    let message = format!("the outline of `{path}` crosses itself: {} meets {}", one.side, other.side);
    let mend = "write the corners in the order you walk past them, all round once";
    let problem = Problem::error("crossing-outline", message, mend);
    Some(problem.at(other.place(), "").at(one.place(), "the wall line it meets"))
}

impl WallEdge<'_> {
    fn place(&self) -> Span {
        self.from.span.clone()
    }
}

fn outside(path: &str, outer: &[Corner], hole: &[Corner]) -> Option<Problem> {
    let outline: Vec<[f64; 2]> = outer.iter().map(|corner| corner.value).collect();
    let stray = hole.iter().find(|corner| !contains(&outline, corner.value))?;
    let message = format!("a hole of `{path}` does not lie inside its outline");
    let mend = "check its points; a court open to one side is part of the outline, not a hole";
    Some(Problem::error("hole-outside", message, mend).at(stray.span.clone(), ""))
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

fn distance([ax, ay]: [f64; 2], [bx, by]: [f64; 2]) -> f64 {
    (ax - bx).hypot(ay - by)
}

/// Twice the area of the triangle, positive when it runs counter-clockwise.
fn turn_of([ax, ay]: [f64; 2], [bx, by]: [f64; 2], [cx, cy]: [f64; 2]) -> f64 {
    (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
}

fn signed_area(points: &[[f64; 2]]) -> f64 {
    let Some(&origin) = points.first() else { return 0.0 };
    points.windows(2).map(|pair| turn_of(origin, pair[0], pair[1])).sum::<f64>() / 2.0
}

/// Whether the line from `a` over `corner` to `c` runs straight back on itself.
fn folds_back(a: [f64; 2], corner: [f64; 2], c: [f64; 2]) -> bool {
    let off_line = turn_of(a, corner, c).abs() / distance(a, corner).max(SAME_POINT);
    let ahead = (corner[0] - a[0]) * (c[0] - corner[0]) + (corner[1] - a[1]) * (c[1] - corner[1]);
    off_line < SAME_POINT && ahead < 0.0
}

/// Whether two segments without a common end come within a millimetre of each other.
fn segments_meet(one: [[f64; 2]; 2], other: [[f64; 2]; 2]) -> bool {
    let apart = |[a, b]: [[f64; 2]; 2], [c, d]: [[f64; 2]; 2]| turn_of(a, b, c) * turn_of(a, b, d) > 0.0;
    let is_near = |[a, b]: [[f64; 2]; 2], point| distance_to_segment(a, b, point) < SAME_POINT;
    let cross = !apart(one, other) && !apart(other, one) && !is_parallel(one, other);
    cross || other.iter().any(|&point| is_near(one, point)) || one.iter().any(|&point| is_near(other, point))
}

fn is_parallel([a, b]: [[f64; 2]; 2], [c, d]: [[f64; 2]; 2]) -> bool {
    let [ux, uy] = [b[0] - a[0], b[1] - a[1]];
    let [vx, vy] = [d[0] - c[0], d[1] - c[1]];
    (ux * vy - uy * vx).abs() <= 1e-12 * ux.hypot(uy) * vx.hypot(vy)
}

fn distance_to_segment(a: [f64; 2], b: [f64; 2], point: [f64; 2]) -> f64 {
    let [ux, uy] = [b[0] - a[0], b[1] - a[1]];
    let along = ((point[0] - a[0]) * ux + (point[1] - a[1]) * uy) / (ux * ux + uy * uy);
    let t = along.clamp(0.0, 1.0);
    distance(point, [a[0] + t * ux, a[1] + t * uy])
}

/// Whether a point off the line lies inside it, by the parity of walls to its east.
fn contains(points: &[[f64; 2]], [x, y]: [f64; 2]) -> bool {
    let next = points.iter().cycle().skip(1);
    let crossings = points
        .iter()
        .zip(next)
        .filter(|&(&[ax, ay], &[bx, by])| (ay > y) != (by > y) && x < ax + (bx - ax) * (y - ay) / (by - ay));
    crossings.count() % 2 == 1
}
