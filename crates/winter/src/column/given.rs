//! What a column lies on, what comes to it in a step, and what it gives back.

use super::ready::Fall;
use crate::snow::Law;
use crate::surface::{Sky, Turbulence};

/// What lies under the snow, and how snow on it is reckoned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Base {
    /// Heat the deck holds, J/(m²·K).
    pub capacity: f64,
    /// From the air below to the middle of the deck, m²·K/W.
    pub inward: f64,
    /// From the middle of the deck to its top, m²·K/W.
    pub outward: f64,
    /// Share of the sun the bare surface takes.
    pub absorbed: f64,
    /// Emissivity of the bare surface.
    pub emissivity: f64,
    /// How air takes heat from it and from the snow on it.
    pub turbulence: Turbulence,
    /// How snow on it is reckoned.
    pub snow: Law,
}

/// What comes to a column in a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weather {
    /// Over it.
    pub sky: Sky,
    /// Air below, °C.
    pub below: f64,
    /// Snow, kg/m² in the step.
    pub snow: f64,
    /// Rain, kg/m² in the step.
    pub rain: f64,
    /// Water that runs in over the deck, kg/m² in the step.
    pub inflow: f64,
    /// Length of the step, s.
    pub seconds: f64,
}

impl Weather {
    pub(super) const fn fall(&self) -> Fall {
        Fall { snow: self.snow, rain: self.rain, seconds: self.seconds }
    }
}

/// What a step gave.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Outcome {
    /// Water that ran out below, kg/m².
    pub runoff: f64,
    /// Ice and snow that melted at the deck, kg/m².
    pub base_melt: f64,
    /// Snow that melted above it, kg/m².
    pub melt: f64,
    /// Water that froze on the deck, kg/m².
    pub base_freeze: f64,
    /// Vapour that left, kg/m².
    pub sublimation: f64,
    /// Heat from the air below, J/m².
    pub from_below: f64,
    /// How that falls with each kelvin below, J/(m²·K).
    pub yielding: f64,
    /// What is left over of all heat in, out and stored, J/m².
    pub heat_error: f64,
    /// And of all water, kg/m².
    pub mass_error: f64,
}
