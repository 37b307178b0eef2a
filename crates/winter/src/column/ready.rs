//! A step of a column, drawn up once and tried with what may come from below and from up the slope.

use super::{Base, Outcome};
use crate::chain::{MOST, Node, Row, Step};
use crate::snow::FUSION;
use crate::surface::{Line, Surface, Turbulence};

/// Passes of Newton's method over the surface.
const PASSES: usize = 8;
/// Change of the surface that ends them, K: where the line takes in all that bends, Newton's method squares what it misses by, and what it misses by after
/// such a step is less than 1e-4 K; where it does not, that is asked for.
const STILL: f64 = 0.02;
const STILL_IN_LAYER: f64 = 1e-4;

/// What falls in a step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Fall {
    /// Snow, kg/m².
    pub(crate) snow: f64,
    /// Rain, kg/m².
    pub(crate) rain: f64,
    /// Length of the step, s.
    pub(crate) seconds: f64,
}

/// A step drawn up, as far as it does not hang on heat from below and water from up the slope.
#[derive(Clone, Debug, Default)]
pub(crate) struct Ready {
    /// Held before the step, J/m² and kg/m².
    pub(super) heat: f64,
    pub(super) mass: f64,
    /// Heat that snow brought, J/m².
    pub(super) brought: f64,
    /// Water over the deck, kg/m².
    pub(super) water: f64,
    pub(super) surface: Surface,
    /// Sun through the snow onto the deck, W/m².
    pub(super) sun_below: f64,
    pub(super) nodes: [Node; MOST],
    /// Nodes there are.
    pub(super) count: usize,
    /// Surface from which the search begins: the one found last, °C.
    pub(super) at: f64,
    pub(super) fall: Fall,
    /// Whether it was tried; the row, its line over it and where that touches, °C, are then those of the last try.
    pub(super) is_tried: bool,
    row: Row,
    line: Line,
    touches: f64,
}

impl Ready {
    /// Temperatures at the end of the step, the surface by Newton's method; one pass of it where rough will do. From the row of the try before where that holds.
    pub(super) fn solved(&mut self, base: &Base, below: f64, water: f64, is_rough: bool) -> Solved {
        let below = (below, base.inward.recip());
        let most_freeze = FUSION / self.fall.seconds * water;
        let may_stay = self.is_tried && self.nodes[1].most_freeze.to_bits() == most_freeze.to_bits();
        self.nodes[1].most_freeze = most_freeze;
        if may_stay && let Some(solved) = self.again(below) {
            return solved;
        }
        self.is_tried = true;
        self.anew(below, if is_rough { 1 } else { PASSES })
    }

    /// By the row and the line of the try before, where phases stay and the surface stays near where that line touches.
    fn again(&mut self, below: (f64, f64)) -> Option<Solved> {
        let found = self.row.again(&self.nodes[..self.count], below, self.line.level)?;
        self.at = found.temperatures[self.count - 1];
        self.is_still().then(|| Solved { found, vapour: self.line.vapour(self.at), is_rough: false })
    }

    fn anew(&mut self, below: (f64, f64), passes: usize) -> Solved {
        let mut pass = 0;
        loop {
            self.touches = self.at;
            self.line = self.surface.line(self.at);
            self.nodes[self.count - 1].upward = self.line.conductance;
            let found = self.row.step(&self.nodes[..self.count], below, self.line.level);
            self.at = found.temperatures[self.count - 1];
            pass += 1;
            let is_still = self.is_still();
            if is_still || pass == passes {
                return Solved { found, vapour: self.line.vapour(self.at), is_rough: !is_still };
            }
        }
    }

    /// Whether the surface is as good as where its line touches.
    fn is_still(&self) -> bool {
        let still = match self.surface.turbulence {
            Turbulence::Film { .. } => STILL,
            Turbulence::Layer { .. } => STILL_IN_LAYER,
        };
        (self.at - self.touches).abs() < still
    }
}

/// What a step was solved to.
#[derive(Clone, Copy, Debug)]
pub(super) struct Solved {
    pub(super) found: Step,
    /// Vapour that leaves, kg/(m²·s).
    pub(super) vapour: f64,
    /// Whether the surface is not yet where its line touches.
    pub(super) is_rough: bool,
}

/// What a step tried gave, its ledger not closed.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Trial {
    pub(crate) outcome: Outcome,
    /// What it was tried with.
    pub(super) below: f64,
    pub(super) inflow: f64,
    /// Heat to what is over the surface, W/m².
    pub(super) to_above: f64,
    /// Vapour that leaves, kg/(m²·s).
    pub(super) vapour: f64,
    /// Whether its surface is to be sought further.
    pub(crate) is_rough: bool,
}

impl Trial {
    /// Whether it was tried to the end with just that.
    pub(crate) fn is_of(&self, below: f64, inflow: f64) -> bool {
        !self.is_rough && self.below.to_bits() == below.to_bits() && self.inflow.to_bits() == inflow.to_bits()
    }
}
