//! Each fix beside the others: the deck against freezing and the melt against what it is today at 22 °F under a foot of snow, the ice of a typical and of a hard winter, and
//! of what helps nothing, why.

use study::winter::{Ablation, State, design_words};

use super::WinterScene;
use super::plot::{FREEZING, LINE, told};
use super::words::{Quantity, number, written};
use crate::chart::ChartOptions;
use crate::figure::{Figure, sheet_size};
use crate::ink::{FINE, INK, MARK, PAPER, Pen};
use crate::letter::{Anchor, Cut, Text, wrapped};
use crate::svg::{Path, Svg};
use crate::symbol::SMALL;

const BORDER: f64 = 2.0;
/// Shares of the width: names, decks, melt, ice.
const COLUMNS: [f64; 4] = [0.3, 0.22, 0.2, 0.28];
const ROW: f64 = 7.4;
const HEAD: f64 = 15.0;
const DOT: f64 = 1.3;
/// Room of the figure beside a mark.
const FIGURE: f64 = 11.0;
const READING: &str = ". Deck: mean over the attics; at or below the chain line it melts no snow. Melt: from below in a day. Ice of the building: the most of a winter, upper bar \
    typical, lower bar hard. Air leaks first, then insulation, then a way in and out for air: one alone may feed the others.";

/// Draws the fixes.
pub fn fixes_chart(scene: &WinterScene<'_>, options: &ChartOptions) -> Figure {
    let [width, _] = sheet_size(options.size_mm);
    let chart = Fixes { scene, width, useless: scene.winter.useless() };
    let mut svg = Svg::default();
    let height = chart.draw(&mut svg);
    let alt = chart.alt();
    Figure { svg: svg.finish([width, height], "Fix by fix", &alt), width_mm: width, height_mm: height, alt }
}

struct Fixes<'a> {
    scene: &'a WinterScene<'a>,
    width: f64,
    useless: Vec<(&'a Ablation, &'static str)>,
}

impl Fixes<'_> {
    fn column(&self, index: usize) -> [f64; 2] {
        let room = self.width - 2.0 * BORDER;
        let from = BORDER + room * COLUMNS[..index].iter().sum::<f64>();
        [from, from + room * COLUMNS[index]]
    }

    fn draw(&self, svg: &mut Svg) -> f64 {
        let units = self.scene.units;
        super::plot::heading(svg, "Fix by fix", [BORDER, BORDER + LINE * 0.6]);
        let heads = [
            (1, ["deck", Quantity::Temperature.unit(units)]),
            (2, ["melted in a day", Quantity::Water.unit(units)]),
            (3, ["ice, typical and hard", Quantity::Ice.unit(units)]),
        ];
        for (column, lines) in heads {
            for (words, up) in lines.into_iter().zip([1.9, 0.9]) {
                let text = Text::new(words, [self.column(column)[0] + 3.0, HEAD - LINE * up], SMALL);
                svg.text("head", &text.anchored(Anchor::Start).cut(Cut::Bold));
            }
        }
        // lines first, so that words stand on them
        let mut top = HEAD;
        let freezing = self.deck_at(0.0);
        for (row, seasons) in self.scene.winter.rows() {
            let marks = top + self.names(row).len().max(1) as f64 * LINE + 2.0;
            svg.stroke(
                "freezing",
                &Path::open(&[[freezing, top], [freezing, marks.max(top + ROW)]]),
                &FREEZING,
            );
            top = self.row(svg, (row, seasons), top);
        }
        svg.stroke("row", &Path::open(&[[BORDER, top], [self.width - BORDER, top]]), &FINE);
        let reading = format!("Deck and melt at {}{READING}", design_words(units));
        told(svg, "reading", &reading, [BORDER, top + LINE], self.width - 2.0 * BORDER) + 1.0
    }

    fn names(&self, row: &Ablation) -> Vec<String> {
        let [left, right] = self.column(0);
        wrapped(&row.name, right - left - 2.0, SMALL)
    }

    /// Why a fix helps nothing, or that the job plans none of it.
    fn why(&self, row: &Ablation) -> Option<String> {
        let useless = self.useless.iter().find(|(other, _)| other.name == row.name);
        let is_planned = self.scene.winter.ablation.first().is_none_or(|found| !row.is_as(found));
        useless
            .map(|(_, why)| format!("helps nothing: {why}"))
            .or_else(|| self.scene.winter.why(row).filter(|_| !is_planned))
    }

    fn deck_at(&self, celsius: f64) -> f64 {
        let decks = || self.scene.winter.ablation.iter().map(|row| row.deck).chain([0.0]);
        let (low, high) = (decks().fold(f64::INFINITY, f64::min), decks().fold(f64::NEG_INFINITY, f64::max));
        let [left, right] = self.column(1);
        let share = (celsius - low) / (high - low).max(0.5);
        left + 5.0 + share * (right - left - 10.0 - FIGURE)
    }

    /// One fix; where the next begins.
    fn row(&self, svg: &mut Svg, (row, seasons): (&Ablation, &[State; 2]), top: f64) -> f64 {
        let units = self.scene.units;
        svg.stroke("row", &Path::open(&[[BORDER, top], [self.width - BORDER, top]]), &FINE);
        let left = self.column(0)[0];
        let lines = self.names(row);
        let middle = top + (lines.len() as f64 * LINE + 2.0).max(ROW) / 2.0;
        let first = middle - LINE * (lines.len() as f64 - 1.0) / 2.0;
        for (i, line) in lines.iter().enumerate() {
            let at = [left, first + LINE * i as f64];
            svg.text("fix", &Text::new(line.clone(), at, SMALL).anchored(Anchor::Start));
        }
        let x = self.deck_at(row.deck);
        let fill = if row.deck > 0.0 { PAPER } else { INK };
        svg.shape("deck", &Path::circle([x, middle], DOT), fill, &Pen { width: 0.4, ..MARK });
        let deck = number(Quantity::Temperature, row.deck, units);
        let at = [self.column(1)[1] - 4.0, middle];
        svg.text("figure", &Text::new(deck, at, SMALL).anchored(Anchor::End));
        self.melt(svg, row, middle);
        self.ice(svg, seasons, middle);
        let below = top + (lines.len() as f64 * LINE + 2.0).max(ROW);
        let Some(words) = self.why(row) else { return below };
        told(svg, "useless", &words, [left + 4.0, below + LINE * 0.3], self.width - left - BORDER - 4.0) - 1.2
    }

    fn melt(&self, svg: &mut Svg, row: &Ablation, y: f64) {
        let most = self.scene.winter.ablation.iter().map(|row| row.melt_day).fold(1e-9, f64::max);
        let [left, right] = self.column(2);
        let to = left + 3.0 + row.melt_day.max(0.0) / most * (right - left - 4.0 - FIGURE);
        let corners = [[left + 3.0, y - 1.4], [to, y - 1.4], [to, y + 1.4], [left + 3.0, y + 1.4]];
        svg.shape("melt", &Path::closed(&corners), super::WARM, &FINE);
        let melt = number(Quantity::Water, row.melt_day, self.scene.units);
        svg.text("figure", &Text::new(melt, [right - 1.0, y], SMALL).anchored(Anchor::End));
    }

    /// The ice of a typical winter over that of a hard one.
    fn ice(&self, svg: &mut Svg, seasons: &[State; 2], y: f64) {
        let all = self.scene.winter.seasons.iter().flatten();
        let most = all.map(|state| state.ice).fold(1e-9, f64::max);
        let [left, right] = self.column(3);
        for (state, (at, tone)) in seasons.iter().zip([(y - 1.8, super::ICE), (y + 1.8, PAPER)]) {
            let to = left + 3.0 + state.ice.max(0.0) / most * (right - left - 4.0 - FIGURE);
            let corners = [[left + 3.0, at - 1.2], [to, at - 1.2], [to, at + 1.2], [left + 3.0, at + 1.2]];
            svg.shape("ice", &Path::closed(&corners), tone, &FINE);
            let ice = number(Quantity::Ice, state.ice, self.scene.units);
            svg.text("figure", &Text::new(ice, [right, at], SMALL).anchored(Anchor::End));
        }
    }

    fn alt(&self) -> String {
        let units = self.scene.units;
        let told = self.scene.winter.rows().map(|(row, seasons)| {
            let [typical, hard] = seasons.each_ref().map(|state| written(Quantity::Ice, state.ice, units));
            let deck = written(Quantity::Temperature, row.deck, units);
            let melt = written(Quantity::Water, row.melt_day, units);
            let why = self.why(row).map_or_else(String::new, |why| format!(", {why}"));
            format!("{}: deck {deck}, {melt} a day, ice {typical} in a typical winter, {hard} in a hard one{why}.", row.name)
        });
        format!("Fix by fix at {}. {}", design_words(units), told.collect::<Vec<_>>().join(" "))
    }
}
