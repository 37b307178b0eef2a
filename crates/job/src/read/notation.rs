//! The ways values are written: words, quantities, lists, tables by name, and figures that may be unknown.

mod list;
mod number;
mod places;
mod quantity;
mod reach;
mod sided;
mod slope;
mod survey;
mod text;
mod words;
mod written;

pub(crate) use list::{List, Many, Map, Pair};
pub(crate) use number::{Count, Flag, Number, whole};
pub(crate) use places::{BlockCorner, BlockName, BlockSide, PLANE_ENDING, PlaneOf};
pub(crate) use quantity::Quantity;
pub(crate) use reach::{Overhangs, Reach, Reaches};
pub(crate) use sided::{BySide, SideName, Sided};
pub(crate) use slope::SlopeWord;
pub(crate) use survey::{Defaulted, Known, Survey};
pub(crate) use text::{At, Day, LONGEST_NAME, Marked, Name, Text, YEARS, bad_name, is_name};
pub(crate) use words::Words;
pub(crate) use written::{AreaPerLength, Degrees, FUEL_UNITS, Gust, Leakage, Unread, Written};
