//! What judging gutters takes, and areas as driven rain counts them.

use book::{Book, LookupError};
use measure::{Area, RainRate};
use roof::{PlaneId, Roof};

use crate::flow::Water;
use crate::wall::WallWater;

/// A roof with its water and that of its walls, the rain on it, and the books.
pub(crate) struct Desk<'a> {
    pub(crate) roof: &'a Roof,
    pub(crate) water: &'a Water,
    pub(crate) walls: &'a WallWater,
    pub(crate) rain: RainRate,
    pub(crate) book: &'a Book,
}

impl Desk<'_> {
    /// Area by the plane it fell on, each counted as often as its pitch asks.
    pub(crate) fn counted(&self, sources: &[(PlaneId, Area)]) -> Result<Area, LookupError> {
        let one = |(plane, area): &(PlaneId, Area)| {
            Ok(*area * self.book.rain_factor(self.roof.plane(*plane).pitch)?.factor)
        };
        sources.iter().map(one).sum()
    }
}
