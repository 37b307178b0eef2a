//! What a crew book says: a page for each detail to be built, every text finished.

use serde::Serialize;
use serde_json::json;

use crate::press::{self, Manuscript};
use crate::world::Compositor;
use crate::{Caution, DossierError, Drawing, Fact, Head, Room, Stated, Typeset};

/// The contents of a crew book.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CrewBook {
    /// What heads it.
    #[serde(skip)]
    pub head: Head,
    /// What holds in the attic while leaks are sealed and insulation is laid, in the order of the work.
    pub attic: Vec<AtticHold>,
    /// A page for each detail; their numbers count from 1.
    pub pages: Vec<DetailPage>,
    /// Cautions.
    pub cautions: Vec<Caution>,
}

/// A detail on this house.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DetailPage {
    /// Its name.
    pub name: String,
    /// Where it is built, in short: `edges 16, 17`.
    pub at: String,
    /// Scale of its section and how to read it.
    pub cut: String,
    /// How many layers must fail, as found and as built.
    pub stands: Vec<StandRow>,
    /// Its layers in order of laying.
    pub layers: Vec<LayerRow>,
    /// Sizes that are the same at every place.
    pub sizes: Vec<Fact>,
    /// What the other sizes are of.
    pub heads: Vec<String>,
    /// The other sizes, place by place.
    pub places: Vec<PlaceRow>,
    /// What is photographed before it is covered.
    pub holds: Vec<HoldRow>,
    /// What a mechanic would add.
    pub note: String,
}

/// How many layers must fail under one attack.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct StandRow {
    /// The attack.
    pub attack: String,
    /// As found; assumed where nobody surveyed it.
    pub found: Stated,
    /// As built.
    pub built: String,
}

/// A layer in words.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LayerRow {
    /// Its name.
    pub name: String,
    /// What it covers, laps and is fastened by.
    pub told: String,
    /// What a mechanic would add.
    pub note: String,
}

/// A place with sizes of its own.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PlaceRow {
    /// Its name.
    pub name: String,
    /// Its sizes, in the order of [`DetailPage::heads`].
    pub sizes: Vec<Stated>,
}

/// A hold point.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct HoldRow {
    /// Its number in the book.
    pub number: usize,
    /// What the photograph shows.
    pub photo: String,
    /// When it passes.
    pub passes: String,
    /// The defect it keeps away.
    pub prevents: String,
}

/// A hold point of sealing and insulating.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct AtticHold {
    /// What is done.
    pub what: String,
    /// When it passes.
    pub passes: String,
    /// What it keeps from happening.
    pub prevents: String,
}

impl From<study::heat::Hold> for AtticHold {
    fn from(hold: study::heat::Hold) -> Self {
        Self { what: hold.what, passes: hold.passes, prevents: hold.prevents }
    }
}

/// Typesets the crew book of one house. `key` shows their numbers on the roof; `sections` are drawn at their own size, one for each page; [`Room::KEY`] and [`Room::CREW`] say how large they may be.
///
/// # Errors
/// As [`crate::roof_sheet`].
pub fn crew_book(
    book: &CrewBook,
    key: &Drawing,
    sections: &[Drawing],
    job_document: &str,
) -> Result<Typeset, DossierError> {
    compose_crew(book, key, sections, job_document)?.typeset()
}

/// Where the book's template finds the plan of the details.
const KEY: &str = "/figure/key-plan.svg";

pub(crate) fn compose_crew(
    book: &CrewBook,
    key: &Drawing,
    sections: &[Drawing],
    job_document: &str,
) -> Result<Compositor, DossierError> {
    if book.pages.len() != sections.len() {
        return Err(DossierError::SectionDrawings { details: book.pages.len(), drawings: sections.len() });
    }
    key.check("plan of the details", Room::KEY)?;
    let path = |i: usize| format!("/figure/section-{}.svg", i + 1);
    for (i, drawing) in sections.iter().enumerate() {
        drawing.check(&format!("section {}", i + 1), Room::CREW)?;
    }
    let entries: Vec<_> = sections.iter().enumerate().map(|(i, drawing)| drawing.entry(&path(i))).collect();
    let drawings = sections.iter().enumerate().map(|(i, drawing)| (path(i), drawing));
    let manuscript = Manuscript {
        template: "/crew-book.typ",
        kind: "crew book",
        head: &book.head,
        body: press::body(book)?,
        figures: json!({ "key": key.entry(KEY), "sections": entries }),
        drawings: drawings.chain([(KEY.to_owned(), key)]).collect(),
    };
    Ok(manuscript.compose(job_document))
}
