//! The same input gives the same bytes; turned and mirrored houses say the same; strange input still gives a
//! document.

use job::Units;

use super::houses;
use super::page::Page;
use super::xml::elements;
use crate::{PlanOptions, Survey, plan};

#[test]
fn drawing_twice_gives_the_same_bytes() {
    let (once, again) = (houses::hip_split_level(), houses::hip_split_level());
    assert_eq!(once.drawings(), again.drawings());
}

#[test]
fn turned_house_has_the_dimensions_of_the_straight_one() {
    let straight = houses::cross_gable();
    let turned = houses::turned("turned", straight.job.clone(), 37.0);
    assert_eq!(sorted(&turned.plan()), sorted(&straight.plan()));
}

#[test]
fn mirrored_house_has_the_dimensions_of_the_plain_one() {
    let plain = houses::hip_split_level();
    let mirrored = houses::mirrored("mirrored", plain.job.clone());
    assert_eq!(sorted(&mirrored.plan()), sorted(&plain.plan()));
}

fn sorted(figure: &crate::Figure) -> Vec<String> {
    let page = Page::of(figure);
    let mut words: Vec<String> = page.words("dimension").iter().map(ToString::to_string).collect();
    words.sort_unstable();
    words
}

#[test]
fn plan_of_a_size_too_small_or_no_number_is_drawn_at_the_least_size() {
    let house = houses::cross_gable();
    for size_mm in [(0.0, -5.0), (f64::NAN, f64::NEG_INFINITY), (1.0, 1.0)] {
        let figure = plan(&house.roof, &house.survey, &PlanOptions { size_mm, units: Units::Us });
        assert_eq!((figure.width_mm, figure.height_mm), (110.0, 110.0));
        elements(&figure.svg);
    }
}

#[test]
fn hostile_names_stay_text() {
    let mut house = houses::cross_gable();
    for (i, plane) in house.roof.planes.iter_mut().enumerate() {
        plane.name = [
            "</text><script>alert(1)</script>",
            "a & b\u{0}\u{1b}",
            "\"'<!--",
            "屋根 شمال",
            &"long ".repeat(60),
        ][i]
            .into();
    }
    for opening in &mut house.roof.openings {
        opening.name = "<b>&".repeat(40);
    }
    for figure in house.drawings() {
        let page = Page::of(&figure);
        assert!(page.elements.iter().all(|e| e.name != "script" && e.name != "b"));
        super::readable::assert_readable(house.name, &figure);
    }
}

#[test]
fn roof_without_anything_gives_an_empty_sheet() {
    let roof = roof::Roof {
        planes: vec![],
        edges: vec![],
        nodes: vec![],
        walls: vec![],
        openings: vec![],
        crickets: vec![],
        walks: vec![],
        windows: vec![],
        passages: vec![],
        warnings: vec![],
    };
    let survey = Survey::default();
    elements(&plan(&roof, &survey, &PlanOptions { size_mm: (200.0, 200.0), units: Units::Si }).svg);
    elements(
        &crate::view(
            &roof,
            &survey,
            &crate::ViewOptions { size_mm: (200.0, 200.0), azimuth_degrees: f64::NAN },
        )
        .svg,
    );
}

/// What a plan says and where, to whole millimetres: readable when it changes.
fn listing(figure: &crate::Figure) -> String {
    let page = Page::of(figure);
    let line = |t: &super::page::Written| {
        format!("{:>4.0} {:>4.0}  {}: {}", t.text.at[0], t.text.at[1], t.class, t.content)
    };
    page.texts.iter().map(line).collect::<Vec<_>>().join("\n")
}

#[test]
fn plan_of_the_cross_gable_says_this() {
    insta::assert_snapshot!(listing(&houses::cross_gable().plan()));
}

#[test]
fn sheet_of_the_cross_gables_south_plane_says_this() {
    let house = houses::cross_gable();
    let south = house.roof.planes.iter().position(|plane| plane.name == "main S").unwrap();
    insta::assert_snapshot!(listing(&house.sheet(south)));
}
