//! Symbols: slope arrow, chevron, pitch triangle, number tag, north arrow, scale bar. Millimetres on paper.

use job::Units;

use crate::ink::{ARROW, CHEVRON, FINE, INK, MARK, PAPER, WATER};
use crate::letter::{Anchor, Cut, Text};
use crate::place::Tilted;
use crate::scale::Scale;
use crate::svg::{Path, Svg};
use crate::vector::{P2, add, along, distance, quarter, sub, turned, unit};

/// Size of the smallest text.
pub(crate) const SMALL: f64 = 2.9;

/// An arrow that water follows.
pub(crate) fn arrow(svg: &mut Svg, [from, to]: [P2; 2]) {
    let Some(d) = unit(sub(to, from)) else { return };
    let neck = along(to, d, -2.0);
    svg.stroke("slope-arrow", &Path::open(&[from, neck]), &ARROW);
    let side = |by| along(neck, quarter(d), by);
    svg.fill("slope-arrow", &Path::closed(&[to, side(0.8), side(-0.8)]), WATER);
}

/// An open chevron that points along a unit direction.
pub(crate) fn chevron(path: Path, at: P2, direction: P2) -> Path {
    let back = along(at, direction, -1.4);
    path.and_open(&[along(back, quarter(direction), 1.1), at, along(back, quarter(direction), -1.1)])
}

pub(crate) fn draw_chevrons(svg: &mut Svg, path: &Path) {
    if !path.is_empty() {
        svg.stroke("chevron", path, &CHEVRON);
    }
}

/// A right triangle, run level on top and rise upright on one side, as elevations show a pitch. `corner` is the
/// thin end; the run goes in the direction of `sign`, the slope rises that way.
pub(crate) fn pitch_triangle(svg: &mut Svg, corner: P2, run: f64, slope: f64) {
    let top = [corner[0] + run, corner[1] - run * slope];
    svg.shape("pitch-triangle", &Path::closed(&[corner, top, [top[0], corner[1]]]), PAPER, &FINE);
}

/// A number in a ring that stands on or beside a line.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Tag {
    number: String,
    size: f64,
}

impl Tag {
    pub(crate) fn new(number: usize, size: f64) -> Self {
        Self { number: number.to_string(), size }
    }

    fn half(&self) -> P2 {
        let height = self.size * 0.62;
        [(self.text([0.0; 2]).width() / 2.0 + self.size * 0.24).max(height), height]
    }

    fn text(&self, at: P2) -> Text {
        Text::new(self.number.clone(), at, self.size)
    }

    /// The room it takes.
    pub(crate) fn room(&self, at: P2) -> Tilted {
        Tilted::upright(at, self.half())
    }

    pub(crate) fn draw(&self, svg: &mut Svg, at: P2) {
        svg.shape("edge-tag", &pill(at, self.half()), PAPER, &FINE);
        svg.text("edge-number", &self.text(at));
    }
}

/// A rectangle with half-round ends.
pub(crate) fn pill([x, y]: P2, [w, h]: P2) -> Path {
    let (inner, steps) = (w - h, 8);
    let end = |side: f64, from: f64| {
        (0..=steps).map(move |i| {
            let spoke = turned([0.0, h], from + 180.0 * f64::from(i) / f64::from(steps));
            [x + side * inner + spoke[0], y + spoke[1]]
        })
    };
    Path::closed(&end(1.0, 180.0).chain(end(-1.0, 0.0)).collect::<Vec<_>>())
}

/// Half the length of the north arrow.
pub(crate) const NORTH_HALF: f64 = 7.5;

/// A needle towards north with an N at its point; `north` is a unit direction on paper.
pub(crate) fn north_arrow(svg: &mut Svg, center: P2, north: P2) {
    north_arrow_of(svg, center, north, 3.6);
}

/// With an N of a size.
pub(crate) fn north_arrow_of(svg: &mut Svg, center: P2, north: P2, size: f64) {
    let tip = along(center, north, 4.2);
    let tail = along(center, north, -NORTH_HALF);
    let waist = |side: f64| along(along(center, north, -4.5), quarter(north), side);
    svg.stroke("north", &Path::open(&[tail, tip]), &MARK);
    svg.shape("north", &Path::closed(&[tip, waist(1.6), along(center, north, -3.2)]), INK, &FINE);
    svg.shape("north", &Path::closed(&[tip, waist(-1.6), along(center, north, -3.2)]), PAPER, &FINE);
    svg.text("north", &Text::new("N", along(center, north, 4.5 + size / 2.0), size).cut(Cut::Bold));
}

/// Height the scale bar takes with its words.
pub(crate) const BAR_HEIGHT: f64 = 11.0;

/// Four parts, dark and light in turn, with the count under them and the scale above; `at` is the upper corner
/// where counting starts.
pub(crate) fn scale_bar(svg: &mut Svg, at: P2, scale: &Scale, units: Units, room: f64) {
    let (part, stands_for) = scale.bar_part(units, room);
    let top = add(at, [0.0, 4.4]);
    for i in 0..4u32 {
        let x = top[0] + part * f64::from(i);
        let box_ =
            Path::closed(&[[x, top[1]], [x + part, top[1]], [x + part, top[1] + 1.6], [x, top[1] + 1.6]]);
        svg.shape("scale-bar", &box_, if i % 2 == 0 { INK } else { PAPER }, &FINE);
    }
    svg.text(
        "scale",
        &Text::new(format!("scale {}", scale.name), add(at, [0.0, 1.6]), SMALL).anchored(Anchor::Start),
    );
    for i in [0, 2, 4] {
        let (count, unit) = stands_for.times(i);
        let words = if i == 4 { format!("{count} {unit}") } else { count.to_string() };
        svg.text("scale", &Text::new(words, [top[0] + part * f64::from(i), top[1] + 4.2], SMALL));
    }
}

/// A dimension line with oblique ends.
pub(crate) fn dimension_line(svg: &mut Svg, [a, b]: [P2; 2]) {
    let Some(d) = unit(sub(b, a)) else { return };
    svg.stroke("dimension-line", &Path::open(&[a, b]), &crate::ink::DIMENSION);
    let slash = turned(d, -45.0);
    let ends = [a, b]
        .iter()
        .fold(Path::default(), |path, &p| path.and_open(&[along(p, slash, -0.9), along(p, slash, 0.9)]));
    svg.stroke("dimension-end", &ends, &MARK);
}

/// A thin line from words to what they are about: from the border of their room to `clear` short of the point;
/// none when the two are that close.
pub(crate) fn leader(from: &Tilted, to: P2, clear: f64) -> Option<[P2; 2]> {
    const AIR: f64 = 0.4;
    let d = unit(sub(to, from.center))?;
    let start = from.exit(d) + AIR;
    let end = distance(from.center, to) - clear;
    (end - start > 0.3).then(|| [start, end].map(|far| along(from.center, d, far)))
}

/// Draws a leader that ends in a dot.
pub(crate) fn draw_leader(svg: &mut Svg, ends: [P2; 2]) {
    svg.stroke("leader", &Path::open(&ends), &crate::ink::DIMENSION);
    svg.fill("leader", &Path::circle(ends[1], 0.35), crate::ink::FAINT);
}
