//! What the owner's pictures of the winter share: their size, their words, and a cut through the house by its own slope.

use study::winter::Slope;

use crate::figure::sheet_size;
use crate::ink::{INK, PAPER, Pen};
use crate::letter::{Anchor, Cut as LetterCut, Text};
use crate::plan::Stream;
use crate::svg::{Path, Svg};
use crate::vector::P2;

/// Least size of text: 12 pt; of the number.
pub(super) const TEXT: f64 = 12.0 / 72.0 * 25.4;
const NUMBER: f64 = 7.5;
/// Beside the picture, for words.
pub(super) const WORDS: f64 = 50.0;
/// Around what is drawn.
const ROOM: f64 = 3.0;
pub(super) const ROOF: Pen = Pen { width: 0.9, dash: &[], colour: INK };
pub(super) const WALL: Pen = Pen { width: 0.6, dash: &[], colour: INK };

/// The size of an owner's picture: no lower than its words.
pub(super) fn picture_size((width, height): (f64, f64)) -> P2 {
    const LEAST: f64 = 60.0;
    let [width, _] = sheet_size((width, height));
    [width, if height.is_nan() { LEAST } else { height.clamp(LEAST, 300.0) }]
}

/// The number and what it counts, in the column beside the picture.
pub(super) fn number(svg: &mut Svg, [width, height]: P2, number: &str, lines: &[&str]) {
    let x = width - WORDS + 2.0;
    let all = NUMBER * 1.2 + lines.len() as f64 * TEXT * 1.35;
    let top = (height - all) / 2.0 + NUMBER / 2.0;
    svg.text("number", &Text::new(number, [x, top], NUMBER).anchored(Anchor::Start).cut(LetterCut::Bold));
    for (row, line) in lines.iter().enumerate() {
        let at = [x, top + NUMBER * 1.05 + row as f64 * TEXT * 1.35];
        svg.text("words", &Text::new(*line, at, TEXT).anchored(Anchor::Start));
    }
}

/// Words on a picture.
pub(super) fn label(svg: &mut Svg, words: &str, at: P2, anchor: Anchor) {
    svg.text("words", &Text::new(words, at, TEXT).anchored(anchor));
}

/// An arrow.
pub(super) fn arrow(svg: &mut Svg, ends: [P2; 2], width: f64) {
    Stream::even(ends, width).draw(svg, "air");
}

/// A cut square to an eave: metres to paper. The wall under the eave stands at 0, the house lies to the right of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cut {
    /// From wall to top in plan; how high the roof rises over it; past the wall in plan; the wall.
    pub(super) half: f64,
    pub(super) rise: f64,
    pub(super) past: f64,
    pub(super) plate: f64,
    pub(super) slope: f64,
    is_ridged: bool,
    scale: f64,
    zero: P2,
}

impl Cut {
    /// As large as a room lets it be, with so much of the wall as is asked for and no more than there is.
    pub(super) fn of(slope: &Slope, [low, high]: [P2; 2], wall: f64, is_half: bool) -> Self {
        let secant = slope.pitch.slope_factor();
        let (half, past) = ((slope.top - slope.cold).m() / secant, slope.cold.m() / secant);
        let rise = half * slope.pitch.slope();
        let plate = if slope.plate.m().is_finite() { slope.plate.m().max(0.5) } else { wall }.min(wall);
        let is_ridged = slope.is_ridged && !is_half;
        let mut cut = Self {
            half,
            rise,
            past,
            plate,
            slope: slope.pitch.slope(),
            is_ridged,
            scale: 1.0,
            zero: [0.0; 2],
        };
        let size = [cut.right() + past, plate + rise];
        let room = [high[0] - low[0] - 2.0 * ROOM, high[1] - low[1] - 2.0 * ROOM];
        cut.scale = (room[0] / size[0]).min(room[1] / size[1]);
        let spare = [0, 1].map(|axis| (room[axis] - size[axis] * cut.scale) / 2.0);
        cut.zero = [low[0] + ROOM + spare[0] + past * cut.scale, high[1] - ROOM - spare[1]];
        cut
    }

    /// The far end of the roof in plan.
    fn right(&self) -> f64 {
        if self.is_ridged { 2.0 * self.half + self.past } else { self.half }
    }

    /// The far wall.
    pub(super) fn far_wall(&self) -> f64 {
        if self.is_ridged { 2.0 * self.half } else { self.half }
    }

    pub(super) fn at(&self, [x, z]: P2) -> P2 {
        [self.zero[0] + x * self.scale, self.zero[1] - z * self.scale]
    }

    pub(super) const fn scale(&self) -> f64 {
        self.scale
    }

    /// On the roof, at a distance in plan in from the wall.
    pub(super) fn on_roof(&self, x: f64) -> P2 {
        let up = if x > self.half && self.is_ridged { 2.0 * self.half - x } else { x };
        [x, self.plate + up * self.slope]
    }

    /// Roof, walls and floor in outline.
    pub(super) fn draw(&self, svg: &mut Svg) {
        let roof = [-self.past, self.half].into_iter().chain(self.is_ridged.then(|| self.right()));
        let roof: Vec<P2> = roof.map(|x| self.at(self.on_roof(x))).collect();
        let far = self.far_wall();
        let over = if self.is_ridged { self.plate } else { self.plate + self.rise };
        let walls = [[0.0, self.plate], [0.0, 0.0], [far, 0.0], [far, over]].map(|p| self.at(p));
        svg.stroke("wall", &Path::open(&walls), &WALL);
        svg.stroke("roof", &Path::open(&roof), &ROOF);
    }

    /// The ceiling, with gaps of a width around some places.
    pub(super) fn ceiling(&self, svg: &mut Svg, gaps: &[f64], gap: f64) {
        let line = [[0.0, self.plate], [self.far_wall(), self.plate]].map(|p| self.at(p));
        svg.stroke("ceiling", &Path::open(&line), &WALL);
        for x in gaps {
            let ends = [x - gap / 2.0, x + gap / 2.0].map(|x| self.at([x, self.plate]));
            svg.stroke("gap", &Path::open(&ends), &Pen { width: 1.4, dash: &[], colour: PAPER });
        }
    }
}
