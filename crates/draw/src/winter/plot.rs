//! A plot: a box with a scale up its side, and what is drawn to it.

use crate::ink::{FAINT, FINE, INK, Pen};
use crate::letter::{Anchor, Cut, Text, wrapped};
use crate::svg::{Path, Svg};
use crate::symbol::SMALL;
use crate::vector::P2;

/// Lines of a scale.
const RULE: Pen = Pen { width: 0.12, dash: &[], colour: "#b5b5b5" };
/// Where it freezes.
pub(super) const FREEZING: Pen = Pen { width: 0.3, dash: &[2.2, 0.8, 0.6, 0.8], colour: INK };
/// What is found, and what is planned.
pub(super) const FOUND: Pen = Pen { width: 0.5, dash: &[], colour: INK };
pub(super) const PLANNED: Pen = Pen { width: 0.5, dash: &[1.6, 0.9], colour: INK };

/// A box on paper, upper left and lower right corner, and the values at its lower and upper side.
#[derive(Clone, Copy, Debug)]
pub(super) struct Plot {
    pub(super) low: P2,
    pub(super) high: P2,
    pub(super) range: [f64; 2],
}

impl Plot {
    /// Of values, its scale so that all of them fit; from nought where they do not fall below it.
    pub(super) fn of(low: P2, high: P2, values: impl Iterator<Item = f64>) -> Self {
        let ends = values.filter(|value| value.is_finite()).fold(None, |ends: Option<[f64; 2]>, value| {
            Some(ends.map_or([value; 2], |[low, high]| [low.min(value), high.max(value)]))
        });
        let [from, to] = ends.unwrap_or([0.0, 1.0]);
        let span = if to - from > 1e-6 { to - from } else { 1.0 };
        // a little air over the highest, and under the lowest where that is not nought
        let range = [if from == 0.0 { 0.0 } else { from - AIR * span }, from + span * (1.0 + AIR)];
        Self { low, high, range }
    }

    pub(super) fn y(&self, value: f64) -> f64 {
        let share = (value - self.range[0]) / (self.range[1] - self.range[0]);
        self.high[1] - share.clamp(0.0, 1.0) * (self.high[1] - self.low[1])
    }

    /// Along it, by a share.
    pub(super) fn x(&self, share: f64) -> f64 {
        self.low[0] + share * (self.high[0] - self.low[0])
    }

    /// The box, its scale with numbers on the left, and its name with the unit beside it.
    pub(super) fn frame(&self, svg: &mut Svg, name: &str, unit: &str) {
        for value in self.ticks() {
            let y = self.y(value);
            svg.stroke("scale", &Path::open(&[[self.low[0], y], [self.high[0], y]]), &RULE);
            // within the box, so that numbers of the plot above or below keep off it
            let beside = y.clamp(self.low[1] + SMALL / 2.0, self.high[1] - SMALL / 2.0);
            let text = Text::new(tick(value), [self.low[0] - 1.2, beside], SMALL).anchored(Anchor::End);
            svg.text("tick", &text);
        }
        let corners = [self.low, [self.high[0], self.low[1]], self.high, [self.low[0], self.high[1]]];
        svg.stroke("plot", &Path::closed(&corners), &FINE);
        let room = self.low[0] - 2.0 - TICKS;
        let lines = wrapped(name, room, SMALL).into_iter().map(|line| (line, Cut::Bold));
        let lines: Vec<_> = lines.chain([(unit.to_owned(), Cut::Regular)]).collect();
        let first = f64::midpoint(self.low[1], self.high[1]) - (lines.len() as f64 - 1.0) * LINE / 2.0;
        for (row, (line, cut)) in lines.iter().enumerate() {
            let at = [2.0, first + row as f64 * LINE];
            svg.text("panel", &Text::new(line.clone(), at, SMALL).anchored(Anchor::Start).cut(*cut));
        }
    }

    /// Round values, few enough that their numbers stay apart.
    fn ticks(&self) -> Vec<f64> {
        let [from, to] = self.range;
        let most = ((self.high[1] - self.low[1]) / (SMALL * 1.9)).max(1.0);
        let raw = (to - from) / most;
        let power = 10f64.powf(raw.log10().floor());
        let step = [1.0, 2.0, 5.0, 10.0].into_iter().map(|n| n * power).find(|step| *step >= raw);
        let step = step.unwrap_or(10.0 * power);
        let first = (from / step).ceil();
        (0..=40)
            .map(|i| (first + f64::from(i)) * step)
            .take_while(|value| *value <= to + 1e-9 * step)
            .collect()
    }
}

/// Share of a range that is left free at its ends.
const AIR: f64 = 0.04;
/// Room of the numbers beside a plot, and from line to line of words.
const TICKS: f64 = 8.0;
pub(super) const LINE: f64 = 3.9;

fn tick(value: f64) -> String {
    let text = if value.fract().abs() < 1e-9 { format!("{value:.0}") } else { format!("{value:.1}") };
    if text == "-0" || text == "-0.0" { "0".into() } else { text }
}

/// Small words in lines, from their first line down; where the next would stand.
pub(super) fn told(svg: &mut Svg, class: &str, words: &str, at: P2, width: f64) -> f64 {
    let lines = wrapped(words, width, SMALL);
    for (row, line) in lines.iter().enumerate() {
        let at = [at[0], at[1] + row as f64 * LINE];
        svg.text(class, &Text::new(line.clone(), at, SMALL).anchored(Anchor::Start));
    }
    at[1] + lines.len() as f64 * LINE
}

/// A heading.
pub(super) fn heading(svg: &mut Svg, words: &str, at: P2) {
    svg.text("title", &Text::new(words, at, SMALL * 1.15).anchored(Anchor::Start).cut(Cut::Bold));
}

/// A thin upright line through plots.
pub(super) fn upright(svg: &mut Svg, class: &str, x: f64, [top, bottom]: P2) {
    let pen = Pen { width: 0.12, dash: &[], colour: FAINT };
    svg.stroke(class, &Path::open(&[[x, top], [x, bottom]]), &pen);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_have_round_numbers_that_stay_apart() {
        for (range, height) in [([-28.0, 51.0], 24.0), ([0.0, 0.7], 12.0), ([0.0, 36.4], 18.0)] {
            let plot = Plot { low: [30.0, 0.0], high: [100.0, height], range };
            let ticks = plot.ticks();
            assert!(ticks.len() >= 2 && ticks.iter().all(|t| *t >= range[0] && *t <= range[1]), "{ticks:?}");
            assert!(
                ticks.windows(2).all(|pair| plot.y(pair[0]) - plot.y(pair[1]) > 1.4 * SMALL),
                "{ticks:?}"
            );
        }
    }

    #[test]
    fn values_alike_or_none_still_make_a_scale() {
        for values in [vec![], vec![3.0; 4], vec![f64::NAN]] {
            let plot = Plot::of([0.0; 2], [10.0; 2], values.into_iter());
            assert!(plot.y(plot.range[0]) > plot.y(plot.range[1]));
        }
    }
}
