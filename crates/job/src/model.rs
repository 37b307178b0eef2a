//! What a checked job document holds.
//!
//! Plan x points east, y north, heights up from the job's own datum (the first floor). Lengths that come out of
//! here are finite and inside the ranges the reader enforces; relations between blocks (touching, level fascias) are
//! for `roof` to judge.

mod array;
mod attic;
mod block;
mod gutter;
mod opening;
mod reading;
mod site;
mod survey;
mod walk;
mod window;

use std::collections::BTreeMap;
use std::ops::Range;

use measure::{Area, Flow, Fraction, Length, Pitch, RainRate};

pub use array::Array;
pub use attic::{
    Attic, AtticState, Cantilever, FreeArea, Joined, SideWalls, SpaceKind, Walls, WeatherBarrier,
};
pub use block::{
    Block, BlockEdge, Deck, DeckKind, EdgeSlope, Form, FormName, Framing, FramingKind, Lumber, Overhang, Side,
};
pub use book::SymptomKind;
pub use gutter::{Along, Downspout, Empties, Gutter, PlaneName};
pub use opening::{Cricket, Mount, Opening, OpeningKind, Serves, Shaft, State};
pub use reading::{Reading, ReadingOf};
pub use site::{Climate, HailExposure, Site, WallLine};
pub use survey::{
    Appliance, Compass, Crew, Date, Fan, FanEnd, Fuel, FuelPrice, FuelUnit, House, PlaneCount, Room, Storm,
    Symptom, VentClass,
};
pub use walk::Walk;
pub use window::Window;

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

impl Units {
    /// A length as papers write it: feet and inches to 1/8 in, or metres to the millimetre.
    pub fn length(self, length: Length) -> String {
        match self {
            Self::Us => length.trade(Fraction::Eighth).to_string(),
            Self::Si => length.metric().to_string(),
        }
    }

    /// A lap, leg or turn-up, as it is marked on the piece: inches to 1/8 in, or millimetres.
    pub fn lap(self, length: Length) -> String {
        match self {
            Self::Us => format!("{} in", length.trade(Fraction::Eighth).inches()),
            Self::Si => format!("{:.0} mm", length.m() * 1000.0),
        }
    }

    /// An area of roof: square feet to one decimal, or square metres to two.
    pub fn area(self, area: Area) -> String {
        match self {
            Self::Us => format!("{:.1} ft²", area.ft2()),
            Self::Si => format!("{:.2} m²", area.m2()),
        }
    }

    /// Net free area of vents: square inches to one decimal, or square centimetres.
    pub fn free_area(self, area: Area) -> String {
        match self {
            Self::Us => format!("{:.1} in²", area.in2()),
            Self::Si => format!("{:.0} cm²", area.m2() * 1e4),
        }
    }

    /// A flow of water: gallons per minute or litres per second, to three figures and no finer than a hundredth.
    pub fn water(self, flow: Flow) -> String {
        let (value, unit) = match self {
            Self::Us => (flow.gpm(), "gpm"),
            Self::Si => (flow.l_s(), "L/s"),
        };
        let decimals = if value < 9.995 { 2 } else { 1 };
        format!("{value:.decimals$} {unit}")
    }

    /// A rate of rain: inches or millimetres an hour.
    pub fn rain(self, rate: RainRate) -> String {
        match self {
            Self::Us => format!("{:.1} in/h", rate.in_per_h()),
            Self::Si => format!("{:.0} mm/h", rate.mm_per_h()),
        }
    }

    /// A pitch: rise in 12, or degrees.
    pub fn pitch(self, pitch: Pitch) -> String {
        match self {
            Self::Us => pitch.to_string(),
            Self::Si => format!("{:.1}°", pitch.degrees()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn laps_are_marked_in_inches_and_eighths() {
        let told = [0.25, 1.5, 8.0, 36.02, 7.99, 5.625].map(|count| Units::Us.lap(Length::from_in(count)));
        assert_eq!(told, ["1/4 in", "1 1/2 in", "8 in", "36 in", "8 in", "5 5/8 in"]);
        assert_eq!(Units::Si.lap(Length::from_in(8.0)), "203 mm");
    }

    #[test]
    fn lengths_are_cut_to_an_eighth_or_a_millimetre() {
        let rafter = Length::from_ft(16.0249);
        assert_eq!(Units::Us.length(rafter), "16' 1/4\"");
        assert_eq!(Units::Si.length(rafter), "4.884 m");
    }

    #[test]
    fn water_is_told_no_finer_than_it_matters() {
        assert_eq!(Units::Us.water(Flow::from_gpm(7.9423)), "7.94 gpm");
        assert_eq!(Units::Us.water(Flow::from_gpm(37.533)), "37.5 gpm");
        assert_eq!(Units::Si.water(Flow::from_l_s(2.368)), "2.37 L/s");
    }
}

/// Roof covering.
#[derive(Clone, Debug, PartialEq)]
pub struct Covering {
    /// Package of the books, such as `shingle-laminated-metric`.
    pub shingle: String,
    /// Height of shingle left visible.
    pub exposure: Figure<Length>,
    /// Layers of roofing found on the deck.
    pub layers: Option<Figure<u32>>,
    /// Details to be built instead of the usual ones, wherever they fit.
    pub details: Vec<Wish>,
    /// The new roof is laid over the old one; otherwise that comes off.
    pub over: bool,
    /// What the old roof is, where it was written.
    pub old: Option<OldRoof>,
    /// What lies beneath the old roof, where anything does and was written.
    pub beneath: Option<OldRoof>,
    /// Whether the old roof is dry and firm enough to be a base, where it was looked at.
    pub sound: Option<bool>,
    /// Thickness of the old roof on the deck, all layers, where it was measured.
    pub old_thickness: Option<Length>,
    /// Old wood shingles or shakes are covered with what does not burn before the new roof is laid over them, where it was written.
    pub wood_covered: Option<bool>,
    /// An old ice barrier that sticks to the deck stays.
    pub barrier_stays: bool,
    /// Condition of the worst of the old metal that is used again, where it was looked at.
    pub kept_metal: Option<Condition>,
    /// How far up from the eaves ice barrier was found under the old roof; nothing of length where there is none.
    pub eave_barrier: Option<Figure<Length>>,
    /// Whether drip edge was found at the eaves.
    pub eave_drip_edge: Option<Figure<bool>>,
}

/// Condition of a part that is used again.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "plain names")]
pub enum Condition {
    Sound,
    Rusted,
    Damaged,
    Worn,
}

/// A detail somebody wishes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wish {
    /// Its id in the books.
    pub detail: String,
    /// Where it stands in the document.
    pub span: Span,
}

/// What an old roof is covered with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "the trade's own names")]
pub enum OldRoof {
    Asphalt,
    WoodShingle,
    WoodShake,
    Slate,
    Tile,
    AsbestosCement,
    Metal,
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
    /// Gutters in document order.
    pub gutters: Vec<Gutter>,
    /// Solar arrays in document order.
    pub arrays: Vec<Array>,
    /// Places on the ground to keep clear of drips and ice, in document order.
    pub walks: Vec<Walk>,
    /// Windows above roofs that meet their walls, in document order.
    pub windows: Vec<Window>,
    /// Walls by block name.
    pub walls: BTreeMap<String, Walls>,
    /// Attics.
    pub attics: Vec<Attic>,
    /// Spare measurements.
    pub readings: Vec<Reading>,
    /// The house below the roof.
    pub house: House,
    /// Fans that blow moist air out of rooms.
    pub fans: Vec<Fan>,
    /// What the owner sees go wrong.
    pub symptoms: Vec<Symptom>,
    /// The storm a claim is about.
    pub storm: Option<Storm>,
    /// Who does the work.
    pub crew: Option<Crew>,
    /// What the books filled in.
    pub assumptions: Vec<Assumption>,
}
