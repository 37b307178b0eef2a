//! Where a block's roof runs on into another.

mod houses;

use houses::{Rect, figure};
use job::Form;
use measure::{Length, Pitch};
use roof::{EdgeKind, Roof};

/// The wing's ridge stands 3 mm above the main roof's break and runs on over the flat part, in which it must end exactly: by hand,
/// rise of the wing 4.625 ft × 13/12, of the break 2 ft × 20/12, the rest at 5/12.
#[test]
fn ridge_that_barely_clears_a_break_ends_where_it_meets_the_roof_above() {
    let upper = figure(Pitch::from_rise_per_12(5.0));
    let mansard = Form::Broken { run: figure(Length::from_ft(2.0)), upper };
    let main = Rect::new("main", [0.0, 0.0], [22.0, 18.0], 17.0)
        .pitches([Some(20.0); 4])
        .overhangs([1.0; 4])
        .form(mansard);
    let wing = Rect::new("wing", [1.5, -7.0], [9.25, 7.0], 17.0)
        .pitches([None, Some(13.0), None, Some(13.0)])
        .level_with("main");
    let roof = Roof::of_blocks(&[main.block(), wing.block()]).expect("a roof");
    let ridge = 7.0 + 2.0 + (4.625 * 13.0 / 12.0 - 2.0 * 20.0 / 12.0) / (5.0 / 12.0);
    let ridges = roof.edges.iter().filter(|e| e.kind == EdgeKind::Ridge);
    let of_wing = ridges.filter(|e| roof.plane(e.planes[0]).block == "wing");
    let lengths: Vec<f64> = of_wing.map(|e| e.length.ft()).collect();
    assert!(matches!(lengths[..], [length] if (length - ridge).abs() < 0.002), "{lengths:?}, not {ridge}");
}

/// Planes that all but meet in one point, where rounding once left a plane of a third of a square millimetre with two corners.
#[test]
fn planes_that_all_but_meet_in_a_point_leave_no_specks() {
    let main = Rect::new("main", [0.0, 0.0], [20.0, 30.0], 9.0).pitches([None, Some(18.0), None, Some(18.0)]);
    let wing =
        Rect::new("wing", [10.0, -6.0], [8.0, 6.0], 9.0).pitches([Some(6.0), Some(6.0), None, Some(6.0)]);
    let skirt =
        Form::HipSkirt { run: figure(Length::from_ft(1.999)), ends: [job::Side::East, job::Side::West] };
    let hut = Rect::new("hut", [11.0, -8.0], [4.0, 6.0], 9.0).pitches([Some(0.25); 4]).form(skirt);
    let roof = Roof::of_blocks(&[main.block(), wing.block(), hut.block()]).expect("a roof");
    for plane in &roof.planes {
        assert!(
            plane.outline.len() > 2 && plane.plan_area.m2() > 1e-4,
            "{}: {:?}",
            plane.name,
            plane.outline
        );
    }
}
