//! Why the ice comes: snow and ice on a roof, hour by hour through the cold season.
//!
//! [`snow`] is one column of snow on whatever lies under it. [`sun`], [`slope`] and [`sky`] are what shines on it; [`weather`] is a year of all that, hour by
//! hour.
//!
//! # Units
//! SI throughout; temperatures in °C where they are numbers, water in kg/m² (as deep as so many millimetres of water).

pub mod calendar;
pub mod design;
pub mod sky;
pub mod slope;
pub mod snow;
pub mod sun;
mod vapour;
pub mod weather;
pub mod year;
