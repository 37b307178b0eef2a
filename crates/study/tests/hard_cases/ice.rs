//! Eaves and what stands in their ice barrier.

use measure::Pitch;
use roof::EdgeKind;
use study::Study;
use study::code::Verdict;
use takeoff::{EaveStrip, Why};

use crate::sheets::{changed, gable, verdict};
use crate::support::{block, built, eave, edge, edges, house, near, opening, study, warned, warns};

/// The strip along the south eave.
fn strip(study: &Study) -> &EaveStrip {
    let south = eave(&study.roof, "main S");
    study.takeoff.ice.eaves.iter().find(|strip| strip.edge == south).expect("a strip")
}

/// 12 in of overhang and 24 in at 6/12 reach 36 × 1.118 = 40.25 in up the slope. The eave lies at y -1 ft; a skylight of 40 in centred 3 ft up
/// the plan has its sill at 4 ft × 1.118 - 20 in = 33.67 in: 6.58 in inside, and 12 in more to be clear of it.
#[test]
fn a_skylight_inside_the_ice_barrier_zone_is_moved_up_the_slope() {
    let at = |y: &str, state: &str| {
        study(
            &(gable("irc-2018", "6/12", 12.0)
                + &opening("skylight", "light", ["20 ft", y], ["22 in", "40 in"], state)),
        )
    };
    let low = at("3 ft", "plan");
    warns(&low, "skylight-in-ice-zone", &["`light`", "edge ", "2' 9 5/8\"", "1' 6 5/8\"", "curb"]);
    assert_eq!(warned(&at("3 ft", "found"), "skylight-in-ice-zone").len(), 1);
    assert_eq!(warned(&at("3 ft", "remove"), "skylight-in-ice-zone"), Vec::<&job::Problem>::new());
    assert_eq!(warned(&at("6 ft", "plan"), "skylight-in-ice-zone"), Vec::<&job::Problem>::new());
}

/// 24 in × 1.118 = 26.83 in at 6/12, and never under 36 in from 8/12 in the editions of 2015 to 2021 (24 in × 1.202 = 28.84 in).
#[test]
fn without_overhang_the_barrier_still_reaches_24_in_inside_and_36_in_when_steep() {
    let flat = study(&gable("irc-2018", "6/12", 0.0));
    near(strip(&flat).outside.along.inches(), 24.0 * 1.25_f64.sqrt(), 1e-6);
    assert_eq!(strip(&flat).courses, 1);
    for (code, wanted) in
        [("irc-2012", 24.0 * (13.0_f64.sqrt() / 3.0)), ("irc-2018", 36.0), ("irc-2021", 36.0)]
    {
        near(strip(&study(&gable(code, "8/12", 0.0))).outside.along.inches(), wanted, 1e-6);
    }
}

/// (36 + 24) in at 8/12 are 72.1 in, more than the 68 1/2 in of two courses; at 6/12 they are 67.1 in, and it takes 38 in to pass them.
#[test]
fn an_overhang_of_36_in_takes_three_courses_and_a_look_at_its_tails() {
    for (pitch, overhang, courses) in [("8/12", 36.0, 3), ("6/12", 36.0, 2), ("6/12", 38.0, 3)] {
        let deep = study(&gable("irc-2018", pitch, overhang));
        assert_eq!(strip(&deep).courses, courses, "{pitch}, {overhang} in");
        let told = warned(&deep, "deep-eave");
        assert_eq!(told.len(), if courses == 3 { 2 } else { 0 }, "both eaves");
        for warning in told {
            crate::support::says(warning, &["edge ", "wall line", "engineer"]);
        }
    }
}

/// A porch of 8 ft against a main roof at 6/12 whose plate is 9 ft up, its top at that plate.
fn porch(pitch: &str, plate: &str) -> Study {
    let roof = format!("form = \"shed\", high = \"north\", pitch = \"{pitch}\"");
    study(&house(&[
        block(
            "main",
            [0.0, 0.0, 40.0, 26.0],
            "9 ft",
            "form = \"gable\", ridge = \"x\", pitch = \"6/12\"",
            "{ eave = \"0 in\", rake = \"12 in\" }",
        ),
        block("porch", [0.0, -8.0, 40.0, 8.0], plate, &roof, "\"12 in\""),
    ]))
}

#[test]
fn a_porch_flatter_than_4_12_is_covered_whole_and_one_flatter_than_2_12_takes_no_shingles() {
    let at_5 = porch("5/12", "5 ft 8 in");
    assert_eq!(built(&at_5, edge(&at_5.roof, EdgeKind::PitchBreakConcave)), "pitch-break-in");
    assert!(at_5.takeoff.ice.spared.is_empty());

    let at_2 = porch("2/12", "7 ft 8 in");
    assert_eq!(built(&at_2, edge(&at_2.roof, EdgeKind::PitchBreakConcave)), "pitch-break-in");
    let [spared] = at_2.takeoff.ice.spared[..] else { panic!("{:?}", at_2.takeoff.ice.spared) };
    assert_eq!((spared.edge, spared.why), (eave(&at_2.roof, "porch S"), Why::CoveredWhole));

    let at_1 = porch("1/12", "8 ft 4 in");
    assert_eq!(built(&at_1, edge(&at_1.roof, EdgeKind::PitchBreakConcave)), "low-slope");
    let row =
        at_1.code.rows.iter().find(|row| row.rule == "asphalt_shingles" && row.planned == Verdict::Fail);
    assert_eq!(row.map(|row| row.places.clone()), Some(vec!["porch S".to_owned()]));
}

/// Two classes of pitch, each with its own underlayment and its own detail where they meet.
#[test]
fn steep_12_12_above_2_12_is_told_apart_plane_by_plane() {
    let house = study(&house(&[
        block(
            "main",
            [0.0, 0.0, 40.0, 20.0],
            "9 ft",
            "form = \"gable\", ridge = \"x\", pitch = \"12/12\"",
            "{ eave = \"0 in\", rake = \"12 in\" }",
        ),
        block(
            "porch",
            [0.0, -6.0, 40.0, 6.0],
            "8 ft",
            "form = \"shed\", high = \"north\", pitch = \"2/12\"",
            "\"12 in\"",
        ),
    ]));
    assert_eq!(built(&house, edge(&house.roof, EdgeKind::PitchBreakConcave)), "pitch-break-in");
    let pitch =
        |name: &str| house.roof.planes.iter().find(|plane| plane.name == name).expect("a plane").pitch;
    assert_eq!(
        (pitch("main S"), pitch("porch S")),
        (Pitch::from_rise_per_12(12.0), Pitch::from_rise_per_12(2.0))
    );
    assert_eq!(
        house.takeoff.ice.spared.iter().map(|spared| spared.why).collect::<Vec<_>>(),
        [Why::CoveredWhole]
    );
    warns(&house, "slides-onto", &["main S", "porch S", "engineer"]);
}

fn garage(detached: bool) -> Study {
    let at = if detached { 60.0 } else { 40.0 };
    let garage =
        block("garage", [at, 0.0, 20.0, 22.0], "8 ft", "form = \"hip\", pitch = \"4/12\"", "\"12 in\"");
    let stands = if detached { "detached = true\n" } else { "" };
    study(&(gable("irc-2018", "6/12", 12.0) + &garage + stands))
}

/// IRC R905.1.2: detached accessory structures without conditioned floor area are excepted.
#[test]
fn a_detached_garage_is_let_off_the_ice_barrier_and_an_attached_one_is_not() {
    let why = |study: &Study| study.takeoff.ice.spared.iter().map(|spared| spared.why).collect::<Vec<_>>();
    let (alone, joined) = (garage(true), garage(false));
    assert_eq!(why(&alone), [Why::Detached; 4]);
    assert_eq!(why(&joined), []);
    assert_eq!(joined.takeoff.ice.eaves.len(), edges(&joined.roof, EdgeKind::Eave).len());
    let unasked = alone.code.unasked.iter().filter(|one| one.why.contains("ask the building department"));
    assert_eq!(unasked.count(), 4);
}

/// 16 in of overhang at 6/12: (16 + 24) × 1.118 = 44.72 in by the outside face, (16 + 6 + 24) × 1.118 = 51.43 in by the inside face of a wall of 6 in.
#[test]
fn two_readings_of_the_wall_line_are_both_printed_and_the_one_taken_named() {
    for (taken, index) in [("outside", 0), ("inside", 1)] {
        let document = changed(
            &gable("irc-2018", "6/12", 16.0),
            "wall_line = \"outside\"",
            &format!("wall_line = \"{taken}\""),
        );
        let house = study(&document);
        near(strip(&house).outside.along.inches(), 44.721, 0.001);
        near(strip(&house).inside.along.inches(), 51.430, 0.001);
        let row = house.code.rule("ice_barrier").next().expect("a row");
        assert_eq!(row.checks.len(), 2);
        assert_eq!(row.need, study::code::Need::Taken(index));
        assert_eq!(verdict(&house.code, "ice_barrier"), Verdict::Pass);
    }
}
