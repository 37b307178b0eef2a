//! What a program reads back from the file: archival and accessibility structure, metadata, the attached document.
//!
//! Sources: ISO 19005-3 (PDF/A-3) and ISO 14289-1 (PDF/UA-1), clauses from memory. This looks at the entries those
//! standards ask for; it is no validator.

use std::sync::LazyLock;

use hayro_syntax::Pdf;
use hayro_syntax::object::{Array, Dict, Name, Object, Stream, String as PdfString};

use super::fixture::{JOB, empty_sheet, figures, sheet};
use super::pdf;
use crate::*;

static SPECIMEN: LazyLock<Vec<u8>> = LazyLock::new(|| pdf(&sheet(), Paper::Letter));

fn specimen() -> Pdf {
    Pdf::new(SPECIMEN.clone()).unwrap()
}

fn root(pdf: &Pdf) -> Dict<'_> {
    pdf.xref().get(pdf.xref().root_id()).unwrap()
}

fn dictionaries(pdf: &Pdf) -> impl Iterator<Item = Dict<'_>> {
    pdf.objects().into_iter().filter_map(Object::into_dict)
}

fn name<'a>(dict: &Dict<'a>, key: &str) -> Option<Name<'a>> {
    dict.get::<Name<'_>>(key)
}

fn xmp(pdf: &Pdf) -> String {
    let stream: Stream<'_> = root(pdf).get("Metadata").unwrap();
    String::from_utf8(stream.decoded().unwrap().into_owned()).unwrap()
}

#[test]
fn file_is_tagged_and_names_its_language() {
    let pdf = specimen();
    let root = root(&pdf);
    assert_eq!(root.get::<Dict<'_>>("MarkInfo").unwrap().get::<bool>("Marked"), Some(true));
    assert!(root.contains_key("StructTreeRoot"));
    assert_eq!(root.get::<PdfString<'_>>("Lang").unwrap().as_bytes(), b"en-US");
    let preferences: Dict<'_> = root.get("ViewerPreferences").unwrap();
    assert_eq!(preferences.get::<bool>("DisplayDocTitle"), Some(true));
}

#[test]
fn file_declares_both_standards_and_carries_the_metadata() {
    let xmp = xmp(&specimen());
    for entry in [
        "<pdfaid:part>3</pdfaid:part>",
        "<pdfaid:conformance>A</pdfaid:conformance>",
        "<pdfuaid:part>1</pdfuaid:part>",
        "Re-roof and ice cure, 14 Orchard Lane",
        "roof sheet, cross-gable",
        "2026-11-25T00:00:00",
    ] {
        assert!(xmp.contains(entry), "{entry} not in {xmp}");
    }
}

#[test]
fn attached_job_document_reads_back_as_the_source() {
    let pdf = specimen();
    let associated: Array<'_> = root(&pdf).get("AF").unwrap();
    let file = associated.iter::<Dict<'_>>().next().unwrap();
    assert_eq!(name(&file, "AFRelationship").unwrap().as_str(), "Source");
    assert_eq!(file.get::<PdfString<'_>>("UF").unwrap().as_bytes(), b"job.toml");
    let stream: Stream<'_> = file.get::<Dict<'_>>("EF").unwrap().get("F").unwrap();
    assert_eq!(name(stream.dict(), "Subtype").unwrap().as_str(), "application/toml");
    assert_eq!(stream.decoded().unwrap().as_ref(), JOB.as_bytes());
}

#[test]
fn every_drawing_is_a_figure_with_its_description() {
    let pdf = specimen();
    let figures: Vec<_> =
        dictionaries(&pdf).filter(|d| name(d, "S").is_some_and(|s| s.as_str() == "Figure")).collect();
    assert_eq!(figures.len(), 2 + sheet().planes.len());
    assert!(figures.iter().all(|figure| figure.contains_key("Alt")));
}

#[test]
fn tables_have_head_cells() {
    let pdf = specimen();
    let heads = dictionaries(&pdf).filter(|d| name(d, "S").is_some_and(|s| s.as_str() == "TH")).count();
    assert!(heads >= 6 + 6 + 5 + 6 + 4 + 5 + 5, "{heads} head cells");
}

#[test]
fn drawings_stay_vectors_and_every_font_is_the_one_face() {
    let pdf = specimen();
    let images = pdf.objects().into_iter().filter_map(Object::into_stream);
    assert_eq!(
        images.filter(|s| name(s.dict(), "Subtype").is_some_and(|s| s.as_str() == "Image")).count(),
        0
    );
    let fonts: Vec<String> =
        dictionaries(&pdf).filter_map(|d| name(&d, "BaseFont").map(|n| n.as_str().to_owned())).collect();
    assert!(!fonts.is_empty());
    assert!(fonts.iter().all(|font| font.contains("SourceSans3")), "{fonts:?}");
}

#[test]
fn same_arguments_give_the_same_bytes() {
    assert!(pdf(&sheet(), Paper::Letter) == *SPECIMEN);
    assert!(pdf(&sheet(), Paper::A4) == pdf(&sheet(), Paper::A4));
}

#[test]
fn page_sizes_are_letter_and_a4() {
    let size = |paper| {
        let pdf = Pdf::new(pdf(&empty_sheet(), paper)).unwrap();
        let (width, height) = pdf.pages()[0].render_dimensions();
        (width.round(), height.round())
    };
    assert_eq!(size(Paper::Letter), (612.0, 792.0));
    assert_eq!(size(Paper::A4), (595.0, 842.0));
}

/// Letter is 2.95 mm wider on each side than what is laid out, A4 8.8 mm higher above and below.
#[test]
fn pages_stand_alike_in_the_middle_of_both_sheets() {
    let typeset = roof_sheet(&sheet(), &figures(&sheet()), JOB).unwrap();
    let first = |paper| {
        let document = typeset.on(paper);
        let (at, _) = document.pages()[0].frame.items().next().unwrap();
        (document.pages().len(), at.x.to_mm(), at.y.to_mm())
    };
    let (letter, a4) = (first(Paper::Letter), first(Paper::A4));
    assert_eq!(letter.0, a4.0);
    assert!(
        (letter.1 - a4.1 - 2.95).abs() < 1e-9 && (a4.2 - letter.2 - 8.8).abs() < 1e-9,
        "{letter:?} {a4:?}"
    );
}

/// Whatever is let through to the page must be accepted by the archival export, in all four faces.
#[test]
fn every_character_held_to_be_printable_exports() {
    let printable: Vec<char> = ('\u{0}'..='\u{2FFFF}').filter(|c| printable::is_printable(*c)).collect();
    assert!(printable.len() > 1500, "{}", printable.len());
    let mut sheet = empty_sheet();
    for chunk in printable.chunks(400) {
        // A base before each keeps combining marks apart.
        let text: String = chunk.iter().flat_map(|c| ['o', *c]).collect();
        sheet.cautions.push(Caution { heading: text.clone(), text: text.clone() });
        sheet.site.push(Fact { label: text.clone(), value: Stated::assumed(text) });
    }
    sheet.plane_total.plan = Stated::assumed(printable.iter().take(60).collect::<String>());
    assert!(pdf(&sheet, Paper::Letter).starts_with(b"%PDF"));
}
