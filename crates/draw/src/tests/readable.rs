//! Every drawing is a document, stays in its frame, and none of its texts covers another.

use super::houses;
use super::page::Page;
use crate::Figure;
use crate::place::Tilted;

#[test]
fn every_drawing_is_well_formed_and_has_only_what_a_strict_page_allows() {
    const NAMES: [&str; 5] = ["svg", "title", "desc", "path", "text"];
    for house in houses::all() {
        for figure in house.drawings() {
            let page = Page::of(&figure);
            for element in &page.elements {
                assert!(NAMES.contains(&element.name.as_str()), "{}: {}", house.name, element.name);
                assert!(
                    element.get("style").is_none()
                        && element.attributes.iter().all(|(key, _)| !key.starts_with("on"))
                );
                let values = element.attributes.iter().map(|(_, value)| value.as_str());
                assert!(
                    values.clone().all(|v| !v.contains("NaN") && !v.contains("inf") && !v.contains("-0.00"))
                );
            }
            let root = &page.elements[0];
            assert_eq!(root.get("width"), Some(format!("{:.2}mm", figure.width_mm).as_str()));
            assert_eq!(
                root.get("viewBox"),
                Some(format!("0 0 {:.2} {:.2}", figure.width_mm, figure.height_mm).as_str())
            );
            assert_eq!(page.elements[2].text, figure.alt, "the description is read aloud");
        }
    }
}

#[test]
fn no_text_leaves_its_drawing_or_covers_another() {
    for house in houses::all() {
        for figure in house.drawings() {
            assert_readable(house.name, &figure);
        }
    }
}

#[test]
fn text_is_never_smaller_than_eight_point() {
    for house in houses::all() {
        for figure in house.drawings() {
            let smallest = Page::of(&figure).texts.iter().map(|t| t.text.size).fold(f64::INFINITY, f64::min);
            assert!(smallest >= 8.0 / 72.0 * 25.4, "{}: {smallest} mm", house.name);
        }
    }
}

#[test]
fn tags_of_the_examples_keep_off_each_other_and_off_all_names() {
    for house in [houses::cross_gable(), houses::hip_split_level()] {
        let page = Page::of(&house.plan());
        let tags: Vec<Tilted> = page.shapes("edge-tag").map(bounds_of_path).collect();
        assert_eq!(tags.len(), house.roof.edges.len() + 1, "every edge has its tag, and the legend one");
        let names = page.texts.iter().filter(|t| t.class != "edge-number").map(|t| t.room);
        let others: Vec<Tilted> = tags.iter().copied().chain(names).collect();
        for (i, tag) in tags.iter().enumerate() {
            let covered = others.iter().enumerate().find(|(j, other)| *j != i && tag.meets(other));
            assert_eq!(covered, None, "{}: {tag:?}", house.name);
        }
    }
}

/// The upright box around a path of straight lines.
pub(super) fn bounds_of_path(path: &super::xml::Element) -> Tilted {
    let numbers: Vec<f64> = path
        .get("d")
        .expect("a path has a shape")
        .split(|c: char| "MLZ ".contains(c))
        .filter(|part| !part.is_empty())
        .map(|part| part.parse().expect("a coordinate"))
        .collect();
    let bounds = crate::polygon::Bounds::of(numbers.chunks(2).map(|p| [p[0], p[1]]));
    Tilted::upright(bounds.at([0.5; 2]), [bounds.width() / 2.0, bounds.height() / 2.0])
}

/// All texts lie inside the drawing and apart from each other.
pub(super) fn assert_readable(name: &str, figure: &Figure) {
    let texts = Page::of(figure).texts;
    for (i, a) in texts.iter().enumerate() {
        assert!(is_inside(&a.room, figure), "{name}: {a:?} leaves the drawing");
        for b in &texts[..i] {
            // Coordinates are written to 0.01 mm.
            assert!(!a.room.grown(-0.02).meets(&b.room), "{name}: {a:?} and {b:?}");
        }
    }
}

fn is_inside(room: &Tilted, figure: &Figure) -> bool {
    let bounds = room.bounds();
    bounds.low.iter().all(|&x| x >= 0.0)
        && bounds.high[0] <= figure.width_mm
        && bounds.high[1] <= figure.height_mm
}
