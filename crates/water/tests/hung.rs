//! Gutters of the document at their eaves: which eave, and where along it.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

use book::Book;
use job::Job;
use measure::Length;
use roof::Roof;
use roof::plan::{P2, between, distance, flat};
use water::{Discharge, GutterId, HungGutter, Part, hang};

const FIVE: &str = "kind = \"k-style-5\"\nfall = \"1/16 in\"\n";

fn hung(blocks: &str, gutters: &str) -> (Roof, Vec<HungGutter>) {
    let text = format!(
        "weathershed = 1\ntitle = \"T\"\n[site]\ncode = \"irc-2018\"\nrain = \"6 in/h\"\nice_history = true\nwall_line = \"outside\"\n\
         [covering]\nshingle = \"shingle-laminated-metric\"\nexposure = \"5 5/8 in\"\n{blocks}\n{gutters}"
    );
    let books = Book::builtin();
    let (job, _) = Job::read(&text, &books).unwrap();
    let roof = Roof::of(&job, &books).unwrap();
    let hung = hang(&roof, &job.gutters, job.units).unwrap();
    (roof, hung)
}

/// A house of 40 by 26 ft without overhangs, turned about its south-west corner at 0, 0.
fn hip(turn: &str) -> String {
    format!(
        "[[block]]\nname = \"main\"\nat = [\"0'\", \"0'\"]\nsize = [\"40'\", \"26'\"]\nturn = \"{turn}\"\nplate = \"9'\"\nfascia = \"6 in\"\n\
         roof = {{ form = \"hip\", pitch = \"4/12\" }}\noverhang = \"0 in\"\n"
    )
}

/// Where a downspout stands in plan, feet.
fn at(roof: &Roof, gutter: &HungGutter, index: usize) -> P2 {
    let [from, to] = roof.ends(gutter.edge).map(flat);
    let part = gutter.downspouts[index].at.m() / distance(from, to);
    between(from, to, part).map(|v| Length::from_m(v).ft())
}

#[track_caller]
fn assert_at(found: P2, wanted: P2) {
    assert!(distance(found, wanted) < 1e-6, "{found:?}, wanted {wanted:?}");
}

#[test]
fn distances_count_from_the_west_or_south_end_on_every_side() {
    let spouts = |end: &str| {
        format!(
            "{FIVE}downspouts = [{{ at = \"10'\", size = \"downspout-2x3\", to = \"ground\" }}, {{ at = \"{end}\", size = \"downspout-2x3\", to = \"drain\" }}]\n"
        )
    };
    for (eave, end, ten, at_end) in [
        ("main S", "east", [10.0, 0.0], [40.0, 0.0]),
        ("main N", "west", [10.0, 26.0], [0.0, 26.0]),
        ("main E", "north", [40.0, 10.0], [40.0, 26.0]),
        ("main W", "south", [0.0, 10.0], [0.0, 0.0]),
    ] {
        let (roof, hung) = hung(&hip("0 deg"), &format!("[[gutter]]\neave = \"{eave}\"\n{}", spouts(end)));
        assert_at(at(&roof, &hung[0], 0), ten);
        assert_at(at(&roof, &hung[0], 1), at_end);
    }
}

/// Turned by 30 degrees the south side runs from 0, 0 to 40 cos 30, 40 sin 30 = 34.64, 20 ft.
#[test]
fn a_turned_house_keeps_its_ends() {
    let spout = "downspouts = [{ at = \"east\", size = \"downspout-2x3\", to = \"ground\" }]\n";
    let (roof, hung) = hung(&hip("30 deg"), &format!("[[gutter]]\neave = \"main S\"\n{FIVE}{spout}"));
    assert_at(at(&roof, &hung[0], 0), [40.0 * 0.75_f64.sqrt(), 20.0]);
}

#[test]
fn one_that_goes_makes_room_for_one_that_comes_and_names_find_what_hangs() {
    let spout = "downspouts = [{ at = \"west\", size = \"downspout-2x3\", to = \"ground\" }]\n";
    let gutter = |name: &str, state: &str| {
        format!("[[gutter]]\nname = \"{name}\"\neave = \"main S\"\n{FIVE}{spout}state = \"{state}\"\n")
    };
    let (_, hung) = hung(&hip("0 deg"), &format!("{}{}", gutter("old", "remove"), gutter("new", "plan")));
    let names: Vec<&str> = hung.iter().map(|g| g.name.as_str()).collect();
    assert_eq!(names, ["new"]);
    assert_eq!(Part::named("new", &hung), Some(Part::Gutter(GutterId(0))));
    assert!(matches!(Part::named("new downspout 1", &hung), Some(Part::Downspout(d)) if d.index == 0));
    assert_eq!(Part::named("old", &hung), None);
}

/// On the cross-gable the wing cuts the south eave in two, and the valley's downspout goes into the gutter of the porch.
#[test]
fn the_cross_gables_gutters_hang_where_they_are_said_to() {
    let books = Book::builtin();
    let (job, _) = Job::read(include_str!("../../../examples/cross-gable.toml"), &books).unwrap();
    let roof = Roof::of(&job, &books).unwrap();
    let hung = hang(&roof, &job.gutters, job.units).unwrap();
    let named = |name: &str| hung.iter().position(|g| g.name == name).unwrap();
    let length = |name: &str| roof.edge(hung[named(name)].edge).length.ft();
    assert!(length("south-west gutter") > 20.0 && length("south-east gutter") < 5.0);
    let to = hung[named("south-west gutter")].downspouts[1].to;
    assert_eq!(to, Discharge::Gutter(GutterId(named("porch gutter"))));
    assert!(hung.iter().all(|g| g.name != "old south gutter"));
    let onto_roof =
        hung.iter().flat_map(|g| &g.downspouts).filter(|d| matches!(d.to, Discharge::Roof { .. }));
    assert_eq!(onto_roof.count(), 0);
}
