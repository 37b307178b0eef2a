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

/// Why no roof was built. Indices are those of the caller's contours; the words count from 1, as people do.
#[derive(Clone, Debug, PartialEq)]
pub enum SkeletonError {
    /// Fewer than three points.
    TooFewPoints {
        /// Contour at fault.
        contour: usize,
        /// Points given.
        count: usize,
    },
    /// The two lists of a contour differ in length.
    SlopeCount {
        /// Contour at fault.
        contour: usize,
        /// Points given.
        points: usize,
        /// Slopes given.
        slopes: usize,
    },
    /// A coordinate is not a number or beyond [`super::COORDINATE_LIMIT`].
    Coordinate {
        /// Point at fault.
        at: ContourPoint,
    },
    /// A slope is not a number or outside [`super::SLOPE_RANGE`].
    SlopeRange {
        /// Edge at fault.
        at: ContourEdge,
        /// Slope given.
        slope: f64,
    },
    /// No edge carries a roof plane.
    AllGable,
    /// Two neighbouring points are the same within the tolerance.
    RepeatedPoint {
        /// Point at fault.
        at: ContourPoint,
        /// The one it repeats.
        other: ContourPoint,
    },
    /// Two edges cross, touch, or leave a gap below the tolerance.
    EdgesMeet {
        /// One edge.
        first: ContourEdge,
        /// The other.
        second: ContourEdge,
    },
    /// A hole lies outside the outer contour.
    HoleOutside {
        /// Contour at fault.
        contour: usize,
    },
    /// A hole lies inside another hole.
    HoleInHole {
        /// Contour at fault.
        contour: usize,
        /// The hole around it.
        within: usize,
    },
    /// Neighbouring edges in one straight line with different slopes: nothing says where one plane ends.
    SlopesInLine {
        /// Edge before the shared point.
        first: ContourEdge,
        /// Edge after it.
        second: ContourEdge,
    },
    /// Part of the outline is closed off by gables and no plane reaches it.
    Unroofed {
        /// Gables around the area.
        edges: Vec<ContourEdge>,
    },
    /// Coincidences could not be sorted out, or the roof failed the checks at the end. No outline that does this is
    /// known.
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

impl SkeletonError {
    /// What is wrong, and where.
    pub fn cause(&self) -> String {
        match self {
            Self::TooFewPoints { contour, count } => format!("{} has {count} points", Name(*contour)),
            Self::SlopeCount { contour, points, slopes } => {
                format!("{} has {points} points but {slopes} slopes", Name(*contour))
            }
            Self::Coordinate { at } => format!("{at} is not a finite coordinate within 1e7 m of the origin"),
            Self::SlopeRange { at, slope } => format!("{at} has slope {slope}"),
            Self::AllGable => "every edge is a gable".to_owned(),
            Self::RepeatedPoint { at, other } => format!("{at} repeats its neighbour {other}"),
            Self::EdgesMeet { first, second } => format!("{first} crosses or touches {second}"),
            Self::HoleOutside { contour } => format!("{} lies outside the outline", Name(*contour)),
            Self::HoleInHole { contour, within } => {
                format!("{} lies inside {}", Name(*contour), Name(*within))
            }
            Self::SlopesInLine { first, second } => {
                format!("{first} and {second} lie in one line but differ in slope")
            }
            Self::Unroofed { edges } => format!("no roof plane covers the area between {}", List(edges)),
            Self::Unresolved { x, y, height, edges } => format!(
                "the roof could not be resolved at plan position ({x}, {y}), height {height}, near {}",
                List(edges)
            ),
        }
    }

    /// What would mend it.
    pub const fn mend(&self) -> &'static str {
        match self {
            Self::TooFewPoints { .. } => "an outline needs at least 3",
            Self::SlopeCount { .. } => "give one slope for each edge",
            Self::Coordinate { .. } => "measure from a corner of the building",
            Self::SlopeRange { .. } => {
                "a rise over run from 0.001 to 1000 is needed (use a gable for a vertical wall)"
            }
            Self::AllGable => "at least one edge needs a slope",
            Self::RepeatedPoint { .. } => "delete one of them",
            Self::EdgesMeet { .. } => "an outline must not meet itself",
            Self::HoleOutside { .. } => "move it inside or delete it",
            Self::HoleInHole { .. } => "delete it",
            Self::SlopesInLine { .. } => "give both one slope or a corner between them",
            Self::Unroofed { .. } => "give one of them a slope",
            Self::Unresolved { .. } => "move a point there by a millimetre",
        }
    }
}

/// In words `cause; mend`.
impl fmt::Display for SkeletonError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}; {}", self.cause(), self.mend())
    }
}

impl std::error::Error for SkeletonError {}

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
