//! Numbers of layers, each in a circle on a leader from where its layer lies most open.
//!
//! # Method
//! Layers take their turn; of the candidates for each, nearest first, the first wins whose circle touches no line, circle or leader and whose
//! leader meets no other leader, circle or layer. A layer that lies under others everywhere has a leader across those.

use super::bend::Bend;
use super::{Drawing, GAP, TOWARDS, WOOD};
use crate::ink::{FAINT, Pen};
use crate::polygon::segment_distance;
use crate::svg::{Path, Svg};
use crate::symbol::Tag;
use crate::vector::{P2, cross, distance, sub};

/// Least room between a circle and anything else, mm.
const AIR: f64 = 0.4;
/// How far out, in quarters of a circle's room, and how far aside, in halves, it may stand.
const FURTHER: i32 = 36;
const ASIDE: [f64; 17] =
    [0.0, 1.0, -1.0, 2.0, -2.0, 3.0, -3.0, 4.0, -4.0, 6.0, -6.0, 9.0, -9.0, 12.0, -12.0, 16.0, -16.0];
/// A point this near a line is on it, mm.
const ON: f64 = 0.05;
/// Where on a stretch a leader may start.
const SHARES: [f64; 5] = [0.5, 0.3, 0.7, 0.12, 0.88];

/// Where a number stands, and where its leader starts.
pub(super) struct TagPlace {
    pub(super) index: usize,
    pub(super) from: P2,
    pub(super) at: P2,
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

impl Drawing<'_> {
    /// Layers with where their leaders start and their numbers stand, in the order of the layers.
    pub(super) fn placed_tags(&self) -> Vec<TagPlace> {
        let lines = self.drawn_lines();
        let from_the_wood: Vec<usize> = (0..self.section.sheets.len()).collect();
        let from_outside: Vec<usize> = from_the_wood.iter().rev().copied().collect();
        let mut placed = self.placed_in(&from_the_wood, &lines);
        if placed.1 > 0 {
            // in an inside corner, what is placed first may shut in what comes later
            let other = self.placed_in(&from_outside, &lines);
            placed = if other.1 < placed.1 { other } else { placed };
        }
        placed.0.sort_by_key(|tag| tag.index);
        placed.0
    }

    /// Placed one after another in an order, and how many found no free place.
    fn placed_in(&self, order: &[usize], lines: &Lines) -> (Vec<TagPlace>, usize) {
        let (mut placed, mut shut_in) = (Vec::new(), 0);
        for index in order.iter().copied() {
            let mut candidates = self.candidates(index);
            let free = candidates.find(|(tag, over)| self.is_free(tag, *over, lines, &placed));
            // a leader across more than lies over its layer is better than one across another leader, that better than circles in one place
            let free = free.or_else(|| {
                self.candidates(index).find(|(tag, _)| self.is_free(tag, usize::MAX, lines, &placed))
            });
            let free = free.or_else(|| {
                shut_in += 1;
                self.candidates(index).find(|(tag, _)| self.is_apart(tag, lines, &placed))
            });
            placed.extend(free.map(|(tag, _)| tag));
        }
        (placed, shut_in)
    }

    /// Whether a circle keeps off lines and the other circles, whatever its leader does.
    fn is_apart(&self, tag: &TagPlace, lines: &Lines, placed: &[TagPlace]) -> bool {
        let radius = self.radius();
        lines.are_clear_of(tag.at, radius)
            && placed.iter().all(|other| distance(other.at, tag.at) > 2.0 * radius + AIR)
    }

    /// Half the width of the widest number's circle.
    fn radius(&self) -> f64 {
        self.hand.tag * 0.85
    }

    /// Nearest first, each with how many layers lie over its own where its leader starts.
    fn candidates(&self, index: usize) -> impl Iterator<Item = (TagPlace, usize)> + '_ {
        let (off, room) = (self.stack + self.hand.tag_off, self.hand.tag_room);
        let drawn = self.bend.lines(self.section, index);
        let is_drawn = |at: P2| {
            let mut sides = drawn.iter().flat_map(|line| line.windows(2));
            sides.any(|ends| segment_distance([ends[0], ends[1]], at) < ON)
        };
        let starts: Vec<_> = Bend::open_stretches(self.section, index)
            .into_iter()
            .flat_map(|stretch| SHARES.map(|share| (stretch, share)))
            .filter_map(|(i, share)| {
                let stretch = &self.section.stretches[i];
                let place = stretch.span.from + stretch.span.length() * share;
                let from = self.bend.at(stretch.face, place, Bend::depth(self.section, i, index)?);
                let over = stretch.layers.iter().filter(|other| **other > index).count();
                Some((stretch.face, place, from, over))
            })
            .collect();
        // where a corner or what goes through takes the room of a stretch, its line is not there
        let seen: Vec<_> = starts.iter().copied().filter(|(_, _, from, _)| is_drawn(*from)).collect();
        let starts = if seen.is_empty() { starts } else { seen };
        let places = (0..FURTHER).flat_map(|further| ASIDE.map(|aside| (f64::from(further), aside)));
        places.flat_map(move |(further, aside)| {
            let at = move |(face, place, from, over): (usize, f64, P2, usize)| {
                let beside = place + aside * room / 2.0 / self.bend.mm_per_m;
                let at = self.bend.at(face, beside, off + further * room / 4.0);
                (TagPlace { index, from, at }, over)
            };
            starts.clone().into_iter().map(at)
        })
    }

    fn is_free(&self, tag: &TagPlace, most: usize, lines: &Lines, placed: &[TagPlace]) -> bool {
        let radius = self.radius();
        let leader = [tag.from, tag.at];
        lines.are_clear_of(tag.at, radius)
            && placed.iter().all(|other| {
                distance(other.at, tag.at) > 2.0 * radius + AIR
                    && segment_distance([other.from, other.at], tag.at) > radius + AIR
                    && segment_distance(leader, other.at) > radius + AIR
                    && !cross_each_other(leader, [other.from, other.at])
            })
            && lines.crossed(leader, tag.index) <= most
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
