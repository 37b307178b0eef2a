//! What is found on roofs made so that there is one thing to find, amounts worked by hand.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

#[path = "../../roof/tests/houses/mod.rs"]
mod houses;

use book::Book;
use houses::Rect;
use job::Job;
use roof::{EdgeKind, Roof};
use water::{Finding, Water};

/// Findings of a kind by its key, each with its catchment in square feet.
fn found(roof: &Roof, key: &str) -> Vec<(Finding, f64)> {
    let all = Water::of(roof).findings(roof);
    all.into_iter().filter(|one| one.key() == key).map(|one| (one, one.amount().ft2())).collect()
}

#[track_caller]
fn assert_one(roof: &Roof, key: &str, ft2: f64) -> Finding {
    let found = found(roof, key);
    let [(finding, amount)] = &found[..] else { panic!("{key}: {:?}", Water::of(roof).findings(roof)) };
    assert!((amount - ft2).abs() < 1e-6, "{key}: {amount} ft², wanted {ft2}");
    *finding
}

/// Two sheds of 20 by 10 ft that fall towards each other, plates alike.
fn butterfly() -> [Rect; 2] {
    let south = Rect::new("south", [0.0, 0.0], [20.0, 10.0], 9.0).pitches([None, None, Some(4.0), None]);
    let north = Rect::new("north", [0.0, 10.0], [20.0, 10.0], 9.0).pitches([Some(4.0), None, None, None]);
    [south, north]
}

#[test]
fn a_level_valley_is_dead_and_still_empties_off_its_ends() {
    let roof = Roof::of_blocks(&butterfly().map(|rect| rect.block())).unwrap();
    let Finding::DeadValley(valley, _) = assert_one(&roof, "dead_valley", 400.0) else { panic!() };
    assert_eq!(roof.edge(valley).kind, EdgeKind::LevelValley);
    assert!(found(&roof, "stands_at_edge").is_empty());
}

/// The same between two towers that shed away from it: no end is open.
#[test]
fn water_stands_in_a_level_valley_closed_at_both_ends() {
    let west = Rect::new("west", [-10.0, 0.0], [10.0, 20.0], 20.0).pitches([None, None, None, Some(2.0)]);
    let east = Rect::new("east", [20.0, 0.0], [10.0, 20.0], 20.0).pitches([None, Some(2.0), None, None]);
    let [south, north] = butterfly();
    let roof = Roof::of_blocks(&[south, north, west, east].map(|rect| rect.block())).unwrap();
    let Finding::StandsAt(valley, _) = assert_one(&roof, "stands_at_edge", 400.0) else { panic!() };
    assert_eq!(roof.edge(valley).kind, EdgeKind::LevelValley);
}

#[test]
fn water_stands_on_a_level_plane() {
    let level = Rect::new("level", [0.0, 0.0], [20.0, 10.0], 9.0).pitches([Some(0.0), None, None, None]);
    let roof = Roof::of_blocks(&[level.block()]).unwrap();
    assert!(matches!(assert_one(&roof, "stands_on_plane", 200.0), Finding::StandsOn(..)));
}

/// A main roof of 40 by 24 ft at 6/12 with a wing 8 ft wide at its front, eaves 2 ft out, and a porch below along the wing's west wall. The
/// west valley runs from (14, -2) to (20, 4) ft: to it come 66 ft² of the main roof and 18 ft² of the wing; 2 ft off either wall it falls
/// onto the porch.
fn over_a_porch(opening: &str) -> Roof {
    let block = |name: &str, at: &str, size: &str, plate: &str, roof: &str, overhang: &str| {
        format!(
            "[[block]]\nname = \"{name}\"\nat = {at}\nsize = {size}\nplate = \"{plate}\"\nroof = {{ {roof} }}\noverhang = \"{overhang}\"\nfascia = \"6 in\"\n"
        )
    };
    let text = [
        "weathershed = 1\ntitle = \"T\"\n[site]\ncode = \"irc-2018\"\n[covering]\nshingle = \"shingle-laminated-metric\"\n".to_owned(),
        block(
            "main",
            "[\"0'\", \"0'\"]",
            "[\"40'\", \"24'\"]",
            "20'",
            "form = \"gable\", ridge = \"x\", pitch = \"6/12\"",
            "2'",
        ),
        block(
            "wing",
            "[\"16'\", \"-8'\"]",
            "[\"8'\", \"8'\"]",
            "20'",
            "form = \"gable\", ridge = \"y\", pitch = \"6/12\"",
            "2'",
        ),
        block(
            "porch",
            "[\"0'\", \"-8'\"]",
            "[\"16'\", \"8'\"]",
            "8'",
            "form = \"shed\", high = \"north\", pitch = \"3/12\"",
            "0'",
        ),
        opening.to_owned(),
    ]
    .concat();
    let books = Book::builtin();
    let (job, _) = Job::read(&text, &books).unwrap();
    Roof::of(&job, &books).unwrap()
}

#[test]
fn a_valley_that_falls_on_a_lower_roof_is_a_stream_onto_it() {
    let roof = over_a_porch("");
    let Finding::StreamOntoRoof { onto, .. } = assert_one(&roof, "stream_onto_roof", 84.0) else { panic!() };
    assert_eq!(roof.plane(onto).block, "porch");
}

/// A skylight 2 ft wide right below where the valley lets go.
#[test]
fn an_opening_below_a_valley_stands_in_its_stream() {
    let light = "[[opening]]\nkind = \"skylight\"\nname = \"light\"\nat = [\"14'\", \"-5'\"]\nsize = [\"24 in\", \"24 in\"]\n";
    let roof = over_a_porch(light);
    assert!(matches!(assert_one(&roof, "opening_in_stream", 84.0), Finding::OpeningInStream(0, _)));
    let aside = over_a_porch(&light.replace("14'", "10'"));
    assert!(found(&aside, "opening_in_stream").is_empty());
}
