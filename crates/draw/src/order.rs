//! Faces from the farthest to the nearest, cut where no order of whole faces would be right.
//!
//! # Method
//! Each face is first cut into convex pieces (strips between the levels of its corners), the pieces into a
//! binary space partition: the plane of one piece divides the others, cutting those that cross it. Walked from
//! the far side to the near one, no piece ever covers a later one. Faces that overlap in a circle, or pierce
//! each other, get cut by it.
//! # Degenerate cases
//! Pieces within [`ON`] of the dividing plane count as lying in it; there, later faces are painted over earlier
//! ones, so that an opening comes after its plane. Dividing keeps the order of faces, so nothing needs sorting.
//! # Complexity
//! n log n pieces where planes cut few others; n² at worst.

use crate::polygon::ring_sides;
use crate::sight::Face;
use crate::vector::{P3, between, cross3, dot, sub, unit};

/// Distance within which a corner counts as lying in a dividing plane, metres.
const ON: f64 = 5e-4;

/// A convex part of a face.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Piece {
    pub(crate) corners: Vec<P3>,
    /// Index of the face.
    pub(crate) face: usize,
    normal: P3,
}

/// All faces in convex pieces, the farthest first.
pub(crate) fn far_to_near(faces: &[Face], toward: P3) -> Vec<Piece> {
    let pieces = faces.iter().enumerate().flat_map(|(i, face)| convex_pieces(face, i)).collect();
    let mut out = Vec::new();
    paint(pieces, toward, &mut out);
    out
}

/// One level of the partition: what lies beyond the dividing plane, then in it, then before it.
fn paint(mut pieces: Vec<Piece>, toward: P3, out: &mut Vec<Piece>) {
    if pieces.len() < 2 {
        out.append(&mut pieces);
        return;
    }
    let plane = Plane::of(best_divider(&pieces));
    let Divided { mut within, above, below } = Divided::of(&pieces, &plane);
    let is_above_nearer = dot(plane.normal, toward) > 0.0;
    let (far, near) = if is_above_nearer { (below, above) } else { (above, below) };
    paint(far, toward, out);
    out.append(&mut within);
    paint(near, toward, out);
}

/// The piece whose plane cuts fewest others, out of a few spread over the list.
fn best_divider(pieces: &[Piece]) -> &Piece {
    const TRIED: usize = 9;
    let step = pieces.len().div_ceil(TRIED).max(1);
    let cuts = |piece: &&Piece| {
        let plane = Plane::of(piece);
        pieces.iter().filter(|other| plane.cuts(other)).count()
    };
    pieces.iter().step_by(step).min_by_key(cuts).unwrap_or(&pieces[0])
}

struct Plane {
    normal: P3,
    offset: f64,
}

impl Plane {
    fn of(piece: &Piece) -> Self {
        Self { normal: piece.normal, offset: dot(piece.normal, piece.corners[0]) }
    }

    fn height(&self, p: P3) -> f64 {
        dot(self.normal, p) - self.offset
    }

    fn reach(&self, piece: &Piece) -> [f64; 2] {
        let heights = piece.corners.iter().map(|&p| self.height(p));
        heights.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], h| [low.min(h), high.max(h)])
    }

    fn cuts(&self, piece: &Piece) -> bool {
        let [low, high] = self.reach(piece);
        low < -ON && high > ON
    }

    /// The part of a piece where height times `sign` is not negative; none when nothing with area is left.
    fn part(&self, piece: &Piece, sign: f64) -> Option<Piece> {
        let mut corners = Vec::with_capacity(piece.corners.len() + 1);
        for [a, b] in ring_sides(&piece.corners) {
            let (ha, hb) = (sign * self.height(a), sign * self.height(b));
            if ha >= 0.0 {
                corners.push(a);
            }
            if (ha > 0.0 && hb < 0.0) || (ha < 0.0 && hb > 0.0) {
                corners.push(between(a, b, ha / (ha - hb)));
            }
        }
        if corners.len() > 2 { Some(Piece { corners, ..*piece }) } else { None }
    }
}

#[derive(Default)]
struct Divided {
    within: Vec<Piece>,
    above: Vec<Piece>,
    below: Vec<Piece>,
}

impl Divided {
    fn of(pieces: &[Piece], plane: &Plane) -> Self {
        let mut divided = Self::default();
        for piece in pieces {
            divided.sort_in(piece, plane);
        }
        divided
    }

    fn sort_in(&mut self, piece: &Piece, plane: &Plane) {
        let [low, high] = plane.reach(piece);
        match (low < -ON, high > ON) {
            (false, false) => self.within.push(piece.clone()),
            (false, true) => self.above.push(piece.clone()),
            (true, false) => self.below.push(piece.clone()),
            (true, true) => {
                self.above.extend(plane.part(piece, 1.0));
                self.below.extend(plane.part(piece, -1.0));
            }
        }
    }
}

/// The face cut into strips at the level of every corner, measured along one direction in it: trapezoids and
/// triangles. Works for reentrant outlines and holes.
fn convex_pieces(face: &Face, index: usize) -> Vec<Piece> {
    let Some(normal) = face.normal() else { return Vec::new() };
    let Some(across) = face.rings.first().and_then(|ring| unit(sub(*ring.get(1)?, *ring.first()?))) else {
        return Vec::new();
    };
    let up = cross3(normal, across);
    let level = |p: P3| dot(up, p);
    let mut levels: Vec<f64> = face.rings.iter().flatten().map(|&p| level(p)).collect();
    levels.sort_by(f64::total_cmp);
    levels.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    let strip = |w: &[f64]| strip_pieces(face, w[0], w[1], across, level);
    let pieces = levels.windows(2).flat_map(strip);
    pieces.map(|corners| Piece { corners, face: index, normal }).collect()
}

/// Pieces of a face between two levels with no corner between them.
fn strip_pieces(face: &Face, low: f64, high: f64, across: P3, level: impl Fn(P3) -> f64) -> Vec<Vec<P3>> {
    let middle = f64::midpoint(low, high);
    let crosses = |[a, b]: &[P3; 2]| (level(*a) > middle) != (level(*b) > middle);
    let at =
        |[a, b]: [P3; 2], h: f64| between(a, b, ((h - level(a)) / (level(b) - level(a))).clamp(0.0, 1.0));
    let mut sides: Vec<[P3; 2]> = face
        .rings
        .iter()
        .flat_map(|ring| ring_sides(ring))
        .filter(crosses)
        .map(|s| [at(s, low), at(s, high)])
        .collect();
    sides.sort_by(|a, b| {
        (dot(across, a[0]) + dot(across, a[1])).total_cmp(&(dot(across, b[0]) + dot(across, b[1])))
    });
    let piece = |pair: &[[P3; 2]]| vec![pair[0][0], pair[1][0], pair[1][1], pair[0][1]];
    sides.chunks_exact(2).map(piece).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::vector::{add, length, scale};

    fn area(corners: &[P3]) -> f64 {
        let cross = ring_sides(corners).map(|[a, b]| cross3(sub(a, corners[0]), sub(b, corners[0])));
        length(cross.fold([0.0; 3], add)) / 2.0
    }

    #[test]
    fn pieces_of_a_pierced_reentrant_face_have_its_area() {
        let outline = [
            [0.0, 0.0, 0.0],
            [4.0, 0.0, 2.0],
            [4.0, 1.0, 2.0],
            [1.0, 1.0, 0.5],
            [1.0, 3.0, 0.5],
            [0.0, 3.0, 0.0],
        ];
        let hole = vec![[2.0, 0.2, 1.0], [2.0, 0.8, 1.0], [3.0, 0.8, 1.5], [3.0, 0.2, 1.5]];
        let face = Face { rings: vec![outline.to_vec(), hole] };
        let total: f64 = convex_pieces(&face, 0).iter().map(|piece| area(&piece.corners)).sum();
        let slope_factor = 1.25f64.sqrt();
        assert!((total - (6.0 - 0.6) * slope_factor).abs() < 1e-9, "{total}");
    }

    #[test]
    fn three_beams_that_overlap_in_a_circle_are_cut_and_painted_without_covering_a_nearer_one() {
        // Each beam rises along its length and starts under its neighbour's high end.
        let beam = |turn: f64| {
            let (sin, cos) = turn.to_radians().sin_cos();
            let place = |x: f64, y: f64, z: f64| [x * cos - y * sin, x * sin + y * cos, z];
            Face::of([
                place(-3.0, -1.2, 0.0),
                place(3.0, -1.2, 1.0),
                place(3.0, -0.6, 1.0),
                place(-3.0, -0.6, 0.0),
            ])
        };
        let toward = [0.0, 0.0, 1.0];
        let pieces = far_to_near(&[beam(0.0), beam(120.0), beam(240.0)], toward);
        assert!(pieces.len() > 3, "one of the three must be cut");
        assert_painted_in_order(&pieces, toward);
    }

    /// At the middle of every piece, no earlier piece is nearer.
    fn assert_painted_in_order(pieces: &[Piece], toward: P3) {
        for (i, later) in pieces.iter().enumerate() {
            let middle =
                scale(later.corners.iter().copied().fold([0.0; 3], add), 1.0 / later.corners.len() as f64);
            for earlier in &pieces[..i] {
                let hit = ray_hit(earlier, middle, toward);
                assert!(hit.is_none_or(|ahead| ahead < 1e-6), "{earlier:?} stands before {later:?}");
            }
        }
    }

    /// How far along the ray the convex piece is hit.
    fn ray_hit(piece: &Piece, from: P3, direction: P3) -> Option<f64> {
        let facing = dot(piece.normal, direction);
        let ahead = dot(piece.normal, sub(piece.corners[0], from)) / facing;
        let hit = add(from, scale(direction, ahead));
        let turns =
            ring_sides(&piece.corners).map(|[a, b]| dot(cross3(sub(b, a), sub(hit, a)), piece.normal));
        let (low, high) = turns.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), t| (l.min(t), h.max(t)));
        (facing.abs() > 1e-9 && (low > 1e-9 || high < -1e-9)).then_some(ahead)
    }
}
