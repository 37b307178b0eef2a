//! Water on its way: along a line, or all at one point.

use roof::PlaneId;
use roof::plan::{P2, along, between, distance, midpoint, sub};

/// Lines shorter than this are points, metres.
pub(crate) const SHORT: f64 = 1e-9;

/// Water that crosses a straight line; how much falls evenly from one end's density to the other's.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Line {
    pub(crate) ends: [P2; 2],
    /// Catchment per metre of the line in plan, at each end.
    pub(crate) per_m: [f64; 2],
}

impl Line {
    pub(crate) fn length(&self) -> f64 {
        distance(self.ends[0], self.ends[1])
    }

    /// Catchment behind the line, square metres.
    pub(crate) fn amount(&self) -> f64 {
        0.5 * (self.per_m[0] + self.per_m[1]) * self.length()
    }

    pub(crate) fn middle(&self) -> P2 {
        midpoint(self.ends[0], self.ends[1])
    }

    /// The part between two parts of the way from its start, 0 to 1.
    pub(crate) fn part(&self, from: f64, to: f64) -> Self {
        let per_m = |t: f64| self.per_m[0] + (self.per_m[1] - self.per_m[0]) * t;
        Self {
            ends: [from, to].map(|t| between(self.ends[0], self.ends[1], t)),
            per_m: [per_m(from), per_m(to)],
        }
    }

    /// The same water crossing another line, its ends coming to these points.
    pub(crate) fn carried_to(&self, ends: [P2; 2]) -> Self {
        let stretched = distance(ends[0], ends[1]);
        let k = if stretched > SHORT { self.length() / stretched } else { 0.0 };
        Self { ends, per_m: self.per_m.map(|d| d * k) }
    }

    pub(crate) fn moved(&self, by: P2) -> Self {
        Self { ends: self.ends.map(|p| along(p, by, 1.0)), ..*self }
    }

    /// How far along the line a point lies, as a part of it.
    pub(crate) fn part_at(&self, p: P2) -> f64 {
        let run = sub(self.ends[1], self.ends[0]);
        roof::plan::dot(sub(p, self.ends[0]), run) / roof::plan::dot(run, run)
    }
}

/// Water all at one point.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stream {
    pub(crate) at: P2,
    /// Catchment, square metres.
    pub(crate) amount: f64,
}

/// Water on its way.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Flow {
    Line(Line),
    Stream(Stream),
}

impl Flow {
    /// A line, or a stream in its middle where it is too short to be one.
    pub(crate) fn along(line: Line, amount: f64) -> Self {
        if line.length() > SHORT {
            Self::Line(line)
        } else {
            Self::Stream(Stream { at: line.middle(), amount })
        }
    }

    pub(crate) fn amount(&self) -> f64 {
        match self {
            Self::Line(line) => line.amount(),
            Self::Stream(stream) => stream.amount,
        }
    }
}

/// Water somewhere on the roof, with the plane it fell on.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Packet {
    pub(crate) flow: Flow,
    pub(crate) source: PlaneId,
}
