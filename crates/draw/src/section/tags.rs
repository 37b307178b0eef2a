//! Numbers of layers, each in a circle on a leader from where its layer lies most open.
//!
//! # Method
//! Layers wait for their turn, from the wood outward. Each takes the place, nearest first, at which its circle touches no line and it meets the
//! fewest numbers placed before it; those it meets are taken up again and wait once more, and weigh more each time, so that two do not take the same
//! place from each other for ever. A layer that lies under others everywhere has a leader across those.

use std::collections::VecDeque;

use super::bend::Bend;
use super::{Drawing, GAP, TOWARDS, WOOD};
use crate::ink::{FAINT, Pen};
use crate::polygon::segment_distance;
use crate::svg::{Path, Svg};
use crate::symbol::Tag;
use crate::vector::{P2, cross, distance, sub};

/// Least room between a circle and anything else, mm.
const AIR: f64 = 0.4;
/// How far out, in halves of a circle's room, and how far aside, in halves too, it may stand.
const FURTHER: i32 = 18;
const ASIDE: [f64; 15] = [0.0, 1.0, -1.0, 2.0, -2.0, 3.0, -3.0, 4.0, -4.0, 6.0, -6.0, 9.0, -9.0, 12.0, -12.0];
/// A point this near a line is on it, mm.
const ON: f64 = 0.05;
/// Where on a stretch a leader may start.
const SHARES: [f64; 5] = [0.5, 0.3, 0.7, 0.12, 0.88];
/// How often, for each layer, a number is placed before those that meet stay as they are.
const TURNS: usize = 12;

/// Where a number stands, and where its leader starts.
#[derive(Clone, Copy, Debug)]
pub(super) struct TagPlace {
    pub(super) index: usize,
    pub(super) from: P2,
    pub(super) at: P2,
}

/// Where a leader may start: its face and place, the point on paper, and how many layers lie over its own there.
#[derive(Clone, Copy, Debug)]
struct Start {
    face: usize,
    place: f64,
    from: P2,
    over: usize,
}

/// Lines on paper, each with half its thickness and the layer it is of.
struct Lines(Vec<([P2; 2], f64, Option<usize>)>);

impl Lines {
    fn add(&mut self, line: &[P2], half: f64, layer: Option<usize>) {
        self.0.extend(line.windows(2).map(|ends| ([ends[0], ends[1]], half, layer)));
    }

    fn are_clear_of(&self, at: P2, radius: f64) -> bool {
        self.0.iter().all(|(side, half, _)| segment_distance(*side, at) > radius + half + AIR)
    }

    /// How many lines of other layers, or of none, a leader crosses.
    fn crossed(&self, leader: [P2; 2], own: usize) -> usize {
        self.0
            .iter()
            .filter(|(side, _, layer)| *layer != Some(own) && cross_each_other(leader, *side))
            .count()
    }
}

/// Whether two segments have a point in common.
fn cross_each_other([a, b]: [P2; 2], [c, d]: [P2; 2]) -> bool {
    let side = |p: P2, q: P2, r: P2| cross(sub(q, p), sub(r, p));
    side(a, b, c) * side(a, b, d) <= 0.0 && side(c, d, a) * side(c, d, b) <= 0.0
}

/// Numbers on their way to a place.
struct Placing<'a> {
    drawing: &'a Drawing<'a>,
    lines: Lines,
    /// By layer.
    starts: Vec<Vec<Start>>,
    placed: Vec<Option<TagPlace>>,
    /// By layer, how often its number was taken up again.
    weights: Vec<u32>,
}

impl<'a> Placing<'a> {
    fn new(drawing: &'a Drawing<'a>) -> Self {
        let count = drawing.section.sheets.len();
        Self {
            drawing,
            lines: drawing.drawn_lines(),
            starts: (0..count).map(|index| drawing.starts(index)).collect(),
            placed: vec![None; count],
            weights: vec![1; count],
        }
    }

    fn run(mut self) -> Vec<TagPlace> {
        let mut waiting: VecDeque<usize> = (0..self.placed.len()).collect();
        let mut turns = TURNS * self.placed.len();
        while let Some(index) = waiting.pop_front() {
            let Some(tag) = self.best(index) else { continue };
            turns = turns.saturating_sub(1);
            let met = |other: &TagPlace| turns > 0 && self.meet(&tag, other);
            let met: Vec<usize> =
                self.placed.iter().flatten().filter(|other| met(other)).map(|other| other.index).collect();
            for other in met {
                self.placed[other] = None;
                self.weights[other] += 1;
                waiting.push_back(other);
            }
            self.placed[index] = Some(tag);
        }
        self.placed.into_iter().flatten().collect()
    }

    /// The nearest place of those that meet the least; a leader across more than lies over its layer comes after one that does not.
    fn best(&self, index: usize) -> Option<TagPlace> {
        let radius = self.drawing.radius();
        let mut best: Option<((u32, bool), TagPlace)> = None;
        for (tag, over) in self.candidates(index) {
            let weight =
                |other: &TagPlace| if self.meet(&tag, other) { self.weights[other.index] } else { 0 };
            let met: u32 = self.placed.iter().flatten().map(weight).sum();
            let is_no_better = |found: &((u32, bool), TagPlace)| found.0 <= (met, false);
            if best.as_ref().is_some_and(is_no_better) || !self.lines.are_clear_of(tag.at, radius) {
                continue;
            }
            let cost = (met, self.lines.crossed([tag.from, tag.at], index) > over);
            if cost == (0, false) {
                return Some(tag);
            }
            if best.as_ref().is_none_or(|found| cost < found.0) {
                best = Some((cost, tag));
            }
        }
        best.map(|(_, tag)| tag)
    }

    /// Whether two numbers are in each other's way.
    fn meet(&self, tag: &TagPlace, other: &TagPlace) -> bool {
        let radius = self.drawing.radius();
        let (leader, others) = ([tag.from, tag.at], [other.from, other.at]);
        distance(other.at, tag.at) <= 2.0 * radius + AIR
            || segment_distance(others, tag.at) <= radius + AIR
            || segment_distance(leader, other.at) <= radius + AIR
            || cross_each_other(leader, others)
    }

    /// Nearest first, each with how many layers lie over its own where its leader starts.
    fn candidates(&self, index: usize) -> impl Iterator<Item = (TagPlace, usize)> + '_ {
        let Drawing { bend, hand, stack, .. } = self.drawing;
        let off = stack + hand.tag_off;
        let steps = (0..FURTHER).flat_map(|further| ASIDE.map(|aside| (f64::from(further), aside)));
        steps.flat_map(move |(further, aside)| {
            self.starts[index].iter().map(move |start| {
                let beside = start.place + aside * hand.tag_room / 2.0 / bend.mm_per_m;
                let at = bend.at(start.face, beside, off + further * hand.tag_room / 2.0);
                (TagPlace { index, from: start.from, at }, start.over)
            })
        })
    }
}

impl Drawing<'_> {
    /// Layers with where their leaders start and their numbers stand, in the order of the layers.
    pub(super) fn placed_tags(&self) -> Vec<TagPlace> {
        Placing::new(self).run()
    }

    /// Half the width of the widest number's circle.
    fn radius(&self) -> f64 {
        self.hand.tag * 0.85
    }

    /// Where a layer's leader may start.
    fn starts(&self, index: usize) -> Vec<Start> {
        let drawn = self.bend.lines(self.section, index);
        let is_drawn = |start: &Start| {
            let mut sides = drawn.iter().flat_map(|line| line.windows(2));
            sides.any(|ends| segment_distance([ends[0], ends[1]], start.from) < ON)
        };
        let starts: Vec<Start> = Bend::open_stretches(self.section, index)
            .into_iter()
            .flat_map(|stretch| SHARES.map(|share| (stretch, share)))
            .filter_map(|(i, share)| {
                let stretch = &self.section.stretches[i];
                let place = stretch.span.from + stretch.span.length() * share;
                let from = self.bend.at(stretch.face, place, Bend::depth(self.section, i, index)?);
                let over = stretch.layers.iter().filter(|other| **other > index).count();
                Some(Start { face: stretch.face, place, from, over })
            })
            .collect();
        // where a corner or what goes through takes the room of a stretch, its line is not there
        let seen: Vec<Start> = starts.iter().copied().filter(is_drawn).collect();
        if seen.is_empty() { starts } else { seen }
    }

    /// All that circles keep off: layers, wood, what goes through, arrows of water.
    fn drawn_lines(&self) -> Lines {
        let mut lines = Lines(Vec::new());
        for (index, sheet) in self.section.sheets.iter().enumerate() {
            let half = if sheet.material.drawn == book::Look::Band { 0.75 } else { 0.5 };
            for line in self.bend.lines(self.section, index) {
                lines.add(&line, half, Some(index));
            }
        }
        for face in 0..self.section.faces.len() {
            let span = self.section.faces[face].span;
            let middle = [span.from, span.to].map(|at| self.bend.at(face, at, -WOOD / 2.0));
            lines.add(&middle, WOOD / 2.0, None);
            let off = -WOOD - 1.8 - self.hand.ruler * 0.88;
            let ruler = [span.from, span.to].map(|at| self.bend.at(face, at, off));
            lines.add(&ruler, self.hand.ruler * 0.8, None);
            if let Some(ends) = self.arrow_ends(face) {
                lines.add(&ends, TOWARDS, None);
            }
        }
        for line in self.through_lines().into_iter().flatten() {
            lines.add(&line, GAP / 2.0, None);
        }
        lines
    }

    /// Draws them.
    pub(super) fn tags(&self, svg: &mut Svg) {
        let mut leaders = Path::default();
        let placed = self.placed_tags();
        for TagPlace { from, at, .. } in &placed {
            leaders = leaders.and_open(&[*from, *at]).and_circle(*from, 0.35);
        }
        svg.stroke("leader", &leaders, &Pen { width: 0.18, dash: &[], colour: FAINT });
        for tag in placed {
            Tag::new(self.section.number(tag.index), self.hand.tag).draw(svg, tag.at);
        }
    }
}
