//! The two example houses with one figure changed.

use measure::Length;
use roof::{EdgeKind, NodeKind};
use study::code::{CodeSheet, Verdict};

use crate::sheets::{CROSS_GABLE, HIP_SPLIT_LEVEL, changed, row};
use crate::support::{edges, near, study, warns};

/// 12 in at 6/12 fall 6 in from plate to roof edge; at 9/12 that takes 6 / 0.75 = 8 in. The west valley's foot is then at the fascia corner
/// 8 in west of the wing's wall (x 20 ft) and 12 in south of the main one (y 0).
#[test]
fn a_main_overhang_of_12_in_brings_the_wings_to_8_and_the_valley_to_the_fascia_corner() {
    let house =
        study(&changed(CROSS_GABLE, "overhang = { eave = \"16 in\"", "overhang = { eave = \"12 in\""));
    let west =
        house.roof.walls.iter().find(|wall| wall.block == "wing" && wall.side == "west").expect("a wall");
    near(west.overhang.inches(), 8.0, 1e-6);
    let feet =
        edges(&house.roof, EdgeKind::Valley).into_iter().map(|id| house.roof.node(house.roof.edge(id).from));
    let west = feet.into_iter().min_by(|a, b| a.at[0].total_cmp(&b.at[0])).expect("a valley");
    assert_eq!(west.kind, NodeKind::ValleyThroat);
    near(Length::from_m(west.at[0]).inches(), 240.0 - 8.0, 1e-6);
    near(Length::from_m(west.at[1]).inches(), -12.0, 1e-6);
}

/// 10 2/3 in fall 8.00 in at 9/12 and 7.11 in at 8/12.
#[test]
fn a_wing_pitch_read_8_12_for_9_12_shows_as_fascia_lines_0_89_in_apart() {
    let wing = changed(CROSS_GABLE, "pitch = \"9/12\"", "pitch = \"8/12\"");
    let house = study(&changed(&wing, "eave = \"level with main\"", "eave = \"10.6667 in\""));
    warns(&house, "fascia-lines", &["0.89 in", "main", "wing"]);
}

/// What fails as planned, by rule and place.
fn failing(sheet: &CodeSheet) -> Vec<(&'static str, String)> {
    let failing = sheet.rows.iter().filter(|row| row.planned == Verdict::Fail);
    failing.flat_map(|row| row.places.iter().map(|place| (row.rule, place.clone()))).collect()
}

/// 768 in² are fewer than 832 / 150 × 144 = 798.7 in²: only the exception carries them, and it wants the retarder.
#[test]
fn without_its_vapor_retarder_the_upper_attic_fails_and_nothing_else_changes() {
    let before = study(HIP_SPLIT_LEVEL).code;
    let after =
        study(&changed(HIP_SPLIT_LEVEL, "vapor_retarder = \"class 2\"", "vapor_retarder = \"none\"")).code;
    assert_eq!(row(&before, "attic_vents", "attic upper").planned, Verdict::Pass);
    let mut wanted = failing(&before);
    wanted.push(("attic_vents", "attic upper".to_owned()));
    wanted.sort();
    let mut found = failing(&after);
    found.sort();
    assert_eq!(found, wanted);
}

/// The hips of the upper roof part east from north where the eaves are equally far: 34 - 24 = 10 ft to the east one, 28 - 18.5 = 9.5 ft to the
/// north one.
#[test]
fn a_pipe_moved_a_foot_and_a_half_north_crosses_the_hip_to_the_north_plane() {
    let plane = |document: &str| {
        let house = study(document);
        let pipe = house.roof.openings.iter().find(|opening| opening.name == "vent pipe").expect("a pipe");
        house.roof.plane(pipe.plane).name.clone()
    };
    assert_eq!(plane(HIP_SPLIT_LEVEL), "upper E");
    assert_eq!(
        plane(&changed(HIP_SPLIT_LEVEL, "at = [\"24'\", \"17'\"]", "at = [\"24'\", \"18' 6\\\"\"]")),
        "upper N"
    );
}
