//! The section of every shipped detail, for the desk and for the crew: each layer has its number, nothing is written over anything.

use book::Book;
use detail::Section;
use job::Units;
use measure::{Length, Pitch};

use super::page::Page;
use super::readable::assert_readable;
use crate::{Figure, Reader, SectionOptions, section};

/// 44.72 and 43.33 in up the slope, as the eaves of an example house ask.
const SHORT: [Length; 2] = [Length::from_m(1.100_6), Length::from_m(1.135_9)];

/// Of all details at a low, a usual and a steep pitch.
fn sections(reader: Reader) -> Vec<(String, usize, Figure)> {
    let book = Book::builtin();
    let mut all = Vec::new();
    for detail in book.details() {
        for pitch in ["2/12", "6/12", "14/12"] {
            let cut = Section::of(detail, pitch.parse::<Pitch>().unwrap(), &book).unwrap();
            let units = if pitch == "2/12" { Units::Si } else { Units::Us };
            let figure =
                section(&cut, &SectionOptions { size_mm: (183.9, 95.0), units, reader, short: Some(SHORT) });
            all.push((format!("{} at {pitch} for {reader:?}", detail.id), cut.sheets.len(), figure));
        }
    }
    all
}

#[test]
fn every_layer_has_its_number_and_no_words_meet() {
    for reader in [Reader::Desk, Reader::Crew] {
        for (name, layers, figure) in sections(reader) {
            let mut numbers: Vec<usize> =
                Page::of(&figure).words("edge-number").iter().map(|number| number.parse().unwrap()).collect();
            numbers.sort_unstable();
            assert_eq!(numbers, (1..=layers).collect::<Vec<_>>(), "{name}");
            assert_readable(&name, &figure);
        }
    }
}

/// 14 pt is 4.94 mm; the crew's sections keep to the room their page has.
#[test]
fn numbers_for_the_crew_are_large_and_their_sections_low() {
    for (name, _, figure) in sections(Reader::Crew) {
        assert!(Page::of(&figure).texts.iter().all(|text| text.text.size >= 4.93), "{name}");
        assert!(figure.height_mm <= 95.0 + 1e-9, "{name}: {} mm", figure.height_mm);
    }
}

/// A counter-flashing goes on into its reglet; what is not let in does not.
#[test]
fn what_is_let_in_is_drawn_into_the_wall() {
    for (name, _, figure) in sections(Reader::Desk) {
        let is_let_in =
            (name.starts_with("chimney") && !name.contains("found") && !name.starts_with("chimney-cricket"))
                || name.starts_with("cricket-to-brick");
        let drawn = Page::of(&figure).shapes("let-in").count();
        assert_eq!(drawn, usize::from(is_let_in || name.starts_with("sidewall-brick-reglet")), "{name}");
    }
}

/// What goes on up the slope is broken off there, and says how far it reaches on the house.
#[test]
fn a_membrane_drawn_short_says_how_far_it_reaches() {
    let book = Book::builtin();
    let cut = |id: &str, short| {
        let cut = Section::of(book.detail(id).unwrap(), "6/12".parse::<Pitch>().unwrap(), &book).unwrap();
        let options =
            SectionOptions { size_mm: (183.9, 225.0), units: Units::Us, reader: Reader::Desk, short };
        section(&cut, &options)
    };
    let eave = Page::of(&cut("eave-gutter", Some(SHORT)));
    assert_eq!(eave.words("drawn-short"), ["1: 43 3/8 in to 44 3/4 in here,", "drawn short"]);
    assert_eq!(eave.shapes("break").count(), 1);
    assert!(
        eave.words("layer-name").join(" ").contains("deck 43 3/8 in to 44 3/4 in on this house, drawn short")
    );
    assert_eq!(Page::of(&cut("eave-gutter", None)).words("drawn-short"), ["1 goes on,", "drawn short"]);
    assert!(Page::of(&cut("rake", Some(SHORT))).words("drawn-short").is_empty());
}
