//! Plane geometry in plan: points, lines, polygons.
//!
//! Points are metres. Polygons are open chains (the last point joins the first), counter-clockwise unless said otherwise.

/// Point or vector in plan, metres.
pub type P2 = [f64; 2];

/// A plane over the plan: height is `[0] * x + [1] * y + [2]`.
pub type Rise = [f64; 3];

/// The vector from `b` to `a`.
pub fn sub(a: P2, b: P2) -> P2 {
    [a[0] - b[0], a[1] - b[1]]
}

/// `k` times a vector.
pub fn scale(a: P2, k: f64) -> P2 {
    [a[0] * k, a[1] * k]
}

/// The point a distance from `a` in a direction, a unit vector.
pub fn along(a: P2, direction: P2, distance: f64) -> P2 {
    [a[0] + direction[0] * distance, a[1] + direction[1] * distance]
}

/// Scalar product.
pub fn dot(a: P2, b: P2) -> f64 {
    a[0] * b[0] + a[1] * b[1]
}

/// The product that is positive where `b` lies counter-clockwise of `a`.
pub fn cross(a: P2, b: P2) -> f64 {
    a[0] * b[1] - a[1] * b[0]
}

/// Distance between two points.
pub fn distance(a: P2, b: P2) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// The point halfway.
pub fn midpoint(a: P2, b: P2) -> P2 {
    [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])]
}

/// Unit vector from `a` to `b`; zero where they coincide.
pub fn unit(a: P2, b: P2) -> P2 {
    let d = distance(a, b);
    if d > 0.0 { scale(sub(b, a), 1.0 / d) } else { [0.0, 0.0] }
}

/// The vector turned a quarter clockwise: outwards from a counter-clockwise edge.
pub fn outward(direction: P2) -> P2 {
    [direction[1], -direction[0]]
}

/// Whether two planes are one but for rounding.
pub fn same_plane(p: Rise, q: Rise) -> bool {
    p.iter().zip(q).all(|(p, q)| (p - q).abs() < 1e-9)
}

/// A point in space as it lies in plan.
pub fn flat(p: [f64; 3]) -> P2 {
    [p[0], p[1]]
}

/// Height of a plane at a point.
pub fn height(rise: Rise, p: P2) -> f64 {
    rise[0] * p[0] + rise[1] * p[1] + rise[2]
}

/// Whether `c` lies left of (positive), right of or on the line from `a` to `b`; the sign is exact.
pub fn orientation(a: P2, b: P2, c: P2) -> f64 {
    let coord = |p: P2| robust::Coord { x: p[0], y: p[1] };
    robust::orient2d(coord(a), coord(b), coord(c))
}

/// Signed area: positive when counter-clockwise.
pub fn area(polygon: &[P2]) -> f64 {
    let Some(&origin) = polygon.first() else { return 0.0 };
    let twice: f64 = edges(polygon).map(|(a, b)| cross(sub(a, origin), sub(b, origin))).sum();
    0.5 * twice
}

/// The polygon's sides, each with its start and end.
pub fn edges(polygon: &[P2]) -> impl Iterator<Item = (P2, P2)> + '_ {
    polygon.iter().copied().zip(polygon.iter().copied().cycle().skip(1))
}

/// Whether a point is inside by the even-odd rule; boundary points may go either way.
pub fn contains(polygon: &[P2], p: P2) -> bool {
    edges(polygon).filter(|&(a, b)| crosses_ray(a, b, p)).count() % 2 == 1
}

/// Whether the ray from `p` towards +x crosses the side.
pub fn crosses_ray(a: P2, b: P2, p: P2) -> bool {
    (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
}

/// Distance from a point to a segment, and how far along it the nearest point lies (0 to 1).
pub fn to_segment(p: P2, a: P2, b: P2) -> (f64, f64) {
    let ab = sub(b, a);
    let len2 = dot(ab, ab);
    let t = if len2 > 0.0 { (dot(sub(p, a), ab) / len2).clamp(0.0, 1.0) } else { 0.0 };
    (distance(p, along(a, ab, t)), t)
}

/// Whether a direction is more north or south than east or west, so that places along it count from the south; a hair of rounding at half
/// does not count.
pub fn runs_north(run: P2) -> bool {
    run[1].abs() > run[0].abs() + 1e-9
}

/// Whether places along a direction count the way it goes: from the west, from the south where it runs north.
pub fn counts_along(run: P2) -> bool {
    if runs_north(run) { run[1] > 0.0 } else { run[0] > 0.0 }
}

/// Part of a convex polygon where `side` is at least zero; `side` is linear in the plan.
pub fn clip(polygon: &[P2], side: impl Fn(P2) -> f64) -> Vec<P2> {
    let mut kept = Vec::with_capacity(polygon.len() + 1);
    for (a, b) in edges(polygon) {
        let (sa, sb) = (side(a), side(b));
        if sa >= 0.0 {
            kept.push(a);
        }
        if (sa > 0.0 && sb < 0.0) || (sa < 0.0 && sb > 0.0) {
            kept.push(between(a, b, sa / (sa - sb)));
        }
    }
    kept
}

/// The line `rise = 0` as a point and a unit direction; none when the plane is level.
pub fn zero_line(rise: Rise) -> Option<(P2, P2)> {
    let g2 = rise[0] * rise[0] + rise[1] * rise[1];
    if g2 < 1e-18 {
        return None;
    }
    let g = g2.sqrt();
    Some(([-rise[0] * rise[2] / g2, -rise[1] * rise[2] / g2], [-rise[1] / g, rise[0] / g]))
}

/// Points this close to a line are on it, metres: rounding, and nothing a tape could read.
pub const ON_LINE: f64 = 1e-7;

/// Stretches of a line inside a polygon, as distances along the line from `p`, in order; a line along a side runs beside the
/// polygon, not inside it. `direction` is a unit vector.
pub fn inside_stretches(polygon: &[P2], p: P2, direction: P2) -> Vec<[f64; 2]> {
    let mut at: Vec<f64> = edges(polygon).filter_map(|(a, b)| crossing(a, b, p, direction)).collect();
    at.sort_by(f64::total_cmp);
    at.chunks_exact(2).map(|c| [c[0], c[1]]).filter(|[from, to]| to - from > ON_LINE).collect()
}

/// Where a line crosses a side, counting each vertex on the line once as if it lay just off to its left.
fn crossing(a: P2, b: P2, p: P2, direction: P2) -> Option<f64> {
    let (sa, sb) = (cross(direction, sub(a, p)), cross(direction, sub(b, p)));
    ((sa >= -ON_LINE) != (sb >= -ON_LINE)).then(|| {
        let q = between(a, b, (sa / (sa - sb)).clamp(0.0, 1.0));
        dot(sub(q, p), direction)
    })
}

/// The point a part of the way from `a` to `b`.
pub fn between(a: P2, b: P2, part: f64) -> P2 {
    along(a, sub(b, a), part)
}

/// Where two lines, each a point and a direction, cross; none when they are parallel.
pub fn line_crossing(p: P2, u: P2, q: P2, v: P2) -> Option<P2> {
    let d = cross(u, v);
    (d.abs() > 1e-12).then(|| along(p, u, cross(sub(q, p), v) / d))
}

/// Whether two segments cross, ends touching not counted for sure.
pub fn segments_cross(p: P2, q: P2, a: P2, b: P2) -> bool {
    let is_left = |u: P2, v: P2, w: P2| cross(sub(v, u), sub(w, u)) > 0.0;
    is_left(p, q, a) != is_left(p, q, b) && is_left(a, b, p) != is_left(a, b, q)
}

/// Stretches common to two ordered lists of stretches.
pub fn common(a: &[[f64; 2]], b: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let mut both = Vec::new();
    for x in a {
        both.extend(b.iter().map(|y| [x[0].max(y[0]), x[1].min(y[1])]).filter(|s| s[1] > s[0]));
    }
    both
}

/// An upright box in plan.
#[derive(Clone, Copy, Debug)]
pub struct Bounds {
    /// Least coordinates.
    pub min: P2,
    /// Greatest coordinates.
    pub max: P2,
}

impl Bounds {
    /// Of points; of none, empty: infinite the wrong way round.
    pub fn of<'a>(points: impl IntoIterator<Item = &'a P2>) -> Self {
        let start = Self { min: [f64::INFINITY; 2], max: [f64::NEG_INFINITY; 2] };
        points.into_iter().fold(start, |b, p| Self {
            min: [b.min[0].min(p[0]), b.min[1].min(p[1])],
            max: [b.max[0].max(p[0]), b.max[1].max(p[1])],
        })
    }

    /// With so much more on every side.
    #[must_use]
    pub fn grown(self, by: f64) -> Self {
        Self { min: [self.min[0] - by, self.min[1] - by], max: [self.max[0] + by, self.max[1] + by] }
    }

    /// The box around both.
    #[must_use]
    pub fn joined(&self, other: &Self) -> Self {
        Self::of(&[self.min, self.max, other.min, other.max])
    }

    /// Whether two boxes share a point.
    pub fn meets(&self, other: &Self) -> bool {
        (0..2).all(|i| self.min[i] <= other.max[i] && other.min[i] <= self.max[i])
    }

    /// Whether a point is in the box.
    pub fn holds(&self, p: P2) -> bool {
        (0..2).all(|i| self.min[i] <= p[i] && p[i] <= self.max[i])
    }

    /// Its corners, counter-clockwise.
    pub fn corners(&self) -> [P2; 4] {
        [self.min, [self.max[0], self.min[1]], self.max, [self.min[0], self.max[1]]]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A roof 8 m by 4 m turned by an angle, with the ridge along its far side.
    fn turned_slope(degrees: f64) -> (Vec<P2>, Rise) {
        let (sin, cos) = f64::to_radians(degrees).sin_cos();
        let turn = |[x, y]: P2| [x * cos - y * sin, x * sin + y * cos];
        let ridge_to_eave = turn([0.0, 4.0]);
        let level_at_ridge = [ridge_to_eave[0], ridge_to_eave[1], -dot(ridge_to_eave, ridge_to_eave)];
        ([[0.0, 0.0], [8.0, 0.0], [8.0, 4.0], [0.0, 4.0]].map(turn).to_vec(), level_at_ridge)
    }

    #[test]
    fn a_line_along_a_side_is_not_inside() {
        for k in 0..10_000 {
            let (slope, level_at_ridge) = turned_slope(f64::from(k) * 0.036_1);
            let (p, direction) = zero_line(level_at_ridge).expect("a line");
            let inside = inside_stretches(&slope, p, direction);
            assert!(inside.is_empty(), "turned {k}: {inside:?}");
        }
    }

    #[test]
    fn a_line_through_two_corners_is_inside_between_them() {
        let square = [[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]];
        let half = std::f64::consts::FRAC_1_SQRT_2;
        let inside = inside_stretches(&square, [1.0, 1.0], [half, half]);
        let [[from, to]] = inside[..] else { panic!("{inside:?}") };
        assert!((from + 1.0 / half).abs() < 1e-12 && (to - 1.0 / half).abs() < 1e-12);
    }
}
