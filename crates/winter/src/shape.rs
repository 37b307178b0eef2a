//! A measured roof cut into strips across the fall, each over one attic or over outdoors, with where its water runs.
//!
//! # Method
//! Each plane is read along lanes down its fall. A lane is cut where the wall line below it is crossed, and over an attic into bands by distance in from
//! that line. What bands of a plane lie side by side make a strip; what share of a strip's lanes go on into another strip is the share of its water that
//! does. Along a valley lie strips of their own, as wide as its metal, over the attic and past the wall line: much water comes to little of the roof there.
//!
//! What leaves a plane at an eave comes down on the roof that lies under it, if one does ([`Drop`]): on the strip there, all of which it wets. Whether a gutter
//! takes the water is not asked here.
//!
//! # Checks
//! conservation: strips of a plane have its area · property: all water of a strip goes somewhere

mod finish;
mod lane;

use std::collections::BTreeMap;

use measure::{Area, Length};
use roof::{EdgeId, PlaneId, Roof};

use self::lane::Cut;
use crate::season::Below;

/// Where a strip lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// Over an attic, by its number, in a band counted from the wall line inward.
    Over {
        /// The plane.
        plane: usize,
        /// The attic.
        attic: usize,
        /// The band.
        band: usize,
    },
    /// Past the wall line at the foot of the plane.
    Overhang {
        /// The plane.
        plane: usize,
    },
    /// Past a gable's wall, or on a roof without an attic.
    Outside {
        /// The plane.
        plane: usize,
    },
    /// Along a valley, over an attic or past the wall line.
    Valley {
        /// The edge.
        edge: usize,
        /// The attic; none past the wall line.
        attic: Option<usize>,
    },
}

/// A strip of the measured roof.
#[derive(Clone, Debug, PartialEq)]
pub struct Shaped {
    /// Where it lies.
    pub place: Place,
    /// The plane whose sun and slope it has.
    pub plane: PlaneId,
    /// What lies under it.
    pub below: Below,
    /// On the slope.
    pub area: Area,
    /// Length of eave that ends it; nothing where none does.
    pub eave: Length,
    /// Strips after it into which its water runs, with shares.
    pub to: Vec<(usize, f64)>,
    /// What of it falls on lower roofs.
    pub drops: Vec<Drop>,
}

/// What falls from an edge of a plane onto a lower roof.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drop {
    /// The edge.
    pub edge: EdgeId,
    /// A strip after it.
    pub to: usize,
    /// Share of the water of the strip it falls from.
    pub share: f64,
}

/// How finely to cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fineness {
    /// Bands over the attic in a plane.
    pub bands: usize,
}

/// Cuts a roof; `attic_at` says which attic lies under a plane at a point in plan, `below` which plane lies lower than a height there.
pub fn strips(
    roof: &Roof,
    fineness: Fineness,
    attic_at: impl Fn(PlaneId, [f64; 2]) -> Option<usize>,
    below: impl Fn([f64; 2], f64) -> Option<PlaneId>,
) -> Vec<Shaped> {
    let mut cut = Cut {
        roof,
        bands: fineness.bands.max(1),
        attic_at,
        below,
        longest: Vec::new(),
        parts: BTreeMap::new(),
    };
    cut.longest = (0..roof.planes.len()).map(|plane| cut.longest_run(plane)).collect();
    for plane in 0..roof.planes.len() {
        cut.plane(plane);
    }
    cut.valleys();
    cut.finished()
}
