//! Blocks of which nothing shows: all of their roof lies inside other blocks, or is that of other blocks.

use std::collections::BTreeSet;

use crate::check::Told;
use crate::plan::P2;
use crate::surface::Surface;
use crate::topology::Pieces;
use job::{Block, Problem};

/// A warning for each block that no piece of roof rises from.
pub(crate) fn warnings(blocks: &[Block], surface: &Surface, pieces: &Pieces, told: Told) -> Vec<Problem> {
    let shows = |block: usize| pieces.all.iter().any(|p| p.blocks.contains(&block));
    let doubles: Vec<Option<BTreeSet<usize>>> =
        (0..blocks.len()).map(|block| others_of(block, surface).filter(|_| shows(block))).collect();
    let warning = |block: usize| match &doubles[block] {
        Some(others) => {
            // of two that are the same, the second is told
            let by = others.iter().copied().find(|other| *other < block || doubles[*other].is_none())?;
            Some(doubled(&blocks[block], &blocks[by]))
        }
        None if shows(block) => None,
        None => buried(blocks, block, &Cover::of(surface, block), told),
    };
    (0..blocks.len()).filter_map(warning).collect()
}

/// The blocks whose roof is also all of the roof of a block that shows; none where it has any of its own.
fn others_of(block: usize, surface: &Surface) -> Option<BTreeSet<usize>> {
    let mut others = BTreeSet::new();
    for (seen, over) in surface.seen.iter().zip(&surface.over_cell) {
        for group in seen {
            let of_group = over.iter().filter(|s| surface.group_of[**s] == *group);
            let (own, more): (Vec<usize>, Vec<usize>) =
                of_group.map(|s| surface.sheets[*s].block).partition(|other| *other == block);
            if !own.is_empty() && more.is_empty() {
                return None;
            }
            others.extend(more.into_iter().filter(|_| !own.is_empty()));
        }
    }
    Some(others)
}

fn doubled(block: &Block, by: &Block) -> Problem {
    let message = format!(
        "block `{}` adds nothing: what shows of its roof is the roof of `{}` too",
        block.name, by.name
    );
    let mend = "take one of them out, or check where they are and what their sizes and heights are";
    Problem::warning("block-doubled", message, mend)
        .at(block.span.clone(), "this block")
        .at(by.span.clone(), "has the same roof")
}

/// What lies over a block.
struct Cover {
    blocks: BTreeSet<usize>,
    /// Least height of what is over the block above its own roof, metres.
    least: f64,
}

impl Cover {
    /// All heights are linear over a cell, so the least is at a corner of one.
    fn of(surface: &Surface, block: usize) -> Self {
        let mut cover = Self { blocks: BTreeSet::new(), least: f64::INFINITY };
        let a = &surface.arrangement;
        for (h, half_edge) in a.half_edges.iter().enumerate() {
            let above = highest_above(surface, block, half_edge.cell, a.from(h));
            if let Some((by, over)) = above {
                cover.blocks.insert(by);
                cover.least = cover.least.min(over);
            }
        }
        cover
    }
}

/// The block that is highest over a block at a corner of a cell, and by how much.
fn highest_above(surface: &Surface, block: usize, cell: usize, p: P2) -> Option<(usize, f64)> {
    let sheets = || surface.over_cell[cell].iter().map(|&s| &surface.sheets[s]);
    let own = sheets().filter(|s| s.block == block).map(|s| s.height(p)).max_by(f64::total_cmp)?;
    let others = sheets().filter(|s| s.block != block).map(|s| (s.block, s.height(p) - own));
    others.max_by(|a, b| a.1.total_cmp(&b.1))
}

fn buried(blocks: &[Block], block: usize, cover: &Cover, told: Told) -> Option<Problem> {
    let by = &blocks[*cover.blocks.first()?];
    let block = &blocks[block];
    let names: Vec<String> = cover.blocks.iter().map(|&b| format!("`{}`", blocks[b].name)).collect();
    let message = format!(
        "nothing of block `{}` shows: its roof lies under that of {}",
        block.name,
        names.join(" and ")
    );
    Some(
        Problem::warning("block-buried", message, mend(block, cover.least, told))
            .at(block.span.clone(), "this block")
            .at(by.span.clone(), "lies under this one"),
    )
}

fn mend(block: &Block, least: f64, told: Told) -> String {
    let mut plates = block.edges.iter().flatten().map(|e| e.plate.value.m());
    let first = plates.next().unwrap_or_default();
    let raise = if plates.all(|p| (p - first).abs() < 1e-9) {
        format!("raise its plate above {}", told.length(first + least))
    } else {
        format!("raise its plates by more than {}", told.length(least))
    };
    format!("{raise}, where it begins to show, or take the block out")
}
