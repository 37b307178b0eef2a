//! Water that comes as a stream.

use roof::{EdgeKind, NodeKind};
use study::Study;
use water::Finding;

use crate::sheets::{CROSS_GABLE, changed};
use crate::support::{block, built, edge, edges, house, near, opening, study, warned, warns};

/// A tall block along the east end of a low one, whose wing lies against the tall one's wall: the east valley comes down on that wall.
fn beside_a_tower(wing_x: f64) -> Study {
    let gable = "form = \"gable\", ridge = \"x\", pitch = \"6/12\"";
    study(&house(&[
        block("low", [0.0, 0.0, 30.0, 26.0], "9 ft", gable, "\"12 in\""),
        block(
            "wing",
            [wing_x, -10.0, 12.0, 10.0],
            "9 ft",
            "form = \"gable\", ridge = \"y\", pitch = \"6/12\"",
            "\"12 in\"",
        ),
        block(
            "tall",
            [30.0, -10.0, 20.0, 36.0],
            "20 ft",
            "form = \"gable\", ridge = \"y\", pitch = \"6/12\"",
            "\"12 in\"",
        ),
    ]))
}

#[test]
fn a_valley_that_ends_at_a_wall_is_a_dead_valley_with_pan_and_kick_out() {
    let house = beside_a_tower(18.0);
    let ends_there = |node: &roof::Node| node.kind == NodeKind::ValleyDeadEnd;
    let node = house.roof.nodes.iter().position(ends_there).expect("a valley that ends at the wall");
    let valley =
        edges(&house.roof, EdgeKind::Valley).into_iter().find(|id| house.roof.edge(*id).from.0 == node);
    let number = valley.expect("it").number();
    warns(
        &house,
        "valley-at-wall",
        &[
            &format!("valley of edge {number} "),
            "wall of `tall`",
            "and 3' beyond",
            "turned 8\" up",
            "kick-out",
            "cricket",
            "framer",
        ],
    );
    let runs_in = house.water.findings(&house.roof);
    assert!(runs_in.iter().any(|finding| finding.key() == "meets_wall"), "{runs_in:?}");
    assert_eq!(built(&house, edge(&house.roof, EdgeKind::BackWall)), "back-wall");
    assert_eq!(warned(&beside_a_tower(8.0), "valley-at-wall"), Vec::<&job::Problem>::new());
}

#[test]
fn a_corner_of_two_roofs_and_a_wall_gets_a_pan_made_before_it_goes_up() {
    let house = beside_a_tower(18.0);
    warns(&house, "three-way-corner", &["valley of edge ", "corner pan", "then the steps"]);
    assert_eq!(warned(&beside_a_tower(8.0), "three-way-corner"), Vec::<&job::Problem>::new());
}

/// The west valley of the example lets its stream fall onto the porch, close by the wing's wall; the gutter planned there takes it.
#[test]
fn a_valley_that_drips_beside_a_wall_is_told_and_a_gutter_above_cures_it() {
    let house = study(CROSS_GABLE);
    let bare = house.water.findings(&house.roof);
    let beside = bare.iter().find_map(|finding| match finding {
        Finding::StreamBesideWall { wall, .. } => Some(*wall),
        _ => None,
    });
    assert_eq!(beside.and_then(|wall| house.roof.edge(wall).wall_of.clone()).as_deref(), Some("wing"));
    let with_gutters = house.drainage.findings.iter().filter(|finding| finding.key() == "stream_beside_wall");
    assert_eq!(with_gutters.count(), 0);
}

/// A wing whose west valley runs from (20, 0) in plan to the ridge, at 45 degrees: a chimney at (22, 2) stands on it.
#[test]
fn a_chimney_in_a_valley_is_for_a_mason_and_a_sheet_metal_shop() {
    let at = |x: &str, y: &str, state: &str| {
        study(&house(&[
            block(
                "main",
                [0.0, 0.0, 40.0, 26.0],
                "9 ft",
                "form = \"gable\", ridge = \"x\", pitch = \"6/12\"",
                "\"12 in\"",
            ),
            block(
                "wing",
                [20.0, -10.0, 16.0, 10.0],
                "9 ft",
                "form = \"gable\", ridge = \"y\", pitch = \"6/12\"",
                "\"12 in\"",
            ),
            opening("chimney", "old flue", [x, y], ["32 in", "24 in"], state),
        ]))
    };
    let across = at("23 ft", "3 ft", "found");
    warns(
        &across,
        "chimney-in-valley",
        &["`old flue`", "valley of edge ", "mason", "sheet-metal shop", "taken down"],
    );
    for clear in [at("10 ft", "17 ft", "found"), at("23 ft", "3 ft", "remove")] {
        assert_eq!(warned(&clear, "chimney-in-valley"), Vec::<&job::Problem>::new());
    }
}

/// 37 ft of slope in plan, its high side's overhang of 1 ft with it, and 30 + 2 ft along the eave with the rakes: 32 × 37 = 1,184 ft² come over
/// the break. A strip of 36 in each side of 32 ft are 192 ft² of membrane.
#[test]
fn a_long_slope_on_a_short_one_tells_what_comes_over_the_break() {
    let house = study(&house(&[
        block(
            "long",
            [0.0, 0.0, 30.0, 36.0],
            "9 ft",
            "form = \"shed\", high = \"north\", pitch = \"6/12\"",
            "{ east = \"12 in\", west = \"12 in\", north = \"12 in\", south = \"0 in\" }",
        ),
        block(
            "short",
            [0.0, -6.0, 30.0, 6.0],
            "7 ft",
            "form = \"shed\", high = \"north\", pitch = \"4/12\"",
            "\"12 in\"",
        ),
    ]));
    let step = edge(&house.roof, EdgeKind::PitchBreakConcave);
    near(house.water.edge(step).catchment().ft2(), 1184.0, 0.5);
    assert_eq!(built(&house, step), "pitch-break-in");
    let strip =
        house.takeoff.ice.parts.iter().find(|part| part.name.contains("pitch break")).expect("strips there");
    near(strip.area.ft2(), 32.0 * 6.0, 0.5);
    let low = crate::support::eave(&house.roof, "short S");
    let need = house.gutters.iter().find(|need| need.edge == low).expect("a gutter is sized");
    near(need.straight.ft2(), 1184.0 + 32.0 * 7.0, 0.5);
}

#[test]
fn an_upper_downspout_that_empties_on_a_lower_roof_is_piped_to_the_gutter_below() {
    let loose = study(&changed(CROSS_GABLE, "to = \"porch gutter\" }", "to = \"porch S\" }"));
    let finding = loose.drainage.findings.iter().find(|finding| finding.key() == "downspout_onto_roof");
    let told = finding.expect("it is told").told(&loose.roof, &loose.drainage.gutters, loose.job.units);
    assert!(told.contains("porch S") && told.contains("pipe it to the gutter below"), "{told}");
    let piped = study(CROSS_GABLE);
    assert!(!piped.drainage.findings.iter().any(|finding| finding.key() == "downspout_onto_roof"));
}

/// Vents that are taken off turn no water: what comes to the rest is as if they had never been there.
#[test]
fn openings_that_go_do_not_part_the_water() {
    let vents = CROSS_GABLE
        .split("[[opening]]")
        .filter(|one| one.contains("state = \"remove\"") && one.contains("box-vent"));
    let bare =
        vents.fold(CROSS_GABLE.to_owned(), |text, vent| text.replacen(&format!("[[opening]]{vent}"), "", 1));
    let [with, without] = [CROSS_GABLE, bare.as_str()].map(study);
    assert_eq!(with.roof.openings.len(), without.roof.openings.len() + 3);
    let behind = |study: &Study, name: &str| {
        let index = study.roof.openings.iter().position(|opening| opening.name == name).expect("it");
        study.drainage.water.openings[index].behind.ft2()
    };
    for name in ["skylight", "daylight tube", "chimney"] {
        near(behind(&with, name), behind(&without, name), 1e-9);
    }
    near(behind(&with, "box-vent 1"), 0.0, 1e-12);
}
