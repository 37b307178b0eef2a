//! Sheets: the pieces of roof surface that, with the solid under them, make up the house.
//!
//! A sheet is a polygon in plan, a plane over it, and how far down from the plane the house is solid: to the ground (or the
//! block's underside) over the walls, to the soffit over the overhangs. The house is the union of these solids, not a height map:
//! a sheet is seen from above wherever it lies inside no other sheet's solid, so a porch roof runs on under an eave up to
//! the wall, and an eave above another roof stays an eave.

use crate::plan::{Bounds, P2, Rise, edges, height};

/// How far down the house is solid under a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Zone {
    /// Over the walls: down to this height.
    Inside { base: f64 },
    /// Over an eave's overhang: down to a level soffit.
    Eave { soffit: f64 },
    /// Over a rake's overhang: down this far, along the slope.
    Rake { depth: f64 },
}

/// Where within its polygon a sheet is there.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Extent {
    /// All over it.
    Whole,
    /// Only over the walls of these blocks: it runs on into them.
    Over(Vec<usize>),
}

/// One piece of roof surface.
#[derive(Clone, Debug)]
pub(crate) struct Sheet {
    pub(crate) block: usize,
    pub(crate) rise: Rise,
    pub(crate) zone: Zone,
    pub(crate) extent: Extent,
    pub(crate) polygon: Vec<P2>,
    pub(crate) bounds: Bounds,
}

impl Sheet {
    pub(crate) fn new(block: usize, rise: Rise, zone: Zone, polygon: Vec<P2>) -> Self {
        let bounds = Bounds::of(&polygon);
        Self { block, rise, zone, extent: Extent::Whole, polygon, bounds }
    }

    /// The same sheet, there only within an extent.
    pub(crate) fn within(self, extent: Extent) -> Self {
        Self { extent, ..self }
    }

    pub(crate) fn height(&self, p: P2) -> f64 {
        height(self.rise, p)
    }

    /// The underside of the solid below the sheet, as a plane.
    pub(crate) fn underside(&self) -> Rise {
        match self.zone {
            Zone::Inside { base } => [0.0, 0.0, base],
            Zone::Eave { soffit } => [0.0, 0.0, soffit],
            Zone::Rake { depth } => [self.rise[0], self.rise[1], self.rise[2] - depth],
        }
    }

    /// Whether the sheet is over its block's walls.
    pub(crate) fn is_inside(&self) -> bool {
        matches!(self.zone, Zone::Inside { .. })
    }

    /// Whether a height at a plan point under the sheet is inside its solid, by more than `margin` from either face.
    pub(crate) fn buries(&self, p: P2, z: f64, margin: f64) -> bool {
        z < self.height(p) - margin && z > height(self.underside(), p) + margin
    }

    pub(crate) fn sides(&self) -> impl Iterator<Item = (P2, P2)> + '_ {
        edges(&self.polygon)
    }
}
