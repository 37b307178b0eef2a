//! Ice barrier by edition, against the clause worked out for many overhangs and pitches.

mod jobs;

use book::Book;
use jobs::made::{House, Made};
use jobs::{Counted, count, count_with, near};
use takeoff::{EaveStrip, Why};

fn gable(pitch: u32) -> String {
    format!("{{ form = \"gable\", ridge = \"x\", pitch = \"{pitch}/12\" }}")
}

fn first_eave(house: &Counted) -> &EaveStrip {
    house.takeoff.ice.eaves.first().expect("a strip")
}

/// Reach in inches and courses, by the outside face and by the inside face.
type Readings = [(f64, u64); 2];

/// Source: IRC R905.1.2 without the sentence on steep roofs, worked as (overhang + wall + 24 in) × slope factor, rounded to the inch, with courses of
/// 36 in lapped 3 1/2 in; pairs of outside face and, with a 6 in wall, inside face; 5/12 to 12/12.
const REACH_IN: [(f64, [Readings; 5]); 8] = [
    (
        0.0,
        [
            [(26.0, 1), (32.0, 1)],
            [(27.0, 1), (34.0, 1)],
            [(29.0, 1), (36.0, 2)],
            [(31.0, 1), (39.0, 2)],
            [(34.0, 1), (42.0, 2)],
        ],
    ),
    (
        6.0,
        [
            [(32.0, 1), (39.0, 2)],
            [(34.0, 1), (40.0, 2)],
            [(36.0, 2), (43.0, 2)],
            [(39.0, 2), (47.0, 2)],
            [(42.0, 2), (51.0, 2)],
        ],
    ),
    (
        12.0,
        [
            [(39.0, 2), (46.0, 2)],
            [(40.0, 2), (47.0, 2)],
            [(43.0, 2), (50.0, 2)],
            [(47.0, 2), (55.0, 2)],
            [(51.0, 2), (59.0, 2)],
        ],
    ),
    (
        16.0,
        [
            [(43.0, 2), (50.0, 2)],
            [(45.0, 2), (51.0, 2)],
            [(48.0, 2), (55.0, 2)],
            [(52.0, 2), (60.0, 2)],
            [(57.0, 2), (65.0, 2)],
        ],
    ),
    (
        18.0,
        [
            [(46.0, 2), (52.0, 2)],
            [(47.0, 2), (54.0, 2)],
            [(50.0, 2), (58.0, 2)],
            [(55.0, 2), (62.0, 2)],
            [(59.0, 2), (68.0, 2)],
        ],
    ),
    (
        24.0,
        [
            [(52.0, 2), (58.0, 2)],
            [(54.0, 2), (60.0, 2)],
            [(58.0, 2), (65.0, 2)],
            [(62.0, 2), (70.0, 3)],
            [(68.0, 2), (76.0, 3)],
        ],
    ),
    (
        30.0,
        [
            [(58.0, 2), (65.0, 2)],
            [(60.0, 2), (67.0, 2)],
            [(65.0, 2), (72.0, 3)],
            [(70.0, 3), (78.0, 3)],
            [(76.0, 3), (85.0, 3)],
        ],
    ),
    (
        36.0,
        [
            [(65.0, 2), (72.0, 3)],
            [(67.0, 2), (74.0, 3)],
            [(72.0, 3), (79.0, 3)],
            [(78.0, 3), (86.0, 3)],
            [(85.0, 3), (93.0, 3)],
        ],
    ),
];

#[test]
fn reach_and_courses_are_those_of_the_clause_for_all_overhangs_and_pitches() {
    for (overhang_in, row) in REACH_IN {
        for (pitch, [outside, inside]) in [5, 6, 8, 10, 12].into_iter().zip(row) {
            let mut house = House::plain(&gable(pitch), overhang_in / 12.0).code("irc-2024");
            let by_outside = count(&house.document());
            let strip = first_eave(&by_outside);
            let what = format!("{overhang_in} in at {pitch}/12");
            assert!(
                (strip.outside.along.inches() - outside.0).abs() <= 0.51,
                "{what}: {}",
                strip.outside.along.inches()
            );
            assert!(
                (strip.inside.along.inches() - inside.0).abs() <= 0.51,
                "{what}: {}",
                strip.inside.along.inches()
            );
            assert_eq!(strip.courses, outside.1, "{what}, outside face");
            house.wall_line = "inside";
            let by_inside = count(&house.document());
            assert_eq!(first_eave(&by_inside).courses, inside.1, "{what}, inside face");
        }
    }
}

/// IRC 2015 to 2021: at 8/12 and steeper at least 36 in along the slope. Without overhang 24 in × 1.2019 is 28.8 in.
#[test]
fn a_steep_roof_without_overhang_needs_36_in_from_2015_to_2021_only() {
    for (code, wanted) in [
        ("irc-2009", 28.84),
        ("irc-2012", 28.84),
        ("irc-2015", 36.0),
        ("irc-2018", 36.0),
        ("irc-2021", 36.0),
        ("irc-2024", 28.84),
    ] {
        let house = count(&House::plain(&gable(8), 0.0).code(code).document());
        near(first_eave(&house).outside.along.inches(), wanted, 0.01);
        assert_eq!(first_eave(&house).courses, 1, "{code}");
    }
    let flatter = count(&House::plain(&gable(7), 0.0).document());
    near(first_eave(&flatter).outside.along.inches(), 24.0 * (1.0 + 49.0 / 144.0_f64).sqrt(), 0.01);
}

/// With 18 in of overhang at 8/12 the wall line asks more than 36 in, so that sentence changes nothing.
#[test]
fn on_a_wide_overhang_the_36_in_sentence_changes_nothing() {
    let exact =
        |code| count(&House::plain(&gable(8), 1.5).code(code).document()).takeoff.ice.outside.exact.ft2();
    near(exact("irc-2018"), exact("irc-2024"), 1e-9);
}

#[test]
fn a_place_without_ice_is_asked_none_and_the_underlayment_covers_all() {
    let mut house = House::plain(&gable(6), 1.0);
    house.ice_history = false;
    let counted = count(&house.document());
    assert!(!counted.takeoff.ice.asked && counted.takeoff.ice.eaves.is_empty());
    assert!(counted.takeoff.line("ice-barrier").is_none());
    near(counted.ft2("underlayment"), counted.ft2("slope-area"), 1e-9);
}

/// IRC R905.2.2: two layers under 4/12. Nothing is covered whole below 2/12, so what the strips leave bare at 3/12 is covered twice, at 4/12 once.
#[test]
fn what_strips_leave_bare_under_4_12_is_covered_twice() {
    let rule = r#"
[[rule]]
id = "ice-barrier.full-face-below"
what = "a face flatter than this is covered whole"
value.pitch = "2/12"
source = { text = "test", confidence = "common-practice" }
"#;
    let book = Book::with_overlays(&[("whole.toml", rule)]).unwrap();
    for (pitch, layers) in [(3, 2.0), (4, 1.0)] {
        let house = count_with(&House::plain(&gable(pitch), 1.0).document(), &book);
        let bare = house.ft2("slope-area") - house.takeoff.ice.laid.exact.ft2();
        near(house.ft2("underlayment"), layers * bare, 1e-6);
    }
}

/// The exception for detached accessory buildings without conditioned floor; an attic recorded under it speaks against that.
#[test]
fn a_detached_building_is_let_off_unless_an_attic_is_recorded_under_it() {
    let mut house = House::plain(&gable(6), 1.0);
    house.blocks.push(Made::new("ell", [40.0, 0.0], [10.0, 28.0], &gable(6), 1.0, 1.0));
    house.blocks.push(Made::new("shed", [70.0, 0.0], [12.0, 10.0], &gable(6), 1.0, 1.0));
    let document = jobs::changed(&house.document(), "name = \"shed\"", "name = \"shed\"\ndetached = true");
    let counted = count(&document);
    let spared = &counted.takeoff.ice.spared;
    assert_eq!(spared.len(), 2);
    assert!(spared.iter().all(|eave| eave.why == Why::Detached));
    let heated = format!("{document}[attic.shed]\nunder = [\"shed\"]\n");
    assert!(count(&heated).takeoff.ice.spared.is_empty());
}

/// A state that asks 30 in up every slope and 12 in beyond the inner face: without overhang and with a 6 in wall 18 in level, so the 30 in.
#[test]
fn a_state_amendment_is_followed() {
    let book = Book::with_overlays(&[("state.toml", include_str!("../../book/tests/state.toml"))]).unwrap();
    let mut house = House::plain(&gable(6), 0.0).code("state");
    house.wall_line = "inside";
    let counted = count_with(&house.document(), &book);
    near(first_eave(&counted).inside.along.inches(), 30.0, 1e-9);
}

/// Closed form: a mitred ring of level width `r` in the outline; all of the roof where the ring closes.
#[test]
fn on_a_hip_roof_the_exact_area_is_a_mitred_ring() {
    for (pitch, overhang) in [(4_u32, 2.0), (6, 1.0), (6, 0.0), (9, 1.5), (12, 3.0)] {
        let roof = format!("{{ form = \"hip\", pitch = \"{pitch}/12\" }}");
        let counted = count(&House::plain(&roof, overhang).code("irc-2024").document());
        let (w, d, r) = (40.0 + 2.0 * overhang, 28.0 + 2.0 * overhang, overhang + 2.0);
        let factor = (1.0 + f64::from(pitch * pitch) / 144.0).sqrt();
        let ring = (w * d - (w - 2.0 * r) * (d - 2.0 * r)) * factor;
        near(counted.takeoff.ice.outside.exact.ft2(), ring, 1e-6);
        near(counted.takeoff.ice.outside.by_length.ft2(), 2.0 * (w + d) * r * factor, 1e-6);
    }
}

/// A mansard that breaks 1 ft inside the wall: of 3 ft of level reach, 2 ft lie on the lower planes and 1 ft above the break.
#[test]
fn above_a_pitch_break_the_reach_goes_on() {
    let roof = r#"{ form = "mansard", pitch = { lower = "18/12", upper = "6/12" }, break = "1 ft" }"#;
    let counted = count(&House::plain(roof, 1.0).code("irc-2024").document());
    let ring = |from: f64, to: f64| {
        (42.0 - 2.0 * from) * (30.0 - 2.0 * from) - (42.0 - 2.0 * to) * (30.0 - 2.0 * to)
    };
    let (lower, upper) = (3.25_f64.sqrt(), 1.25_f64.sqrt());
    near(counted.takeoff.ice.outside.exact.ft2(), ring(0.0, 2.0) * lower + ring(2.0, 3.0) * upper, 1e-6);
}

/// A reach past the ridge covers the plane and no more.
#[test]
fn a_reach_past_the_ridge_stops_there() {
    let mut house = House::plain(&gable(6), 1.0);
    house.blocks[0].size[1] = 3.0;
    let counted = count(&house.document());
    near(counted.takeoff.ice.outside.exact.ft2(), counted.ft2("slope-area"), 1e-6);
}
