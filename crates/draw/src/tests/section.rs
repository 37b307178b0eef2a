//! The section of every shipped detail, for the desk and for the crew: each layer has its number, nothing is written over anything.

use book::Book;
use detail::Section;
use job::Units;
use measure::Pitch;

use super::page::Page;
use super::readable::assert_readable;
use crate::{Figure, Reader, SectionOptions, section};

/// Of all details at a low, a usual and a steep pitch.
fn sections(reader: Reader) -> Vec<(String, usize, Figure)> {
    let book = Book::builtin();
    let mut all = Vec::new();
    for detail in book.details() {
        for pitch in ["2/12", "6/12", "14/12"] {
            let cut = Section::of(detail, pitch.parse::<Pitch>().unwrap(), &book).unwrap();
            let units = if pitch == "2/12" { Units::Si } else { Units::Us };
            let figure = section(&cut, &SectionOptions { size_mm: (183.9, 95.0), units, reader });
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
            name.starts_with("chimney") && !name.contains("found") && !name.starts_with("chimney-cricket");
        let drawn = Page::of(&figure).shapes("let-in").count();
        assert_eq!(drawn, usize::from(is_let_in || name.starts_with("sidewall-brick-reglet")), "{name}");
    }
}
