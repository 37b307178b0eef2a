//! What the roof's plane geometry is asked here.

use measure::Area;
use roof::plan::{P2, flat};
use roof::{EdgeId, Roof};

/// Ends of an edge in plan.
pub(crate) fn ends(roof: &Roof, edge: EdgeId) -> [P2; 2] {
    roof.ends(edge).map(flat)
}

/// Area of a polygon, whichever way round it runs.
pub(crate) fn area(polygon: &[P2]) -> Area {
    Area::from_m2(roof::plan::area(polygon).abs())
}
