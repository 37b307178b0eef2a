//! Where the heat of a house goes, by its survey and its plan, without a year of weather.
//!
//! Findings come with every study: a heel without room for insulation (`heel`), bays that share a plane with an attic or are too shallow (`bays`).
//! `kind` tells which insulation of the books the job means.

mod bays;
mod desk;
mod heel;
mod kind;

use book::{Book, LookupError};
use job::{Job, Lumber, Problem};
use measure::Length;
use roof::Roof;
use takeoff::Takeoff;

use desk::Desk;

/// Films on both sides of a ceiling and its gypsum, still air, heat going up, h·ft²·°F/Btu: 0.61 twice and 0.45 (ASHRAE Handbook Fundamentals, chapter 26,
/// from memory).
pub(crate) const CEILING: f64 = 0.61 + 0.61 + 0.45;

/// What a person should look at before insulation is bought.
pub(crate) fn warnings(
    of: (&Job, &Book),
    roof: &Roof,
    takeoff: &Takeoff,
) -> Result<Vec<Problem>, LookupError> {
    let desk = Desk::of(of, roof, takeoff)?;
    Ok([heel::warnings(&desk)?, bays::warnings(&desk)?].concat())
}

/// Depth of lumber as it is sold, of its nominal one: a half inch less up to 6 in, three quarters from 8 in on (American Softwood Lumber Standard PS 20, from
/// memory).
pub(crate) fn dressed(size: Lumber) -> Length {
    let nominal = f64::from(size.depth);
    Length::from_in(if nominal < 8.0 { nominal - 0.5 } else { nominal - 0.75 })
}
