//! Blocks of any outline, against the same house put together from rectangles and against closed forms.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

mod houses;

use houses::{Rect, figure, outline_block, wavy_outline};
use job::{EdgeSlope, Overhang};
use measure::Length;
use roof::{EdgeKind, NodeKind, Roof};

fn roof_of(blocks: &[job::Block]) -> Roof {
    Roof::of_blocks(blocks).unwrap()
}

fn assert_same_lengths(a: &Roof, b: &Roof) {
    for kind in EdgeKind::ALL {
        let (a, b) = (a.length_of(kind).m(), b.length_of(kind).m());
        assert!((a - b).abs() < 1e-6, "{}: {a} against {b}", kind.name());
    }
    assert!((a.slope_area().m2() - b.slope_area().m2()).abs() < 1e-6);
}

/// An L of two arms 8 m wide, 6/12 all round with 0.3 m of overhang.
fn l_outline() -> Vec<Vec<[f64; 2]>> {
    vec![vec![[0.0, 0.0], [20.0, 0.0], [20.0, 8.0], [8.0, 8.0], [8.0, 18.0], [0.0, 18.0]]]
}

#[test]
fn l_outline_is_the_union_of_its_two_arms() {
    let outlined = roof_of(&[outline_block("house", l_outline())]);
    let feet = |m: f64| Length::from_m(m).ft();
    let arm = |name, size: [f64; 2]| {
        Rect::new(name, [0.0, 0.0], size.map(feet), feet(3.0))
            .pitches([Some(6.0); 4])
            .overhangs([feet(0.3); 4])
            .block()
    };
    let joined = roof_of(&[arm("long", [20.0, 8.0]), arm("short", [8.0, 18.0])]);
    assert_same_lengths(&outlined, &joined);
    // the outline grown by the overhang: 20.6 x 8.6 and 8.6 x 10
    assert!((outlined.plan_area().m2() - (20.6 * 8.6 + 8.6 * 10.0)).abs() < 1e-6);
}

#[test]
fn gables_on_an_outline_are_those_of_rectangles() {
    let mut block = outline_block("house", l_outline());
    for gable in [1, 4] {
        block.edges[0][gable].slope = EdgeSlope::Gable;
    }
    let outlined = roof_of(&[block]);
    // ridges in the middle of both arms from the gables' rake edges to where they meet at (4, 4)
    assert!((outlined.length_of(EdgeKind::Ridge).m() - (16.3 + 14.3)).abs() < 1e-6);
    assert!((outlined.length_of(EdgeKind::Rake).m() - 4.0 * 4.3 * 1.118_033_988_75).abs() < 1e-6);
    assert_eq!(outlined.nodes.iter().filter(|n| n.kind == NodeKind::GableTop).count(), 2);
    // one outside corner with a hip, one inside corner with a valley
    let corner = 4.3 * (2.0f64 + 0.25).sqrt();
    assert!((outlined.length_of(EdgeKind::Hip).m() - corner).abs() < 1e-6);
    assert!((outlined.length_of(EdgeKind::Valley).m() - corner).abs() < 1e-6);
}

#[test]
fn courtyard_has_eaves_inside_and_out() {
    let yard = vec![[6.0, 6.0], [6.0, 10.0], [14.0, 10.0], [14.0, 6.0]];
    let outer = vec![[0.0, 0.0], [20.0, 0.0], [20.0, 16.0], [0.0, 16.0]];
    let roof = roof_of(&[outline_block("house", vec![outer, yard])]);
    assert!((roof.plan_area().m2() - (20.6 * 16.6 - 7.4 * 3.4)).abs() < 1e-6);
    assert!((roof.length_of(EdgeKind::Eave).m() - 2.0 * (20.6 + 16.6 + 7.4 + 3.4)).abs() < 1e-6);
    assert_eq!(roof.nodes.iter().filter(|n| n.kind == NodeKind::ValleyThroat).count(), 4);
}

#[test]
fn outline_and_overhang_may_differ_from_side_to_side() {
    let mut block = outline_block("house", l_outline());
    block.edges[0][0].overhang = Overhang::Run(figure(Length::from_m(0.6)));
    let roof = roof_of(&[block]);
    assert!((roof.plan_area().m2() - (20.6 * 8.9 + 8.6 * 10.0)).abs() < 1e-6);
    assert_eq!(
        roof.warnings.len(),
        1,
        "a corner where the fascia lines are not level is named: {:?}",
        roof.warnings
    );
}

#[test]
fn outline_of_two_hundred_corners_closes() {
    let blocks = wavy_outline(200);
    let roof = roof_of(&blocks);
    let planes: f64 = roof.planes.iter().map(|p| p.plan_area.m2()).sum();
    let eaves: f64 = roof.length_of(EdgeKind::Eave).m();
    let rim: f64 = roof.edges.iter().filter(|e| e.planes.len() == 1).map(|e| e.plan_length.m()).sum();
    assert!(roof.planes.len() >= 200 && planes > 0.0);
    assert!((eaves - rim).abs() < 1e-6, "{eaves} of eaves, {rim} of rim");
}

/// The only other block being one that stands alone, the house touches nothing and need not.
#[test]
fn house_beside_a_detached_shed_is_not_alone() {
    let house = Rect::new("house", [0.0, 0.0], [30.0, 20.0], 9.0).pitches([Some(6.0); 4]).block();
    let mut shed = Rect::new("shed", [50.0, 0.0], [10.0, 8.0], 8.0).pitches([Some(6.0); 4]).block();
    shed.detached = true;
    assert_eq!(roof_of(&[house.clone(), shed.clone()]).planes.len(), 8);
    shed.detached = false;
    assert_eq!(Roof::of_blocks(&[house, shed]).unwrap_err().len(), 2);
}

/// A hip wing not half as deep as wide: its south plane reaches the wall it dies into, and its east and west planes first meet
/// beyond it, in the main roof.
#[test]
fn shallow_hip_wing_runs_on_into_a_gambrel() {
    let run = figure(Length::from_ft(3.0));
    let upper = figure(measure::Pitch::from_rise_per_12(4.0));
    let main = Rect::new("main", [0.0, 0.0], [40.0, 26.0], 10.0)
        .pitches([Some(20.0), None, Some(20.0), None])
        .form(job::Form::Broken { run, upper });
    let wing = Rect::new("wing", [10.0, -5.0], [14.0, 5.0], 10.0).pitches([
        Some(10.0),
        Some(10.0),
        None,
        Some(10.0),
    ]);
    let roof = roof_of(&[main.block(), wing.block()]);
    let of_wing = |e: &&roof::Edge| e.planes.iter().any(|p| roof.plane(*p).block == "wing");
    for kind in [EdgeKind::HighEave, EdgeKind::BackWall, EdgeKind::Rake] {
        assert_eq!(
            roof.edges.iter().filter(|e| e.kind == kind).filter(of_wing).count(),
            0,
            "{}",
            kind.name()
        );
    }
    assert!(roof.length_of(EdgeKind::Valley).m() > 0.0);
}

/// The wing's planes meet the mansard's break exactly where they vanish, within the little that may stand proud.
#[test]
fn wing_that_vanishes_at_a_mansards_break_is_not_cut_short() {
    let run = figure(Length::from_ft(2.0));
    let upper = figure(measure::Pitch::from_rise_per_12(13.0));
    let main = Rect::new("main", [0.0, 0.0], [22.0, 18.0], 10.0)
        .pitches([Some(20.0); 4])
        .form(job::Form::Broken { run, upper });
    let wing = Rect::new("wing", [1.0, -5.0], [9.75, 5.0], 10.0).pitches([None, Some(8.0), None, Some(8.0)]);
    let roof = roof_of(&[main.block(), wing.block()]);
    assert!(roof.length_of(EdgeKind::BackWall).m() <= 0.0);
    assert!(roof.length_of(EdgeKind::Headwall).m() <= 0.0);
}

/// A triangle 90 m long and half a millimetre wide.
#[test]
fn block_too_thin_to_stand_on_is_named() {
    let needle = vec![[0.0, 0.0], [63.751, 63.7532], [0.0, 0.0005]];
    let problems = Roof::of_blocks(&[outline_block("needle", vec![needle])]).expect_err("no roof");
    assert_eq!(problems.len(), 1);
    assert!(problems[0].code == "block-sliver" && problems[0].message.contains("`needle`"), "{problems:?}");
}

/// Two long sides five millimetres apart at their far ends: the mitre of their overhangs would lie 25 km off.
#[test]
fn corner_like_a_needles_is_named() {
    let outline = vec![[41.0, 0.0], [57.75, 57.75], [0.25, 26.75], [41.0, 0.0054], [0.0, 41.0]];
    let problems = Roof::of_blocks(&[outline_block("bent", vec![outline])]).expect_err("no roof");
    assert_eq!(problems.len(), 1);
    assert!(problems[0].code == "corner-too-sharp" && problems[0].message.contains("`bent`"), "{problems:?}");
}
