//! One drop through gutters: its way worked by hand, and the same way as the whole of the rain takes.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

mod hanging;
#[path = "../../roof/tests/houses/mod.rs"]
mod houses;

use hanging::{downspout, gutter, random_blocked, random_gutters};
use houses::Rect;
use houses::random::{blocks, house};
use measure::Length;
use roof::{EdgeId, EdgeKind, Roof};
use water::{Discharge, DownspoutId, GutterId, HungGutter, OutletKind, Part, Path, Water, Way};

/// A lower shed roof of 40 by 15 ft with its eave along y = -15 ft, and above it one of 20 by 10 ft whose eave is over y = 0, x 10 to 30 ft.
fn tower() -> (Roof, EdgeId, EdgeId) {
    let low = Rect::new("low", [0.0, -15.0], [40.0, 15.0], 9.0).pitches([Some(3.0), None, None, None]);
    let high = Rect::new("high", [10.0, 0.0], [20.0, 10.0], 20.0).pitches([Some(4.0), None, None, None]);
    let roof = Roof::of_blocks(&[low.block(), high.block()]).unwrap();
    let height = |e: &EdgeId| roof.ends(*e)[0][2];
    let mut eaves: Vec<EdgeId> =
        (0..roof.edges.len()).map(EdgeId).filter(|e| roof.edge(*e).kind == EdgeKind::Eave).collect();
    eaves.sort_by(|a, b| height(a).total_cmp(&height(b)));
    let (lower, upper) = (eaves[0], *eaves.last().unwrap());
    (roof, lower, upper)
}

/// A distance in feet from the west along an eave, from the first end of its edge.
fn from_west(roof: &Roof, eave: EdgeId, feet: f64) -> Length {
    let [a, b] = roof.ends(eave);
    let at = Length::from_ft(feet);
    if a[0] < b[0] { at } else { roof.edge(eave).plan_length - at }
}

fn drop_at(roof: &Roof, hung: &[HungGutter], blocked: &[Part], feet: [f64; 2]) -> Path {
    Water::trace_with(roof, hung, blocked, feet.map(|v| v * 0.3048)).unwrap()
}

/// Where each part of the way ends in plan, feet.
fn turns(path: &Path) -> Vec<[f64; 2]> {
    path.steps.iter().map(|s| [s.to[0] / 0.3048, s.to[1] / 0.3048]).collect()
}

#[track_caller]
fn assert_turns(path: &Path, wanted: &[[f64; 2]]) {
    let found = turns(path);
    let near = |a: &[f64; 2], b: &[f64; 2]| a.iter().zip(b).all(|(a, b)| (a - b).abs() < 1e-6);
    let same = found.len() == wanted.len() && found.iter().zip(wanted).all(|(a, b)| near(a, b));
    assert!(same, "{found:?}, wanted {wanted:?}");
}

/// Upper downspout at the gutter's west end, x = 10 ft, into the lower gutter with outlets at x = 0 and 40 ft: the nearer is at 0.
#[test]
fn a_drop_goes_from_gutter_to_gutter_to_the_ground() {
    let (roof, lower, upper) = tower();
    let ends = [0.0, 40.0].map(|ft| downspout(from_west(&roof, lower, ft), Discharge::Ground));
    let into = downspout(from_west(&roof, upper, 0.0), Discharge::Gutter(GutterId(0)));
    let hung = [gutter(lower, ends.to_vec()), gutter(upper, vec![into])];
    let path = drop_at(&roof, &hung, &[], [22.0, 6.0]);
    assert_turns(&path, &[[22.0, 0.0], [10.0, 0.0], [10.0, -15.0], [0.0, -15.0]]);
    let (west, down) =
        (DownspoutId { gutter: GutterId(0), index: 0 }, DownspoutId { gutter: GutterId(1), index: 0 });
    let ways: Vec<Way> = path.steps[1..].iter().map(|s| s.way).collect();
    assert_eq!(ways, [Way::Gutter(GutterId(1)), Way::Downspout(down), Way::Gutter(GutterId(0))]);
    assert_eq!(path.end, OutletKind::Downspout(west));
    let blocked = drop_at(&roof, &hung, &[Part::Downspout(west)], [22.0, 6.0]);
    assert_turns(&blocked, &[[22.0, 0.0], [10.0, 0.0], [10.0, -15.0]]);
    assert_eq!(blocked.end, OutletKind::OffEdge(lower));
}

/// Emptied on the lower roof at x = 15, y = -2 ft the drop runs down from there; with the upper gutter blocked it falls where it left.
#[test]
fn a_drop_from_a_downspout_runs_down_the_lower_roof() {
    let (roof, lower, upper) = tower();
    let plane = roof.edge(lower).planes[0];
    let at = [15.0, -2.0].map(|ft| Length::from_ft(ft).m());
    let hung = [gutter(upper, vec![downspout(from_west(&roof, upper, 0.0), Discharge::Roof { plane, at })])];
    let path = drop_at(&roof, &hung, &[], [22.0, 6.0]);
    assert_turns(&path, &[[22.0, 0.0], [10.0, 0.0], [15.0, -2.0], [15.0, -15.0]]);
    assert_eq!(path.end, OutletKind::OffEdge(lower));
    let blocked = drop_at(&roof, &hung, &[Part::Gutter(GutterId(0))], [22.0, 6.0]);
    let bare = Water::trace(&roof, [22.0, 6.0].map(|v| v * 0.3048)).unwrap();
    assert_eq!(blocked, bare);
}

/// Wherever a drop leaves, some of the rain leaves too, on any house with any gutters, some of them blocked.
#[test]
fn a_drop_leaves_where_rain_does() {
    let mut by_downspout = 0;
    for seed in 0..1_000 {
        let Ok(roof) = Roof::of_blocks(&blocks(&house(seed))) else { continue };
        let hung = random_gutters(&roof, seed);
        let blocked = random_blocked(&hung, seed);
        let water = Water::with(&roof, &hung, &blocked);
        for plane in &roof.planes {
            let n = plane.outline.len() as f64;
            // off the middle, where ways part and rounding decides
            let start = [0.0137, 0.0071];
            let at = plane.outline.iter().fold(start, |s, p| [s[0] + p[0] / n, s[1] + p[1] / n]);
            let Some(path) = Water::trace_with(&roof, &hung, &blocked, at) else { continue };
            assert!(water.leaving(path.end).m2() > 0.0, "seed {seed}: {path:?}");
            by_downspout += usize::from(matches!(path.end, OutletKind::Downspout(_)));
        }
    }
    assert!(by_downspout > 500, "only {by_downspout} drops by downspouts");
}
