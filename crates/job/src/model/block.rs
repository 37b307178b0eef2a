//! A part of the house with its own walls and roof form.

use std::fmt;

use measure::{Length, Pitch};

use super::{Figure, Span};

/// A side of a block, in the block's own frame: for an unturned block, the compass side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// South side, y smallest.
    South,
    /// East side, x largest.
    East,
    /// North side, y largest.
    North,
    /// West side, x smallest.
    West,
    /// Edge of an outline: contour 0 is the outer one, then the holes; edges count from 1 as in the document.
    Edge {
        /// 0 for the outer outline, then 1.. for the holes.
        contour: usize,
        /// Counted from 1: edge n runs from point n to the next.
        number: usize,
    },
}

impl Side {
    /// The sides of a rectangle, counter-clockwise from its south-west corner.
    pub const COMPASS: [Self; 4] = [Self::South, Self::East, Self::North, Self::West];

    /// The side written so: `south`, `3` or `edge 3`, `hole 1 edge 2`.
    pub(crate) fn parse(text: &str) -> Option<Self> {
        let edge = |contour: &str, number: &str| {
            Some(Self::Edge { contour: contour.parse().ok()?, number: number.parse().ok()? })
        };
        match *text.split_whitespace().collect::<Vec<_>>().as_slice() {
            ["south"] => Some(Self::South),
            ["east"] => Some(Self::East),
            ["north"] => Some(Self::North),
            ["west"] => Some(Self::West),
            [number] | ["edge", number] => edge("0", number),
            ["hole", contour, "edge", number] => edge(contour, number),
            _ => None,
        }
    }
}

impl fmt::Display for Side {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::South => f.write_str("south"),
            Self::East => f.write_str("east"),
            Self::North => f.write_str("north"),
            Self::West => f.write_str("west"),
            Self::Edge { contour: 0, number } => write!(f, "edge {number}"),
            Self::Edge { contour, number } => write!(f, "hole {contour} edge {number}"),
        }
    }
}

/// What rises from one wall line.
#[derive(Clone, Debug, PartialEq)]
pub enum EdgeSlope {
    /// A roof plane rising inwards.
    Pitch(Figure<Pitch>),
    /// Nothing: the wall runs up to the roof (a gable, or the side or high end of a shed).
    Gable,
}

/// How far the roof reaches out over one wall line.
#[derive(Clone, Debug, PartialEq)]
pub enum Overhang {
    /// Horizontal distance, wall face to roof edge.
    Run(Figure<Length>),
    /// As far as keeps the fascia level with that block's eave.
    LevelWith {
        /// Name of the other block.
        block: String,
        /// Its side, when its eaves are not all at one height.
        side: Option<Side>,
        /// Where it stands in the document.
        span: Span,
    },
}

/// One wall line of a block and the roof over it.
#[derive(Clone, Debug, PartialEq)]
pub struct BlockEdge {
    /// Which side.
    pub side: Side,
    /// Height of the outer top edge of the wall plate at this edge.
    pub plate: Figure<Length>,
    /// What rises from it.
    pub slope: EdgeSlope,
    /// How far the roof reaches out.
    pub overhang: Overhang,
}

/// Shape above the edges' first slopes.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    /// Planes from every sloped edge up to where they meet: gable, hip, shed, low-slope, saltbox, per-edge.
    Plain,
    /// Gable ends whose top is cut by a small hip that starts `from` above the plate.
    HalfHip {
        /// Height above the plate where the small hip starts.
        from: Figure<Length>,
        /// Pitch of the small hip.
        pitch: Figure<Pitch>,
    },
    /// Hip ends that stop `run` in from the wall line at the foot of a small gable.
    HipSkirt {
        /// Horizontal distance from wall line to the small gable.
        run: Figure<Length>,
        /// Sides that end so: the two the ridge points at.
        ends: [Side; 2],
    },
    /// Every sloped edge breaks `run` in from the wall line to an upper pitch: gambrel, mansard.
    Broken {
        /// Horizontal distance from wall line to the break.
        run: Figure<Length>,
        /// Pitch above the break.
        upper: Figure<Pitch>,
    },
}

/// Which form's name the document used; decides only how papers speak of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "the trade's own names")]
pub enum FormName {
    Gable,
    Hip,
    Shed,
    LowSlope,
    HalfHip,
    HipSkirt,
    Gambrel,
    Mansard,
    Saltbox,
    PerEdge,
}

/// A part of the house with its own walls and roof form.
#[derive(Clone, Debug, PartialEq)]
pub struct Block {
    /// Name, unique in the job.
    pub name: String,
    /// Where `name` stands in the document.
    pub span: Span,
    /// Wall line corners in plan, metres, counter-clockwise, turned as the document says; first contour outer, then
    /// holes (clockwise). Corner n of a contour is the start of its edge n. Rectangles start at their south-west corner, so
    /// their edges are south, east, north, west.
    pub contours: Vec<Vec<[f64; 2]>>,
    /// Edges of all contours, in the same order as the corners.
    pub edges: Vec<Vec<BlockEdge>>,
    /// How far the block's own x axis is turned from east, degrees counter-clockwise.
    pub turn_degrees: f64,
    /// Name of the roof form.
    pub form_name: FormName,
    /// Shape above the edges' slopes.
    pub form: Form,
    /// Vertical depth of the roof edge, roof surface to soffit.
    pub fascia: Figure<Length>,
    /// Underside of the block above the datum; none reaches the ground.
    pub base: Option<Figure<Length>>,
    /// The block whose roof a dormer stands on.
    pub on: Option<String>,
    /// A roof on posts: no walls below it.
    pub open: bool,
    /// Meant to stand alone.
    pub detached: bool,
    /// What carries the deck, where it was surveyed.
    pub framing: Option<Framing>,
    /// What the roofing lies on, where it was surveyed.
    pub deck: Option<Deck>,
}

/// How the roof is carried.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FramingKind {
    /// Rafters cut on site.
    Rafter,
    /// Factory trusses: no member may be cut without an engineer.
    Truss,
}

/// Nominal size of a piece of lumber in inches, such as 2x8.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lumber {
    /// Nominal thickness.
    pub thickness: u8,
    /// Nominal depth.
    pub depth: u8,
}

impl Block {
    /// Whether its deck is known to be of boards.
    pub fn is_boarded(&self) -> bool {
        let kind = self.deck.as_ref().and_then(|deck| deck.kind.as_ref());
        kind.is_some_and(|kind| kind.value == DeckKind::Boards)
    }
}

/// What carries the deck of a block. None where it was not written.
#[derive(Clone, Debug, PartialEq)]
pub struct Framing {
    /// Rafters or trusses.
    pub kind: Option<Figure<FramingKind>>,
    /// Size of the rafter or the truss's top chord.
    pub size: Option<Lumber>,
    /// Centre to centre.
    pub spacing: Option<Figure<Length>>,
    /// Height above the plate, upright over the wall's outer face: room for insulation at the eave.
    pub heel: Option<Figure<Length>>,
    /// Size of the ceiling joist.
    pub joist: Option<Lumber>,
    /// Wood as written.
    pub species: Option<String>,
}

/// What the deck is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "the trade's own names")]
pub enum DeckKind {
    Boards,
    Plywood,
    Osb,
}

/// The deck of a block. None where it was not written.
#[derive(Clone, Debug, PartialEq)]
pub struct Deck {
    /// Boards or panels.
    pub kind: Option<Figure<DeckKind>>,
    /// Thickness.
    pub thickness: Option<Length>,
    /// Width of a board.
    pub board_width: Option<Length>,
    /// Mean gap between boards.
    pub gap: Option<Figure<Length>>,
    /// Widest gap seen.
    pub widest_gap: Option<Length>,
    /// Farthest out of plane under a 10 ft straightedge.
    pub sag: Option<Length>,
    /// Soft or delaminated places, as written.
    pub soft_spots: Vec<String>,
}
