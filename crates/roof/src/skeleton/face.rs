//! Faces from arcs: every arc bounds the face on its left and the face on its right, so the faces tile by construction.
//!
//! # Degenerate cases
//! Nodes that only input rounding keeps apart (a 12-gon's centre) are drawn together: arcs shorter than 2^-44 of the
//! extent are contracted, in all faces at once (unless that would flatten a face). A face that surrounds others (a
//! wide plane round a steep hole) gets holes.
//!
//! # Checks
//! Before faces are returned: every arc divides two faces and no two run between the same nodes, rings close,
//! vertices lie on their plane, and all plan areas sum to the outline's. A failure is an error.

use std::collections::BTreeMap;

use super::double::Vector;
use super::error::SkeletonError;
use super::front::{Arc, Front};
use super::joint::by_angle;
use super::outline::Outline;
use super::{EdgeSlope, Face};

/// Arcs shorter than this, in the scaled frame, are contracted.
const CONTRACTED: f64 = 1.0 / (1_u64 << 44) as f64;
/// Vertices may be this far off their face's plane, relative to the outline's extent.
const OFF_PLANE: f64 = 1e-8;
/// Relative difference allowed between the sum of plan areas and the outline's.
const AREA: f64 = 1e-10;

/// Closed sequence of nodes.
type Ring = Vec<usize>;

/// Directed edge of a face's boundary, the face on its left.
#[derive(Clone, Copy, Debug)]
struct Half {
    from: usize,
    to: usize,
}

/// The face of each side that carries a slope, in contour order.
pub(super) fn faces(outline: &Outline, front: &Front<'_>) -> Result<Vec<Face>, SkeletonError> {
    let drawn_together = faces_with(outline, front, &contracted(front));
    drawn_together.or_else(|_| faces_with(outline, front, &(0..front.nodes.len()).collect::<Vec<_>>()))
}

/// As [`faces`]; `kept` gives for each node the one that stands for it.
fn faces_with(outline: &Outline, front: &Front<'_>, kept: &[usize]) -> Result<Vec<Face>, SkeletonError> {
    if let Some(side) = doubled_arc(front, kept) {
        return Err(torn(outline, front, side));
    }
    let at = places(outline, front);
    let mut faces = Vec::new();
    for (side, halves) in boundaries(outline, front, kept).iter().enumerate() {
        if let EdgeSlope::Rise(slope) = outline.sides[side].slope {
            let face = rings(front, halves).and_then(|rings| face(outline, side, rings, &at));
            let sound = face.filter(|face| lies_on_plane(outline, side, slope, face));
            faces.push(sound.ok_or_else(|| torn(outline, front, side))?);
        }
    }
    faces.sort_by_key(|face| (face.contour, face.edge));
    let missing = outline.area() - faces.iter().map(Face::plan_area).sum::<f64>();
    if missing.abs() > AREA * outline.area() + area_rounding(outline) {
        return Err(torn(outline, front, 0));
    }
    Ok(faces)
}

/// A side whose face has itself on the other side of an arc, or two arcs between the same nodes. (Where two gables
/// meet, arcs are vertical and several may stand on one place.)
fn doubled_arc(front: &Front<'_>, kept: &[usize]) -> Option<usize> {
    if let Some(arc) = front.arcs.iter().find(|arc| arc.left == arc.right) {
        return Some(arc.left);
    }
    let is_gable = |side: usize| front.lines[side].speed.is_zero();
    let ends = |arc: &Arc| (kept[arc.from].min(kept[arc.to]), kept[arc.from].max(kept[arc.to]));
    let bordering = front.arcs.iter().filter(|arc| !(is_gable(arc.left) && is_gable(arc.right)));
    let mut arcs: Vec<_> = bordering.map(|arc| (ends(arc), arc.left)).collect();
    arcs.retain(|((a, b), _)| a != b);
    arcs.sort_unstable();
    arcs.windows(2).find(|pair| pair[0].0 == pair[1].0).map(|pair| pair[0].1)
}

/// What the rounding of coordinates makes of an area.
fn area_rounding(outline: &Outline) -> f64 {
    16.0 * f64::EPSILON * outline.extent * (outline.extent + outline.magnitude)
}

/// Every node in metres; the outline's corners exactly as given.
fn places(outline: &Outline, front: &Front<'_>) -> Vec<[f64; 3]> {
    let frame = &front.lines.frame;
    let mut places: Vec<[f64; 3]> = outline.sides.iter().map(|s| [s.from[0], s.from[1], 0.0]).collect();
    places.extend(front.nodes[places.len()..].iter().map(|node| {
        let [x, y] = frame.outward(node.at);
        [x, y, frame.height(node.height)]
    }));
    places
}

/// For each node the one that stands for it. A corner of the outline stands for itself.
fn contracted(front: &Front<'_>) -> Vec<usize> {
    let corners = front.lines.corners.len();
    let mut kept: Vec<usize> = (0..front.nodes.len()).collect();
    for arc in &front.arcs {
        let (from, to) = (&front.nodes[arc.from], &front.nodes[arc.to]);
        let climb = (to.height - from.height).to_f64();
        if (to.at - from.at).length().hypot(climb) < CONTRACTED {
            let (a, b) = (root(&mut kept, arc.from), root(&mut kept, arc.to));
            let (low, high) = (a.min(b), a.max(b));
            if high >= corners {
                kept[high] = low;
            }
        }
    }
    (0..kept.len()).map(|node| root(&mut kept, node)).collect()
}

fn root(kept: &mut [usize], mut node: usize) -> usize {
    while kept[node] != node {
        kept[node] = kept[kept[node]];
        node = kept[node];
    }
    node
}

/// Boundary of each side's face: the side itself first, then its arcs.
fn boundaries(outline: &Outline, front: &Front<'_>, kept: &[usize]) -> Vec<Vec<Half>> {
    let own = outline.sides.iter().enumerate().map(|(side, s)| vec![Half { from: side, to: s.next }]);
    let mut boundaries: Vec<Vec<Half>> = own.collect();
    for arc in &front.arcs {
        let (from, to) = (kept[arc.from], kept[arc.to]);
        if from != to {
            boundaries[arc.left].push(Half { from, to });
            boundaries[arc.right].push(Half { from: to, to: from });
        }
    }
    boundaries
}

/// Links the halves into rings, the first half's ring first. None if one does not close.
fn rings(front: &Front<'_>, halves: &[Half]) -> Option<Vec<Ring>> {
    let mut leaving: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (index, half) in halves.iter().enumerate() {
        leaving.entry(half.from).or_default().push(index);
    }
    let mut used = vec![false; halves.len()];
    let mut rings = Vec::new();
    for first in 0..halves.len() {
        if used[first] {
            continue;
        }
        let mut ring = Vec::new();
        let mut half = first;
        while !used[half] {
            used[half] = true;
            ring.push(halves[half].from);
            half = following(front, halves, &leaving, &used, (half, first))?;
        }
        rings.push(ring);
    }
    Some(rings)
}

/// The half that continues a ring: the only one, or where the boundary touches itself the first to the right, which
/// keeps to the same part of the face. Reaching the ring's first half ends it.
fn following(
    front: &Front<'_>,
    halves: &[Half],
    leaving: &BTreeMap<usize, Vec<usize>>,
    used: &[bool],
    (half, first): (usize, usize),
) -> Option<usize> {
    let node = halves[half].to;
    let open = || leaving.get(&node).into_iter().flatten().copied().filter(|k| !used[*k] || *k == first);
    let back = direction(front, Half { from: node, to: halves[half].from });
    // Turning clockwise from the way back, the first exit keeps the wedge between the two inside the face.
    let mut exits: Vec<usize> = open().collect();
    exits.sort_by(|a, b| by_angle(direction(front, halves[*a]), direction(front, halves[*b])));
    let before = |k: &&usize| by_angle(direction(front, halves[**k]), back).is_lt();
    exits.iter().rev().find(before).or(exits.last()).copied()
}

fn direction(front: &Front<'_>, half: Half) -> Vector {
    front.nodes[half.to].at - front.nodes[half.from].at
}

fn face(outline: &Outline, side: usize, rings: Vec<Ring>, at: &[[f64; 3]]) -> Option<Face> {
    let id = outline.sides[side].id;
    let mut rings = rings.into_iter().map(|ring| ring.into_iter().map(|node| at[node]).collect::<Vec<_>>());
    let polygon = rings.next()?;
    let holes: Vec<Vec<[f64; 3]>> = rings.filter(|ring| ring.len() > 2).collect();
    let rounding = area_rounding(outline);
    let outside_in = plan_area(&polygon) > -rounding && holes.iter().all(|hole| plan_area(hole) < rounding);
    (polygon.len() > 2 && outside_in).then_some(Face { contour: id.contour, edge: id.edge, polygon, holes })
}

fn lies_on_plane(outline: &Outline, side: usize, slope: f64, face: &Face) -> bool {
    let side = &outline.sides[side];
    let along = [side.to[0] - side.from[0], side.to[1] - side.from[1]];
    let length = along[0].hypot(along[1]);
    let off_plane = |p: &[f64; 3]| {
        let depth = (along[0] * (p[1] - side.from[1]) - along[1] * (p[0] - side.from[0])) / length;
        (p[2] / slope - depth).abs()
    };
    let allowed = OFF_PLANE * (outline.extent + 1e-4 * outline.magnitude);
    face.polygon.iter().chain(face.holes.iter().flatten()).all(|p| off_plane(p) <= allowed)
}

/// Plan area of a ring, positive if counter-clockwise.
pub(super) fn plan_area(ring: &[[f64; 3]]) -> f64 {
    let Some(&[ox, oy, _]) = ring.first() else { return 0.0 };
    let next = ring.iter().cycle().skip(1);
    let twice = |(a, b): (&[f64; 3], &[f64; 3])| (a[0] - ox) * (b[1] - oy) - (b[0] - ox) * (a[1] - oy);
    ring.iter().zip(next).map(twice).sum::<f64>() / 2.0
}

fn torn(outline: &Outline, front: &Front<'_>, side: usize) -> SkeletonError {
    let [x, y] = front.lines.frame.outward(front.lines.corners[side]);
    SkeletonError::Unresolved { x, y, height: 0.0, edges: vec![outline.sides[side].id] }
}
