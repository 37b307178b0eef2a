//! What gutters eaves need, against published figures.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

#[path = "../../roof/tests/houses/mod.rs"]
mod houses;

use book::Book;
use houses::Rect;
use job::Job;
use measure::RainRate;
use roof::{EdgeKind, Roof};
use water::{GutterNeed, Water, gutters};

fn needs(roof: &Roof, in_per_h: f64) -> Vec<GutterNeed> {
    let books = Book::builtin();
    gutters(roof, &Water::of(roof), RainRate::from_in_per_h(in_per_h), &books).unwrap()
}

/// A shed of so many square feet in plan at a pitch.
fn shed(size: [f64; 2], pitch: f64) -> Roof {
    let rect =
        Rect::new("shed", [0.0, 0.0], size, 9.0).pitches([Some(pitch), None, None, None]).overhangs([0.0; 4]);
    Roof::of_blocks(&[rect.block()]).unwrap()
}

fn least_k_style(need: &GutterNeed) -> Option<&str> {
    need.gutters.iter().map(|g| g.id.as_str()).find(|id| id.starts_with("k-style"))
}

/// Worked in a sizing guide of the sheet metal trade: 1,000 ft² at 6/12 × 1.1 × 6.8 in/h = 7,480 ft², a 6 in K-style gutter.
#[test]
fn the_guides_example_takes_a_six_inch_gutter() {
    let need = &needs(&shed([40.0, 25.0], 6.0), 6.8)[0];
    assert!((need.rating.ft2() - 7480.0).abs() < 1e-6, "{}", need.rating.ft2());
    assert_eq!(least_k_style(need), Some("k-style-6"));
}

/// 5 in K-style carries 5,520 ft² at 1 in/h, so 920 ft² at 6 in/h; flat slopes count once. A hair more takes the next size.
#[test]
fn a_gutter_is_enough_up_to_its_rating() {
    assert_eq!(least_k_style(&needs(&shed([40.0, 22.999], 3.0), 6.0)[0]), Some("k-style-5"));
    assert_eq!(least_k_style(&needs(&shed([40.0, 23.001], 3.0), 6.0)[0]), Some("k-style-6"));
    assert_eq!(least_k_style(&needs(&shed([60.0, 30.0], 3.0), 6.0)[0]), None);
}

/// Factors of the sizing guide by pitch; between its rows the steeper one.
#[test]
fn steeper_slopes_count_more_often() {
    for (pitch, factor) in
        [(1.0, 1.0), (3.0, 1.0), (3.5, 1.05), (5.0, 1.05), (8.0, 1.1), (9.0, 1.2), (12.0, 1.3), (18.0, 1.3)]
    {
        let need = &needs(&shed([10.0, 10.0], pitch), 1.0)[0];
        assert!((need.counted.ft2() - 100.0 * factor).abs() < 1e-6, "{pitch}/12");
    }
}

/// 1 in² of downspout for 1,200 ft² at 1 in/h (150 ft² at 8 in/h): 3.8 in² carry 570 ft² at 8 in/h; and one for each 50 ft of gutter.
#[test]
fn downspouts_follow_from_area_and_length() {
    let count = |size: [f64; 2]| needs(&shed(size, 3.0), 8.0)[0].downspouts[0].count;
    assert_eq!(count([30.0, 18.9]), 1);
    assert_eq!(count([30.0, 19.1]), 2);
    assert_eq!(count([51.0, 4.0]), 2);
}

/// By hand for the cross-gable: the south-west eave takes 288.259 ft² straight and the west valley's 127.407 ft²: 415.67 ft², 25.9 gpm
/// at 6 in/h before slopes are counted.
#[test]
fn a_valley_throat_goes_to_the_longer_eave() {
    let books = Book::builtin();
    let (job, _) = Job::read(include_str!("../../../examples/cross-gable.toml"), &books).unwrap();
    let roof = Roof::of(&job, &books).unwrap();
    let needs = needs(&roof, 6.0);
    let main = needs.iter().find(|n| (n.straight.ft2() - 288.259).abs() < 5e-4).unwrap();
    let whole = main.straight + main.streams;
    assert!((whole.ft2() - 415.67).abs() < 5e-3, "{}", whole.ft2());
    assert!(((RainRate::from_in_per_h(6.0) * whole).gpm() - 25.9).abs() < 0.05);
    let eaves = roof.edges.iter().filter(|e| e.kind == EdgeKind::Eave).count();
    assert_eq!(needs.len(), eaves);
}
