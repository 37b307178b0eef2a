//! Pictures of a winter say what the winter says, and can be read.

use job::Units;

use super::page::Page;
use super::readable::assert_readable;
use super::winters;
use crate::winter::{Band, BandRow, Quantity};
use crate::{ChartOptions, bands_chart};

#[test]
fn charts_can_be_read_in_either_units() {
    for house in winters::all() {
        for units in [Units::Us, Units::Si] {
            for (name, figure) in house.charts(units) {
                assert_readable(&format!("{} {name}", house.name), &figure);
                let sizes = Page::of(&figure).texts.into_iter().map(|text| text.text.size);
                assert!(sizes.fold(f64::INFINITY, f64::min) >= 8.0 / 72.0 * 25.4, "{} {name}", house.name);
            }
        }
    }
}

#[test]
fn owners_pictures_have_few_words_one_number_and_large_letters() {
    for house in winters::all() {
        for units in [Units::Us, Units::Si] {
            for (name, figure) in house.pictures(units) {
                let name = format!("{} {name}", house.name);
                assert_readable(&name, &figure);
                let page = Page::of(&figure);
                let words: usize = page.texts.iter().map(|t| t.content.split_whitespace().count()).sum();
                assert!(words <= 25, "{name}: {words} words");
                let digits = page.texts.iter().filter(|t| t.content.contains(|c: char| c.is_ascii_digit()));
                assert_eq!(digits.count(), 1, "{name}");
                let sizes = page.texts.iter().map(|text| text.text.size);
                assert!(sizes.fold(f64::INFINITY, f64::min) >= 12.0 / 72.0 * 25.4 - 0.005, "{name}");
            }
        }
    }
}

/// The examples have all four pictures, with the numbers of their winters.
#[test]
fn numbers_on_the_owners_pictures_are_those_of_the_winter() {
    for house in [winters::cross_gable(), winters::split_level()] {
        let rows = &house.winter.ablation;
        let (found, plan) = (&rows[0], &rows[rows.len() - 1]);
        // 1 kg/s of air at 0 °C is 1/1.292 m³/s; 1 m³ is 35.3147 ft³; 1 gal of water is 3.78541 kg
        let leak = format!("{:.0} cubic feet", found.leak / 1.292 * 35.3147 * 60.0);
        let melt = format!("{:.0} gallons", found.melt_day / 3.78541);
        let times = format!("{:.0} times", plan.vent / found.vent);
        let numbers: Vec<String> = house
            .pictures(Units::Us)
            .iter()
            .map(|(_, figure)| Page::of(figure).words("number").concat())
            .collect();
        assert_eq!(numbers, [leak, melt.clone(), melt, times], "{}", house.name);
    }
}

#[test]
fn chart_of_fixes_tells_which_helps_nothing_and_why() {
    let house = winters::cross_gable();
    let charts = house.charts(Units::Us);
    let page = Page::of(&charts[1].1);
    let told = page.words("useless").join(" ");
    assert_eq!(told.matches("helps nothing").count(), house.winter.useless().len());
    assert!(told.contains("draws from the rooms"), "{told}");
    assert_eq!(page.shapes("melt").count(), house.winter.ablation.len());
}

/// As many months as the winter has, each named once under the plots.
#[test]
fn season_chart_names_its_months() {
    let house = winters::cross_gable();
    let charts = house.charts(Units::Us);
    let page = Page::of(&charts[0].1);
    let mut months: Vec<u8> = house.log.weather.iter().map(|hour| hour.date.month()).collect();
    months.dedup();
    assert_eq!(page.words("month").len(), months.len());
    assert_eq!(page.shapes("month").count(), months.len() - 1);
}

/// A lone figure is a mark, one with a spread a bar around it besides.
#[test]
fn bands_are_drawn_where_they_are_known() {
    let house = winters::cross_gable();
    let row = |found, plan| BandRow { name: "ice".into(), quantity: Quantity::Ice, found, plan };
    let rows = [
        row(Band { middle: 50.0, ends: Some([20.0, 90.0]) }, Band::lone(3.0)),
        row(Band::lone(1.0), Band::lone(1.0)),
    ];
    let options = ChartOptions { size_mm: (177.0, 200.0) };
    let figure = bands_chart(&house.scene(Units::Si), &rows, &options);
    assert_readable("bands", &figure);
    let page = Page::of(&figure);
    let counts = ["spread", "found", "planned"].map(|class| page.shapes(class).count());
    assert_eq!(counts, [1, 2, 2]);
    assert_eq!(page.words("figure")[0], "50 (20 to 90) kg/m");
}
