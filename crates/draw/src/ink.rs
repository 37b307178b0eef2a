//! The drawing language: what a line's weight, pattern and colour say.
//!
//! Lines are told apart by what they do to water, in this order of means: weight, pattern, symbol. There are two
//! colours, and they only support: ink for the building, blue for water and for where it comes together. In
//! grey the blue is a dark grey.

use roof::{EdgeKind, Family};

/// Ink of building and text.
pub(crate) const INK: &str = "#1c1c1c";
/// Water, and lines that gather it.
pub(crate) const WATER: &str = "#1d4a73";
/// What lies below or beside the matter: walls under the roof, dimension lines.
pub(crate) const FAINT: &str = "#5a5a5a";
/// Paper.
pub(crate) const PAPER: &str = "#ffffff";

/// How a line is drawn; millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Pen {
    pub(crate) width: f64,
    /// Lengths of dashes and gaps; empty for a solid line.
    pub(crate) dash: &'static [f64],
    pub(crate) colour: &'static str,
}

impl Pen {
    const fn solid(width: f64, colour: &'static str) -> Self {
        Self { width, dash: &[], colour }
    }
}

/// Wall lines under the roof.
pub(crate) const WALL: Pen = Pen { width: 0.2, dash: &[3.0, 1.2], colour: FAINT };
/// Parts of the roof hidden under another roof.
pub(crate) const HIDDEN: Pen = Pen { width: 0.3, dash: &[0.9, 0.8], colour: INK };
/// Dimension and leader lines.
pub(crate) const DIMENSION: Pen = Pen::solid(0.18, FAINT);
/// Oblique ends of dimension lines, scale bars, north arrow.
pub(crate) const MARK: Pen = Pen::solid(0.35, INK);
/// Outline of an opening that is there now.
pub(crate) const OPENING: Pen = Pen::solid(0.35, INK);
/// Outline of an opening that comes.
pub(crate) const OPENING_NEW: Pen = Pen { width: 0.5, dash: &[1.0, 0.6], colour: INK };
/// Detail inside an opening, borders of tags.
pub(crate) const FINE: Pen = Pen::solid(0.2, INK);
/// Slope arrows.
pub(crate) const ARROW: Pen = Pen::solid(0.4, WATER);
/// Chevrons along lines that water runs in or over.
pub(crate) const CHEVRON: Pen = Pen::solid(0.35, WATER);

/// The line of an edge.
pub(crate) const fn edge_pen(kind: EdgeKind) -> Pen {
    match kind.family() {
        Family::Divides => Pen::solid(0.75, INK),
        Family::Gathers if kind.is_shared() => Pen { width: 0.6, dash: &[3.4, 0.9, 0.7, 0.9], colour: WATER },
        Family::Gathers => Pen::solid(0.45, WATER),
        Family::LetsGo => Pen::solid(0.5, INK),
        Family::Ends => Pen::solid(0.3, INK),
        Family::Passes => Pen { width: 0.35, dash: &[2.2, 1.1], colour: INK },
    }
}
