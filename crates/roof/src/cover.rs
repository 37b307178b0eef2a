//! From the faces over a block's walls to sheets that reach out over its edges.
//!
//! Each edge is divided into stretches: where it is free the roof reaches out by the overhang, where it lies against another
//! block and its roof dies in that block ([`crate::contact`]) the roof runs on into it. Corners are mitred. Over a sloped
//! edge the overhang belongs to that edge's plane; where the next edge slopes too, their common line (the hip or valley
//! run on outwards) divides the corner.

use job::{Block, EdgeSlope};

use crate::form::Shape;
use crate::plan::{
    P2, Rise, along, area, clip, cross, distance, dot, edges, height, line_crossing, midpoint, outward, sub, to_segment,
    unit,
};
use crate::sheet::{Sheet, Zone};

/// What the roof does along a stretch of an edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Reach {
    /// Reaches out by an overhang, metres.
    Over(f64),
    /// Runs on into another block by this much, metres, measured square to the edge.
    RunOn(f64),
}

/// A stretch of an edge, from and to as distances along it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stretch {
    pub(crate) from: f64,
    pub(crate) to: f64,
    pub(crate) reach: Reach,
}

/// One wall line with what stands over it.
#[derive(Clone, Debug)]
pub(crate) struct Side {
    pub(crate) a: P2,
    pub(crate) b: P2,
    pub(crate) direction: P2,
    pub(crate) out: P2,
    pub(crate) length: f64,
    pub(crate) sloped: bool,
    /// Planes over the wall line from `a` to `b`, each up to the given distance along it.
    pub(crate) profile: Vec<(f64, Rise)>,
}

/// Points this close to a wall line are on it.
const ON_LINE: f64 = 1e-7;

/// The block's wall lines, contour by contour.
pub(crate) fn sides(block: &Block, shape: &Shape) -> Vec<Vec<Side>> {
    let contour = |(points, edges_of): (&Vec<P2>, &Vec<job::BlockEdge>)| {
        edges(points).zip(edges_of).map(|((a, b), edge)| side(a, b, &edge.slope, shape)).collect()
    };
    block.contours.iter().zip(&block.edges).map(contour).collect()
}

fn side(a: P2, b: P2, slope: &EdgeSlope, shape: &Shape) -> Side {
    let direction = unit(a, b);
    Side {
        a,
        b,
        direction,
        out: outward(direction),
        length: distance(a, b),
        sloped: matches!(slope, EdgeSlope::Pitch(_)),
        profile: profile(a, b, shape),
    }
}

/// Planes met going along a wall line, from the faces that have a side on it.
fn profile(a: P2, b: P2, shape: &Shape) -> Vec<(f64, Rise)> {
    let direction = unit(a, b);
    let mut met: Vec<(f64, f64, Rise)> = Vec::new();
    for face in &shape.faces {
        for (p, q) in edges(&face.polygon) {
            if to_segment(p, a, b).0 < ON_LINE && to_segment(q, a, b).0 < ON_LINE && distance(p, q) > ON_LINE {
                met.push((dot(sub(p, a), direction), dot(sub(q, a), direction), shape.rises[face.rise]));
            }
        }
    }
    met.sort_by(|x, y| x.0.total_cmp(&y.0));
    met.into_iter().map(|(_, to, rise)| (to, rise)).collect()
}

/// All sheets of a block. `reaches` gives the stretches of each edge of each contour.
pub(crate) fn sheets(
    index: usize,
    block: &Block,
    shape: &Shape,
    sides: &[Vec<Side>],
    reaches: &[Vec<Vec<Stretch>>],
) -> Vec<Sheet> {
    let base = block.base.as_ref().map_or(f64::NEG_INFINITY, |b| b.value.m());
    let inside = Zone::Inside { base };
    let mut all: Vec<Sheet> = (shape.faces.iter())
        .map(|face| Sheet::new(index, shape.rises[face.rise], inside, face.polygon.clone()))
        .collect();
    let fascia = block.fascia.value.m();
    for (contour, reaches) in sides.iter().zip(reaches) {
        for (i, stretches) in reaches.iter().enumerate() {
            for (k, stretch) in stretches.iter().enumerate() {
                let ends = Ends::of(contour, reaches, i, k);
                for (rise, polygon) in reach_out(contour, i, *stretch, &ends) {
                    let zone = match stretch.reach {
                        Reach::RunOn(_) => inside,
                        Reach::Over(_) if contour[i].sloped => Zone::Eave { soffit: lowest(rise, &polygon) - fascia },
                        Reach::Over(_) => Zone::Rake { depth: fascia },
                    };
                    all.push(Sheet::new(index, rise, zone, polygon));
                }
            }
        }
    }
    all
}

fn lowest(rise: Rise, polygon: &[P2]) -> f64 {
    polygon.iter().map(|p| height(rise, *p)).fold(f64::INFINITY, f64::min)
}

/// What lies beyond the two ends of a stretch, when an end is a corner.
struct Ends {
    before: Option<(usize, Reach)>,
    after: Option<(usize, Reach)>,
}

impl Ends {
    fn of(contour: &[Side], reaches: &[Vec<Stretch>], i: usize, k: usize) -> Self {
        let n = contour.len();
        let (before, after) = ((i + n - 1) % n, (i + 1) % n);
        let first = |e: usize| reaches[e].first().map(|s| (e, s.reach));
        let last = |e: usize| reaches[e].last().map(|s| (e, s.reach));
        Self {
            before: if k == 0 { last(before) } else { None },
            after: if k + 1 == reaches[i].len() { first(after) } else { None },
        }
    }
}

/// The polygons beyond a stretch, each with its plane.
fn reach_out(contour: &[Side], i: usize, stretch: Stretch, ends: &Ends) -> Vec<(Rise, Vec<P2>)> {
    let side = &contour[i];
    let out = match stretch.reach {
        Reach::Over(out) | Reach::RunOn(out) => out,
    };
    if out <= 0.0 || stretch.to - stretch.from <= ON_LINE {
        return Vec::new();
    }
    let end = |at: f64, corner: Option<(usize, Reach)>| {
        let p = along(side.a, side.direction, at);
        let next = corner.map(|(e, reach)| (&contour[e], reach));
        end_points(side, p, out, stretch.reach, next)
    };
    let [a, a_out] = end(stretch.from, ends.before);
    let [b, b_out] = end(stretch.to, ends.after);
    let whole = vec![a, a_out, b_out, b];
    let mut pieces = if side.sloped {
        vec![(side.profile.first().map_or([0.0; 3], |p| p.1), whole)]
    } else {
        by_profile(side, stretch, whole)
    };
    if side.sloped {
        for (e, _) in [ends.before, ends.after].into_iter().flatten() {
            pieces = share_corner(side, &contour[e], pieces);
        }
    }
    pieces.retain(|(_, polygon)| area(polygon) > 1e-9);
    pieces
}

/// The wall-line end and the outer end of a stretch that ends at `p`.
fn end_points(side: &Side, p: P2, out: f64, reach: Reach, next: Option<(&Side, Reach)>) -> [P2; 2] {
    let square = [p, along(p, side.out, out)];
    let Some((other, other_reach)) = next else { return square };
    match (reach, other_reach) {
        (Reach::Over(_), Reach::Over(other_out)) => {
            let mitre =
                line_crossing(square[1], side.direction, along(p, other.out, other_out), other.direction);
            [p, mitre.unwrap_or(square[1])]
        }
        // the overhang runs on beside the part that runs on into the other block
        (Reach::Over(_), Reach::RunOn(on)) => {
            let turns_outwards = dot(side.direction, other.out);
            if turns_outwards.abs() < 0.1 || is_inside_corner(side, other, p) {
                return square;
            }
            let shift = on / turns_outwards;
            square.map(|q| along(q, side.direction, shift))
        }
        // what runs on keeps between the neighbours' wall lines
        (Reach::RunOn(_), _) => {
            let across = dot(other.direction, side.out);
            if across.abs() < 0.1 {
                return square;
            }
            [p, along(p, other.direction, out / across)]
        }
    }
}

/// Whether the corner at `p` between two sides turns inwards.
fn is_inside_corner(side: &Side, other: &Side, p: P2) -> bool {
    let (first, second) = if distance(p, side.b) < distance(p, side.a) { (side, other) } else { (other, side) };
    cross(first.direction, second.direction) < 0.0
}

/// Divides the polygon beyond an unsloped side among the planes over its wall line: each plane's part ends where it meets
/// the next one, run on outwards.
fn by_profile(side: &Side, stretch: Stretch, whole: Vec<P2>) -> Vec<(Rise, Vec<P2>)> {
    let mut pieces = Vec::new();
    let mut rest = whole;
    let mut from = 0.0;
    for (k, (to, rise)) in side.profile.iter().enumerate() {
        let middle = along(side.a, side.direction, 0.5 * (from + to));
        from = *to;
        let Some((_, next)) = side.profile.get(k + 1) else {
            pieces.push((*rise, rest));
            return pieces;
        };
        let higher = height(*next, middle) > height(*rise, middle);
        let this_side = |p: P2| (height(*next, p) - height(*rise, p)) * if higher { 1.0 } else { -1.0 };
        if *to > stretch.from {
            pieces.push((*rise, clip(&rest, this_side)));
            rest = clip(&rest, |p| -this_side(p));
        }
    }
    pieces
}

/// Gives the next sloped side its part of a corner: beyond an outside corner the lower plane, beyond an inside corner the higher.
fn share_corner(side: &Side, other: &Side, pieces: Vec<(Rise, Vec<P2>)>) -> Vec<(Rise, Vec<P2>)> {
    let (Some(own), Some(next)) = (side.profile.first().map(|p| p.1), other.profile.first().map(|p| p.1)) else {
        return pieces;
    };
    if !other.sloped || own == next {
        return pieces;
    }
    let middle = midpoint(side.a, side.b);
    let sign = if height(next, middle) > height(own, middle) { 1.0 } else { -1.0 };
    let own_part = |p: P2| sign * (height(next, p) - height(own, p));
    let mut shared = Vec::with_capacity(pieces.len() + 1);
    for (rise, polygon) in pieces {
        if rise == own {
            shared.push((own, clip(&polygon, own_part)));
            shared.push((next, clip(&polygon, |p| -own_part(p))));
        } else {
            shared.push((rise, polygon));
        }
    }
    shared
}
