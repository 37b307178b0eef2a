//! Nothing seen is behind anything, and nothing hidden is in the open: checked by rays that share no code with the
//! drawing.

use proptest::prelude::*;

use super::houses;
use super::random::{Plan, random_house};
use crate::order::{Piece, far_to_near};
use crate::sight::{Eye, Face, Scene};
use crate::survey::Survey;
use crate::vector::{P3, along, between, cross3, dot, length, sub};
use crate::view::{Solid, Surface};
use roof::Roof;

/// How near to a face's plane or border a ray may pass for either answer to be right, metres.
const DOUBT: f64 = 0.005;

/// For points that lie on no face in particular.
const NO_FACE: usize = usize::MAX;

/// Whether a ray from a point hits a face: yes, no, or too close to tell.
fn hits(face: &Face, from: P3, direction: P3) -> Option<bool> {
    let outline = &face.rings[0];
    let normal = (1..outline.len() - 1)
        .map(|i| cross3(sub(outline[i], outline[0]), sub(outline[i + 1], outline[0])))
        .fold([0.0; 3], crate::vector::add);
    let size = length(normal);
    let facing = dot(normal, direction) / size;
    if size < 1e-9 || facing.abs() < 1e-6 {
        return Some(false);
    }
    let ahead = dot(normal, sub(outline[0], from)) / size / facing;
    if ahead < -DOUBT {
        return Some(false);
    }
    let hit = along(from, direction, ahead);
    let inside = is_inside(face, hit, normal, direction)?;
    if inside && ahead < DOUBT { None } else { Some(inside) }
}

/// Winding number in the face's own plane, by summed angles: no ray casting. None for a point that, seen along a
/// direction, is at the border.
fn is_inside(face: &Face, p: P3, normal: P3, direction: P3) -> Option<bool> {
    let size = length(normal);
    let mut turn = 0.0;
    for ring in &face.rings {
        for (i, &a) in ring.iter().enumerate() {
            let b = ring[(i + 1) % ring.len()];
            let (u, v) = (sub(a, p), sub(b, p));
            if distance_to_segment(across(u, direction), across(v, direction)) < DOUBT {
                return None;
            }
            turn += (dot(cross3(u, v), normal) / size).atan2(dot(u, v));
        }
    }
    // Once around, or not at all: a hole turns back what the outline turned.
    Some(turn.abs() > std::f64::consts::PI)
}

/// What of a vector is square to a unit direction.
fn across(v: P3, direction: P3) -> P3 {
    along(v, direction, -dot(v, direction))
}

/// From the origin.
fn distance_to_segment(a: P3, b: P3) -> f64 {
    let d = sub(b, a);
    let t = (-dot(a, d) / dot(d, d).max(1e-12)).clamp(0.0, 1.0);
    length(along(a, d, t))
}

/// Whether any face but `own` stands before a point; none when that is too close to tell. Faces in the same
/// place do not stand before each other.
fn covered(faces: &[Face], p: P3, toward: P3, own: usize) -> Option<bool> {
    let others =
        faces.iter().enumerate().filter(|&(i, face)| i != own && (own == NO_FACE || !is_in_plane(face, p)));
    let answers: Vec<Option<bool>> = others.map(|(_, face)| hits(face, p, toward)).collect();
    if answers.contains(&Some(true)) {
        Some(true)
    } else {
        answers.iter().all(Option::is_some).then_some(false)
    }
}

/// Samples along every line: what is drawn must be in the open, what is left out must be covered.
fn check_lines(roof: &Roof, azimuth: f64) -> Result<(), TestCaseError> {
    let eye = Eye::from_direction(azimuth, 32.0);
    let solid = Solid::of(roof, &Survey::default(), &eye);
    let scene = Scene::new(eye, &solid.faces);
    for (line, ends) in &solid.lines {
        let seen = scene.seen(*ends);
        for step in 0..13 {
            let t = (f64::from(step) + 0.37) / 13.0;
            let p = between(ends[0], ends[1], t);
            let is_drawn = seen.iter().any(|[from, to]| (*from..=*to).contains(&t));
            let is_near_change =
                seen.iter().flatten().any(|s| (s - t).abs() * length(sub(ends[1], ends[0])) < 0.02);
            let truth = covered(&solid.faces, p, eye.toward, NO_FACE);
            if let (Some(is_covered), false) = (truth, is_near_change) {
                prop_assert!(
                    is_drawn != is_covered,
                    "{line:?} {ends:?} at {t}: drawn {is_drawn}, covered {is_covered}"
                );
            }
        }
    }
    Ok(())
}

/// At points of every face that nothing covers, the last piece painted is the face's own, or one of a face in
/// the same place; never so for an opening, which must come after its plane.
fn check_paint(roof: &Roof, azimuth: f64) -> Result<(), TestCaseError> {
    let eye = Eye::from_direction(azimuth, 32.0);
    let solid = Solid::of(roof, &Survey::default(), &eye);
    let pieces = far_to_near(&solid.faces, eye.toward);
    for (index, face) in solid.faces.iter().enumerate() {
        for p in samples(face) {
            if covered(&solid.faces, p, eye.toward, index) != Some(false) {
                continue;
            }
            let back = along(p, eye.toward, -1000.0);
            let hit = |piece: &Piece| hits(&Face::of(piece.corners.clone()), back, eye.toward);
            let last = pieces
                .iter()
                .rev()
                .map(|piece| (piece.face, hit(piece)))
                .find(|(_, hit)| *hit != Some(false));
            let Some((last, Some(true))) = last else { continue };
            let may_be_another =
                solid.surfaces[index] != Surface::Opening && is_in_plane(&solid.faces[last], p);
            prop_assert!(last == index || may_be_another, "at {p:?} of face {index}: {last} is painted last");
        }
    }
    Ok(())
}

fn is_in_plane(face: &Face, p: P3) -> bool {
    face.normal().is_some_and(|normal| dot(normal, sub(p, face.rings[0][0])).abs() < DOUBT)
}

/// Points well inside a face.
fn samples(face: &Face) -> Vec<P3> {
    let ring = &face.rings[0];
    let Some(normal) = face.normal() else { return Vec::new() };
    let pairs = (0..ring.len()).flat_map(|i| (i + 2..ring.len()).map(move |j| (i, j)));
    let points = pairs.flat_map(|(i, j)| [0.21, 0.5, 0.83].map(|t| between(ring[i], ring[j], t)));
    points.filter(|&p| is_inside(face, p, normal, normal) == Some(true)).collect()
}

#[test]
fn houses_show_what_is_in_the_open_and_hide_the_rest() {
    for house in houses::all().into_iter().filter(|house| house.roof.planes.len() < 40) {
        for azimuth in [225.0, 45.0, 100.0, 333.0] {
            check_lines(&house.roof, azimuth)
                .unwrap_or_else(|error| panic!("{} from {azimuth}: {error}", house.name));
            check_paint(&house.roof, azimuth)
                .unwrap_or_else(|error| panic!("{} from {azimuth}: {error}", house.name));
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, ..ProptestConfig::default() })]

    #[test]
    fn random_houses_show_what_is_in_the_open_and_hide_the_rest(plan in any::<Plan>(), azimuth in 0.0..360.0f64) {
        let Some(roof) = random_house(&plan) else { return Ok(()) };
        check_lines(&roof, azimuth)?;
        check_paint(&roof, azimuth)?;
    }
}
