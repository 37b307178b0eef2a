//! What a house needs, loses and saves: degree days, savings in fuel and money, air by need and by leaks, insulation by the bag.
//!
//! Closed forms, for checks and for papers; the hourly balance goes before them where it has been run.
//!
//! # Checks
//! closed form, each beside its source in `tests/energy.rs` · property: what is saved rises with what is put in and never passes what was lost

mod degree;
mod fill;
mod heel;
mod leaky;
mod saving;
mod ventilate;

pub use degree::{MonthlyMean, balance_point, cooling, heating, of_extremes, usual_base, yearly_spread};
pub use fill::{Blown, Fill, Foam, board_feet};
pub use heel::Heel;
pub use leaky::{Driving, LeakyError, LeakyHouse, leak_area};
pub use saving::{Cut, Promise, Saving, Spreads, Surface, of_trade};
pub use ventilate::{Credit, drawn_too_far, driven, infiltration, normalized_leakage, ventilation_need};
