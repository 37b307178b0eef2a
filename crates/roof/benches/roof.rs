//! How long a roof takes.

#[path = "../tests/houses/mod.rs"]
mod houses;

use divan::Bencher;
use houses::{cross_gable, hip_split_level, row_of_blocks, wavy_outline};
use roof::Roof;

fn main() {
    divan::main();
}

#[divan::bench]
fn cross_gable_three_blocks(bencher: Bencher) {
    let blocks = cross_gable();
    bencher.bench(|| Roof::of_blocks(&blocks));
}

#[divan::bench]
fn hip_split_level_three_blocks(bencher: Bencher) {
    let blocks = hip_split_level();
    bencher.bench(|| Roof::of_blocks(&blocks));
}

#[divan::bench(args = [15, 30, 60, 120, 240])]
fn row(bencher: Bencher, count: usize) {
    let blocks = row_of_blocks(count);
    bencher.bench(|| Roof::of_blocks(&blocks));
}

#[divan::bench]
fn outline_of_200_corners(bencher: Bencher) {
    let blocks = wavy_outline(200);
    bencher.bench(|| Roof::of_blocks(&blocks));
}
