//! Marks of the water plan: gutter, downspout, ring, the way of a drop.

use super::stream::{BANK, Stream};
use crate::ink::{FINE, INK, PAPER, Pen, WATER};
use crate::svg::{Path, Svg};
use crate::vector::{P2, between};

/// What a legend shows a sample of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Mark {
    /// A stream so wide.
    Stream(f64),
    Gutter,
    Spout,
    Ring {
        is_broken: bool,
    },
    Drop,
}

/// Radius of a ring round a trouble.
pub(super) const RING: f64 = 3.0;
/// Half a downspout.
pub(super) const SPOUT: f64 = 1.3;

impl Mark {
    /// Between the ends of a sample.
    pub(crate) fn draw(self, svg: &mut Svg, ends: [P2; 2]) {
        let middle = between(ends[0], ends[1], 0.5);
        match self {
            Self::Stream(width) => Stream::even(ends, width).draw(svg, "stream"),
            Self::Gutter => gutter(svg, &ends.map(|p| [p[0], p[1] - 0.9]), &ends.map(|p| [p[0], p[1] + 0.9])),
            Self::Spout => spout(svg, middle),
            Self::Ring { is_broken } => ring(svg, middle, 2.0, is_broken),
            Self::Drop => drop_way(svg, &[ends]),
        }
    }
}

/// A channel between two lines.
pub(super) fn gutter(svg: &mut Svg, near: &[P2; 2], far: &[P2; 2]) {
    svg.shape("gutter", &Path::closed(&[near[0], near[1], far[1], far[0]]), PAPER, &FINE);
}

pub(super) fn spout(svg: &mut Svg, at: P2) {
    svg.shape("spout", &Path::circle(at, SPOUT), PAPER, &Pen { width: 0.5, ..BANK });
    svg.fill("spout", &Path::circle(at, 0.55), WATER);
}

pub(super) fn ring(svg: &mut Svg, at: P2, radius: f64, is_broken: bool) {
    let dash: &[f64] = if is_broken { &[1.7, 1.0] } else { &[] };
    svg.stroke("trouble", &Path::circle(at, radius), &Pen { width: 0.75, dash, colour: INK });
}

/// Dots along a way, a drop where it starts.
pub(super) fn drop_way(svg: &mut Svg, way: &[[P2; 2]]) {
    let Some(start) = way.first().map(|part| part[0]) else { return };
    let path = way.iter().fold(Path::default(), |path, part| path.and_open(part));
    svg.stroke("drop-way", &path, &Pen { width: 0.55, dash: &[0.6, 0.9], colour: INK });
    svg.shape("drop", &Path::circle(start, 0.8), INK, &Pen { width: 0.3, dash: &[], colour: PAPER });
}
