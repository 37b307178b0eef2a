//! How long water takes.

#[path = "../../roof/tests/houses/mod.rs"]
mod houses;

use divan::Bencher;
use houses::{cross_gable, hip_split_level, row_of_blocks};
use job::Block;
use roof::Roof;
use water::Water;

fn main() {
    divan::main();
}

fn of(bencher: Bencher, blocks: &[Block]) {
    let roof = Roof::of_blocks(blocks).expect("a roof");
    bencher.bench(|| Water::of(&roof));
}

#[divan::bench]
fn cross_gable_three_blocks(bencher: Bencher) {
    of(bencher, &cross_gable());
}

#[divan::bench]
fn hip_split_level_three_blocks(bencher: Bencher) {
    of(bencher, &hip_split_level());
}

#[divan::bench(args = [15, 30, 60, 120, 240])]
fn row(bencher: Bencher, count: usize) {
    of(bencher, &row_of_blocks(count));
}
