//! The plan of the details says at each place which details are built there.

use detail::{At, Details};

use super::houses::{self, House};
use super::page::Page;
use super::readable::assert_readable;
use crate::{Figure, PlanOptions, key_plan};

/// Every place with a number of its own, in the order of the places.
fn numbered(house: &House) -> Vec<(At, Vec<usize>)> {
    let details = Details::of(&house.roof, &house.job, &book::Book::builtin()).unwrap();
    let mut places: Vec<At> = details.places.iter().map(|place| place.at).collect();
    places.sort();
    places.dedup();
    places.into_iter().enumerate().map(|(i, at)| (at, vec![i + 1])).collect()
}

fn key(house: &House, numbers: &[(At, Vec<usize>)], size_mm: (f64, f64)) -> Figure {
    key_plan(&house.roof, &house.survey, numbers, &PlanOptions { size_mm, units: house.job.units })
}

#[test]
fn key_plans_of_all_houses_can_be_read_at_any_size() {
    for house in houses::all() {
        for size in [(178.0, 116.0), (110.0, 110.0)] {
            assert_readable(house.name, &key(&house, &numbered(&house), size));
        }
    }
}

#[test]
fn every_place_has_its_number_once_or_is_counted_as_left_out() {
    for house in [houses::cross_gable(), houses::hip_split_level()] {
        let numbers = numbered(&house);
        let figure = key(&house, &numbers, (178.0, 116.0));
        let page = Page::of(&figure);
        let mut told: Vec<usize> = page.words("detail-number").iter().map(|n| n.parse().unwrap()).collect();
        told.sort_unstable();
        let count = told.len();
        told.dedup();
        assert_eq!(told.len(), count, "{}: no number twice", house.name);
        let left_out = numbers.len() - count;
        let note = page.words("left-out").concat();
        assert_eq!(note.contains(&format!(": {left_out} place")), left_out > 0, "{}: {note}", house.name);
        assert!(left_out * 10 <= numbers.len(), "{}: {left_out} of {} left out", house.name, numbers.len());
    }
}

#[test]
fn several_details_at_one_place_stand_together_in_fourteen_point() {
    let house = houses::cross_gable();
    let chimney = house.roof.openings.iter().position(|opening| opening.name == "chimney").unwrap();
    let page = Page::of(&key(&house, &[(At::Opening(chimney), vec![8, 9, 10])], (178.0, 116.0)));
    assert_eq!(page.words("detail-number"), ["8–10"]);
    let smallest = page.texts.iter().map(|t| t.text.size).fold(f64::INFINITY, f64::min);
    // Sizes are written to 0.01 mm.
    assert!((smallest - 14.0 / 72.0 * 25.4).abs() < 0.01, "{smallest}");
}
