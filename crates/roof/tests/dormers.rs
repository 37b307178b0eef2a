//! Dormers that do not stand on the roof they are on, or do not die in it, and blocks that are buried.
//!
//! The host is a 40 ft by 26 ft gable at 6/12 from a plate at 17 ft: its roof is at 17 + y / 2 ft south of the ridge, which is at 23 1/2 ft.
//! All figures asked for are worked from that by hand.

mod houses;

use houses::Rect;
use job::Problem;
use measure::{Fraction, Length};
use proptest::prelude::*;
use roof::Roof;

fn host() -> Rect {
    Rect::new("main", [0.0, 0.0], [40.0, 26.0], 17.0)
        .pitches([Some(6.0), None, Some(6.0), None])
        .overhangs([1.5, 1.0, 1.5, 1.0])
}

/// A dormer 6 ft wide, 2 ft behind the south wall.
fn dormer(depth: f64, plate: f64, pitches: [Option<f64>; 4]) -> Rect {
    let mut rect = Rect::new("dormer", [16.0, 2.0], [6.0, depth], plate).pitches(pitches).overhangs([0.5; 4]);
    rect.on = Some("main");
    rect
}

const GABLE: [Option<f64>; 4] = [None, Some(8.0), None, Some(8.0)];
const HIP: [Option<f64>; 4] = [Some(8.0); 4];
const SHED_SOUTH: [Option<f64>; 4] = [Some(2.0), None, None, None];
const SHED_NORTH: [Option<f64>; 4] = [None, None, Some(2.0), None];

fn warnings(blocks: &[Rect]) -> Vec<Problem> {
    let blocks: Vec<_> = blocks.iter().map(Rect::block).collect();
    Roof::of_blocks(&blocks).expect("a roof").warnings
}

/// The one warning a dormer on the host gives.
fn warning(dormer: Rect) -> Problem {
    let mut found = warnings(&[host(), dormer]);
    assert_eq!(found.len(), 1, "{found:?}");
    found.remove(0)
}

#[track_caller]
fn assert_warns(dormer: Rect, code: &str, message: &str, mend: &str) {
    let found = warning(dormer);
    assert_eq!((found.code, found.message.as_str(), found.mend.as_str()), (code, message, mend));
    assert_eq!(found.places.len(), 2);
}

#[test]
fn gabled_dormer_that_ends_under_its_host_is_quiet_at_any_depth() {
    // eaves meet the host 6 ft behind the front, the ridge 10 ft behind it
    for depth in [3.0, 6.0, 8.0, 10.0, 10.9] {
        assert_eq!(warnings(&[host(), dormer(depth, 21.0, GABLE)]), [], "{depth}");
    }
}

#[test]
fn gabled_dormer_past_the_ridge_of_its_host_is_too_deep() {
    assert_warns(
        dormer(13.0, 21.0, GABLE),
        "dormer-depth",
        "the roof of dormer `dormer` meets that of `main` 10' behind its front wall; the block ends 3' past that, and comes out of the \
         roof behind",
        "make it 10' deep",
    );
}

#[test]
fn shed_dormer_short_of_where_it_meets_its_host_breaks_off_at_the_corners() {
    // 21 + t / 6 = 18 + t / 2
    assert_warns(
        dormer(5.0, 21.0, SHED_SOUTH),
        "dormer-depth",
        "the roof of dormer `dormer` meets that of `main` 9' behind its front wall; the block ends 4' short of that, and its overhangs \
         break off at the rear corners",
        "make it 9' deep",
    );
    assert_eq!(warnings(&[host(), dormer(9.0, 21.0, SHED_SOUTH)]), []);
}

#[test]
fn shed_dormer_that_comes_out_beyond_the_ridge_is_too_deep() {
    let found = warning(dormer(20.0, 21.0, SHED_SOUTH));
    assert_eq!((found.code, found.mend.as_str()), ("dormer-depth", "make it 9' deep"));
}

#[test]
fn dormer_over_the_ridge_of_its_host_must_come_down() {
    // the ridge of the dormer at 23 + 2 ft, that of the host at 23 1/2 ft
    assert_warns(
        dormer(8.0, 23.0, GABLE),
        "dormer-depth",
        "the roof of dormer `dormer` stands 1' 6\" or more over that of `main`: it does not end in it, but open behind",
        "lower its plate by 1' 6\" or more, or give it a flatter pitch",
    );
}

#[test]
fn dormer_that_falls_into_its_host_gathers_water() {
    for (what, depth, pitches) in
        [("over it", 4.0, SHED_NORTH), ("into it", 8.0, SHED_NORTH), ("a hip", 8.0, HIP)]
    {
        let found = warning(dormer(depth, 21.0, pitches));
        assert_eq!(found.code, "dormer-drains-into-roof", "{what}");
        assert!(found.message.starts_with("dormer `dormer` falls north towards the high side of `main`"));
    }
    // the hip at the rear lies under the host
    let mut deep = dormer(10.5, 20.0, HIP);
    (deep.pitch[2], deep.overhang[2]) = (Some(24.0), 0.5 / 3.0);
    assert_eq!(warnings(&[host(), deep]), []);
}

#[test]
fn dormer_beside_its_host_is_not_on_it() {
    let mut beside = dormer(6.0, 21.0, GABLE);
    beside.at = [16.0, -3.0];
    assert_warns(
        beside,
        "dormer-not-on",
        "dormer `dormer` is said to stand on `main`, but not all of it is within its walls",
        "check its `at` and `size`, name the block it does stand on, or leave `on` out",
    );
}

#[test]
fn front_flush_with_the_wall_of_the_host_or_an_eighth_proud_is_within_it() {
    for (proud, warns) in [(0.0, false), (1.0 / 8.0, false), (1.0 / 4.0, false), (3.0 / 8.0, true)] {
        let mut flush = dormer(6.0, 21.0, GABLE);
        flush.at[1] = -proud / 12.0;
        let found = warnings(&[host(), flush]);
        assert_eq!(found.iter().any(|w| w.code == "dormer-not-on"), warns, "{proud} in: {found:?}");
    }
}

#[test]
fn dormer_over_a_court_of_its_host_is_not_on_it() {
    let square = |x: f64, y: f64, w: f64| vec![[x, y], [x + w, y], [x + w, y + w], [x, y + w]];
    let mut court = square(4.0, 4.0, 4.0);
    court.reverse();
    let ring = houses::outline_block("ring", vec![square(0.0, 0.0, 12.0), court]);
    let stand = |x: f64, width: f64| {
        let mut block = houses::outline_block("dormer", vec![square(x, x, width)]);
        block.on = Some("ring".into());
        Roof::of_blocks(&[ring.clone(), block]).expect("a roof").warnings
    };
    let is_off = |found: &[Problem]| found.iter().any(|w| w.code == "dormer-not-on");
    assert!(is_off(&stand(3.0, 6.0)), "around the court");
    assert!(is_off(&stand(2.0, 4.0)), "over a corner of it");
    assert!(!is_off(&stand(1.0, 2.0)), "beside it");
}

#[test]
fn dormer_under_its_host_is_buried_until_its_plate_is_raised() {
    // its ridge is 2 ft over its plate, the host 18 ft high at the dormer's front wall
    assert_warns(
        dormer(8.0, 12.0, GABLE),
        "block-buried",
        "nothing of block `dormer` shows: its roof lies under that of `main`",
        "raise its plate above 16', where it begins to show, or take the block out",
    );
    let is_buried =
        |plate| warnings(&[host(), dormer(8.0, plate, GABLE)]).iter().any(|w| w.code == "block-buried");
    assert!(is_buried(15.99) && !is_buried(16.01));
}

#[test]
fn block_without_on_is_not_taken_for_a_dormer() {
    let mut tower = dormer(13.0, 21.0, HIP);
    tower.on = None;
    assert_eq!(warnings(&[host(), tower]), []);
}

/// The depth a warning asks for.
fn depth_asked_for(warnings: &[Problem]) -> Option<Length> {
    let mend = &warnings.iter().find(|w| w.code == "dormer-depth")?.mend;
    mend.strip_prefix("make it ")?.strip_suffix(" deep")?.parse().ok()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    /// Whatever the depth asked for, to the eighth of an inch it is written to, a dormer of that depth is not asked for another.
    #[test]
    fn depth_asked_for_will_do(
        depth in 2.0..22.0f64, plate in 18.5..24.0f64, pitch in 1.0..9.0f64, is_shed: bool, overhang in 0.0..1.0f64,
    ) {
        let pitches = if is_shed { [Some(pitch), None, None, None] } else { [None, Some(pitch), None, Some(pitch)] };
        let written = dormer(depth, plate, pitches).overhangs([overhang; 4]);
        if let Some(asked) = depth_asked_for(&warnings(&[host(), written.clone()])) {
            let mut mended = written;
            mended.size[1] = asked.ft();
            let left = warnings(&[host(), mended]);
            prop_assert!(left.iter().all(|w| w.code != "dormer-depth"), "{} ft: {left:?}", asked.trade(Fraction::Eighth));
        }
    }
}
