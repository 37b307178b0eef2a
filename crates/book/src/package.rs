//! Materials as they are sold, and the net free area of vents.
//!
//! # Validity
//! Sizes are above zero and each lap is shorter than the piece, so that a count of pieces always exists.

use std::num::NonZeroU32;

use measure::{Area, Length};
use serde::Deserialize;

use crate::lookup::LookupError;
use crate::quantity::{Share, Text};
use crate::source::{Source, words};
use crate::table::Row;

/// A material as the yard sells it.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Package {
    /// Name in job documents and price books, such as `ice-barrier`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    pub name: String,
    /// What one is called: roll, bundle, piece.
    pub unit: String,
    /// Its shape and sizes.
    pub form: Form,
    /// How thick it is, where its label or a gauge says so: metal, or a shingle at its nail line.
    pub thickness: Option<Text<Length>>,
    /// Where it comes from.
    pub source: Source,
}

/// Shape and sizes of a package.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Form {
    /// Sheet by the roll.
    Roll(Roll),
    /// Straight pieces laid end to end.
    Stick(Stick),
    /// Sold by the length it covers.
    Run(Run),
    /// Strip shingles.
    Shingle(Shingle),
    /// Step flashing.
    Step(Step),
    /// Nails.
    Nail(Nail),
    /// Sold one by one.
    Each {},
}

/// Sheet by the roll.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Roll {
    /// Width.
    pub width: Text<Length>,
    /// Length.
    pub length: Text<Length>,
    /// Lap of one course over the next.
    pub side_lap: Text<Length>,
    /// Lap where a roll ends inside a course.
    pub end_lap: Text<Length>,
}

impl Roll {
    /// Area of the sheet, laps included.
    pub fn area(&self) -> Area {
        *self.width * *self.length
    }
}

/// Straight pieces laid end to end.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stick {
    /// Length of a piece.
    pub length: Text<Length>,
    /// Lap at a joint; zero where pieces butt.
    pub lap: Text<Length>,
    /// Width, where it matters.
    pub width: Option<Text<Length>>,
}

/// Sold by the length it covers.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Run {
    /// Length covered by one package, as on its label.
    pub covers: Text<Length>,
}

/// Strip shingles.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shingle {
    /// Height of a shingle, up the slope.
    pub height: Text<Length>,
    /// Length of a shingle, along the course.
    pub length: Text<Length>,
    /// Height left visible.
    pub exposure: Text<Length>,
    /// Bundles that cover 100 square feet.
    pub bundles_per_square: NonZeroU32,
    /// Whether it is one sheet cut into tabs, which bends into a weave.
    #[serde(default)]
    pub tabs: bool,
}

impl Shingle {
    /// Roof covered by one shingle.
    pub fn covers(&self) -> Area {
        *self.exposure * *self.length
    }

    /// Overlap of a course over the course two below.
    pub fn headlap(&self) -> Length {
        *self.height - *self.exposure * 2.0
    }

    /// Roof covered by one bundle.
    pub fn bundle_covers(&self) -> Area {
        Area::from_squares(1.0 / f64::from(self.bundles_per_square.get()))
    }
}

/// Step flashing pieces.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// Leg up the wall.
    pub wall_leg: Text<Length>,
    /// Leg on the roof.
    pub roof_leg: Text<Length>,
    /// Length up the slope.
    pub length: Text<Length>,
}

/// Nails.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Nail {
    /// From the underside of the head to the point.
    pub length: Text<Length>,
    /// Across the shank.
    pub shank: Text<Length>,
    /// Across the head.
    pub head: Text<Length>,
}

impl Package {
    /// The sizes of a nail.
    pub fn nail(&self) -> Result<&Nail, LookupError> {
        if let Form::Nail(nail) = &self.form { Ok(nail) } else { Err(self.not("a nail")) }
    }

    /// The sizes of a roll.
    pub fn roll(&self) -> Result<&Roll, LookupError> {
        if let Form::Roll(roll) = &self.form { Ok(roll) } else { Err(self.not("a roll")) }
    }

    /// The sizes of straight pieces.
    pub fn stick(&self) -> Result<&Stick, LookupError> {
        if let Form::Stick(stick) = &self.form { Ok(stick) } else { Err(self.not("a straight piece")) }
    }

    /// The length covered by one.
    pub fn run(&self) -> Result<&Run, LookupError> {
        if let Form::Run(run) = &self.form { Ok(run) } else { Err(self.not("sold by the length it covers")) }
    }

    /// The sizes of a shingle.
    pub fn shingle(&self) -> Result<&Shingle, LookupError> {
        if let Form::Shingle(shingle) = &self.form { Ok(shingle) } else { Err(self.not("a shingle")) }
    }

    /// The sizes of a step flashing piece.
    pub fn step(&self) -> Result<&Step, LookupError> {
        if let Form::Step(step) = &self.form { Ok(step) } else { Err(self.not("step flashing")) }
    }

    fn not(&self, wanted: &'static str) -> LookupError {
        LookupError::Kind { row: format!("package `{}`", self.id), wanted }
    }
}

impl Row for Package {
    const TABLE: &'static str = "package";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let thickness = self.thickness.as_ref().and_then(|thickness| size_fault("thickness", thickness));
        self.form.faults().into_iter().chain(thickness).collect()
    }

    fn replaces(&self, old: &Self) -> bool {
        std::mem::discriminant(&self.form) == std::mem::discriminant(&old.form)
    }
}

impl Form {
    fn faults(&self) -> Vec<String> {
        match self {
            Self::Roll(roll) => [
                lap_fault("side_lap", &roll.side_lap, "width", &roll.width),
                lap_fault("end_lap", &roll.end_lap, "length", &roll.length),
            ]
            .into_iter()
            .flatten()
            .collect(),
            Self::Stick(stick) => lap_fault("lap", &stick.lap, "length", &stick.length)
                .into_iter()
                .chain(stick.width.as_ref().and_then(|width| size_fault("width", width)))
                .collect(),
            Self::Run(run) => size_fault("covers", &run.covers).into_iter().collect(),
            Self::Shingle(shingle) => [
                size_fault("height", &shingle.height),
                size_fault("length", &shingle.length),
                size_fault("exposure", &shingle.exposure),
            ]
            .into_iter()
            .flatten()
            .collect(),
            Self::Step(step) => [
                size_fault("wall_leg", &step.wall_leg),
                size_fault("roof_leg", &step.roof_leg),
                size_fault("length", &step.length),
            ]
            .into_iter()
            .flatten()
            .collect(),
            Self::Nail(nail) => [
                size_fault("length", &nail.length),
                size_fault("shank", &nail.shank),
                size_fault("head", &nail.head),
            ]
            .into_iter()
            .flatten()
            .collect(),
            Self::Each {} => Vec::new(),
        }
    }
}

/// Net free area of a kind of vent.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Vent {
    /// Name in job documents, such as `ridge-vent`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    pub name: String,
    /// Where it sits.
    pub place: VentPlace,
    /// Its net free area.
    pub nfa: FreeArea,
    /// Where it comes from.
    pub source: Source,
}

/// Where a vent sits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum VentPlace {
    /// Near the ridge: lets air out.
    High,
    /// At the eave: lets air in.
    Low,
}

/// Net free area of a vent.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FreeArea {
    /// Of one vent.
    Each(Text<Area>),
    /// Of each foot of vent.
    PerFoot(Text<Area>),
    /// Of its gross opening or panel.
    Share(Text<Share>),
}

impl Row for Vent {
    const TABLE: &'static str = "vent";

    fn id(&self) -> &str {
        &self.id
    }

    fn replaces(&self, old: &Self) -> bool {
        std::mem::discriminant(&self.nfa) == std::mem::discriminant(&old.nfa)
    }
}

fn size_fault(name: &str, size: &Text<Length>) -> Option<String> {
    (**size <= Length::ZERO).then(|| format!("`{name}` is {size}; it must be above zero"))
}

fn lap_fault(lap_name: &str, lap: &Text<Length>, size_name: &str, size: &Text<Length>) -> Option<String> {
    size_fault(size_name, size).or_else(|| {
        (**lap < Length::ZERO || **lap >= **size).then(|| {
            format!("`{lap_name}` is {lap}; it must be from zero to less than `{size_name}`, {size}")
        })
    })
}
