//! What goes through wood and layers: its sides upright, its hood over it, its name at its top.

use super::Drawing;
use crate::ink::{INK, PAPER, Pen};
use crate::svg::{Path, Svg};
use crate::vector::P2;

const SIDE: Pen = Pen { width: 0.45, dash: &[], colour: INK };
const HOOD: Pen = Pen { width: 0.9, dash: &[], colour: INK };
/// How far a hood's rim hangs, mm.
const RIM: f64 = 2.0;

impl Drawing<'_> {
    /// Its outline: two sides, and the hood.
    pub(super) fn through(&self, svg: &mut Svg) {
        let Some([sides, hood]) = self.through_lines() else { return };
        // the wood it goes through is cut out
        svg.fill("hole", &Path::closed(&sides), PAPER);
        svg.stroke("through", &Path::open(&sides[..2]).and_open(&sides[2..]), &SIDE);
        if !hood.is_empty() {
            svg.stroke("through", &Path::open(&hood), &HOOD);
        }
    }

    /// Its sides, the high one from its foot up, the low one from its top down; and its hood, which may be none.
    pub(super) fn through_lines(&self) -> Option<[Vec<P2>; 2]> {
        let (hole, [a, b]) = self.bend.hole.zip(self.bend.sides())?;
        let top = a[1].min(b[1]) - hole.high;
        let foot = |at: P2| if hole.below > 0.0 { a[1].max(b[1]) + hole.below } else { at[1] + super::WOOD };
        let sides = vec![[a[0], foot(a)], [a[0], top], [b[0], top], [b[0], foot(b)]];
        let over = hole.hood.map(|hood| {
            let wider = (hood - hole.wide) / 2.0;
            let (left, right) = (a[0] - wider, b[0] + wider);
            vec![[left, top + RIM], [left, top], [right, top], [right, top + RIM]]
        });
        Some([sides, over.unwrap_or_default()])
    }
}
