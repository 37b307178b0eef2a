//! Storm damage and gutters against the planes the blocks can have.

use crate::read::desk::Desk;
use crate::suggest::listed;
use crate::{Block, Compass, EdgeSlope, Form, PlaneCount, PlaneName, Problem, Storm};

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
        if let Some(lost) = Lost::of(&count.plane, blocks) {
            let message = format!("`storm.{key}` counts on {}", lost.told(&count.plane));
            let mend = format!("count it on {}, or on the dormer or wing it was seen on", lost.offered());
            desk.report(Problem::error("unknown-plane", message, mend).at(count.span.clone(), ""));
        }
    }
}

/// A plane its block cannot have.
pub(super) struct Lost {
    letter: &'static str,
    /// Names of the planes it can have.
    planes: Vec<String>,
}

impl Lost {
    /// None where the block can have the plane, or is not there at all, which is reported elsewhere.
    pub(super) fn of(plane: &PlaneName, blocks: &[Block]) -> Option<Self> {
        let block = blocks.iter().find(|block| block.name == plane.block)?;
        let facing = azimuths(block);
        let ((_, letter), eighth) =
            LETTERS.iter().zip(0_u8..).find(|((compass, _), _)| *compass == plane.faces)?;
        let asked = f64::from(eighth) * 45.0;
        if facing.iter().any(|azimuth| apart(*azimuth, asked) <= NEAR) {
            return None;
        }
        let near = |azimuth: &f64| {
            LETTERS.iter().zip(0_u8..).find(|(_, eighth)| apart(*azimuth, f64::from(*eighth) * 45.0) <= 22.5)
        };
        let mut planes: Vec<String> = facing
            .iter()
            .filter_map(near)
            .map(|((_, letter), _)| format!("{} {letter}", block.name))
            .collect();
        planes.sort();
        planes.dedup();
        Some(Self { letter, planes })
    }

    /// What was named and why it cannot be.
    pub(super) fn told(&self, plane: &PlaneName) -> String {
        format!("`{} {}`, but no side of `{0}` slopes that way", plane.block, self.letter)
    }

    /// The planes it can have, in a row.
    pub(super) fn offered(&self) -> String {
        listed(self.planes.iter().map(String::as_str))
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
