//! How far each edge's roof reaches out, with `level with` resolved.

use std::collections::BTreeMap;

use job::{Block, BlockEdge, EdgeSlope, Overhang, Problem, Span};

use crate::check::Told;

/// Height of the roof edge over a sloped edge of a block, given its overhang.
pub(crate) fn fascia_height(edge: &BlockEdge, overhang: f64) -> Option<f64> {
    match &edge.slope {
        EdgeSlope::Pitch(pitch) => Some(edge.plate.value.m() - pitch.value.slope() * overhang),
        EdgeSlope::Gable => None,
    }
}

/// Fascia lines closer than this in height are level, metres (1/8 in).
pub(crate) const LEVEL: f64 = 0.003175;

/// The longest overhang the job document takes, metres (8 ft).
const LONGEST: f64 = 2.4384;

/// Overhangs of every edge of every contour of every block, metres.
pub(crate) fn resolve(blocks: &[Block], told: Told) -> Result<Vec<Vec<Vec<f64>>>, Vec<Problem>> {
    let mut resolver = Resolver { blocks, told, known: BTreeMap::new() };
    let mut problems = Vec::new();
    let mut all = Vec::new();
    for (b, block) in blocks.iter().enumerate() {
        let mut of_block = Vec::new();
        for (c, contour) in block.edges.iter().enumerate() {
            let found = (0..contour.len()).map(|e| resolver.overhang([b, c, e]));
            let run =
                |found: Result<f64, Problem>| found.map_err(|problem| problems.push(problem)).unwrap_or(0.0);
            of_block.push(found.map(run).collect());
        }
        all.push(of_block);
    }
    problems.dedup();
    if problems.is_empty() { Ok(all) } else { Err(problems) }
}

/// An edge by block, contour and place in it.
type Key = [usize; 3];

/// Follows `level with` from block to block, each edge once.
struct Resolver<'a> {
    blocks: &'a [Block],
    told: Told,
    /// What each edge came to; none while it is being followed.
    known: BTreeMap<Key, Option<Result<f64, Problem>>>,
}

impl<'a> Resolver<'a> {
    fn edge(&self, [b, c, e]: Key) -> (&'a Block, &'a BlockEdge) {
        (&self.blocks[b], &self.blocks[b].edges[c][e])
    }

    fn overhang(&mut self, key: Key) -> Result<f64, Problem> {
        if let Some(Some(known)) = self.known.get(&key) {
            return known.clone();
        }
        let (block, edge) = self.edge(key);
        let (name, side, span) = match &edge.overhang {
            Overhang::Run(run) => return Ok(run.value.m()),
            Overhang::LevelWith { block, side, span } => (block, side, span),
        };
        if self.known.insert(key, None).is_some() {
            let mend = "give one of the blocks in the circle a length";
            return Err(problem(block, span, "goes round in a circle", mend));
        }
        let found = self.level_with(block, edge, name, side.as_ref(), span);
        self.known.insert(key, Some(found.clone()));
        found
    }

    /// The overhang that brings an edge's fascia to the height of another block's.
    fn level_with(
        &mut self,
        block: &Block,
        edge: &BlockEdge,
        name: &str,
        side: Option<&job::Side>,
        span: &Span,
    ) -> Result<f64, Problem> {
        let Some(other) = self.blocks.iter().position(|b| b.name == *name) else {
            let why = format!("names `{name}`, which is no block");
            return Err(problem(block, span, &why, "name a block of this job"));
        };
        let EdgeSlope::Pitch(pitch) = &edge.slope else {
            return Err(problem(block, span, "is on a side without slope", "give this rake a length"));
        };
        let heights = self.fascia_heights(other, side)?;
        let Some(&first) = heights.first() else {
            let why = format!("`{name}` has no eave there");
            return Err(problem(block, span, &why, "name a side that has an eave"));
        };
        if heights.iter().any(|h| (h - first).abs() > LEVEL) {
            let mend = format!("say which side, such as \"level with {name} south\"");
            let why = format!("eaves of `{name}` are not all at one height");
            return Err(problem(block, span, &why, &mend));
        }
        let run = (edge.plate.value.m() - first) / pitch.value.slope();
        let mend = "give the overhang a length, or check both plates";
        if run < 0.0 {
            let why = format!("fascia of `{name}` is above the plate of `{}`", block.name);
            return Err(problem(block, span, &why, mend));
        }
        if run > LONGEST {
            let far = self.told.length(run);
            let why = format!(
                "it would have to reach out {far}; the longest taken is {}",
                self.told.length(LONGEST)
            );
            return Err(problem(block, span, &why, mend));
        }
        Ok(run)
    }

    /// Heights of the roof edges over the sloped sides of a block.
    fn fascia_heights(&mut self, b: usize, side: Option<&job::Side>) -> Result<Vec<f64>, Problem> {
        let mut heights = Vec::new();
        let contours = self.blocks[b].edges.iter().enumerate();
        for key in contours.flat_map(|(c, contour)| (0..contour.len()).map(move |e| [b, c, e])) {
            let (_, edge) = self.edge(key);
            let wanted = side.is_none_or(|s| *s == edge.side);
            if wanted && matches!(edge.slope, EdgeSlope::Pitch(_)) {
                heights.extend(fascia_height(edge, self.overhang(key)?));
            }
        }
        Ok(heights)
    }
}

fn problem(block: &Block, span: &Span, why: &str, mend: &str) -> Problem {
    let message = format!("`level with` in the overhang of block `{}`: {why}", block.name);
    Problem::error("level-with", message, mend).at(span.clone(), "this overhang")
}
