//! Which corners and segments of the wavefront may meet, in order of height.
//!
//! Two kinds: a segment shrinks to a point, or a reflex (or straight) corner runs into the segment of another line. A
//! corner crosses a given line at most once, so each pair is queued once, when the corner is born; whether the line
//! has a segment there is looked up when its height comes.
//!
//! # Complexity
//! Each reflex corner is tried against every line: r·n cheap `f64` trials, of which those that leave the outline
//! before they arrive are dropped, and a heap of the rest.

use std::cmp::{Ordering, Reverse};
use std::collections::BinaryHeap;

use super::double::{Double, Vector};
use super::front::{Bend, Front};
use super::line::Relation;

/// A possible meeting.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Kind {
    /// The segment between two corners shrinks to a point.
    Shrink { from: usize, to: usize },
    /// A corner reaches a line.
    Touch { corner: usize, line: usize },
}

/// A possible meeting and its height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Event {
    pub(super) height: Double,
    pub(super) kind: Kind,
}

impl Eq for Event {}

impl PartialOrd for Event {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Event {
    fn cmp(&self, other: &Self) -> Ordering {
        let by_height = self.height.partial_cmp(&other.height).unwrap_or(Ordering::Equal);
        by_height.then_with(|| self.kind.cmp(&other.kind))
    }
}

/// A meeting that does happen: where, and which corners and segment (by its start corner) take part.
#[derive(Clone, Copy, Debug)]
pub(super) struct Contact {
    pub(super) at: Vector,
    pub(super) corners: [usize; 2],
    pub(super) cut: Option<usize>,
}

/// Possible meetings, lowest first.
#[derive(Clone, Debug, Default)]
pub(super) struct Queue {
    heap: BinaryHeap<Reverse<Event>>,
    /// For each corner, the lines it may still touch with their rough heights, lowest last (those in doubt first of
    /// all). Most corners end before they reach more than a few.
    waiting: Vec<Vec<(f64, usize)>>,
}

impl Queue {
    /// Next possible meeting, if it is not above `limit`.
    pub(super) fn pop_below(&mut self, front: &Front<'_>, limit: Option<Double>) -> Option<Event> {
        let next = self.heap.peek()?;
        if limit.is_some_and(|limit| next.0.height > limit) {
            return None;
        }
        let Reverse(event) = self.heap.pop()?;
        if let Kind::Touch { corner, .. } = event.kind
            && front.corners[corner].alive
        {
            self.push_next_touches(front, corner, event.height);
        }
        Some(event)
    }

    /// Queues the height at which the segment from a corner to the next one shrinks to a point.
    pub(super) fn push_shrink(&mut self, front: &Front<'_>, from: usize, now: Double) {
        let to = front.corners[from].next;
        if let Some(height) = shrink_height(front, from, to)
            && (height >= now || shrinking_away(front, from, now, height))
        {
            self.push(height.max(now), Kind::Shrink { from, to });
        }
    }

    /// Queues the heights at which a new corner reaches other lines.
    pub(super) fn push_touches(&mut self, front: &Front<'_>, corner: usize, now: Double) {
        if front.corners[corner].bend == Bend::Convex {
            return;
        }
        let lines = (0..front.starts.len()).filter(|line| !front.starts[*line].is_empty());
        let reach = |line| Some((rough_touch(front, corner, line, now.to_f64())?, line));
        let mut reached: Vec<(f64, usize)> = lines.filter_map(reach).collect();
        reached.sort_by(|a, b| b.partial_cmp(a).unwrap_or(Ordering::Equal));
        self.waiting.resize(front.corners.len(), Vec::new());
        self.waiting[corner] = reached;
        self.push_next_touches(front, corner, now);
    }

    /// Queues the lowest waiting touch of a corner, with those too close to it to tell which is lower and those in
    /// doubt.
    fn push_next_touches(&mut self, front: &Front<'_>, corner: usize, now: Double) {
        let mut limit = f64::INFINITY;
        while let Some((rough, line)) = self.waiting[corner].pop_if(|(rough, _)| *rough <= limit) {
            if self.push_touch(front, corner, line, now) && rough > IN_DOUBT {
                limit = limit.min(rough + margin(rough));
            }
        }
    }

    /// Queues a touch unless it lies below `now`.
    fn push_touch(&mut self, front: &Front<'_>, corner: usize, line: usize, now: Double) -> bool {
        let (before, after) = (front.corners[corner].before, front.corners[corner].after);
        let height = front.lines.meeting_height(before, after, line);
        let height = height.filter(|height| *height > now + Double::from(front.slack.height));
        if let Some(height) = height {
            self.push(height, Kind::Touch { corner, line });
        }
        height.is_some()
    }

    fn push(&mut self, height: Double, kind: Kind) {
        self.heap.push(Reverse(Event { height, kind }));
    }
}

/// Height at which the segment between two corners has no length. Beside a straight corner two of the three lines are
/// one, so the corners' own paths decide.
fn shrink_height(front: &Front<'_>, from: usize, to: usize) -> Option<Double> {
    let (start, end) = (&front.corners[from], &front.corners[to]);
    match (start.bend, end.bend) {
        (Bend::Straight, Bend::Straight) => None,
        (Bend::Straight, _) | (_, Bend::Straight) => {
            let dir = front.lines[start.after].dir;
            let length = dir.dot(end.start() - start.start());
            let closing = dir.dot(start.pace() - end.pace());
            (!closing.is_zero()).then(|| length / closing)
        }
        _ => front.lines.meeting_height(start.before, start.after, end.after),
    }
}

/// Whether a segment whose height came out below `now` is really about to vanish: by rounding, or because its ends were
/// drawn past each other.
fn shrinking_away(front: &Front<'_>, from: usize, now: Double, height: Double) -> bool {
    const LATE: f64 = 1e-18;
    let (start, end) = (&front.corners[from], &front.corners[front.corners[from].next]);
    let dir = front.lines[start.after].dir;
    let length = |h: Double| dir.dot(end.at(h) - start.at(h));
    let shrinks = length(now + Double::from(LATE)) < length(now);
    shrinks && ((now - height).to_f64() < LATE || length(now) < Double::ZERO)
}

/// Rough height, below all others, of a touch whose height is not known even roughly.
const IN_DOUBT: f64 = f64::MIN;

/// Bound on the error of a rough height.
fn margin(height: f64) -> f64 {
    1e-6 * (1.0 + height.abs())
}

/// Roughly the height at which a corner reaches a line; none if that is below `now` or outside the outline,
/// [`IN_DOUBT`] if rounding does not let it tell.
fn rough_touch(front: &Front<'_>, corner: usize, line: usize, now: f64) -> Option<f64> {
    const DOUBTFUL: f64 = 1e-4;
    let (corner, own) = (&front.corners[corner], [front.corners[corner].before, front.corners[corner].after]);
    let before = &front.lines[own[0]];
    let line_id = line;
    let line = &front.lines[line];
    let straight = corner.bend == Bend::Straight;
    if own.contains(&line_id) || (straight && line.relation(before) != Relation::Against) {
        return None;
    }
    let (normal, pace, start) = (line.normal().to_f64(), corner.pace().to_f64(), corner.start().to_f64());
    let closing = line.speed.to_f64() - (normal[0] * pace[0] + normal[1] * pace[1]);
    if closing.abs() < DOUBTFUL || pace[0].hypot(pace[1]) > 1.0 / DOUBTFUL {
        return Some(IN_DOUBT);
    }
    let height = (normal[0] * start[0] + normal[1] * start[1] - line.offset.to_f64()) / closing;
    let within = |c: f64| c.abs() < 0.5 + margin(height);
    (height > now - margin(height) && corner.rough(height).into_iter().all(within)).then_some(height)
}

/// What an event amounts to at its height: nothing, if it is stale or the corner misses every segment of the line.
pub(super) fn contact(front: &Front<'_>, event: Event) -> Option<Contact> {
    match event.kind {
        Kind::Shrink { from, to } => shrink_contact(front, from, to, event.height),
        Kind::Touch { corner, line } => touch_contact(front, corner, line, event.height),
    }
}

fn shrink_contact(front: &Front<'_>, from: usize, to: usize, height: Double) -> Option<Contact> {
    let (start, end) = (&front.corners[from], &front.corners[to]);
    if !start.alive || !end.alive || start.next != to {
        return None;
    }
    let at = match (start.bend, end.bend) {
        (Bend::Straight, _) => end.at(height),
        (_, Bend::Straight) => start.at(height),
        _ => front.lines.meeting_point(start.before, start.after, end.after, height),
    };
    Some(Contact { at, corners: [from, to], cut: None })
}

fn touch_contact(front: &Front<'_>, corner: usize, line: usize, height: Double) -> Option<Contact> {
    let own = &front.corners[corner];
    if !own.alive {
        return None;
    }
    let at = match own.bend {
        Bend::Straight => own.at(height),
        _ => front.lines.meeting_point(own.before, own.after, line, height),
    };
    let start = front.starts[line].iter().find(|start| reaches(front, **start, at, height))?;
    Some(Contact { at, corners: [corner; 2], cut: Some(*start) })
}

/// Whether a point of a segment's line lies on the segment, ends included.
fn reaches(front: &Front<'_>, start: usize, at: Vector, height: Double) -> bool {
    let (from, to) = (&front.corners[start], &front.corners[front.corners[start].next]);
    let dir = front.lines[from.after].dir;
    dir.dot(at - from.at(height)).to_f64() >= -front.slack_of(start, height)
        && dir.dot(to.at(height) - at).to_f64() >= -front.slack_of(from.next, height)
}
