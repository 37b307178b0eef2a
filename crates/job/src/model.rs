//! What a checked job document holds.
//!
//! Plan x points east, y north, heights up from the job's own datum (the first floor). Lengths that come out of
//! here are finite and inside the ranges the reader enforces; relations between blocks (touching, level fascias) are
//! for `roof` to judge.

use std::collections::BTreeMap;
use std::ops::Range;

use measure::{Area, Length, Load, Pitch, RainRate, Temperature};

/// Byte range in the text of the document.
pub type Span = Range<usize>;

/// Where a figure came from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Basis {
    /// Written in the document.
    Measured,
    /// `unknown` in the document: the books' default of this key stands in, and is an assumption.
    Assumed {
        /// Key of the default in the books, such as `block.overhang.eave`.
        key: String,
    },
    /// Not written at all: follows from other fields, or a rule of the trade that needs no measurement.
    Derived,
}

/// One survey figure and where it came from.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure<T> {
    /// The value used.
    pub value: T,
    /// Measured, assumed or derived.
    pub basis: Basis,
    /// Where it stands in the document.
    pub span: Span,
}

/// An `unknown` (or an omitted optional figure) that the books filled in.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumption {
    /// Where in the document, as a path such as `block.main.overhang.eave`.
    pub path: String,
    /// Value as written in the books.
    pub value: String,
    /// One standard deviation as written in the books; empty when the books give none.
    pub spread: String,
    /// Source of the default, with its confidence.
    pub source: book::Source,
}

/// How papers are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Units {
    /// Feet and inches.
    Us,
    /// Metres.
    Si,
}

/// Which face of the exterior wall the ice barrier clause is measured from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WallLine {
    /// Outside face of the wall.
    Outside,
    /// Inside face: adds the wall's thickness.
    Inside,
}

/// Place, climate and adopted code.
#[derive(Clone, Debug, PartialEq)]
pub struct Site {
    /// Latitude in degrees north, -90 to 90.
    pub latitude: Option<f64>,
    /// Adopted code edition, a key of the books such as `irc-2018`.
    pub code: String,
    /// Climate zone of the energy code, such as `6A`.
    pub climate_zone: Option<String>,
    /// Ground snow load.
    pub ground_snow: Option<Load>,
    /// Design rain.
    pub rain: Figure<RainRate>,
    /// Whether ice has backed up on roofs of the place; turns the ice barrier clause on.
    pub ice_history: Figure<bool>,
    /// Reading of "exterior wall line" by the local official.
    pub wall_line: Figure<WallLine>,
    /// Thickness of the exterior wall.
    pub wall_thickness: Figure<Length>,
    /// Year the house was built.
    pub year_built: Option<i64>,
    /// 99 % heating design temperature.
    pub design_temperature: Option<Temperature>,
}

/// A side of a block, in the block's own frame: for an unturned block, the compass side.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
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
}

/// What pierces or sits on a roof.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs, reason = "the trade's own names")]
pub enum OpeningKind {
    Pipe,
    Hood,
    Chimney,
    Skylight,
    DaylightTube,
    BoxVent,
    PowerVent,
}

/// Whether a thing is there now, comes, or goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// There now, stays.
    Found,
    /// New.
    Plan,
    /// There now, goes.
    Remove,
}

/// Whether a small two-slope roof is built behind an opening.
#[derive(Clone, Debug, PartialEq)]
pub enum Cricket {
    /// As the adopted code asks.
    ByCode,
    /// Asked for, with the roof's own pitch or this one.
    Built(Option<Pitch>),
    /// Not wanted; the code is still reported.
    None,
}

/// One opening.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// Name, unique in the job; given by kind and number where the document has none.
    pub name: String,
    /// What it is.
    pub kind: OpeningKind,
    /// Plan centre, metres.
    pub at: [f64; 2],
    /// Size across the slope (a diameter for round things).
    pub across: Length,
    /// Size along the slope: in plan for what stands upright (chimney, pipe, hood), on the slope for what lies in it.
    pub along: Length,
    /// Whether it stays, comes or goes.
    pub state: State,
    /// Cricket behind it.
    pub cricket: Cricket,
    /// Net free area of a vent.
    pub net_free_area: Option<Figure<Area>>,
    /// Where it stands in the document.
    pub span: Span,
    /// Where its `at` stands.
    pub at_span: Span,
}

/// Cladding of a block's walls.
#[derive(Clone, Debug, PartialEq)]
pub struct Walls {
    /// Kind of siding, a key of the books such as `cedar-bevel`.
    pub siding: Option<String>,
    /// Siding's distance above the roof.
    pub clearance: Figure<Length>,
}

/// Intake or exhaust of an attic, as found or as planned.
#[derive(Clone, Debug, PartialEq)]
pub enum FreeArea {
    /// Whole net free area.
    Total(Area),
    /// Per foot of soffit or ridge; the length follows from the roof.
    PerLength(Length),
    /// Per foot over a length given.
    PerLengthOver(Length, Length),
}

/// One state of an attic's ventilation and insulation.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct AtticState {
    /// Insulation as written.
    pub insulation: Option<String>,
    /// Low openings.
    pub soffit: Option<FreeArea>,
    /// Ridge vent.
    pub ridge_vent: Option<FreeArea>,
    /// Gable louvers.
    pub louvers: Option<Area>,
    /// Leakage of the ceiling as written.
    pub leakage: Option<String>,
    /// Condition as written, such as `blackened`.
    pub condition: Option<String>,
}

/// A space under the roof that is vented as one.
#[derive(Clone, Debug, PartialEq)]
pub struct Attic {
    /// Name, the key in the document.
    pub name: String,
    /// Blocks it lies under.
    pub under: Vec<String>,
    /// Ceiling area; from the blocks' wall lines when not given.
    pub ceiling: Option<Area>,
    /// Class of the vapour retarder on its warm side: 1, 2, 3; none when there is none.
    pub vapor_retarder: Option<u8>,
    /// As surveyed.
    pub found: AtticState,
    /// As it will be.
    pub plan: AtticState,
    /// Where it stands in the document.
    pub span: Span,
}

/// What a spare tape reading measures.
#[derive(Clone, Debug, PartialEq)]
pub enum ReadingOf {
    /// Length of a wall line.
    Wall {
        /// Block.
        block: String,
        /// Its side.
        side: Side,
    },
    /// Corner to opposite corner of a rectangular block's walls.
    Diagonal {
        /// Block.
        block: String,
    },
    /// Corner of one block to corner of another (or the same), in plan.
    Distance {
        /// Block and corner number from 1 (a rectangle's south-west corner is 1, then counter-clockwise).
        from: (String, usize),
        /// The other end.
        to: (String, usize),
    },
    /// Roof edge of a side above the datum.
    EaveHeight {
        /// Block.
        block: String,
        /// Its side.
        side: Side,
    },
    /// Ridge above the datum.
    RidgeHeight {
        /// Block.
        block: String,
    },
    /// Along the slope, wall line to ridge.
    Rafter {
        /// Block.
        block: String,
        /// The side the rafter rises from.
        side: Side,
    },
}

/// A measurement beyond what the blocks need.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// What was measured.
    pub of: ReadingOf,
    /// The reading.
    pub value: Length,
    /// One standard deviation.
    pub spread: Length,
    /// Where it stands in the document.
    pub span: Span,
}

/// Roof covering.
#[derive(Clone, Debug, PartialEq)]
pub struct Covering {
    /// Package of the books, such as `shingle-laminated-metric`.
    pub shingle: String,
    /// Height of shingle left visible.
    pub exposure: Figure<Length>,
}

/// A checked job document.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// Title as written.
    pub title: String,
    /// How papers are written.
    pub units: Units,
    /// Place, climate, code.
    pub site: Site,
    /// Covering.
    pub covering: Covering,
    /// Blocks in document order.
    pub blocks: Vec<Block>,
    /// Openings in document order.
    pub openings: Vec<Opening>,
    /// Walls by block name.
    pub walls: BTreeMap<String, Walls>,
    /// Attics.
    pub attics: Vec<Attic>,
    /// Spare measurements.
    pub readings: Vec<Reading>,
    /// What the books filled in.
    pub assumptions: Vec<Assumption>,
}
