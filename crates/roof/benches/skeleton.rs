//! How long the straight skeleton of one outline takes.

use std::f64::consts::TAU;

use divan::Bencher;
use roof::skeleton::{Contour, EdgeSlope, roof};

fn main() {
    divan::main();
}

const COUNTS: [usize; 4] = [50, 100, 200, 400];

fn bench(bencher: Bencher<'_, '_>, points: &[[f64; 2]], slope: impl Fn(usize) -> f64) {
    let slopes: Vec<EdgeSlope> = (0..points.len()).map(|edge| EdgeSlope::Rise(slope(edge))).collect();
    bencher.bench(|| roof(Contour { points, slopes: &slopes }, &[]));
}

/// A ragged star: half of its corners point inwards, no two events coincide.
fn star(count: usize) -> Vec<[f64; 2]> {
    let point = |k: usize| {
        let (angle, radius) = (k as f64 / count as f64 * TAU, 7.0 + 3.0 * (k as f64 * k as f64).sin());
        [radius * angle.cos(), radius * angle.sin()]
    };
    (0..count).map(point).collect()
}

/// Equal teeth on a back: right angles only, everything happens at once.
fn comb(count: usize) -> Vec<[f64; 2]> {
    let teeth = count / 4;
    let tooth = |k: usize| {
        let x = 4.0 * (teeth - k) as f64 - 2.0;
        [[x, 10.0], [x - 2.0, 10.0], [x - 2.0, 4.0], [x - 4.0, 4.0]]
    };
    let mut points = vec![[0.0, 0.0], [4.0 * teeth as f64 - 2.0, 0.0]];
    points.extend((0..teeth).flat_map(tooth));
    points.truncate(4 * teeth);
    points
}

#[divan::bench(args = COUNTS)]
fn ragged_star(bencher: Bencher<'_, '_>, count: usize) {
    bench(bencher, &star(count), |_| 0.5);
}

#[divan::bench(args = COUNTS)]
fn ragged_star_of_many_slopes(bencher: Bencher<'_, '_>, count: usize) {
    bench(bencher, &star(count), |edge| 0.3 + 0.1 * (edge % 7) as f64);
}

#[divan::bench(args = COUNTS)]
fn comb_of_equal_teeth(bencher: Bencher<'_, '_>, count: usize) {
    bench(bencher, &comb(count), |_| 0.5);
}

#[divan::bench(args = COUNTS)]
fn regular_polygon(bencher: Bencher<'_, '_>, count: usize) {
    let point = |k: usize| (k as f64 / count as f64 * TAU).sin_cos();
    let points: Vec<[f64; 2]> = (0..count).map(point).map(|(y, x)| [10.0 * x, 10.0 * y]).collect();
    bench(bencher, &points, |_| 0.5);
}
