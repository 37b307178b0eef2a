//! Random outlines of several kinds, from a seed.

use std::collections::{BTreeMap, BTreeSet};
use std::f64::consts::TAU;

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use roof::skeleton::EdgeSlope;

use crate::roofs::{Outline, rise, signed_area};

pub(crate) type Ring = Vec<[f64; 2]>;

pub(crate) fn rng(seed: u64) -> ChaCha8Rng {
    ChaCha8Rng::seed_from_u64(seed)
}

/// A point at every angle, counter-clockwise, up to `depth` (0 to 1) of the radius 10 inside it.
pub(crate) fn star(rng: &mut ChaCha8Rng, count: usize, depth: f64) -> Ring {
    let point = |index: usize, rng: &mut ChaCha8Rng| {
        let angle = (index as f64 + rng.random_range(0.05..0.95)) / count as f64 * TAU;
        let radius = 10.0 * (1.0 - depth * rng.random_range(0.0..1.0));
        [radius * angle.cos(), radius * angle.sin()]
    };
    (0..count).map(|index| point(index, rng)).collect()
}

/// Corners on a circle of radius 10.
pub(crate) fn convex(rng: &mut ChaCha8Rng) -> Ring {
    let count = rng.random_range(3..25);
    star(rng, count, 0.0)
}

/// A star with up to three small stars cut out.
pub(crate) fn star_with_holes(rng: &mut ChaCha8Rng) -> Vec<Ring> {
    let count = rng.random_range(6..20);
    let mut rings = vec![star(rng, count, 0.1)];
    for place in 0..rng.random_range(1..4) {
        let (angle, count) = (f64::from(place) * TAU / 3.0, rng.random_range(3..8));
        let center = [4.0 * angle.cos(), 4.0 * angle.sin()];
        let hole = star(rng, count, 0.5);
        rings.push(hole.iter().rev().map(|p| [0, 1].map(|k| center[k] + 0.2 * p[k])).collect());
    }
    rings
}

/// Border of a random set of unit squares: right angles only, with holes, many equal distances.
pub(crate) fn squares(rng: &mut ChaCha8Rng) -> Vec<Ring> {
    loop {
        let cells = random_cells(rng);
        let touches = |&(x, y): &(i32, i32)| {
            let has = |dx: i32, dy: i32| cells.contains(&(x + dx, y + dy));
            let corner = |dx: i32| has(dx, 1) && !has(dx, 0) && !has(0, 1);
            corner(1) || corner(-1)
        };
        if !cells.iter().any(touches) {
            return borders(&cells);
        }
    }
}

fn random_cells(rng: &mut ChaCha8Rng) -> BTreeSet<(i32, i32)> {
    let count = rng.random_range(2..30);
    let mut cells: BTreeSet<(i32, i32)> = BTreeSet::from([(0, 0)]);
    while cells.len() < count {
        let from = cells.iter().nth(rng.random_range(0..cells.len())).copied().unwrap_or_default();
        let (dx, dy) = [(1, 0), (-1, 0), (0, 1), (0, -1)][rng.random_range(0..4)];
        let cell = (from.0 + dx, from.1 + dy);
        if cell.0.abs() <= 4 && cell.1.abs() <= 4 {
            cells.insert(cell);
        }
    }
    cells
}

/// Rings around cells, the outer one first, collinear points left out.
fn borders(cells: &BTreeSet<(i32, i32)>) -> Vec<Ring> {
    let mut next = BTreeMap::new();
    for &(x, y) in cells {
        let corners = [(x, y), (x + 1, y), (x + 1, y + 1), (x, y + 1)];
        for (side, (dx, dy)) in [(0, -1), (1, 0), (0, 1), (-1, 0)].into_iter().enumerate() {
            if !cells.contains(&(x + dx, y + dy)) {
                next.insert(corners[side], corners[(side + 1) % 4]);
            }
        }
    }
    let mut rings = Vec::new();
    while let Some((&first, _)) = next.first_key_value() {
        let mut ring = Vec::new();
        let mut corner = first;
        while let Some(following) = next.remove(&corner) {
            ring.push([f64::from(corner.0), f64::from(corner.1)]);
            corner = following;
        }
        rings.push(without_straight_points(&ring));
    }
    rings.sort_by(|a, b| signed_area(b).total_cmp(&signed_area(a)));
    rings
}

fn without_straight_points(ring: &[[f64; 2]]) -> Ring {
    let count = ring.len();
    let turns = |&k: &usize| {
        let (a, b, c) = (ring[(k + count - 1) % count], ring[k], ring[(k + 1) % count]);
        ((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])).abs() > 0.5
    };
    (0..count).filter(turns).map(|k| ring[k]).collect()
}

/// A few points of a small grid, untangled: straight points, sharp corners, many coincidences. May touch itself.
pub(crate) fn grid_points(rng: &mut ChaCha8Rng) -> Ring {
    let (count, size) = (rng.random_range(3..10), rng.random_range(2..7));
    let mut ring: Ring = (0..count).map(|_| [0; 2].map(|_| f64::from(rng.random_range(0..=size)))).collect();
    let length = |a: [f64; 2], b: [f64; 2]| (b[0] - a[0]).hypot(b[1] - a[1]);
    let crossed = |ring: &Ring| {
        let pairs = (0..count).flat_map(|i| (i + 2..count).map(move |j| (i, j)));
        pairs.filter(|&(i, j)| (i, j) != (0, count - 1)).find(|&(i, j)| {
            let (a, b, c, d) = (ring[i], ring[i + 1], ring[j], ring[(j + 1) % count]);
            length(a, b) + length(c, d) > length(a, c) + length(b, d) + 1e-9
        })
    };
    while let Some((i, j)) = crossed(&ring) {
        ring[i + 1..=j].reverse();
    }
    ring
}

pub(crate) fn regular(count: usize, radius: f64) -> Ring {
    (0..count)
        .map(|k| k as f64 / count as f64 * TAU)
        .map(|angle| [radius * angle.cos(), radius * angle.sin()])
        .collect()
}

/// Turned by an angle and moved.
pub(crate) fn moved(outline: &Outline, angle: f64, by: [f64; 2]) -> Outline {
    let (sin, cos) = angle.sin_cos();
    outline.map(|[x, y]| [by[0] + cos * x - sin * y, by[1] + sin * x + cos * y])
}

/// How slopes are dealt out.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Slopes {
    Uniform,
    /// A few common pitches, so that equal speeds and coincidences abound.
    Common,
    Any,
    /// Common pitches and gables.
    Gables,
}

pub(crate) const ALL_SLOPES: [Slopes; 4] = [Slopes::Uniform, Slopes::Common, Slopes::Any, Slopes::Gables];

pub(crate) fn with_slopes(rng: &mut ChaCha8Rng, contours: Vec<Ring>, slopes: Slopes) -> Outline {
    Outline::new(contours, || match slopes {
        Slopes::Uniform => rise(0.5),
        Slopes::Gables if rng.random_bool(0.3) => EdgeSlope::Gable,
        Slopes::Common | Slopes::Gables => rise([0.25, 0.5, 1.0, 2.0][rng.random_range(0..4)]),
        Slopes::Any => rise(rng.random_range(0.05..3.0)),
    })
}
