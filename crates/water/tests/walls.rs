//! Rain on walls, worked by hand: half of a wall's upright area counts as roof below (`books/gutters.toml`, rule `wall.share`).

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

mod hanging;
#[path = "../../roof/tests/houses/mod.rs"]
mod houses;

use book::Book;
use hanging::{downspout, gutter};
use houses::Rect;
use job::Job;
use measure::{Area, Length, RainRate};
use roof::{EdgeId, EdgeKind, Roof};
use water::{Discharge, Drainage, OutletKind, WallWater, Water, gutters};

fn roof_of(rects: &[Rect]) -> Roof {
    Roof::of_blocks(&rects.iter().map(Rect::block).collect::<Vec<_>>()).unwrap()
}

fn of_walls(roof: &Roof) -> WallWater {
    WallWater::with(roof, &[], &[], &Book::builtin()).unwrap()
}

#[track_caller]
fn assert_ft2(found: Area, wanted: f64) {
    assert!((found.ft2() - wanted).abs() < 1e-6, "{} ft2, wanted {wanted}", found.ft2());
}

fn lowest_eave(roof: &Roof) -> EdgeId {
    let eaves = (0..roof.edges.len()).map(EdgeId).filter(|e| roof.edge(*e).kind == EdgeKind::Eave);
    eaves.min_by(|a, b| roof.ends(*a)[0][2].total_cmp(&roof.ends(*b)[0][2])).unwrap()
}

/// A lean-to 10 ft wide and 12 ft deep at 3/12 whose top, 9 + 12 × 3/12 = 12 ft, meets a wall with its plate at 20 ft.
fn lean_to() -> Roof {
    let low = Rect::new("low", [0.0, -12.0], [10.0, 12.0], 9.0).pitches([Some(3.0), None, None, None]);
    let high = Rect::new("high", [0.0, 0.0], [10.0, 10.0], 20.0).pitches([Some(4.0), None, None, None]);
    roof_of(&[low, high])
}

/// The wall is 10 by 8 ft: 80 ft², of which 40 come down over the 120 ft² of the lean-to, 4 ft² to the foot of its eave.
#[test]
fn half_of_a_wall_adds_to_the_roof_at_its_foot() {
    let roof = lean_to();
    let walls = of_walls(&roof);
    let [face] = walls.faces.as_slice() else { panic!("{:?}", walls.faces) };
    assert_ft2(face.area, 80.0);
    assert_ft2(face.adds, 40.0);
    let eave = lowest_eave(&roof);
    let flow = walls.water.edge(eave);
    assert_ft2(flow.catchment(), 40.0);
    assert!(flow.inflows.iter().all(|i| i.depth.iter().all(|d| (d.ft() - 4.0).abs() < 1e-9)), "{flow:?}");
    assert_ft2(walls.water.leaving(OutletKind::OffEdge(eave)), 40.0);
    assert_ft2(walls.water.rain, 40.0);
}

/// The rain on the roof is 120 ft² of lean-to and the upper roof's 100 ft² over it, with or without the wall; the gutter takes the wall's
/// 40 ft² besides, the upper roof at 4/12 counting 1.05 times in what comes down to it.
#[test]
fn gutters_are_sized_for_what_walls_add_and_the_rain_stays_as_it_is() {
    let roof = lean_to();
    let (books, rain, eave) = (Book::builtin(), RainRate::from_in_per_h(6.0), lowest_eave(&roof));
    let water = Water::of(&roof);
    assert_ft2(water.rain, 220.0);
    let needs = gutters(&roof, &water, rain, &books).unwrap();
    let need = needs.iter().find(|n| n.edge == eave).unwrap();
    assert_ft2(need.straight, 220.0);
    assert_ft2(need.walls, 40.0);
    assert_ft2(need.counted, 120.0 + 1.05 * 100.0 + 40.0);
    let hung = [gutter(eave, vec![downspout(Length::ZERO, Discharge::Ground)])];
    let drainage = Drainage::of(&roof, &hung, &[], rain, &books).unwrap();
    let [bearing] = drainage.bearings.as_slice() else { panic!("{:?}", drainage.bearings) };
    assert_ft2(bearing.catchment, 220.0);
    assert_ft2(bearing.walls, 40.0);
    assert_ft2(bearing.load.comes, 6.0 * (120.0 + 1.05 * 100.0 + 40.0));
    let leaving: Area = drainage.walls.water.outlets.iter().map(|o| o.amount).sum();
    assert_ft2(leaving, 40.0);
    assert!(drainage.walls.water.outlets.iter().all(|o| matches!(o.kind, OutletKind::Downspout(_))));
}

/// A gable 12 ft wide at 6/12 rises 3 ft above its plate at 14 ft. A lean-to at 3/12 meets it at 9 + 8 × 3/12 = 11 ft: a wall 12 by 3 ft
/// and a triangle of 12 × 3 / 2, 36 + 18 = 54 ft².
#[test]
fn a_gable_wall_ends_in_its_triangle() {
    let low = Rect::new("low", [0.0, -8.0], [12.0, 8.0], 9.0).pitches([Some(3.0), None, None, None]);
    let high = Rect::new("high", [0.0, 0.0], [12.0, 20.0], 14.0).pitches([None, Some(6.0), None, Some(6.0)]);
    let walls = of_walls(&roof_of(&[low, high]));
    let [face] = walls.faces.as_slice() else { panic!("{:?}", walls.faces) };
    assert_ft2(face.area, 54.0);
    assert_ft2(walls.water.rain, 27.0);
}

/// On the cross-gable the porch's roof meets the main wall at 9' 3 and falls to 7 ft along the wing's wall; plates are at 17 ft. The main
/// wall's part is 18' 8 by 7' 9: 144.667 ft². The wing's is 9 ft long and 7' 9 to 10 ft tall: 79.875 ft², whose half ends at the kick-out.
#[test]
fn the_cross_gables_walls_drain_over_the_porch() {
    let books = Book::builtin();
    let (job, _) = Job::read(include_str!("../../../examples/cross-gable.toml"), &books).unwrap();
    let roof = Roof::of(&job, &books).unwrap();
    let walls = of_walls(&roof);
    let area = |kind: EdgeKind| walls.faces.iter().find(|f| roof.edge(f.edge).kind == kind).unwrap();
    assert!((area(EdgeKind::Headwall).area.ft2() - 144.667).abs() < 5e-4);
    assert!((area(EdgeKind::Sidewall).area.ft2() - 79.875).abs() < 5e-4);
    let off_end = |o: &&water::Outlet| matches!(o.kind, OutletKind::OffEnd(_));
    let at_kick_out: Area = walls.water.outlets.iter().filter(off_end).map(|o| o.amount).sum();
    assert!((at_kick_out.ft2() - 79.875 / 2.0).abs() < 5e-4, "{at_kick_out:?}");
    assert_eq!(walls.faces.len(), 2, "{:?}", walls.faces);
}

/// A roof on posts has no wall: the same upper roof, open below, gives nothing.
#[test]
fn a_roof_on_posts_gives_nothing() {
    let low = Rect::new("low", [0.0, -12.0], [10.0, 12.0], 9.0).pitches([Some(3.0), None, None, None]);
    let mut high = Rect::new("high", [0.0, 0.0], [10.0, 10.0], 20.0).pitches([Some(4.0), None, None, None]);
    high.open = true;
    assert_eq!(of_walls(&roof_of(&[low, high])).faces, []);
}
