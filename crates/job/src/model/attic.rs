//! Walls below the roof and attics under it.

use book::Share;
use measure::{Area, Flow, Length, Pressure, RValue, Volume};

use super::{Figure, Lumber, Side, Span};

/// Cladding of a block's walls.
#[derive(Clone, Debug, PartialEq)]
pub struct Walls {
    /// Kind of siding, a key of the books such as `cedar-bevel`.
    pub siding: Option<String>,
    /// Siding's distance above the roof.
    pub clearance: Figure<Length>,
    /// Height of siding left visible in one course.
    pub exposure: Option<Length>,
    /// Sheet behind the siding that sheds what gets past it.
    pub weather_barrier: Option<Figure<WeatherBarrier>>,
    /// Whether that sheet laps over the flashing of the roof below.
    pub lapped: Option<Figure<bool>>,
    /// Whether its veneer was laid on the legs of the step flashing of the roof below.
    pub built_in: Option<Figure<bool>>,
    /// Sheathing as written.
    pub sheathing: Option<String>,
    /// Moisture content of the sheathing below the roof's ends.
    pub moisture: Option<Figure<Share>>,
    /// Whether a kick-out turns water off the wall at the roof's low end.
    pub kick_out: Option<Figure<bool>>,
    /// From the wall to the lot line it faces, by side.
    pub lot_line: Vec<(Side, Length)>,
    /// Floors that reach out past the wall below.
    pub cantilevers: Vec<Cantilever>,
    /// Where it stands in the document.
    pub span: Span,
}

/// Sheet behind the siding.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "the trade's own names")]
pub enum WeatherBarrier {
    None,
    Felt,
    Wrap,
}

/// A floor that reaches out past the wall below.
#[derive(Clone, Debug, PartialEq)]
pub struct Cantilever {
    /// Side of the block.
    pub side: Side,
    /// Along the wall.
    pub length: Length,
    /// Out from the wall below.
    pub depth: Length,
    /// Size of its joists.
    pub joist: Option<Lumber>,
    /// Thermal resistance it really has.
    pub effective: Option<Figure<RValue>>,
    /// Whether the joist bays are blocked over the wall below.
    pub blocked: Option<Figure<bool>>,
    /// Open area between the joist bays and the cold, as measured.
    pub gap: Option<Area>,
    /// Block into whose attic they stand open; outdoors where none is named.
    pub opens_into: Option<String>,
    /// Whether the work blocks and seals them.
    pub close: bool,
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
    /// Whether they sit in gables that face opposite ways.
    pub opposite_louvers: Option<bool>,
    /// Depth of the insulation where it ends over the wall, above the plate.
    pub insulation_depth: Option<Length>,
    /// Air leakage of the ceiling with the house at 50 Pa.
    pub leakage: Option<Flow>,
    /// Condition as written, such as `blackened`.
    pub condition: Option<String>,
    /// Thermal resistance the insulation really has.
    pub effective: Option<Figure<RValue>>,
    /// Baffles that keep the eave bays open.
    pub baffles: Option<Figure<u32>>,
    /// Moisture content of the deck.
    pub deck_moisture: Option<Figure<Share>>,
    /// Least clear way between insulation and deck at the eave vents.
    pub clear_way: Option<Length>,
    /// Thermal resistance of the hatch.
    pub hatch: Option<Figure<RValue>>,
    /// Walls between the attic and heated rooms.
    pub side_walls: Option<SideWalls>,
    /// Pressure from house to attic with the house at 50 Pa.
    pub house_to_attic: Option<Pressure>,
    /// Pressure from attic to outdoors with the house at 50 Pa.
    pub attic_to_outdoors: Option<Pressure>,
}

/// Walls, kneewalls and shafts between an attic and heated rooms.
#[derive(Clone, Debug, PartialEq)]
pub struct SideWalls {
    /// Their area.
    pub area: Area,
    /// Thermal resistance they really have.
    pub effective: Figure<RValue>,
    /// Whether the insulation is covered on the attic side.
    pub backed: Option<Figure<bool>>,
}

/// What a space under the roof is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum SpaceKind {
    /// One space over a level ceiling.
    #[default]
    Attic,
    /// A sloped ceiling under the rafters: each bay between them is a space of its own.
    Cathedral,
}

impl Attic {
    /// Whether anybody wrote what its soffits let in, found or planned: without that nobody can say that it has no vents.
    pub const fn says_soffits(&self) -> bool {
        self.found.soffit.is_some() || self.plan.soffit.is_some()
    }
}

impl AtticState {
    /// Whether it tells of insulation: as planned, that some is laid.
    pub const fn tells_insulation(&self) -> bool {
        self.insulation.is_some() || self.effective.is_some()
    }
}

impl SpaceKind {
    /// In words, for papers.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Attic => "attic",
            Self::Cathedral => "cathedral ceiling",
        }
    }
}

/// An open way from one attic to another.
#[derive(Clone, Debug, PartialEq)]
pub struct Joined {
    /// The other attic.
    pub to: String,
    /// Its area.
    pub area: Figure<Area>,
}

/// A space under the roof that is vented as one.
#[derive(Clone, Debug, PartialEq)]
pub struct Attic {
    /// Name, the key in the document.
    pub name: String,
    /// What it is.
    pub kind: SpaceKind,
    /// Blocks it lies under.
    pub under: Vec<String>,
    /// The part of those blocks it lies under, by its south-west and north-east corners in plan, metres; all of them that no other space has a part of where
    /// not given.
    pub part: Option<[[f64; 2]; 2]>,
    /// Ceiling area; from the blocks' wall lines when not given.
    pub ceiling: Option<Area>,
    /// The part of it with heated rooms below, when that is not all of it.
    pub heated_ceiling: Option<Area>,
    /// Volume of the space.
    pub volume: Option<Volume>,
    /// Attics its air passes to through an open way; each way stands with one of the two.
    pub joined: Vec<Joined>,
    /// Whether the ceiling to a garage separates fire; none where there is no garage or it was not written.
    pub garage_separation: Option<Figure<bool>>,
    /// Class of the vapour retarder on its warm side: 1, 2, 3; none when there is none.
    pub vapor_retarder: Option<u8>,
    /// Rough opening of the way in.
    pub access: Option<[Length; 2]>,
    /// As surveyed.
    pub found: AtticState,
    /// As it will be.
    pub plan: AtticState,
    /// Where it stands in the document.
    pub span: Span,
}
