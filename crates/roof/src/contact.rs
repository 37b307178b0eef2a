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

use crate::arrangement::MERGE;
use crate::cover::{self, Reach, Side, Stretch};
use crate::form::Shape;
use crate::plan::{
    Bounds, P2, Rise, along, contains, cross, distance, dot, edges, height, segments_cross, sub, to_segment,
};
use crate::sheet::{Sheet, Zone};

/// Gap between walls that still counts as touching, metres (1/4 in).
pub const TOUCH: f64 = 0.00635;
/// Height by which a roof may stand proud of what it runs into and still count as dying there, metres (1/4 in and a hair).
const PROUD: f64 = 0.007;
/// Contacts shorter than this are none, metres (1 in).
const SHORTEST: f64 = 0.0254;
/// How far beyond a wall line one looks for what it lies against: more than rounding, less than what is merged, metres.
const CLEAR: f64 = 1e-5;
/// Distances closer than this are one distance, metres.
const SAME: f64 = 1e-6;
/// Height by which a roof may stand proud and be gone exactly, metres: well under what is merged, well over rounding.
const EXACTLY: f64 = 1e-4;
/// Rates below this are rounding: lines or planes that never meet.
const PARALLEL: f64 = 1e-10;
/// How much further than where a roof is nearly gone the point is looked for where it is gone, metres.
const SOON: f64 = 0.3;

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
    let dying = touching(index, side, blocks).iter().flat_map(|t| dying(side, t, over_walls)).collect();
    let mut all = Vec::new();
    let mut at = 0.0;
    for (Touching { span: [from, to], hosts }, on) in soonest(dying) {
        if from > at {
            all.push(free(at, from));
        }
        let reach = Reach::RunOn(if on > MERGE { on } else { 0.0 });
        all.push(Stretch { from, to, reach, hosts });
        at = to;
    }
    if at < side.length {
        all.push(free(at, side.length));
    }
    all
}

/// Stretches that do not overlap, in order along the wall line: where several would, the one where the roof dies soonest.
fn soonest(mut dying: Vec<(Touching, f64)>) -> Vec<(Touching, f64)> {
    dying.sort_by(|a, b| a.1.total_cmp(&b.1));
    let mut taken: Vec<(Touching, f64)> = Vec::new();
    for (touching, on) in dying {
        let mut left = vec![touching.span];
        for (other, _) in &taken {
            let [from, to] = other.span;
            left = left.iter().flat_map(|s| [[s[0], s[1].min(from)], [s[0].max(to), s[1]]]).collect();
            left.retain(|s| s[1] - s[0] > SHORTEST);
        }
        taken.extend(left.into_iter().map(|span| (Touching { span, hosts: touching.hosts.clone() }, on)));
    }
    taken.sort_by(|a, b| a.0.span[0].total_cmp(&b.0.span[0]));
    taken
}

/// The parts of a contact where the roof dies in what it touches, with how far it runs on: all of it together, or else the parts that
/// touch one block each.
fn dying(side: &Side, contact: &Contact, over_walls: &[Sheet]) -> Vec<(Touching, f64)> {
    let dies = |t: &Touching| vanishes(side, t.span, &t.hosts, over_walls).map(|on| (t.clone(), on));
    match dies(&contact.whole) {
        Some(whole) => vec![whole],
        None => contact.parts.iter().filter_map(dies).collect(),
    }
}

/// Neighbouring contacts with other blocks, together and apart.
struct Contact {
    whole: Touching,
    parts: Vec<Touching>,
}

/// A stretch of a wall line that lies against or inside other blocks' walls.
#[derive(Clone)]
struct Touching {
    span: [f64; 2],
    hosts: Vec<usize>,
}

/// Where a wall line lies against or inside other blocks, in order.
fn touching(index: usize, side: &Side, blocks: &[Block]) -> Vec<Contact> {
    let from = along(side.a, side.out, CLEAR);
    let mut parts: Vec<Touching> = Vec::new();
    for (j, block) in blocks.iter().enumerate().filter(|(j, _)| *j != index) {
        let spans = within(block, from, side.direction).into_iter();
        let spans = spans.map(|span| span.map(|at| snap_to_end(at, side.length)));
        parts.extend(spans.filter(|[a, b]| b - a >= SHORTEST).map(|span| Touching { span, hosts: vec![j] }));
    }
    parts.sort_by(|a, b| a.span[0].total_cmp(&b.span[0]));
    let mut contacts: Vec<Contact> = Vec::new();
    for part in parts {
        match contacts.last_mut() {
            Some(last) if part.span[0] <= last.whole.span[1] + MERGE => {
                last.whole.span[1] = last.whole.span[1].max(part.span[1]);
                last.whole.hosts.extend(&part.hosts);
                last.parts.push(part);
            }
            _ => contacts.push(Contact { whole: part.clone(), parts: vec![part] }),
        }
    }
    contacts
}

/// A distance along a line, kept on it, and moved to an end it is very near to.
fn snap_to_end(at: f64, length: f64) -> f64 {
    match at {
        at if at < MERGE => 0.0,
        at if at > length - MERGE => length,
        at => at,
    }
}

/// Stretches of a line inside a block's walls, holes left out.
pub(crate) fn within(block: &Block, from: P2, direction: P2) -> Vec<[f64; 2]> {
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

/// The roof behind a stretch, carried on outwards between two lines square to it.
struct Carried<'a> {
    ends: [P2; 2],
    out: P2,
    planes: Vec<Rise>,
    /// Whether each plane of the profile lies below the next one's run on, as on a gable: the roof is then the lowest of them.
    is_lowest: bool,
    hosts: Vec<&'a Sheet>,
}

/// How far the roof behind a stretch runs on until all of it is inside the blocks it touches; none when it never is.
fn vanishes(side: &Side, span: [f64; 2], hosts: &[usize], over_walls: &[Sheet]) -> Option<f64> {
    let far = over_walls.iter().filter(|s| hosts.contains(&s.block));
    let reach =
        far.clone().flat_map(|s| &s.polygon).map(|p| dot(sub(*p, side.a), side.out)).fold(0.0, f64::max);
    let mut carried = Carried::of(side, span);
    let strip = carried.bounds(reach);
    carried.hosts = far.filter(|s| s.bounds.meets(&strip)).collect();
    carried.vanishing_point(&carried.candidates(reach))
}

impl Carried<'_> {
    fn of(side: &Side, span: [f64; 2]) -> Self {
        let over = side.profile.iter().enumerate().filter(|(k, (end, _))| {
            let from = if *k == 0 { 0.0 } else { side.profile[k - 1].0 };
            *end > span[0] + SAME && from < span[1] - SAME
        });
        Self {
            ends: span.map(|at| along(side.a, side.direction, at)),
            out: side.out,
            planes: over.map(|(_, (_, rise))| *rise).collect(),
            is_lowest: side.turns_over(),
            hosts: Vec::new(),
        }
    }

    fn bounds(&self, reach: f64) -> Bounds {
        let ends: Vec<P2> = self.ends.iter().flat_map(|p| [*p, along(*p, self.out, reach)]).collect();
        Bounds::of(&ends)
    }

    /// Height of the roof carried on.
    fn height(&self, p: P2) -> f64 {
        cover::height_beyond(self.planes.iter().copied(), self.is_lowest, p)
    }

    /// Distances at which the roof may begin or cease to be inside the hosts, in order, starting with zero.
    fn candidates(&self, reach: f64) -> Vec<f64> {
        let mut at = vec![0.0];
        let distance_out = |p: P2| dot(sub(p, self.ends[0]), self.out);
        for host in &self.hosts {
            at.extend(host.polygon.iter().map(|p| distance_out(*p)));
            for (k, own) in self.planes.iter().enumerate() {
                at.extend(self.ends.iter().filter_map(|end| meeting(*own, host.rise, *end, self.out)));
                at.extend(
                    self.planes[..k]
                        .iter()
                        .filter_map(|other| common_point(*own, *other, host.rise))
                        .map(distance_out),
                );
                at.extend(host.sides().filter_map(|(a, b)| {
                    let run = sub(b, a);
                    let t = meeting(*own, host.rise, a, run).filter(|t| (-SAME..=1.0 + SAME).contains(t))?;
                    Some(distance_out(along(a, run, t)))
                }));
            }
        }
        at.retain(|d| (0.0..=reach + MERGE).contains(d));
        at.sort_by(f64::total_cmp);
        at.dedup_by(|a, b| *a - *b < SAME);
        at
    }

    /// The first distance at which the roof is gone: exactly, if that is not far beyond where it first is but for the little that
    /// may stand proud. `at` are the distances where most that changes does.
    fn vanishing_point(&self, at: &[f64]) -> Option<f64> {
        let roughly = self.first_gone(at, PROUD)?;
        Some(self.first_gone(at, EXACTLY).filter(|exactly| exactly - roughly < SOON).unwrap_or(roughly))
    }

    fn first_gone(&self, at: &[f64], proud: f64) -> Option<f64> {
        let next = at.iter().skip(1).map(Some).chain([None]);
        at.iter().zip(next).find_map(|(&d, next)| {
            if self.is_gone_at(d, proud) {
                return Some(d);
            }
            let middle = 0.5 * (d + next?);
            self.is_gone_at(middle, proud).then(|| self.narrowed(d, middle, proud))
        })
    }

    /// Where between a distance at which the roof is there and one at which it is gone it vanishes.
    fn narrowed(&self, mut there: f64, mut gone: f64, proud: f64) -> f64 {
        while gone - there > SAME {
            let middle = 0.5 * (there + gone);
            *if self.is_gone_at(middle, proud) { &mut gone } else { &mut there } = middle;
        }
        gone
    }

    /// Whether at this distance the whole profile is inside the hosts, or proud of them by no more than this.
    fn is_gone_at(&self, d: f64, proud: f64) -> bool {
        let [p, q] = self.ends.map(|end| along(end, self.out, d));
        let length = distance(p, q);
        let is_gone = |t: f64| self.is_point_gone(along(p, sub(q, p), t), proud);
        let mut cuts = self.breaks(p, q);
        // the tops of the profile, which are the last to go
        let inset = 1e-3 / length;
        if !cuts.iter().filter(|t| (inset..=1.0 - inset).contains(*t)).all(|t| is_gone(*t)) {
            return false;
        }
        cuts.extend([0.0, 1.0]);
        cuts.extend(self.hosts.iter().flat_map(|host| self.changes(host, p, q, proud)));
        cuts.retain(|t| (0.0..=1.0).contains(t));
        cuts.sort_by(f64::total_cmp);
        // between two cuts the answer is the same everywhere
        cuts.windows(2).filter(|w| (w[1] - w[0]) * length > 4e-3).all(|w| is_gone(0.5 * (w[0] + w[1])))
    }

    /// Where between two points the profile may begin or cease to be gone in a host, from 0 to 1.
    fn changes(&self, host: &Sheet, p: P2, q: P2, proud: f64) -> Vec<f64> {
        let run = sub(q, p);
        let mut at: Vec<f64> = Vec::new();
        for (a, b) in host.sides() {
            let (sp, sq) = (cross(sub(b, a), sub(p, a)), cross(sub(b, a), sub(q, a)));
            if (sp > 0.0) != (sq > 0.0) {
                at.push(sp / (sp - sq));
            }
        }
        let [x, y, z] = host.rise;
        for own in &self.planes {
            at.extend(meeting(*own, [x, y, z + proud], p, run));
            at.extend(
                Some(host.underside()).filter(|u| u[2].is_finite()).and_then(|u| meeting(*own, u, p, run)),
            );
        }
        at
    }

    /// Where between two points square to the wall line the profile's planes meet, from 0 to 1.
    fn breaks(&self, p: P2, q: P2) -> Vec<f64> {
        let pairs = (0..self.planes.len()).flat_map(|k| (0..k).map(move |j| (j, k)));
        pairs.filter_map(|(j, k)| meeting(self.planes[j], self.planes[k], p, sub(q, p))).collect()
    }

    fn is_point_gone(&self, p: P2, proud: f64) -> bool {
        let z = self.height(p);
        let is_over =
            |h: &Sheet| h.bounds.grown(SAME).holds(p) && (contains(&h.polygon, p) || is_on_rim(h, p));
        self.hosts.iter().any(|h| z <= h.height(p) + proud && z > height(h.underside(), p) && is_over(h))
    }
}

/// Whether a point is on the rim of a sheet: two neighbouring faces share theirs, and rounding must not drop a point between them.
fn is_on_rim(sheet: &Sheet, p: P2) -> bool {
    sheet.sides().any(|(a, b)| to_segment(p, a, b).0 < SAME)
}

/// Where three planes meet, in plan.
fn common_point(p: Rise, q: Rise, r: Rise) -> Option<P2> {
    let (u, v) = ([p[0] - q[0], p[1] - q[1]], [p[0] - r[0], p[1] - r[1]]);
    let (c, d) = (q[2] - p[2], r[2] - p[2]);
    let det = cross(u, v);
    (det.abs() > PARALLEL).then(|| [(c * v[1] - d * u[1]) / det, (u[0] * d - v[0] * c) / det])
}

/// How far along a ray, in its own units, two planes are at one height.
pub(crate) fn meeting(p: Rise, q: Rise, origin: P2, direction: P2) -> Option<f64> {
    let gap = height(p, origin) - height(q, origin);
    let rate = dot([p[0] - q[0], p[1] - q[1]], direction);
    (rate.abs() > PARALLEL).then(|| -gap / rate)
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
