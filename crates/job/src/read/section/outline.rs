//! What is wrong with the outline of a block and its holes as contours in plan.
//!
//! # Validity
//! Sound contours have no corner within a millimetre of another of theirs, no two edges that cross or come within a
//! millimetre of each other but at a shared corner, and holes inside the outline and outside each other.
//! # Complexity
//! Every edge is held against every other: a few hundred corners at most are written by hand.

use crate::read::notation::Marked;
use crate::{Problem, Side, Span};

/// Corners and edges nearer than this touch, metres.
const SAME_POINT: f64 = 0.001;

/// A corner as written, metres, and where it stands.
pub(super) type Corner = Marked<[f64; 2]>;

/// What is wrong with the contours of a block.
pub(super) fn faults(path: &str, contours: &[Vec<Corner>]) -> Vec<Problem> {
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
    let strays = holes.iter().filter_map(|hole| outside(path, outer, hole));
    let nested = holes.iter().filter_map(|hole| inside_another(path, hole, holes));
    strays.chain(nested).collect()
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
    let stray = hole.iter().find(|corner| !contains(outer, corner.value))?;
    let message = format!("a hole of `{path}` does not lie inside its outline");
    let mend = "check its points; a court open to one side is part of the outline, not a hole";
    Some(Problem::error("hole-outside", message, mend).at(stray.span.clone(), ""))
}

/// Contours do not cross, so one corner tells where the whole hole lies.
fn inside_another(path: &str, hole: &[Corner], holes: &[Vec<Corner>]) -> Option<Problem> {
    let corner = hole.first()?;
    let around = holes.iter().find(|other| other.first() != Some(corner) && contains(other, corner.value))?;
    let message = format!("a hole of `{path}` lies inside another");
    let mend = "take one out; what stands in a court is a block of its own";
    let problem = Problem::error("hole-in-hole", message, mend).at(corner.span.clone(), "");
    Some(
        around
            .first()
            .into_iter()
            .fold(problem, |problem, other| problem.at(other.span.clone(), "the other hole")),
    )
}

/// Area within a closed line, positive when it runs counter-clockwise.
pub(super) fn signed_area(points: &[[f64; 2]]) -> f64 {
    let Some(&origin) = points.first() else { return 0.0 };
    points.windows(2).map(|pair| turn_of(origin, pair[0], pair[1])).sum::<f64>() / 2.0
}

fn distance([ax, ay]: [f64; 2], [bx, by]: [f64; 2]) -> f64 {
    (ax - bx).hypot(ay - by)
}

/// Twice the area of the triangle, positive when it runs counter-clockwise.
fn turn_of([ax, ay]: [f64; 2], [bx, by]: [f64; 2], [cx, cy]: [f64; 2]) -> f64 {
    (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
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
fn contains(corners: &[Corner], [x, y]: [f64; 2]) -> bool {
    let next = corners.iter().cycle().skip(1);
    let ends = corners.iter().zip(next).map(|(from, to)| (from.value, to.value));
    let crossings = ends
        .filter(|&([ax, ay], [bx, by])| (ay > y) != (by > y) && x < ax + (bx - ax) * (y - ay) / (by - ay));
    crossings.count() % 2 == 1
}

#[cfg(test)]
mod tests {
    use super::*;

    fn corners(points: &[[f64; 2]]) -> Vec<Corner> {
        points.iter().enumerate().map(|(at, value)| Marked { value: *value, span: at..at + 1 }).collect()
    }

    fn codes(contours: &[&[[f64; 2]]]) -> Vec<&'static str> {
        // corners of different contours stand in different places of a document
        let written: Vec<Vec<Corner>> = contours
            .iter()
            .enumerate()
            .map(|(contour, points)| {
                let moved = |corner: Corner| Marked {
                    span: corner.span.start + 100 * contour..corner.span.end + 100 * contour,
                    ..corner
                };
                corners(points).into_iter().map(moved).collect()
            })
            .collect();
        faults("block.x", &written).into_iter().map(|problem| problem.code).collect()
    }

    const SQUARE: [[f64; 2]; 4] = [[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]];

    #[test]
    fn sound_outlines_pass_whichever_way_round() {
        let mut clockwise = SQUARE;
        clockwise.reverse();
        for outline in [
            &SQUARE[..],
            &clockwise,
            &[[0.0, 0.0], [5.0, 0.0], [10.0, 0.0], [10.0, 5.0]],
            &[[0.0, 0.0], [9.0, 0.0], [9.0, 3.0], [3.0, 3.0], [3.0, 9.0], [0.0, 9.0]],
        ] {
            assert_eq!(codes(&[outline]), [""; 0], "{outline:?}");
        }
    }

    #[test]
    fn outlines_that_touch_cross_or_fold_back_are_refused() {
        for (outline, code) in [
            (&[[0.0, 0.0], [10.0, 10.0], [10.0, 0.0], [0.0, 10.0]][..], "crossing-outline"),
            (&[[0.0, 0.0], [10.0, 0.0], [5.0, 0.0], [5.0, 5.0]], "crossing-outline"),
            (&[[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [5.0, 0.0005], [0.0, 10.0]], "crossing-outline"),
            (&[[0.0, 0.0], [10.0, 0.0], [20.0, 0.0]], "crossing-outline"),
            (&[[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0005, 0.0]], "repeated-point"),
        ] {
            assert_eq!(codes(&[outline]), [code], "{outline:?}");
        }
    }

    #[test]
    fn holes_must_lie_inside_and_touch_nothing() {
        assert_eq!(codes(&[&SQUARE, &[[2.0, 2.0], [4.0, 2.0], [4.0, 4.0]]]), [""; 0]);
        assert_eq!(codes(&[&SQUARE, &[[12.0, 2.0], [14.0, 2.0], [14.0, 4.0]]]), ["hole-outside"]);
        let (hole, inner) = ([[1.0, 1.0], [9.0, 1.0], [9.0, 9.0]], [[7.0, 2.0], [8.0, 2.0], [8.0, 3.0]]);
        assert_eq!(codes(&[&SQUARE, &hole, &inner]), ["hole-in-hole"]);
        assert_eq!(codes(&[&SQUARE, &[[0.0, 2.0], [4.0, 2.0], [4.0, 4.0]]]), ["crossing-outline"]);
        assert_eq!(
            codes(&[&SQUARE, &[[2.0, 2.0], [4.0, 2.0], [4.0, 4.0]], &[[3.0, 1.0], [5.0, 3.0], [5.0, 1.0]]]),
            ["crossing-outline"]
        );
    }
}
