//! Roofs whose catchments are plain geometry: the expected areas are worked in the comments, apart from this code.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

#[path = "../../roof/tests/houses/mod.rs"]
mod houses;

use book::Book;
use houses::Rect;
use job::Job;
use measure::{Area, Length};
use roof::{EdgeKind, Roof};
use water::{OutletKind, Water, Way};

fn roof_of(rects: &[Rect]) -> Roof {
    Roof::of_blocks(&rects.iter().map(Rect::block).collect::<Vec<_>>()).unwrap()
}

fn of_kind(roof: &Roof, water: &Water, kind: EdgeKind) -> Vec<f64> {
    let flows = roof.edges.iter().zip(&water.edges).filter(|(e, _)| e.kind == kind);
    let mut found: Vec<f64> = flows.map(|(_, f)| f.catchment().ft2()).collect();
    found.sort_by(f64::total_cmp);
    found
}

#[track_caller]
fn assert_all(found: &[f64], wanted: &[f64]) {
    let near = found.len() == wanted.len() && found.iter().zip(wanted).all(|(a, b)| (a - b).abs() < 1e-9);
    assert!(near, "{found:?}, wanted {wanted:?}");
}

/// A shed of 20 by 12 ft with 1 ft all round drains 22 × 14 = 308 ft² over its one eave, 14 ft deep everywhere.
#[test]
fn a_single_plane_drains_over_its_eave() {
    let shed = Rect::new("shed", [0.0, 0.0], [20.0, 12.0], 9.0)
        .pitches([Some(4.0), None, None, None])
        .overhangs([1.0; 4]);
    let roof = roof_of(&[shed]);
    let water = Water::of(&roof);
    assert_all(&of_kind(&roof, &water, EdgeKind::Eave), &[308.0]);
    let (eave, flow) = roof.edges.iter().zip(&water.edges).find(|(e, _)| e.kind == EdgeKind::Eave).unwrap();
    assert!(flow.inflows.iter().all(|i| i.depth.iter().all(|d| (d.ft() - 14.0).abs() < 1e-9)));
    let wet: Length = flow.inflows.iter().map(|i| i.span[1] - i.span[0]).sum();
    assert!((wet.m() - eave.plan_length.m()).abs() < 1e-9);
}

/// A pyramid 24 ft square at its eaves: each of them drains a quarter, 144 ft², from nothing at the corners to 12 ft in the middle.
#[test]
fn a_pyramid_drains_a_quarter_over_each_eave() {
    let hut = Rect::new("hut", [0.0, 0.0], [20.0, 20.0], 9.0).pitches([Some(6.0); 4]).overhangs([2.0; 4]);
    let roof = roof_of(&[hut]);
    let water = Water::of(&roof);
    assert_all(&of_kind(&roof, &water, EdgeKind::Eave), &[144.0; 4]);
    let depths = water.edges.iter().flat_map(|f| &f.inflows).flat_map(|i| i.depth).map(Length::ft);
    assert!((depths.fold(0.0, f64::max) - 12.0).abs() < 1e-9);
    assert!(water.outlets.iter().all(|o| matches!(o.kind, OutletKind::OffEdge(_))));
}

/// A wing of 12 ft width against a long house of equal pitch, no overhangs: its valleys run at 45 degrees over a square of 6 by 6 ft
/// on either side of the wing's ridge. Above each the main slope is 6 ft wide and from 12 ft (at the throat) to 6 ft deep, 54 ft²; the
/// wing brings a triangle, 18 ft². The upper half of a valley takes 3 ft from 9 to 6 ft deep, 22.5 ft², and 3 by 3 / 2, 4.5 ft².
#[test]
fn a_valley_gathers_a_triangle_from_either_plane() {
    let main = Rect::new("main", [0.0, 0.0], [40.0, 24.0], 9.0).pitches([Some(6.0), None, Some(6.0), None]);
    let wing =
        Rect::new("wing", [14.0, -10.0], [12.0, 10.0], 9.0).pitches([None, Some(6.0), None, Some(6.0)]);
    let roof = roof_of(&[main, wing]);
    let water = Water::of(&roof);
    assert_all(&of_kind(&roof, &water, EdgeKind::Valley), &[54.0 + 18.0; 2]);
    let throats = water.outlets.iter().filter(|o| matches!(o.kind, OutletKind::OffEnd(_)));
    let leaves: Area = throats.map(|o| o.amount).sum();
    assert!((leaves.ft2() - 144.0).abs() < 1e-9, "{}", leaves.ft2());
    let valley = roof.edges.iter().position(|e| e.kind == EdgeKind::Valley).unwrap();
    let half = roof.edges[valley].plan_length / 2.0;
    let upper = water.edges[valley].passing(half).ft2();
    assert!((upper - (22.5 + 4.5)).abs() < 1e-9, "{upper}");
}

const SHED_WITH_CHIMNEY: &str = r#"
weathershed = 1
title = "shed"
[site]
code = "irc-2018"
[covering]
shingle = "shingle-laminated-metric"
[[block]]
name = "shed"
at = ["0'", "0'"]
size = ["20'", "16'"]
plate = "9'"
roof = { form = "shed", high = "north", pitch = "6/12" }
overhang = { eave = "0 in", rake = "0 in" }
[[opening]]
kind = "chimney"
name = "chimney"
at = ["8'", "6'"]
size = ["4'", "2'"]
"#;

/// A chimney 4 ft wide from 5 to 7 ft above the eave of a slope 16 ft deep: 4 × 9 = 36 ft² come down behind it, part at its
/// middle and run down its sides; 8 ft² fall on it. The eave still drains all 320 ft².
#[test]
fn water_parts_behind_a_chimney() {
    let books = Book::builtin();
    let (job, _) = Job::read(SHED_WITH_CHIMNEY, &books).unwrap();
    let roof = Roof::of(&job, &books).unwrap();
    let water = Water::of(&roof);
    assert!((water.openings[0].behind.ft2() - 36.0).abs() < 1e-9);
    assert_all(&of_kind(&roof, &water, EdgeKind::Eave), &[320.0]);
    let eave = roof.edges.iter().position(|e| e.kind == EdgeKind::Eave).unwrap();
    let streams: Vec<(f64, f64)> = (water.edges[eave].inflows.iter().filter(|i| i.is_stream()))
        .map(|i| (i.span[0].ft(), i.amount.ft2()))
        .collect();
    let at = |x: f64| streams.iter().filter(|(at, _)| (at - x).abs() < 0.01).map(|s| s.1).sum::<f64>();
    assert!((at(6.0) - 18.0).abs() < 1e-9 && (at(10.0) - 18.0).abs() < 1e-9, "{streams:?}");
}

#[test]
fn a_drop_behind_a_chimney_goes_round_its_nearer_side() {
    let books = Book::builtin();
    let (job, _) = Job::read(SHED_WITH_CHIMNEY, &books).unwrap();
    let roof = Roof::of(&job, &books).unwrap();
    let path = Water::trace(&roof, [9.0 * 0.3048, 12.0 * 0.3048]).unwrap();
    let ways: Vec<bool> = path.steps.iter().map(|s| matches!(s.way, Way::Aside(_))).collect();
    assert_eq!(ways, [false, true, false]);
    assert!((path.steps[2].to[0] / 0.3048 - 10.0).abs() < 0.01);
}
