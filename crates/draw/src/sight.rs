//! What can be seen along one direction: parallel projection, and which parts of a line faces hide.
//!
//! # Method
//! Each line is cut against each face on the screen. The face hides the stretch that lies well inside its
//! outline and behind it; both depth along the line and depth of the face's plane are linear on the screen, so
//! the stretch is an interval, found by one division. No sorting of faces is involved, so faces that overlap in
//! a circle are no special case.
//! # Degenerate cases
//! Lines on a face, or along its outline, are not hidden by it: a line must be [`BEHIND`] behind and [`INSIDE`]
//! inside. Faces seen edge-on hide nothing.
//! # Complexity
//! Lines times sides of faces.

use crate::polygon::{Bounds, contains_well, crossings, ring_sides, segment_distance};
use crate::vector::{P2, P3, add, between, cross3, dot, length, scale, sub, unit};

/// How far behind a face a point must be to be hidden, metres.
pub(crate) const BEHIND: f64 = 2e-3;
/// How far inside the outline of a face, on the screen, a point must be to be hidden, metres.
pub(crate) const INSIDE: f64 = 5e-4;

/// A direction of view: an orthonormal frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Eye {
    right: P3,
    up: P3,
    /// From the house towards the eye.
    pub(crate) toward: P3,
}

impl Eye {
    /// Straight from above, the direction `up_degrees` clockwise from north being up.
    pub(crate) fn above(up_degrees: f64) -> Self {
        let (sin, cos) = up_degrees.to_radians().sin_cos();
        Self { right: [cos, -sin, 0.0], up: [sin, cos, 0.0], toward: [0.0, 0.0, 1.0] }
    }

    /// From a compass direction, degrees clockwise from north, and so many degrees above the horizon.
    pub(crate) fn from_direction(azimuth_degrees: f64, above_degrees: f64) -> Self {
        let (sin, cos) = azimuth_degrees.to_radians().sin_cos();
        let (rise, reach) = above_degrees.to_radians().sin_cos();
        let toward = [sin * reach, cos * reach, rise];
        let right = [-cos, sin, 0.0];
        Self { right, up: cross3(toward, right), toward }
    }

    /// Where a point is on the screen, metres, y up.
    pub(crate) fn screen(&self, p: P3) -> P2 {
        [dot(self.right, p), dot(self.up, p)]
    }

    /// A point in space behind a point of the screen.
    pub(crate) fn back(&self, screen: P2) -> P3 {
        add(scale(self.right, screen[0]), scale(self.up, screen[1]))
    }

    /// Unit direction towards a light above the eye, to the hand where things on the screen have small x.
    pub(crate) fn over_the_shoulder(&self) -> P3 {
        let sum = add(add(scale(self.right, -0.7), scale(self.toward, 0.35)), [0.0, 0.0, 0.55]);
        unit(sum).unwrap_or(self.toward)
    }

    /// How near a point is, metres; greater is nearer.
    pub(crate) fn nearness(&self, p: P3) -> f64 {
        dot(self.toward, p)
    }
}

/// A flat polygon in space; the first ring is the outline, the others are holes.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Face {
    pub(crate) rings: Vec<Vec<P3>>,
}

impl Face {
    pub(crate) fn of(outline: impl Into<Vec<P3>>) -> Self {
        Self { rings: vec![outline.into()] }
    }

    /// Unit normal by Newell's sum over the outline; none for a face without area.
    pub(crate) fn normal(&self) -> Option<P3> {
        let outline = self.rings.first()?;
        let origin = *outline.first()?;
        let sum =
            ring_sides(outline).map(|[a, b]| cross3(sub(a, origin), sub(b, origin))).fold([0.0; 3], add);
        unit(sum)
    }
}

/// A face as it stands before the eye.
#[derive(Clone, Debug)]
struct Pane {
    rings: Vec<Vec<P2>>,
    bounds: Bounds,
    /// Nearness is `plane[0] * x + plane[1] * y + plane[2]` on the screen.
    plane: P3,
}

impl Pane {
    /// None when it is seen edge-on.
    fn of(face: &Face, eye: &Eye) -> Option<Self> {
        let normal = face.normal()?;
        let facing = dot(normal, eye.toward);
        if facing.abs() < 1e-6 {
            return None;
        }
        let offset = dot(normal, *face.rings.first()?.first()?);
        let plane = scale([-dot(normal, eye.right), -dot(normal, eye.up), offset], 1.0 / facing);
        let rings: Vec<Vec<P2>> =
            face.rings.iter().map(|ring| ring.iter().map(|&p| eye.screen(p)).collect()).collect();
        let bounds = Bounds::of(rings.iter().flatten().copied());
        Some(Self { rings, bounds, plane })
    }

    fn nearness(&self, at: P2) -> f64 {
        dot(self.plane, [at[0], at[1], 1.0])
    }

    /// Stretches of the segment that lie behind it, as shares.
    fn hides(&self, screen: [P2; 2], near: [f64; 2]) -> Vec<[f64; 2]> {
        if !self.bounds.meets(&Bounds::of(screen)) {
            return Vec::new();
        }
        let depth = [0, 1].map(|i| self.nearness(screen[i]) - near[i] - BEHIND);
        let Some([from, to]) = positive_stretch(depth) else { return Vec::new() };
        let mut cuts = crossings(&self.rings, screen);
        cuts.extend(self.corners_on(screen));
        cuts.extend([from, to]);
        cuts.retain(|t| (from..=to).contains(t));
        cuts.sort_by(f64::total_cmp);
        let is_inside = |t| contains_well(&self.rings, between(screen[0], screen[1], t), INSIDE);
        cuts.windows(2).map(|w| [w[0], w[1]]).filter(|[a, b]| b > a && is_inside((a + b) / 2.0)).collect()
    }

    /// Where corners lie on a segment, as shares. One that runs along a side leaves it there, with a crossing that
    /// rounding may hide.
    fn corners_on(&self, segment: [P2; 2]) -> impl Iterator<Item = f64> {
        let d = sub(segment[1], segment[0]);
        let square = dot(d, d).max(f64::MIN_POSITIVE);
        let on =
            self.rings.iter().flatten().filter(move |&&corner| segment_distance(segment, corner) < INSIDE);
        on.map(move |&corner| dot(sub(corner, segment[0]), d) / square)
    }
}

/// Where a linear function with these values at 0 and 1 is positive.
fn positive_stretch([a, b]: [f64; 2]) -> Option<[f64; 2]> {
    let zero = a / (a - b);
    match (a > 0.0, b > 0.0) {
        (true, true) => Some([0.0, 1.0]),
        (true, false) => Some([0.0, zero]),
        (false, true) => Some([zero, 1.0]),
        (false, false) => None,
    }
}

/// Faces before an eye.
#[derive(Clone, Debug)]
pub(crate) struct Scene {
    pub(crate) eye: Eye,
    panes: Vec<Pane>,
}

impl Scene {
    pub(crate) fn new<'a>(eye: Eye, faces: impl IntoIterator<Item = &'a Face>) -> Self {
        Self { eye, panes: faces.into_iter().filter_map(|face| Pane::of(face, &eye)).collect() }
    }

    /// Stretches of a segment that faces hide, as shares of its length, apart and in order.
    pub(crate) fn hidden(&self, ends: [P3; 2]) -> Vec<[f64; 2]> {
        let screen = ends.map(|p| self.eye.screen(p));
        let near = ends.map(|p| self.eye.nearness(p));
        merged(self.panes.iter().flat_map(|pane| pane.hides(screen, near)).collect())
    }

    /// Stretches of a segment that can be seen. What is shorter than [`INSIDE`] is left out.
    pub(crate) fn seen(&self, ends: [P3; 2]) -> Vec<[f64; 2]> {
        let screen = ends.map(|p| self.eye.screen(p));
        let least = INSIDE / length(sub(screen[1], screen[0])).max(INSIDE);
        rest(&self.hidden(ends)).into_iter().filter(|[a, b]| b - a > least).collect()
    }

    /// Whether a face stands before the point.
    pub(crate) fn covers(&self, p: P3) -> bool {
        let (at, near) = (self.eye.screen(p), self.eye.nearness(p));
        let hides = |pane: &Pane| {
            let is_before = pane.bounds.meets(&Bounds::of([at])) && pane.nearness(at) > near + BEHIND;
            is_before && contains_well(&pane.rings, at, INSIDE)
        };
        self.panes.iter().any(hides)
    }
}

/// Intervals joined where they overlap or touch, in order.
fn merged(mut parts: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    const TOUCH: f64 = 1e-9;
    parts.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let mut out: Vec<[f64; 2]> = Vec::new();
    for part in parts {
        match out.last_mut() {
            Some(last) if part[0] <= last[1] + TOUCH => last[1] = last[1].max(part[1]),
            _ => out.push(part),
        }
    }
    out
}

/// What intervals in order leave of 0..1.
fn rest(parts: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let starts = std::iter::once(0.0).chain(parts.iter().map(|p| p[1]));
    let ends = parts.iter().map(|p| p[0]).chain(std::iter::once(1.0));
    starts.zip(ends).filter(|(a, b)| b > a).map(|(a, b)| [a, b]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(low: f64, high: f64, z: f64) -> Face {
        Face::of([[low, low, z], [high, low, z], [high, high, z], [low, high, z]])
    }

    fn check_hidden(ends: [P3; 2], expected: &[[f64; 2]]) {
        let scene = Scene::new(Eye::above(0.0), &[square(1.0, 2.0, 5.0), square(3.0, 4.0, 5.0)]);
        assert_eq!(scene.hidden(ends), expected);
    }

    #[test]
    fn line_under_two_faces_is_hidden_under_each() {
        check_hidden([[0.0, 1.5, 0.0], [5.0, 3.5, 0.0]], &[[0.2, 0.25], [0.75, 0.8]]);
    }

    #[test]
    fn line_on_or_over_a_face_or_along_its_outline_is_seen() {
        check_hidden([[0.0, 1.5, 5.0], [5.0, 1.5, 5.0]], &[]);
        check_hidden([[0.0, 1.5, 6.0], [5.0, 1.5, 6.0]], &[]);
        check_hidden([[1.0, 1.0, 0.0], [2.0, 1.0, 0.0]], &[]);
    }

    #[test]
    fn line_that_pierces_a_face_is_hidden_only_behind_it() {
        let ends = [[1.0, 1.5, 4.0], [2.0, 1.5, 6.0]];
        let scene = Scene::new(Eye::above(0.0), &[square(1.0, 2.0, 5.0)]);
        let hidden = scene.hidden(ends);
        assert_eq!(hidden.len(), 1);
        assert!(hidden[0][0] == 0.0 && (hidden[0][1] - (0.5 - BEHIND / 2.0)).abs() < 1e-9, "{hidden:?}");
    }

    #[test]
    fn line_just_inside_a_side_is_hidden_from_the_corner_where_the_side_leaves_it() {
        let ell = [
            [0.0, 0.0, 5.0],
            [4.0, 0.0, 5.0],
            [4.0, 1.0, 5.0],
            [1.0, 1.0, 5.0],
            [1.0, 3.0, 5.0],
            [0.0, 3.0, 5.0],
        ];
        let scene = Scene::new(Eye::above(0.0), &[Face::of(ell)]);
        let y = 1.0 - 1e-6;
        assert_eq!(scene.hidden([[4.0, y, 0.0], [0.0, y, 0.0]]), [[0.75, 1.0]]);
    }

    #[test]
    fn eye_in_the_south_west_sees_east_on_the_right_and_near_things_in_the_south_west() {
        let eye = Eye::from_direction(225.0, 30.0);
        assert!(eye.screen([1.0, -1.0, 0.0])[0] > 1.0 && eye.screen([0.0, 0.0, 1.0])[1] > 0.8);
        assert!(eye.nearness([-1.0, -1.0, 0.0]) > 1.0);
    }
}
