//! What a measured roof holds: planes, edges, nodes, openings, and how they refer to each other.
//!
//! Coordinates are metres in the job's plan (x east, y north, z up from the datum). Planes, edges and nodes refer to one
//! another by index into the vectors of [`Roof`]; every index is valid.

use std::fmt;

use job::{OpeningKind, Problem, Side, State};
use measure::{Area, Length, Pitch};

/// Point in the job's space, metres.
pub type Point3 = [f64; 3];

/// Index of a [`Plane`] in [`Roof::planes`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PlaneId(pub usize);

/// Index of an [`Edge`] in [`Roof::edges`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EdgeId(pub usize);

impl EdgeId {
    /// Its number on papers, from 1.
    pub const fn number(self) -> usize {
        self.0 + 1
    }
}

impl fmt::Display for EdgeId {
    /// As drawings call it: `edge 3`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "edge {}", self.number())
    }
}

/// Index of a [`Node`] in [`Roof::nodes`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct NodeId(pub usize);

impl NodeId {
    /// Its number in program output, from 1.
    pub const fn number(self) -> usize {
        self.0 + 1
    }
}

/// The measured roof of a house.
#[derive(Clone, Debug, PartialEq)]
pub struct Roof {
    /// Planes, by block and compass.
    pub planes: Vec<Plane>,
    /// Edges, numbered by kind and place.
    pub edges: Vec<Edge>,
    /// Where edges meet.
    pub nodes: Vec<Node>,
    /// Wall lines of the blocks, in plan, with their overhangs.
    pub walls: Vec<Wall>,
    /// Openings on their planes, in document order.
    pub openings: Vec<PlacedOpening>,
    /// Small two-slope roofs behind openings; not counted in the planes.
    pub crickets: Vec<Cricket>,
    /// Places on the ground to keep clear of drips and ice, in document order.
    pub walks: Vec<Walk>,
    /// Windows above wall edges, in document order.
    pub windows: Vec<Window>,
    /// Places where one roof passes under the overhang of another.
    pub passages: Vec<Passage>,
    /// Warnings: the roof stands, but a person should look.
    pub warnings: Vec<Problem>,
}

/// One flat part of the roof, seen from above until something covers or ends it.
#[derive(Clone, Debug, PartialEq)]
pub struct Plane {
    /// Block and compass letter, such as `main N`.
    pub name: String,
    /// Block it rises from; the first by name where one plane runs on over several.
    pub block: String,
    /// All blocks it rises from.
    pub blocks: Vec<String>,
    /// Height is `rise[0] * x + rise[1] * y + rise[2]`.
    pub rise: [f64; 3],
    /// Slope.
    pub pitch: Pitch,
    /// Direction water falls, degrees clockwise from north; 0 for a level plane.
    pub azimuth_degrees: f64,
    /// Boundary, counter-clockwise in plan.
    pub outline: Vec<Point3>,
    /// Boundaries of holes, clockwise in plan.
    pub holes: Vec<Vec<Point3>>,
    /// Area in plan.
    pub plan_area: Area,
    /// Area on the slope.
    pub slope_area: Area,
    /// Edges along its boundaries.
    pub edges: Vec<EdgeId>,
}

/// What an edge does to water and to the work. Convex sheds, concave gathers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum EdgeKind {
    /// Low level free edge: water leaves here.
    Eave,
    /// Free edge along the fall.
    Rake,
    /// Free edge neither level nor along the fall: water crosses it at an angle.
    SkewRake,
    /// High level free edge with nothing above.
    HighEave,
    /// Level line both planes fall away from.
    Ridge,
    /// Sloped line both planes fall away from.
    Hip,
    /// Sloped line both planes fall towards.
    Valley,
    /// Level line both planes fall towards: no fall of its own.
    LevelValley,
    /// Line between planes that fall the same way, the upper one flatter.
    PitchBreakConvex,
    /// Line between planes that fall the same way, the upper one steeper.
    PitchBreakConcave,
    /// Wall along the fall of a plane.
    Sidewall,
    /// Wall at the top of a plane: water runs away from it.
    Headwall,
    /// Wall across the fall at an angle.
    SkewWall,
    /// Wall at the foot of a plane: water runs into it.
    BackWall,
    /// Wall that carries the edge of a higher roof right above it.
    Step,
    /// Line where a plane runs in under or against another roof's overhang and ends there.
    Soffit,
}

impl EdgeKind {
    /// All kinds, in the order edges are numbered.
    pub const ALL: [Self; 16] = [
        Self::Eave,
        Self::Rake,
        Self::SkewRake,
        Self::HighEave,
        Self::Ridge,
        Self::Hip,
        Self::Valley,
        Self::LevelValley,
        Self::PitchBreakConvex,
        Self::PitchBreakConcave,
        Self::Sidewall,
        Self::Headwall,
        Self::SkewWall,
        Self::BackWall,
        Self::Step,
        Self::Soffit,
    ];

    /// The trade's name, as programs and papers write it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Eave => "eave",
            Self::Rake => "rake",
            Self::SkewRake => "skew rake",
            Self::HighEave => "high eave",
            Self::Ridge => "ridge",
            Self::Hip => "hip",
            Self::Valley => "valley",
            Self::LevelValley => "level valley",
            Self::PitchBreakConvex => "pitch break, flatter above",
            Self::PitchBreakConcave => "pitch break, steeper above",
            Self::Sidewall => "sidewall",
            Self::Headwall => "headwall",
            Self::SkewWall => "skew wall",
            Self::BackWall => "back wall",
            Self::Step => "step",
            Self::Soffit => "soffit",
        }
    }

    /// Key in program output: lower case, words joined by `_`.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Eave => "eave",
            Self::Rake => "rake",
            Self::SkewRake => "skew_rake",
            Self::HighEave => "high_eave",
            Self::Ridge => "ridge",
            Self::Hip => "hip",
            Self::Valley => "valley",
            Self::LevelValley => "level_valley",
            Self::PitchBreakConvex => "pitch_break_convex",
            Self::PitchBreakConcave => "pitch_break_concave",
            Self::Sidewall => "sidewall",
            Self::Headwall => "headwall",
            Self::SkewWall => "skew_wall",
            Self::BackWall => "back_wall",
            Self::Step => "step",
            Self::Soffit => "soffit",
        }
    }

    /// What the line does to water.
    pub const fn family(self) -> Family {
        match self {
            Self::Ridge | Self::Hip => Family::Divides,
            Self::Valley
            | Self::LevelValley
            | Self::Sidewall
            | Self::Headwall
            | Self::SkewWall
            | Self::BackWall
            | Self::Step
            | Self::Soffit => Family::Gathers,
            Self::Eave | Self::SkewRake => Family::LetsGo,
            Self::Rake | Self::HighEave => Family::Ends,
            Self::PitchBreakConvex | Self::PitchBreakConcave => Family::Passes,
        }
    }

    /// Whether two planes share it.
    pub const fn is_shared(self) -> bool {
        matches!(
            self,
            Self::Ridge
                | Self::Hip
                | Self::Valley
                | Self::LevelValley
                | Self::PitchBreakConvex
                | Self::PitchBreakConcave
        )
    }

    /// Whether a wall stands along it.
    pub const fn is_wall(self) -> bool {
        matches!(self, Self::Sidewall | Self::Headwall | Self::SkewWall | Self::BackWall | Self::Step)
    }
}

/// The drawing language's families: lines by what they do to water.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Family {
    /// Ridge, hip.
    Divides,
    /// Valley, walls.
    Gathers,
    /// Eave.
    LetsGo,
    /// Rake, high eave.
    Ends,
    /// Pitch break: water runs on over it.
    Passes,
}

/// One straight edge of the roof.
#[derive(Clone, Debug, PartialEq)]
pub struct Edge {
    /// What it is.
    pub kind: EdgeKind,
    /// Ends: the lower one first; on a level edge, the one that has the plane on its left going along.
    pub from: NodeId,
    /// The other end.
    pub to: NodeId,
    /// The plane or planes it bounds; two where [`EdgeKind::is_shared`], else one.
    pub planes: Vec<PlaneId>,
    /// True length.
    pub length: Length,
    /// Length in plan.
    pub plan_length: Length,
    /// Rise along the edge over its plan length.
    pub slope: f64,
    /// Block whose wall or overhang it runs along, for wall edges, steps and soffits.
    pub wall_of: Option<String>,
    /// Horizontal distance from the wall line to this free edge; zero on edges that are not free.
    pub overhang: Length,
    /// Planes that lie under this free edge, with the plan length over each and the least drop.
    pub over: Vec<Below>,
    /// Nearest wall to the lower end on the plane that end stands on or drips on, when there is one.
    pub wall_near_low_end: Option<WallNear>,
}

/// Part of a free edge with another roof plane under it.
#[derive(Clone, Debug, PartialEq)]
pub struct Below {
    /// The plane underneath.
    pub plane: PlaneId,
    /// Plan length of the edge over it.
    pub length: Length,
    /// Least height between edge and plane.
    pub drop: Length,
}

/// A wall close to where water is let go.
#[derive(Clone, Debug, PartialEq)]
pub struct WallNear {
    /// The edge along the wall.
    pub edge: EdgeId,
    /// Distance in plan.
    pub distance: Length,
}

/// What a node is, from the edges that meet in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum NodeKind {
    /// Eave meets eave, turning outwards.
    OutsideCorner,
    /// Eave meets eave, turning inwards.
    InsideCorner,
    /// Eave meets rake.
    EaveEnd,
    /// Ridge meets its two rakes.
    GableTop,
    /// Foot of a hip on the eaves.
    HipFoot,
    /// Foot of a valley on the eaves.
    ValleyThroat,
    /// Foot of a valley on another plane, a wall or anything but an eave.
    ValleyDeadEnd,
    /// Ridge, hips or valleys meeting up on the roof.
    Peak,
    /// Low end of a wall edge where the eave stops and the wall goes on: a kick-out belongs here.
    WallFoot,
    /// High end of a wall edge.
    WallTop,
    /// Two wall edges meet.
    WallCorner,
    /// Rake or high eave corner without an eave.
    HighCorner,
    /// Anything else; the edges say what.
    Other,
}

impl NodeKind {
    /// In words, for papers.
    pub const fn name(self) -> &'static str {
        match self {
            Self::OutsideCorner => "outside corner",
            Self::InsideCorner => "inside corner",
            Self::EaveEnd => "eave end at rake",
            Self::GableTop => "gable top",
            Self::HipFoot => "hip foot",
            Self::ValleyThroat => "valley throat",
            Self::ValleyDeadEnd => "valley end off the eave",
            Self::Peak => "peak",
            Self::WallFoot => "roof end at wall",
            Self::WallTop => "top of wall edge",
            Self::WallCorner => "wall corner",
            Self::HighCorner => "high corner",
            Self::Other => "junction",
        }
    }
}

/// A point where edges meet.
#[derive(Clone, Debug, PartialEq)]
pub struct Node {
    /// Where.
    pub at: Point3,
    /// Edges that meet here.
    pub edges: Vec<EdgeId>,
    /// What it is.
    pub kind: NodeKind,
}

/// A block's wall line in plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Wall {
    /// Block.
    pub block: String,
    /// Name of the side in the block's frame, such as `south` or `edge 3`.
    pub side: String,
    /// Ends in plan, the block on the left going along.
    pub from: [f64; 2],
    /// The other end.
    pub to: [f64; 2],
    /// Top outer edge of the plate above the datum.
    pub plate: Length,
    /// Overhang over it, resolved.
    pub overhang: Length,
    /// Whether it is a roof on posts.
    pub open: bool,
}

/// An opening on the plane that is on top at its plan position.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedOpening {
    /// Name in the job.
    pub name: String,
    /// What it is.
    pub kind: OpeningKind,
    /// Whether it stays, comes or goes.
    pub state: State,
    /// The plane it is on.
    pub plane: PlaneId,
    /// Centre on the plane.
    pub at: Point3,
    /// Corners on the plane, counter-clockwise in plan, starting at the low corner left of the fall looking down the slope.
    pub rim: [Point3; 4],
    /// Distance to every edge of its plane, nearest first.
    pub distances: Vec<EdgeDistance>,
}

/// How far an opening is from an edge.
#[derive(Clone, Debug, PartialEq)]
pub struct EdgeDistance {
    /// The edge.
    pub edge: EdgeId,
    /// From the opening's centre, in plan.
    pub plan_from_centre: Length,
    /// From the opening's rim, on the slope.
    pub slope_from_rim: Length,
}

/// A small two-slope roof that turns water aside behind an opening.
#[derive(Clone, Debug, PartialEq)]
pub struct Cricket {
    /// Index of the opening in [`Roof::openings`].
    pub opening: usize,
    /// Its two planes, each a triangle: low corner, ridge at the opening, ridge at the roof.
    pub planes: [[Point3; 3]; 2],
    /// Area of both planes on their slopes.
    pub slope_area: Area,
    /// Height of the ridge above the roof plane at the back of the opening.
    pub height: Length,
    /// Length of its level ridge.
    pub ridge: Length,
    /// True length of each of its two valleys.
    pub valley: Length,
    /// Its pitch.
    pub pitch: Pitch,
}

/// A walk, an entrance, steps or a drive near the house.
#[derive(Clone, Debug, PartialEq)]
pub struct Walk {
    /// Name in the job.
    pub name: String,
    /// South-west corner in plan.
    pub from: [f64; 2],
    /// North-east corner.
    pub to: [f64; 2],
    /// How far around it water that comes down still wets it.
    pub reach: Length,
}

/// The part of a window that stands above one wall edge.
#[derive(Clone, Debug, PartialEq)]
pub struct Window {
    /// Name in the job.
    pub name: String,
    /// The edge along its wall.
    pub edge: EdgeId,
    /// Where it stands along that, in plan from the edge's first end.
    pub span: [Length; 2],
    /// From the roof up to the underside of the sill, where the two are nearest.
    pub sill: Length,
}

/// A roof that passes under another roof's overhang.
#[derive(Clone, Debug, PartialEq)]
pub struct Passage {
    /// The plane that runs on below.
    pub plane: PlaneId,
    /// Block whose overhang is above.
    pub under: String,
    /// Least height between the plane and the soffit.
    pub gap: Length,
    /// Where the gap is least.
    pub at: Point3,
}

impl Plane {
    /// Height of the plane at a plan point.
    pub fn height_at(&self, p: [f64; 2]) -> f64 {
        self.rise[0] * p[0] + self.rise[1] * p[1] + self.rise[2]
    }

    /// Unit vector of the fall in plan; zero for a level plane.
    pub fn fall(&self) -> [f64; 2] {
        let m = self.rise[0].hypot(self.rise[1]);
        if m > 0.0 { [-self.rise[0] / m, -self.rise[1] / m] } else { [0.0, 0.0] }
    }
}

impl Roof {
    /// The plane of an id.
    pub fn plane(&self, id: PlaneId) -> &Plane {
        &self.planes[id.0]
    }

    /// The edge of an id.
    pub fn edge(&self, id: EdgeId) -> &Edge {
        &self.edges[id.0]
    }

    /// The node of an id.
    pub fn node(&self, id: NodeId) -> &Node {
        &self.nodes[id.0]
    }

    /// Ends of an edge in space.
    pub fn ends(&self, id: EdgeId) -> [Point3; 2] {
        let e = self.edge(id);
        [self.node(e.from).at, self.node(e.to).at]
    }

    /// The wall on a side of a block, as the job names them.
    pub fn wall(&self, block: &str, side: Side) -> Option<&Wall> {
        let side = side.to_string();
        self.walls.iter().find(|wall| wall.block == block && wall.side == side)
    }

    /// Sum of the planes' areas in plan.
    pub fn plan_area(&self) -> Area {
        self.planes.iter().map(|p| p.plan_area).sum()
    }

    /// Sum of the planes' areas on the slope.
    pub fn slope_area(&self) -> Area {
        self.planes.iter().map(|p| p.slope_area).sum()
    }

    /// Sum of the true lengths of the edges of a kind.
    pub fn length_of(&self, kind: EdgeKind) -> Length {
        self.edges.iter().filter(|e| e.kind == kind).map(|e| e.length).sum()
    }
}
