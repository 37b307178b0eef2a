//! Marks beside wood and layers: the ruler, the fasteners, the arrows of water.

use detail::Span;
use job::Units;

use super::bend::Bend;
use super::{Drawing, LEAST_ARROW, TOWARDS, WOOD};
use crate::ink::{FAINT, MARK, PAPER, Pen, WATER};
use crate::letter::Text;
use crate::place::Tilted;
use crate::svg::{Path, Svg};
use crate::symbol::arrow;
use crate::vector::{P2, between};

/// Where a row of fasteners is drawn: by its end nearest the joint, which is at zero.
fn nearest_the_joint(span: Span) -> f64 {
    const NEAR: f64 = 0.05;
    if span.to <= 0.0 {
        f64::midpoint(span.from.max(span.to - NEAR), span.to)
    } else {
        f64::midpoint(span.from, span.to.min(span.from + NEAR))
    }
}

impl Drawing<'_> {
    /// Ticks from the joint on, the larger ones numbered where there is room beside the `numbers` of other faces.
    pub(super) fn ruler(&self, svg: &mut Svg, face: usize, numbers: &mut Vec<Tilted>) {
        let span = self.section.faces[face].span;
        let is_first = span.to.abs() < 1e-9 && self.section.faces.len() > 1;
        let tick = match self.units {
            Units::Us => 0.0254,
            Units::Si => 0.025,
        };
        let each = self.hand.numbered;
        let mut ticks = Path::default();
        let mut count = 1;
        while f64::from(count) * tick <= span.length() + 1e-9 {
            let away = f64::from(count) * tick;
            let at = if is_first { -away } else { span.from + away };
            let is_long = count % each == 0;
            let end = -WOOD - if is_long { 1.8 } else { 0.9 };
            ticks = ticks.and_open(&[self.bend.at(face, at, -WOOD), self.bend.at(face, at, end)]);
            if is_long {
                let words = match self.units {
                    Units::Us => format!("{count}″"),
                    Units::Si => format!("{}", count * 25),
                };
                let off = -WOOD - 1.8 - self.hand.ruler * 0.88;
                let text = Text::new(words, self.bend.at(face, at, off), self.hand.ruler);
                if !numbers.iter().any(|other| other.meets(&text.room())) {
                    numbers.push(text.room());
                    svg.text("ruler", &text);
                }
            }
            count += 1;
        }
        svg.stroke("ruler", &ticks, &Pen { width: 0.15, dash: &[], colour: FAINT });
    }

    /// A short stroke where layers are fastened, from their outside into the wood.
    pub(super) fn fasteners(&self, svg: &mut Svg, layers: std::ops::Range<usize>) {
        let mut path = Path::default();
        for index in layers {
            for (span, _) in &self.section.sheets[index].fixings {
                let at = nearest_the_joint(*span);
                let Some(stretch) = self.section.stretch_at(at) else { continue };
                let Some(depth) = Bend::depth(self.section, stretch, index) else { continue };
                let face = self.section.stretches[stretch].face;
                path = path
                    .and_open(&[self.bend.at(face, at, depth + 0.8), self.bend.at(face, at, -WOOD * 0.75)]);
            }
        }
        if !path.is_empty() {
            svg.stroke("fastener", &path, &MARK);
        }
    }

    /// Where an arrow of water stands beside a face; none where there is no room for one.
    pub(super) fn arrow_ends(&self, face: usize) -> Option<[P2; 2]> {
        let depth = self.stack + self.hand.arrow_off;
        // round an inside corner the arrow keeps clear of the other face's tags
        let free = self.bend.free_of_corners(face, depth);
        if free.length() * self.bend.mm_per_m < LEAST_ARROW {
            return None;
        }
        let middle = f64::midpoint(free.from, free.to);
        let half = (5.0 / self.bend.mm_per_m).min(free.length() * 0.3);
        Some([middle - half, middle + half].map(|at| self.bend.at(face, at, depth)))
    }

    /// Arrows the way water runs, outside everything; a ring with a dot where it runs towards the reader.
    pub(super) fn water(&self, svg: &mut Svg) {
        for (face, laid) in self.section.faces.iter().enumerate() {
            let Some(ends) = self.arrow_ends(face) else { continue };
            match laid.face.falls {
                book::Falls::On => arrow(svg, ends),
                book::Falls::Back => arrow(svg, [ends[1], ends[0]]),
                book::Falls::Along => {
                    let at = between(ends[0], ends[1], 0.5);
                    let pen = Pen { width: 0.4, dash: &[], colour: WATER };
                    svg.shape("towards", &Path::circle(at, TOWARDS), PAPER, &pen);
                    svg.fill("towards", &Path::circle(at, 0.5), WATER);
                }
            }
        }
    }
}
