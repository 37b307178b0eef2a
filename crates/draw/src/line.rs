//! Edges drawn in the drawing language: line and symbols along the stretches that are seen, dots where they are
//! hidden.

use roof::{EdgeKind, Family};

use crate::count::whole;
use crate::ink::{FINE, HIDDEN, Pen, edge_pen};
use crate::polygon::Bounds;
use crate::svg::{Path, Svg};
use crate::symbol::{chevron, draw_chevrons};
use crate::vector::{P2, along, between, distance, dot, scale, sub, unit};

/// An edge on paper.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct EdgeLine {
    pub(crate) kind: EdgeKind,
    /// The lower end first.
    pub(crate) ends: [P2; 2],
    /// Unit direction, square to the line, towards its (first) plane.
    pub(crate) inward: P2,
    /// Unit direction in which its (first) plane falls; zero for a level plane.
    pub(crate) fall: P2,
    /// Stretches that are seen, as shares.
    pub(crate) seen: Vec<[f64; 2]>,
    /// Stretches under another roof.
    pub(crate) hidden: Vec<[f64; 2]>,
}

/// Distance between drops along an eave.
const DROPS: f64 = 4.0;
/// Distance between strokes of a wall's hatching.
const HATCH: f64 = 2.0;
/// Distance between chevrons along a line.
const CHEVRONS: f64 = 20.0;

impl EdgeLine {
    pub(crate) fn draw(&self, svg: &mut Svg) {
        for &stretch in &self.hidden {
            svg.stroke("edge-hidden", &Path::open(&self.stretch(stretch)), &HIDDEN);
        }
        for &stretch in &self.seen {
            self.draw_seen(svg, self.stretch(stretch));
        }
    }

    /// The part of the line between two shares.
    pub(crate) fn stretch(&self, [from, to]: [f64; 2]) -> [P2; 2] {
        [from, to].map(|t| between(self.ends[0], self.ends[1], t))
    }

    /// The outer border of the symbols along a stretch, which text should keep off too.
    pub(crate) fn fringe(&self, stretch: [f64; 2]) -> [P2; 2] {
        let reach = match self.kind.family() {
            Family::LetsGo => -1.3,
            Family::Ends => 0.85,
            Family::Gathers if !self.kind.is_shared() => -0.9,
            Family::Gathers | Family::Divides | Family::Passes => 0.0,
        };
        self.stretch(stretch).map(|p| along(p, self.inward, reach))
    }

    fn draw_seen(&self, svg: &mut Svg, ends: [P2; 2]) {
        svg.stroke(class(self.kind), &Path::open(&ends), &edge_pen(self.kind));
        match self.kind.family() {
            Family::LetsGo => self.draw_drops(svg, ends),
            Family::Ends => self.draw_double(svg, ends),
            Family::Gathers if self.kind.is_shared() => self.draw_run(svg, ends),
            Family::Gathers => self.draw_hatch(svg, ends),
            Family::Passes => draw_passing(svg, ends, self.fall),
            Family::Divides => {}
        }
    }

    /// Short strokes outwards, the way water leaves.
    fn draw_drops(&self, svg: &mut Svg, ends: [P2; 2]) {
        let outward = scale(self.inward, -1.0);
        let way = if dot(self.fall, outward) > 0.1 { self.fall } else { outward };
        let path =
            spaced(ends, DROPS).fold(Path::default(), |path, p| path.and_open(&[p, along(p, way, 1.3)]));
        svg.stroke("drops", &path, &Pen { width: 0.3, ..edge_pen(self.kind) });
    }

    /// A second, finer line inside.
    fn draw_double(&self, svg: &mut Svg, ends: [P2; 2]) {
        svg.stroke("edge-double", &Path::open(&ends.map(|p| along(p, self.inward, 0.85))), &FINE);
    }

    /// Oblique strokes on the wall's side.
    fn draw_hatch(&self, svg: &mut Svg, ends: [P2; 2]) {
        let Some(d) = unit(sub(ends[1], ends[0])) else { return };
        let way = along(scale(self.inward, -0.9), d, 0.9);
        let path =
            spaced(ends, HATCH).fold(Path::default(), |path, p| path.and_open(&[p, along(p, way, 1.0)]));
        svg.stroke("hatch", &path, &Pen { width: 0.25, ..edge_pen(self.kind) });
    }

    /// Chevrons down a valley.
    fn draw_run(&self, svg: &mut Svg, ends: [P2; 2]) {
        let Some(down) = unit(sub(ends[0], ends[1])) else { return };
        if self.kind == EdgeKind::LevelValley {
            return;
        }
        draw_chevrons(svg, &chevron_places(ends).fold(Path::default(), |path, p| chevron(path, p, down)));
    }
}

/// Chevrons across a pitch break.
fn draw_passing(svg: &mut Svg, ends: [P2; 2], fall: P2) {
    draw_chevrons(
        svg,
        &chevron_places(ends).fold(Path::default(), |path, p| chevron(path, along(p, fall, 0.55), fall)),
    );
}

/// An even number of places, so that the middle stays free for the number.
fn chevron_places(ends: [P2; 2]) -> impl Iterator<Item = P2> {
    let count = 2 * whole((distance(ends[0], ends[1]) / CHEVRONS / 2.0).round(), 50).max(1);
    (0..count).map(move |i| between(ends[0], ends[1], (f64::from(i) + 0.5) / f64::from(count)))
}

/// Places along a line, so far apart, the rest shared out at both ends.
fn spaced(ends: [P2; 2], gap: f64) -> impl Iterator<Item = P2> {
    let total = distance(ends[0], ends[1]);
    let count = whole(total / gap, 2000);
    let first = (total - gap * f64::from(count.saturating_sub(1))) / 2.0;
    (0..count).map(move |i| between(ends[0], ends[1], (first + gap * f64::from(i)) / total))
}

const fn class(kind: EdgeKind) -> &'static str {
    match kind.family() {
        Family::Divides => "edge divides",
        Family::Gathers => "edge gathers",
        Family::LetsGo => "edge lets-go",
        Family::Ends => "edge ends",
        Family::Passes => "edge passes",
    }
}

/// A sample of an edge's line for a legend, running level through the middle of a box.
pub(crate) fn sample(kind: EdgeKind, box_: &Bounds) -> EdgeLine {
    let ends = [box_.at([0.0, 0.5]), box_.at([1.0, 0.5])];
    EdgeLine { kind, ends, inward: [0.0, -1.0], fall: [0.0, 1.0], seen: vec![[0.0, 1.0]], hidden: Vec::new() }
}
