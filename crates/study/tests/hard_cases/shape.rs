//! Shapes that rules of thumb get wrong, and readings that make no shape.

use roof::EdgeKind;
use study::code::Verdict;
use takeoff::Size;

use crate::sheets::{CROSS_GABLE, changed, gable, row};
use crate::support::{
    block, built, edges, head, house, near, opening, refused, says, size, study, warned, warns,
};

/// Planes that rise 8/12 to the north and 4/12 away from the valley are level with each other where 8 y = 4 x: the valley runs 26.57° off the
/// main eave and 63.43° off the wing's. It rises 8/12 × sin 26.57° = 0.2981 to the foot of run. Normals (0, -2/3, 1) and (-1/3, 0, 1)
/// meet at acos(1 / (1.2019 × 1.0541)) = 37.87°.
#[test]
fn a_valley_of_8_12_and_4_12_lies_where_the_planes_meet_not_at_45_degrees() {
    let house = study(&house(&[
        block(
            "main",
            [0.0, 0.0, 40.0, 26.0],
            "9 ft",
            "form = \"gable\", ridge = \"x\", pitch = \"8/12\"",
            "{ eave = \"12 in\", rake = \"12 in\" }",
        ),
        block(
            "wing",
            [12.0, -10.0, 16.0, 10.0],
            "9 ft",
            "form = \"gable\", ridge = \"y\", pitch = \"4/12\"",
            "{ eave = \"24 in\", rake = \"12 in\" }",
        ),
    ]));
    let valleys = edges(&house.roof, EdgeKind::Valley);
    assert_eq!(valleys.len(), 2);
    for (id, wing) in valleys.into_iter().zip(["wing W", "wing E"]) {
        let angle = |what: &str| match size(&house, id, what) {
            Size::Angle(degrees) => degrees,
            other => panic!("{other:?}"),
        };
        near(angle("bend of the metal"), 37.87, 0.01);
        near(angle("in plan off the eave of main S"), 0.5_f64.atan().to_degrees(), 1e-6);
        near(angle(&format!("in plan off the eave of {wing}")), 2.0_f64.atan().to_degrees(), 1e-6);
        let Size::Pitch(fall) = size(&house, id, "fall along the valley") else { panic!("a pitch") };
        near(fall.slope(), 2.0 / 3.0 / 5.0_f64.sqrt(), 1e-9);
        assert_eq!(built(&house, id), "valley-open");
    }
    assert_eq!(warned(&house, "fascia-lines"), Vec::<&job::Problem>::new());
}

/// A corner cut along (6, 8) turns by 53.13°, so its hip rises 6/12 × cos 26.57° = 0.4472 to the foot of run, where a square corner's rises
/// 6/12 × cos 45° = 0.3536. The ice barrier goes by the normal of each face: (12 + 24) × 1.118 = 40.25 in on all of them.
#[test]
fn the_hip_of_an_odd_corner_follows_its_angle_and_the_ice_barrier_each_face() {
    let corner = "[[block]]\nname = \"bay\"\noutline = [[\"0 ft\", \"0 ft\"], [\"20 ft\", \"0 ft\"], [\"26 ft\", \"8 ft\"], [\"26 ft\", \"30 ft\"], [\"0 ft\", \"30 ft\"]]\n\
                  plate = \"9 ft\"\nroof = { form = \"hip\", pitch = \"6/12\" }\noverhang = \"12 in\"\nfascia = \"6 in\"\n";
    let house = study(&(head("irc-2018") + corner));
    let from = |x: f64, y: f64| {
        let starts = |id: &roof::EdgeId| {
            let [px, py, _] = house.roof.ends(*id)[0];
            let [dx, dy] = [px - x * 0.3048, py - y * 0.3048];
            dx.hypot(dy) < 0.6
        };
        let hips = edges(&house.roof, EdgeKind::Hip);
        let hip = hips.into_iter().find(starts).expect("a hip from that corner");
        house.roof.edge(hip).slope
    };
    near(from(20.0, 0.0), 0.5 * 0.8_f64.sqrt(), 1e-9);
    near(from(0.0, 0.0), 0.5 * 0.5_f64.sqrt(), 1e-9);
    assert_eq!(house.takeoff.ice.eaves.len(), 5);
    for strip in &house.takeoff.ice.eaves {
        near(strip.outside.along.inches(), 36.0 * 1.25_f64.sqrt(), 1e-6);
    }
}

#[test]
fn a_round_turret_is_refused_and_told_to_be_laid_out_in_facets() {
    for form in ["cone", "turret", "round", "dome"] {
        let document = changed(
            &gable("irc-2018", "6/12", 12.0),
            "form = \"gable\", ridge = \"x\"",
            &format!("form = \"{form}\""),
        );
        let problems = refused(&document);
        let [problem] = problems.as_slice() else { panic!("{problems:#?}") };
        assert!(problem.is_error());
        assert_eq!(problem.code, "round-roof");
        says(problem, &[form, "outline", "hand"]);
    }
}

/// More than an inch out of plane in 10 ft is for an engineer; an inch is not.
#[test]
fn a_deck_that_sags_more_than_an_inch_in_ten_feet_is_for_an_engineer() {
    let sags = |sag: &str| {
        let deck = format!("deck = {{ kind = \"plywood\", thickness = \"1/2 in\", sag = \"{sag}\" }}");
        study(&changed(
            &gable("irc-2018", "6/12", 12.0),
            "deck = { kind = \"plywood\", thickness = \"1/2 in\" }",
            &deck,
        ))
    };
    warns(&sags("1 1/4 in"), "sag", &["`main`", "1 1/4\"", "engineer", "furring"]);
    assert_eq!(warned(&sags("1 in"), "sag"), Vec::<&job::Problem>::new());
}

/// A house of two blocks whose parts and whole were taped 2 ft apart: no third reading says which is wrong.
#[test]
fn readings_that_do_not_close_name_those_that_may_be_wrong_and_ask_for_the_one_that_tells() {
    let document = include_str!("../../../../examples/taped-twice.toml");
    let house = study(document);
    warns(&house, "reading-suspect", &["garage", "6\" too short", "tape it again"]);
    let crossed = house_of_crossed_lines();
    let problems = refused(&crossed);
    assert_eq!(problems[0].code, "crossing-outline");
}

fn house_of_crossed_lines() -> String {
    head("irc-2018")
        + "[[block]]\nname = \"main\"\noutline = [[\"0 ft\", \"0 ft\"], [\"20 ft\", \"20 ft\"], [\"20 ft\", \"0 ft\"], [\"0 ft\", \"20 ft\"]]\n\
           plate = \"9 ft\"\nroof = { form = \"hip\", pitch = \"6/12\" }\noverhang = \"12 in\"\n"
}

/// Trusses 24 in apart leave 22 1/2 in between chords of 1 1/2 in; rafters may be cut and headed.
#[test]
fn no_opening_wider_than_the_bay_is_cut_into_trusses() {
    let framed = |kind: &str, across: &str| {
        let main = block(
            "main",
            [0.0, 0.0, 40.0, 28.0],
            "9 ft",
            "form = \"gable\", ridge = \"x\", pitch = \"6/12\"",
            "\"12 in\"",
        );
        let framing = format!("framing = {{ kind = \"{kind}\", spacing = \"24 in\" }}\n");
        house(&[main + &framing, opening("skylight", "light", ["20 ft", "8 ft"], [across, "38 in"], "plan")])
    };
    let refusal = refused(&framed("truss", "22 5/8 in"));
    let [problem] = &refusal[..] else { panic!("{refusal:#?}") };
    assert_eq!(problem.code, "opening-cuts-truss");
    says(problem, &["light", "1' 10 1/2\"", "main", "no part of a truss is cut"]);
    study(&framed("truss", "22 1/2 in"));
    study(&framed("rafter", "30 in"));
}

/// IRC table R302.1(1), without sprinklers: nothing within 2 ft of the lot line, rated for an hour from there to 5 ft. Rakes of 12 in.
#[test]
fn eaves_near_the_lot_line_fail_within_2_ft_and_are_for_the_official_within_5() {
    let at = |away: &str| {
        let sheet = study(
            &(gable("irc-2018", "6/12", 12.0)
                + &format!("[walls.main]\nlot_line = {{ east = \"{away}\" }}\n")),
        );
        row(&sheet.code, "lot_line", "main east").planned.clone()
    };
    assert_eq!(at("35 7/8 in"), Verdict::Fail);
    assert!(
        matches!(at("3'"), Verdict::CannotTell { missing } if missing.contains("underside") && missing.contains("vents"))
    );
    assert!(matches!(at("71 7/8 in"), Verdict::CannotTell { .. }));
    assert_eq!(at("6'"), Verdict::Pass);
    let all = study(&changed(CROSS_GABLE, "[walls.wing]\n", "[walls.wing]\nlot_line = \"18 in\"\n"));
    let places: Vec<&String> = all.code.rule("lot_line").flat_map(|row| &row.places).collect();
    assert_eq!(places, ["wing south", "wing east", "wing west"], "its north side lies in the main roof");
    let nobody = study(&gable("irc-2018", "6/12", 12.0));
    assert!(nobody.code.unasked.iter().any(|one| one.clause == "R302.1" && one.why.contains("lot_line")));
}
