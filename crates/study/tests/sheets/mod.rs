//! Code sheets for tests: the two example houses, changed where a test says so, and houses made to measure.
#![allow(dead_code, unreachable_pub, reason = "each test binary uses its own part")]

#[path = "../../../takeoff/tests/jobs/made.rs"]
mod made;

use std::sync::LazyLock;

use book::Book;
use job::{Job, Units};
use made::House;
use study::Study;
use study::code::{CodeSheet, Figure, Row, Verdict};

pub const CROSS_GABLE: &str = include_str!("../../../../examples/cross-gable.toml");
pub const HIP_SPLIT_LEVEL: &str = include_str!("../../../../examples/hip-split-level.toml");

/// The books as the program carries them.
pub static BOOKS: LazyLock<Book> = LazyLock::new(Book::builtin);

/// The code sheet of a document, which must be sound.
pub fn sheet(document: &str) -> CodeSheet {
    sheet_with(document, &BOOKS)
}

/// The same with an overlay on the books.
pub fn sheet_over(document: &str, overlay: &str) -> CodeSheet {
    let book =
        Book::with_overlays(&[("overlay.toml", overlay)]).unwrap_or_else(|problems| panic!("{problems}"));
    sheet_with(document, &book)
}

fn sheet_with(document: &str, book: &Book) -> CodeSheet {
    let (job, _) = Job::read(document, book).unwrap_or_else(|problems| panic!("{problems:#?}\n{document}"));
    Study::of(&job, book).unwrap_or_else(|problems| panic!("{problems:#?}\n{document}")).code
}

/// A document with one text in place of another, which must be there.
pub fn changed(document: &str, from: &str, to: &str) -> String {
    assert!(document.contains(from), "no `{from}` to change");
    document.replacen(from, to, 1)
}

/// One block of 40 by 28 ft under a gable, its eaves so many inches out, its rakes 12 in.
pub fn gable(code: &str, pitch: &str, overhang_in: f64) -> String {
    let roof = format!("{{ form = \"gable\", ridge = \"x\", pitch = \"{pitch}\" }}");
    let mut house = House::plain(&roof, overhang_in / 12.0);
    house.blocks[0].rake = 1.0;
    house.more.push_str("deck = { kind = \"plywood\", thickness = \"1/2 in\" }\n");
    let document = changed(&house.document(), "irc-2018", code);
    let document = changed(&document, "rain = ", "climate_zone = \"6A\"\nrain = ");
    changed(&document, "exposure = ", "layers = 1\nexposure = ")
}

/// The one row of a rule at a place.
pub fn row<'a>(sheet: &'a CodeSheet, rule: &'a str, place: &str) -> &'a Row {
    let mut rows = sheet.rule(rule).filter(|row| row.places.iter().any(|name| name == place));
    let found =
        rows.next().unwrap_or_else(|| panic!("no row `{rule}` at {place}: {:#?}", places(sheet, rule)));
    assert!(rows.next().is_none(), "two rows `{rule}` at {place}");
    found
}

/// Places a rule is asked at.
pub fn places(sheet: &CodeSheet, rule: &str) -> Vec<String> {
    sheet.rule(rule).flat_map(|row| row.places.clone()).collect()
}

/// The planned verdict of the one row of a rule, wherever it is.
pub fn verdict(sheet: &CodeSheet, rule: &str) -> Verdict {
    let rows: Vec<&Row> = sheet.rule(rule).collect();
    assert_eq!(rows.len(), 1, "rows of `{rule}`: {rows:#?}");
    rows[0].planned.clone()
}

/// That something nobody wrote down decides.
pub fn missing(what: &str) -> Verdict {
    Verdict::CannotTell { missing: what.to_owned() }
}

/// Required, found and planned of a check, as papers in feet and inches write them.
pub fn written(row: &Row, check: usize) -> [String; 3] {
    row.checks[check].written(Units::Us)
}

/// A length in inches.
pub fn inches(figure: Option<Figure>) -> f64 {
    match figure {
        Some(Figure::Length(length)) => length.inches(),
        other => panic!("{other:?} is no length"),
    }
}

/// A free area in square inches.
pub fn in2(figure: Option<Figure>) -> f64 {
    match figure {
        Some(Figure::FreeArea(area)) => area.in2(),
        other => panic!("{other:?} is no free area"),
    }
}

pub fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted} within {within}");
}
