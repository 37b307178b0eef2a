//! Polygons with holes, as lists of rings: inside, distance, crossings, the roomiest point.
//!
//! # Validity
//! Rings are closed without repeating the first point. Inside is even-odd, so the turning sense does not matter.

use crate::vector::{P2, along, between, cross, distance, dot, sub};

/// Whether the point is inside, even-odd. On the boundary either answer may come.
pub(crate) fn contains(rings: &[Vec<P2>], p: P2) -> bool {
    encloses(sides(rings), p)
}

/// Whether sides, in any order, that together make closed rings enclose the point, even-odd.
pub(crate) fn encloses(sides: impl Iterator<Item = [P2; 2]>, p: P2) -> bool {
    sides.filter(|&[a, b]| crosses_ray(a, b, p)).count() % 2 == 1
}

/// Whether the point is inside and further than `margin` from the boundary.
pub(crate) fn contains_well(rings: &[Vec<P2>], p: P2, margin: f64) -> bool {
    contains(rings, p) && boundary_distance(rings, p) > margin
}

/// Distance to the nearest point of the boundary.
pub(crate) fn boundary_distance(rings: &[Vec<P2>], p: P2) -> f64 {
    sides(rings).map(|side| segment_distance(side, p)).fold(f64::INFINITY, f64::min)
}

/// Where the segment crosses or touches the boundary, as shares of its length, unsorted.
pub(crate) fn crossings(rings: &[Vec<P2>], [p, q]: [P2; 2]) -> Vec<f64> {
    let d = sub(q, p);
    let share = |[a, b]: [P2; 2]| {
        let e = sub(b, a);
        let turn = cross(d, e);
        let from = sub(a, p);
        let (t, u) = (cross(from, e) / turn, cross(from, d) / turn);
        (turn.abs() > 1e-12 && (-1e-9..=1.0 + 1e-9).contains(&u) && t > 0.0 && t < 1.0).then_some(t)
    };
    sides(rings).filter_map(share).collect()
}

/// All sides of all rings.
pub(crate) fn sides(rings: &[Vec<P2>]) -> impl Iterator<Item = [P2; 2]> {
    rings.iter().flat_map(|ring| ring_sides(ring))
}

/// The sides of one ring.
pub(crate) fn ring_sides<const N: usize>(ring: &[[f64; N]]) -> impl Iterator<Item = [[f64; N]; 2]> {
    ring.iter().zip(ring.iter().cycle().skip(1)).map(|(&a, &b)| [a, b])
}

/// Distance from a point to a segment.
pub(crate) fn segment_distance(side: [P2; 2], p: P2) -> f64 {
    distance(p, nearest_on(side, p))
}

/// The point of a segment nearest to `p`.
pub(crate) fn nearest_on([a, b]: [P2; 2], p: P2) -> P2 {
    let d = sub(b, a);
    let square = dot(d, d);
    let t = if square > 0.0 { (dot(sub(p, a), d) / square).clamp(0.0, 1.0) } else { 0.0 };
    along(a, d, t)
}

/// The point inside that is, within 1/64 of the size, furthest from the boundary.
pub(crate) fn roomiest(rings: &[Vec<P2>]) -> P2 {
    let box_ = Bounds::of(rings.iter().flatten().copied());
    let depth = |p: P2| if contains(rings, p) { boundary_distance(rings, p) } else { -1.0 };
    let mut best = box_.at([0.5, 0.5]);
    let mut span = 0.5;
    for _ in 0..4 {
        let here = best;
        let candidates = grid(8).map(|s| {
            let share = [here_share(&box_, here)[0] + span * s[0], here_share(&box_, here)[1] + span * s[1]];
            box_.at(share)
        });
        best = candidates.fold(here, |best, p| if depth(p) > depth(best) + 1e-9 { p } else { best });
        span /= 4.0;
    }
    best
}

fn here_share(box_: &Bounds, p: P2) -> P2 {
    std::array::from_fn(|i| {
        let size = box_.high[i] - box_.low[i];
        if size > 0.0 { (p[i] - box_.low[i]) / size } else { 0.5 }
    })
}

/// Points of a square grid over −1..1 in both directions, `n` steps to each side.
fn grid(n: i32) -> impl Iterator<Item = P2> {
    (-n..=n)
        .flat_map(move |i| (-n..=n).map(move |j| [f64::from(i) / f64::from(n), f64::from(j) / f64::from(n)]))
}

fn crosses_ray(a: P2, b: P2, p: P2) -> bool {
    (a[1] > p[1]) != (b[1] > p[1]) && p[0] < between(a, b, (p[1] - a[1]) / (b[1] - a[1]))[0]
}

/// An upright rectangle around points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Bounds {
    pub(crate) low: P2,
    pub(crate) high: P2,
}

impl Bounds {
    /// The smallest rectangle around the points; inside out when there are none.
    pub(crate) fn of(points: impl IntoIterator<Item = P2>) -> Self {
        points.into_iter().fold(Self::NONE, Self::with)
    }

    const NONE: Self = Self { low: [f64::INFINITY; 2], high: [f64::NEG_INFINITY; 2] };

    fn with(self, p: P2) -> Self {
        Self {
            low: std::array::from_fn(|i| self.low[i].min(p[i])),
            high: std::array::from_fn(|i| self.high[i].max(p[i])),
        }
    }

    /// The smallest rectangle around both.
    pub(crate) fn and(self, other: Self) -> Self {
        self.with(other.low).with(other.high)
    }

    pub(crate) fn width(&self) -> f64 {
        self.high[0] - self.low[0]
    }

    pub(crate) fn height(&self) -> f64 {
        self.high[1] - self.low[1]
    }

    /// The point at these shares of width and height.
    pub(crate) fn at(&self, share: P2) -> P2 {
        std::array::from_fn(|i| self.low[i] + (self.high[i] - self.low[i]) * share[i])
    }

    pub(crate) fn meets(&self, other: &Self) -> bool {
        let [a, b] = [self, other];
        a.low[0] <= b.high[0] && b.low[0] <= a.high[0] && a.low[1] <= b.high[1] && b.low[1] <= a.high[1]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ell() -> Vec<Vec<P2>> {
        vec![vec![[0.0, 0.0], [4.0, 0.0], [4.0, 1.0], [1.0, 1.0], [1.0, 3.0], [0.0, 3.0]]]
    }

    #[test]
    fn inside_knows_reentrant_corners_and_holes() {
        assert!(contains(&ell(), [0.5, 2.0]) && !contains(&ell(), [2.0, 2.0]));
        let mut pierced = ell();
        pierced.push(vec![[2.0, 0.2], [2.0, 0.8], [3.0, 0.8], [3.0, 0.2]]);
        assert!(!contains(&pierced, [2.5, 0.5]) && contains(&pierced, [3.5, 0.5]));
    }

    #[test]
    fn segment_crosses_every_side_between_its_ends() {
        let mut at = crossings(&ell(), [[0.5, 2.0], [4.5, 0.0]]);
        at.sort_by(f64::total_cmp);
        assert_eq!(at, vec![0.125, 0.5, 0.875]);
    }

    #[test]
    fn roomiest_point_of_a_square_is_its_middle() {
        let square = vec![vec![[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]]];
        assert!(distance(roomiest(&square), [1.0, 1.0]) < 0.01);
    }
}
