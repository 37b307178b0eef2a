//! The deck along a slope, from the eave's edge to the top: a graph of its temperature at 22 °F under a foot of snow, and under it a cut along the
//! slope to one scale, with snow, ice at its most, what stands behind it, the wall line and the ice barrier as laid.

use measure::Length;
use study::winter::{Ablation, LoggedState, Slope, design_words};

use super::plot::{FOUND, FREEZING, LINE, PLANNED, Plot, told, upright};
use super::words::{Quantity, written};
use super::{ICE, POND, SNOW, WARM, WinterScene, dams};
use crate::chart::ChartOptions;
use crate::figure::{Figure, sheet_size};
use crate::ink::{FINE, INK, MARK, Pen, WATER};
use crate::letter::{Anchor, Cut, Text};
use crate::svg::{Path, Svg};
use crate::symbol::{SMALL, dimension_line};
use crate::vector::P2;

const BORDER: f64 = 2.0;
const SIDE: f64 = 34.0;
/// Of the graph.
const GRAPH: f64 = 42.0;
/// Most height of snow and ice over the deck.
const OVER: f64 = 30.0;
/// Snow of the state at 22 °F.
const FOOT: f64 = 0.3048;
/// The deck, and membrane on it.
const DECK: f64 = 1.4;
const MEMBRANE: Pen = Pen { width: 1.0, dash: &[], colour: INK };
const AIR: f64 = -50.0 / 9.0;

/// After the day it is for.
const READING: &str = "; whole line as found, broken as planned, chain line freezing. \
    Cut below it, along the slope and to one scale: snow as deep; the most ice that stands there as found, at its lowest, filled level; dots, where the same ice stands \
    when it piles up at the edge; the heavy line, ice barrier as laid by plan. What water stands past its end finds nails.";

/// Draws the profile of the worst slope; none where no eave reaches past its wall.
pub fn slope_profile(scene: &WinterScene<'_>, options: &ChartOptions) -> Option<Figure> {
    let slope = scene.log.slope.as_ref()?;
    let (found, plan) = (scene.found()?, scene.plan()?);
    let [width, _] = sheet_size(options.size_mm);
    let profile = Profile { scene, slope, width, most: most(&scene.log.found) };
    let mut svg = Svg::default();
    let height = profile.draw(&mut svg, [found, plan]);
    let alt = profile.alt([found, plan]);
    let svg = svg.finish([width, height], "Deck along the slope", &alt);
    Some(Figure { svg, width_mm: width, height_mm: height, alt })
}

/// The most ice of a winter, kg/m.
fn most(states: &[LoggedState]) -> f64 {
    states.iter().map(|hour| hour.ice).fold(0.0, f64::max)
}

struct Profile<'a> {
    scene: &'a WinterScene<'a>,
    slope: &'a Slope,
    width: f64,
    /// Ice as found at its most.
    most: f64,
}

impl Profile<'_> {
    fn x(&self, along: Length) -> f64 {
        SIDE + (self.width - BORDER - SIDE) * (along / self.slope.top).clamp(0.0, 1.0)
    }

    /// Millimetres for a metre.
    fn scale(&self) -> f64 {
        (self.width - BORDER - SIDE) / self.slope.top.m()
    }

    /// How high snow and ice stand over the deck, mm.
    fn over(&self) -> f64 {
        let [_, (thicker, _)] = dams(self.slope, self.most);
        (thicker.m().max(FOOT) * self.scale()).min(OVER)
    }

    fn draw(&self, svg: &mut Svg, states: [&Ablation; 2]) -> f64 {
        let units = self.scene.units;
        let name = format!("Slope {} from its edge to its top", self.slope.plane);
        super::plot::heading(svg, &name, [BORDER, BORDER + LINE * 0.6]);
        let top = BORDER + 2.4 * LINE;
        let decks = states.map(|state| self.slope.decks(state));
        let shown = |value: f64| Quantity::Temperature.shown(value, units);
        let ends = decks.iter().flatten().copied().chain([AIR - 1.0, 1.5]).map(shown);
        let plot = Plot::of([SIDE, top], [self.width - BORDER, top + GRAPH], ends);
        plot.frame(svg, "deck", Quantity::Temperature.unit(units));
        self.level(svg, &plot, 0.0, "freezing", &FREEZING);
        self.level(svg, &plot, AIR, "air outdoors", &Pen { width: 0.2, ..PLANNED });
        for (decks, pen) in decks.iter().zip([FOUND, PLANNED]) {
            svg.stroke("deck", &Path::open(&self.steps(&plot, decks)), &Pen { width: 0.8, ..pen });
        }
        let deck = top + GRAPH + 6.0 + self.over();
        let wall = self.x(self.slope.cold);
        upright(svg, "wall", wall, [top, deck + DECK + 9.0]);
        self.cut(svg, deck);
        let foot = self.lengths(svg, deck + DECK);
        let reading = format!("Graph: deck at {}, after ten days{READING}", design_words(self.scene.units));
        told(svg, "reading", &reading, [BORDER, foot], self.width - 2.0 * BORDER) + 1.0
    }

    /// A temperature across the graph, named at the end where the overhang is not.
    fn level(&self, svg: &mut Svg, plot: &Plot, celsius: f64, name: &str, pen: &Pen) {
        let y = plot.y(Quantity::Temperature.shown(celsius, self.scene.units));
        svg.stroke("level", &Path::open(&[[plot.low[0], y], [plot.high[0], y]]), pen);
        let at = [plot.high[0] - 1.0, y - LINE * 0.55];
        svg.text("level", &Text::new(name, at, SMALL).anchored(Anchor::End));
    }

    fn steps(&self, plot: &Plot, decks: &[f64]) -> Vec<P2> {
        let bands = self.slope.bands.iter().zip(decks);
        bands
            .flat_map(|(band, deck)| {
                let y = plot.y(Quantity::Temperature.shown(*deck, self.scene.units));
                [[self.x(band.from), y], [self.x(band.to), y]]
            })
            .collect()
    }

    /// Snow, ice, water, deck and membrane, the deck laid level.
    fn cut(&self, svg: &mut Svg, deck: f64) {
        let snow = (FOOT * self.scale()).min(OVER);
        let [left, right] = [self.x(Length::ZERO), self.x(self.slope.top)];
        let corners = [[left, deck - snow], [right, deck - snow], [right, deck], [left, deck]];
        svg.shape("snow", &Path::closed(&corners), SNOW, &FINE);
        self.ice(svg, deck);
        for band in &self.slope.bands {
            let [a, b] = [band.from, band.to].map(|along| self.x(along));
            let tone = if band.is_over_attic { WARM } else { crate::ink::PAPER };
            let corners = [[a, deck], [b, deck], [b, deck + DECK], [a, deck + DECK]];
            svg.shape("board", &Path::closed(&corners), tone, &FINE);
        }
        if self.slope.membrane > Length::ZERO {
            let to = self.x(self.slope.membrane);
            svg.stroke("membrane", &Path::open(&[[left, deck - 0.5], [to, deck - 0.5]]), &MEMBRANE);
            svg.stroke("membrane", &Path::open(&[[to, deck - 3.0], [to, deck]]), &MARK);
        }
        let at = [right - 1.0, deck - snow / 2.0];
        svg.text("name", &Text::new("snow", at, SMALL).anchored(Anchor::End));
        let name = |x: f64, words: &str, anchor| {
            Text::new(words, [x, deck - self.over() - 2.0], SMALL).anchored(anchor).cut(Cut::Bold)
        };
        svg.text("name", &name(left, "edge", Anchor::Start));
        svg.text("name", &name(self.x(self.slope.cold) + 1.0, "wall line", Anchor::Start));
        svg.text("name", &name(right, if self.slope.is_ridged { "ridge" } else { "top" }, Anchor::End));
    }

    /// The lowest dam filled, the highest in outline; what stands behind either.
    fn ice(&self, svg: &mut Svg, deck: f64) {
        if self.most <= 0.0 {
            return;
        }
        let [(thick, reach), (thicker, farther)] = dams(self.slope, self.most);
        let over = |along: Length, height: Length| {
            [self.x(along), deck - (height.m().max(0.0) * self.scale()).min(OVER)]
        };
        let slope = self.slope.pitch.slope();
        let cold = self.slope.cold.min(reach);
        let crest = thick - cold * slope;
        if reach > cold {
            let pond = [over(cold, Length::ZERO), over(cold, crest), over(reach, Length::ZERO)];
            svg.shape("pond", &Path::closed(&pond), POND, &Pen { width: 0.25, dash: &[], colour: WATER });
        }
        let ice = [
            over(Length::ZERO, Length::ZERO),
            over(Length::ZERO, thick),
            over(cold, crest),
            over(cold, Length::ZERO),
        ];
        svg.shape("ice", &Path::closed(&ice), ICE, &FINE);
        let dots = Pen { width: 0.3, dash: &[0.5, 0.7], colour: INK };
        let ridge = [over(Length::ZERO, thicker), over(farther, Length::ZERO)];
        svg.stroke("highest", &Path::open(&ridge), &dots);
    }

    /// Under the deck: overhang, barrier and how far water stands, as lengths; where the words below may begin.
    fn lengths(&self, svg: &mut Svg, deck: f64) -> f64 {
        let units = self.scene.units;
        let [(_, reach), (_, farther)] = dams(self.slope, self.most);
        let mut rows = vec![("past the wall", self.slope.cold)];
        if self.slope.membrane > Length::ZERO {
            rows.push(("ice barrier", self.slope.membrane));
        }
        if self.most > 0.0 {
            rows.push(("water, lowest dam", reach));
            rows.push(("water, piled up", farther));
        }
        let mut y = deck + 3.0;
        for (name, length) in rows {
            y += LINE * 1.15;
            let ends = [self.x(Length::ZERO), self.x(length)].map(|x| [x, y]);
            dimension_line(svg, ends);
            svg.text("length", &Text::new(name, [BORDER, y], SMALL).anchored(Anchor::Start));
            let words = Text::new(units.lap(length), [ends[1][0] + 2.0, y], SMALL).anchored(Anchor::Start);
            let words = if words.room().bounds().high[0] > self.width - BORDER {
                Text { at: [ends[1][0] - 2.0, y], ..words }.anchored(Anchor::End)
            } else {
                words
            };
            svg.text("length", &words);
        }
        y + LINE * 1.7
    }

    fn alt(&self, [found, plan]: [&Ablation; 2]) -> String {
        let units = self.scene.units;
        let deck = |state: &Ablation| written(Quantity::Temperature, state.deck, units);
        format!(
            "The deck of slope {} from the eave's edge to the top at {}: {} over the attic as found, {} as planned. Below, a cut along the slope with \
             snow, wall line, ice barrier, and at most {} of ice on the overhang as found.",
            self.slope.plane,
            design_words(units),
            deck(found),
            deck(plan),
            written(Quantity::Ice, self.most, units)
        )
    }
}
