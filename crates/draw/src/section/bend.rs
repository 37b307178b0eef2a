//! The line of the wood on paper, and the layers bent along it.

use book::{Falls, Stands};
use detail::{Laid, Section, Span, Stretch};

use super::{GAP, WOOD};
use crate::polygon::Bounds;
use crate::vector::{P2, add, along, between, cross, distance, quarter, sub, unit};

/// Distance of a layer's line from the wood, in gaps: the first lies a little off it.
const FIRST: f64 = 0.6;

/// The faces on paper, millimetres, y down.
#[derive(Clone, Debug)]
pub(super) struct Bend {
    faces: Vec<FaceLine>,
    pub(super) mm_per_m: f64,
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
        for laid in &section.faces {
            let up = direction(laid);
            let along_paper = [up[0], -up[1]];
            let out = quarter(up);
            faces.push(FaceLine { span: laid.span, start, along: along_paper, out: [out[0], -out[1]] });
            start = along(start, along_paper, laid.span.length() * mm_per_m);
        }
        Self { faces, mm_per_m }
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
                .map(|(face, place, depth)| self.at(face, place, depth)),
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

    /// A layer's line on paper.
    pub(super) fn line(&self, section: &Section<'_>, layer: usize) -> Vec<P2> {
        let on: Vec<usize> = (0..section.stretches.len())
            .filter(|stretch| section.stretches[*stretch].layers.contains(&layer))
            .collect();
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

    /// Layers that lie most open on a face, each with where its leader starts and its tag stands.
    pub(super) fn tagged(
        &self,
        section: &Section<'_>,
        face: usize,
        depth: f64,
        room: f64,
    ) -> Vec<(usize, P2, P2)> {
        let mut wanted: Vec<(usize, f64)> = (0..section.sheets.len())
            .filter_map(|layer| {
                let (on, place) = Self::most_open(section, layer)?;
                (on == face).then_some((layer, place))
            })
            .collect();
        wanted.sort_by(|(_, a), (_, b)| a.total_cmp(b));
        let span = self.faces[face].span;
        let step = room / self.mm_per_m;
        let free = self.free_of_corners(face, depth);
        let mut places: Vec<f64> = Vec::with_capacity(wanted.len());
        for (_, place) in &wanted {
            let least = places.last().map_or(free.from, |last| last + step);
            places.push(place.max(least));
        }
        // What ran past the end is pushed back, the rest before it as far as it must.
        let ran_over = places.last().is_some_and(|last| *last > free.to.max(span.from));
        let mut most = if ran_over { free.to.max(free.from) } else { f64::MAX };
        for place in places.iter_mut().rev() {
            *place = place.min(most);
            most = *place - step;
        }
        let tags = wanted.iter().zip(places).filter_map(|((layer, place), at)| {
            let stretch = section.stretch_at(*place)?;
            let from = self.at(face, *place, Self::depth(section, stretch, *layer)?);
            Some((*layer, from, self.at(face, at, depth)))
        });
        tags.collect()
    }

    /// Where the leader of a layer's tag starts, on the longest part of its line, and where the tag stands so far off it.
    pub(super) fn tag_of(&self, section: &Section<'_>, layer: usize, off: f64) -> Option<[P2; 2]> {
        let line = self.line(section, layer);
        let parts = line.windows(2).map(|ends| [ends[0], ends[1]]);
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
        let over = |stretch: &&Stretch| stretch.layers.iter().filter(|other| **other > layer).count();
        let on = section.stretches.iter().filter(|stretch| stretch.layers.contains(&layer));
        let best =
            on.min_by(|a, b| over(a).cmp(&over(b)).then(b.span.length().total_cmp(&a.span.length())))?;
        Some((best.face, f64::midpoint(best.span.from, best.span.to)))
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
