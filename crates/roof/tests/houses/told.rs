//! Houses told otherwise: what may be done to one without changing it.

use job::Block;
use roof::Roof;

use super::random::{blocks, house};

/// The block of a house turned and moved.
pub fn turned(block: &Block) -> Block {
    let (sin, cos) = 31.7_f64.to_radians().sin_cos();
    let mut block = block.clone();
    for p in block.contours.iter_mut().flatten() {
        *p = [p[0] * cos - p[1] * sin + 123.4, p[0] * sin + p[1] * cos - 77.0];
    }
    block
}

/// The block of a house mirrored.
pub fn mirrored(block: &Block) -> Block {
    let mut block = block.clone();
    for (points, edges) in block.contours.iter_mut().zip(&mut block.edges) {
        points.reverse();
        for p in points.iter_mut() {
            p[0] = -p[0];
        }
        // edge i ran from point i to i + 1; reversed, it runs from where i + 1 went
        edges.reverse();
        edges.rotate_left(1);
    }
    block
}

/// The houses, of every fourth, whose figures differ by more than 0.01 m2 (0.1 ft2) when told otherwise.
pub fn changed(houses: u64, figures: impl Fn(&Roof) -> Vec<f64>, told: impl Fn(&Block) -> Block) -> Vec<u64> {
    let is_changed = |seed: &u64| {
        let written = blocks(&house(*seed));
        let other: Vec<Block> = written.iter().map(&told).collect();
        let (Ok(a), Ok(b)) = (Roof::of_blocks(&written), Roof::of_blocks(&other)) else { return false };
        figures(&a).iter().zip(figures(&b)).any(|(x, y)| (x - y).abs() > 0.01)
    };
    (0..houses).step_by(4).filter(is_changed).collect()
}
