//! What only several sections together can tell: names that repeat, references that go in circles, corners counted
//! the other way round.

mod arrays;
mod attics;
mod gutters;
mod planes;

use std::collections::BTreeMap;
use std::ops::RangeFrom;

use self::arrays::check_arrays;
use self::attics::attics;
use self::gutters::gutters;
use self::planes::check_planes;
use super::desk::Desk;
use super::notation::Marked;
use super::section::{AtticDraft, BlockDraft, GutterDraft, OpeningDraft, kind_word};
use crate::{
    Array, Attic, Block, EdgeSlope, Gutter, Opening, Overhang, Problem, Reading, ReadingOf, Side, Span,
    Storm, Walk, Walls, Window,
};

/// Sections that refer to one another, as read.
pub(crate) struct Parts {
    pub(crate) blocks: Vec<BlockDraft>,
    pub(crate) openings: Vec<OpeningDraft>,
    pub(crate) gutters: Vec<GutterDraft>,
    pub(crate) arrays: Vec<Array>,
    pub(crate) walks: Vec<Walk>,
    pub(crate) windows: Vec<Window>,
    pub(crate) walls: Vec<(Marked<String>, Option<Walls>)>,
    pub(crate) attics: Vec<(Marked<String>, Option<AtticDraft>)>,
    pub(crate) readings: Vec<Reading>,
    pub(crate) storm: Option<Storm>,
}

/// The same, checked against one another.
pub(crate) struct Related {
    pub(crate) blocks: Vec<Block>,
    pub(crate) openings: Vec<Opening>,
    pub(crate) gutters: Vec<Gutter>,
    pub(crate) arrays: Vec<Array>,
    pub(crate) walks: Vec<Walk>,
    pub(crate) windows: Vec<Window>,
    pub(crate) walls: BTreeMap<String, Walls>,
    pub(crate) attics: Vec<Attic>,
    pub(crate) readings: Vec<Reading>,
    pub(crate) storm: Option<Storm>,
}

/// Checks the parts against one another and reports what does not fit.
pub(crate) fn relate(parts: Parts, desk: &mut Desk<'_>) -> Related {
    let Parts {
        blocks,
        openings,
        gutters: hung,
        arrays,
        walks,
        windows,
        walls,
        attics: drafts,
        readings,
        storm,
    } = parts;
    for problem in desk.roll().faults() {
        desk.report(problem);
    }
    let by_name: BTreeMap<&str, &BlockDraft> =
        blocks.iter().map(|draft| (draft.block.name.as_str(), draft)).collect();
    let readings = readings.into_iter().map(|reading| renumbered(reading, &by_name)).collect();
    let blocks: Vec<Block> = blocks.into_iter().map(|draft| draft.block).collect();
    for block in &blocks {
        check_levels(block, &blocks, desk);
    }
    if let Some(storm) = &storm {
        check_planes(storm, &blocks, desk);
    }
    check_arrays(&arrays, &blocks, desk);
    each_once("walks", walks.iter().map(|walk| (&walk.name, &walk.name_span)), desk);
    each_once("windows", windows.iter().map(|window| (&window.name, &window.name_span)), desk);
    let attics = attics(drafts, &blocks, desk);
    let gutters = gutters(hung, &blocks, desk);
    let (openings, walls) = (named(openings, desk), by_block(walls, desk));
    Related { blocks, openings, gutters, arrays, walks, windows, walls, attics, readings, storm }
}

/// Openings with their names, made from kind and number where none is written.
fn named(drafts: Vec<OpeningDraft>, desk: &mut Desk<'_>) -> Vec<Opening> {
    let mut taken: BTreeMap<String, Span> = BTreeMap::new();
    for name in drafts.iter().filter_map(|draft| draft.name.as_ref()) {
        if let Some(first) = taken.get(&name.value) {
            desk.report(twice("openings", name, first));
        } else {
            taken.insert(name.value.clone(), name.span.clone());
        }
    }
    let mut numbers: BTreeMap<&str, RangeFrom<usize>> = BTreeMap::new();
    let mut openings = Vec::new();
    for OpeningDraft { name, opening } in drafts {
        let Some(opening) = opening else { continue };
        let kind = kind_word(opening.kind);
        let numbers = numbers.entry(kind).or_insert(1..);
        let made = || numbers.map(|n| format!("{kind} {n}")).find(|name| !taken.contains_key(name));
        let name = name.map(|name| name.value).or_else(made).unwrap_or_default();
        openings.push(Opening { name, ..opening });
    }
    openings
}

/// Papers call these by their names, so no two may share one.
fn each_once<'a>(what: &str, names: impl Iterator<Item = (&'a String, &'a Span)>, desk: &mut Desk<'_>) {
    let mut taken: BTreeMap<&str, &Span> = BTreeMap::new();
    for (name, span) in names {
        if let Some(first) = taken.get(name.as_str()) {
            desk.report(twice(what, &Marked { value: name.clone(), span: span.clone() }, first));
        }
        taken.entry(name).or_insert(span);
    }
}

/// The error of a name given twice.
pub(super) fn twice(what: &str, name: &Marked<String>, first: &Span) -> Problem {
    let message = format!("two {what} are named `{}`", name.value);
    let problem = Problem::error("name-taken", message, "give one of them another name");
    problem.at(name.span.clone(), "").at(first.clone(), "the other one")
}

/// Walls by the block they belong to.
fn by_block(walls: Vec<(Marked<String>, Option<Walls>)>, desk: &mut Desk<'_>) -> BTreeMap<String, Walls> {
    let mut known = BTreeMap::new();
    for (name, walls) in walls {
        let lost = desk.roll().block(&name.value).err();
        if let Some(lost) = lost {
            desk.report(lost.in_heading("walls", &name.span));
        } else if let Some(walls) = walls {
            known.insert(name.value, walls);
        }
    }
    known
}

/// A reading with its corners counted as in the blocks.
fn renumbered(reading: Reading, blocks: &BTreeMap<&str, &BlockDraft>) -> Reading {
    let corner = |(name, written): (String, usize)| {
        let number = blocks.get(name.as_str()).map_or(written, |draft| draft.corner(written));
        (name, number)
    };
    let of = match reading.of {
        ReadingOf::Distance { from, to } => ReadingOf::Distance { from: corner(from), to: corner(to) },
        other => other,
    };
    Reading { of, ..reading }
}

/// An eave whose overhang follows another's must not be followed by it.
fn check_levels(block: &Block, blocks: &[Block], desk: &mut Desk<'_>) {
    for edge in block.edges.iter().flatten() {
        let Overhang::LevelWith { block: other, span, .. } = &edge.overhang else { continue };
        if leads_back((block, edge.side), blocks) {
            let message = format!(
                "the overhang of `{}` {} is level with `{other}`, whose own follows it",
                block.name, edge.side
            );
            let problem = Problem::error("level-circle", message, "give one of the overhangs as a length");
            desk.report(problem.at(span.clone(), ""));
            return; // one is enough to see the circle
        }
    }
}

/// Whether following the overhangs from an edge comes back to it.
fn leads_back(start: (&Block, Side), blocks: &[Block]) -> bool {
    let mut seen: Vec<(&str, Side)> = Vec::new();
    let mut open = followed(start.0, start.1, blocks);
    while let Some((block, side)) = open.pop() {
        if block.name == start.0.name && side == start.1 {
            return true;
        }
        if !seen.contains(&(block.name.as_str(), side)) {
            seen.push((&block.name, side));
            open.extend(followed(block, side, blocks));
        }
    }
    false
}

/// The edges whose height fixes the overhang of an edge.
fn followed<'b>(block: &Block, side: Side, blocks: &'b [Block]) -> Vec<(&'b Block, Side)> {
    let edge = block.edges.iter().flatten().find(|edge| edge.side == side);
    let Some(Overhang::LevelWith { block: name, side, .. }) = edge.map(|edge| &edge.overhang) else {
        return Vec::new();
    };
    let Some(other) = blocks.iter().find(|other| other.name == *name) else { return Vec::new() };
    let eaves = other.edges.iter().flatten().filter(|edge| matches!(edge.slope, EdgeSlope::Pitch(_)));
    let meant = eaves.filter(|edge| side.is_none_or(|side| side == edge.side));
    meant.map(|edge| (other, edge.side)).collect()
}
