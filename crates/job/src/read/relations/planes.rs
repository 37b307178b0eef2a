//! Storm damage against the planes the blocks can have.

use crate::read::desk::Desk;
use crate::suggest::listed;
use crate::{Block, Compass, EdgeSlope, Form, PlaneCount, Problem, Storm};

/// Letters of the compass in turn from north, 45 degrees apart.
const LETTERS: [(Compass, &str); 8] = [
    (Compass::North, "N"),
    (Compass::NorthEast, "NE"),
    (Compass::East, "E"),
    (Compass::SouthEast, "SE"),
    (Compass::South, "S"),
    (Compass::SouthWest, "SW"),
    (Compass::West, "W"),
    (Compass::NorthWest, "NW"),
];

/// How far off a plane may face, degrees: a person may call a turned block's plane by either letter beside it, but not by the next.
const NEAR: f64 = 44.0;

/// Reports each count on a plane that its block cannot have. Whether a plane is covered by other blocks is not judged.
pub(super) fn check_planes(storm: &Storm, blocks: &[Block], desk: &mut Desk<'_>) {
    for (key, count) in counts(storm) {
        let Some(block) = blocks.iter().find(|block| block.name == count.block) else { continue };
        let facing = azimuths(block);
        let named = LETTERS.iter().zip(0_u8..).find(|((compass, _), _)| *compass == count.faces);
        let Some(((_, letter), eighth)) = named else { continue };
        let asked = f64::from(eighth) * 45.0;
        if !facing.iter().any(|azimuth| apart(*azimuth, asked) <= NEAR) {
            desk.report(no_plane(key, count, letter, &facing));
        }
    }
}

fn counts(storm: &Storm) -> impl Iterator<Item = (&'static str, &PlaneCount)> {
    let hits = storm.hits.iter().map(|count| ("hits", count));
    hits.chain(storm.creased.iter().map(|count| ("creased", count)))
}

/// The ways the planes of a block face, degrees clockwise from north.
fn azimuths(block: &Block) -> Vec<f64> {
    let hipped = matches!(block.form, Form::HalfHip { .. });
    let contours = block.contours.iter().zip(&block.edges);
    let walls = contours.flat_map(|(points, edges)| {
        let next = points.iter().cycle().skip(1);
        points.iter().zip(next).zip(edges)
    });
    let sloping = walls.filter(|(_, edge)| hipped || matches!(edge.slope, EdgeSlope::Pitch(_)));
    // a contour runs with the house to its left, so the roof falls to its right
    sloping.map(|(([ax, ay], [bx, by]), _)| (by - ay).atan2(ax - bx).to_degrees().rem_euclid(360.0)).collect()
}

fn apart(one: f64, other: f64) -> f64 {
    let between = (one - other).rem_euclid(360.0);
    between.min(360.0 - between)
}

fn no_plane(key: &str, count: &PlaneCount, letter: &str, facing: &[f64]) -> Problem {
    let message =
        format!("`storm.{key}` counts on `{} {letter}`, but no side of `{0}` slopes that way", count.block);
    let near = |azimuth: f64| {
        LETTERS.iter().zip(0_u8..).find(|(_, eighth)| apart(azimuth, f64::from(*eighth) * 45.0) <= 22.5)
    };
    let mut planes: Vec<String> = facing
        .iter()
        .filter_map(|azimuth| near(*azimuth))
        .map(|((_, letter), _)| format!("{} {letter}", count.block))
        .collect();
    planes.sort();
    planes.dedup();
    let mend = format!(
        "count it on {}, or on the dormer or wing it was seen on",
        listed(planes.iter().map(String::as_str))
    );
    Problem::error("unknown-plane", message, mend).at(count.span.clone(), "")
}
