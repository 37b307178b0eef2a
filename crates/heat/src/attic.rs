//! Air that keeps an attic or a rafter bay cold: closed forms and small balances, to check the hourly one by.
//!
//! # Sources
//! A design temperature outdoors of 22 °F, below which outdoor air cools ever better and above which icings seldom grow: Tobiasson, Buska and Greatorex,
//! guidelines for ventilating attics and cathedral ceilings to avoid icings at their eaves (abstract seen). An attic no warmer than 30 °F then: the same,
//! from memory. What air that takes is worked out here from first principles; their charts were not read.
//!
//! # Checks
//! closed form: the exponential along a bay, friction between plates · outside: a general-purpose solver (`tests/attic.rs`) · property: deeper bays, thicker
//! insulation and steeper slopes leave colder air

mod bay;
mod vented;

pub use bay::{Bay, BayAir, BayError, friction, hydraulic_diameter, way};
pub use vented::{Vented, airflow_to_hold, opening_for};

use measure::Temperature;

/// Outdoors, the temperature vents are sized at.
pub const DESIGN_OUTDOORS: Temperature = Temperature::from_f(22.0);
/// The warmest an attic may be then.
pub const WARMEST_ATTIC: Temperature = Temperature::from_f(30.0);
