//! Weighted straight skeleton: the roof over any simple outline, with a slope or a gable of its own on each edge.
//!
//! Every edge of the outline that carries a slope starts a plane through the edge at height 0, rising inwards. At a
//! height h the edges, each moved inwards by h over its slope, bound what is still open: the wavefront. It shrinks,
//! splits and vanishes; the paths of its corners are hips, valleys and ridges, and what an edge sweeps is its face. A
//! gable does not move: a vertical wall. With one slope everywhere this is the straight skeleton, else its weighted
//! form.
//!
//! # Formula
//! An edge's line at height h is `n·x = c + h / m` (n inward unit normal, c offset at the outline, m slope). A corner
//! is the crossing of two such lines; the height at which three lines meet is the root of a linear equation.
//!
//! # Source
//! O. Aichholzer, F. Aurenhammer, D. Alberts, B. Gärtner, "A novel type of skeleton for polygons", J. Univers.
//! Comput. Sci. 1 (1995); T. Biedl, M. Held, S. Huber, D. Kaaser, P. Palfrader, "Weighted straight skeletons in the
//! plane", Comput. Geom. 48 (2015), for what is and is not determined with weights — published, from memory. The
//! treatment of coincidences below is this module's own.
//!
//! # Units and valid range
//! Metres in plan and height; coordinates within [`COORDINATE_LIMIT`]; slopes (rise over run) within [`SLOPE_RANGE`].
//! Contours may run either way round. Outlines must keep a gap of 1e-9 of their extent (1 nm at least) from themselves.
//!
//! # Algorithm
//! 1. `outline` checks the contours. `line` rids them of input rounding: nearly parallel becomes parallel.
//! 2. `event` keeps a heap of heights at which a segment vanishes or a reflex corner runs into a line.
//! 3. `meeting` takes all contacts of one height together, gathers by position whatever is there and cuts the front at
//!    those points; `joint` drops strips closed from both sides (ridges) and joins the rest wedge by wedge around each
//!    point; `in_line` decides between planes that end up in one line; `rebuild` carries it out.
//! 4. `face` links the arcs, each the border of two faces, into polygons, and checks them.
//!
//! # Tolerance
//! Positions come from the outline's lines only, never from earlier positions, in arithmetic of 32 digits (`double`),
//! so results carry the rounding of the input and none of their own. What the input's rounding alone keeps apart
//! counts as together: directions and lines within 1e-11 of the extent (`line`), points within 1e-10 and heights
//! within 1e-12 (`HAIR` in `front`). Many lines through a point, whole ridges closing at once, symmetric and turned
//! outlines are then ordinary cases, and the roof does not depend on how the outline lies. An outline with real edges
//! near that size can contradict itself under it; the checks at the end notice, and it is solved again with
//! coincidences to 1e-25 only (`EXACT`).
//!
//! # Degenerate cases
//! - Neighbours in one line: with one slope, two faces divided square to the edge; with unlike slopes, an error.
//! - Parallel fronts that face each other meet in a level ridge at once. Where fronts of unlike slope that face the
//!   same way come into one line, the definition leaves the roof open: `in_line` states the rule.
//! - A gable at an inner (reflex) corner goes on into the building: the roof has a wall there, and the faces on both
//!   sides meet it at different heights.
//! - An area that only gables surround is an error, as is an outline of gables.
//! - A face that surrounds others, a gentle plane round a steep hole, has holes itself.
//!
//! # Complexity
//! n sides, r reflex corners: O(n²) for the checks, O(n) for each of O(n) meetings, O(r n log n) for the heap; memory
//! O(r n). Bounded on any input: no more than a fixed number of meetings for each side, then an error that names the
//! place.
//!
//! # Accuracy
//! Plan areas of all faces sum to the outline's to 1e-10; a vertex is off its plane by less than 1e-8 of the extent
//! at worst (where edges are parallel but for rounding), about 1e-15 as a rule. Both are checked before a roof is
//! returned.
//!
//! # Checks
//! `tests/skeleton`: areas, heights and nodes of 45 roofs computed with a general-purpose geometry library;
//! brute-force heights; invariance under moving, turning, mirroring and renumbering; random outlines of several
//! kinds.

mod double;
mod error;
mod event;
mod face;
mod front;
mod in_line;
mod joint;
mod line;
mod meeting;
mod outline;
mod rebuild;
mod sweep;

use std::ops::RangeInclusive;

use face::faces;
use front::{EXACT, HAIR};
use line::Lines;
use outline::Outline;
use sweep::sweep;

pub use error::{ContourEdge, ContourPoint, SkeletonError};

/// Largest coordinate taken, in metres.
pub const COORDINATE_LIMIT: f64 = 1e7;

/// Slopes taken, as rise over run (0.06 to 89.94 degrees).
pub const SLOPE_RANGE: RangeInclusive<f64> = 1e-3..=1e3;

/// What rises from an edge of the outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EdgeSlope {
    /// A plane through the edge, rising inwards with this tangent of the pitch angle.
    Rise(f64),
    /// A vertical wall, up to whatever planes reach it.
    Gable,
}

/// One closed contour: edge `i` runs from point `i` to point `i + 1` and carries slope `i`.
#[derive(Clone, Copy, Debug)]
pub struct Contour<'a> {
    /// Corners in plan \[m\], either way round, the first not repeated at the end.
    pub points: &'a [[f64; 2]],
    /// One for each edge.
    pub slopes: &'a [EdgeSlope],
}

/// The part of one edge's plane that belongs to the roof.
#[derive(Clone, Debug, PartialEq)]
pub struct Face {
    /// 0 for the outer contour, `k` for the `k`-th hole.
    pub contour: usize,
    /// The edge, counted as in [`Contour`].
    pub edge: usize,
    /// Corners x, y, height above the outline \[m\], counter-clockwise in plan, starting with the edge itself. Every
    /// point where another face begins is a corner, also in the middle of a straight line.
    pub polygon: Vec<[f64; 3]>,
    /// Parts cut out of the polygon, clockwise in plan; only where a face surrounds others.
    pub holes: Vec<Vec<[f64; 3]>>,
}

impl Face {
    /// Area in plan \[m²\].
    pub fn plan_area(&self) -> f64 {
        face::plan_area(&self.polygon) + self.holes.iter().map(|hole| face::plan_area(hole)).sum::<f64>()
    }
}

/// The roof over an outline.
#[derive(Clone, Debug, PartialEq)]
pub struct Skeleton {
    /// One for each edge that is not a gable, in contour order.
    pub faces: Vec<Face>,
}

/// Builds the roof over the outer contour less the holes.
///
/// ```
/// use roof::skeleton::{Contour, EdgeSlope, roof};
///
/// // A 10 m by 6 m house with gables at its short ends, pitch 1 in 2.
/// let points = [[0.0, 0.0], [10.0, 0.0], [10.0, 6.0], [0.0, 6.0]];
/// let slopes = [EdgeSlope::Rise(0.5), EdgeSlope::Gable, EdgeSlope::Rise(0.5), EdgeSlope::Gable];
/// let skeleton = roof(Contour { points: &points, slopes: &slopes }, &[])?;
/// assert_eq!(skeleton.faces.len(), 2);
/// assert_eq!(skeleton.faces[0].polygon[2], [10.0, 3.0, 1.5]);
/// # Ok::<(), roof::skeleton::SkeletonError>(())
/// ```
pub fn roof(outer: Contour<'_>, holes: &[Contour<'_>]) -> Result<Skeleton, SkeletonError> {
    let outline = Outline::new(outer, holes)?;
    let lines = Lines::new(&outline);
    let build = |slack| faces(&outline, &sweep(&lines, &outline.next(), slack)?);
    // Where a hair is too wide for an outline's real edges, the exact way round still tells them apart.
    let faces = build(HAIR).or_else(|error| match error {
        SkeletonError::Unresolved { .. } => build(EXACT),
        error => Err(error),
    })?;
    Ok(Skeleton { faces })
}
