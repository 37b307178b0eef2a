//! What a season is given: a roof in strips over its attics, and the weather of a step.

use crate::column::Base;
use crate::slide::Moves;
use crate::surface::Sky;

/// What lies under a strip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Below {
    /// The air of an attic, by its number.
    Attic(usize),
    /// Air outdoors, as under an overhang.
    Outdoors,
}

/// A strip across a plane, or along a valley.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// The plane it lies in, by its number.
    pub plane: usize,
    /// Area on the slope, m².
    pub area: f64,
    /// What lies under it.
    pub below: Below,
    /// Deck and covering.
    pub base: Base,
    /// Snow on a m² of it for each kg/m² that falls on open ground: by the slope and the wind.
    pub catch: f64,
    /// Strips after it in order into which its water runs, each with its share; the rest leaves the roof.
    pub to: Vec<(usize, f64)>,
}

/// How a plane lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Aspect {
    /// Cosine of its slope.
    pub cosine: f64,
}

/// An attic.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Attic {
    /// Heat through ceiling and walls to the rooms for each kelvin, W/K.
    pub to_rooms: f64,
    /// Heat through gables straight to the air outdoors, W/K.
    pub to_outdoors: f64,
    /// Heat its air holds, J/K; may be 0.
    pub capacity: f64,
}

/// A roof over its attics.
#[derive(Clone, Debug, PartialEq)]
pub struct House {
    /// Strips, those uphill before those their water runs into.
    pub strips: Vec<Strip>,
    /// Planes, by number.
    pub planes: Vec<Aspect>,
    /// Attics, by number.
    pub attics: Vec<Attic>,
    /// Snow that slides and drifts.
    pub moves: Moves,
}

/// Weather of a step over the whole roof.
#[derive(Clone, Debug, PartialEq)]
pub struct Hour {
    /// Over a level surface; its sun is not used.
    pub sky: Sky,
    /// Air of the rooms, °C.
    pub rooms: f64,
    /// Sun on each plane, W/m².
    pub sun: Vec<f64>,
    /// Snow on open ground, kg/m².
    pub snow: f64,
    /// Rain on open ground, kg/m².
    pub rain: f64,
    /// Where the wind comes from, degrees clockwise from north, where it is known.
    pub wind_from: Option<f64>,
    /// Length, s.
    pub seconds: f64,
}
