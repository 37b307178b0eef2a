//! Spare measurements: tape readings beyond what the blocks need.

use measure::Length;

use super::{Side, Span};

/// What a spare tape reading measures.
#[derive(Clone, Debug, PartialEq)]
pub enum ReadingOf {
    /// Length of a wall line.
    Wall {
        /// Block.
        block: String,
        /// Its side.
        side: Side,
    },
    /// Corner to opposite corner of a rectangular block's walls.
    Diagonal {
        /// Block.
        block: String,
    },
    /// Corner of one block to corner of another (or the same), in plan.
    Distance {
        /// Block and number of its corner, from 1 in the order of its first contour (a rectangle's south-west corner
        /// is 1, then counter-clockwise).
        from: (String, usize),
        /// The other end.
        to: (String, usize),
    },
    /// Roof edge of a side above the datum.
    EaveHeight {
        /// Block.
        block: String,
        /// Its side.
        side: Side,
    },
    /// Ridge above the datum.
    RidgeHeight {
        /// Block.
        block: String,
    },
    /// Along the slope, wall line to ridge.
    Rafter {
        /// Block.
        block: String,
        /// The side the rafter rises from.
        side: Side,
    },
}

/// A measurement beyond what the blocks need.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// What was measured.
    pub of: ReadingOf,
    /// The reading.
    pub value: Length,
    /// One standard deviation.
    pub spread: Length,
    /// Where it stands in the document.
    pub span: Span,
}
