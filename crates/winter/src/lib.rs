//! Why the ice comes: snow and ice on a roof, hour by hour through the cold season.
//!
//! [`sun`], [`slope`] and [`sky`] are what shines on a roof; [`weather`] is a year of all that, hour by hour, [`mod@year`] one made from monthly normals. [`shape`]
//! cuts a measured roof into strips; [`mod@column`] is snow, ice and water over one of them; [`season`] takes all strips and the attics under them
//! through the hours, with the air that [`house_air`] moves; [`slide`] is snow that slides and drifts. [`dam`] is what the ice at an eave holds back.
//!
//! # Units
//! SI throughout; temperatures in °C where they are numbers, water in kg/m² (as deep as so many millimetres of water).

pub mod calendar;
mod chain;
pub mod column;
pub mod dam;
pub mod design;
pub mod house_air;
pub mod season;
pub mod shape;
pub mod sky;
pub mod slide;
pub mod slope;
pub mod snow;
pub mod sun;
pub mod surface;
mod vapour;
pub mod weather;
pub mod year;
