//! Insulation where the roof leaves little room for it: over the wall, and in the bays of a sloped ceiling.

use study::Study;
use study::code::Verdict;

use crate::sheets::row;
use crate::support::{block, house, near, study, warned, warns};

/// A gable of 40 by 28 ft at 6/12 with what carries it and its spaces.
fn gable(framing: &str, spaces: &str) -> Study {
    study(&document(framing, spaces))
}

fn document(framing: &str, spaces: &str) -> String {
    let main = block(
        "main",
        [0.0, 0.0, 40.0, 28.0],
        "9 ft",
        "form = \"gable\", ridge = \"x\", pitch = \"6/12\"",
        "\"12 in\"",
    );
    house(&[main, format!("framing = {{ {framing} }}\n{spaces}")])
}

/// An attic that is to hold R-49 of cellulose.
const BLOWN: &str = "[attic.main]\nunder = [\"main\"]\nvapor_retarder = \"class 2\"\n[attic.main.plan]\ninsulation = \"cellulose\"\neffective = \"R-49\"\nsoffit_open = \"600 in2\"\n";

/// By hand: 5 1/4 in less 1 in × 1.1180 leaves 4.13 in. R-49 at an inch is 13.61 in deep, which the deck leaves room for (13.61 − 4.13) / 0.5 = 18.96 in inward.
/// With of films and gypsum that is 3.6 × 4.13 + 1.67 = R-16.5 at the edge and, over the taper, 1.8 × 18.96 / ln(50.67 / 16.55) = R-30.5. Closed-cell foam at
/// an inch is R-26 in that room; a heel of 13.61 + 1.12 = 14.73 in takes all of it.
#[test]
fn a_low_heel_is_told_with_what_it_leaves_and_what_may_be_done() {
    let low = gable("kind = \"rafter\", size = \"2x8\", spacing = \"16 in\", heel = \"5 1/4 in\"", BLOWN);
    warns(
        &low,
        "low-heel",
        &[
            "block `main`",
            "5 1/4\"",
            "leaves 4 1/8\"",
            "R-49 of cellulose",
            "1' 1 5/8\"",
            "R-17 at the edge",
            "R-30 on average over the 1' 7\"",
            "warm strip over the wall line",
            "ice barrier reaches",
            "seal the top plate from outside",
            "2 to 3 ft of sheathing",
            "closed-cell foam",
            "R-26",
            "1 in of air",
            "foam over the whole deck",
            "raised to 1' 2 3/4\"",
        ],
    );
    // twice 40 ft of eave: 80 × 1.580 ft² × (50.67 / 30.49 − 1) more ceiling would lose as much, and no less than all of the taper, slice by slice
    near(low.envelope.heels[0][1].ft2(), 83.66, 0.05);
    for fits in ["heel = \"15 in\"", "heel = \"14 3/4 in\""] {
        let raised = gable(&format!("kind = \"truss\", spacing = \"24 in\", {fits}"), BLOWN);
        assert!(warned(&raised, "low-heel").is_empty() && warned(&raised, "heel-unknown").is_empty());
        assert_eq!(raised.envelope.heels[0][1], measure::Area::ZERO);
    }
}

/// A 2x8 at 6/12 on a seat of 3 1/2 in stands 7.25 × 1.1180 − 3.5 × 0.5 = 6.36 in over its plate, less 1.12 in leaves 5.24 in.
#[test]
fn a_heel_nobody_measured_cannot_be_told() {
    let rafters = gable("kind = \"rafter\", size = \"2x8\", spacing = \"16 in\", heel = \"unknown\"", BLOWN);
    warns(
        &rafters,
        "heel-unknown",
        &[
            "cannot tell",
            "`block.main.framing.heel`",
            "2x8 rafter at 6/12",
            "6 3/8\"",
            "leaves 5 1/4\": too little",
        ],
    );
    assert!(warned(&rafters, "low-heel").is_empty());
    let trusses = gable("kind = \"truss\", spacing = \"24 in\"", BLOWN);
    warns(&trusses, "heel-unknown", &["cannot tell", "measure `block.main.framing.heel`", "what is usual"]);
}

#[test]
fn heels_are_not_asked_where_no_insulation_is_planned_or_no_winter_comes() {
    let heel = "kind = \"rafter\", size = \"2x8\", spacing = \"16 in\", heel = \"5 1/4 in\"";
    let as_found = gable(heel, "[attic.main]\nunder = [\"main\"]\nvapor_retarder = \"none\"\n");
    assert!(warned(&as_found, "low-heel").is_empty());
    let mild = document(heel, BLOWN)
        .replace("ice_history = true", "ice_history = false")
        .replace("\"6A\"", "\"3A\"");
    assert!(warned(&study(&mild), "low-heel").is_empty());
}

/// An attic over the west 24 ft and a sloped ceiling over the east 16 ft, each with so much vent to the foot of soffit and ridge.
fn spaces(attic: &str, bays: &str) -> String {
    let space = |name: &str, kind: &str, plan: &str| {
        format!(
            "[attic.{name}]\nunder = [\"main\"]\nvapor_retarder = \"class 2\"\n{kind}[attic.{name}.plan]\n{plan}\n"
        )
    };
    let part = "kind = \"cathedral\"\npart = { at = [\"24 ft\", \"0 ft\"], size = [\"16 ft\", \"28 ft\"] }\n";
    space("main", "", attic) + &space("hall", part, bays)
}

const VENTS: &str =
    "soffit_open = { per_length = \"9 in2/ft\" }\nridge_vent = { per_length = \"18 in2/ft\" }";

/// The attic has 24 by 28 ft and twice 24 ft of soffit, the bays 16 by 28 ft and twice 16 ft; the slot stops 12 in inside each gable wall and runs on over the boundary.
#[test]
fn each_space_under_one_plane_has_vents_of_its_own() {
    let both = gable("kind = \"rafter\", size = \"2x14\", spacing = \"16 in\"", &spaces(VENTS, VENTS));
    let [main, hall] = &both.takeoff.vents[..] else { panic!("two spaces") };
    for (check, feet) in [(main, 24.0), (hall, 16.0)] {
        near(check.space.ft2(), feet * 28.0, 1e-6);
        near(check.plan.low.in2(), 2.0 * feet * 9.0, 0.1);
        near(check.plan.high.in2(), (feet - 1.0) * 18.0, 0.1);
        assert_eq!(row(&both.code, "attic_vents", &format!("attic {}", check.attic)).planned, Verdict::Pass);
    }
    warns(
        &both,
        "mixed-spaces",
        &[
            "`main S`",
            "`main N`",
            "attic `main`",
            "cathedral ceiling `hall`",
            "every bay",
            "soffit and at the ridge",
            "bulkhead",
            "net free area",
            "430.1 in²",
        ],
    );
}

/// A ridge vent over the attic alone leaves the bays with none, whatever its length: paper shares nothing.
#[test]
fn the_ridge_of_the_attic_does_not_vent_the_bays() {
    let soffits = "soffit_open = { per_length = \"9 in2/ft\" }";
    let shared = gable("kind = \"rafter\", size = \"2x14\", spacing = \"16 in\"", &spaces(VENTS, soffits));
    let [main, hall] = &shared.takeoff.vents[..] else { panic!("two spaces") };
    near(main.plan.high.in2(), 23.0 * 18.0, 0.1);
    near(hall.plan.high.in2(), 0.0, 1e-9);
    assert_eq!(row(&shared.code, "attic_vents", "attic main").planned, Verdict::Pass);
    assert_eq!(row(&shared.code, "attic_vents", "attic hall").planned, Verdict::Fail);
    warns(&shared, "mixed-spaces", &["`hall` asks 430.1 in² of its own", "nothing at the ridge"]);
}

/// Batts of R-38 at an inch are 11.88 in deep. Rafters of 7 1/4 in leave 6 1/4 in under 1 in of air: R-20. The code's table has R-25 of airtight insulation in zone 6.
#[test]
fn bays_too_shallow_for_insulation_and_air_are_told_with_what_else_may_be_done() {
    let plan = format!("insulation = \"batts\"\neffective = \"R-38\"\n{VENTS}");
    let with = |framing: &str| gable(framing, &spaces(VENTS, &plan));
    let shallow = with("kind = \"rafter\", size = \"2x8\", spacing = \"16 in\"");
    warns(
        &shallow,
        "bay-too-shallow",
        &["2x8", "`hall`", "6 1/4\"", "R-20", "11 7/8\"", "second deck", "R806.5", "zone 6A", "R-25", "50 %"],
    );
    let deep = with("kind = \"rafter\", size = \"2x14\", spacing = \"16 in\"");
    let way = |study: &Study| row(&study.code, "vent_clearance", "attic hall").planned.clone();
    assert!(matches!(way(&deep), Verdict::CannotTell { .. }));
    let laid = plan.clone() + "\ninsulation_depth = \"12 in\"";
    let laid = |size: &str| {
        gable(&format!("kind = \"rafter\", size = \"{size}\", spacing = \"16 in\""), &spaces(VENTS, &laid))
    };
    assert_eq!([way(&laid("2x14")), way(&laid("2x12"))], [Verdict::Pass, Verdict::Fail]);
    assert!(warned(&deep, "bay-too-shallow").is_empty());
    let unknown = with("kind = \"rafter\", spacing = \"16 in\"");
    warns(&unknown, "bay-unknown", &["cannot tell", "`block.main.framing.size`"]);
}
