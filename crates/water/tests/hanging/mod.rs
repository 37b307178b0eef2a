//! Gutters for tests, hung by hand or at random.
#![allow(dead_code, unreachable_pub, reason = "a module of several test binaries, each using its own part")]

use measure::Length;
use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use roof::{EdgeId, EdgeKind, PlaneId, Roof};
use water::{Discharge, DownspoutId, GutterId, HungDownspout, HungGutter, Part};

/// A 5 in K-style gutter at an eave.
pub fn gutter(edge: EdgeId, downspouts: Vec<HungDownspout>) -> HungGutter {
    HungGutter {
        name: format!("gutter {}", edge.number()),
        edge,
        kind: "k-style-5".to_owned(),
        fall: Length::from_in(1.0 / 16.0),
        wall_gap: Length::from_in(1.0),
        downspouts,
    }
}

/// A 2 x 3 in downspout.
pub fn downspout(at: Length, to: Discharge) -> HungDownspout {
    HungDownspout { name: "downspout".to_owned(), at, size: "downspout-2x3".to_owned(), to }
}

fn height(roof: &Roof, edge: EdgeId) -> f64 {
    roof.ends(edge)[0][2]
}

/// Two of three eaves of a house with gutters of none to three downspouts, which empty anywhere below them.
pub fn random_gutters(roof: &Roof, seed: u64) -> Vec<HungGutter> {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let eaves = (0..roof.edges.len()).map(EdgeId).filter(|e| roof.edge(*e).kind == EdgeKind::Eave);
    let eaves: Vec<EdgeId> = eaves.filter(|_| rng.random_range(0..3) > 0).collect();
    let hang = |edge: &EdgeId| {
        let spouts = rng.random_range(0..4);
        let spout = |_| {
            let part = [0.0, 1.0, 0.5, rng.random_range(0.0..1.0)][rng.random_range(0..4)];
            let to = anywhere_below(roof, &eaves, *edge, &mut rng);
            downspout(roof.edge(*edge).plan_length * part, to)
        };
        gutter(*edge, (0..spouts).map(spout).collect())
    };
    eaves.iter().map(hang).collect()
}

fn anywhere_below(roof: &Roof, eaves: &[EdgeId], edge: EdgeId, rng: &mut ChaCha8Rng) -> Discharge {
    let z = height(roof, edge);
    let lower: Vec<usize> = (0..eaves.len()).filter(|i| height(roof, eaves[*i]) < z - 0.01).collect();
    let corner = |p: usize| {
        let points = &roof.planes[p].outline;
        let sum = points.iter().fold([0.0; 2], |s, q| [s[0] + q[0], s[1] + q[1]]);
        sum.map(|v| v / points.len() as f64)
    };
    let below = |p: &usize| roof.planes[*p].height_at(corner(*p)) < z - 0.01;
    let planes: Vec<usize> = (0..roof.planes.len()).filter(below).collect();
    match rng.random_range(0..4) {
        0 if !lower.is_empty() => Discharge::Gutter(GutterId(lower[rng.random_range(0..lower.len())])),
        1 if !planes.is_empty() => {
            let plane = planes[rng.random_range(0..planes.len())];
            Discharge::Roof { plane: PlaneId(plane), at: corner(plane) }
        }
        2 => Discharge::Drain,
        _ => Discharge::Ground,
    }
}

/// Some gutters and downspouts of a house.
pub fn random_blocked(gutters: &[HungGutter], seed: u64) -> Vec<Part> {
    let mut rng = ChaCha8Rng::seed_from_u64(seed ^ 0xb10c);
    let parts = gutters.iter().enumerate().flat_map(|(g, hung)| {
        let gutter = GutterId(g);
        let of = move |index| Part::Downspout(DownspoutId { gutter, index });
        std::iter::once(Part::Gutter(gutter)).chain((0..hung.downspouts.len()).map(of))
    });
    parts.filter(|_| rng.random_range(0..4) == 0).collect()
}
