//! Rain with gutters hung at random, some blocked, and rain on walls.

use measure::Area;
use water::{Discharge, EdgeFlow, GutterId, HungGutter, Part, WallWater, Water};

use crate::look::House;

/// Whether what fell on each plane is what leaves of it, as it does without gutters, and nothing goes through what is blocked.
pub(crate) fn fault(house: &House<'_>) -> Option<String> {
    let open = Water::with(house.roof, house.gutters, &[]);
    let water = Water::with(house.roof, house.gutters, house.blocked);
    let carries = |part: &&Part| match part {
        Part::Gutter(g) => water.gutters[g.0].catchment() != Area::ZERO,
        Part::Downspout(d) => water.gutters[d.gutter.0].downspouts[d.index].catchment() != Area::ZERO,
    };
    let through = house.blocked.iter().find(carries).map(|part| format!("{part:?} is blocked and carries"));
    lost(house, &open).or_else(|| lost(house, &water)).or(through)
}

fn lost(house: &House<'_>, water: &Water) -> Option<String> {
    let leaving: Area = water.outlets.iter().map(|o| o.amount).sum();
    let off = (leaving.m2() - water.rain.m2()).abs();
    if off > 1e-9 * water.rain.m2() {
        return Some(format!("{off} of {} m2 lost", water.rain.m2()));
    }
    (0..house.roof.planes.len()).find_map(|p| {
        let own =
            |w: &Water| -> f64 { w.outlets.iter().filter(|o| o.source.0 == p).map(|o| o.amount.m2()).sum() };
        let off = (own(water) - own(house.water)).abs();
        (off > 1e-9 * water.rain.m2()).then(|| format!("{off} m2 of plane {p} lost"))
    })
}

/// What leaves at each place, and what comes to each edge.
fn is_same(a: &Water, b: &Water) -> bool {
    let near = |x: f64, y: f64| (x - y).abs() <= 1e-9 * a.rain.m2();
    let catchments =
        |water: &Water| -> Vec<f64> { water.edges.iter().map(EdgeFlow::catchment).map(Area::m2).collect() };
    let kinds = a.outlets.iter().chain(&b.outlets).map(|o| o.kind);
    catchments(a).into_iter().zip(catchments(b)).all(|(x, y)| near(x, y))
        && kinds.into_iter().all(|kind| near(a.leaving(kind).m2(), b.leaving(kind).m2()))
}

pub(crate) fn blocked_fault(house: &House<'_>) -> Option<String> {
    let House { roof, gutters, water: without, .. } = house;
    let all: Vec<Part> = (0..gutters.len()).map(|g| Part::Gutter(GutterId(g))).collect();
    let bare: Vec<HungGutter> =
        gutters.iter().map(|g| HungGutter { downspouts: Vec::new(), ..g.clone() }).collect();
    let cases = [
        ("all blocked", is_same(&Water::with(roof, gutters, &all), without)),
        ("no downspouts", is_same(&Water::with(roof, &bare, &[]), without)),
        ("none hung", Water::with(roof, &[], &[]) == **without),
    ];
    cases.iter().find(|(_, is_same)| !is_same).map(|(what, _)| (*what).to_owned())
}

/// The last gutter blocked, against the house without it; not where another one empties into it.
pub(crate) fn unhung_fault(house: &House<'_>) -> Option<String> {
    let last = GutterId(house.gutters.len().checked_sub(1)?);
    let into_last = |g: &HungGutter| g.downspouts.iter().any(|d| d.to == Discharge::Gutter(last));
    if house.gutters.iter().any(into_last) {
        return None;
    }
    let blocked = Water::with(house.roof, house.gutters, &[Part::Gutter(last)]);
    let others = &house.gutters[..last.0];
    (!is_same(&blocked, &Water::with(house.roof, others, &[]))).then(|| "not the same without it".to_owned())
}

/// What is wrong with rain on walls, and whether there are any over roofs.
pub(crate) fn wall_fault(house: &House<'_>) -> (Option<String>, bool) {
    let walls =
        WallWater::with(house.roof, house.gutters, house.blocked, house.book).expect("rows of the books");
    let leaving: f64 = walls.water.outlets.iter().map(|o| o.amount.m2()).sum();
    let (adds, area) =
        walls.faces.iter().fold((0.0, 0.0), |(adds, area), f| (adds + f.adds.m2(), area + f.area.m2()));
    let close = |a: f64, b: f64| (a - b).abs() <= 1e-9 * b.max(1.0);
    let closes = close(leaving, adds) && close(walls.water.rain.m2(), adds) && close(adds, 0.5 * area);
    ((!closes).then(|| format!("{leaving} of {adds} m2, of walls of {area} m2")), area > 0.0)
}
