//! Points and polygons in plan, metres.

use measure::Area;
use roof::{EdgeId, Point3, Roof};

/// Point or vector in plan, metres.
pub(crate) type P2 = [f64; 2];

pub(crate) fn flat(p: Point3) -> P2 {
    [p[0], p[1]]
}

pub(crate) fn sub(a: P2, b: P2) -> P2 {
    [a[0] - b[0], a[1] - b[1]]
}

pub(crate) fn dot(a: P2, b: P2) -> f64 {
    a[0] * b[0] + a[1] * b[1]
}

/// The point a part of the way from `a` to `b`.
pub(crate) fn between(a: P2, b: P2, part: f64) -> P2 {
    [a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part]
}

/// Ends of an edge in plan.
pub(crate) fn ends(roof: &Roof, edge: EdgeId) -> [P2; 2] {
    roof.ends(edge).map(flat)
}

/// Distance from a point to a segment.
pub(crate) fn distance(p: P2, [a, b]: [P2; 2]) -> f64 {
    let along = sub(b, a);
    let square = dot(along, along);
    let part = if square > 0.0 { (dot(sub(p, a), along) / square).clamp(0.0, 1.0) } else { 0.0 };
    let off = sub(p, between(a, b, part));
    off[0].hypot(off[1])
}

/// Area of a polygon, whichever way round it runs.
pub(crate) fn area(polygon: &[P2]) -> Area {
    let Some(&origin) = polygon.first() else { return Area::ZERO };
    let cross = |a: P2, b: P2| a[0] * b[1] - a[1] * b[0];
    let twice: f64 = sides(polygon).map(|(a, b)| cross(sub(a, origin), sub(b, origin))).sum();
    Area::from_m2(0.5 * twice.abs())
}

/// The part of a convex polygon where `inside`, linear in plan, is not below zero.
pub(crate) fn clip(polygon: &[P2], inside: impl Fn(P2) -> f64) -> Vec<P2> {
    let mut kept = Vec::with_capacity(polygon.len() + 1);
    for (a, b) in sides(polygon) {
        let (at_a, at_b) = (inside(a), inside(b));
        if at_a >= 0.0 {
            kept.push(a);
        }
        if (at_a > 0.0 && at_b < 0.0) || (at_a < 0.0 && at_b > 0.0) {
            kept.push(between(a, b, at_a / (at_a - at_b)));
        }
    }
    kept
}

/// Whether a point lies inside a polygon, by the even-odd rule.
pub(crate) fn contains(polygon: &[P2], p: P2) -> bool {
    let crosses = |a: P2, b: P2| {
        (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
    };
    sides(polygon).filter(|&(a, b)| crosses(a, b)).count() % 2 == 1
}

/// The sides of a polygon, each with its start and end.
pub(crate) fn sides(polygon: &[P2]) -> impl Iterator<Item = (P2, P2)> + '_ {
    polygon.iter().copied().zip(polygon.iter().copied().cycle().skip(1))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: [P2; 4] = [[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]];

    #[test]
    fn a_square_cut_by_its_diagonal_keeps_half() {
        assert!((area(&clip(&SQUARE, |p| p[0] - p[1])).m2() - 2.0).abs() < 1e-12);
    }

    #[test]
    fn a_cut_that_misses_keeps_all_or_nothing() {
        assert!((area(&clip(&SQUARE, |p| p[0] + 1.0)).m2() - 4.0).abs() < 1e-12);
        assert!(area(&clip(&SQUARE, |p| p[0] - 5.0)).m2().abs() < 1e-12);
        assert!(area(&[]).m2().abs() < 1e-12);
    }

    #[test]
    fn a_point_is_inside_or_out() {
        assert!(contains(&SQUARE, [1.0, 0.5]));
        assert!(!contains(&SQUARE, [3.0, 0.5]));
    }
}
