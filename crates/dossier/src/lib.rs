//! The papers: typeset, tagged PDF made from finished texts and drawings.
//!
//! This crate prints and decides nothing. [`roof_papers`] turns the results of a job into texts and drawings; below that, the typesetter is handed a paper's data with every text already formatted
//! ([`RoofSheet`]), the drawings as SVG ([`Figures`]) and the job document, and returns the bytes of a PDF:
//! PDF/A-3a and PDF/UA-1, the job document attached as its source, so that the paper can be recomputed as long as it
//! can be read. The bytes depend on the arguments alone; the date is one of them.
//!
//! Texts and drawings reach the typesetter as data files, never as template source: no title or name can act as markup.

mod caution;
mod code;
mod error;
mod figure;
mod paper;
mod press;
mod printable;
mod sheet;
mod view;
mod world;

#[cfg(test)]
mod tests;

use press::Manuscript;
use world::Compositor;

pub use caution::{Caution, standing_cautions};
pub use code::{CodeCheck, CodeNote, CodePart, CodeRow, CodeSheet, CodeState, CodeVerdict, code_sheet};
pub use error::DossierError;
pub use figure::{Drawing, Figures};
pub use paper::{Paper, Room};
pub use press::Head;
pub use sheet::{
    Areas, Assumption, Basis, Because, Confidence, EdgeFamily, EdgeRow, Fact, OpeningRow, PlaneRow, Prepared,
    QuantityRow, Reading, RoofSheet, Stated, VentRow, Ventilation, Verdict,
};
pub use view::{RoofPapers, code_paper, roof_papers};
pub use world::FONT_FAMILY;

/// Typesets the roof sheet of one house.
///
/// `job_document` is attached unchanged as `job.toml`. Drawings are printed at their own size, so that a stated scale
/// holds on paper; [`Paper::plan_room`], [`Paper::view_room`] and [`Paper::plane_room`] say how large they may be.
///
/// # Errors
/// A drawing without size or description, or larger than its room; a number of plane drawings that differs from the
/// number of planes; a date that is not in the calendar. [`DossierError::Typesetting`] is a fault of this crate.
pub fn roof_sheet(
    sheet: &RoofSheet,
    figures: &Figures,
    job_document: &str,
    paper: Paper,
) -> Result<Vec<u8>, DossierError> {
    compose(sheet, figures, job_document, paper)?.pdf()
}

fn compose(
    sheet: &RoofSheet,
    figures: &Figures,
    job_document: &str,
    paper: Paper,
) -> Result<Compositor, DossierError> {
    figures.check(sheet.planes.len(), paper)?;
    let manuscript = Manuscript {
        template: "/roof-sheet.typ",
        kind: "roof sheet",
        head: &sheet.head,
        body: press::body(sheet)?,
        figures: figures.index(),
        drawings: figures.files().collect(),
    };
    Ok(manuscript.compose(job_document, paper))
}
