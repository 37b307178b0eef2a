//! What the roof's plane geometry is asked here.

use measure::Area;
use roof::plan::P2;
use roof::{EdgeId, Point3, Roof};

pub(crate) fn flat(p: Point3) -> P2 {
    [p[0], p[1]]
}

/// Ends of an edge in plan.
pub(crate) fn ends(roof: &Roof, edge: EdgeId) -> [P2; 2] {
    roof.ends(edge).map(flat)
}

/// Area of a polygon, whichever way round it runs.
pub(crate) fn area(polygon: &[P2]) -> Area {
    Area::from_m2(roof::plan::area(polygon).abs())
}
