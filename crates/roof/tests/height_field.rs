//! Random houses against brute force: at thousands of points the surfaces seen from above are worked out from the blocks alone,
//! without sheets, cells or edges, and must be the planes the roof has there.
//!
//! The houses are hips of equal pitch and overhang on every side, at any height and angle: for them the solid of a block is known in
//! closed form (lowest of four planes; to the ground over the walls, to one level soffit under the overhang).

mod houses;

use houses::Rect;
use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use roof::{Plane, Roof};

const HOUSES: u64 = 400;
const POINTS: usize = 2_000;
const NAMES: [&str; 5] = ["a", "b", "c", "d", "e"];
const FASCIA: f64 = 0.5;

/// A hip block in feet.
struct Hip {
    at: [f64; 2],
    size: [f64; 2],
    plate: f64,
    slope: f64,
    overhang: f64,
    turn: f64,
}

impl Hip {
    fn random(rng: &mut ChaCha8Rng) -> Self {
        Self {
            at: [rng.random_range(-12.0..12.0), rng.random_range(-12.0..12.0)],
            size: [rng.random_range(10.0..36.0), rng.random_range(10.0..30.0)],
            plate: rng.random_range(8.0..20.0),
            slope: rng.random_range(2.0..14.0) / 12.0,
            overhang: rng.random_range(0.1..3.0),
            turn: rng.random_range(0.0..360.0),
        }
    }

    fn rect(&self, name: &'static str) -> Rect {
        let mut rect = Rect::new(name, self.at, self.size, self.plate)
            .pitches([Some(12.0 * self.slope); 4])
            .overhangs([self.overhang; 4]);
        rect.turn_degrees = self.turn;
        rect
    }

    /// How far inside the walls a point is, in feet; negative outside.
    fn inset(&self, p: [f64; 2]) -> f64 {
        let (sin, cos) = self.turn.to_radians().sin_cos();
        let [dx, dy] = [p[0] - self.at[0], p[1] - self.at[1]];
        let [x, y] = [dx * cos + dy * sin, dy * cos - dx * sin];
        x.min(self.size[0] - x).min(y).min(self.size[1] - y)
    }

    /// The point at these parts of the way along the block's sides.
    fn point(&self, along: f64, across: f64) -> [f64; 2] {
        let (sin, cos) = self.turn.to_radians().sin_cos();
        let (x, y) = (along * self.size[0], across * self.size[1]);
        [self.at[0] + x * cos - y * sin, self.at[1] + x * sin + y * cos]
    }

    /// Top and underside of the block's solid at a point, if it is there.
    fn solid(&self, p: [f64; 2]) -> Option<[f64; 2]> {
        let inset = self.inset(p);
        let soffit = self.plate - self.slope * self.overhang - FASCIA;
        let under = if inset >= 0.0 { f64::NEG_INFINITY } else { soffit };
        (inset >= -self.overhang).then_some([self.plate + self.slope * inset, under])
    }
}

/// Heights seen from above at a point, highest first: tops that lie inside no other block's solid.
fn seen_by_force(hips: &[Hip], p: [f64; 2]) -> Vec<f64> {
    let solids: Vec<[f64; 2]> = hips.iter().filter_map(|h| h.solid(p)).collect();
    let free = |z: f64| !solids.iter().any(|[top, under]| z < top - 1e-9 && z > under + 1e-9);
    let mut seen: Vec<f64> = solids.iter().map(|s| s[0]).filter(|z| free(*z)).collect();
    seen.sort_by(|a, b| b.total_cmp(a));
    seen
}

fn covers(plane: &Plane, p: [f64; 2]) -> bool {
    let crossings = |ring: &[[f64; 3]]| {
        let sides = ring.iter().zip(ring.iter().cycle().skip(1));
        sides
            .filter(|(a, b)| {
                (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
            })
            .count()
    };
    (crossings(&plane.outline) + plane.holes.iter().map(|h| crossings(h)).sum::<usize>()) % 2 == 1
}

fn seen_on_roof(roof: &Roof, p: [f64; 2]) -> Vec<f64> {
    let metres = p.map(|v| v * 0.3048);
    let over = roof.planes.iter().filter(|plane| covers(plane, metres));
    let mut seen: Vec<f64> = over.map(|plane| plane.height_at(metres) / 0.3048).collect();
    seen.sort_by(|a, b| b.total_cmp(a));
    seen
}

/// Whether a point is within 5 mm in plan of an edge, where merging by 0.5 mm may decide either way.
fn is_by_an_edge(roof: &Roof, p: [f64; 2]) -> bool {
    let p = p.map(|v| v * 0.3048);
    (0..roof.edges.len()).any(|i| {
        let [a, b] = roof.ends(roof::EdgeId(i));
        let (u, v) = ([b[0] - a[0], b[1] - a[1]], [p[0] - a[0], p[1] - a[1]]);
        let t = ((u[0] * v[0] + u[1] * v[1]) / (u[0] * u[0] + u[1] * u[1])).clamp(0.0, 1.0);
        (v[0] - t * u[0]).hypot(v[1] - t * u[1]) < 0.005
    })
}

#[test]
fn surfaces_seen_at_any_point_are_those_of_brute_force() {
    let (mut checked, mut layered) = (0, 0);
    for seed in 0..HOUSES {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        let count = rng.random_range(2..=5);
        let hips: Vec<Hip> = (0..count).map(|_| Hip::random(&mut rng)).collect();
        let blocks: Vec<_> = hips.iter().zip(NAMES).map(|(h, name)| h.rect(name).block()).collect();
        // plates that close are brought to one height
        let is_near = |a: &Hip, b: &Hip| (a.plate - b.plate).abs() < 0.125 / 12.0;
        if (1..hips.len()).any(|i| hips[..i].iter().any(|h| is_near(h, &hips[i]))) {
            continue;
        }
        let Ok(roof) = Roof::of_blocks(&blocks) else { continue };
        for _ in 0..POINTS {
            let hip = &hips[rng.random_range(0..hips.len())];
            let p = hip.point(rng.random_range(-0.1..1.1), rng.random_range(-0.1..1.1));
            let (force, found) = (seen_by_force(&hips, p), seen_on_roof(&roof, p));
            let agree =
                force.len() == found.len() && force.iter().zip(&found).all(|(a, b)| (a - b).abs() < 1e-6);
            assert!(
                agree || is_by_an_edge(&roof, p),
                "seed {seed} at {p:?}: {force:?} by force, {found:?} on the roof"
            );
            checked += usize::from(!force.is_empty());
            layered += usize::from(force.len() > 1);
        }
    }
    assert!(
        checked > 200_000 && layered > 5_000,
        "{checked} points on roofs, {layered} with one roof under another"
    );
}

#[test]
fn plan_area_is_that_of_counted_points_within_their_error() {
    let mut compared = 0;
    for seed in 0..60 {
        let mut rng = ChaCha8Rng::seed_from_u64(10_000 + seed);
        let hips: Vec<Hip> = (0..3).map(|_| Hip::random(&mut rng)).collect();
        let blocks: Vec<_> = hips.iter().zip(NAMES).map(|(h, name)| h.rect(name).block()).collect();
        let Ok(roof) = Roof::of_blocks(&blocks) else { continue };
        // a grid of 0.25 ft cells, shifted by chance: its error is a small part of a cell for each cell the borders cross
        let shift = [rng.random_range(0.0..0.25), rng.random_range(0.0..0.25)];
        let mut counted = 0usize;
        for i in -280..280 {
            for j in -280..280 {
                counted +=
                    seen_by_force(&hips, [0.25 * f64::from(i) + shift[0], 0.25 * f64::from(j) + shift[1]])
                        .len();
            }
        }
        let area = counted as f64 * 0.0625;
        let border: f64 = roof.edges.iter().map(|e| e.plan_length.ft()).sum();
        let error = 4.0 * 0.0625 * (border / 0.25).sqrt();
        assert!(
            (roof.plan_area().ft2() - area).abs() < error,
            "seed {seed}: {} against {area} +- {error}",
            roof.plan_area().ft2()
        );
        compared += 1;
    }
    assert_eq!(compared, 38, "houses compared; the blocks of the others do not touch");
}
