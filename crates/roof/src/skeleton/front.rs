//! The wavefront: the ring (or rings) of moving lines at a height, and the arcs its corners have traced so far.
//!
//! A front corner lies between two lines and moves straight with height; its position is always taken from the two
//! lines, never from its last position, so errors do not add up. Segments are not stored: the segment of a line runs
//! from a corner to the next one, and each line lists the corners its segments start at (several after it has been
//! split).

use super::double::{Double, Vector};
use super::line::{Lines, Relation};

/// Distances and heights within which things count as together.
#[derive(Clone, Copy, Debug)]
pub(super) struct Slack {
    pub(super) distance: f64,
    pub(super) height: f64,
}

/// Rounding of the arithmetic only: far above 1e-31, far below any real edge.
pub(super) const EXACT: Slack =
    Slack { distance: 1.0 / (1_u128 << 84) as f64, height: 1.0 / (1_u128 << 100) as f64 };

/// Rounding of the input: what meets but for the way the outline lies, meets.
pub(super) const HAIR: Slack = Slack { distance: 1e-10, height: 1e-12 };

/// Corners faster than this cover more than a hair in the height of a hair; only exact coincidences count for them.
const FAST: f64 = 16.0;

/// Slack that rounding adds where two lines cross at a sharp angle, for each unit of 1/sine.
const CROSSING_SLACK: f64 = 1.0 / (1_u128 << 98) as f64;

/// Shape of the inside at a front corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Bend {
    /// Less than half a turn.
    Convex,
    /// Half a turn: two sides in one plane, divided square to their line.
    Straight,
    /// More than half a turn.
    Reflex,
}

/// Corner of the wavefront between line `before` and line `after`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Corner {
    pub(super) before: usize,
    pub(super) after: usize,
    pub(super) bend: Bend,
    /// Node at which the corner was born.
    pub(super) birth: usize,
    /// Position is `start + pace · height`.
    start: Vector,
    pace: Vector,
    sine: f64,
    pub(super) previous: usize,
    pub(super) next: usize,
    pub(super) alive: bool,
}

impl Corner {
    pub(super) fn at(&self, height: Double) -> Vector {
        self.start + self.pace.times(height)
    }

    /// Position in plain `f64`, good to about [`Corner::rough_error`].
    pub(super) fn rough(&self, height: f64) -> [f64; 2] {
        let (start, pace) = (self.start.to_f64(), self.pace.to_f64());
        [start[0] + pace[0] * height, start[1] + pace[1] * height]
    }

    pub(super) fn rough_error(&self, height: f64) -> f64 {
        1e-9 * self.reach(height)
    }

    /// Position at height zero.
    pub(super) fn start(&self) -> Vector {
        self.start
    }

    /// Movement for each unit of height.
    pub(super) fn pace(&self) -> Vector {
        self.pace
    }

    /// Distance within which a point counts as being at this corner.
    fn slack(&self, height: f64, slack: Slack) -> f64 {
        let exact = CROSSING_SLACK * (1.0 + height) / self.sine + EXACT.height * self.pace.length();
        exact + if self.pace.length() < FAST { slack.distance } else { EXACT.distance }
    }

    fn reach(&self, height: f64) -> f64 {
        1.0 + self.start.length() + self.pace.length() * height
    }
}

/// Point of the finished skeleton.
#[derive(Clone, Copy, Debug)]
pub(super) struct Node {
    pub(super) at: Vector,
    pub(super) height: Double,
}

/// Edge of the finished skeleton, between the faces of two lines.
#[derive(Clone, Copy, Debug)]
pub(super) struct Arc {
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) left: usize,
    pub(super) right: usize,
}

/// Wavefront and traces.
#[derive(Clone, Debug)]
pub(super) struct Front<'a> {
    pub(super) lines: &'a Lines,
    pub(super) corners: Vec<Corner>,
    /// For each line, the corners at which its segments start.
    pub(super) starts: Vec<Vec<usize>>,
    pub(super) nodes: Vec<Node>,
    pub(super) arcs: Vec<Arc>,
    pub(super) slack: Slack,
}

impl<'a> Front<'a> {
    /// The wavefront at the outline itself; node `k` is the start of side `k`. `next` gives the side after each side.
    /// None if two neighbours are parallel but not in one plane.
    pub(super) fn new(lines: &'a Lines, next: &[usize], slack: Slack) -> Option<Self> {
        let count = next.len();
        let mut front = Self {
            lines,
            corners: Vec::with_capacity(4 * count),
            starts: (0..count).map(|side| vec![side]).collect(),
            nodes: lines.corners.iter().map(|&at| Node { at, height: Double::ZERO }).collect(),
            arcs: Vec::with_capacity(4 * count),
            slack,
        };
        let mut before = vec![0; count];
        for (side, &after) in next.iter().enumerate() {
            before[after] = side;
        }
        for (side, &before) in before.iter().enumerate() {
            front.add_corner(before, side, side)?;
        }
        for (side, &after) in next.iter().enumerate() {
            front.corners[side].next = after;
            front.corners[after].previous = side;
        }
        Some(front)
    }

    /// Adds a corner at a node, not linked yet. None if the lines are parallel but not one plane.
    pub(super) fn add_corner(&mut self, before: usize, after: usize, birth: usize) -> Option<usize> {
        let node = self.nodes[birth];
        let (a, b) = (&self.lines[before], &self.lines[after]);
        let sine = a.dir.cross(b.dir).to_f64();
        let (bend, start, pace, sine) = match a.relation(b) {
            Relation::Crossing => {
                let bend = if sine > 0.0 { Bend::Convex } else { Bend::Reflex };
                let start = self.lines.crossing(before, after, Double::ZERO);
                (bend, start, self.lines.pace(before, after), sine.abs())
            }
            Relation::Along if a.plane == b.plane => {
                let start = a.dir.times(a.dir.dot(node.at)) + a.normal().times(a.offset);
                (Bend::Straight, start, a.normal().times(a.speed), 1.0)
            }
            _ => return None,
        };
        let id = self.corners.len();
        self.corners.push(Corner {
            before,
            after,
            bend,
            birth,
            start,
            pace,
            sine,
            previous: id,
            next: id,
            alive: true,
        });
        Some(id)
    }

    /// Distance within which a point counts as being at a corner.
    pub(super) fn slack_of(&self, corner: usize, height: Double) -> f64 {
        self.corners[corner].slack(height.to_f64(), self.slack)
    }

    /// Makes the line's segment run from one corner to another.
    pub(super) fn link(&mut self, from: usize, to: usize, line: usize) {
        self.corners[from].next = to;
        self.corners[to].previous = from;
        self.starts[line].push(from);
    }

    /// Takes the segment that starts at a corner out of the front.
    pub(super) fn unlink(&mut self, from: usize) {
        let line = self.corners[from].after;
        self.starts[line].retain(|start| *start != from);
    }

    /// Ends a corner's life at a node.
    pub(super) fn close_corner(&mut self, corner: usize, node: usize) {
        let Corner { birth, before, after, .. } = self.corners[corner];
        self.corners[corner].alive = false;
        self.arcs.push(Arc { from: birth, to: node, left: before, right: after });
    }

    /// All segments as (line, start corner, end corner).
    pub(super) fn segments<'s>(&'s self) -> impl Iterator<Item = (usize, usize, usize)> + use<'s, 'a> {
        let of_line = move |(line, starts): (usize, &'s Vec<usize>)| {
            starts.iter().map(move |&start| (line, start, self.corners[start].next))
        };
        self.starts.iter().enumerate().flat_map(of_line)
    }
}
