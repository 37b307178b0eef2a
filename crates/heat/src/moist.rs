//! Water in air, in layers and in wood.
//!
//! [`MoistAir`] is air with vapor in it. [`Wall`] condenses vapor that goes through layers month by month (ISO 13788), [`dampen`] moves vapor that air
//! carries up onto a cold deck, where it freezes or goes into the wood. [`Mold`] is what grows where it stays damp; [`wood_moisture`] what wood comes to.
//!
//! # Checks
//! outside: a psychrometric library (`tests/moist.rs`), mold and wood by their published constants · conservation: vapor into the attic is vapor out of it
//! and frost · property: condensation only where vapor pressure would pass saturation

mod air;
mod damp;
mod foam;
mod mold;
mod wall;
mod wood;
mod year;

pub(crate) use air::between;
pub use air::{MoistAir, iso_dew_point, iso_saturation, saturation, saturation_over_water};
pub use damp::{At, HANGS, Moved, Store, Wet, dampen, exchange};
pub use foam::AirtightPart;
pub use mold::{Mold, critical_humidity};
pub use wall::{Condensing, Month, Sheet, Wall, WallError, least_surface, surface_factor};
pub use wood::{WoodLimits, WoodState, humidity_over, wood_moisture};
pub use year::{Held, Year, indoor_pressure};
