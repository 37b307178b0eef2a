//! Rain on roofs without gutters, and what comes of it in a house told otherwise.

use std::collections::BTreeMap;

use job::OpeningKind;
use measure::Area;
use roof::plan::{area, flat};
use roof::{EdgeId, EdgeKind, PlaneId, Roof};
use water::{Discharge, HungGutter, OutletKind, Water};

use crate::hanging::{downspout, gutter};
use crate::look::House;

/// Figures that differ by less are the same, m2 (0.1 ft2).
const SAME: f64 = 0.01;

/// What is wrong with where rain goes, and whether any goes in a circle.
pub(crate) fn faults(roof: &Roof, water: &Water) -> (Option<String>, Option<String>) {
    let circles = water.circles.m2();
    let goes_round = (circles > 1e-9 * water.rain.m2()).then(|| format!("{circles} m2 go round"));
    (ledger_fault(roof, water).or_else(|| dry_fault(roof, water)), goes_round)
}

fn ledger_fault(roof: &Roof, water: &Water) -> Option<String> {
    let close = |found: Area, wanted: Area| (found.m2() - wanted.m2()).abs() <= 1e-9 * roof.plan_area().m2();
    let leaving: Area = water.outlets.iter().map(|o| o.amount).sum();
    if !close(leaving, water.rain) {
        return Some(format!("{} of {} m2 leave", leaving.m2(), water.rain.m2()));
    }
    // borders of planes wobble by up to a millimetre where points were merged; water goes by their straight edges
    let around: f64 = roof.edges.iter().map(|e| e.plan_length.m()).sum();
    let off = (water.rain.m2() - roof.plan_area().m2()).abs();
    if off > 0.001 * around {
        return Some(format!("{off} m2 of rain miss the planes"));
    }
    roof.planes.iter().enumerate().find_map(|(p, plane)| {
        let own: Area = water.outlets.iter().filter(|o| o.source == PlaneId(p)).map(|o| o.amount).sum();
        let rings = std::iter::once(&plane.outline).chain(&plane.holes);
        let falls = rings.map(|r| area(&r.iter().map(|p| flat(*p)).collect::<Vec<_>>())).sum();
        let told = || format!("{}: {} of {falls} m2", plane.name, own.m2());
        (!close(own, Area::from_m2(falls))).then(told)
    })
}

/// Water that comes up to what it only runs away from.
fn dry_fault(roof: &Roof, water: &Water) -> Option<String> {
    roof.edges.iter().zip(&water.edges).find_map(|(edge, flow)| {
        let dry =
            matches!(edge.kind, EdgeKind::Ridge | EdgeKind::Hip | EdgeKind::Headwall | EdgeKind::HighEave);
        let comes = flow.catchment().m2();
        let is_finite = flow.inflows.iter().all(|i| i.amount.m2().is_finite());
        let told = || format!("{comes} m2 run to a {}", edge.kind.name());
        // what runs aside behind an opening that stands over a hip comes onto the hip
        let is_crossed = roof
            .openings
            .iter()
            .flat_map(|o| &o.distances)
            .any(|near| roof.edges[near.edge.0] == *edge && near.slope_from_rim.m() <= 0.0);
        let dry = dry && !(edge.kind == EdgeKind::Hip && is_crossed);
        ((dry && comes >= SAME) || !is_finite).then(told)
    })
}

/// What comes behind an opening and does not go round it on both sides; counts those that anything comes to.
pub(crate) fn parting_fault(
    house: &House<'_>,
    rained_on: &mut BTreeMap<OpeningKind, usize>,
) -> Option<String> {
    let House { roof, water, .. } = house;
    for (opening, flow) in roof.openings.iter().zip(&water.openings) {
        *rained_on.entry(opening.kind).or_insert(0) += usize::from(flow.behind.m2() > 0.0);
    }
    roof.openings.iter().zip(&water.openings).find_map(|(opening, flow)| {
        let sides: Area = flow.sides.into_iter().sum();
        let off = (sides - flow.behind).m2().abs();
        (off > 1e-9 * water.rain.m2()).then(|| format!("{off} m2 lost at {}", opening.name))
    })
}

/// What comes to the edges of each kind without gutters and with a downspout in the middle of every eave, which are the same however the
/// house is told; what stands, and what leaves by downspouts, over eaves and at ends.
pub(crate) fn figures(roof: &Roof, bare: &Water) -> Vec<(String, f64)> {
    let hang = |e: EdgeId| {
        let middle = roof.edge(e).plan_length / 2.0;
        gutter(e, vec![downspout(middle, Discharge::Ground)])
    };
    let eaves = (0..roof.edges.len()).map(EdgeId).filter(|e| roof.edge(*e).kind == EdgeKind::Eave);
    let hung: Vec<HungGutter> = eaves.filter(|e| roof.ends(*e)[0][2] > 5.0).map(hang).collect();
    let mut all = Vec::new();
    for (water, of) in [(bare, "bare"), (&Water::with(roof, &hung, &[]), "with gutters")] {
        for kind in EdgeKind::ALL {
            let flows = roof.edges.iter().zip(&water.edges).filter(|(e, _)| e.kind == kind);
            let comes = flows.map(|(_, f)| f.catchment().m2()).sum::<f64>();
            all.push((format!("{of}, {}", kind.name()), comes));
        }
        let leaves = |what: &str, is: fn(&OutletKind) -> bool| {
            let amounts = water.outlets.iter().filter(|o| is(&o.kind)).map(|o| o.amount.m2());
            (format!("{of}, {what}"), amounts.sum::<f64>())
        };
        all.push(leaves("stands", |k| k.stands()));
        all.push(leaves("downspouts", |k| matches!(k, OutletKind::Downspout(_))));
        all.push(leaves("off edges", |k| matches!(k, OutletKind::OffEdge(_))));
        all.push(leaves("off ends", |k| matches!(k, OutletKind::OffEnd(_))));
    }
    all
}

/// The first figures that differ between two roofs that ought to be one.
pub(crate) fn difference(before: &[(String, f64)], after: &[(String, f64)]) -> Option<String> {
    let mut changed = before.iter().zip(after).filter(|((_, x), (_, y))| (x - y).abs() > SAME);
    let told = changed.by_ref().take(3).map(|((what, x), (_, y))| format!("{what}: {x:.3} became {y:.3}"));
    let told: Vec<String> = told.collect();
    (!told.is_empty()).then(|| told.join("; "))
}
