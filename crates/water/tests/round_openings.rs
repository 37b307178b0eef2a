//! Water at openings that stand over the end of an edge, or beside another: where it goes, by hand.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

use book::Book;
use job::Job;
use roof::{EdgeKind, Roof};
use water::{OpeningFlow, Water};

/// A main roof of 40 by 20 ft that falls south at 4/12 from 9 ft, and what else there is.
fn roof_of(rest: &str) -> Roof {
    let main = block("main", ["0'", "0'"], ["40'", "20'"], "9'", "shed\", high = \"north");
    let text = format!(
        "weathershed = 1\ntitle = \"T\"\n[site]\ncode = \"irc-2018\"\n[covering]\nshingle = \"shingle-laminated-metric\"\n{main}{rest}"
    );
    let books = Book::builtin();
    let (job, _) = Job::read(&text, &books).unwrap();
    Roof::of(&job, &books).unwrap()
}

fn block(name: &str, at: [&str; 2], size: [&str; 2], plate: &str, form: &str) -> String {
    format!(
        "[[block]]\nname = \"{name}\"\nat = {at:?}\nsize = {size:?}\nplate = \"{plate}\"\nroof = {{ form = \"{form}\", pitch = \"4/12\" }}\noverhang = \"0 in\"\nfascia = \"6 in\"\n"
    )
}

fn chimney(name: &str, at: [&str; 2], size: [&str; 2]) -> String {
    format!("[[opening]]\nname = \"{name}\"\nkind = \"chimney\"\nat = {at:?}\nsize = {size:?}\n")
}

/// A wing over x from 14 to 26 ft and y from 0 to 14 ft, ridge north to south, whose eaves are 2 ft above the main eave: its west valley
/// runs from (20, 12) down to (14, 6), and on from there is the wing's west wall. 6 × 14 - 18 ft² of the main roof and 18 ft² of the wing
/// run to it.
fn wing() -> String {
    block("wing", ["14'", "0'"], ["12'", "14'"], "11'", "gable\", ridge = \"y")
}

/// Streams over the main eave west of a place, each with how far from the west end it is, in feet.
fn streams(roof: &Roof, water: &Water, west_of: f64) -> Vec<(f64, f64)> {
    let mut found: Vec<(f64, f64)> = Vec::new();
    for (edge, flow) in roof.edges.iter().zip(&water.edges) {
        let [a, b] = [edge.from, edge.to].map(|n| roof.node(n).at);
        let is_main = edge.kind == EdgeKind::Eave && a[1].abs() < 1e-6 && b[1].abs() < 1e-6;
        for stream in flow.inflows.iter().filter(|i| is_main && i.is_stream()) {
            let along = stream.span[0].m();
            let x = if a[0] < b[0] { a[0] + along } else { a[0] - along };
            found.push((x / 0.3048, stream.amount.ft2()));
        }
    }
    found.retain(|(x, _)| *x < west_of);
    found
}

/// Nothing goes round and nothing stands, and all streams west of a place together are these, each within a hundredth of a foot of its place.
#[track_caller]
fn assert_streams(roof: &Roof, west_of: f64, wanted: &[(f64, f64)]) -> Vec<OpeningFlow> {
    let water = Water::of(roof);
    assert!(water.circles.m2() < 1e-12, "{} ft2 go round", water.circles.ft2());
    let stands: f64 = water.outlets.iter().filter(|o| o.kind.stands()).map(|o| o.amount.ft2()).sum();
    assert!(stands < 1e-9, "{stands} ft2 stand");
    let found = streams(roof, &water, west_of);
    for (x, amount) in wanted {
        let near: f64 = found.iter().filter(|(at, _)| (at - x).abs() < 0.01).map(|(_, amount)| amount).sum();
        assert!((near - amount).abs() < 1e-6, "{near} ft2 at {x} ft, wanted {amount}: {found:?}");
    }
    let [all, known]: [f64; 2] = [&found[..], wanted].map(|s| s.iter().map(|(_, amount)| amount).sum());
    assert!((all - known).abs() < 1e-6, "{all} ft2 in all: {found:?}");
    water.openings
}

/// A tower over x from 0 to 12 ft and y from 8 ft up; a chimney over its south-east corner, x from 11 to 15 ft and y from 7 to 9 ft. The wall
/// ends under the chimney: what 3 ft of slope of 11 ft bring goes round the east side.
#[test]
fn a_wall_that_ends_under_an_opening_is_no_way_round_it() {
    let tower = block("tower", ["0'", "8'"], ["12'", "12'"], "25'", "shed\", high = \"south");
    let roof = roof_of(&format!("{tower}{}", chimney("flue", ["13'", "8'"], ["4'", "2'"])));
    let flows = assert_streams(&roof, 40.0, &[(15.0, 33.0)]);
    assert!((flows[0].behind.ft2() - 33.0).abs() < 1e-6, "{flows:?}");
}

/// A chimney over x from 12 to 15 ft and y from 5 to 6.5 ft: the valley comes down to its back at (14.5, 6.5) with 84 ft² less the half foot
/// that comes to the back by itself, 6.75 ft²; 2.5 × 13.5 ft² of slope come to it besides. East of it there is none of the main roof.
#[test]
fn a_valley_that_ends_at_the_back_of_an_opening_goes_round_it() {
    let roof = roof_of(&format!("{}{}", wing(), chimney("flue", ["13' 6\"", "5' 9\""], ["3'", "1' 6\""])));
    let round = 2.5 * 13.5 + 84.0 - 6.75;
    let flows = assert_streams(&roof, 13.0, &[(12.0, round)]);
    assert!((flows[0].behind.ft2() - round).abs() < 1e-6, "{flows:?}");
    for x in [12.5, 14.6, 17.0] {
        let path = Water::trace(&roof, [x * 0.3048, 15.0 * 0.3048]).unwrap();
        assert!(path.steps.windows(2).all(|s| s[1].from[2] <= s[0].to[2] + 1e-9), "{path:?}");
        let climbs = path.steps.iter().find(|s| s.to[2] > s.from[2] + 1e-9);
        let foot = path.steps.last().unwrap().to[0] / 0.3048;
        assert!(climbs.is_none() && (foot - 12.0).abs() < 0.01, "{path:?}");
    }
}

/// A chimney over x from 12 to 15 ft and y from 5 to 8 ft: the valley runs in under it from the east side, with 84 ft² less the foot of 12 ft²
/// that comes to the chimney's back, and comes out below. What comes to the back, 3 × 12 ft², goes round the west side, for by the east it
/// would come into the valley and under the chimney again. Beside the valley's water 6 × 6 ft² of the wing's eave come down along the wall.
#[test]
fn a_valley_that_runs_in_under_an_opening_comes_out_below_it() {
    let roof = roof_of(&format!("{}{}", wing(), chimney("flue", ["13' 6\"", "6' 6\""], ["3'", "3'"])));
    let flows = assert_streams(&roof, 14.0, &[(12.0, 36.0), (14.0, 84.0 - 12.0 + 36.0)]);
    assert!((flows[0].behind.ft2() - 36.0).abs() < 1e-6, "{flows:?}");
}

/// A chimney over x from 8 to 10 ft stands against one over x from 10 to 14 ft whose back is 3 ft further up, at y = 9 ft: there is no way
/// between them. West of the first come down the 2 × 14 ft² behind it, and half of the other's 4 × 11 ft².
#[test]
fn another_opening_close_by_leaves_no_way_between() {
    let both = chimney("stove", ["9'", "5'"], ["2'", "2'"]) + &chimney("flue", ["12'", "6'"], ["4'", "6'"]);
    let roof = roof_of(&both);
    assert_streams(&roof, 40.0, &[(8.0, 28.0 + 22.0), (14.0, 22.0)]);
}
