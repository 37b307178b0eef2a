//! What each edition asks, against the printed codes.
//!
//! Sources: R905.1.2 of 2015, 2018 and 2021 and its change in 2024 as building officials discuss it in public; R806.2 of
//! an older edition on a city's page and of 2012; R905.2.8.3 and .5 on pages of the 2018 and 2012 codes.

use book::{Book, Edition, HighPlace, Needs};
use measure::Length;

fn editions(check: impl Fn(&str, &Edition)) {
    let book = Book::builtin();
    for edition in book.editions() {
        check(&edition.id, edition);
    }
}

#[test]
fn editions_come_oldest_first() {
    let book = Book::builtin();
    let ids: Vec<&str> = book.editions().iter().map(|edition| edition.id.as_str()).collect();
    assert_eq!(ids, ["irc-2009", "irc-2012", "irc-2015", "irc-2018", "irc-2021", "irc-2024"]);
}

#[test]
fn the_ice_barrier_reaches_24_in_inside_the_wall_line_in_every_edition() {
    editions(|id, edition| {
        assert_eq!(*edition.ice_barrier.inside_wall_line, Length::from_in(24.0), "{id}");
        assert!(edition.ice_barrier.detached_excepted, "{id}");
    });
}

#[test]
fn the_36_in_rule_for_steep_roofs_came_in_2015_and_went_in_2024() {
    editions(|id, edition| {
        let steep = edition.ice_barrier.steep.as_ref();
        let asked = steep.map(|steep| (steep.from.rise_per_12(), steep.along_slope.inches()));
        let expected = matches!(id, "irc-2015" | "irc-2018" | "irc-2021").then_some((8.0, 36.0));
        assert_eq!(asked, expected, "{id}");
    });
}

#[test]
fn attic_vents_are_1_in_150_and_1_in_300_by_exception() {
    editions(|id, edition| {
        let vents = &edition.attic_vents;
        assert_eq!((vents.divisor.get(), vents.reduced_divisor.get()), (150, 300), "{id}");
    });
}

#[test]
fn the_vent_exception_needed_one_condition_until_2012_and_both_from_2015() {
    editions(|id, edition| {
        let expected = if edition.year <= 2012 { Needs::Any } else { Needs::All };
        assert_eq!(edition.attic_vents.reduced_needs, expected, "{id}");
    });
}

#[test]
fn the_high_share_of_vents_fell_from_50_to_80_to_40_to_50_percent_in_2012() {
    editions(|id, edition| {
        let vents = &edition.attic_vents;
        let share = (vents.high_share.least.of_one(), vents.high_share.most.of_one());
        match &vents.high_place {
            HighPlace::AboveEaveVents(above) => {
                assert_eq!((id, share, above.ft()), ("irc-2009", (0.5, 0.8), 3.0));
                assert_eq!((vents.retarder.class, vents.retarder.from_zone), (2, None));
            }
            HighPlace::BelowRidge(below) => {
                assert!(edition.year >= 2012, "{id}");
                assert_eq!((share, below.ft()), ((0.4, 0.5), 3.0), "{id}");
                assert_eq!((vents.retarder.class, vents.retarder.from_zone), (2, Some(6)), "{id}");
            }
        }
    });
}

#[test]
fn drip_edge_is_asked_from_2012() {
    editions(|id, edition| {
        let laps = edition.drip_edge.as_ref().map(|drip| (drip.lap.inches(), drip.onto_deck.inches()));
        assert_eq!(laps, (edition.year >= 2012).then_some((2.0, 2.0)), "{id}");
    });
}

#[test]
fn sidewalls_had_to_be_step_flashed_in_2009_only() {
    editions(|id, edition| {
        let flashing = &edition.sidewall_flashing;
        assert_eq!(flashing.continuous_allowed, edition.year >= 2012, "{id}");
        assert_eq!((flashing.least_height.inches(), flashing.least_width.inches()), (4.0, 4.0), "{id}");
    });
}

#[test]
fn shingles_start_at_2_in_12_and_underlayment_is_single_from_4_in_12() {
    editions(|id, edition| {
        let shingles = &edition.asphalt_shingles;
        let pitches = (shingles.least_pitch.rise_per_12(), shingles.single_underlayment_from.rise_per_12());
        assert_eq!(pitches, (2.0, 4.0), "{id}");
        assert_eq!(shingles.method_clause.is_some(), edition.year >= 2018, "{id}");
    });
}

#[test]
fn valleys_crickets_and_metal_are_the_same_in_every_edition() {
    editions(|id, edition| {
        assert_eq!(*edition.valley_metal.least_width, Length::from_in(24.0), "{id}");
        assert_eq!(*edition.cricket.wider_than, Length::from_in(30.0), "{id}");
        assert_eq!(*edition.flashing_metal.least_thickness, Length::from_in(0.019), "{id}");
    });
}

#[test]
fn the_ice_barrier_clause_moved_in_2015() {
    editions(|id, edition| {
        let expected = if edition.year < 2015 { "R905.2.7.1" } else { "R905.1.2" };
        assert_eq!(edition.ice_barrier.clause, expected, "{id}");
    });
}
