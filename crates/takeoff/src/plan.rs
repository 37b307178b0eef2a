//! What the roof's plane geometry is asked here, and within what an edge counts as level or straight.
//!
//! # Source
//! Limits: those by which the roof calls its edges by their kinds (common practice).

use measure::Area;
use roof::plan::{P2, flat};
use roof::{EdgeId, Roof};

/// Fall along an edge below which it runs across the fall, not up it.
pub(crate) const LEVEL: f64 = 0.02;

/// Sine of the angle between edges that count as one line, 2 degrees.
pub(crate) const STRAIGHT: f64 = 0.035;

/// Ends of an edge in plan.
pub(crate) fn ends(roof: &Roof, edge: EdgeId) -> [P2; 2] {
    roof.ends(edge).map(flat)
}

/// Area of a polygon, whichever way round it runs.
pub(crate) fn area(polygon: &[P2]) -> Area {
    Area::from_m2(roof::plan::area(polygon).abs())
}
