//! Streams and arrows as shapes on paper.

use crate::ink::{Pen, WATER};
use crate::place::Tilted;
use crate::svg::{Path, Svg};
use crate::vector::{P2, along, between, distance, quarter, sub, unit};

/// Tone inside streams: light enough for lines and numbers over it, dark enough on a poor print.
pub(crate) const TONE: &str = "#b4c7d9";
/// Their borders.
pub(crate) const BANK: Pen = Pen { width: 0.25, dash: &[], colour: WATER };
/// How much wider than its stream the head of an arrow is, to each side.
const BARB: f64 = 0.9;

/// A shape as wide at each even place between its ends as much flows there, with a head where it comes out.
#[derive(Clone, Debug)]
pub(crate) struct Stream {
    pub(crate) ends: [P2; 2],
    pub(crate) widths: Vec<f64>,
}

impl Stream {
    /// Of one width.
    pub(crate) fn even(ends: [P2; 2], width: f64) -> Self {
        Self { ends, widths: vec![width; 2] }
    }

    fn widest(&self) -> f64 {
        self.widths.iter().copied().fold(0.0, f64::max)
    }

    /// The room it takes.
    pub(crate) fn room(&self) -> Tilted {
        let line = Tilted::around(self.ends, 0.0);
        Tilted { half: [line.half[0], self.widest() / 2.0 + BARB], ..line }
    }

    pub(crate) fn draw(&self, svg: &mut Svg, class: &str) {
        if let Some(outline) = self.outline() {
            svg.shape(class, &Path::closed(&outline), TONE, &BANK);
        }
    }

    fn outline(&self) -> Option<Vec<P2>> {
        let [from, to] = self.ends;
        let d = unit(sub(to, from))?;
        let last = *self.widths.last()?;
        let head = (1.2 + last * 0.6).min(distance(from, to) * 0.6);
        let neck = along(to, d, -head);
        let steps = self.widths.len().max(2) - 1;
        let beside = |i: usize, side: f64| {
            let share = i as f64 / steps as f64;
            along(
                between(from, neck, share),
                quarter(d),
                side * self.widths[i.min(self.widths.len() - 1)] / 2.0,
            )
        };
        let barb = |side: f64| along(neck, quarter(d), side * (last / 2.0 + BARB));
        let there = (0..=steps).map(|i| beside(i, 1.0));
        let back = (0..=steps).rev().map(|i| beside(i, -1.0));
        Some(there.chain([barb(1.0), to, barb(-1.0)]).chain(back).collect())
    }
}
