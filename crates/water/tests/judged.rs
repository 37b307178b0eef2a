//! Gutters against what comes to them, worked by hand.
//!
//! # Source
//! Ratings at 1 in/h as in `books/gutters.toml`: 5 in K-style 5,520 ft²; 5 in half-round 2,500, 3,520 and 5,000 ft² at 1/16, 1/8 and
//! 1/4 in; 1,200 ft² to the square inch of a downspout, 3.8 in² inside a 2 x 3 in one: 4,560 ft².

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

mod hanging;
#[path = "../../roof/tests/houses/mod.rs"]
mod houses;

use book::Book;
use hanging::{downspout, gutter};
use houses::{Rect, cross_gable};
use measure::{Length, RainRate};
use roof::{EdgeId, EdgeKind, Roof};
use water::{Bearing, Discharge, Drainage, Finding, GutterId, HungGutter, Splash};

fn judged(roof: &Roof, hung: &[HungGutter], in_per_h: f64) -> (Vec<Bearing>, Vec<Finding>) {
    let rain = RainRate::from_in_per_h(in_per_h);
    let drainage = Drainage::of(roof, hung, &[], rain, &Book::builtin()).unwrap();
    (drainage.bearings, drainage.findings)
}

/// A shed at 3/12 whose slope counts once, with one eave along its south side.
fn shed(size: [f64; 2]) -> (Roof, EdgeId) {
    let rect = Rect::new("shed", [0.0, 0.0], size, 9.0).pitches([Some(3.0), None, None, None]);
    let roof = Roof::of_blocks(&[rect.block()]).unwrap();
    let eave = (0..roof.edges.len()).map(EdgeId).find(|e| roof.edge(*e).kind == EdgeKind::Eave).unwrap();
    (roof, eave)
}

fn to_ground(feet: &[f64]) -> Vec<water::HungDownspout> {
    feet.iter().map(|at| downspout(Length::from_ft(*at), Discharge::Ground)).collect()
}

#[track_caller]
fn assert_near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() < 1e-6 * wanted.abs().max(1.0), "{found}, wanted {wanted}");
}

/// 40 by 15 ft at 6 in/h are 3,600 ft² at 1 in/h: 5,520 / 3,600 in the gutter, 4,560 / 3,600 in one downspout, twice that in two.
#[test]
fn margins_are_ratings_over_what_comes() {
    let (roof, eave) = shed([40.0, 15.0]);
    let (bearings, findings) = judged(&roof, &[gutter(eave, to_ground(&[0.0]))], 6.0);
    assert_near(bearings[0].catchment.ft2(), 600.0);
    assert_near(bearings[0].load.margin().unwrap(), 5520.0 / 3600.0);
    assert_near(bearings[0].downspouts[0].load.margin().unwrap(), 4560.0 / 3600.0);
    assert_near(bearings[0].downspouts[0].serves.ft(), 40.0);
    assert_eq!(findings, []);
    let (bearings, _) = judged(&roof, &[gutter(eave, to_ground(&[0.0, 40.0]))], 6.0);
    assert_near(bearings[0].load.margin().unwrap(), 2.0 * 5520.0 / 3600.0);
    assert_near(bearings[0].downspouts[1].load.margin().unwrap(), 2.0 * 4560.0 / 3600.0);
}

/// 3/16 in counts as 1/8 in; 1/64 in is a quarter of the least rated fall, whose root is a half.
#[test]
fn a_gutter_carries_by_its_fall() {
    let (roof, eave) = shed([40.0, 15.0]);
    for (fall, rating) in [(1.0, 2500.0), (2.0, 3520.0), (3.0, 3520.0), (4.0, 5000.0), (0.25, 1250.0)] {
        let fall = Length::from_in(fall / 16.0);
        let hung = HungGutter { kind: "half-round-5".into(), fall, ..gutter(eave, to_ground(&[0.0])) };
        let (bearings, findings) = judged(&roof, &[hung], 6.0);
        assert_near(bearings[0].load.rating.ft2(), rating);
        let is_told = findings.iter().any(|f| matches!(f, Finding::GutterOverloaded(GutterId(0), _)));
        assert_eq!(is_told, rating < 3600.0, "at {rating}");
    }
}

/// 4,560 ft² at 1 in/h are 760 ft² at 6 in/h: 40 ft of 19 ft are just enough. A hair more is too much for one downspout.
#[test]
fn a_downspout_is_enough_up_to_its_rating() {
    let is_over = |depth: f64| {
        let (roof, eave) = shed([40.0, depth]);
        let (_, findings) = judged(&roof, &[gutter(eave, to_ground(&[20.0]))], 6.0);
        findings.iter().any(|f| matches!(f, Finding::DownspoutOverloaded(..)))
    };
    assert!(!is_over(18.999) && is_over(19.001));
}

#[test]
fn more_than_fifty_feet_to_one_outlet_are_told() {
    let is_told = |length: f64, at: &[f64]| {
        let (roof, eave) = shed([length, 5.0]);
        let (_, findings) = judged(&roof, &[gutter(eave, to_ground(at))], 1.0);
        findings.iter().any(|f| matches!(f, Finding::RunTooLong { serves: Some(_), .. }))
    };
    assert!(!is_told(49.9, &[0.0]) && is_told(50.1, &[0.0]) && !is_told(90.0, &[0.0, 90.0]));
    // outlets at 0 and 20 ft meet at 10 ft: 60 - 10 ft run to the second
    assert!(!is_told(59.9, &[0.0, 20.0]) && is_told(60.1, &[0.0, 20.0]));
}

/// From an outlet at one end all falls one way; from one in the middle half of it; outlets at 0 and 20 ft meet at 10 ft, and from there on all
/// falls to the second from its other side.
#[test]
fn more_than_forty_feet_that_fall_one_way_are_told_once() {
    let told = |length: f64, at: &[f64]| -> Vec<(bool, bool)> {
        let (roof, eave) = shed([length, 2.0]);
        let (_, findings) = judged(&roof, &[gutter(eave, to_ground(at))], 1.0);
        let of = |f: &Finding| match f {
            Finding::RunTooLong { serves, one_way, .. } => Some((serves.is_some(), one_way.is_some())),
            _ => None,
        };
        findings.iter().filter_map(of).collect()
    };
    assert_eq!(told(39.9, &[0.0]), []);
    assert_eq!(told(40.1, &[0.0]), [(false, true)]);
    assert_eq!(told(40.1, &[20.0]), []);
    assert_eq!(told(40.1, &[0.0, 40.1]), []);
    assert_eq!(told(50.1, &[0.0]), [(true, true)]);
    assert_eq!(told(50.1, &[25.0]), [(true, false)]);
    let (near, far) = (told(59.9, &[0.0, 20.0]), told(60.1, &[0.0, 20.0]));
    assert_eq!((near.as_slice(), far.as_slice()), (&[][..], &[(true, true)][..]));
}

#[test]
fn a_gutter_without_downspout_or_with_a_fall_nobody_hangs_is_told() {
    let (roof, eave) = shed([40.0, 15.0]);
    let (_, findings) = judged(&roof, &[gutter(eave, Vec::new())], 6.0);
    let [Finding::NoDownspout(GutterId(0), amount)] = findings.as_slice() else { panic!("{findings:?}") };
    assert_near(amount.ft2(), 600.0);
    let told = |inches: f64| {
        let hung = HungGutter { fall: Length::from_in(inches), ..gutter(eave, to_ground(&[0.0])) };
        let (_, findings) = judged(&roof, &[hung], 0.1);
        findings.iter().find_map(|f| match f {
            Finding::FallOutOfRange { is_steep, .. } => Some(*is_steep),
            _ => None,
        })
    };
    assert_eq!([0.0, 0.02, 0.026, 0.25, 0.3].map(told), [Some(false), Some(false), None, None, Some(true)]);
}

/// The cross-gable's porch eave ends on the wall of the wing. Its other end, and the eaves above, run toward nothing.
#[test]
fn a_gutter_keeps_an_inch_off_a_wall() {
    let roof = Roof::of_blocks(&cross_gable()).unwrap();
    let eaves = (0..roof.edges.len()).map(EdgeId).filter(|e| roof.edge(*e).kind == EdgeKind::Eave);
    let at_wall = |inches: f64| -> Vec<String> {
        let hang = |e| HungGutter { wall_gap: Length::from_in(inches), ..gutter(e, to_ground(&[0.0])) };
        let hung: Vec<HungGutter> = eaves.clone().map(hang).collect();
        let (_, findings) = judged(&roof, &hung, 1.0);
        let told = findings.iter().filter_map(|f| match f {
            Finding::EndAtWall(id, _) => Some(hung[id.0].edge),
            _ => None,
        });
        told.map(|e| roof.plane(roof.edge(e).planes[0]).name.clone()).collect()
    };
    assert_eq!(at_wall(0.0), ["porch S"]);
    assert_eq!(at_wall(0.9), ["porch S"]);
    assert_eq!(at_wall(1.0), Vec::<String>::new());
}

/// The valley of 72 ft² worked in `analytic.rs`, its house so many times as long and wide: 1.1 times gives 87 ft², 1.5 gives 162,
/// 2 gives 288, 2.5 gives 450. The throat is at the east end of the eave on its west.
#[test]
fn a_valley_asks_more_of_the_corner_the_more_it_brings() {
    let told = |scale: f64, kind: &str, from_throat: f64| -> Option<Splash> {
        let sized = |[a, b]: [f64; 2]| [a * scale, b * scale];
        let main = Rect::new("main", [0.0, 0.0], sized([40.0, 24.0]), 9.0);
        let wing = Rect::new("wing", sized([14.0, -10.0]), sized([12.0, 10.0]), 9.0);
        let main = main.pitches([Some(6.0), None, Some(6.0), None]);
        let wing = wing.pitches([None, Some(6.0), None, Some(6.0)]);
        let roof = Roof::of_blocks(&[main.block(), wing.block()]).unwrap();
        let west = |e: &EdgeId| roof.ends(*e).map(|p| p[0]).into_iter().fold(f64::INFINITY, f64::min);
        let south = (0..roof.edges.len()).map(EdgeId).filter(|e| {
            let edge = roof.edge(*e);
            edge.kind == EdgeKind::Eave && roof.plane(edge.planes[0]).name == "main S"
        });
        let eave = south.min_by(|a, b| west(a).total_cmp(&west(b))).unwrap();
        let edge = roof.edge(eave);
        let from_first = Length::from_ft(from_throat);
        let is_first = roof.node(edge.from).at[0] > roof.node(edge.to).at[0];
        let at = if is_first { from_first } else { edge.plan_length - from_first };
        let hung =
            HungGutter { kind: kind.to_owned(), ..gutter(eave, vec![downspout(at, Discharge::Ground)]) };
        let (_, findings) = judged(&roof, &[hung], 0.1);
        findings.iter().find_map(|f| match f {
            Finding::SplashOver { asks, .. } => Some(*asks),
            _ => None,
        })
    };
    let (six, four) = (Some(Length::from_in(6.0)), Some(Length::from_ft(4.0)));
    let asks = |wider, outlet_within, split| Some(Splash { wider, outlet_within, split });
    assert_eq!(told(1.1, "k-style-5", 10.0), None);
    assert_eq!(told(1.5, "k-style-5", 10.0), asks(None, None, false));
    assert_eq!(told(2.0, "k-style-5", 10.0), asks(six, four, false));
    assert_eq!(told(2.0, "k-style-6", 3.5), asks(None, None, false));
    assert_eq!(told(2.5, "k-style-6", 10.0), asks(None, four, true));
}

/// A porch below an upper eave: its downspout onto the porch's roof is told, as is what comes down from it no more as drips.
#[test]
fn a_downspout_onto_a_roof_is_told() {
    let roof = Roof::of_blocks(&cross_gable()).unwrap();
    let eave = |name: &str| {
        let found = (0..roof.edges.len()).map(EdgeId).filter(|e| {
            let edge = roof.edge(*e);
            edge.kind == EdgeKind::Eave && roof.plane(edge.planes[0]).name == name
        });
        found.min_by(|a, b| roof.ends(*a)[0][0].total_cmp(&roof.ends(*b)[0][0])).unwrap()
    };
    let porch = roof.planes.iter().position(|p| p.name == "porch S").unwrap();
    let onto = |to| {
        vec![
            gutter(eave("porch S"), to_ground(&[0.0])),
            gutter(eave("main S"), vec![downspout(Length::from_ft(10.0), to)]),
        ]
    };
    let at = [Length::from_ft(9.0).m(), Length::from_ft(-1.5).m()];
    let kinds =
        |hung: &[HungGutter]| -> Vec<&str> { judged(&roof, hung, 0.1).1.iter().map(Finding::key).collect() };
    let on_roof = kinds(&onto(Discharge::Roof { plane: roof::PlaneId(porch), at }));
    let piped = kinds(&onto(Discharge::Gutter(GutterId(0))));
    assert!(
        on_roof.contains(&"downspout_onto_roof") && !on_roof.contains(&"stream_onto_roof"),
        "{on_roof:?}"
    );
    assert!(!piped.contains(&"downspout_onto_roof"), "{piped:?}");
    assert_eq!(on_roof.iter().filter(|k| **k == "drips_on_roof").count(), 1, "{on_roof:?}"); // the wing's west eave
}
