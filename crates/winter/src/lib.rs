//! Why the ice comes: snow and ice on a roof, hour by hour through the cold season.
//!
//! [`column`] is snow, ice and water over one place of a deck or of the ground.
//!
//! # Units
//! SI throughout; temperatures in °C where they are numbers, water in kg/m² (as deep as so many millimetres of water).

mod chain;
pub mod column;
pub mod dam;
pub mod house_air;
pub mod season;
pub mod shape;
pub mod snow;
pub mod surface;
