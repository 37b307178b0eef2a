//! What comes together at one height: the points, the corners at each, and the front cut into pieces there.
//!
//! All contacts of one height are treated at once, whatever their number: four lines through a point, a whole ridge
//! closing, a star collapsing into its middle are then ordinary. Corners are gathered by position (within their
//! slack), not by the event that announced them, so a coincidence counts even where rounding put its events a hair
//! apart.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

use super::double::{Double, Vector};
use super::event::Contact;
use super::front::Front;

/// End of a piece of the front.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum End {
    /// One of the meeting's points.
    Point(usize),
    /// A front corner that takes no part.
    Corner(usize),
}

/// Part of a front segment between meeting points or up to an uninvolved corner.
#[derive(Clone, Copy, Debug)]
pub(super) struct Piece {
    pub(super) line: usize,
    pub(super) from: End,
    pub(super) to: End,
}

/// Meeting points at one height and who is there.
#[derive(Clone, Debug)]
pub(super) struct Meeting {
    pub(super) height: Double,
    pub(super) points: Vec<Vector>,
    /// Point of each corner that takes part.
    pub(super) members: BTreeMap<usize, usize>,
    /// Segments, by start corner, cut at a point.
    cuts: BTreeSet<(usize, usize)>,
    /// Points found to be the same as another.
    merged: BTreeSet<usize>,
}

/// The part of the front that the meeting changes.
#[derive(Clone, Debug, Default)]
pub(super) struct Cutting {
    pub(super) pieces: Vec<Piece>,
    /// Start corners of the segments that the pieces replace.
    pub(super) replaced: Vec<usize>,
}

impl Meeting {
    pub(super) fn new(height: Double) -> Self {
        Self {
            height,
            points: Vec::new(),
            members: BTreeMap::new(),
            cuts: BTreeSet::new(),
            merged: BTreeSet::new(),
        }
    }

    /// Takes in a contact found at (nearly) this height. One that places a corner elsewhere than an earlier contact
    /// did is left out: it lies a rounding higher, and the new corners' events will bring it back if it holds.
    pub(super) fn add(&mut self, front: &Front<'_>, contact: Contact) {
        let slack = contact.corners.map(|c| front.slack_of(c, self.height));
        let near = |at: Vector| (at - contact.at).length() <= slack[0].max(slack[1]);
        let known: Vec<usize> = contact.corners.iter().filter_map(|c| self.members.get(c).copied()).collect();
        if !known.iter().all(|&point| near(self.points[point])) {
            return;
        }
        let current = |k: &usize| self.is_current(*k) && near(self.points[*k]);
        let point = known.first().copied().or_else(|| (0..self.points.len()).find(current));
        let point = point.unwrap_or(self.points.len());
        if point == self.points.len() {
            self.points.push(contact.at);
        }
        for other in known.into_iter().filter(|other| *other != point) {
            self.merge(other, point);
        }
        self.members.extend(contact.corners.map(|corner| (corner, point)));
        self.cuts.extend(contact.cut.map(|start| (start, point)));
    }

    /// Adds a point where the front must be cut although nothing meets there.
    pub(super) fn add_point(&mut self, at: Vector) {
        self.points.push(at);
    }

    /// Makes two points one.
    fn merge(&mut self, from: usize, into: usize) {
        for point in self.members.values_mut().filter(|point| **point == from) {
            *point = into;
        }
        self.merged.insert(from);
        self.cuts = self.cuts.iter().map(|&(s, p)| (s, if p == from { into } else { p })).collect();
    }

    /// Counts every corner within its slack of a point as taking part.
    pub(super) fn gather(&mut self, front: &Front<'_>) {
        let rough_height = self.height.to_f64();
        let rough_points: Vec<[f64; 2]> = self.points.iter().map(|p| p.to_f64()).collect();
        for (_, id, _) in front.segments() {
            if self.members.contains_key(&id) {
                continue;
            }
            let corner = &front.corners[id];
            let (rough, error) = (corner.rough(rough_height), corner.rough_error(rough_height));
            let near = |p: &[f64; 2]| (p[0] - rough[0]).abs() <= error && (p[1] - rough[1]).abs() <= error;
            let is_at = |k: usize| {
                self.is_current(k)
                    && (self.points[k] - corner.at(self.height)).length() <= front.slack_of(id, self.height)
            };
            if let Some(point) = (0..rough_points.len()).find(|&k| near(&rough_points[k]) && is_at(k)) {
                self.members.insert(id, point);
            }
        }
    }

    /// Cuts the segments that have an end or an inner point in the meeting.
    pub(super) fn cut(&self, front: &Front<'_>) -> Cutting {
        let mut cutting = Cutting::default();
        for (line, from, to) in front.segments() {
            let ends = [self.end(from), self.end(to)];
            let inner = self.inner_points(front, line, (from, to));
            if inner.is_empty() && ends.iter().all(|end| matches!(end, End::Corner(_))) {
                continue;
            }
            cutting.replaced.push(from);
            let stops: Vec<End> =
                std::iter::once(ends[0]).chain(inner.into_iter().map(End::Point)).chain([ends[1]]).collect();
            let pieces = stops.windows(2).map(|pair| Piece { line, from: pair[0], to: pair[1] });
            cutting.pieces.extend(pieces.filter(|piece| piece.from != piece.to));
        }
        cutting
    }

    fn end(&self, corner: usize) -> End {
        self.members.get(&corner).map_or(End::Corner(corner), |point| End::Point(*point))
    }

    /// Points strictly inside a segment, in its direction.
    fn inner_points(&self, front: &Front<'_>, line: usize, (from, to): (usize, usize)) -> Vec<usize> {
        let ends = [self.end(from), self.end(to)];
        let forced = |k: &usize| self.cuts.contains(&(from, *k));
        let mut inner: Vec<usize> = (0..self.points.len())
            .filter(|k| (self.on_line(front, line, *k) || forced(k)) && !ends.contains(&End::Point(*k)))
            .filter(|k| self.is_current(*k))
            .collect();
        if !inner.is_empty() {
            let dir = front.lines[line].dir;
            let along = |k: &usize| dir.dot(self.points[*k]);
            let [start, end] = ends.map(|end| dir.dot(self.position(front, end)));
            inner.retain(|k| forced(k) || (start < along(k) && along(k) < end));
            inner.sort_by(|a, b| along(a).partial_cmp(&along(b)).unwrap_or(Ordering::Equal).then(a.cmp(b)));
        }
        inner
    }

    fn on_line(&self, front: &Front<'_>, line: usize, point: usize) -> bool {
        const ROUGHLY: f64 = 1e-9;
        let line = &front.lines[line];
        let (normal, at) = (line.normal().to_f64(), self.points[point].to_f64());
        let rough = normal[0] * at[0] + normal[1] * at[1]
            - line.offset.to_f64()
            - line.speed.to_f64() * self.height.to_f64();
        rough.abs() < ROUGHLY
            && line.depth(self.points[point], self.height).to_f64().abs() <= front.slack.distance
    }

    /// Whether a point was not merged into another.
    fn is_current(&self, point: usize) -> bool {
        !self.merged.contains(&point)
    }

    pub(super) fn position(&self, front: &Front<'_>, end: End) -> Vector {
        match end {
            End::Point(point) => self.points[point],
            End::Corner(corner) => front.corners[corner].at(self.height),
        }
    }

    /// Length of a piece, for choices that need no more than an `f64`.
    pub(super) fn length(&self, front: &Front<'_>, piece: &Piece) -> f64 {
        (self.position(front, piece.to) - self.position(front, piece.from)).length()
    }
}
