//! Storm damage and gutters against the planes the blocks can have.

use crate::read::desk::Desk;
use crate::suggest::listed;
use crate::{Block, Compass, EdgeSlope, Form, PlaneCount, PlaneName, Problem, Storm};

/// Reports each count on a plane that its block cannot have. Whether a plane is covered by other blocks is not judged.
pub(super) fn check_planes(storm: &Storm, blocks: &[Block], desk: &mut Desk<'_>) {
    for (key, count) in counts(storm) {
        if let Some(lost) = Lost::of(&count.plane, blocks) {
            let message = format!("`storm.{key}` counts on {}", Lost::told(&count.plane));
            let mend = format!("count it on {}, or on the dormer or wing it was seen on", lost.offered());
            desk.report(Problem::error("unknown-plane", message, mend).at(count.span.clone(), ""));
        }
    }
}

/// A plane its block cannot have.
pub(super) struct Lost {
    /// Names of the planes it can have.
    planes: Vec<String>,
}

impl Lost {
    /// None where the block can have the plane, or is not there at all, which is reported elsewhere.
    pub(super) fn of(plane: &PlaneName, blocks: &[Block]) -> Option<Self> {
        let block = blocks.iter().find(|block| block.name == plane.block)?;
        let facing = azimuths(block);
        if facing.iter().any(|azimuth| plane.faces.may_name(*azimuth)) {
            return None;
        }
        let named = |azimuth: &f64| Compass::ALL.into_iter().find(|compass| compass.apart(*azimuth) <= 22.5);
        let names = facing.iter().filter_map(named);
        let mut planes: Vec<String> =
            names.map(|faces| PlaneName { block: block.name.clone(), faces }.to_string()).collect();
        planes.sort();
        planes.dedup();
        Some(Self { planes })
    }

    /// What was named and why it cannot be.
    pub(super) fn told(plane: &PlaneName) -> String {
        format!("`{plane}`, but no side of `{}` slopes that way", plane.block)
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
