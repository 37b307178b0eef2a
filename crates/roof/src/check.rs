//! What keeps blocks from making one roof, and what a person should look at.

use job::{Block, BlockEdge, EdgeSlope, Problem, Units};
use measure::Length;

use crate::contact::{self, TOUCH};
use crate::overhang::{LEVEL, fascia_height};
use crate::plan::{Bounds, P2, area, cross, distance, dot, edges, to_segment, unit};

/// Blocks up to this far apart that do not touch are a slip of the tape, metres (6 in, and the reading of the tape).
const SLIP: f64 = 0.1524 + TOUCH;
/// Plates closer than this in height were meant to carry one fascia line, metres (1 in).
const SAME_PLATE: f64 = 0.0254 + LEVEL;

/// How metres are told in messages: in the units of the job.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Told(pub(crate) Units);

impl Told {
    /// As papers write it.
    pub(crate) fn length(self, metres: f64) -> String {
        self.0.length(Length::from_m(metres))
    }

    /// What differs by little: to 1/100 in, or a tenth of a millimetre.
    fn little(self, metres: f64) -> String {
        match self.0 {
            Units::Us => format!("{:.2} in", Length::from_m(metres).inches()),
            Units::Si => format!("{:.1} mm", metres * 1000.0),
        }
    }

    /// How far walls may be apart and touch.
    fn touch(self) -> &'static str {
        match self.0 {
            Units::Us => "1/4 in",
            Units::Si => "6 mm",
        }
    }
}

/// Corners sharper than this have no mitre a roof could be built with, radians (5 degrees).
const SHARPEST: f64 = 0.087_266;

/// Outlines that nothing can be built on: thinner than what a tape can read, or with a corner like a needle's.
pub(crate) fn outlines(blocks: &[Block], told: Told) -> Vec<Problem> {
    let problem = |b: &Block| sliver(b, told).or_else(|| b.contours.iter().find_map(|c| needle(b, c, told)));
    blocks.iter().filter_map(problem).collect()
}

/// Width of the strip that has an outline's area and, counting both its long sides, its length all round.
fn mean_width(outline: &[P2]) -> f64 {
    let around: f64 = edges(outline).map(|(a, b)| distance(a, b)).sum();
    2.0 * area(outline).abs() / around
}

fn sliver(block: &Block, told: Told) -> Option<Problem> {
    let width = mean_width(&block.contours[0]);
    let message =
        format!("block `{}` is on average {} wide: nothing a roof stands on", block.name, told.little(width));
    let problem = Problem::error("block-sliver", message, "check its points, or leave it out");
    (width < TOUCH).then(|| problem.at(block.span.clone(), "this block"))
}

fn needle(block: &Block, contour: &[P2], told: Told) -> Option<Problem> {
    let n = contour.len();
    let is_sharp = |i: &usize| {
        let [before, here, after] = [i + n - 1, *i, i + 1].map(|k| contour[k % n]);
        let (u, v) = (unit(here, before), unit(here, after));
        cross(u, v).abs().atan2(dot(u, v)) < SHARPEST
    };
    let i = (0..n).find(is_sharp)?;
    let [x, y] = contour[i].map(|metres| told.length(metres));
    let message = format!(
        "the outline of block `{}` turns back on itself at {x} east, {y} north: a corner of less than 5 degrees",
        block.name
    );
    let problem =
        Problem::error("corner-too-sharp", message, "check the points there, or cut the corner off");
    Some(problem.at(block.span.clone(), "this block"))
}

/// Blocks that touch no other, and blocks that miss each other by a little.
pub(crate) fn apart(blocks: &[Block], told: Told) -> Vec<Problem> {
    let bounds: Vec<Bounds> = blocks.iter().map(|b| Bounds::of(&b.contours[0]).grown(SLIP)).collect();
    let mut problems = Vec::new();
    for (i, a) in blocks.iter().enumerate() {
        let near = (0..blocks.len()).filter(|&j| j != i && bounds[i].meets(&bounds[j]));
        let gaps: Vec<(usize, f64)> = near.map(|j| (j, contact::apart(a, &blocks[j]))).collect();
        let missed = gaps.iter().filter(|(j, gap)| *j > i && *gap > TOUCH && *gap < SLIP);
        problems.extend(missed.map(|(j, gap)| near_miss(a, &blocks[*j], *gap, told)));
        if !a.detached && gaps.iter().all(|(_, gap)| *gap >= SLIP) {
            problems.extend(alone(a, blocks, told));
        }
    }
    problems
}

fn near_miss(a: &Block, b: &Block, gap: f64, told: Told) -> Problem {
    let message = format!(
        "walls of `{}` and `{}` are {} apart: neither touching nor clear",
        a.name,
        b.name,
        told.little(gap)
    );
    Problem::error(
        "blocks-apart",
        message,
        format!("check `at` and `size` of both; walls up to {} apart count as touching", told.touch()),
    )
    .at(b.span.clone(), "this block")
    .at(a.span.clone(), "and this one")
}

fn alone(a: &Block, blocks: &[Block], told: Told) -> Option<Problem> {
    let others = blocks.iter().filter(|b| b.name != a.name && !b.detached).map(|b| (contact::apart(a, b), b));
    let (gap, nearest) = others.min_by(|x, y| x.0.total_cmp(&y.0))?;
    let far = told.length(gap);
    let message =
        format!("block `{}` touches no other block; the nearest is `{}`, {far} away", a.name, nearest.name);
    let mend = "check its `at` and `size`, or write `detached = true` if it stands alone";
    Some(Problem::error("block-alone", message, mend).at(a.span.clone(), "this block"))
}

/// Sloped edges that should carry one fascia line but do not.
pub(crate) fn fascias(blocks: &[Block], overhangs: &[Vec<Vec<f64>>], told: Told) -> Vec<Problem> {
    let mut problems = corners_of_blocks(blocks, overhangs, told);
    let lines = fascia_lines(blocks, overhangs);
    for (k, a) in lines.iter().enumerate() {
        for b in lines[k + 1..].iter().filter(|b| b.block.name != a.block.name && are_meant_level(a, b)) {
            let differ = (a.height - b.height).abs();
            let known = problems.iter().any(|p: &Problem| names_both(p, a, b));
            if differ > LEVEL && !known {
                problems.push(mismatch(a, b, differ, told));
            }
        }
    }
    problems
}

/// The roof edge over a sloped wall line.
struct Fascia<'a> {
    block: &'a Block,
    edge: &'a BlockEdge,
    ends: [P2; 2],
    height: f64,
}

fn fascia_lines<'a>(blocks: &'a [Block], overhangs: &[Vec<Vec<f64>>]) -> Vec<Fascia<'a>> {
    let mut lines = Vec::new();
    for (block, overhangs) in blocks.iter().zip(overhangs) {
        for ((points, of_contour), overhangs) in block.contours.iter().zip(&block.edges).zip(overhangs) {
            for (((a, b), edge), overhang) in edges(points).zip(of_contour).zip(overhangs) {
                if let Some(height) = fascia_height(edge, *overhang) {
                    lines.push(Fascia { block, edge, ends: [a, b], height });
                }
            }
        }
    }
    lines
}

/// Two eaves of different blocks whose wall lines touch at a corner and whose plates are level.
fn are_meant_level(a: &Fascia, b: &Fascia) -> bool {
    let corner_of =
        |a: &Fascia, b: &Fascia| a.ends.iter().any(|p| to_segment(*p, b.ends[0], b.ends[1]).0 < 2.0 * TOUCH);
    let plates = (a.edge.plate.value.m() - b.edge.plate.value.m()).abs();
    plates < SAME_PLATE && (corner_of(a, b) || corner_of(b, a))
}

/// Neighbouring sloped edges of one block whose roof edges are at different heights.
fn corners_of_blocks(blocks: &[Block], overhangs: &[Vec<Vec<f64>>], told: Told) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (block, overhangs) in blocks.iter().zip(overhangs) {
        for (of_contour, overhangs) in block.edges.iter().zip(overhangs) {
            let n = of_contour.len();
            for i in 0..n {
                let j = (i + 1) % n;
                let heights = [i, j].map(|k| fascia_height(&of_contour[k], overhangs[k]));
                let level_plates =
                    (of_contour[i].plate.value.m() - of_contour[j].plate.value.m()).abs() < SAME_PLATE;
                if let [Some(a), Some(b)] = heights
                    && level_plates
                    && (a - b).abs() > LEVEL
                {
                    let differ = told.little((a - b).abs());
                    problems.push(corner_mismatch(block, &of_contour[i], &of_contour[j], &differ));
                    break;
                }
            }
        }
    }
    problems
}

fn corner_mismatch(block: &Block, a: &BlockEdge, b: &BlockEdge, differ: &str) -> Problem {
    let message = format!(
        "fascia lines of block `{}` differ by {} where {} meets {}: the hip does not run to the corner",
        block.name, differ, a.side, b.side
    );
    Problem::warning(
        "fascia-lines",
        message,
        "with unequal pitches a level fascia needs unequal overhangs: check the tape",
    )
    .at(block.span.clone(), "this block")
}

fn mismatch(a: &Fascia, b: &Fascia, differ: f64, told: Told) -> Problem {
    let (first, second) = (describe(a, told), describe(b, told));
    let message = format!("fascia lines differ by {}: {first} against {second}", told.little(differ));
    let mend = format!(
        "check both pitches and overhangs, or write \"level with {}\" for one overhang",
        a.block.name
    );
    Problem::warning("fascia-lines", message, mend)
        .at(b.block.span.clone(), "this block")
        .at(a.block.span.clone(), "and this one")
}

fn describe(f: &Fascia, told: Told) -> String {
    let pitch = match &f.edge.slope {
        EdgeSlope::Pitch(p) => told.0.pitch(p.value),
        EdgeSlope::Gable => String::new(),
    };
    let drop = told.little(f.edge.plate.value.m() - f.height);
    format!("`{}` {} at {pitch} falls {drop} from plate to roof edge", f.block.name, f.edge.side)
}

/// Whether a problem already speaks of the same two blocks.
fn names_both(problem: &Problem, a: &Fascia, b: &Fascia) -> bool {
    let spans: Vec<_> = problem.places.iter().map(|p| &p.range).collect();
    spans.contains(&&a.block.span) && spans.contains(&&b.block.span)
}
