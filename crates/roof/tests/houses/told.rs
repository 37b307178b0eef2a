//! Houses told otherwise: what may be done to one without changing it.

use job::Block;
use roof::plan::P2;

fn turned_point([x, y]: P2) -> P2 {
    let (sin, cos) = 31.7_f64.to_radians().sin_cos();
    [x * cos - y * sin + 123.4, x * sin + y * cos - 77.0]
}

fn mirrored_point([x, y]: P2) -> P2 {
    [-x, y]
}

/// The block of a house turned and moved.
pub fn turned(block: &Block) -> Block {
    let mut block = block.clone();
    for p in block.contours.iter_mut().flatten() {
        *p = turned_point(*p);
    }
    block
}

/// The block of a house mirrored.
pub fn mirrored(block: &Block) -> Block {
    let mut block = block.clone();
    for (points, edges) in block.contours.iter_mut().zip(&mut block.edges) {
        points.reverse();
        for p in points.iter_mut() {
            *p = mirrored_point(*p);
        }
        // edge i ran from point i to i + 1; reversed, it runs from where i + 1 went
        edges.reverse();
        edges.rotate_left(1);
    }
    block
}

/// What may be done to a house: to its blocks, and to the place of an opening.
pub struct Telling {
    pub block: fn(&Block) -> Block,
    pub point: fn(P2) -> P2,
}

/// Turned and moved.
pub const TURNED: Telling = Telling { block: turned, point: turned_point };
/// Mirrored.
pub const MIRRORED: Telling = Telling { block: mirrored, point: mirrored_point };
