//! The papers: typeset, tagged PDF made from finished texts and drawings.
//!
//! This crate prints and decides nothing. [`roof_papers`] turns the results of a job into texts and drawings; below that, the typesetter is handed a paper's data with every text already formatted
//! ([`RoofSheet`]), the drawings as SVG ([`Figures`]) and the job document, and lays it out ([`Typeset`]) to be printed as
//! PDF/A-3a and PDF/UA-1, the job document attached as its source, so that the paper can be recomputed as long as it
//! can be read. The bytes depend on the arguments alone; the date is one of them.
//!
//! Texts and drawings reach the typesetter as data files, never as template source: no title or name can act as markup.

mod caution;
mod code;
mod crew;
mod error;
mod figure;
mod letter;
mod paper;
mod press;
mod printable;
mod sheet;
mod view;
mod winter;
mod world;

#[cfg(test)]
mod tests;

use press::Manuscript;
use serde_json::json;
use world::Compositor;

pub use caution::{Caution, owner_cautions, standing_cautions};
pub use code::{CodeCheck, CodeNote, CodePart, CodeRow, CodeSheet, CodeState, CodeVerdict, code_sheet};
pub use crew::{AtticHold, CrewBook, DetailPage, HoldRow, LayerRow, PlaceRow, StandRow, crew_book};
pub use error::DossierError;
pub use figure::{Drawing, Figures};
pub use letter::{OwnerLetter, WaterPage, WeakPlace};
pub use paper::{Paper, Room};
pub use press::Head;
pub use sheet::{
    Areas, Assumption, Basis, Because, Confidence, EdgeFamily, EdgeRow, Fact, OpeningRow, PlaneRow, Prepared,
    QuantityRow, Reading, RoofSheet, Stated, VentRow, Ventilation, Verdict,
};
pub use view::{
    Illustrated, Wintered, code_paper, crew_papers, diagnosis_paper, owner_papers, roof_papers, winter_papers,
};
pub use winter::{
    CauseRow, DiagnosisSheet, FixRow, NextRow, PictureText, SeasonRow, SymptomPart, WinterFigures,
    WinterPage, WinterSheet, diagnosis_sheet, winter_sheet,
};
pub use world::{FONT_FAMILY, Typeset};

/// Typesets the roof sheet of one house.
///
/// `job_document` is attached unchanged as `job.toml`. Drawings are printed at their own size, so that a stated scale
/// holds on paper; [`Room::PLAN`], [`Room::VIEW`] and [`Room::PLANE`] say how large they may be.
///
/// # Errors
/// A drawing without size or description, or larger than its room; a number of plane drawings that differs from the
/// number of planes; a date that is not in the calendar. [`DossierError::Typesetting`] is a fault of this crate.
pub fn roof_sheet(sheet: &RoofSheet, figures: &Figures, job_document: &str) -> Result<Typeset, DossierError> {
    compose(sheet, figures, job_document)?.typeset()
}

fn compose(sheet: &RoofSheet, figures: &Figures, job_document: &str) -> Result<Compositor, DossierError> {
    figures.check(sheet.planes.len())?;
    let manuscript = Manuscript {
        template: "/roof-sheet.typ",
        kind: "roof sheet",
        head: &sheet.head,
        body: press::body(sheet)?,
        figures: figures.index(),
        drawings: figures.files().collect(),
    };
    Ok(manuscript.compose(job_document))
}

/// Typesets the letter to the owner of one house. Its pictures are printed at their own size, so that letters are as large as they say;
/// [`Room::OWNER`] and [`Room::WINTER`] say how large they may be. There is a picture of the winter for each text of it.
///
/// # Errors
/// As [`roof_sheet`].
pub fn owner_letter(
    letter: &OwnerLetter,
    water: &Drawing,
    winter: &[Drawing],
    job_document: &str,
) -> Result<Typeset, DossierError> {
    compose_letter(letter, water, winter, job_document)?.typeset()
}

/// Where the letter's template finds its picture of the water.
const OWNER_WATER: &str = "/figure/owner-water.svg";

fn compose_letter(
    letter: &OwnerLetter,
    water: &Drawing,
    winter: &[Drawing],
    job_document: &str,
) -> Result<Compositor, DossierError> {
    water.check("picture of the water", Room::OWNER)?;
    let texts = letter.winter.as_ref().map_or(0, |page| page.pictures.len());
    if texts != winter.len() {
        return Err(DossierError::WinterPictures { texts, drawings: winter.len() });
    }
    let path = |i: usize| format!("/figure/owner-winter-{}.svg", i + 1);
    for (i, drawing) in winter.iter().enumerate() {
        drawing.check(&format!("picture {} of the winter", i + 1), Room::WINTER)?;
    }
    let entries: Vec<_> = winter.iter().enumerate().map(|(i, drawing)| drawing.entry(&path(i))).collect();
    let drawings = winter.iter().enumerate().map(|(i, drawing)| (path(i), drawing));
    let manuscript = Manuscript {
        template: "/owner-letter.typ",
        kind: "owner letter",
        head: &letter.head,
        body: press::body(letter)?,
        figures: json!({ "water": water.entry(OWNER_WATER), "winter": entries }),
        drawings: drawings.chain([(OWNER_WATER.to_owned(), water)]).collect(),
    };
    Ok(manuscript.compose(job_document))
}
