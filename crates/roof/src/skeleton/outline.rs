//! Checks on the contours and the ring of sides they form.
//!
//! # Validity
//! Guaranteed afterwards: every contour has three points or more; coordinates and slopes are in range; the contours
//! are simple, keep at least the tolerance from themselves and from each other, and every hole lies in the outer
//! contour and in no other hole; the inside is on the left of every side; neighbours in one line have one slope; one
//! side rises.
//!
//! # Tolerance
//! 1e-9 of the outline's largest extent, at least 1 nm, plus the rounding of the coordinates themselves (2^-45 of the
//! largest coordinate).
//!
//! # Complexity
//! Quadratic in the number of sides, with a bounding-box test first.

use robust::{Coord, orient2d};

use super::error::{ContourEdge, ContourPoint, SkeletonError};
use super::{COORDINATE_LIMIT, Contour, EdgeSlope, SLOPE_RANGE};

/// Relative width below which two points are one and a gap is a touch.
const TOLERANCE: f64 = 1e-9;
/// Sine of the angle below which neighbours with different slopes count as in one line.
const IN_LINE: f64 = 1e-6;

/// One edge of a contour, turned so that the inside lies on its left.
#[derive(Clone, Copy, Debug)]
pub(super) struct Side {
    pub(super) id: ContourEdge,
    pub(super) from: [f64; 2],
    pub(super) to: [f64; 2],
    pub(super) slope: EdgeSlope,
    /// The side that starts where this one ends.
    pub(super) next: usize,
}

/// All sides, contour by contour.
#[derive(Clone, Debug)]
pub(super) struct Outline {
    pub(super) sides: Vec<Side>,
    /// Middle of the bounding box.
    pub(super) center: [f64; 2],
    /// Longer side of the bounding box.
    pub(super) extent: f64,
    /// Largest coordinate, which sets the rounding of the input.
    pub(super) magnitude: f64,
}

impl Outline {
    /// Checks the contours and joins them; see the module for what is guaranteed.
    pub(super) fn new(outer: Contour<'_>, holes: &[Contour<'_>]) -> Result<Self, SkeletonError> {
        let contours: Vec<Contour<'_>> = std::iter::once(outer).chain(holes.iter().copied()).collect();
        for (index, contour) in contours.iter().enumerate() {
            check_contour(index, contour)?;
        }
        if contours.iter().flat_map(|c| c.slopes).all(|s| matches!(s, EdgeSlope::Gable)) {
            return Err(SkeletonError::AllGable);
        }
        let outline = Self::joined(&contours);
        let tolerance = outline.tolerance();
        outline.check_lengths(tolerance)?;
        outline.check_simple(tolerance)?;
        check_nesting(&contours)?;
        outline.check_slopes_in_line()?;
        Ok(outline)
    }

    /// Area inside the outer contour less the holes.
    pub(super) fn area(&self) -> f64 {
        let [cx, cy] = self.center;
        let twice =
            |side: &Side| (side.from[0] - cx) * (side.to[1] - cy) - (side.to[0] - cx) * (side.from[1] - cy);
        self.sides.iter().map(twice).sum::<f64>() / 2.0
    }

    /// The side after each side.
    pub(super) fn next(&self) -> Vec<usize> {
        self.sides.iter().map(|side| side.next).collect()
    }

    fn joined(contours: &[Contour<'_>]) -> Self {
        let mut sides = Vec::new();
        for (index, contour) in contours.iter().enumerate() {
            push_sides(&mut sides, index, contour);
        }
        let (low, high) = bounds(sides.iter().map(|side| side.from));
        Self {
            sides,
            center: [0, 1].map(|axis| f64::midpoint(low[axis], high[axis])),
            extent: (high[0] - low[0]).max(high[1] - low[1]),
            magnitude: low.into_iter().chain(high).map(f64::abs).fold(0.0, f64::max),
        }
    }

    fn tolerance(&self) -> f64 {
        TOLERANCE * self.extent.max(1.0) + self.magnitude * 2f64.powi(-45)
    }

    fn check_lengths(&self, tolerance: f64) -> Result<(), SkeletonError> {
        match self.sides.iter().find(|side| distance(side.from, side.to) <= tolerance) {
            None => Ok(()),
            Some(side) => Err(repeated_point(side.id, self.count_in(side.id.contour))),
        }
    }

    fn count_in(&self, contour: usize) -> usize {
        self.sides.iter().filter(|side| side.id.contour == contour).count()
    }

    fn check_simple(&self, tolerance: f64) -> Result<(), SkeletonError> {
        for (index, first) in self.sides.iter().enumerate() {
            for (offset, second) in self.sides[index + 1..].iter().enumerate() {
                let other = index + 1 + offset;
                if !boxes_apart(first, second, tolerance) && self.meet(index, other, tolerance) {
                    let (first, second) = (first.id.min(second.id), first.id.max(second.id));
                    return Err(SkeletonError::EdgesMeet { first, second });
                }
            }
        }
        Ok(())
    }

    fn meet(&self, first: usize, second: usize, tolerance: f64) -> bool {
        let (a, b) = (&self.sides[first], &self.sides[second]);
        match (a.next == second, b.next == first) {
            (true, _) => folds_back(a, b, tolerance),
            (_, true) => folds_back(b, a, tolerance),
            _ => cross(a, b) || gap(a, b) <= tolerance,
        }
    }

    fn check_slopes_in_line(&self) -> Result<(), SkeletonError> {
        for side in &self.sides {
            let next = &self.sides[side.next];
            if side.slope != next.slope && in_line(side, next) {
                return Err(SkeletonError::SlopesInLine { first: side.id, second: next.id });
            }
        }
        Ok(())
    }
}

fn check_contour(index: usize, contour: &Contour<'_>) -> Result<(), SkeletonError> {
    let (points, slopes) = (contour.points.len(), contour.slopes.len());
    if points < 3 {
        return Err(SkeletonError::TooFewPoints { contour: index, count: points });
    }
    if points != slopes {
        return Err(SkeletonError::SlopeCount { contour: index, points, slopes });
    }
    let outside = |p: &[f64; 2]| p.iter().any(|c| c.is_nan() || c.abs() > COORDINATE_LIMIT);
    if let Some(point) = contour.points.iter().position(outside) {
        return Err(SkeletonError::Coordinate { at: ContourPoint { contour: index, point } });
    }
    for (edge, slope) in contour.slopes.iter().enumerate() {
        if let EdgeSlope::Rise(slope) = *slope
            && !SLOPE_RANGE.contains(&slope)
        {
            return Err(SkeletonError::SlopeRange { at: ContourEdge { contour: index, edge }, slope });
        }
    }
    Ok(())
}

/// Appends a contour's sides in the order that has the inside on the left: the outer contour counter-clockwise, holes
/// clockwise, whichever way they were given.
fn push_sides(sides: &mut Vec<Side>, contour: usize, given: &Contour<'_>) {
    let (start, count) = (sides.len(), given.points.len());
    let forward = (signed_area(given.points) > 0.0) == (contour == 0);
    for step in 0..count {
        let edge = if forward { step } else { count - 1 - step };
        let ends = [given.points[edge], given.points[(edge + 1) % count]];
        let [from, to] = if forward { ends } else { [ends[1], ends[0]] };
        let id = ContourEdge { contour, edge };
        sides.push(Side { id, from, to, slope: given.slopes[edge], next: start + (step + 1) % count });
    }
}

fn repeated_point(id: ContourEdge, count: usize) -> SkeletonError {
    SkeletonError::RepeatedPoint {
        at: ContourPoint { contour: id.contour, point: (id.edge + 1) % count },
        other: ContourPoint { contour: id.contour, point: id.edge },
    }
}

fn check_nesting(contours: &[Contour<'_>]) -> Result<(), SkeletonError> {
    for (index, hole) in contours.iter().enumerate().skip(1) {
        if !contains(contours[0].points, hole.points[0]) {
            return Err(SkeletonError::HoleOutside { contour: index });
        }
        let around = |other: &usize| *other != index && contains(contours[*other].points, hole.points[0]);
        if let Some(within) = (1..contours.len()).find(around) {
            return Err(SkeletonError::HoleInHole { contour: index, within });
        }
    }
    Ok(())
}

/// Whether a point is inside a simple polygon: crossings of the ray to the right, decided exactly.
fn contains(polygon: &[[f64; 2]], point: [f64; 2]) -> bool {
    let mut inside = false;
    for (index, &a) in polygon.iter().enumerate() {
        let b = polygon[(index + 1) % polygon.len()];
        if (a[1] > point[1]) != (b[1] > point[1]) {
            let (low, high) = if a[1] < b[1] { (a, b) } else { (b, a) };
            inside ^= turn(low, high, point) > 0.0;
        }
    }
    inside
}

fn signed_area(points: &[[f64; 2]]) -> f64 {
    let [ox, oy] = points[0];
    let next = points.iter().cycle().skip(1);
    let twice = |(a, b): (&[f64; 2], &[f64; 2])| (a[0] - ox) * (b[1] - oy) - (b[0] - ox) * (a[1] - oy);
    points.iter().zip(next).map(twice).sum::<f64>() / 2.0
}

fn bounds(points: impl Iterator<Item = [f64; 2]>) -> ([f64; 2], [f64; 2]) {
    points.fold(([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]), |(low, high), p| {
        ([0, 1].map(|k| low[k].min(p[k])), [0, 1].map(|k| high[k].max(p[k])))
    })
}

fn boxes_apart(a: &Side, b: &Side, tolerance: f64) -> bool {
    let apart = |axis: usize| {
        let (a_low, a_high) = (a.from[axis].min(a.to[axis]), a.from[axis].max(a.to[axis]));
        let (b_low, b_high) = (b.from[axis].min(b.to[axis]), b.from[axis].max(b.to[axis]));
        a_low > b_high + tolerance || b_low > a_high + tolerance
    };
    apart(0) || apart(1)
}

fn turn(a: [f64; 2], b: [f64; 2], c: [f64; 2]) -> f64 {
    let coord = |p: [f64; 2]| Coord { x: p[0], y: p[1] };
    orient2d(coord(a), coord(b), coord(c))
}

fn cross(a: &Side, b: &Side) -> bool {
    let splits = |line: &Side, other: &Side| {
        let (from, to) = (turn(line.from, line.to, other.from), turn(line.from, line.to, other.to));
        (from > 0.0) != (to > 0.0)
    };
    splits(a, b) && splits(b, a)
}

/// Smallest distance of two sides that do not cross.
fn gap(a: &Side, b: &Side) -> f64 {
    let ends = [(a, b.from), (a, b.to), (b, a.from), (b, a.to)];
    ends.into_iter().map(|(side, point)| distance_to(side, point)).fold(f64::INFINITY, f64::min)
}

/// Whether a side and the next one lie on each other at their shared point.
fn folds_back(side: &Side, next: &Side, tolerance: f64) -> bool {
    distance_to(side, next.to) <= tolerance || distance_to(next, side.from) <= tolerance
}

fn distance_to(side: &Side, point: [f64; 2]) -> f64 {
    let along = [side.to[0] - side.from[0], side.to[1] - side.from[1]];
    let reach = [point[0] - side.from[0], point[1] - side.from[1]];
    let share = (reach[0] * along[0] + reach[1] * along[1]) / (along[0] * along[0] + along[1] * along[1]);
    let share = share.clamp(0.0, 1.0);
    (reach[0] - share * along[0]).hypot(reach[1] - share * along[1])
}

fn in_line(a: &Side, b: &Side) -> bool {
    let (u, v) = ([a.to[0] - a.from[0], a.to[1] - a.from[1]], [b.to[0] - b.from[0], b.to[1] - b.from[1]]);
    let sine = (u[0] * v[1] - u[1] * v[0]) / (u[0].hypot(u[1]) * v[0].hypot(v[1]));
    sine.abs() <= IN_LINE && u[0] * v[0] + u[1] * v[1] > 0.0
}

fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    (b[0] - a[0]).hypot(b[1] - a[1])
}
