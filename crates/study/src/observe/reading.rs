//! Spare readings as observations.
//!
//! # Limits
//! Ridges and rafters have an equation on rectangular blocks only, eaves and rafters on sides that slope. A reading that has
//! none is left aside with a warning that says so.

use job::{Block, Problem, Reading, ReadingOf, Side};

use super::{Equation, Observation, Origin};
use crate::height::{Eave, Rafter, Ridge};
use crate::network::{Corner, Network};
use crate::value::Value;

/// The observation a spare reading is, or the warning that it is left aside.
pub(super) fn observation(
    reading: &Reading,
    blocks: &[Block],
    network: &Network,
    start: &[f64],
) -> Result<Observation, Problem> {
    let is_sound = |equation: &Equation| equation.at(start).value.is_finite();
    let equation = equation(&reading.of, blocks, network).filter(is_sound);
    let equation = equation.ok_or_else(|| left_aside(reading, blocks))?;
    Ok(Observation {
        name: name(&reading.of, blocks),
        span: reading.span.clone(),
        origin: Origin::Spare,
        equation,
        read: Value::Length(reading.value),
        spread: Value::Length(reading.spread),
    })
}

fn equation(of: &ReadingOf, blocks: &[Block], network: &Network) -> Option<Equation> {
    let find = |name: &String| blocks.iter().find(|block| block.name == *name);
    let corner = |(block, number): &(String, usize)| network.corner(find(block)?, 0, number.checked_sub(1)?);
    match of {
        ReadingOf::Wall { block, side } => Some(Equation::Distance(wall(find(block)?, *side, network)?)),
        ReadingOf::Diagonal { block } => {
            let block = find(block)?;
            Some(Equation::Distance([network.corner(block, 0, 0)?, network.corner(block, 0, 2)?]))
        }
        ReadingOf::Distance { from, to } => Some(Equation::Distance([corner(from)?, corner(to)?])),
        ReadingOf::EaveHeight { block, side } => {
            Eave::of(find(block)?, *side, blocks, network).map(Equation::Eave)
        }
        ReadingOf::RidgeHeight { block } => Ridge::of(find(block)?, network).map(Equation::Ridge),
        ReadingOf::Rafter { block, side } => Rafter::of(find(block)?, *side, network).map(Equation::Rafter),
    }
}

/// Ends of a wall line.
fn wall(block: &Block, side: Side, network: &Network) -> Option<[Corner; 2]> {
    let mut edges = block.edges.iter().enumerate();
    let (contour, start, count) = edges.find_map(|(contour, edges)| {
        Some((contour, edges.iter().position(|edge| edge.side == side)?, edges.len()))
    })?;
    Some([network.corner(block, contour, start)?, network.corner(block, contour, (start + 1) % count)?])
}

/// What was read, in words.
fn name(of: &ReadingOf, blocks: &[Block]) -> String {
    let corner = |(name, number): &(String, usize)| {
        let block = blocks.iter().find(|block| block.name == *name);
        block.map_or_else(String::new, |block| corner_name(block, *number))
    };
    match of {
        ReadingOf::Wall { block, side } => format!("{side} wall of {block}"),
        ReadingOf::Diagonal { block } => format!("diagonal of {block}"),
        ReadingOf::Distance { from, to } => format!("distance from {} to {}", corner(from), corner(to)),
        ReadingOf::EaveHeight { block, side } => format!("{side} eave height of {block}"),
        ReadingOf::RidgeHeight { block } => format!("ridge height of {block}"),
        ReadingOf::Rafter { block, side } => format!("{side} rafter of {block}"),
    }
}

/// A corner as the document counts it: by compass in a rectangle; an outline written clockwise is held the other way round.
fn corner_name(block: &Block, number: usize) -> String {
    let edges = block.edges.first().map_or(&[][..], Vec::as_slice);
    if let Some(Side::Edge { number: first, .. }) = edges.first().map(|edge| edge.side) {
        let written = if first == 1 || number == 1 { number } else { edges.len() + 2 - number };
        return format!("corner {written} of {}", block.name);
    }
    let compass = ["south-west", "south-east", "north-east", "north-west"];
    format!("{} corner of {}", compass.get(number.wrapping_sub(1)).unwrap_or(&""), block.name)
}

fn left_aside(reading: &Reading, blocks: &[Block]) -> Problem {
    let why = match reading.of {
        ReadingOf::EaveHeight { .. } => "no roof plane rises from that side",
        ReadingOf::Rafter { .. } => "no rafter of that side reaches the ridge of a rectangle",
        ReadingOf::RidgeHeight { .. } => "the block is no rectangle",
        ReadingOf::Wall { .. } | ReadingOf::Diagonal { .. } | ReadingOf::Distance { .. } => {
            "the blocks have no such corners"
        }
    };
    let message = format!("the {} checks nothing: {why}", name(&reading.of, blocks));
    Problem::warning("reading-unused", message, "take it out, or name another side or block")
        .at(reading.span.clone(), "this reading")
}
