//! The line of the wood on paper, and the layers bent along it.

use book::{Falls, Stands};
use detail::{Laid, Section, Span, Stretch};

use super::{GAP, WOOD};
use crate::polygon::Bounds;
use crate::vector::{P2, add, along, between, cross, distance, quarter, sub, unit};

/// Distance of a layer's line from the wood, in gaps: the first lies a little off it.
const FIRST: f64 = 0.6;
/// Places closer than this are one, metres.
const SAME: f64 = 1e-6;

/// The faces on paper, millimetres, y down.
#[derive(Clone, Debug)]
pub(super) struct Bend {
    faces: Vec<FaceLine>,
    /// The room what goes through takes from the first face to the next, and how high it stands over it and hangs under it.
    pub(super) hole: Option<Hole>,
    pub(super) mm_per_m: f64,
}

/// What goes through, on paper.
#[derive(Clone, Copy, Debug)]
pub(super) struct Hole {
    pub(super) high: f64,
    pub(super) below: f64,
    pub(super) wide: f64,
    /// Width of its hood; none where it is open.
    pub(super) hood: Option<f64>,
}

#[derive(Clone, Copy, Debug)]
struct FaceLine {
    span: Span,
    start: P2,
    /// Along the face, towards the last one.
    along: P2,
    /// Away from the wood.
    out: P2,
}

impl Bend {
    pub(super) fn new(section: &Section<'_>, mm_per_m: f64) -> Self {
        let mut faces: Vec<FaceLine> = Vec::with_capacity(section.faces.len());
        let mut start = [0.0, 0.0];
        let hole = section.detail.through.as_ref().map(|through| Hole {
            high: through.high.m() * mm_per_m,
            below: through.below.as_ref().map_or(0.0, |below| below.m() * mm_per_m),
            wide: through.wide.m() * mm_per_m,
            hood: through.hood.as_ref().map(|hood| hood.m() * mm_per_m),
        });
        for laid in &section.faces {
            let up = direction(laid);
            let along_paper = [up[0], -up[1]];
            let out = quarter(up);
            faces.push(FaceLine { span: laid.span, start, along: along_paper, out: [out[0], -out[1]] });
            start = along(start, along_paper, laid.span.length() * mm_per_m);
            if let Some(hole) = hole.filter(|_| faces.len() == 1) {
                start = along(start, along_paper, hole.wide / along_paper[0]);
            }
        }
        Self { faces, hole, mm_per_m }
    }

    /// Upper ends of the sides of what goes through: of the high side first, at the deck.
    pub(super) fn sides(&self) -> Option<[P2; 2]> {
        self.hole?;
        Some([self.at(0, self.faces[0].span.to, 0.0), self.at(1, self.faces[1].span.from, 0.0)])
    }

    /// The outline of what goes through and of its hood.
    fn hole_corners(&self) -> Vec<P2> {
        let Some((hole, [a, b])) = self.hole.zip(self.sides()) else { return Vec::new() };
        let top = a[1].min(b[1]) - hole.high;
        let wider = hole.hood.map_or(0.0, |hood| (hood - hole.wide) / 2.0);
        let low = a[1].max(b[1]) + WOOD.max(hole.below);
        vec![[a[0] - wider, top - 1.0], [b[0] + wider, top - 1.0], [a[0], low], [b[0], low]]
    }

    pub(super) fn moved(mut self, shift: P2) -> Self {
        self.faces.iter_mut().for_each(|face| face.start = add(face.start, shift));
        self
    }

    /// The most layers that lie on one another anywhere.
    pub(super) fn deepest(section: &Section<'_>) -> f64 {
        section.stretches.iter().map(|stretch| stretch.layers.len()).max().unwrap_or(0) as f64
    }

    /// A place of the line at a depth off the wood, millimetres outward.
    pub(super) fn at(&self, face: usize, place: f64, depth: f64) -> P2 {
        let line = &self.faces[face];
        let foot = along(line.start, line.along, (place - line.span.from) * self.mm_per_m);
        along(foot, line.out, depth)
    }

    /// Away from the wood of a face, one millimetre.
    pub(super) fn out(&self, face: usize) -> P2 {
        self.faces[face].out
    }

    /// From a point beside a face along it towards its middle, one millimetre.
    pub(super) fn inward(&self, face: usize, from: P2) -> P2 {
        let line = &self.faces[face];
        let half = line.span.length() * self.mm_per_m / 2.0;
        let away = [from[0] - line.start[0], from[1] - line.start[1]];
        let is_past = away[0] * line.along[0] + away[1] * line.along[1] > half;
        line.along.map(|part| if is_past { -part } else { part })
    }

    /// A face with so much beside it.
    pub(super) fn band(&self, face: usize, depth: f64) -> [P2; 4] {
        let span = self.faces[face].span;
        let ends =
            [(face.checked_sub(1), span.from), (Some(face + 1).filter(|f| *f < self.faces.len()), span.to)];
        let [a, b] = ends.map(|(other, place)| {
            let inner = other.and_then(|other| self.mitre([face, other], place, [depth; 2]));
            inner.unwrap_or_else(|| self.at(face, place, depth))
        });
        [self.at(face, span.from, 0.0), self.at(face, span.to, 0.0), b, a]
    }

    pub(super) fn bounds(&self, stack: f64) -> Bounds {
        let faces = 0..self.faces.len();
        Bounds::of(
            faces
                .flat_map(|face| {
                    let span = self.faces[face].span;
                    [span.from, span.to]
                        .into_iter()
                        .flat_map(move |place| [-WOOD, stack].map(|depth| (face, place, depth)))
                })
                .map(|(face, place, depth)| self.at(face, place, depth))
                .chain(self.hole_corners()),
        )
    }

    /// Where lines beside two faces meet, each at its own depth; none where the faces are in line.
    fn mitre(&self, [one, other]: [usize; 2], place: f64, [depth, other_depth]: [f64; 2]) -> Option<P2> {
        let (a, b) = (&self.faces[one], &self.faces[other]);
        let (p, q) = (self.at(one, place, depth), self.at(other, place, other_depth));
        let turn = cross(a.along, b.along);
        if turn.abs() < 0.05 {
            return None;
        }
        let gap = [q[0] - p[0], q[1] - p[1]];
        Some(along(p, a.along, cross(gap, b.along) / turn))
    }

    /// How far off the wood a layer lies on a stretch.
    pub(super) fn depth(section: &Section<'_>, stretch: usize, layer: usize) -> Option<f64> {
        let rank = section.stretches[stretch].layers.iter().position(|other| *other == layer)?;
        Some((rank as f64 + FIRST) * GAP)
    }

    /// Depth at which a layer passes a stretch, were it there: over all that lie under it.
    fn clear(stretch: &Stretch, layer: usize) -> f64 {
        let under = stretch.layers.iter().filter(|other| **other < layer).count();
        (under as f64 + FIRST) * GAP
    }

    /// A layer's lines on paper: one, or two where something goes through it.
    pub(super) fn lines(&self, section: &Section<'_>, layer: usize) -> Vec<Vec<P2>> {
        let on = |stretch: &usize| section.stretches[*stretch].layers.contains(&layer);
        let on: Vec<usize> = (0..section.stretches.len()).filter(on).collect();
        if self.hole.is_none() {
            return vec![self.past(section, layer, self.line(section, layer, &on))];
        }
        let (high, low): (Vec<usize>, Vec<usize>) = on.iter().partition(|i| section.stretches[**i].face == 0);
        let sides = [(0, high), (1, low)].into_iter().filter(|(_, on)| !on.is_empty());
        sides
            .map(|(face, on)| {
                let mut line = self.line(section, layer, &on);
                let meets = on.iter().any(|i| {
                    let span = section.stretches[*i].span;
                    (if face == 0 { span.to } else { span.from }).abs() < SAME
                });
                self.turn_up(section, layer, face, &mut line, meets);
                line
            })
            .collect()
    }

    /// Ends a line at what goes through, outside the layers under it that turn up there, and turns it up as they do. One that does not reach
    /// it is cut off there only where its depth would carry it in.
    fn turn_up(&self, section: &Section<'_>, layer: usize, face: usize, line: &mut Vec<P2>, meets: bool) {
        let Some(sides) = self.sides() else { return };
        let away = if face == 0 { -1.0 } else { 1.0 };
        let under = section.sheets[..layer].iter().filter(|sheet| sheet.layer.up.is_some()).count() as f64;
        let x = sides[face][0] + away * GAP * (under + FIRST);
        let is_in = |point: &P2| (point[0] - x) * away < 0.0;
        if face == 1 {
            line.reverse();
        }
        // points that it leaves no room to are dropped: the line ends at its side
        while line.len() > 1 && is_in(&line[line.len() - 2]) {
            line.pop();
        }
        let dir = self.faces[face].along;
        if let Some(end) = line.last_mut().filter(|end| meets || is_in(end)) {
            *end = along(*end, dir, (x - end[0]) / dir[0]);
            let up = section.sheets[layer].layer.up.as_ref().filter(|_| meets);
            let top = up.map(|up| [x, end[1] - up.m() * self.mm_per_m]);
            line.extend(top);
        }
        if face == 1 {
            line.reverse();
        }
    }

    /// A line that stands out past the first joint goes on as far past all that lies round the corner there.
    fn past(&self, section: &Section<'_>, layer: usize, mut line: Vec<P2>) -> Vec<P2> {
        let Some(past) = &section.sheets[layer].layer.past else { return line };
        let beside = |stretch: &&Stretch| stretch.span.from.abs() < SAME || stretch.span.to.abs() < SAME;
        let on = |stretch: &&Stretch| stretch.layers.contains(&layer);
        let Some(own) = section.stretches.iter().filter(beside).find(on) else { return line };
        let Some(round) = section.stretches.iter().filter(beside).find(|other| other.face != own.face) else {
            return line;
        };
        let depth = Self::clear(own, layer);
        let faces = [own.face, round.face];
        // how far out they lie anywhere round the corner: a gutter under the metal lifts it further down
        let under = |other: &&usize| **other < layer;
        let lifted = |other: &usize| {
            let on = |stretch: &&Stretch| stretch.face == round.face && stretch.layers.contains(other);
            let depths = section.stretches.iter().filter(on).map(|stretch| Self::clear(stretch, *other));
            depths.fold(0.0, f64::max)
        };
        let face_of_it = round.layers.iter().filter(under).map(lifted).fold(0.0, f64::max);
        let joint = self.at(own.face, 0.0, depth);
        let corner = self.mitre(faces, 0.0, [depth, face_of_it]).unwrap_or(joint);
        let out = if own.face < round.face { 1.0 } else { -1.0 };
        let end = along(corner, self.faces[own.face].along, out * past.m() * self.mm_per_m);
        if own.face < round.face {
            line.push(end);
        } else {
            line.insert(0, end);
        }
        line
    }

    /// A layer's line along some stretches.
    fn line(&self, section: &Section<'_>, layer: usize, on: &[usize]) -> Vec<P2> {
        let mut points = Vec::new();
        for (turn, index) in on.iter().enumerate() {
            let stretch = &section.stretches[*index];
            let depth = Self::clear(stretch, layer);
            let before = turn.checked_sub(1).map(|t| &section.stretches[on[t]]);
            if let Some(corner) = before.filter(|b| b.face != stretch.face) {
                let depths = [Self::clear(corner, layer), depth];
                points.extend(self.mitre([corner.face, stretch.face], stretch.span.from, depths));
            }
            let ends = self.shortened(section, *index, layer);
            if ends.length() > 0.0 {
                points.extend([ends.from, ends.to].map(|place| self.at(stretch.face, place, depth)));
            }
        }
        points
    }

    /// A stretch without what the layers of the face round an inside corner take up, drawn apart as they are.
    fn shortened(&self, section: &Section<'_>, index: usize, layer: usize) -> Span {
        let mut span = section.stretches[index].span;
        let face = section.stretches[index].face;
        let line = self.faces[face].span;
        let depth = Self::clear(&section.stretches[index], layer);
        let beside = |edge: usize| section.stretches.get(edge);
        let corner = |other: &Stretch| {
            let depths = [depth, Self::clear(other, layer)];
            let place = if other.face > face { line.to } else { line.from };
            let meet = self.mitre([face, other.face], place, depths)?;
            let from = self.at(face, place, depth);
            let off = [meet[0] - from[0], meet[1] - from[1]];
            let along = self.faces[face].along;
            Some((off[0] * along[0] + off[1] * along[1]) / self.mm_per_m)
        };
        let first = section.stretches.iter().position(|stretch| stretch.face == face).unwrap_or(0);
        let last = section.stretches.iter().rposition(|stretch| stretch.face == face).unwrap_or(0);
        if let Some(off) = first.checked_sub(1).and_then(beside).and_then(corner).filter(|off| *off > 0.0) {
            span.from = span.from.max(line.from + off);
        }
        if let Some(off) = beside(last + 1).and_then(corner).filter(|off| *off < 0.0) {
            span.to = span.to.min(line.to + off);
        }
        span
    }

    /// Where the leader of a layer's tag starts, on the longest part of its line, and where the tag stands so far off it.
    pub(super) fn tag_of(&self, section: &Section<'_>, layer: usize, off: f64) -> Option<[P2; 2]> {
        let lines = self.lines(section, layer);
        let parts = lines.iter().flat_map(|line| line.windows(2)).map(|ends| [ends[0], ends[1]]);
        let longest = parts.max_by(|[a, b], [c, d]| distance(*a, *b).total_cmp(&distance(*c, *d)));
        // A layer that the corner takes all of the room from has no line.
        let Some(longest) = longest else {
            let (face, place) = Self::most_open(section, layer)?;
            let depth = Self::depth(section, section.stretch_at(place)?, layer)?;
            return Some([depth, depth + off].map(|depth| self.at(face, place, depth)));
        };
        let [x, y] = unit(sub(longest[1], longest[0]))?;
        let middle = between(longest[0], longest[1], 0.5);
        // Faces run so that the wood lies on one hand of them.
        Some([middle, along(middle, [y, -x], off)])
    }

    /// The part of a face beside which tags do not run into those of the face round an inside corner.
    pub(super) fn free_of_corners(&self, face: usize, depth: f64) -> Span {
        let span = self.faces[face].span;
        // What lies as deep beside the other face comes this far along: the tangent of half the turn, times the depth.
        let taken = |a: usize, b: usize| {
            let (a, b) = (self.faces[a].along, self.faces[b].along);
            let turn = cross(a, b);
            let taken = -turn / (1.0 + a[0] * b[0] + a[1] * b[1]).max(0.1) * depth / self.mm_per_m;
            if turn < -0.05 { taken } else { 0.0 }
        };
        let from = if face > 0 { span.from + taken(face - 1, face) } else { span.from };
        let to = if face + 1 < self.faces.len() { span.to - taken(face, face + 1) } else { span.to };
        Span { from, to }
    }

    /// The face and place where fewest layers lie over a layer, the longest such stretch.
    fn most_open(section: &Section<'_>, layer: usize) -> Option<(usize, f64)> {
        let best = Self::open_stretches(section, layer).into_iter().next()?;
        let best = &section.stretches[best];
        Some((best.face, f64::midpoint(best.span.from, best.span.to)))
    }

    /// A layer's stretches, those with fewest layers over it first, the longer before the shorter.
    pub(super) fn open_stretches(section: &Section<'_>, layer: usize) -> Vec<usize> {
        let over = |i: &usize| section.stretches[*i].layers.iter().filter(|other| **other > layer).count();
        let length = |i: &usize| section.stretches[*i].span.length();
        let on = |i: &usize| section.stretches[*i].layers.contains(&layer);
        let mut on: Vec<usize> = (0..section.stretches.len()).filter(on).collect();
        on.sort_by(|a, b| over(a).cmp(&over(b)).then(length(b).total_cmp(&length(a))));
        on
    }
}

/// Direction of a face towards the last one, y up.
fn direction(laid: &Laid<'_>) -> P2 {
    let steep = (laid.heights[0] - laid.heights[1]) / laid.span.length();
    match (laid.face.stands, laid.face.falls) {
        (Stands::Level, _) => [1.0, 0.0],
        (Stands::Upright, Falls::Back) => [0.0, 1.0],
        (Stands::Upright, _) => [0.0, -1.0],
        (Stands::Pitched, _) => [(1.0 - steep * steep).max(0.0).sqrt(), -steep],
    }
}
