//! What an opening lets through.

use measure::{Area, Flow, Pressure};
use thiserror::Error;

/// Pressure at which houses are measured, Pa.
const MEASURED_AT: f64 = 50.0;

/// An opening or a sum of cracks: Q = C·Δp^n (ASHRAE Handbook Fundamentals, chapter 16).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leak {
    /// Flow at 1 Pa, m³/s.
    pub coefficient: f64,
    /// 0.5 for openings, 1 for the finest cracks, 0.65 for a house.
    pub exponent: f64,
}

/// Why readings are no leak.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
pub enum LeakError {
    /// An exponent the power law cannot have.
    #[error("the readings give an exponent of {0:.2}; leaks have 0.5 to 1: measure again")]
    Exponent(f64),
    /// Readings that are not two.
    #[error("two readings at different pressures, both above nothing, are asked")]
    Readings,
}

impl Leak {
    /// One that lets nothing through.
    pub const NONE: Self = Self { coefficient: 0.0, exponent: 0.65 };
    /// Of houses without a reading of their own (ASHRAE Handbook Fundamentals, chapter 16; from memory).
    pub const USUAL_EXPONENT: f64 = 0.65;

    /// From the flow measured at 50 Pa, with the exponent usual for houses.
    pub fn at_50_pa(flow: Flow) -> Self {
        Self::at(flow, Pressure::from_pa(MEASURED_AT), Self::USUAL_EXPONENT)
    }

    /// From a flow at a pressure.
    pub fn at(flow: Flow, pressure: Pressure, exponent: f64) -> Self {
        Self { coefficient: flow.m3_s() / pressure.pa().powf(exponent), exponent }
    }

    /// From flows at two pressures: n = ln(Q₁/Q₂)/ln(p₁/p₂).
    ///
    /// # Errors
    /// Readings that are not two, an exponent outside 0.5 to 1.
    pub fn of_two([(flow, pressure), (other, lower)]: [(Flow, Pressure); 2]) -> Result<Self, LeakError> {
        let ratios = [flow.m3_s() / other.m3_s(), pressure.pa() / lower.pa()];
        let sound = ratios.iter().all(|ratio| *ratio > 0.0 && ratio.is_finite());
        let exponent = ratios[0].ln() / ratios[1].ln();
        if !sound || !exponent.is_finite() {
            return Err(LeakError::Readings);
        }
        if !(0.5..=1.0).contains(&exponent) {
            return Err(LeakError::Exponent(exponent));
        }
        Ok(Self::at(flow, pressure, exponent))
    }

    /// An opening of a net free area: Q = C·A·√(2Δp/ρ), where C, `discharge`, is 0.6 for a sharp edge.
    pub fn opening(area: Area, discharge: f64, density: f64) -> Self {
        Self { coefficient: discharge * area.m2() * (2.0 / density).sqrt(), exponent: 0.5 }
    }

    /// Flow at a pressure, m³/s, with its sign.
    pub fn flow(&self, pressure: f64) -> f64 {
        self.coefficient * pressure.abs().powf(self.exponent).copysign(pressure)
    }

    /// So much of it.
    #[must_use]
    pub fn times(self, share: f64) -> Self {
        Self { coefficient: self.coefficient * share, ..self }
    }

    /// Area of a sharp-edged opening that lets the same through at 4 Pa with a discharge of 1 (ASTM E779), at a density of air.
    pub fn effective_area(&self, density: f64) -> Area {
        const AT: f64 = 4.0;
        Area::from_m2(self.flow(AT) * (density / (2.0 * AT)).sqrt())
    }
}

/// Effective area of openings that air goes through one after another: 1/A² = Σ1/A². None where one is shut.
pub fn series(areas: impl IntoIterator<Item = Area>) -> Option<Area> {
    let sum: f64 = areas.into_iter().map(|area| area.m2().powi(-2)).sum();
    let area = sum.sqrt().recip();
    (area > 0.0 && area.is_finite()).then(|| Area::from_m2(area))
}
