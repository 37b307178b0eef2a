//! Whether a dormer stands on the roof it is said to stand on, and dies in it.
//!
//! A dormer is a block with `on`. Its front looks down the fall of the roof it is on (the host): of several such walls the one it
//! drains over, or else the one over which it stands highest above the host. Its rear is the wall across from the front. A
//! dormer's roof runs back until it is inside the host's: a gabled one does so from any depth that ends under the host's roof, but
//! the side overhangs of a shed reach as far back as its walls, and a dormer that is too deep comes out of the roof again on the
//! far side.
//!
//! # Valid range
//! Dormers whose rear wall is square to the way their roof runs back. Others are not looked at for their depth.

use std::f64::consts::FRAC_1_SQRT_2;

use job::{Block, Problem};
use measure::Length;

use crate::check::Told;
use crate::contact::{self, TOUCH};
use crate::cover::{self, Side};
use crate::form::Shape;
use crate::model::{EdgeKind, Plane, Roof};
use crate::plan::{ON_LINE, P2, Rise, along, contains, dot, edges, height, midpoint, sub, to_segment};

/// What a person should look at in the dormers of a house. `shapes` and `sides` are those of the blocks, in their order.
pub(crate) fn warnings(
    blocks: &[Block],
    shapes: &[Shape],
    sides: &[Vec<Vec<Side>>],
    roof: &Roof,
    told: Told,
) -> Vec<Problem> {
    let dormers = blocks.iter().zip(sides).filter_map(|(block, sides)| {
        let on = block.on.as_ref()?;
        let host = blocks.iter().position(|b| b.name == *on)?;
        Some(Dormer { block, sides: sides.first()?, host: &blocks[host], shape: &shapes[host], roof, told })
    });
    dormers.flat_map(|dormer| dormer.warnings()).collect()
}

struct Dormer<'a> {
    block: &'a Block,
    sides: &'a [Side],
    host: &'a Block,
    /// The host's roof.
    shape: &'a Shape,
    roof: &'a Roof,
    told: Told,
}

impl Dormer<'_> {
    fn warnings(&self) -> Vec<Problem> {
        if !self.stands_within_host() {
            return vec![self.not_on()];
        }
        let draining = (0..self.sides.len()).filter(|&i| self.drains_into_host(&self.sides[i]));
        let mut all: Vec<Problem> = draining.map(|i| self.drains(i)).collect();
        all.extend(self.ends().and_then(|(front, rear)| self.depth(front, rear)));
        all
    }

    /// Whether every wall stands within the host's walls, or no further outside them than walls that touch may be apart.
    fn stands_within_host(&self) -> bool {
        let inside = |side: &Side| {
            let wall = [TOUCH, side.length - TOUCH];
            let line = along(side.a, side.out, -(TOUCH + ON_LINE));
            let spans = contact::within(self.host, line, side.direction);
            let covered = spans.iter().map(|s| s[1].min(wall[1]) - s[0].max(wall[0])).filter(|l| *l > 0.0);
            covered.sum::<f64>() > wall[1] - wall[0] - TOUCH
        };
        let around_a_hole = |hole: &Vec<P2>| hole.iter().any(|p| contains(&self.block.contours[0], *p));
        self.sides.iter().all(inside) && !self.host.contours[1..].iter().any(around_a_hole)
    }

    fn not_on(&self) -> Problem {
        let (name, host) = (&self.block.name, &self.host.name);
        let message =
            format!("dormer `{name}` is said to stand on `{host}`, but not all of it is within its walls");
        let mend = "check its `at` and `size`, name the block it does stand on, or leave `on` out";
        self.problem("dormer-not-on", message, mend)
    }

    fn problem(&self, code: &'static str, message: String, mend: impl Into<String>) -> Problem {
        Problem::warning(code, message, mend)
            .at(self.block.span.clone(), "this dormer")
            .at(self.host.span.clone(), "on this block")
    }

    /// The plane of the host over a point.
    fn host_rise(&self, p: P2) -> Option<Rise> {
        let is_over =
            |ring: &[P2]| contains(ring, p) || edges(ring).any(|(a, b)| to_segment(p, a, b).0 < ON_LINE);
        let over = self.shape.faces.iter().filter(|f| is_over(&f.polygon)).map(|f| self.shape.rises[f.rise]);
        over.max_by(|a, b| height(*a, p).total_cmp(&height(*b, p)))
    }

    /// Height of the dormer over the host at a point on one of its walls, its roof there being `own`.
    fn over_host(&self, own: f64, p: P2) -> Option<f64> {
        self.host_rise(p).map(|rise| own - height(rise, p))
    }

    /// Planes of the roof that rise from the dormer alone.
    fn planes(&self) -> impl Iterator<Item = &Plane> {
        self.roof.planes.iter().filter(|p| p.blocks.len() == 1 && p.block == self.block.name)
    }

    /// Whether a plane that is seen falls over this wall towards the host's high side.
    fn drains_into_host(&self, side: &Side) -> bool {
        let Some(rise) = self.host_rise(midpoint(side.a, side.b)) else { return false };
        let up = [rise[0], rise[1]];
        let against_the_fall = dot(side.out, up) > FRAC_1_SQRT_2 * up[0].hypot(up[1]);
        side.sloped && against_the_fall && self.planes().any(|p| dot(p.fall(), side.out) > 1.0 - 1e-6)
    }

    fn drains(&self, side: usize) -> Problem {
        let (name, host) = (&self.block.name, &self.host.name);
        let message = format!(
            "dormer `{name}` falls {} towards the high side of `{host}`: water and snow gather between the two roofs",
            self.block.edges[0][side].side
        );
        let mend = "let it fall the way the roof it stands on falls, or give that side a gable";
        self.problem("dormer-drains-into-roof", message, mend)
    }

    /// Front and rear wall; none where the roof falls over the rear wall or no wall is across from the front.
    fn ends(&self) -> Option<(&Side, &Side)> {
        let standing = self.sides.iter().filter_map(|side| Some((side, self.stands_at(side)?)));
        let front = standing.max_by(|(s, a), (t, b)| s.sloped.cmp(&t.sloped).then(a.total_cmp(b)))?.0;
        let rear = self.sides.iter().find(|side| dot(side.out, front.out) < -1.0 + 1e-6)?;
        (!rear.sloped).then_some((front, rear))
    }

    /// Height of the dormer over the host at a wall that looks down the host's fall; none for other walls.
    fn stands_at(&self, side: &Side) -> Option<f64> {
        let middle = midpoint(side.a, side.b);
        let own = side.profile.iter().find(|(end, _)| *end > 0.5 * side.length - ON_LINE)?.1;
        let fall = self.host_rise(middle).map(|rise| [-rise[0], -rise[1]])?;
        let looks_down = dot(side.out, fall) > FRAC_1_SQRT_2 * fall[0].hypot(fall[1]);
        self.over_host(height(own, middle), middle).filter(|_| looks_down)
    }

    fn depth(&self, front: &Side, rear: &Side) -> Option<Problem> {
        if !self.comes_out_behind(rear) {
            return None;
        }
        let depth = dot(sub(rear.a, front.a), rear.out);
        let lines: Vec<Line> = Line::all(rear, depth).collect();
        let Some(dies) = furthest(lines.iter().map(|line| self.dies_at(line))) else {
            let above = furthest(lines.iter().map(|line| self.least_over_host(line)))?;
            return Some(self.stands_above(above));
        };
        ((dies - depth).abs() > TOUCH).then(|| self.of_depth(depth, dies))
    }

    /// Whether the dormer has a free edge along its rear wall or over its overhang there.
    fn comes_out_behind(&self, rear: &Side) -> bool {
        let ends = [EdgeKind::Rake, EdgeKind::HighEave, EdgeKind::SkewRake];
        let edges = self.planes().flat_map(|p| &p.edges).filter(|e| ends.contains(&self.roof.edge(**e).kind));
        edges.into_iter().any(|e| {
            let [p, q] = self.roof.ends(*e).map(|p| dot(sub([p[0], p[1]], rear.a), rear.out));
            p > -TOUCH && (p - q).abs() < TOUCH
        })
    }

    /// How far behind the front a line of the dormer's roof first meets the host's.
    fn dies_at(&self, line: &Line) -> Option<f64> {
        let host = || self.shape.rises.iter();
        let mut at: Vec<f64> =
            line.planes().flat_map(|own| host().filter_map(move |r| line.meeting(own, *r))).collect();
        at.retain(|t| *t > 0.0);
        at.sort_by(f64::total_cmp);
        at.into_iter().find(|t| self.line_over_host(line, *t).is_some_and(|over| over < ON_LINE))
    }

    /// Least height of a line of the dormer's roof over the host's, which is where two planes of the host meet or at the front.
    fn least_over_host(&self, line: &Line) -> Option<f64> {
        let host = &self.shape.rises;
        let pairs = host.iter().enumerate().flat_map(|(k, a)| host[..k].iter().map(move |b| (*a, *b)));
        let breaks = pairs.filter_map(|(a, b)| line.meeting(a, b)).filter(|t| *t > 0.0).chain([0.0]);
        breaks.filter_map(|t| self.line_over_host(line, t)).min_by(f64::total_cmp)
    }

    fn line_over_host(&self, line: &Line, t: f64) -> Option<f64> {
        let p = along(line.from, line.back, t);
        self.over_host(line.height(p), p)
    }

    fn of_depth(&self, depth: f64, dies: f64) -> Problem {
        let (name, host) = (&self.block.name, &self.host.name);
        let differ = self.told.length((dies - depth).abs());
        let how = if depth < dies {
            format!("{differ} short of that, and its overhangs break off at the rear corners")
        } else {
            format!("{differ} past that, and comes out of the roof behind")
        };
        let message = format!(
            "the roof of dormer `{name}` meets that of `{host}` {} behind its front wall; the block ends {how}",
            self.told.length(dies)
        );
        // no less than that, or the corners stand out by what was rounded off
        let eighths = (Length::from_m(dies).inches() * 8.0 - 1e-6).ceil();
        let mend = format!("make it {} deep", self.told.length(Length::from_in(eighths / 8.0).m()));
        self.problem("dormer-depth", message, mend)
    }

    fn stands_above(&self, above: f64) -> Problem {
        let (name, host) = (&self.block.name, &self.host.name);
        let message = format!(
            "the roof of dormer `{name}` stands {} or more over that of `{host}`: it does not end in it, but open behind",
            self.told.length(above)
        );
        let mend =
            format!("lower its plate by {} or more, or give it a flatter pitch", self.told.length(above));
        self.problem("dormer-depth", message, mend)
    }
}

/// The greatest of what is there at all; none if one is not.
fn furthest(all: impl Iterator<Item = Option<f64>>) -> Option<f64> {
    all.collect::<Option<Vec<f64>>>()?.into_iter().max_by(f64::total_cmp)
}

/// A line of a dormer's roof in plan, from above its front wall straight back.
struct Line<'a> {
    from: P2,
    back: P2,
    rear: &'a Side,
}

impl<'a> Line<'a> {
    /// Through the ends of the rear wall and wherever the roof over it breaks: one of them is highest, and last to die.
    fn all(rear: &'a Side, depth: f64) -> impl Iterator<Item = Self> {
        let at = std::iter::once(0.0).chain(rear.profile.iter().map(|p| p.0));
        let on_rear = at.map(|at| along(rear.a, rear.direction, at));
        on_rear.map(move |p| Self { from: along(p, rear.out, -depth), back: rear.out, rear })
    }

    fn planes(&self) -> impl Iterator<Item = Rise> {
        self.rear.profile.iter().map(|p| p.1)
    }

    /// Height of the roof over the rear wall carried along at a point.
    fn height(&self, p: P2) -> f64 {
        cover::height_beyond(self.planes(), self.rear.turns_over(), p)
    }

    /// How far along it two planes are at one height.
    fn meeting(&self, p: Rise, q: Rise) -> Option<f64> {
        contact::meeting(p, q, self.from, self.back)
    }
}
