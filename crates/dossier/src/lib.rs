//! The papers: typeset, tagged PDF made from finished texts and drawings.
//!
//! This crate prints and decides nothing. [`roof_papers`] turns the results of a job into texts and drawings; below that, the typesetter is handed a paper's data with every text already formatted
//! ([`RoofSheet`]), the drawings as SVG ([`Figures`]) and the job document, and returns the bytes of a PDF:
//! PDF/A-3a and PDF/UA-1, the job document attached as its source, so that the paper can be recomputed as long as it
//! can be read. The bytes depend on the arguments alone; the date is one of them.
//!
//! Texts and drawings reach the typesetter as data files, never as template source: no title or name can act as markup.

mod caution;
mod error;
mod figure;
mod paper;
mod printable;
mod sheet;
mod view;
mod world;

#[cfg(test)]
mod tests;

use serde_json::json;
use world::{Attribution, Compositor};

pub use caution::{Caution, standing_cautions};
pub use error::DossierError;
pub use figure::{Drawing, Figures};
pub use paper::{Paper, Room};
pub use sheet::{
    Areas, Assumption, Basis, Because, Confidence, EdgeFamily, EdgeRow, Fact, OpeningRow, PlaneRow, Prepared,
    QuantityRow, Reading, RoofSheet, Stated, VentRow, Ventilation, Verdict,
};
pub use view::{RoofPapers, roof_papers};
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
    let attribution = Attribution {
        ident: format!("roof sheet, {}, {}", paper.name(), sheet.content_hash),
        prepared: sheet.prepared,
    };
    let mut compositor = Compositor::new("/roof-sheet.typ", attribution);
    compositor.add("/data.json", data(sheet, figures, paper)?.into_bytes());
    compositor.add("/job.toml", job_document.into());
    for (path, drawing) in figures.files() {
        compositor.add(&path, printable::drawing(&drawing.svg).into_bytes());
    }
    Ok(compositor)
}

/// The data file: `document` holds the metadata as typed, everything else is fit to print.
fn data(sheet: &RoofSheet, figures: &Figures, paper: Paper) -> Result<String, DossierError> {
    let keywords: Vec<String> = sheet.keywords.iter().map(|k| printable::metadata(k)).collect();
    let document = json!({
        "title": printable::metadata(&sheet.title),
        "keywords": keywords,
    });
    let data = json!({
        "document": document,
        "page": paper.page(),
        "sheet": printable::texts(serde_json::to_value(sheet)?),
        "figures": figures.index(),
    });
    Ok(data.to_string())
}
