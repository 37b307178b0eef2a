//! How far each edge's roof reaches out, with `level with` resolved.

use job::{Block, BlockEdge, EdgeSlope, Overhang, Problem, Span};

/// Height of the roof edge over a sloped edge of a block, given its overhang.
pub(crate) fn fascia_height(edge: &BlockEdge, overhang: f64) -> Option<f64> {
    match &edge.slope {
        EdgeSlope::Pitch(pitch) => Some(edge.plate.value.m() - pitch.value.slope() * overhang),
        EdgeSlope::Gable => None,
    }
}

/// Fascia lines closer than this in height are level, metres (1/8 in).
pub(crate) const LEVEL: f64 = 0.003175;

/// Overhangs of every edge of every contour of every block, metres.
pub(crate) fn resolve(blocks: &[Block]) -> Result<Vec<Vec<Vec<f64>>>, Vec<Problem>> {
    let mut problems = Vec::new();
    let mut of_edge = |block: &Block, edge: &BlockEdge| {
        follow(blocks, block, edge, 0).unwrap_or_else(|problem| {
            problems.push(problem);
            0.0
        })
    };
    let all = (blocks.iter())
        .map(|b| b.edges.iter().map(|c| c.iter().map(|e| of_edge(b, e)).collect()).collect())
        .collect();
    problems.dedup();
    if problems.is_empty() { Ok(all) } else { Err(problems) }
}

/// The overhang of an edge, through `level with` where it says so.
fn follow(blocks: &[Block], block: &Block, edge: &BlockEdge, depth: usize) -> Result<f64, Problem> {
    let (name, side, span) = match &edge.overhang {
        Overhang::Run(run) => return Ok(run.value.m()),
        Overhang::LevelWith { block, side, span } => (block, side, span),
    };
    if depth > blocks.len() {
        return Err(problem(
            block,
            span,
            "goes round in a circle",
            "give one of the blocks in the circle a length",
        ));
    }
    let Some(other) = blocks.iter().find(|b| b.name == *name) else {
        return Err(problem(
            block,
            span,
            &format!("names `{name}`, which is no block"),
            "name a block of this job",
        ));
    };
    let EdgeSlope::Pitch(pitch) = &edge.slope else {
        return Err(problem(block, span, "is on a side without slope", "give this rake a length"));
    };
    let heights = fascia_heights(blocks, other, side.as_ref(), depth)?;
    let Some(&first) = heights.first() else {
        return Err(problem(
            block,
            span,
            &format!("`{name}` has no eave there"),
            "name a side that has an eave",
        ));
    };
    if heights.iter().any(|h| (h - first).abs() > LEVEL) {
        let mend = format!("say which side, such as \"level with {name} south\"");
        return Err(problem(block, span, &format!("eaves of `{name}` are not all at one height"), &mend));
    }
    let run = (edge.plate.value.m() - first) / pitch.value.slope();
    if run < 0.0 {
        let why = format!("fascia of `{name}` is above the plate of `{}`", block.name);
        return Err(problem(block, span, &why, "give the overhang a length, or check both plates"));
    }
    Ok(run)
}

fn fascia_heights(
    blocks: &[Block],
    block: &Block,
    side: Option<&job::Side>,
    depth: usize,
) -> Result<Vec<f64>, Problem> {
    let mut heights = Vec::new();
    for edge in block.edges.iter().flatten() {
        let wanted = side.is_none_or(|s| *s == edge.side);
        if wanted && matches!(edge.slope, EdgeSlope::Pitch(_)) {
            heights.extend(fascia_height(edge, follow(blocks, block, edge, depth + 1)?));
        }
    }
    Ok(heights)
}

fn problem(block: &Block, span: &Span, why: &str, mend: &str) -> Problem {
    let message = format!("`level with` in the overhang of block `{}`: {why}", block.name);
    Problem::error("level-with", message, mend).at(span.clone(), "this overhang")
}
