//! Water on the cross-gable example, against figures worked apart from this code.
//!
//! # Source
//! The house is invented. Its catchments were worked by hand from its plan (rectangles and triangles), its drop traces with ruler and
//! pitches. 1 in/h on 96.25 ft² is 1 gpm: 231 in³ to the gallon, 60 min to the hour, 144 in² to the square foot.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

use book::Book;
use job::Job;
use measure::{Area, RainRate};
use roof::{EdgeId, EdgeKind, Roof};
use water::{Finding, OutletKind, Path, Water, Way};

fn roof() -> Roof {
    let books = Book::builtin();
    let (job, _) = Job::read(include_str!("../../../examples/cross-gable.toml"), &books).unwrap();
    Roof::of(&job, &books).unwrap()
}

/// The edges of a kind on a plane, from west to east.
fn edges(roof: &Roof, plane: &str, kind: EdgeKind) -> Vec<EdgeId> {
    let plane = roof.planes.iter().find(|p| p.name == plane).unwrap();
    let mut found: Vec<EdgeId> = plane.edges.iter().copied().filter(|e| roof.edge(*e).kind == kind).collect();
    let west = |e: &EdgeId| roof.ends(*e).map(|p| p[0]).into_iter().fold(f64::INFINITY, f64::min);
    found.sort_by(|a, b| west(a).total_cmp(&west(b)));
    found
}

fn gpm(catchment: Area) -> f64 {
    (RainRate::from_in_per_h(6.0) * catchment).gpm()
}

#[track_caller]
fn assert_near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found}, wanted {wanted}");
}

/// What comes to an edge from a plane.
fn from(roof: &Roof, water: &Water, edge: EdgeId, plane: &str) -> f64 {
    let sources = water.edge(edge).sources();
    sources.iter().filter(|(p, _)| roof.plane(**p).name == plane).map(|(_, a)| a.ft2()).sum()
}

#[test]
fn each_valley_gathers_from_both_its_planes() {
    let roof = roof();
    let water = Water::of(&roof);
    for (valley, wing) in edges(&roof, "main S", EdgeKind::Valley).into_iter().zip(["wing W", "wing E"]) {
        assert_near(from(&roof, &water, valley, "main S"), 68.148, 5e-4);
        assert_near(from(&roof, &water, valley, wing), 59.259, 5e-4);
        assert_near(water.edge(valley).catchment().ft2(), 127.407, 5e-4);
        assert_near(gpm(water.edge(valley).catchment()), 7.94, 5e-3);
    }
}

#[test]
fn eaves_take_what_falls_straight_to_them() {
    let roof = roof();
    let water = Water::of(&roof);
    let catchment = |e: EdgeId| water.edge(e).catchment();
    let south = edges(&roof, "main S", EdgeKind::Eave);
    assert_near(catchment(south[0]).ft2(), 288.259, 5e-4);
    assert_near(catchment(south[1]).ft2(), 58.926, 5e-4);
    let north = edges(&roof, "main N", EdgeKind::Eave)[0];
    assert_near(catchment(north).ft2(), 602.0, 5e-4);
    assert_near(gpm(catchment(north)), 37.5, 0.05);
}

/// With nothing to catch it, water of the upper eaves and of the west valley runs over the porch.
#[test]
fn the_porch_carries_the_upper_roof() {
    let roof = roof();
    let water = Water::of(&roof);
    let eave = edges(&roof, "porch S", EdgeKind::Eave)[0];
    let wall = edges(&roof, "porch S", EdgeKind::Sidewall)[0];
    let at_wall = water.edge(wall);
    let off_porch = water.edge(eave).catchment() + at_wall.catchment();
    assert_near(off_porch.ft2(), 618.37, 5e-3);
    assert_near(gpm(off_porch), 38.5, 0.05);
    assert_near(at_wall.streams().ft2(), 127.407, 5e-4);
    let valley = roof.edge(edges(&roof, "main S", EdgeKind::Valley)[0]);
    assert_near(valley.wall_near_low_end.as_ref().unwrap().distance.ft(), 0.889, 5e-4);
}

#[test]
fn what_leaves_is_what_falls() {
    let roof = roof();
    let water = Water::of(&roof);
    let leaving: Area = water.outlets.iter().map(|o| o.amount).sum();
    assert_near(leaving.ft2() / roof.plan_area().ft2(), 1.0, 1e-9);
    assert!(!water.outlets.iter().any(|o| o.kind.stands()), "{:?}", water.outlets);
}

/// The way of a drop on the bare roof: what it runs on, and where each part of its way ends, in feet.
fn told(roof: &Roof, path: &Path) -> Vec<(String, [f64; 2])> {
    let way = |way| match way {
        Way::Plane(p) => roof.plane(p).name.clone(),
        Way::Aside(_) => "aside".to_owned(),
        Way::Edge(e) => roof.edge(e).kind.name().to_owned(),
        Way::Falls(p) => format!("onto {}", roof.plane(p).name),
        Way::Gutter(_) | Way::Downspout(_) => panic!("nothing hangs on the bare roof"),
    };
    path.steps.iter().map(|s| (way(s.way), [s.to[0] / 0.3048, s.to[1] / 0.3048])).collect()
}

#[track_caller]
fn assert_way(roof: &Roof, at: [f64; 2], wanted: &[(&str, [f64; 2])]) -> Path {
    let path = Water::trace(roof, at.map(|v| v * 0.3048)).unwrap();
    let found = told(roof, &path);
    let is_near = |a: [f64; 2], b: [f64; 2]| a.iter().zip(b).all(|(a, b)| (a - b).abs() < 0.005);
    let same = found.len() == wanted.len()
        && found.iter().zip(wanted).all(|((way, to), (w, t))| way == w && is_near(*to, *t));
    assert!(same, "{found:?}");
    path
}

#[test]
fn a_drop_on_the_south_slope_runs_over_the_porch() {
    let roof = roof();
    let way = [("main S", [10.0, -1.333]), ("onto porch S", [10.0, -1.333]), ("porch S", [10.0, -9.0])];
    let path = assert_way(&roof, [10.0, 8.0], &way);
    assert_eq!(path.end, OutletKind::OffEdge(edges(&roof, "porch S", EdgeKind::Eave)[0]));
}

#[test]
fn a_drop_by_the_valley_ends_at_the_kick_out() {
    let roof = roof();
    let way = [
        ("main S", [24.0, 6.0]),
        ("valley", [19.111, -1.333]),
        ("onto porch S", [19.111, -1.333]),
        ("aside", [20.0, -1.333]),
        ("sidewall", [20.0, -9.0]),
    ];
    let path = assert_way(&roof, [24.0, 10.0], &way);
    let valley = path.steps[1];
    let run: f64 = (0..3).map(|i| (valley.to[i] - valley.from[i]).powi(2)).sum::<f64>().sqrt();
    assert_near(run / 0.3048, 9.546, 5e-4);
    assert!(matches!(path.end, OutletKind::OffEnd(_)));
}

#[test]
fn a_drop_on_the_wing_falls_onto_the_porch() {
    let way = [("wing W", [19.111, -5.0]), ("onto porch S", [19.111, -5.0]), ("porch S", [19.111, -9.0])];
    assert_way(&roof(), [22.0, -5.0], &way);
}

#[test]
fn what_to_look_at_is_the_stream_beside_the_wing_and_the_eaves_over_the_porch() {
    let roof = roof();
    let findings = Water::of(&roof).findings(&roof);
    let wall = edges(&roof, "porch S", EdgeKind::Sidewall)[0];
    let Finding::StreamBesideWall { wall: beside, amount, .. } = findings[0] else { panic!("{findings:?}") };
    assert_eq!(beside, wall);
    assert_near(amount.ft2(), 127.407, 5e-4);
    let drips: Vec<f64> = findings[1..].iter().map(|f| f.amount().ft2()).collect();
    // of the main roof's south eave what is over the porch, and the wing's west eave from the porch's edge to the inside corner
    assert_near(drips[0], 254.815, 5e-4);
    assert_near(drips[1], 68.148, 5e-4);
    assert_eq!(drips.len(), 2);
}
