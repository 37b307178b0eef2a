//! Quantities of the roofing trade: typed, SI inside, read from and written back to trade notation.
//!
//! What is this number? Each quantity is a type of its own, so that a pitch cannot be added to a length nor a
//! load taken for an air pressure. All hold SI units and convert at the door: by a constructor named for its unit
//! (`Length::from_in`), or from text as the trade writes it.

mod area;
mod flow;
mod length;
mod load;
mod money;
mod pitch;
mod quantity;
mod read;
mod resistance;
mod temperature;
mod trade;
mod unit;
mod write;

pub use area::{Area, Volume};
pub use flow::{Flow, RainRate};
pub use length::Length;
pub use load::{Load, Pressure};
pub use money::Money;
pub use pitch::Pitch;
pub use read::{Cause, ReadError};
pub use resistance::{RValue, UValue};
pub use temperature::{Temperature, TemperatureDifference};
pub use trade::{Fraction, Trade};
pub use write::Written;
