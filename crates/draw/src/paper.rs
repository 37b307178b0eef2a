//! From the screen to paper: a scale and a place.

use crate::polygon::Bounds;
use crate::vector::{P2, add, along, scale, sub};

/// Where the screen's origin stands on paper, and how large a metre is there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Paper {
    origin: P2,
    mm_per_m: f64,
}

impl Paper {
    /// The screen's origin in the corner of the sheet.
    pub(crate) const fn at_corner(mm_per_m: f64) -> Self {
        Self { origin: [0.0, 0.0], mm_per_m }
    }

    /// The same scale, moved so that `bounds` (as they lie now) are centred on `middle`.
    pub(crate) fn centred(self, bounds: &Bounds, middle: P2) -> Self {
        Self { origin: along(add(self.origin, middle), bounds.at([0.5, 0.5]), -1.0), ..self }
    }

    /// A point of the screen, metres, y up, on paper, millimetres, y down.
    pub(crate) fn at(&self, screen: P2) -> P2 {
        add(self.origin, Self::direction(scale(screen, self.mm_per_m)))
    }

    /// The inverse of [`Self::at`].
    pub(crate) fn screen(&self, mm: P2) -> P2 {
        scale(Self::direction(sub(mm, self.origin)), 1.0 / self.mm_per_m)
    }

    /// A direction of the screen on paper.
    pub(crate) const fn direction(screen: P2) -> P2 {
        [screen[0], -screen[1]]
    }

    pub(crate) fn bounds(&self, screen: &Bounds) -> Bounds {
        Bounds::of([self.at(screen.low), self.at(screen.high)])
    }
}
