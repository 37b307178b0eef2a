//! One meeting carried out: arcs closed, the front joined anew, the new corners' events queued.

use super::double::Vector;
use super::event::Queue;
use super::front::{Arc, Front, Node};
use super::in_line::{Taken, settle_runs};
use super::joint::{Joints, Unsettled, join};
use super::meeting::{Cutting, End, Meeting};

/// A meeting that could not be carried out, and where.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stuck(pub(super) Vector);

/// A meeting with everything decided.
struct Plan {
    cutting: Cutting,
    joints: Joints,
    taken: Vec<Taken>,
}

/// Carries out all contacts of one height.
pub(super) fn rebuild(front: &mut Front<'_>, queue: &mut Queue, mut meeting: Meeting) -> Result<(), Stuck> {
    let plan = decide(front, &mut meeting)?;
    let first_node = front.nodes.len();
    front.nodes.extend(meeting.points.iter().map(|&at| Node { at, height: meeting.height }));
    for &start in &plan.cutting.replaced {
        front.unlink(start);
    }
    for (&corner, &point) in &meeting.members {
        front.close_corner(corner, first_node + point);
    }
    add_level_arcs(front, &plan, first_node);
    relink(front, queue, &meeting, &plan, first_node)
}

/// Adds cuts until the meeting can be carried out. Each one ends a corner or halves a front, so there are few.
fn decide(front: &Front<'_>, meeting: &mut Meeting) -> Result<Plan, Stuck> {
    let limit = 4 * front.corners.len() + 16;
    meeting.gather(front);
    for _ in 0..limit {
        match attempt(front, meeting) {
            Ok(plan) => return Ok(plan),
            Err(Unsettled::Stuck(at)) => return Err(Stuck(at)),
            Err(Unsettled::CutAt(at)) => {
                meeting.add_point(at);
                meeting.gather(front);
            }
        }
    }
    Err(Stuck(meeting.points[0]))
}

fn attempt(front: &Front<'_>, meeting: &Meeting) -> Result<Plan, Unsettled> {
    let mut cutting = meeting.cut(front);
    let joints = join(front, meeting, &cutting)?;
    let taken = settle_runs(front, meeting, &mut cutting, &joints)?;
    Ok(Plan { cutting, joints, taken })
}

/// Ridges of closed strips, and the lines where one plane takes over from another. What a front has swept lies on its
/// right.
fn add_level_arcs(front: &mut Front<'_>, plan: &Plan, first_node: usize) {
    let pieces = &plan.cutting.pieces;
    let ends = |piece: usize| match (pieces[piece].from, pieces[piece].to) {
        (End::Point(from), End::Point(to)) => Some((first_node + from, first_node + to)),
        _ => None,
    };
    let closed = plan.joints.closed.iter().map(|&(a, b)| (a, pieces[b].line, pieces[a].line));
    let taken = plan.taken.iter().map(|t| (t.piece, pieces[t.piece].line, t.loser));
    for (piece, left, right) in closed.chain(taken) {
        if let Some((from, to)) = ends(piece) {
            front.arcs.push(Arc { from, to, left, right });
        }
    }
}

/// New corners between pieces of different lines, then new segments between corners.
fn relink(
    front: &mut Front<'_>,
    queue: &mut Queue,
    meeting: &Meeting,
    plan: &Plan,
    first_node: usize,
) -> Result<(), Stuck> {
    let pieces = &plan.cutting.pieces;
    let mut born = vec![None; pieces.len()];
    for (before, piece) in pieces.iter().enumerate() {
        let (End::Point(point), Some(after)) = (piece.to, plan.joints.next[before]) else { continue };
        if piece.line != pieces[after].line {
            let corner = front.add_corner(piece.line, pieces[after].line, first_node + point);
            born[before] = Some(corner.ok_or(Stuck(meeting.points[point]))?);
        }
    }
    let mut starts = Vec::new();
    for (first, piece) in pieces.iter().enumerate() {
        let from = match (piece.from, plan.joints.previous[first]) {
            (End::Corner(corner), _) => Some(corner),
            (End::Point(_), Some(previous)) => born[previous],
            (End::Point(_), None) => None,
        };
        if let Some(from) = from {
            let to = segment_end(meeting, plan, &born, first)?;
            front.link(from, to, piece.line);
            starts.push(from);
        }
    }
    queue_events(front, queue, meeting, &starts, &born);
    Ok(())
}

/// The corner at which the segment that begins with a piece ends, past joints of the same line.
fn segment_end(meeting: &Meeting, plan: &Plan, born: &[Option<usize>], first: usize) -> Result<usize, Stuck> {
    let mut last = first;
    for _ in 0..born.len() {
        match (plan.cutting.pieces[last].to, born[last], plan.joints.next[last]) {
            (End::Corner(corner), _, _) | (_, Some(corner), _) => return Ok(corner),
            (_, None, Some(next)) => last = next,
            (_, None, None) => break,
        }
    }
    Err(Stuck(meeting.points[0]))
}

fn queue_events(
    front: &Front<'_>,
    queue: &mut Queue,
    meeting: &Meeting,
    starts: &[usize],
    born: &[Option<usize>],
) {
    for &start in starts {
        queue.push_shrink(front, start, meeting.height);
    }
    for &corner in born.iter().flatten() {
        queue.push_touches(front, corner, meeting.height);
    }
}
