//! Results as JSON that programs rely on.
//!
//! Every document carries `"version": 1`. Fields may be added; a field is never renamed or given another meaning without
//! raising the version. Units stand in the names: `_m` metres, `_m2` square metres, `_deg` degrees, `_m3_s` cubic metres a second. Core types are turned
//! into wire types by hand here, so that they can change without changing what programs read.
//!
//! [`weather`] reads files of weather services.

mod code_json;
mod detail_json;
mod heat_json;
mod hours;
mod number;
mod problems;
mod roof_json;
mod takeoff_json;
mod water_json;
pub mod weather;
mod winter_json;

pub use code_json::code;
pub use detail_json::details;
pub use heat_json::heat;
pub use hours::hours;
pub use problems::problems;
pub use roof_json::roof;
pub use takeoff_json::takeoff;
pub use water_json::{path, water};
pub use winter_json::winter;

/// Version of every document.
const VERSION: u32 = 1;
