//! What a roof sheet says: every text finished, nothing left to compute.
//!
//! Lengths, areas and pitches arrive as the words to print; [`Stated`] adds whether they rest on measurement or on an
//! assumption, because the paper sets the two differently. The order of the rows is the order on paper.

use serde::Serialize;

use crate::{Caution, Head};

/// The contents of a roof sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RoofSheet {
    /// What heads it.
    #[serde(skip)]
    pub head: Head,
    /// How to read the numbers: "lengths in feet and inches to 1/8 in, areas in ft²".
    pub units_note: String,
    /// Code edition, ground snow, rain and the like.
    pub site: Vec<Fact>,
    /// The few numbers that sum the roof up: squares, plan area, slope area.
    pub key_numbers: Vec<Fact>,
    /// Edge length by what the edge does to water.
    pub edge_families: Vec<EdgeFamily>,
    /// Planes of the roof.
    pub planes: Vec<PlaneRow>,
    /// Sums over the planes.
    pub plane_total: Areas,
    /// Edges of the roof.
    pub edges: Vec<EdgeRow>,
    /// Pipes, chimneys, skylights and the like.
    pub openings: Vec<OpeningRow>,
    /// Quantities, each with its reasons.
    pub quantities: Vec<QuantityRow>,
    /// Attic ventilation as found and as planned, where the job has an attic.
    pub ventilation: Option<Ventilation>,
    /// Tape readings beyond those that were needed, with what is left over after adjustment.
    pub readings: Vec<Reading>,
    /// Every value that was assumed because nobody measured it.
    pub assumptions: Vec<Assumption>,
    /// Cautions: [`crate::standing_cautions`] and the job's own.
    pub cautions: Vec<Caution>,
}

/// A calendar day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Prepared {
    /// Year.
    pub year: i32,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day of the month.
    pub day: u8,
}

/// A value as printed, and what it rests on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Stated {
    /// The value with its unit.
    pub text: String,
    /// What it rests on.
    pub basis: Basis,
}

/// What a value rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Basis {
    /// Measured, or computed from measured values alone. Set upright.
    Measured,
    /// At least one value behind it is assumed. Set in italic with a mark.
    Assumed,
}

impl Stated {
    /// A value that rests on measurement alone.
    pub fn measured(text: impl Into<String>) -> Self {
        Self { text: text.into(), basis: Basis::Measured }
    }

    /// A value with an assumption behind it.
    pub fn assumed(text: impl Into<String>) -> Self {
        Self { text: text.into(), basis: Basis::Assumed }
    }
}

/// A label with its value.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Fact {
    /// What it is.
    pub label: String,
    /// Its value.
    pub value: Stated,
}

/// Total length of the edges that do the same to water.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct EdgeFamily {
    /// "divides", "gathers", "lets go", "ends".
    pub name: String,
    /// Sum over the family.
    pub length: Stated,
    /// The kinds in it with their own lengths: "ridge 65′-0″".
    pub kinds: String,
}

/// Areas of a plane or of the whole roof.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Areas {
    /// Area seen from above.
    pub plan: Stated,
    /// Area on the slope.
    pub slope: Stated,
    /// Area on the slope in squares.
    pub squares: Stated,
}

/// One plane.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PlaneRow {
    /// Block and compass letter: "main N".
    pub name: String,
    /// Pitch.
    pub pitch: Stated,
    /// Which way it faces.
    pub faces: String,
    /// Height of its lowest point above the job's datum.
    pub low: Stated,
    /// Height of its highest point above the job's datum.
    pub high: Stated,
    /// Its areas.
    pub areas: Areas,
    /// Numbers of the edges around it, as in [`EdgeRow::number`].
    pub edges: Vec<String>,
}

/// One edge.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct EdgeRow {
    /// Number on the drawings.
    pub number: String,
    /// Ridge, hip, valley, eave, rake, ...
    pub kind: String,
    /// True length.
    pub length: Stated,
    /// Its slope, or "level".
    pub slope: Stated,
    /// The planes and walls it lies between.
    pub planes: String,
    /// Where it begins.
    pub from: String,
    /// Where it ends.
    pub to: String,
}

/// One opening or thing standing on the roof.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct OpeningRow {
    /// Its name in the job.
    pub name: String,
    /// Pipe, chimney, skylight, ...
    pub kind: String,
    /// Found, planned, to be removed.
    pub state: String,
    /// The plane it lies on, as in [`PlaneRow::name`].
    pub plane: String,
    /// Distances that place it: "3′-4″ to ridge 1".
    pub distances: Vec<Stated>,
}

/// One quantity to order or to do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct QuantityRow {
    /// What.
    pub item: String,
    /// Amount the geometry asks for.
    pub net: Stated,
    /// Number of packages.
    pub ordered: Stated,
    /// The package: "roll of 200 ft²".
    pub package: String,
    /// How the amounts were reached, step by step.
    pub because: Vec<Because>,
}

/// One step of how a number was reached.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Because {
    /// What this step gives.
    pub what: String,
    /// The numbers that went in.
    pub inputs: String,
    /// The formula or clause applied.
    pub rule: String,
    /// Where the rule comes from.
    pub source: String,
    /// How far the source can be trusted.
    pub confidence: Confidence,
}

/// How far a source can be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Confidence {
    /// Published, and seen in print.
    Published,
    /// Published, cited from memory.
    FromMemory,
    /// Common practice of the trade, without one source.
    CommonPractice,
    /// Computed from the geometry.
    Computed,
    /// Assumed for want of better.
    Assumed,
}

/// Attic ventilation, before and after.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Ventilation {
    /// Openings, sums and what the code asks.
    pub rows: Vec<VentRow>,
    /// How the numbers were reached.
    pub because: Vec<Because>,
}

/// One line of the ventilation table.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct VentRow {
    /// What.
    pub name: String,
    /// As found.
    pub found: Stated,
    /// As planned.
    pub plan: Stated,
    /// Planned over found; empty where it says nothing.
    pub ratio: String,
}

/// A spare reading and what the adjustment made of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Reading {
    /// What was measured.
    pub name: String,
    /// As read.
    pub read: String,
    /// After adjustment.
    pub adjusted: String,
    /// Read less adjusted.
    pub residual: String,
    /// What to make of it.
    pub verdict: Verdict,
}

/// What to make of a reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// The residual is within the spread of such a reading.
    Agrees,
    /// The reading most at odds with the others.
    FirstSuspect,
}

/// A value nobody measured.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Assumption {
    /// What is assumed.
    pub name: String,
    /// The value taken.
    pub value: String,
    /// How far it may be off.
    pub spread: String,
    /// Where the value comes from.
    pub source: String,
    /// How far the source can be trusted.
    pub confidence: Confidence,
    /// The results it touches.
    pub touches: String,
}
