//! What a code sheet says: every text finished, nothing left to compute.

use serde::Serialize;

use crate::press::{Manuscript, body};
use crate::world::Compositor;
use crate::{Because, Caution, DossierError, Fact, Head, Typeset};

/// The contents of a code sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CodeSheet {
    /// What heads it.
    #[serde(skip)]
    pub head: Head,
    /// For whom it is and how to read it.
    pub note: String,
    /// Edition, overlay, the readings taken, the site.
    pub site: Vec<Fact>,
    /// How many clauses fail, cannot be told and pass.
    pub counts: Vec<Fact>,
    /// Rows that do not pass, what fails first.
    pub open: Vec<CodeRow>,
    /// All rows, by part of the house.
    pub parts: Vec<CodePart>,
    /// Clauses that ask nothing of this house.
    pub unasked: Vec<CodeNote>,
    /// Clauses that others judge.
    pub others: Vec<CodeNote>,
    /// What stands on recalled texts or on assumptions.
    pub doubts: Vec<String>,
    /// Cautions.
    pub cautions: Vec<Caution>,
}

/// Rows about a part of the house.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CodePart {
    /// Its name.
    pub name: String,
    /// Its rows.
    pub rows: Vec<CodeRow>,
}

/// A clause and how it is met.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CodeRow {
    /// Number on the sheet.
    pub number: usize,
    /// As planned.
    pub verdict: CodeVerdict,
    /// Clause number.
    pub clause: String,
    /// Whether an overlay amends it.
    pub amended: bool,
    /// What it asks.
    pub asked: String,
    /// Where.
    pub places: Vec<String>,
    /// What would settle it; empty where it can be told.
    pub missing: String,
    /// What is held against it.
    pub checks: Vec<CodeCheck>,
    /// How it was reached.
    pub because: Vec<Because>,
}

/// One thing held against a clause.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CodeCheck {
    /// What of it.
    pub what: String,
    /// What is asked.
    pub required: String,
    /// As found.
    pub found: CodeState,
    /// As planned.
    pub planned: CodeState,
    /// What is provided beyond what is asked; empty where that is no number.
    pub margin: String,
}

/// What is provided in one state.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CodeState {
    /// The figure; empty where it is not known.
    pub text: String,
    /// Whether it is enough.
    pub verdict: CodeVerdict,
}

/// Whether something is met.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum CodeVerdict {
    /// It is.
    Pass,
    /// It is not.
    Fail,
    /// Something nobody wrote down decides.
    CannotTell,
    /// Nothing is there in that state, or nobody can know.
    None,
}

/// A clause that is not held against the house.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CodeNote {
    /// Clause number.
    pub clause: String,
    /// What it is about.
    pub what: String,
    /// Why, or who judges it.
    pub why: String,
}

/// Typesets the code sheet of one house, `job_document` attached unchanged as `job.toml`.
///
/// # Errors
/// A date that is not in the calendar. [`DossierError::Typesetting`] is a fault of this crate.
pub fn code_sheet(sheet: &CodeSheet, job_document: &str) -> Result<Typeset, DossierError> {
    compose(sheet, job_document)?.typeset()
}

pub(crate) fn compose(sheet: &CodeSheet, job_document: &str) -> Result<Compositor, DossierError> {
    let manuscript = Manuscript {
        template: "/code-sheet.typ",
        kind: "code sheet",
        head: &sheet.head,
        body: body(sheet)?,
        figures: serde_json::Value::Null,
        drawings: Vec::new(),
    };
    Ok(manuscript.compose(job_document))
}
