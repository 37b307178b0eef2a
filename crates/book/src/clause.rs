//! Clauses that ask one thing of a roof: whether it is there, how long, how thick, how many.
//!
//! What an edition asks of ice barriers, vents, slopes and sidewalls stands in [`crate::edition`](crate::Edition); these
//! are the shorter ones.

use measure::{Area, Length, Pitch, Temperature};
use serde::Deserialize;

use crate::quantity::Text;
use crate::source::Source;

/// A clause that asks for something to be there or done, without a figure.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Clause {
    /// Clause number.
    pub clause: String,
    /// Where it comes from.
    pub source: Source,
}

/// A clause this program does not judge, and who does.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeftToOthers {
    /// Clause number.
    pub clause: String,
    /// What it is about.
    pub what: String,
    /// Who or what settles it.
    pub to: String,
    /// Where it comes from.
    pub source: Source,
}

/// Nails of asphalt shingles.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fasteners {
    /// Clause number.
    pub clause: String,
    /// Least shank.
    pub shank: Text<Length>,
    /// Least head.
    pub head: Text<Length>,
    /// Least reach into the deck; through it where the deck is thinner.
    pub into_deck: Text<Length>,
    /// Where it comes from.
    pub source: Source,
}

/// How many nails a strip shingle takes.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NailCount {
    /// Clause number.
    pub clause: String,
    /// Fewest, whatever the maker prints.
    pub least: u32,
    /// Steeper than this the maker's print says how many.
    pub by_maker_above: Text<Pitch>,
    /// Where it comes from.
    pub source: Source,
}

/// Lining of valleys closed over with shingles.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClosedValley {
    /// Clause number.
    pub clause: String,
    /// Least width of the sheet.
    pub least_width: Text<Length>,
    /// Where it comes from.
    pub source: Source,
}

/// Taking the old roof off.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Replacement {
    /// Clause number.
    pub clause: String,
    /// An ice barrier that sticks to the deck may stay under another.
    pub barrier_may_stay: bool,
    /// Where it comes from.
    pub source: Source,
}

/// Laying a new roof over the old one.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Recover {
    /// Clause number.
    pub clause: String,
    /// Most layers there may be before.
    pub most_layers: u32,
    /// Asphalt shingles are not laid over asphalt shingles where the map shows moderate or severe hail.
    pub hail_bars: bool,
    /// Wood shakes bar it as slate and tile do.
    pub shakes_bar: bool,
    /// Where it comes from.
    pub source: Source,
}

/// Curbs of skylights on flat slopes.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SkylightCurb {
    /// Clause number.
    pub clause: String,
    /// Asked on slopes flatter than this.
    pub flatter_than: Text<Pitch>,
    /// Least height above the roof.
    pub least_height: Text<Length>,
    /// Where it comes from.
    pub source: Source,
}

/// Plumbing vents through the roof.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlumbingVent {
    /// Clause number.
    pub clause: String,
    /// Least height above the roof.
    pub above_roof: Text<Length>,
    /// Frost is feared where the 97.5 % winter design temperature is below this.
    pub frost_below: Text<Temperature>,
    /// Least end there.
    pub frost_diameter: Text<Length>,
    /// Where a narrower pipe is widened, at least so far below the roof.
    pub widened_inside: Text<Length>,
    /// Where it comes from.
    pub source: Source,
}

/// Height of chimneys.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChimneyHeight {
    /// Clause number.
    pub clause: String,
    /// Least height above where it passes through the roof.
    pub above_roof: Text<Length>,
    /// Least height above any part of the building near it.
    pub above_near: Text<Length>,
    /// What near is, level.
    pub near: Text<Length>,
    /// Where it comes from.
    pub source: Source,
}

/// Clear way between insulation and deck at the vents.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct VentClearance {
    /// Clause number.
    pub clause: String,
    /// Least.
    pub least: Text<Length>,
    /// Where it comes from.
    pub source: Source,
}

/// Way into an attic.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AtticAccess {
    /// Clause number.
    pub clause: String,
    /// Asked of attics of this area and more.
    pub from_area: Text<Area>,
    /// And of this height and more.
    pub from_height: Text<Length>,
    /// Least rough opening, the short side first.
    pub opening: [Text<Length>; 2],
    /// Where it comes from.
    pub source: Source,
}

/// Where roof water goes on soil that swells or gives way.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Discharge {
    /// Clause number.
    pub clause: String,
    /// Least distance from the foundation.
    pub away: Text<Length>,
    /// Where it comes from.
    pub source: Source,
}

/// Eaves and rakes near the lot line.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LotLine {
    /// Clause number.
    pub clause: String,
    /// Nothing reaches out over a wall closer to the lot line than this.
    pub none_within: Text<Length>,
    /// Closer than this the underside resists fire, and its vents are limited.
    pub rated_within: Text<Length>,
    /// Where it comes from.
    pub source: Source,
}
