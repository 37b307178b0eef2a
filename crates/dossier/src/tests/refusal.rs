//! What is refused, and whether the refusal says where and how to mend it.

use super::fixture::{JOB, figures, sheet};
use crate::*;

fn refusal(change: impl FnOnce(&mut RoofSheet, &mut Figures)) -> String {
    let mut sheet = sheet();
    let mut figures = figures(&sheet);
    change(&mut sheet, &mut figures);
    roof_sheet(&sheet, &figures, JOB).unwrap_err().to_string()
}

#[test]
fn drawing_without_size_is_refused() {
    let message = refusal(|_, figures| figures.plan.svg = "<svg viewBox=\"0 0 1 1\"></svg>".into());
    assert_eq!(
        message,
        "roof plan: the svg element has no width and height in mm; write them, as in width=\"170mm\""
    );
}

#[test]
fn drawing_larger_than_its_room_is_refused() {
    let message =
        refusal(|_, figures| figures.planes[2].svg = "<svg width=\"500mm\" height=\"9mm\"></svg>".into());
    assert!(
        message.starts_with("drawing of plane 3: the drawing is 500.0 mm by 9.0 mm and its room is"),
        "{message}"
    );
}

#[test]
fn drawing_without_description_is_refused() {
    let message = refusal(|_, figures| figures.view.alt = " ".into());
    assert_eq!(message, "axonometric view: the drawing has no description; say in words what it shows");
}

#[test]
fn plane_without_drawing_is_refused() {
    let message = refusal(|_, figures| figures.planes.truncate(3));
    assert!(message.starts_with("5 planes but 3 plane drawings"), "{message}");
}

#[test]
fn day_that_is_not_in_the_calendar_is_refused() {
    let message = refusal(|sheet, _| sheet.head.prepared = Prepared { year: 2026, month: 2, day: 30 });
    assert_eq!(message, "the paper is dated 2026-02-30, which is not a day; give one that is");
}

#[test]
fn svg_that_is_no_svg_is_reported_with_its_file() {
    let message =
        refusal(|_, figures| figures.plan.svg = "<svg width=\"9mm\" height=\"9mm\"><g></svg>".into());
    assert!(message.contains("/figure/plan.svg: failed to parse SVG"), "{message}");
}
