//! The order of laying of every shipped detail: each layer once, in its panel, nothing over anything.

use book::{Book, Stage};
use detail::Section;
use job::Units;
use measure::Pitch;

use super::page::Page;
use super::readable::{assert_readable, bounds_of_path};
use super::xml::Element;
use crate::{Figure, Reader, SectionOptions, laying_strip, section};

/// Of all planned details at a low and a steep pitch.
fn strips(units: Units) -> Vec<(String, usize, Vec<Figure>)> {
    let book = Book::builtin();
    let mut all = Vec::new();
    for detail in book.details().filter(|detail| detail.stage == Stage::Planned) {
        for pitch in ["3/12", "12/12"] {
            let section = Section::of(detail, pitch.parse::<Pitch>().unwrap(), &book).unwrap();
            let options =
                SectionOptions { size_mm: (180.0, 216.0), units, reader: Reader::Desk, short: None };
            all.push((detail.id.clone(), section.sheets.len(), laying_strip(&section, &options)));
        }
    }
    all
}

#[test]
fn every_layer_has_its_picture_in_order() {
    for (name, layers, sheets) in strips(Units::Us) {
        let pages: Vec<Page> = sheets.iter().map(Page::of).collect();
        let heads: Vec<&str> = pages.iter().flat_map(|page| page.words("layer-name")).collect();
        assert_eq!(heads.len(), layers + 1, "{name}: and the wood");
        for (number, head) in heads.iter().enumerate().skip(1) {
            assert!(head.starts_with(&format!("{number}  ")), "{name}: {head}");
        }
        let numbers: Vec<&str> = pages.iter().flat_map(|page| page.words("edge-number")).collect();
        assert_eq!(numbers, (1..=layers).map(|n| n.to_string()).collect::<Vec<_>>(), "{name}");
    }
}

/// A gutter is hung when the roof over its back is laid; in the section it bears the same number.
#[test]
fn a_gutter_is_hung_last() {
    let book = Book::builtin();
    for id in ["eave-gutter", "eave-over"] {
        let cut = Section::of(book.detail(id).unwrap(), "6/12".parse::<Pitch>().unwrap(), &book).unwrap();
        let options =
            SectionOptions { size_mm: (180.0, 216.0), units: Units::Us, reader: Reader::Desk, short: None };
        let strip: Vec<Page> = laying_strip(&cut, &options).iter().map(Page::of).collect();
        let heads: Vec<&str> = strip.iter().flat_map(|page| page.words("layer-name")).collect();
        let last = heads.last().copied().unwrap();
        assert_eq!(last, format!("{}  gutter", cut.sheets.len()), "{id}");
        let drip = heads.iter().position(|head| head.ends_with("  drip edge")).unwrap();
        assert!(heads[..drip].iter().any(|head| head.ends_with("  flashing behind gutter")), "{id}");
        let listed = Page::of(&section(&cut, &options));
        let wanted = format!("{}: ", last.replace("  ", " "));
        assert!(listed.words("layer-name").iter().any(|line| line.starts_with(&wanted)), "{id}");
    }
}

#[test]
fn words_of_all_details_lie_apart_and_inside() {
    for units in [Units::Us, Units::Si] {
        for (name, _, sheets) in strips(units) {
            for sheet in &sheets {
                assert_readable(&name, sheet);
            }
        }
    }
}

/// What is drawn after a panel's frame lies inside it.
#[test]
fn every_picture_keeps_to_its_panel() {
    for (name, _, sheets) in strips(Units::Us) {
        for sheet in &sheets {
            let page = Page::of(sheet);
            let mut frame = None;
            for element in page.elements.iter().filter(|e| e.name == "path") {
                if element.get("class") == Some("panel") {
                    frame = Some(bounds_of_path(element).bounds());
                }
                let Some(frame) = frame.filter(|_| is_straight(element)) else { continue };
                let bounds = bounds_of_path(element).bounds();
                let is_inside = (0..2)
                    .all(|i| bounds.low[i] >= frame.low[i] - 0.01 && bounds.high[i] <= frame.high[i] + 0.01);
                assert!(is_inside, "{name}: {element:?}");
            }
        }
    }
}

fn is_straight(path: &Element) -> bool {
    path.get("d").is_some_and(|d| !d.is_empty() && !d.contains('A'))
}

/// Steps of a sidewall: 8 in long, each laps the next by 2 in, the wrap strip laps over them by 2 in (books/details/walls.toml).
#[test]
fn laps_and_fasteners_are_told() {
    let all = strips(Units::Us);
    let (_, _, sheets) = all.iter().find(|(name, ..)| name == "sidewall-lap-siding").unwrap();
    let told: String = sheets.iter().map(|sheet| sheet.alt.as_str()).collect::<Vec<_>>().join(" ");
    for words in [
        "8\" long, pieces lap 2 in",
        "over steps by 2 in and more",
        "held: one nail in the high outer corner",
    ] {
        assert!(told.contains(words), "{words}: {told}");
    }
}
