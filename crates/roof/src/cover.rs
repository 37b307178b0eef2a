//! From the faces over a block's walls to sheets that reach out over its edges.
//!
//! Each edge is divided into stretches: where it is free the roof reaches out by the overhang, where it lies against another
//! block and its roof dies in that block ([`crate::contact`]) the roof runs on into it. Corners are mitred. Over a sloped
//! edge the overhang belongs to that edge's plane; where the next edge slopes too, their common line (the hip or valley
//! run on outwards) divides the corner.

use job::{Block, EdgeSlope};

use crate::form::Shape;
use crate::plan::{
    ON_LINE, P2, Rise, along, area, clip, cross, distance, dot, edges, height, line_crossing, midpoint,
    outward, same_plane, sub, to_segment, unit,
};
use crate::sheet::{Extent, Sheet, Zone};

/// What the roof does along a stretch of an edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Reach {
    /// Reaches out by an overhang, metres.
    Over(f64),
    /// Runs on into another block by this much, metres, measured square to the edge; zero where it ends at the wall.
    RunOn(f64),
}

impl Reach {
    /// How far sheets are drawn beyond the edge, metres.
    fn out(self) -> f64 {
        match self {
            Self::Over(out) | Self::RunOn(out) => out,
        }
    }
}

/// A stretch of an edge, from and to as distances along it.
#[derive(Clone, Debug)]
pub(crate) struct Stretch {
    pub(crate) from: f64,
    pub(crate) to: f64,
    pub(crate) reach: Reach,
    /// Blocks the roof runs on into; none where it is free.
    pub(crate) hosts: Vec<usize>,
}

impl Stretch {
    fn extent(&self) -> Extent {
        match self.reach {
            Reach::Over(_) => Extent::Whole,
            Reach::RunOn(_) => Extent::Over(self.hosts.clone()),
        }
    }
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

impl Side {
    /// Whether each plane over the wall line passes under the next one's run on, as on a gable: outwards the lowest is the roof.
    pub(crate) fn turns_over(&self) -> bool {
        (1..self.profile.len()).all(|k| self.turns_over_at(k - 1))
    }

    fn turns_over_at(&self, k: usize) -> bool {
        let middle = self.middle_of_profile(k);
        height(self.profile[k + 1].1, middle) > height(self.profile[k].1, middle)
    }

    /// The point of the wall line midway under a plane of the profile.
    fn middle_of_profile(&self, k: usize) -> P2 {
        let from = if k == 0 { 0.0 } else { self.profile[k - 1].0 };
        along(self.a, self.direction, 0.5 * (from + self.profile[k].0))
    }
}

/// Height of the planes of a profile run on at a point: where they turn over the lowest is the roof, else the highest is taken.
pub(crate) fn height_beyond(planes: impl Iterator<Item = Rise>, turns_over: bool, p: P2) -> f64 {
    let heights = planes.map(|rise| height(rise, p));
    if turns_over { heights.fold(f64::INFINITY, f64::min) } else { heights.fold(f64::NEG_INFINITY, f64::max) }
}

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
            if to_segment(p, a, b).0 < ON_LINE && to_segment(q, a, b).0 < ON_LINE && distance(p, q) > ON_LINE
            {
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
                for (rise, polygon) in reach_out(contour, i, stretch, &ends) {
                    let zone = match stretch.reach {
                        Reach::RunOn(_) => inside,
                        Reach::Over(_) if contour[i].sloped => {
                            Zone::Eave { soffit: lowest(rise, &polygon) - fascia }
                        }
                        Reach::Over(_) => Zone::Rake { depth: fascia },
                    };
                    all.push(Sheet::new(index, rise, zone, polygon).within(stretch.extent()));
                }
                all.extend(beside_run_on(index, contour, i, stretch, &ends, fascia));
            }
        }
    }
    all
}

fn lowest(rise: Rise, polygon: &[P2]) -> f64 {
    polygon.iter().map(|p| height(rise, *p)).fold(f64::INFINITY, f64::min)
}

/// What lies beyond the two ends of a stretch, when an end is a corner.
struct Ends<'a> {
    before: Option<(usize, &'a Stretch)>,
    after: Option<(usize, &'a Stretch)>,
}

impl<'a> Ends<'a> {
    fn of(contour: &[Side], reaches: &'a [Vec<Stretch>], i: usize, k: usize) -> Self {
        let n = contour.len();
        let (before, after) = ((i + n - 1) % n, (i + 1) % n);
        let first = |e: usize| reaches[e].first().map(|s| (e, s));
        let last = |e: usize| reaches[e].last().map(|s| (e, s));
        Self {
            before: if k == 0 { last(before) } else { None },
            after: if k + 1 == reaches[i].len() { first(after) } else { None },
        }
    }
}

/// The polygons beyond a stretch, each with its plane.
fn reach_out(contour: &[Side], i: usize, stretch: &Stretch, ends: &Ends) -> Vec<(Rise, Vec<P2>)> {
    let side = &contour[i];
    let out = stretch.reach.out();
    if out <= 0.0 || stretch.to - stretch.from <= ON_LINE {
        return Vec::new();
    }
    let end = |at: f64, corner: Option<(usize, &Stretch)>| {
        let p = along(side.a, side.direction, at);
        let next = corner.map(|(e, next)| (&contour[e], next.reach));
        end_points(side, p, out, stretch.reach, next)
    };
    let [a, a_out] = end(stretch.from, ends.before);
    let [b, b_out] = end(stretch.to, ends.after);
    let whole = vec![a, a_out, b_out, b];
    let mut pieces = if side.sloped {
        vec![(side.profile.first().map_or([0.0; 3], |p| p.1), whole)]
    } else {
        by_profile(side, whole)
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
        (Reach::Over(_), _) => square,
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

/// The overhang of an eave carried on beside what runs on around the corner, at either end of a stretch.
fn beside_run_on(
    index: usize,
    contour: &[Side],
    i: usize,
    stretch: &Stretch,
    ends: &Ends,
    fascia: f64,
) -> Vec<Sheet> {
    let side = &contour[i];
    let (Reach::Over(out), Some((_, rise)), true) = (stretch.reach, side.profile.first(), side.sloped) else {
        return Vec::new();
    };
    let carried_on = |(p, corner): (P2, Option<(usize, &Stretch)>)| {
        let (e, next) = corner?;
        let on = if matches!(next.reach, Reach::Over(_)) { return None } else { next.reach.out() };
        let turns_outwards = dot(side.direction, contour[e].out);
        if out <= 0.0 || turns_outwards.abs() < 0.1 || is_inside_corner(side, &contour[e], p) {
            return None;
        }
        let far = along(p, side.direction, on / turns_outwards);
        let (near, far) = if turns_outwards > 0.0 { (p, far) } else { (far, p) };
        let polygon = vec![near, along(near, side.out, out), along(far, side.out, out), far];
        let zone = Zone::Eave { soffit: lowest(*rise, &polygon) - fascia };
        Some(Sheet::new(index, *rise, zone, polygon).within(next.extent()))
    };
    [(side.a, ends.before), (side.b, ends.after)].into_iter().filter_map(carried_on).collect()
}

/// Whether the corner at `p` between two sides turns inwards.
fn is_inside_corner(side: &Side, other: &Side, p: P2) -> bool {
    let (first, second) =
        if distance(p, side.b) < distance(p, side.a) { (side, other) } else { (other, side) };
    cross(first.direction, second.direction) < 0.0
}

/// Divides the polygon beyond an unsloped side among the planes over its wall line: each plane's part ends where it meets
/// the next one, run on outwards.
fn by_profile(side: &Side, whole: Vec<P2>) -> Vec<(Rise, Vec<P2>)> {
    let rises: Vec<Rise> = side.profile.iter().map(|p| p.1).collect();
    if side.turns_over() {
        return lower_envelope(&rises, &whole);
    }
    let mut pieces = Vec::new();
    let mut rest = whole;
    for (k, pair) in rises.windows(2).enumerate() {
        let sign = if side.turns_over_at(k) { 1.0 } else { -1.0 };
        let this_side = |p: P2| sign * (height(pair[1], p) - height(pair[0], p));
        pieces.push((pair[0], clip(&rest, this_side)));
        rest = clip(&rest, |p| -this_side(p));
    }
    pieces.extend(rises.last().map(|rise| (*rise, rest)));
    pieces
}

/// Each plane with the part of a polygon where no other is lower.
fn lower_envelope(rises: &[Rise], whole: &[P2]) -> Vec<(Rise, Vec<P2>)> {
    let part = |k: usize| {
        let others = rises.iter().enumerate().filter(|(j, r)| *j != k && !same_plane(**r, rises[k]));
        others.fold(whole.to_vec(), |polygon, (_, other)| {
            clip(&polygon, |p| height(*other, p) - height(rises[k], p))
        })
    };
    (0..rises.len())
        .filter(|&k| !rises[..k].iter().any(|r| same_plane(*r, rises[k])))
        .map(|k| (rises[k], part(k)))
        .collect()
}

/// Gives the next sloped side its part of a corner: beyond an outside corner the lower plane, beyond an inside corner the higher.
fn share_corner(side: &Side, other: &Side, pieces: Vec<(Rise, Vec<P2>)>) -> Vec<(Rise, Vec<P2>)> {
    let (Some(own), Some(next)) = (side.profile.first().map(|p| p.1), other.profile.first().map(|p| p.1))
    else {
        return pieces;
    };
    if !other.sloped || same_plane(own, next) {
        return pieces;
    }
    let middle = midpoint(side.a, side.b);
    let sign = if height(next, middle) > height(own, middle) { 1.0 } else { -1.0 };
    let own_part = |p: P2| sign * (height(next, p) - height(own, p));
    let mut shared = Vec::with_capacity(pieces.len() + 1);
    for (rise, polygon) in pieces {
        if same_plane(rise, own) {
            shared.push((own, clip(&polygon, own_part)));
            shared.push((next, clip(&polygon, |p| -own_part(p))));
        } else {
            shared.push((rise, polygon));
        }
    }
    shared
}
