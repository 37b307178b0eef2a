//! The sweep: the wavefront moved from the outline to the last ridge, meeting by meeting.

use super::double::{Double, Vector};
use super::error::{ContourEdge, SkeletonError};
use super::event::{Queue, contact};
use super::front::{Front, Slack};
use super::line::Lines;
use super::meeting::Meeting;
use super::rebuild::{Stuck, rebuild};

/// Moves the front until nothing of it is left and returns it with all its nodes and arcs.
pub(super) fn sweep<'a>(lines: &'a Lines, next: &[usize], slack: Slack) -> Result<Front<'a>, SkeletonError> {
    let start = lines.corners[0];
    let mut front = Front::new(lines, next, slack).ok_or_else(|| unresolved(lines, start, Double::ZERO))?;
    let mut queue = Queue::default();
    for corner in 0..next.len() {
        queue.push_shrink(&front, corner, Double::ZERO);
        queue.push_touches(&front, corner, Double::ZERO);
    }
    // Every meeting ends a corner or splits a segment; a plain outline has fewer than two per side.
    let limit = 50 * next.len() + 100;
    let mut now = Double::ZERO;
    for _ in 0..limit {
        let Some(meeting) = next_meeting(&front, &mut queue, now) else {
            return finished(front);
        };
        now = meeting.height;
        rebuild(&mut front, &mut queue, meeting).map_err(|Stuck(at)| unresolved(lines, at, now))?;
    }
    Err(unresolved(lines, start, now))
}

/// The lowest contacts, all those of (nearly) one height together.
fn next_meeting(front: &Front<'_>, queue: &mut Queue, now: Double) -> Option<Meeting> {
    let (height, first) = loop {
        let event = queue.pop_below(front, None)?;
        if let Some(contact) = contact(front, event) {
            break (event.height.max(now), contact);
        }
    };
    let mut meeting = Meeting::new(height);
    meeting.add(front, first);
    let limit = height + Double::from(front.slack.height);
    while let Some(event) = queue.pop_below(front, Some(limit)) {
        if let Some(contact) = contact(front, event) {
            meeting.add(front, contact);
        }
    }
    Some(meeting)
}

/// A front that is left over when nothing can meet any more stands still: gables only.
fn finished(front: Front<'_>) -> Result<Front<'_>, SkeletonError> {
    let mut left: Vec<usize> = front.segments().map(|(line, _, _)| line).collect();
    left.dedup();
    let Some(&first) = left.first() else { return Ok(front) };
    let lines = front.lines;
    if left.iter().all(|&line| lines[line].speed.is_zero()) {
        return Err(SkeletonError::Unroofed { edges: ids(lines, left) });
    }
    let at = lines.corners[first];
    Err(unresolved(lines, at, Double::ZERO))
}

fn ids(lines: &Lines, numbers: impl IntoIterator<Item = usize>) -> Vec<ContourEdge> {
    let mut ids: Vec<ContourEdge> = numbers.into_iter().map(|line| lines[line].id).collect();
    ids.sort_unstable();
    ids
}

/// Names a place and the sides whose lines pass it at a height.
fn unresolved(lines: &Lines, at: Vector, height: Double) -> SkeletonError {
    const NEAR: f64 = 1e-6;
    let passes = |line: &usize| lines[*line].depth(at, height).to_f64().abs() < NEAR;
    let edges = ids(lines, (0..lines.count()).filter(passes));
    let [x, y] = lines.frame.outward(at);
    SkeletonError::Unresolved { x, y, height: lines.frame.height(height), edges }
}
