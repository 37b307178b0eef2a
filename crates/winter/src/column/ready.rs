//! A step of a column, drawn up once and tried with what may come from below and from up the slope.

use super::{Base, Outcome};
use crate::chain::{MOST, Node, Step, step};
use crate::snow::FUSION;
use crate::surface::{Surface, Turbulence};

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
}

impl Ready {
    /// Temperatures at the end of the step, the surface by Newton's method.
    pub(super) fn solved(&mut self, base: &Base, below: f64, water: f64) -> Solved {
        let Self { surface, nodes, count, at, fall, .. } = self;
        let below = (below, base.inward.recip());
        let still = match surface.turbulence {
            Turbulence::Film { .. } => STILL,
            Turbulence::Layer { .. } => STILL_IN_LAYER,
        };
        nodes[1].most_freeze = FUSION / fall.seconds * water;
        let mut pass = 0;
        loop {
            let line = surface.line(*at);
            nodes[*count - 1].upward = line.conductance;
            let found = step(&nodes[..*count], below, line.level);
            let next = found.temperatures[*count - 1];
            let is_still = (next - *at).abs() < still;
            *at = next;
            pass += 1;
            if is_still || pass == PASSES {
                return Solved { found, vapour: line.vapour(next) };
            }
        }
    }
}

/// What a step was solved to.
#[derive(Clone, Copy, Debug)]
pub(super) struct Solved {
    pub(super) found: Step,
    /// Vapour that leaves, kg/(m²·s).
    pub(super) vapour: f64,
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
}

impl Trial {
    /// Whether it was tried with just that.
    pub(crate) fn is_of(&self, below: f64, inflow: f64) -> bool {
        self.below.to_bits() == below.to_bits() && self.inflow.to_bits() == inflow.to_bits()
    }
}
