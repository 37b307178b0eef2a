//! How the pieces of the front are joined again where they meet.
//!
//! Two pieces between the same two points with opposite directions have closed the strip between them: both end, in a
//! ridge. At each point the rest is joined wedge by wedge: from an outgoing piece turn left to the next incoming one;
//! between the two lies inside. Lines only move inwards, so every wedge shrinks within itself and this is the only
//! joining under which the inside never grows; it holds for weighted fronts as well.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use super::double::{Double, Vector};
use super::front::Front;
use super::line::Relation;
use super::meeting::{Cutting, End, Meeting, Piece};

/// Why a meeting cannot be applied as it stands.
#[derive(Clone, Copy, Debug)]
pub(super) enum Unsettled {
    /// The front must be cut at one more point.
    CutAt(Vector),
    /// The pieces at this point do not fit together.
    Stuck(Vector),
}

/// Pieces joined: `next` and `previous` piece at a shared point.
#[derive(Clone, Debug)]
pub(super) struct Joints {
    pub(super) next: Vec<Option<usize>>,
    pub(super) previous: Vec<Option<usize>>,
    /// Pairs of pieces that closed a strip between them.
    pub(super) closed: Vec<(usize, usize)>,
}

/// Closes strips and joins the rest.
pub(super) fn join(front: &Front<'_>, meeting: &Meeting, cutting: &Cutting) -> Result<Joints, Unsettled> {
    if let Some(piece) = cutting.pieces.iter().find(|piece| runs_backwards(front, meeting, piece)) {
        return Err(Unsettled::Stuck(meeting.position(front, piece.to)));
    }
    let count = cutting.pieces.len();
    let mut joints = Joints { next: vec![None; count], previous: vec![None; count], closed: Vec::new() };
    let mut open = vec![true; count];
    close_strips(front, cutting, &mut open, &mut joints.closed);
    for (point, (incoming, outgoing)) in pieces_by_point(cutting, &open) {
        let count = outgoing.len();
        let wedges = wedges(front, cutting, incoming, outgoing);
        if wedges.len() != count {
            return Err(Unsettled::Stuck(meeting.points[point]));
        }
        for (before, after) in wedges {
            check_wedge(front, meeting, cutting, before, after)?;
            joints.next[before] = Some(after);
            joints.previous[after] = Some(before);
        }
    }
    Ok(joints)
}

/// Whether a piece has been turned round: a meeting before this one went wrong.
fn runs_backwards(front: &Front<'_>, meeting: &Meeting, piece: &Piece) -> bool {
    const CLEARLY: f64 = -1e-9;
    let [from, to] = [piece.from, piece.to].map(|end| meeting.position(front, end));
    front.lines[piece.line].dir.dot(to - from).to_f64() < CLEARLY
}

fn close_strips(front: &Front<'_>, cutting: &Cutting, open: &mut [bool], closed: &mut Vec<(usize, usize)>) {
    let mut waiting: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
    for (index, piece) in cutting.pieces.iter().enumerate() {
        let (End::Point(from), End::Point(to)) = (piece.from, piece.to) else { continue };
        let line = &front.lines[piece.line];
        let facing =
            |other: &usize| line.relation(&front.lines[cutting.pieces[*other].line]) == Relation::Against;
        let others = waiting.entry((to, from)).or_default();
        if let Some(position) = others.iter().position(facing) {
            let other = others.swap_remove(position);
            closed.push((other, index));
            open[other] = false;
            open[index] = false;
        } else {
            waiting.entry((from, to)).or_default().push(index);
        }
    }
}

type InAndOut = (Vec<usize>, Vec<usize>);

fn pieces_by_point(cutting: &Cutting, open: &[bool]) -> BTreeMap<usize, InAndOut> {
    let mut points: BTreeMap<usize, InAndOut> = BTreeMap::new();
    for (index, piece) in cutting.pieces.iter().enumerate().filter(|(index, _)| open[*index]) {
        if let End::Point(point) = piece.to {
            points.entry(point).or_default().0.push(index);
        }
        if let End::Point(point) = piece.from {
            points.entry(point).or_default().1.push(index);
        }
    }
    points
}

/// Pairs (incoming, outgoing) that bound a wedge of inside.
fn wedges(
    front: &Front<'_>,
    cutting: &Cutting,
    incoming: Vec<usize>,
    outgoing: Vec<usize>,
) -> Vec<(usize, usize)> {
    if let ([before], [after]) = (&incoming[..], &outgoing[..]) {
        return vec![(*before, *after)];
    }
    let dir = |piece: usize| front.lines[cutting.pieces[piece].line].dir;
    let mut rays: Vec<(Vector, bool, usize)> = outgoing.into_iter().map(|k| (dir(k), false, k)).collect();
    rays.extend(incoming.into_iter().map(|k| (-dir(k), true, k)));
    rays.sort_by(|a, b| by_angle(a.0, b.0).then((a.1, a.2).cmp(&(b.1, b.2))));
    let next = rays.iter().cycle().skip(1);
    rays.iter().zip(next).filter(|(ray, next)| !ray.1 && next.1).map(|(ray, next)| (next.2, ray.2)).collect()
}

/// Order of directions, counter-clockwise from east.
pub(super) fn by_angle(a: Vector, b: Vector) -> Ordering {
    let lower = |v: Vector| v.y < Double::ZERO || (v.y.is_zero() && v.x < Double::ZERO);
    let turned = Double::ZERO.partial_cmp(&a.cross(b)).unwrap_or(Ordering::Equal);
    lower(a).cmp(&lower(b)).then(turned)
}

/// A wedge without width means that a strip has closed further along: cut it at its nearer end.
fn check_wedge(
    front: &Front<'_>,
    meeting: &Meeting,
    cutting: &Cutting,
    before: usize,
    after: usize,
) -> Result<(), Unsettled> {
    let (before, after) = (&cutting.pieces[before], &cutting.pieces[after]);
    let relation = front.lines[before.line].relation(&front.lines[after.line]);
    if relation != Relation::Against {
        return Ok(());
    }
    let far =
        if meeting.length(front, before) < meeting.length(front, after) { before.from } else { after.to };
    let at = meeting.position(front, far);
    Err(match far {
        End::Corner(_) => Unsettled::CutAt(at),
        End::Point(_) => Unsettled::Stuck(at),
    })
}
