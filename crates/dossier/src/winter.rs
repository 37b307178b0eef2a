//! What papers on the winter say: the sheet for the desk, the diagnosis sheet, and the part of the owner's letter. Every text finished.

use serde::Serialize;
use serde_json::{Value, json};

use crate::press::{Manuscript, body};
use crate::world::Compositor;
use crate::{AtticHold, Because, Caution, DossierError, Drawing, Fact, Head, Room, Typeset};

/// The contents of a winter sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WinterSheet {
    /// What heads it.
    #[serde(skip)]
    pub head: Head,
    /// For whom it is and how to read it.
    pub note: String,
    /// Weather, file, site.
    pub site: Vec<Fact>,
    /// The air and the snow in which fixes are compared.
    pub design: String,
    /// Each fix alone and together.
    pub fixes: Vec<FixRow>,
    /// Money of the winter's heat as found, planned and saved; empty where it is not told.
    pub money: String,
    /// What heads the columns of whole winters.
    pub season_heads: Vec<String>,
    /// The same through whole winters.
    pub seasons: Vec<SeasonRow>,
    /// What each of them changes, whether it helps, and which could not be told of.
    pub whys: Vec<String>,
    /// Where the hard winter comes from, and what the money rests on.
    pub made: Vec<String>,
    /// What is worth measuring.
    pub next: Vec<NextRow>,
    /// What of the weather was filled in, left out or corrected.
    pub filled: Vec<String>,
    /// What did not close.
    pub closing: Vec<Fact>,
    /// What is taken for granted, with its sources.
    pub parameters: Vec<Because>,
    /// Cautions.
    pub cautions: Vec<Caution>,
}

/// A fix at 22 °F under a foot of snow.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FixRow {
    /// What is done.
    pub name: String,
    /// Of the attic.
    pub attic: String,
    /// Of the deck.
    pub deck: String,
    /// Melted in a day.
    pub melt: String,
    /// Air from outdoors.
    pub vent: String,
    /// Air from the rooms.
    pub leak: String,
}

/// A fix through a typical and a hard winter, each figure of both.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SeasonRow {
    /// What is done.
    pub name: String,
    /// Ice of the building.
    pub ice: [String; 2],
    /// Melted from below.
    pub melt: [String; 2],
    /// Days with water past the membrane.
    pub days: [String; 2],
    /// Heat for ceilings and the air up through them.
    pub heat: [String; 2],
    /// What that costs.
    pub money: [String; 2],
    /// Moisture of the wettest deck.
    pub wood: [String; 2],
}

/// Something to measure.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct NextRow {
    /// What.
    pub name: String,
    /// With what.
    pub by: String,
    /// Where it is written.
    pub field: String,
    /// By how much the ice narrows.
    pub ice: String,
    /// By how much the winter's heat and its money do.
    pub heat: String,
}

/// Drawings of a winter sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct WinterFigures {
    /// Figures with their spread.
    pub bands: Drawing,
    /// Fix by fix.
    pub fixes: Drawing,
    /// Day by day.
    pub season: Drawing,
    /// Along the worst slope; none where no eave reaches past its wall.
    pub profile: Option<Drawing>,
}

/// The contents of a diagnosis sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DiagnosisSheet {
    /// What heads it.
    #[serde(skip)]
    pub head: Head,
    /// For whom it is and how to read it.
    pub note: String,
    /// What the survey knows of the house.
    pub site: Vec<Fact>,
    /// What the owner saw, and why.
    pub symptoms: Vec<SymptomPart>,
    /// What holds while leaks are sealed and insulation is laid.
    pub holds: Vec<AtticHold>,
    /// Where weights and odds come from.
    pub sources: Vec<Because>,
    /// Cautions.
    pub cautions: Vec<Caution>,
}

/// A symptom.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SymptomPart {
    /// What and where.
    pub name: String,
    /// When, and in what weather.
    pub when: String,
    /// Why, the likeliest first.
    pub causes: Vec<CauseRow>,
}

/// A cause of a symptom.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CauseRow {
    /// What it is.
    pub name: String,
    /// How likely, in words and of a hundred.
    pub likely: String,
    /// What speaks for it.
    pub speaks_for: Vec<String>,
    /// What speaks against it.
    pub speaks_against: Vec<String>,
    /// What would settle more.
    pub missing: Vec<String>,
    /// What mends it; empty for causes that are hardly so.
    pub fix: String,
    /// How it will be proved.
    pub proof: String,
}

/// The part of an owner's letter on the winter.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WinterPage {
    /// A heading and plain words for each picture.
    pub pictures: Vec<PictureText>,
    /// What was worked out, and how sure it is.
    pub limits: Vec<String>,
}

/// Words with a picture.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PictureText {
    /// Heading.
    pub heading: String,
    /// What it shows.
    pub words: String,
}

/// Typesets the winter sheet of one house. [`Room::CHART`] and [`Room::SEASON`] say how large its drawings may be.
///
/// # Errors
/// As [`crate::roof_sheet`].
pub fn winter_sheet(
    sheet: &WinterSheet,
    figures: &WinterFigures,
    job_document: &str,
) -> Result<Typeset, DossierError> {
    compose_winter(sheet, figures, job_document)?.typeset()
}

pub(crate) fn compose_winter(
    sheet: &WinterSheet,
    figures: &WinterFigures,
    job_document: &str,
) -> Result<Compositor, DossierError> {
    let WinterFigures { bands, fixes, season, profile } = figures;
    let all = [
        ("bands", Some(bands), Room::CHART),
        ("fixes", Some(fixes), Room::CHART),
        ("season", Some(season), Room::SEASON),
        ("profile", profile.as_ref(), Room::CHART),
    ];
    let path = |name: &str| format!("/figure/winter-{name}.svg");
    let mut entries = serde_json::Map::new();
    let mut drawings = Vec::new();
    for (name, drawing, room) in all {
        if let Some(drawing) = drawing {
            drawing.check(&format!("chart of {name}"), room)?;
            drawings.push((path(name), drawing));
        }
        entries.insert(name.into(), drawing.map_or(Value::Null, |drawing| drawing.entry(&path(name))));
    }
    let manuscript = Manuscript {
        template: "/winter-sheet.typ",
        kind: "winter sheet",
        head: &sheet.head,
        body: body(sheet)?,
        figures: Value::Object(entries),
        drawings,
    };
    Ok(manuscript.compose(job_document))
}

/// Typesets the diagnosis sheet of one house.
///
/// # Errors
/// As [`crate::code_sheet`].
pub fn diagnosis_sheet(sheet: &DiagnosisSheet, job_document: &str) -> Result<Typeset, DossierError> {
    compose_diagnosis(sheet, job_document)?.typeset()
}

pub(crate) fn compose_diagnosis(
    sheet: &DiagnosisSheet,
    job_document: &str,
) -> Result<Compositor, DossierError> {
    let manuscript = Manuscript {
        template: "/diagnosis-sheet.typ",
        kind: "diagnosis sheet",
        head: &sheet.head,
        body: body(sheet)?,
        figures: json!(null),
        drawings: Vec::new(),
    };
    Ok(manuscript.compose(job_document))
}
