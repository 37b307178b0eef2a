//! Pictures of water say what the water says.

use super::houses;
use super::page::Page;
use crate::{PlanOptions, owner_water};
use job::Units;
use measure::Area;

/// The number a text begins with.
fn number(words: &str) -> f64 {
    let number: String = words.chars().take_while(|c| c.is_ascii_digit() || *c == '.').collect();
    number.parse().unwrap_or_else(|_| panic!("{words} begins with no number"))
}

/// Amounts are written to three figures: each is off by half of the last at most.
fn rounding(words: &[&str]) -> f64 {
    words.iter().map(|words| if number(words) < 9.995 { 0.005 } else { 0.05 }).sum()
}

#[test]
fn amounts_that_leave_add_up_to_the_rain() {
    for house in [houses::cross_gable(), houses::hip_split_level()] {
        let page = Page::of(&house.water_plan());
        let words = page.words("leaves");
        let sum: f64 = words.iter().map(|words| number(words)).sum();
        let rain = (house.job.site.rain.value * house.drainage.water.rain).gpm();
        assert!((sum - rain).abs() <= rounding(&words), "{}: {sum} of {rain}", house.name);
    }
}

/// Without gutters, worked by hand: the two valleys gather 127.407 ft² each, and 1 in/h on 96.25 ft² is 1 gpm.
#[test]
fn valleys_of_the_cross_gable_carry_what_they_gather() {
    let page = Page::of(&houses::cross_gable().water_plan());
    let told = format!("{:.2} gpm", 6.0 * 127.407 / 96.25);
    assert_eq!(page.words("flow").iter().filter(|words| **words == told).count(), 2);
}

#[test]
fn every_trouble_of_the_list_has_its_ring_and_key() {
    for house in houses::all() {
        let page = Page::of(&house.water_plan());
        let keys = page.words("trouble-key");
        let rings = page.shapes("trouble").count();
        let listed = page.texts.iter().filter(|t| t.class == "trouble-key" && t.text.size < 3.0).count();
        // The legend has a ring for each of its two kinds.
        assert!(rings >= listed && rings <= listed + 2, "{}: {rings} rings for {listed}", house.name);
        for key in 1..=listed {
            let key = format!("!{key}");
            assert!(keys.iter().any(|k| **k == key), "{}: {key}", house.name);
        }
    }
}

#[test]
fn gutters_of_the_examples_hang_and_their_downspouts_stand() {
    for house in [houses::cross_gable(), houses::hip_split_level()] {
        let page = Page::of(&house.water_plan());
        let spouts: usize = house.drainage.gutters.iter().map(|g| g.downspouts.len()).sum();
        assert_eq!(page.shapes("gutter").count(), house.drainage.gutters.len() + 1, "and one in the legend");
        assert_eq!(page.shapes("spout").count(), 2 * (spouts + 1), "a ring and a dot each");
    }
}

#[test]
fn owners_picture_has_few_words_one_number_and_large_letters() {
    for house in houses::all() {
        let page = Page::of(&house.owner_water());
        let words: usize = page.texts.iter().map(|t| t.content.split_whitespace().count()).sum();
        assert!(words <= 25, "{}: {words} words", house.name);
        let numbers = page.texts.iter().filter(|t| t.content.contains(|c: char| c.is_ascii_digit())).count();
        assert_eq!(numbers, 1, "{}", house.name);
        let smallest = page.texts.iter().map(|t| t.text.size).fold(f64::INFINITY, f64::min);
        assert!(smallest >= 12.0 / 72.0 * 25.4 - 0.005, "{}: {smallest} mm", house.name);
    }
}

#[test]
fn owner_of_the_cross_gable_is_told_of_the_stream_beside_the_wall() {
    let house = houses::cross_gable();
    let page = Page::of(&house.owner_water());
    let gallons = (6.0 * 127.407 / 96.25_f64).round();
    assert_eq!(page.words("number"), [format!("{gallons} gallons")]);
    assert_eq!(page.shapes("trouble").count(), 1);
}

#[test]
fn assumed_rain_marks_every_amount() {
    let house = houses::cross_gable();
    let scene = crate::WaterScene { is_rain_assumed: true, ..house.water() };
    let options = PlanOptions { size_mm: (180.0, 216.0), units: Units::Si };
    let page = Page::of(&crate::water_plan(&scene, &options));
    for class in ["leaves", "flow", "passes-on"] {
        assert!(
            !page.words(class).is_empty() && page.words(class).iter().all(|words| words.ends_with("L/s◊"))
        );
    }
    let owner = Page::of(&owner_water(&scene, &options));
    assert!(owner.words("number")[0].ends_with('◊'));
}

#[test]
fn dry_house_says_no_amount() {
    let house = houses::tiny_shed();
    let mut scene = house.water();
    let dry = water::Water {
        edges: vec![water::EdgeFlow::default(); house.roof.edges.len()],
        outlets: Vec::new(),
        falls: Vec::new(),
        rain: Area::ZERO,
        ..house.bare.clone()
    };
    let drainage = water::Drainage { water: dry.clone(), ..house.drainage.clone() };
    (scene.bare, scene.drainage) = (&dry, &drainage);
    let page =
        Page::of(&crate::water_plan(&scene, &PlanOptions { size_mm: (180.0, 160.0), units: Units::Us }));
    assert!(page.words("leaves").is_empty());
}
