//! Air between rooms, attics and outdoors.
//!
//! A [`Network`] is zones of one temperature each, joined to one another and to outdoors by [`Opening`]s at a height. Air in a column weighs by its
//! temperature, so that pressure differs with height (stack); wind adds a pressure at each opening outdoors. What goes through an opening follows the
//! power law Q = C·Δp^n. Pressures of the zones are those at which each zone's air balances.
//!
//! # Method
//! What a zone takes in falls strictly with its pressure, and the sum of all is the slope of a convex function: Newton's steps, shortened until that
//! function falls, reach the one solution from anywhere. Below a ten-thousandth of a pascal the law is a straight line, so that slopes stay finite.
//!
//! # Checks
//! outside: a two-zone network solved with a general-purpose library (`tests/air.rs`) · conservation: air into each zone is air out of it · closed
//! form: the neutral level of two openings

mod balance;
mod leak;
mod network;

pub use balance::Balancer;
pub use leak::{Leak, LeakError, series};
pub use network::{AirError, Fan, Flows, Network, Opening, Outdoors, Zone};

/// Gas constant of dry air, J/(kg·K) (ASHRAE Handbook Fundamentals, chapter 1; from memory).
pub const GAS_CONSTANT: f64 = 287.042;
/// Specific heat of dry air, J/(kg·K) (as above).
pub const SPECIFIC_HEAT: f64 = 1006.0;
/// Fall of bodies, m/s² (exact by convention).
pub const GRAVITY: f64 = 9.80665;

/// Density of dry air, kg/m³, at Pa and °C.
pub fn density(pressure: f64, temperature: f64) -> f64 {
    pressure / (GAS_CONSTANT * (temperature + 273.15))
}

/// Pressure of the air at a height above the sea, Pa; from 500 m below it to 11 000 m above (ASHRAE Handbook Fundamentals, chapter 1, equation 3; from
/// memory).
pub fn station_pressure(height: f64) -> f64 {
    101_325.0 * (1.0 - 2.255_77e-5 * height).powf(5.2559)
}
