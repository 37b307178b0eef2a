//! What can be wrong with an outline, said with the place and what would mend it.

use std::fmt;

/// Edge of a contour: contour 0 is the outer one, then the holes; edge `i` runs from point `i` to point `i + 1`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ContourEdge {
    /// 0 for the outer contour, `k` for the `k`-th hole.
    pub contour: usize,
    /// Index of the edge's first point.
    pub edge: usize,
}

/// Point of a contour, counted as in [`ContourEdge`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ContourPoint {
    /// 0 for the outer contour, `k` for the `k`-th hole.
    pub contour: usize,
    /// Index of the point.
    pub point: usize,
}

/// Why no roof was built, in words `cause; mend`. Indices are those of the caller's contours; the words count from 1, as
/// people do.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SkeletonError {
    /// Fewer than three points.
    #[error("{} has {count} points; an outline needs at least 3", Name(*.contour))]
    TooFewPoints {
        /// Contour at fault.
        contour: usize,
        /// Points given.
        count: usize,
    },
    /// The two lists of a contour differ in length.
    #[error("{} has {points} points but {slopes} slopes; give one slope for each edge", Name(*.contour))]
    SlopeCount {
        /// Contour at fault.
        contour: usize,
        /// Points given.
        points: usize,
        /// Slopes given.
        slopes: usize,
    },
    /// A coordinate is not a number or beyond [`super::COORDINATE_LIMIT`].
    #[error(
        "{at} is not a finite coordinate within 1e7 m of the origin; measure from a corner of the building"
    )]
    Coordinate {
        /// Point at fault.
        at: ContourPoint,
    },
    /// A slope is not a number or outside [`super::SLOPE_RANGE`].
    #[error(
        "{at} has slope {slope}; a rise over run from 0.001 to 1000 is needed (use a gable for a vertical wall)"
    )]
    SlopeRange {
        /// Edge at fault.
        at: ContourEdge,
        /// Slope given.
        slope: f64,
    },
    /// No edge carries a roof plane.
    #[error("every edge is a gable; at least one edge needs a slope")]
    AllGable,
    /// Two neighbouring points are the same within the tolerance.
    #[error("{at} repeats its neighbour {other}; delete one of them")]
    RepeatedPoint {
        /// Point at fault.
        at: ContourPoint,
        /// The one it repeats.
        other: ContourPoint,
    },
    /// Two edges cross, touch, or leave a gap below the tolerance.
    #[error("{first} crosses or touches {second}; an outline must not meet itself")]
    EdgesMeet {
        /// One edge.
        first: ContourEdge,
        /// The other.
        second: ContourEdge,
    },
    /// A hole lies outside the outer contour.
    #[error("{} lies outside the outline; move it inside or delete it", Name(*.contour))]
    HoleOutside {
        /// Contour at fault.
        contour: usize,
    },
    /// A hole lies inside another hole.
    #[error("{} lies inside {}; delete it", Name(*.contour), Name(*.within))]
    HoleInHole {
        /// Contour at fault.
        contour: usize,
        /// The hole around it.
        within: usize,
    },
    /// Neighbouring edges in one straight line with different slopes: nothing says where one plane ends.
    #[error(
        "{first} and {second} lie in one line but differ in slope; give both one slope or a corner between them"
    )]
    SlopesInLine {
        /// Edge before the shared point.
        first: ContourEdge,
        /// Edge after it.
        second: ContourEdge,
    },
    /// Part of the outline is closed off by gables and no plane reaches it.
    #[error("no roof plane covers the area between {}; give one of them a slope", List(.edges))]
    Unroofed {
        /// Gables around the area.
        edges: Vec<ContourEdge>,
    },
    /// Coincidences could not be sorted out, or the roof failed the checks at the end. No outline that does this is
    /// known.
    #[error("the roof could not be resolved at plan position ({x}, {y}), height {height}, near {}; move a point there by a millimetre", List(.edges))]
    Unresolved {
        /// Plan position \[m\].
        x: f64,
        /// Plan position \[m\].
        y: f64,
        /// Height above the outline \[m\].
        height: f64,
        /// Edges whose planes meet there.
        edges: Vec<ContourEdge>,
    },
}

impl fmt::Display for ContourEdge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "edge {} of {}", self.edge + 1, Name(self.contour))
    }
}

impl fmt::Display for ContourPoint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "point {} of {}", self.point + 1, Name(self.contour))
    }
}

struct Name(usize);

impl fmt::Display for Name {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            0 => write!(f, "the outline"),
            hole => write!(f, "hole {hole}"),
        }
    }
}

struct List<'a>(&'a [ContourEdge]);

impl fmt::Display for List<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, edge) in self.0.iter().enumerate() {
            let separator = if index == 0 { "" } else { ", " };
            write!(f, "{separator}{edge}")?;
        }
        Ok(())
    }
}
