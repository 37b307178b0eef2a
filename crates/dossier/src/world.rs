//! The typesetter's world: the templates and faces compiled in, one paper's data as virtual files, nothing else.
//!
//! There is no file system, no network, no system font and no clock behind it, so the same files give the same bytes.
//! The typesetter keeps every file name it has ever seen for the life of the process (65 535 at most): names are fixed
//! (`/data.json`, `/figure/plan.svg`) and never made from a job's own names.
//!
//! # Assumptions and limits
//! A warning of the typesetter is an error here: it means a fault of a template or a missing face.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::LazyLock;

use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::layout::{Abs, Axes, FixedAlignment, Size};
use typst::model::Document as _;
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World, WorldExt};
use typst_layout::{Page, PagedDocument};
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards, Timestamp};

use crate::{DossierError, Paper, Prepared};

/// The one family of the papers. Drawings name it as their `font-family`.
pub const FONT_FAMILY: &str = "Source Sans 3";

const TEMPLATES: [(&str, &str); 9] = [
    ("/base.typ", include_str!("../templates/base.typ")),
    ("/code-sheet.typ", include_str!("../templates/code-sheet.typ")),
    ("/crew-book.typ", include_str!("../templates/crew-book.typ")),
    ("/diagnosis-sheet.typ", include_str!("../templates/diagnosis-sheet.typ")),
    ("/owner-winter.typ", include_str!("../templates/owner-winter.typ")),
    ("/winter-sheet.typ", include_str!("../templates/winter-sheet.typ")),
    ("/roof-sheet.typ", include_str!("../templates/roof-sheet.typ")),
    ("/owner-letter.typ", include_str!("../templates/owner-letter.typ")),
    ("/owner-water.typ", include_str!("../templates/owner-water.typ")),
];

const FACES: [&[u8]; 4] = [
    include_bytes!("../fonts/SourceSans3-Regular.otf"),
    include_bytes!("../fonts/SourceSans3-It.otf"),
    include_bytes!("../fonts/SourceSans3-Bold.otf"),
    include_bytes!("../fonts/SourceSans3-BoldIt.otf"),
];

/// The four faces.
pub(crate) fn fonts() -> &'static [Font] {
    static FONTS: LazyLock<Vec<Font>> =
        LazyLock::new(|| FACES.iter().flat_map(|face| Font::iter(Bytes::new(*face))).collect());
    &FONTS
}

/// What tells one paper from another, and its date.
#[derive(Debug)]
pub(crate) struct Attribution {
    /// What the paper is.
    pub(crate) kind: &'static str,
    pub(crate) content_hash: String,
    pub(crate) prepared: Prepared,
}

/// One paper about to be typeset.
pub(crate) struct Compositor {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    main: FileId,
    sources: BTreeMap<&'static str, Source>,
    files: BTreeMap<String, Bytes>,
    attribution: Attribution,
}

impl Compositor {
    /// A paper made by the template `main`, with no data yet.
    pub(crate) fn new(main: &'static str, attribution: Attribution) -> Self {
        let source = |(path, text): (&'static str, &str)| (path, Source::new(file_id(path), text.to_owned()));
        Self {
            library: LazyHash::new(Library::default()),
            book: LazyHash::new(FontBook::from_fonts(fonts())),
            main: file_id(main),
            sources: TEMPLATES.into_iter().map(source).collect(),
            files: BTreeMap::new(),
            attribution,
        }
    }

    /// Puts a data file where the template reads it.
    pub(crate) fn add(&mut self, path: &str, bytes: Vec<u8>) {
        self.files.insert(path.to_owned(), Bytes::new(bytes));
    }

    /// The laid-out pages.
    pub(crate) fn pages(&self) -> Result<PagedDocument, DossierError> {
        let outcome = typst::compile::<PagedDocument>(self);
        // The typesetter's memory of earlier papers would otherwise grow in a process that makes many.
        typst::comemo::evict(10);
        let document = outcome.output.map_err(|faults| self.explain(&faults))?;
        if outcome.warnings.is_empty() { Ok(document) } else { Err(self.explain(&outcome.warnings)) }
    }

    /// The paper laid out, ready to be printed on sheets of either size.
    pub(crate) fn typeset(self) -> Result<Typeset, DossierError> {
        midnight(self.attribution.prepared)?; // refused before the work, not after it
        let document = self.pages()?;
        Ok(Typeset { compositor: self, document })
    }

    fn options(&self, paper: Paper) -> Result<PdfOptions, DossierError> {
        let Attribution { kind, content_hash, prepared } = &self.attribution;
        let standards = PdfStandards::new(&[PdfStandard::A_3a, PdfStandard::Ua_1])
            .map_err(|fault| DossierError::Typesetting { messages: vec![fault.message().to_string()] })?;
        Ok(PdfOptions {
            ident: Smart::Custom(format!("{kind}, {}, {content_hash}", paper.name())), // stable over rebuilds
            creator: Smart::Custom(Some("weathershed".to_owned())),
            timestamp: Some(Timestamp::new_utc(midnight(*prepared)?)),
            standards,
            ..PdfOptions::default()
        })
    }

    fn explain(&self, diagnostics: &[SourceDiagnostic]) -> DossierError {
        DossierError::Typesetting { messages: diagnostics.iter().map(|d| self.message(d)).collect() }
    }

    /// `/base.typ:12:3: what is wrong (hint; hint)`
    fn message(&self, diagnostic: &SourceDiagnostic) -> String {
        let place = diagnostic.span.id().map_or_else(|| "export".to_owned(), |id| self.place(id, diagnostic));
        let hints: Vec<&str> = diagnostic.hints.iter().map(|hint| hint.v.as_str()).collect();
        let hints = if hints.is_empty() { String::new() } else { format!(" ({})", hints.join("; ")) };
        format!("{place}: {}{hints}", diagnostic.message)
    }

    /// File, and line and column where the file is a template.
    fn place(&self, id: FileId, diagnostic: &SourceDiagnostic) -> String {
        let position = || {
            let range = self.range(diagnostic.span)?;
            self.source(id).ok()?.lines().byte_to_line_column(range.start)
        };
        match position() {
            Some((line, column)) => format!("{}:{}:{}", path(id), line + 1, column + 1),
            None => path(id).to_owned(),
        }
    }
}

/// A paper laid out once, to be printed on sheets of either size.
pub struct Typeset {
    compositor: Compositor,
    document: PagedDocument,
}

impl Typeset {
    /// The paper as PDF/A-3a and PDF/UA-1, each page in the middle of its sheet.
    ///
    /// # Errors
    /// [`DossierError::Typesetting`] is a fault of this crate.
    pub fn pdf(&self, paper: Paper) -> Result<Vec<u8>, DossierError> {
        let options = self.compositor.options(paper)?;
        typst_pdf::pdf(&self.on(paper), &options).map_err(|faults| self.compositor.explain(&faults))
    }

    /// The pages on a sheet.
    pub(crate) fn on(&self, paper: Paper) -> PagedDocument {
        let (width, height) = paper.size().size_mm();
        let sheet = Size::new(Abs::mm(width), Abs::mm(height));
        let centred = |page: &Page| {
            let mut page = page.clone();
            page.frame.resize(sheet, Axes::splat(FixedAlignment::Center));
            page
        };
        PagedDocument::new(self.document.pages().iter().map(centred).collect(), self.document.info().clone())
    }
}

impl fmt::Debug for Typeset {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Attribution { kind, .. } = &self.compositor.attribution;
        write!(f, "{kind} of {} pages", self.document.pages().len())
    }
}

impl World for Compositor {
    fn library(&self) -> &LazyHash<Library> {
        &self.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.book
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        self.sources.get(path(id)).cloned().ok_or_else(|| not_found(id))
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        self.files.get(path(id)).cloned().ok_or_else(|| not_found(id))
    }

    fn font(&self, index: usize) -> Option<Font> {
        fonts().get(index).cloned()
    }

    /// No clock: a template that asks for today fails to compile.
    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}

fn file_id(path: &str) -> FileId {
    let path = VirtualPath::new(path).expect("template names are plain absolute paths");
    RootedPath::new(VirtualRoot::Project, path).intern()
}

fn path(id: FileId) -> &'static str {
    id.get().vpath().get_with_slash()
}

fn not_found(id: FileId) -> FileError {
    FileError::NotFound(path(id).into())
}

fn midnight(Prepared { year, month, day }: Prepared) -> Result<Datetime, DossierError> {
    Datetime::from_ymd_hms(year, month, day, 0, 0, 0).ok_or(DossierError::Date { year, month, day })
}
