//! What the two valleys of a cricket carry, from the cricket's own corners and by hand.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

use book::Book;
use job::Job;
use roof::Roof;
use roof::plan::{P2, area, flat};
use water::{OpeningFlow, Water};

fn roof_of(blocks: &str, opening: &str) -> Roof {
    let text = format!(
        "weathershed = 1\ntitle = \"T\"\n[site]\ncode = \"irc-2018\"\n[covering]\nshingle = \"shingle-laminated-metric\"\n{blocks}\n\
         [[opening]]\nname = \"it\"\n{opening}\n"
    );
    let books = Book::builtin();
    let (job, _) = Job::read(&text, &books).unwrap();
    Roof::of(&job, &books).unwrap()
}

fn block(name: &str, at: [&str; 2], size: [&str; 2], plate: &str, roof: &str) -> String {
    format!(
        "[[block]]\nname = \"{name}\"\nat = {at:?}\nsize = {size:?}\nplate = \"{plate}\"\nroof = {{ {roof} }}\noverhang = \"0 in\"\nfascia = \"6 in\"\n"
    )
}

fn shed() -> String {
    block("shed", ["0'", "0'"], ["20'", "16'"], "9'", "form = \"shed\", high = \"north\", pitch = \"6/12\"")
}

fn ft2(ring: &[P2]) -> f64 {
    area(ring).abs() / 0.3048_f64.powi(2)
}

fn flow(roof: &Roof) -> OpeningFlow {
    Water::of(roof).openings[0]
}

#[track_caller]
fn assert_sides(found: &OpeningFlow, wanted: [f64; 2]) {
    let sides = found.sides.map(measure::Area::ft2);
    assert!(sides.iter().zip(wanted).all(|(a, b)| (a - b).abs() < 1e-6), "{sides:?}, wanted {wanted:?}");
    assert!((sides[0] + sides[1] - found.behind.ft2()).abs() < 1e-9);
}

/// Chimney and skylight of 4 ft in the middle of a slope, water from 9 ft of it behind: 18 ft² to each side. The same from the cricket:
/// each valley takes its own plane of the cricket and the slope above itself, up to the top at y = 16 ft.
#[test]
fn each_valley_of_a_cricket_carries_its_half() {
    let chimney = "kind = \"chimney\"\nat = [\"8'\", \"6'\"]\nsize = [\"4'\", \"2'\"]";
    for pitch in ["true", "\"3/12\"", "\"9/12\""] {
        let roof = roof_of(&shed(), &format!("{chimney}\ncricket = {pitch}"));
        let [cricket] = roof.crickets.as_slice() else { panic!("{:?}", roof.crickets) };
        let top = 16.0 * 0.3048;
        let carried = cricket.planes.map(|plane| {
            let [low, _, end] = plane.map(flat);
            ft2(&plane.map(flat)) + ft2(&[low, end, [end[0], top], [low[0], top]])
        });
        assert!(carried.iter().all(|side| (side - 18.0).abs() < 1e-6), "{pitch}: {carried:?}");
        assert_sides(&flow(&roof), carried);
    }
    let skylight = "kind = \"skylight\"\nat = [\"8'\", \"6'\"]\nsize = [\"4'\", \"2'\"]\ncricket = true";
    let skylight = roof_of(&shed(), skylight);
    assert_eq!(skylight.crickets.len(), 1);
    let sides = flow(&skylight).sides;
    assert!((sides[0].m2() - sides[1].m2()).abs() < 1e-9 && sides[0].m2() > 0.0, "{sides:?}");
}

/// Drops to either side of a cricket's ridge run on at either side of the chimney, also those that fall on the cricket.
#[test]
fn the_ridge_of_a_cricket_parts_drops() {
    let roof = roof_of(
        &shed(),
        "kind = \"chimney\"\nat = [\"8'\", \"6'\"]\nsize = [\"4'\", \"2'\"]\ncricket = true",
    );
    let ridge = flat(roof.crickets[0].planes[0][1]);
    for up in [0.5, 5.0] {
        for (side, ends) in [(-0.01, 6.0), (0.01, 10.0)] {
            let path = Water::trace(&roof, [ridge[0] + side, ridge[1] + up * 0.3048]).unwrap();
            let foot = path.steps.last().unwrap().to[0] / 0.3048;
            assert!((foot - ends).abs() < 0.01, "{foot}, wanted {ends}");
        }
    }
}

/// On a square hip roof of 20 ft the hip over x = y ends the slope behind a chimney over x from 4 to 8 ft, whose back is at y = 3 ft: to the
/// left 2 ft of 1 to 3 ft, to the right 2 ft of 3 to 5 ft.
#[test]
fn beside_a_hip_each_side_of_a_cricket_has_its_own_share() {
    let hut = block("hut", ["0'", "0'"], ["20'", "20'"], "9'", "form = \"hip\", pitch = \"6/12\"");
    let roof =
        roof_of(&hut, "kind = \"chimney\"\nat = [\"6'\", \"2'\"]\nsize = [\"4'\", \"2'\"]\ncricket = true");
    assert_eq!(roof.crickets.len(), 1);
    assert_sides(&flow(&roof), [4.0, 8.0]);
}

/// Below an upper roof 10 ft deep whose eave begins at x = 10 ft: behind a chimney over x from 8 to 12 ft come 4 × 7 ft² of the lower slope,
/// half to each side, and over 2 ft of the right side the upper roof's 20 ft².
#[test]
fn below_an_eave_each_side_of_a_cricket_has_its_own_share() {
    let low = block(
        "low",
        ["0'", "-15'"],
        ["40'", "15'"],
        "9'",
        "form = \"shed\", high = \"north\", pitch = \"3/12\"",
    );
    let high = block(
        "high",
        ["10'", "0'"],
        ["20'", "10'"],
        "20'",
        "form = \"shed\", high = \"north\", pitch = \"4/12\"",
    );
    let chimney = "kind = \"chimney\"\nat = [\"10'\", \"-8'\"]\nsize = [\"4'\", \"2'\"]\ncricket = true";
    assert_sides(&flow(&roof_of(&format!("{low}{high}"), chimney)), [14.0, 34.0]);
}
