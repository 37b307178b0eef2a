//! The section of every shipped detail, for the desk and for the crew: each layer has its number, nothing is written over anything.

use book::Book;
use detail::Section;
use job::Units;
use measure::{Length, Pitch};

use super::page::Page;
use super::readable::{assert_readable, bounds_of_path};
use super::xml::Element;
use crate::place::Tilted;
use crate::polygon::segment_distance;
use crate::vector::{P2, cross, sub};
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
        let is_reglet = ["sidewall-brick-reglet", "sidewall-brick-built-in at"];
        let wanted = is_let_in || is_reglet.iter().any(|id| name.starts_with(id));
        assert_eq!(Page::of(&figure).shapes("let-in").count(), usize::from(wanted), "{name}");
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
    assert_eq!(
        eave.words("drawn-short"),
        ["1: 43 3/8 in to 44 3/4 in here,", "drawn short", "6, 7: 5/8 in past the metal"]
    );
    assert_eq!(eave.shapes("break").count(), 1);
    assert!(
        eave.words("layer-name").join(" ").contains("deck 43 3/8 in to 44 3/4 in on this house, drawn short")
    );
    assert_eq!(
        Page::of(&cut("eave-gutter", None)).words("drawn-short"),
        ["1 goes on,", "drawn short", "6, 7: 5/8 in past the metal"]
    );
    assert_eq!(Page::of(&cut("rake", Some(SHORT))).words("drawn-short"), ["3, 4: 5/8 in past the metal"]);
    // the books' figure for the underlayment over it is not this house's
    let told = eave.words("layer-name").join(" ");
    assert!(told.contains("deck from the top edge of the membrane as laid, less the lap"), "{told}");
    assert!(!told.contains("24 in to 36 in"), "{told}");
}

/// Straight strokes of a path, arcs left out.
fn strokes(path: &Element) -> Vec<[P2; 2]> {
    let d = path.get("d").unwrap_or_default();
    let parts = d.split('M').filter(|part| !part.is_empty() && !part.contains('A'));
    let mut all = Vec::new();
    for part in parts {
        let numbers: Vec<f64> = part
            .split(|c: char| "LZ ".contains(c))
            .filter(|number| !number.is_empty())
            .map(|number| number.parse().unwrap())
            .collect();
        let points: Vec<P2> = numbers.chunks(2).map(|p| [p[0], p[1]]).collect();
        all.extend(points.windows(2).map(|ends| [ends[0], ends[1]]));
        if part.contains('Z') {
            all.extend(points.first().zip(points.last()).map(|(first, last)| [*last, *first]));
        }
    }
    all
}

fn strokes_of(page: &Page, class: &str) -> Vec<[P2; 2]> {
    page.shapes(class).flat_map(strokes).collect()
}

/// Whether segments cross, touching ends left out.
fn cross_each_other([a, b]: [P2; 2], [c, d]: [P2; 2]) -> bool {
    let side = |p: P2, q: P2, r: P2| cross(sub(q, p), sub(r, p));
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

/// Circles keep off all lines and each other, leaders off circles and each other.
#[test]
fn circles_and_leaders_cover_nothing() {
    for reader in [Reader::Desk, Reader::Crew] {
        for (name, _, figure) in sections(reader) {
            let page = Page::of(&figure);
            let circles: Vec<Tilted> = page.shapes("edge-tag").map(bounds_of_path).collect();
            let lines: Vec<[P2; 2]> = ["layer", "wood", "through", "slope-arrow", "fastener", "break"]
                .iter()
                .flat_map(|class| strokes_of(&page, class))
                .collect();
            let leaders = strokes_of(&page, "leader");
            assert_eq!(leaders.len(), circles.len(), "{name}");
            for (i, circle) in circles.iter().enumerate() {
                let radius = circle.half[1];
                let on = lines.iter().find(|line| segment_distance(**line, circle.center) < radius);
                assert_eq!(on, None, "{name}: circle {}", i + 1);
                let met = circles[..i].iter().find(|other| other.meets(circle));
                assert_eq!(met, None, "{name}: circle {} at {circle:?}", i + 1);
                let near = |j: &usize| segment_distance(leaders[*j], circle.center) < radius;
                assert_eq!(
                    (0..leaders.len()).filter(near).collect::<Vec<_>>(),
                    [i],
                    "{name}: circle {}",
                    i + 1
                );
            }
            for (i, leader) in leaders.iter().enumerate() {
                let over = leaders[..i].iter().find(|other| cross_each_other(*leader, **other));
                assert_eq!(over, None, "{name}: leader {}", i + 1);
            }
        }
    }
}

fn cut_of(id: &str, pitch: &str) -> Figure {
    let book = Book::builtin();
    let cut = Section::of(book.detail(id).unwrap(), pitch.parse::<Pitch>().unwrap(), &book).unwrap();
    let options =
        SectionOptions { size_mm: (183.9, 225.0), units: Units::Us, reader: Reader::Desk, short: None };
    section(&cut, &options)
}

/// 1/2 to 3/4 in past the metal's face: common practice. The metal's face is the outermost line on the fascia or barge above the gutter.
#[test]
fn shingles_and_starter_end_past_the_drip_edge() {
    for (id, joint) in [
        ("eave-gutter", 1.0),
        ("eave", 1.0),
        ("eave-over", 1.0),
        ("eave-over-bare", 1.0),
        ("rake", -1.0),
        ("rake-over", -1.0),
    ] {
        let book = Book::builtin();
        let detail = book.detail(id).unwrap();
        let page = Page::of(&cut_of(id, "6/12"));
        // bands have two strokes, their border and their tone
        let furthest = |shape: &Element| {
            let ends = strokes(shape).into_iter().flatten().map(|[x, _]| x * joint);
            ends.fold(f64::NEG_INFINITY, f64::max)
        };
        let colour = |shape: &&Element| shape.get("stroke") == Some(crate::ink::WATER);
        let metal = page.shapes("layer").filter(colour).map(furthest).fold(f64::NEG_INFINITY, f64::max);
        let bands: Vec<f64> = page
            .shapes("layer")
            .filter(|shape| shape.get("stroke") == Some("#bdbdbd"))
            .map(furthest)
            .collect();
        let past = detail.layers.iter().filter(|layer| layer.past.is_some()).count();
        assert_eq!(past, 2, "{id}: starter and shingles");
        let out = &bands[bands.len() - 2..];
        assert!(out.iter().all(|end| *end > metal + 0.5), "{id}: {out:?} and metal {metal}");
        let told = page.words("layer-name").join(" ");
        assert_eq!(told.matches("5/8 in past the metal").count(), 2, "{id}: {told}");
        assert!(page.words("drawn-short").iter().any(|line| line.ends_with("5/8 in past the metal")), "{id}");
    }
}

/// A vent pipe of 3 in has an outside diameter of 3 1/2 in (ASME B36.10 and ASTM D1785, nominal size 3).
#[test]
fn what_goes_through_is_drawn_through_wood_and_layers_to_scale() {
    for id in ["pipe-boot", "hood", "box-vent", "daylight-tube", "pipe-found"] {
        for pitch in ["2/12", "14/12"] {
            let book = Book::builtin();
            let through = book.detail(id).unwrap().through.clone().expect("an opening");
            let page = Page::of(&cut_of(id, pitch));
            let sides = page.shapes("through").next().expect("its sides");
            let xs: Vec<f64> = strokes(sides).into_iter().map(|[a, _]| a[0]).collect();
            let (left, right) = (xs[0], xs[xs.len() - 1]);
            let ratio = through.wide.m() * 1000.0 / (right - left);
            let of_the_rule = [4.0, 8.0, 12.0, 16.0, 24.0, 32.0];
            assert!(of_the_rule.iter().any(|one| (ratio / one - 1.0).abs() < 0.01), "{id}: 1 : {ratio}");
            let inside = |p: &P2| p[0] > left + 0.05 && p[0] < right - 0.05;
            let lines: Vec<P2> = strokes_of(&page, "layer").into_iter().flatten().collect();
            assert!(!lines.iter().any(inside), "{id} at {pitch}: a layer ends in the opening");
            let crosses = |[a, b]: &[P2; 2]| a[0].min(b[0]) < left && a[0].max(b[0]) > right;
            assert!(
                !strokes_of(&page, "layer").iter().any(crosses),
                "{id} at {pitch}: a layer runs across it"
            );
        }
    }
    let pipe = Book::builtin().detail("pipe-boot").unwrap().through.clone().unwrap();
    assert!((pipe.wide.m() - 3.5 * 0.0254).abs() < 1e-9);
}

/// A membrane's lip stands upright at the pipe: 3/4 in, each side.
#[test]
fn a_membrane_turns_up_at_a_pipe() {
    let page = Page::of(&cut_of("pipe-boot", "6/12"));
    let sides: Vec<P2> = page.shapes("through").flat_map(strokes).map(|[a, _]| a).collect();
    let mm_per_in = (sides[sides.len() - 1][0] - sides[0][0]) / 3.5;
    let membrane = page.shapes("layer").find(|shape| shape.get("stroke-width") == Some("0.95")).unwrap();
    let upright: Vec<f64> = strokes(membrane)
        .into_iter()
        .filter(|[a, b]| (a[0] - b[0]).abs() < 0.011 && (a[1] - b[1]).abs() > 0.011)
        .map(|[a, b]| (a[1] - b[1]).abs() / mm_per_in)
        .collect();
    assert_eq!(upright.len(), 2);
    assert!(upright.iter().all(|up| (up - 0.75).abs() < 0.01), "{upright:?}");
}
