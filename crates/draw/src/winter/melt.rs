//! The owner's picture of the warm deck and the cold edge.

use job::Units;
use study::winter::Slope;

use super::cut::{Cut, ROOF, TEXT, WALL, WORDS, label, number, picture_size};
use super::words::Quantity;
use super::{ICE, POND, SNOW, WARM, WinterScene, dams};
use crate::figure::Figure;
use crate::ink::{FINE, PAPER, Pen, WATER};
use crate::letter::{Anchor, Text};
use crate::svg::{Path, Svg};
use crate::vector::{P2, add, along, between, quarter, scale, sub, unit};

/// Of the wall, m.
const BELOW: f64 = 0.9;
const FOOT: f64 = 0.3048;
/// Thickness of the boards, mm.
const BOARDS: f64 = 2.6;
/// Drops at most.
const MOST: usize = 14;
/// How warm boards must be to be toned, °C.
const MELTS: f64 = 0.02;

/// Draws the slope with most ice as found, at 22 °F and with the most ice of the winter; none where no eave reaches past its wall.
pub fn owner_melt(scene: &WinterScene<'_>, size_mm: (f64, f64)) -> Option<Figure> {
    let (slope, found) = (scene.log.slope.as_ref()?, scene.found()?);
    let size = picture_size(size_mm);
    let room = [[22.0, 15.0], [size[0] - WORDS - 3.0, size[1]]];
    let ice = scene.log.found.iter().map(|hour| hour.ice).fold(0.0, f64::max);
    // the eave hangs below the top of the wall, and icicles below the eave
    let hangs = slope.cold.m() / slope.pitch.slope_factor() * slope.pitch.slope();
    let cut = Cut::of(slope, room, BELOW + hangs, true);
    let picture = Picture { cut, slope, decks: slope.decks(found), ice };
    let mut svg = Svg::default();
    picture.draw(&mut svg);
    let unit = if scene.units == Units::Us { "gallons" } else { "liters" };
    let amount = format!("{:.0} {unit}", Quantity::Water.shown(found.melt_day, scene.units));
    let lines = ["of snow melt from", "below in a day and", "run to the edge"];
    number(&mut svg, size, &amount, &lines);
    let alt = format!(
        "A slice of your roof under snow: warm boards over the attic melt it from below, the water freezes at the cold edge past the wall. {amount} {}.",
        lines.join(" ")
    );
    let svg = svg.finish(size, "Warm deck, cold edge", &alt);
    Some(Figure { svg, width_mm: size[0], height_mm: size[1], alt })
}

struct Picture<'a> {
    cut: Cut,
    slope: &'a Slope,
    decks: Vec<f64>,
    /// On a metre of eave, kg.
    ice: f64,
}

impl Picture<'_> {
    /// Where a length along the slope from the edge lies, mm, and so much square over it.
    fn at(&self, length: f64, over: f64) -> P2 {
        let secant = self.slope.pitch.slope_factor();
        let on = self.cut.at(self.cut.on_roof(length / secant - self.cut.past));
        add(on, scale(self.up(), over))
    }

    /// Square away from the roof, on paper.
    fn up(&self) -> P2 {
        let [a, b] = [-self.cut.past, self.cut.half].map(|x| self.cut.at(self.cut.on_roof(x)));
        let direction = unit(sub(b, a)).unwrap_or([1.0, 0.0]);
        scale(quarter(direction), -1.0)
    }

    fn draw(&self, svg: &mut Svg) {
        let cut = &self.cut;
        let top = self.slope.top.m();
        let snow = FOOT * cut.scale();
        let corners = [(0.0, 0.0), (0.0, snow), (top, snow), (top, 0.0)].map(|(l, o)| self.at(l, o));
        svg.shape("snow", &Path::closed(&corners), SNOW, &FINE);
        let ponds = self.dam(svg);
        self.boards(svg);
        let walls = [[0.0, cut.plate - 0.02], [0.0, 0.0]].map(|p| cut.at(p));
        svg.stroke("wall", &Path::open(&walls), &Pen { width: 1.4, ..WALL });
        let ceiling = [[0.0, cut.plate - 0.05], [cut.half, cut.plate - 0.05]].map(|p| cut.at(p));
        svg.stroke("ceiling", &Path::open(&ceiling), &WALL);
        self.words(svg, ponds);
    }

    /// Over the attic toned where they melt snow, drops under it there.
    fn boards(&self, svg: &mut Svg) {
        for (band, deck) in self.slope.bands.iter().zip(&self.decks) {
            let (from, to) = (band.from.m(), band.to.m());
            let corners =
                [(from, 0.0), (to, 0.0), (to, -BOARDS), (from, -BOARDS)].map(|(l, o)| self.at(l, o));
            let is_warm = band.is_over_attic && *deck > MELTS;
            svg.shape("boards", &Path::closed(&corners), if is_warm { WARM } else { PAPER }, &FINE);
        }
        let ends = [self.at(0.0, 0.0), self.at(self.slope.top.m(), 0.0)];
        svg.stroke("roof", &Path::open(&ends), &Pen { width: 0.5, ..ROOF });
        let warm: Vec<_> = self
            .slope
            .bands
            .iter()
            .zip(&self.decks)
            .filter(|(b, d)| b.is_over_attic && **d > MELTS)
            .collect();
        let (Some(first), Some(last)) = (warm.first(), warm.last()) else { return };
        for i in 0..MOST {
            let share = (i as f64 + 0.5) / MOST as f64;
            let length = first.0.from.m() + share * (last.0.to - first.0.from).m();
            svg.fill("drop", &drop(self.at(length, 2.0)), WATER);
        }
    }

    /// Whether ice is thick enough to be seen.
    fn is_icy(&self) -> bool {
        let [_, (thick, _)] = dams(self.slope, self.ice);
        thick.m() * self.cut.scale() > 1.0
    }

    /// Ice as high as it may stand, and the water behind it; whether there is any.
    fn dam(&self, svg: &mut Svg) -> bool {
        let [_, (thick, reach)] = dams(self.slope, self.ice);
        if !self.is_icy() {
            return false;
        }
        let most = 1.6 * FOOT;
        let height = thick.m().min(most);
        let reach = reach.m().min(height / self.slope.pitch.slope().max(1e-6));
        let cold = self.slope.cold.m().min(reach);
        let metre = self.cut.scale();
        let crest = height * (1.0 - cold / reach.max(1e-9));
        let is_ponding = reach > cold + 0.01;
        if is_ponding {
            let pond = [self.at(cold, 0.0), self.at(cold, crest * metre), self.at(reach, 0.0)];
            svg.shape("pond", &Path::closed(&pond), POND, &Pen { width: 0.4, dash: &[], colour: WATER });
        }
        let ice = [(0.0, 0.0), (0.0, height * metre), (cold, crest * metre), (cold, 0.0)];
        svg.shape("ice", &Path::closed(&ice.map(|(l, o)| self.at(l, o))), ICE, &FINE);
        let edge = self.at(0.0, 0.0);
        for (x, long) in [(0.6, 7.0), (2.8, 4.5), (4.6, 6.0)] {
            let foot = along(edge, unit(sub(self.at(1.0, 0.0), edge)).unwrap_or([1.0, 0.0]), x);
            let icicle = [
                [foot[0] - 0.7, foot[1] + BOARDS],
                [foot[0] + 0.7, foot[1] + BOARDS],
                [foot[0], foot[1] + BOARDS + long],
            ];
            svg.shape("icicle", &Path::closed(&icicle), ICE, &FINE);
        }
        is_ponding
    }

    fn words(&self, svg: &mut Svg, ponds: bool) {
        let top = self.slope.top.m();
        let turn = -self.slope.pitch.degrees();
        let snow = FOOT * self.cut.scale();
        let tilted = |words: &str, at: P2| Text::new(words, at, TEXT).turned(turn);
        svg.text("words", &tilted("snow", self.at(top * 0.75, snow + TEXT * 0.8)));
        svg.text("words", &tilted("warm boards", self.at(top * 0.62, -BOARDS - TEXT)));
        let [_, (_, reach)] = dams(self.slope, self.ice);
        if self.is_icy() {
            let at = self.at(self.slope.cold.m() * 0.35, snow + 2.0 * TEXT);
            pointed(svg, "ice", at, self.at(self.slope.cold.m() * 0.35, snow * 0.45));
        }
        if ponds {
            let along = self.slope.cold.m() + 0.25 * (reach - self.slope.cold).m();
            pointed(svg, "water backs up", self.at(along, snow + 4.6 * TEXT), self.at(along, 1.6));
        }
        let beside = add(self.at(0.0, 0.0), [-3.0, 2.0]);
        label(svg, "cold edge", beside, Anchor::End);
    }
}

/// Words with a line to what they name.
fn pointed(svg: &mut Svg, words: &str, at: P2, to: P2) {
    let text = Text::new(words, at, TEXT);
    let start = between([at[0], at[1] + TEXT * 0.6], to, 0.05);
    svg.stroke("leader", &Path::open(&[start, to]), &Pen { width: 0.35, ..WALL });
    svg.text("words", &text);
}

/// A drop of water that hangs from a point.
fn drop([x, y]: P2) -> Path {
    Path::closed(&[[x, y - 1.6], [x + 0.8, y], [x + 0.5, y + 0.8], [x - 0.5, y + 0.8], [x - 0.8, y]])
}
