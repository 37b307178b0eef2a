//! What must hold of water on any roof: ten thousand random houses.

#[path = "../../roof/tests/houses/mod.rs"]
#[allow(dead_code, reason = "other tests use the rest")]
mod houses;

use houses::random::{blocks, house};
use job::Block;
use measure::Area;
use roof::plan::{area, flat};
use roof::{EdgeKind, PlaneId, Roof};
use water::Water;

const HOUSES: u64 = 10_000;

fn check(roof: &Roof, seed: u64) {
    let water = Water::of(roof);
    let close = |found: Area, wanted: Area| (found.m2() - wanted.m2()).abs() <= 1e-9 * roof.plan_area().m2();
    let leaving: Area = water.outlets.iter().map(|o| o.amount).sum();
    assert!(close(leaving, water.rain), "seed {seed}: {} of {} m2 leave", leaving.m2(), water.rain.m2());
    // borders as the planes have them wobble by what merging points moves them
    assert!((water.rain.m2() / roof.plan_area().m2() - 1.0).abs() < 1e-5, "seed {seed}: {} {}", water.rain.m2(), roof.plan_area().m2());
    for (p, plane) in roof.planes.iter().enumerate() {
        let own: Area = water.outlets.iter().filter(|o| o.source == PlaneId(p)).map(|o| o.amount).sum();
        let rings = std::iter::once(&plane.outline).chain(&plane.holes);
        let falls = rings.map(|r| area(&r.iter().map(|p| flat(*p)).collect::<Vec<_>>())).sum();
        assert!(close(own, Area::from_m2(falls)), "seed {seed}: {}: {} of {falls} m2", plane.name, own.m2());
    }
    for (edge, flow) in roof.edges.iter().zip(&water.edges) {
        let dry =
            matches!(edge.kind, EdgeKind::Ridge | EdgeKind::Hip | EdgeKind::Headwall | EdgeKind::HighEave);
        let comes = flow.catchment().m2();
        assert!(!dry || comes < 1e-3, "seed {seed}: {comes} m2 run to a {}", edge.kind.name());
        assert!(flow.inflows.iter().all(|i| i.amount.m2().is_finite()), "seed {seed}");
    }
}

#[test]
fn what_leaves_is_what_falls() {
    for seed in 0..HOUSES {
        if let Ok(roof) = Roof::of_blocks(&blocks(&house(seed))) {
            check(&roof, seed);
        }
    }
}

fn turned(block: &Block) -> Block {
    let (sin, cos) = 31.7_f64.to_radians().sin_cos();
    let mut block = block.clone();
    for p in block.contours.iter_mut().flatten() {
        *p = [p[0] * cos - p[1] * sin + 123.4, p[0] * sin + p[1] * cos - 77.0];
    }
    block
}

fn by_kind(roof: &Roof) -> Vec<f64> {
    let water = Water::of(roof);
    let of = |kind: &EdgeKind| {
        let flows = roof.edges.iter().zip(&water.edges).filter(|(e, _)| e.kind == *kind);
        flows.map(|(_, f)| f.catchment().m2()).sum::<f64>()
    };
    EdgeKind::ALL.iter().map(of).collect()
}

#[test]
fn water_does_not_change_when_the_house_is_turned() {
    let mut other = Vec::new();
    for seed in 0..HOUSES / 4 {
        let written = blocks(&house(seed));
        let moved: Vec<Block> = written.iter().map(turned).collect();
        let (Ok(a), Ok(b)) = (Roof::of_blocks(&written), Roof::of_blocks(&moved)) else { continue };
        let far = by_kind(&a).iter().zip(by_kind(&b)).map(|(x, y)| (x - y).abs()).fold(0.0, f64::max);
        if far > 0.01 {
            other.push((seed, far));
            if seed < 2500 {
                for ((k, x), y) in EdgeKind::ALL.iter().zip(by_kind(&a)).zip(by_kind(&b)) {
                    if (x - y).abs() > 0.01 {
                        eprintln!("{seed} {} {x} {y}", k.name());
                    }
                }
            }
        }
    }
    assert!(other.is_empty(), "{} houses: {other:?}", other.len());
}
