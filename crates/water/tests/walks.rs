//! What drips on walks, worked by hand; splash reaches 2 ft around a walk (`books/gutters.toml`, rule `walk.reach`).

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

mod hanging;
#[path = "../../roof/tests/houses/mod.rs"]
mod houses;

use book::Book;
use hanging::{downspout, gutter, random_gutters};
use houses::random::{blocks, house};
use job::Job;
use measure::{Area, Length, RainRate};
use roof::{EdgeId, EdgeKind, Roof};
use water::{Discharge, Drainage, Finding, GutterId, OutletKind, Part, Water};

/// A shed roof of 40 by 15 ft whose eave runs along y = 0, 15 ft² to the foot, and a walk.
fn shed(at: [&str; 2], size: [&str; 2]) -> Roof {
    let text = format!(
        "weathershed = 1\ntitle = \"T\"\n[site]\ncode = \"irc-2018\"\n[covering]\nshingle = \"shingle-laminated-metric\"\n[[block]]\nname = \"shed\"\n\
         at = [\"0'\", \"0'\"]\nsize = [\"40'\", \"15'\"]\nplate = \"9'\"\nroof = {{ form = \"shed\", high = \"north\", pitch = \"3/12\" }}\n\
         overhang = \"0 in\"\nfascia = \"6 in\"\n[[walk]]\nname = \"steps\"\nat = {at:?}\nsize = {size:?}\n"
    );
    let books = Book::builtin();
    let (job, _) = Job::read(&text, &books).unwrap();
    Roof::of(&job, &books).unwrap()
}

fn wet(water: &Water, roof: &Roof) -> Vec<f64> {
    let of = |f: &Finding| match f {
        Finding::DripsOnWalk { amount, walk: 0, .. } => Some(amount.ft2()),
        _ => None,
    };
    water.findings(roof).iter().filter_map(of).collect()
}

#[track_caller]
fn assert_wet(roof: &Roof, wanted: &[f64]) {
    let found = wet(&Water::of(roof), roof);
    let near = found.len() == wanted.len() && found.iter().zip(wanted).all(|(a, b)| (a - b).abs() < 1e-6);
    assert!(near, "{found:?}, wanted {wanted:?}");
}

fn eave(roof: &Roof) -> EdgeId {
    (0..roof.edges.len()).map(EdgeId).find(|e| roof.edge(*e).kind == EdgeKind::Eave).unwrap()
}

/// Steps 5 ft wide under the eave are wet from 2 ft left of them to 2 ft right: 9 ft of 15 ft². At the house's corner 2 ft of it are missing.
#[test]
fn steps_under_an_eave_are_wet_as_far_as_splash_reaches() {
    assert_wet(&shed(["10'", "-3'"], ["5'", "4'"]), &[9.0 * 15.0]);
    assert_wet(&shed(["0'", "-3'"], ["5'", "4'"]), &[7.0 * 15.0]);
}

/// A walk along the house is wet where its near side is up to 2 ft from below the eave, and dry where that is further.
#[test]
fn a_walk_beyond_the_reach_is_dry() {
    assert_wet(&shed(["10'", "-4' 11\""], ["5'", "3'"]), &[9.0 * 15.0]);
    assert_wet(&shed(["10'", "-5' 1\""], ["5'", "3'"]), &[]);
    assert_wet(&shed(["42' 1\"", "-3'"], ["5'", "4'"]), &[]);
}

/// A gutter keeps the walk dry. With outlets at both ends and the west one blocked, the west half of the eave drips again: of what wets
/// steps from x = 17 to 22 ft the stretch from 15 to 20 ft.
#[test]
fn a_gutter_keeps_a_walk_dry_until_it_is_blocked() {
    let roof = shed(["17'", "-3'"], ["5'", "4'"]);
    let eave = eave(&roof);
    let ends = [Length::ZERO, roof.edge(eave).plan_length].map(|at| downspout(at, Discharge::Ground));
    let west = usize::from(roof.ends(eave)[0][0] > roof.ends(eave)[1][0]);
    let hung = [gutter(eave, ends.to_vec())];
    assert_eq!(wet(&Water::with(&roof, &hung, &[]), &roof), Vec::<f64>::new());
    let part = Part::Downspout(water::DownspoutId { gutter: GutterId(0), index: west });
    let found = wet(&Water::with(&roof, &hung, &[part]), &roof);
    assert!(found.len() == 1 && (found[0] - 5.0 * 15.0).abs() < 1e-6, "{found:?}");
    assert!(
        (wet(&Water::with(&roof, &hung, &[Part::Gutter(GutterId(0))]), &roof)[0] - 9.0 * 15.0).abs() < 1e-6
    );
}

#[test]
fn a_finding_says_what_drips_where() {
    let roof = shed(["10'", "-3'"], ["5'", "4'"]);
    let findings = Water::of(&roof).findings(&roof);
    let [finding] = findings.as_slice() else { panic!("{findings:?}") };
    assert_eq!(finding.key(), "drips_on_walk");
    assert!(finding.told(&roof, &[], job::Units::Us).contains("drips on `steps`"));
    let spot = finding.spot(&roof, &[]).map(|v| v / 0.3048);
    assert!((spot[0] - 12.5).abs() < 1e-6 && spot[1].abs() < 1e-6, "{spot:?}");
}

/// Water that a lower roof or a gutter catches is no drip: those are all that leaves edges and ends, on any house.
#[test]
fn drips_are_what_leaves_for_the_ground() {
    for seed in 0..500 {
        let Ok(roof) = Roof::of_blocks(&blocks(&house(seed))) else { continue };
        let hung = random_gutters(&roof, seed);
        for water in [Water::of(&roof), Water::with(&roof, &hung, &[])] {
            let is_off = |kind| matches!(kind, OutletKind::OffEdge(_) | OutletKind::OffEnd(_));
            let off: Area = water.outlets.iter().filter(|o| is_off(o.kind)).map(|o| o.amount).sum();
            let drips: Area = water.drips.iter().map(|d| d.amount).sum();
            assert!(
                (off.m2() - drips.m2()).abs() <= 1e-9 * water.rain.m2(),
                "seed {seed}: {drips:?} of {off:?}"
            );
        }
    }
}

/// Water let go at the foot of a downspout within 2 ft of a walk wets it: all 600 ft² of the eave at its one downspout, at x = 1 ft. Led into a
/// drain it does not.
#[test]
fn a_downspout_by_the_steps_wets_them_unless_it_is_led_off() {
    let told = |x: &str, to: Discharge| {
        let roof = shed([x, "-3'"], ["3'", "2'"]);
        let [a, _] = roof.ends(eave(&roof));
        let at = if a[0] < 1.0 { Length::from_ft(1.0) } else { Length::from_ft(39.0) };
        let hung = [gutter(eave(&roof), vec![downspout(at, to)])];
        let drainage =
            Drainage::of(&roof, &hung, &[], RainRate::from_in_per_h(6.0), &Book::builtin()).unwrap();
        let onto = |finding: &Finding| match finding {
            Finding::DownspoutOntoWalk { walk: 0, amount, .. } => Some(amount.ft2()),
            _ => None,
        };
        drainage.findings.iter().filter_map(onto).collect::<Vec<_>>()
    };
    let [wet] = told("0'", Discharge::Ground)[..] else { panic!("dry steps") };
    assert!((wet - 600.0).abs() < 1.0, "{wet}");
    assert!(told("0'", Discharge::Drain).is_empty(), "led off");
    assert!(told("3' 1\"", Discharge::Ground).is_empty(), "out of reach");
}
