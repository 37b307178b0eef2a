//! Where the heat goes: through assemblies and round their corners, and with the air that leaks and vents; and the water that goes with it.
//!
//! [`Assembly`] turns layers and framing into one resistance, with the bounds between which the true one lies; [`Taper`] does so where insulation
//! runs out under a sloping deck. [`conduct`] solves two-dimensional steady conduction where bounds do not do. [`air`] is the network of pressures
//! between house, attics and outdoors that decides how much air goes where. [`moist`] follows the vapor air carries to where it condenses, freezes and lets mold
//! grow. [`attic`] and [`energy`] hold closed forms for quick answers and checks: air that keeps a roof cold, what is saved, how many bags.
//!
//! # Units
//! SI throughout: m, m²·K/W, W, Pa, m³/s, kg/s, °C where a temperature is a number. Heat is positive into a body.
//!
//! # Checks
//! outside: ISO 10211 cases 1 and 2, handbook examples of assemblies and leakage (each beside its source in `tests/`) · conservation: heat and air
//! that come in go out · property: bounds of ISO 6946 enclose the plane solution

pub mod air;
mod assembly;
pub mod attic;
pub mod conduct;
pub mod energy;
mod film;
pub mod moist;
mod taper;
mod worsened;

pub use assembly::{Across, Assembly, AssemblyError, Bounds, Layer, beside};
pub use film::{black_body, film};
pub use taper::{Taper, TaperError};
pub use worsened::{convecting, with_voids};
