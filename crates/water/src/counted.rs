//! Areas as driven rain counts them.

use book::{Book, LookupError};
use measure::Area;
use roof::{PlaneId, Roof};

/// Area by the plane it fell on, each counted as often as its pitch asks.
pub(crate) fn counted(roof: &Roof, book: &Book, sources: &[(PlaneId, Area)]) -> Result<Area, LookupError> {
    let one =
        |(plane, area): &(PlaneId, Area)| Ok(*area * book.rain_factor(roof.plane(*plane).pitch)?.factor);
    sources.iter().map(one).sum()
}
