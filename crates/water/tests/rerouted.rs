//! Water with gutters hung, and with some of them blocked: amounts worked by hand. What must hold on any roof is in `random_houses`.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

mod hanging;
#[path = "../../roof/tests/houses/mod.rs"]
mod houses;

use hanging::{downspout, gutter};
use houses::Rect;
use measure::{Area, Length};
use roof::{EdgeId, EdgeKind, Roof};
use water::{Discharge, DownspoutId, GutterId, OutletKind, Part, Spill, Water};

fn roof_of(rects: &[Rect]) -> Roof {
    Roof::of_blocks(&rects.iter().map(Rect::block).collect::<Vec<_>>()).unwrap()
}

fn eaves(roof: &Roof) -> Vec<EdgeId> {
    (0..roof.edges.len()).map(EdgeId).filter(|e| roof.edge(*e).kind == EdgeKind::Eave).collect()
}

#[track_caller]
fn assert_ft2(found: Area, wanted: f64) {
    assert!((found.ft2() - wanted).abs() < 1e-6, "{} ft2, wanted {wanted}", found.ft2());
}

fn carried(water: &Water, gutter: usize, index: usize) -> Area {
    water.gutters[gutter].downspouts[index].catchment()
}

/// A shed of 40 by 15 ft, level across: 600 ft² over an eave 40 ft long, 15 ft² to the foot.
fn shed() -> Roof {
    let rect = Rect::new("shed", [0.0, 0.0], [40.0, 15.0], 9.0).pitches([Some(4.0), None, None, None]);
    roof_of(&[rect])
}

/// Outlets at 10 and 30 ft meet at 20 ft and take half each; at 0 and 30 ft they meet at 15 ft: 225 and 375 ft².
#[test]
fn each_downspout_takes_the_length_nearest_to_it() {
    let roof = shed();
    let eave = eaves(&roof)[0];
    for (at, wanted) in
        [([10.0, 30.0], [300.0, 300.0]), ([0.0, 30.0], [225.0, 375.0]), ([30.0, 0.0], [375.0, 225.0])]
    {
        let hung = gutter(eave, at.map(|ft| downspout(Length::from_ft(ft), Discharge::Ground)).to_vec());
        let water = Water::with(&roof, &[hung], &[]);
        assert_ft2(carried(&water, 0, 0), wanted[0]);
        assert_ft2(carried(&water, 0, 1), wanted[1]);
        assert_ft2(water.leaving(OutletKind::OffEdge(eave)), 0.0);
    }
}

/// Of outlets at 0, 30 and 40 ft the middle one serves from 15 to 35 ft: blocked, 20 ft of the eave spill, 300 ft².
#[test]
fn a_blocked_downspout_spills_over_the_length_it_serves() {
    let roof = shed();
    let eave = eaves(&roof)[0];
    let spouts = [0.0, 30.0, 40.0].map(|ft| downspout(Length::from_ft(ft), Discharge::Drain));
    let hung = [gutter(eave, spouts.to_vec())];
    let middle = DownspoutId { gutter: GutterId(0), index: 1 };
    let water = Water::with(&roof, &hung, &[Part::Downspout(middle)]);
    assert_ft2(water.leaving(OutletKind::OffEdge(eave)), 300.0);
    assert_ft2(water.leaving(OutletKind::Downspout(middle)), 0.0);
    assert_ft2(carried(&water, 0, 0), 225.0);
    assert_ft2(carried(&water, 0, 2), 75.0);
}

/// A tower of 20 by 10 ft whose shed roof falls south onto the middle of a lower shed roof of 40 by 15 ft.
fn tower() -> (Roof, EdgeId, EdgeId) {
    let low = Rect::new("low", [0.0, -15.0], [40.0, 15.0], 9.0).pitches([Some(3.0), None, None, None]);
    let high = Rect::new("high", [10.0, 0.0], [20.0, 10.0], 20.0).pitches([Some(4.0), None, None, None]);
    let roof = roof_of(&[low, high]);
    let height = |e: &EdgeId| roof.ends(*e)[0][2];
    let mut eaves = eaves(&roof);
    eaves.sort_by(|a, b| height(a).total_cmp(&height(b)));
    let (lower, upper) = (eaves[0], *eaves.last().unwrap());
    (roof, lower, upper)
}

/// The upper roof brings 200 ft². Piped into the lower gutter, all of it passes that one's near downspout: 600 / 2 + 200 ft².
#[test]
fn a_downspout_into_a_lower_gutter_passes_its_downspouts() {
    let (roof, lower, upper) = tower();
    let east = roof.edge(lower).plan_length;
    let ends = vec![downspout(Length::ZERO, Discharge::Ground), downspout(east, Discharge::Ground)];
    let hung =
        [gutter(lower, ends), gutter(upper, vec![downspout(Length::ZERO, Discharge::Gutter(GutterId(0)))])];
    let water = Water::with(&roof, &hung, &[]);
    assert_ft2(carried(&water, 1, 0), 200.0);
    let mut both = [carried(&water, 0, 0).ft2(), carried(&water, 0, 1).ft2()];
    both.sort_by(f64::total_cmp);
    assert!((both[0] - 300.0).abs() < 1e-6 && (both[1] - 500.0).abs() < 1e-6, "{both:?}");
    assert!(water.falls.is_empty(), "{:?}", water.falls);
    let blocked = Water::with(&roof, &hung, &[Part::Gutter(GutterId(0))]);
    assert_ft2(blocked.leaving(OutletKind::OffEdge(lower)), 800.0);
    assert_ft2(carried(&blocked, 0, 0) + carried(&blocked, 0, 1), 0.0);
}

/// Emptied on the lower roof 5 ft from the tower's west end, its 200 ft² come down as one stream over the lower eave.
#[test]
fn a_downspout_onto_a_roof_makes_a_stream_of_it() {
    let (roof, lower, upper) = tower();
    let onto = roof.edge(lower).planes[0];
    let at = [Length::from_ft(15.0).m(), Length::from_ft(-2.0).m()];
    let hung = [gutter(upper, vec![downspout(Length::ZERO, Discharge::Roof { plane: onto, at })])];
    let water = Water::with(&roof, &hung, &[]);
    let [fall] = water.falls.as_slice() else { panic!("{:?}", water.falls) };
    let id = DownspoutId { gutter: GutterId(0), index: 0 };
    assert_eq!((fall.from, fall.onto, fall.beside), (Spill::Downspout(id), onto, None));
    assert_ft2(fall.amount, 200.0);
    assert_ft2(water.edge(lower).streams(), 200.0);
    let stream = water.edge(lower).inflows.iter().find(|i| i.is_stream()).unwrap();
    let west = roof.ends(lower)[0][0];
    assert!(((west - at[0]).abs() - stream.span[0].m()).abs() < 1e-9);
}

/// A lower roof that falls south between a block along its west side and one across its foot. A downspout of the high block north of it
/// empties right into the corner of the two: its water counts for the side wall, which falls, however the house is told.
#[test]
fn a_stream_in_a_corner_runs_along_the_wall_that_falls() {
    for mirrored in [1.0, -1.0] {
        let at = |x: f64, wide: f64| if mirrored > 0.0 { x } else { -x - wide };
        let shed = |name, [x, y]: [f64; 2], [wide, deep]: [f64; 2], plate| {
            let rect = Rect::new(name, [at(x, wide), y], [wide, deep], plate);
            rect.pitches([Some(3.0), None, None, None])
        };
        let roof = roof_of(&[
            shed("across", [10.0, -4.0], [20.0, 4.0], 20.0),
            shed("beside", [0.0, -4.0], [10.0, 19.0], 20.0),
            shed("low", [10.0, 0.0], [20.0, 15.0], 9.0),
            shed("high", [0.0, 15.0], [30.0, 10.0], 30.0),
        ]);
        let corner = [Length::from_ft(at(10.0, 0.0)).m(), 0.0];
        let onto = roof.planes.iter().position(|p| p.block == "low").map(roof::PlaneId).unwrap();
        let upper =
            eaves(&roof).into_iter().max_by(|a, b| roof.ends(*a)[0][2].total_cmp(&roof.ends(*b)[0][2]));
        let to = Discharge::Roof { plane: onto, at: corner };
        let hung = [gutter(upper.unwrap(), vec![downspout(Length::ZERO, to)])];
        let water = Water::with(&roof, &hung, &[]);
        let piped = water.falls.iter().find(|fall| matches!(fall.from, Spill::Downspout(_))).unwrap();
        assert_eq!(piped.beside.map(|wall| roof.edge(wall).kind), Some(EdgeKind::Sidewall));
        assert_ft2(piped.amount, 300.0);
    }
}

/// The valley's throat between two eaves (72 ft² a valley, worked in `analytic.rs`) goes into the gutter of the longer; hung at the
/// shorter alone, into that; blocked, past both.
#[test]
fn a_throat_goes_into_the_gutter_of_the_longer_eave() {
    let main = Rect::new("main", [0.0, 0.0], [40.0, 24.0], 9.0).pitches([Some(6.0), None, Some(6.0), None]);
    let wing =
        Rect::new("wing", [14.0, -10.0], [12.0, 10.0], 9.0).pitches([None, Some(6.0), None, Some(6.0)]);
    let roof = roof_of(&[main, wing]);
    let valley = roof.edges.iter().find(|e| e.kind == EdgeKind::Valley).unwrap();
    let throat = [valley.from, valley.to]
        .into_iter()
        .min_by(|a, b| roof.node(*a).at[2].total_cmp(&roof.node(*b).at[2]));
    let throat = throat.unwrap();
    let mut at_throat: Vec<EdgeId> = eaves(&roof)
        .into_iter()
        .filter(|e| [roof.edge(*e).from, roof.edge(*e).to].contains(&throat))
        .collect();
    at_throat.sort_by(|a, b| roof.edge(*a).length.m().total_cmp(&roof.edge(*b).length.m()));
    let [shorter, longer] = at_throat.as_slice() else { panic!("{at_throat:?}") };
    let hung = [*shorter, *longer].map(|e| gutter(e, vec![downspout(Length::ZERO, Discharge::Ground)]));
    let throats = |water: &Water| -> Vec<f64> {
        water.gutters.iter().map(|g| g.throats.iter().map(|t| t.amount.ft2()).sum()).collect()
    };
    let near = |found: Vec<f64>, wanted: &[f64]| {
        assert!(found.iter().zip(wanted).all(|(a, b)| (a - b).abs() < 1e-6), "{found:?}, wanted {wanted:?}");
    };
    near(throats(&Water::with(&roof, &hung, &[])), &[0.0, 72.0]);
    near(throats(&Water::with(&roof, &hung[..1], &[])), &[72.0]);
    near(throats(&Water::with(&roof, &hung, &[Part::Gutter(GutterId(1))])), &[72.0, 0.0]);
    let dry = Water::with(&roof, &hung, &[Part::Gutter(GutterId(0)), Part::Gutter(GutterId(1))]);
    assert_ft2(dry.leaving(OutletKind::OffEnd(throat)), 72.0);
}
