//! Where a block's roof runs on into another block.
//!
//! A gable end, the side of a shed or its high end that lies against another block, or inside it, is not a free edge when the roof
//! behind it dies in that block: a wing's roof runs on over the main roof until it is under it, a porch roof stops at the
//! house wall, a dormer's ridge runs back into the roof it stands on. A roof that would come out again, being higher than what it
//! runs into, keeps its end where it was drawn.
//!
//! Walls up to [`TOUCH`] apart count as touching (a tape is not read closer), and a roof that stands proud by up to [`PROUD`] where
//! it should vanish counts as vanished.

use job::Block;

use crate::cover::{Reach, Side, Stretch};
use crate::form::Shape;
use crate::plan::{
    Bounds, P2, Rise, along, contains, cross, distance, dot, edges, height, segments_cross, sub, to_segment,
};
use crate::sheet::{Sheet, Zone};

/// Gap between walls that still counts as touching, metres (1/4 in).
pub(crate) const TOUCH: f64 = 0.00635;
/// Height by which a roof may stand proud of what it runs into and still count as dying there, metres (1/4 in and a hair).
const PROUD: f64 = 0.007;
/// Distances closer than this are one distance, metres.
const SAME: f64 = 1e-6;

/// The solids over the walls of every block, as far as they are drawn.
pub(crate) fn over_walls(blocks: &[Block], shapes: &[Shape]) -> Vec<Sheet> {
    let mut all = Vec::new();
    for (i, (block, shape)) in blocks.iter().zip(shapes).enumerate() {
        let base = block.base.as_ref().map_or(f64::NEG_INFINITY, |b| b.value.m());
        all.extend(
            (shape.faces.iter())
                .map(|f| Sheet::new(i, shape.rises[f.rise], Zone::Inside { base }, f.polygon.clone())),
        );
    }
    all
}

/// The stretches of one wall line of block `index`.
pub(crate) fn stretches(
    index: usize,
    side: &Side,
    overhang: f64,
    blocks: &[Block],
    over_walls: &[Sheet],
) -> Vec<Stretch> {
    let free = |from, to| Stretch { from, to, reach: Reach::Over(overhang), hosts: Vec::new() };
    if side.sloped {
        return vec![free(0.0, side.length)];
    }
    let mut all = Vec::new();
    let mut at = 0.0;
    for Touching { span: [from, to], hosts } in touching(index, side, blocks) {
        let Some(on) = vanishes(side, [from, to], &hosts, over_walls) else { continue };
        let reach = if on > TOUCH { Reach::RunOn(on) } else { Reach::EndsAtWall };
        if from > at {
            all.push(free(at, from));
        }
        all.push(Stretch { from, to, reach, hosts });
        at = to;
    }
    if at < side.length {
        all.push(free(at, side.length));
    }
    all
}

/// A stretch of a wall line that lies against or inside other blocks' walls.
struct Touching {
    span: [f64; 2],
    hosts: Vec<usize>,
}

/// Where a wall line lies against or inside other blocks, merged and in order.
fn touching(index: usize, side: &Side, blocks: &[Block]) -> Vec<Touching> {
    let from = along(side.a, side.out, TOUCH);
    let mut parts: Vec<([f64; 2], usize)> = Vec::new();
    for (j, block) in blocks.iter().enumerate().filter(|(j, _)| *j != index) {
        let spans = within(block, from, side.direction).into_iter();
        parts.extend(spans.map(|span| (span.map(|at| snap_to_end(at, side.length)), j)));
    }
    parts.retain(|([a, b], _)| b - a >= 4.0 * TOUCH);
    parts.sort_by(|a, b| a.0[0].total_cmp(&b.0[0]));
    let mut merged: Vec<Touching> = Vec::new();
    for (span, host) in parts {
        match merged.last_mut() {
            Some(last) if span[0] <= last.span[1] + TOUCH => {
                last.span[1] = last.span[1].max(span[1]);
                last.hosts.push(host);
            }
            _ => merged.push(Touching { span, hosts: vec![host] }),
        }
    }
    merged
}

/// A distance along a line, kept on it, and moved to an end it is very near to.
fn snap_to_end(at: f64, length: f64) -> f64 {
    match at {
        at if at < 2.0 * TOUCH => 0.0,
        at if at > length - 2.0 * TOUCH => length,
        at => at,
    }
}

/// Stretches of a line inside a block's walls, holes left out.
fn within(block: &Block, from: P2, direction: P2) -> Vec<[f64; 2]> {
    let mut at: Vec<f64> = Vec::new();
    for (a, b) in block.contours.iter().flat_map(|c| edges(c)) {
        let (sa, sb) = (cross(direction, sub(a, from)), cross(direction, sub(b, from)));
        if (sa >= 0.0) != (sb >= 0.0) {
            at.push(dot(sub(along(a, sub(b, a), sa / (sa - sb)), from), direction));
        }
    }
    at.sort_by(f64::total_cmp);
    at.chunks_exact(2).map(|c| [c[0], c[1]]).collect()
}

/// The roof behind a stretch, carried on outwards: rays from the ends and breaks of its profile, a plane between each two.
struct Carried<'a> {
    rays: Vec<(P2, P2)>,
    planes: Vec<Rise>,
    hosts: Vec<&'a Sheet>,
}

/// How far the roof behind a stretch runs on until all of it is inside the blocks it touches; none when it never is.
fn vanishes(side: &Side, [from, to]: [f64; 2], hosts: &[usize], over_walls: &[Sheet]) -> Option<f64> {
    let mut carried = Carried::of(side, from, to);
    let far = over_walls.iter().filter(|s| hosts.contains(&s.block));
    let reach =
        far.clone().flat_map(|s| &s.polygon).map(|p| dot(sub(*p, side.a), side.out)).fold(0.0, f64::max);
    let strip = carried.bounds(reach);
    carried.hosts = far.filter(|s| s.bounds.meets(&strip)).collect();
    carried.vanishing_point(&carried.candidates(side, reach))
}

impl Carried<'_> {
    fn of(side: &Side, from: f64, to: f64) -> Self {
        let mut rays = vec![(along(side.a, side.direction, from), side.out)];
        let mut planes = Vec::new();
        for (k, (end, rise)) in side.profile.iter().enumerate() {
            if *end <= from + SAME {
                continue;
            }
            planes.push(*rise);
            match side.profile.get(k + 1) {
                Some((_, next)) if *end < to - SAME => {
                    rays.push((along(side.a, side.direction, *end), common_line(*rise, *next, side.out)));
                }
                _ => {
                    rays.push((along(side.a, side.direction, to), side.out));
                    break;
                }
            }
        }
        Self { rays, planes, hosts: Vec::new() }
    }

    fn ray_at(&self, k: usize, d: f64) -> P2 {
        along(self.rays[k].0, self.rays[k].1, d)
    }

    fn bounds(&self, reach: f64) -> Bounds {
        let ends: Vec<P2> =
            (0..self.rays.len()).flat_map(|k| [self.ray_at(k, 0.0), self.ray_at(k, reach)]).collect();
        Bounds::of(&ends)
    }

    /// Distances at which the roof may begin or cease to be inside the hosts, in order, starting with zero.
    fn candidates(&self, side: &Side, reach: f64) -> Vec<f64> {
        let mut at = vec![0.0];
        for host in &self.hosts {
            at.extend(host.polygon.iter().map(|p| dot(sub(*p, side.a), side.out)));
            for (k, (origin, direction)) in self.rays.iter().enumerate() {
                let own = self.planes[k.min(self.planes.len() - 1)];
                at.extend(meeting(own, host.rise, *origin, *direction));
            }
            for own in &self.planes {
                at.extend(host.sides().filter_map(|(a, b)| {
                    let run = sub(b, a);
                    let t = meeting(*own, host.rise, a, run).filter(|t| (-SAME..=1.0 + SAME).contains(t))?;
                    Some(dot(sub(along(a, run, t), side.a), side.out))
                }));
            }
        }
        at.retain(|d| (0.0..=reach + TOUCH).contains(d));
        at.sort_by(f64::total_cmp);
        at.dedup_by(|a, b| *a - *b < SAME);
        at
    }

    /// The first distance, of those where anything can change, at which the roof is gone.
    fn vanishing_point(&self, at: &[f64]) -> Option<f64> {
        let stays_gone = |k: usize| at.get(k + 1).is_some_and(|next| self.is_gone_at(0.5 * (at[k] + next)));
        let first = (0..at.len()).find(|&k| (at[k] > SAME && self.is_gone_at(at[k])) || stays_gone(k));
        first.map(|k| at[k])
    }

    /// Whether at this distance the whole profile is inside the hosts.
    fn is_gone_at(&self, d: f64) -> bool {
        (0..self.planes.len())
            .all(|k| self.is_piece_gone(self.planes[k], self.ray_at(k, d), self.ray_at(k + 1, d)))
    }

    fn is_piece_gone(&self, own: Rise, p: P2, q: P2) -> bool {
        let mut cuts = vec![0.0, 1.0];
        for (a, b) in self.hosts.iter().flat_map(|h| h.sides()) {
            let (sp, sq) = (cross(sub(b, a), sub(p, a)), cross(sub(b, a), sub(q, a)));
            if (sp > 0.0) != (sq > 0.0) {
                cuts.push(sp / (sp - sq));
            }
        }
        cuts.sort_by(f64::total_cmp);
        let length = distance(p, q);
        cuts.windows(2).filter(|w| (w[1] - w[0]) * length > 4e-3).all(|w| {
            let inset = 1e-3 / length;
            [w[0] + inset, 0.5 * (w[0] + w[1]), w[1] - inset]
                .iter()
                .all(|t| self.is_point_gone(own, along(p, sub(q, p), *t)))
        })
    }

    fn is_point_gone(&self, own: Rise, p: P2) -> bool {
        let z = height(own, p);
        let is_over =
            |h: &Sheet| h.bounds.grown(SAME).holds(p) && (contains(&h.polygon, p) || is_on_rim(h, p));
        self.hosts.iter().any(|h| z <= h.height(p) + PROUD && z > height(h.underside(), p) && is_over(h))
    }
}

/// Whether a point is on the rim of a sheet: two neighbouring faces share theirs, and rounding must not drop a point between them.
fn is_on_rim(sheet: &Sheet, p: P2) -> bool {
    sheet.sides().any(|(a, b)| to_segment(p, a, b).0 < SAME)
}

/// Direction outwards of the line two planes share, scaled to advance one metre along `out`.
fn common_line(p: Rise, q: Rise, out: P2) -> P2 {
    let line = [-(p[1] - q[1]), p[0] - q[0]];
    let advance = dot(line, out);
    if advance.abs() < 1e-6 { out } else { [line[0] / advance, line[1] / advance] }
}

/// How far along a ray, in its own units, two planes are at one height.
fn meeting(p: Rise, q: Rise, origin: P2, direction: P2) -> Option<f64> {
    let gap = height(p, origin) - height(q, origin);
    let rate = dot([p[0] - q[0], p[1] - q[1]], direction);
    (rate.abs() > SAME).then(|| -gap / rate)
}

/// Least distance between the walls of two blocks, zero when they touch or overlap.
pub(crate) fn apart(a: &Block, b: &Block) -> f64 {
    let corner_inside = |x: &Block, y: &Block| x.contours[0].iter().any(|p| contains(&y.contours[0], *p));
    let crossing =
        edges(&a.contours[0]).any(|(p, q)| edges(&b.contours[0]).any(|(u, v)| segments_cross(p, q, u, v)));
    if corner_inside(a, b) || corner_inside(b, a) || crossing {
        return 0.0;
    }
    let side_of = |x: &Block, p: P2| {
        edges(&x.contours[0]).map(|(u, v)| to_segment(p, u, v).0).fold(f64::INFINITY, f64::min)
    };
    let from_a = a.contours[0].iter().map(|p| side_of(b, *p));
    let from_b = b.contours[0].iter().map(|p| side_of(a, *p));
    from_a.chain(from_b).fold(f64::INFINITY, f64::min)
}
