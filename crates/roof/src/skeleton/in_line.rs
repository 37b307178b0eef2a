//! Fronts of different slope that come to lie in one line: one of them takes over.
//!
//! A gentle plane that starts lower (a bay, a porch) moves faster in plan than a steep one behind it. When the two
//! fronts reach one line, side by side and facing the same way, there is no line further up in which they could meet,
//! and the limits of nearby outlines differ: the definition of the straight skeleton does not say how to go on.
//!
//! # Rule
//! - A plane (or gable wall) that holds both ends of the straight run goes on over all of it: a bay's roof dies into
//!   the roof or wall behind it, and a main roof runs on over a recess.
//! - Else, between gables and planes the longer kind goes on, planes when equal: a lean-to ends against the wall
//!   behind it.
//! - Else, of several planes the one with the shorter front goes on, the gentler when equal. Nothing in the geometry
//!   prefers either; this choice agrees with the reference vectors, which hold one such outline (`T2 weighted`). The
//!   library they come from goes on with the front that is next in the direction of the contour, so that it roofs the
//!   mirrored outline differently; a rule on lengths does not.
//! - A front that is just vanishing (below 1e-10 of the extent) takes nothing over.
//! - A front between two winning sides of one plane is divided in the middle.
//!
//! Lengths within 1e-9 of each other are equal. The rule looks at nothing but lengths and slopes, so turning,
//! mirroring and renumbering do not change the roof.

use super::double::{Double, Vector};
use super::front::{Bend, Front, HAIR};
use super::joint::{Joints, Unsettled};
use super::line::{Line, Relation};
use super::meeting::{Cutting, End, Meeting, Piece};

/// Lengths that agree to this count as equal.
const EQUAL_LENGTH: f64 = 1e-9;

/// A piece whose line gave way to another.
#[derive(Clone, Copy, Debug)]
pub(super) struct Taken {
    pub(super) piece: usize,
    /// The line that ends here.
    pub(super) loser: usize,
}

/// Gives each straight run of unlike planes to one of them; the pieces' lines are changed in place.
pub(super) fn settle_runs(
    front: &Front<'_>,
    meeting: &Meeting,
    cutting: &mut Cutting,
    joints: &Joints,
) -> Result<Vec<Taken>, Unsettled> {
    let mut taken = Vec::new();
    for piece in 0..cutting.pieces.len() {
        let view = View { front, meeting, pieces: &cutting.pieces };
        if joints.next[piece].is_some_and(|next| view.differ_in_line(piece, next)) {
            let run = view.straight_run(joints, piece)?;
            for (piece, line) in view.heirs(&run)? {
                taken.push(Taken { piece, loser: std::mem::replace(&mut cutting.pieces[piece].line, line) });
            }
        }
    }
    Ok(taken)
}

/// The pieces of a meeting, seen as parts of their lines.
#[derive(Clone, Copy)]
struct View<'v, 'f> {
    front: &'v Front<'f>,
    meeting: &'v Meeting,
    pieces: &'v [Piece],
}

impl View<'_, '_> {
    fn line(&self, piece: usize) -> &Line {
        &self.front.lines[self.pieces[piece].line]
    }

    fn length(&self, piece: usize) -> f64 {
        self.meeting.length(self.front, &self.pieces[piece])
    }

    fn in_line(&self, a: usize, b: usize) -> bool {
        self.line(a).relation(self.line(b)) == Relation::Along
    }

    fn differ_in_line(&self, a: usize, b: usize) -> bool {
        self.in_line(a, b) && self.line(a).plane != self.line(b).plane
    }

    /// All pieces in one straight line with the given one, in order; cuts at corners of half a turn to see beyond them.
    fn straight_run(&self, joints: &Joints, piece: usize) -> Result<Vec<usize>, Unsettled> {
        let before = |k: &usize| joints.previous[*k].filter(|p| self.in_line(*p, *k));
        let after = |k: &usize| joints.next[*k].filter(|n| self.in_line(*k, *n));
        let mut run: Vec<usize> = std::iter::successors(before(&piece), before).collect();
        run.reverse();
        run.extend(std::iter::successors(Some(piece), after));
        let ends = [self.pieces[run[0]].from, self.pieces[run[run.len() - 1]].to];
        let straight = |end: &End| match end {
            End::Corner(corner) => self.front.corners[*corner].bend == Bend::Straight,
            End::Point(_) => false,
        };
        self.cut_at(ends.into_iter().find(straight))?;
        Ok(run)
    }

    /// Each losing piece of a run with the line that takes it over.
    fn heirs(&self, run: &[usize]) -> Result<Vec<(usize, usize)>, Unsettled> {
        let winner = self.winning_plane(run);
        let wins = |piece: &usize| self.line(*piece).plane == winner;
        let mut heirs = Vec::new();
        for (at, group) in positions(run.chunk_by(|a, b| wins(a) == wins(b))) {
            if !wins(&group[0]) {
                let flank = |position: Option<usize>| Some(self.pieces[*run.get(position?)?].line);
                let flanks = [flank(at.checked_sub(1)), flank(Some(at + group.len()))];
                heirs.extend(self.divide(group, flanks)?);
            }
        }
        Ok(heirs)
    }

    fn winning_plane(&self, run: &[usize]) -> usize {
        let plane = |piece: &usize| self.line(*piece).plane;
        let ends = [plane(&run[0]), plane(&run[run.len() - 1])];
        if ends[0] == ends[1] {
            return ends[0];
        }
        let lasting = self.totals(run).into_iter().filter(|total| total.length > HAIR.distance);
        let (walls, slopes) = lasting.partition::<Vec<_>, _>(|total| total.speed == 0.0);
        let length = |totals: &[Total]| totals.iter().map(|total| total.length).sum::<f64>();
        let among = if length(&walls) > length(&slopes) * (1.0 + EQUAL_LENGTH) { walls } else { slopes };
        let shortest = among.iter().map(|total| total.length).fold(f64::INFINITY, f64::min);
        let short = among.iter().filter(|total| total.length <= shortest * (1.0 + EQUAL_LENGTH));
        short.max_by(|a, b| a.speed.total_cmp(&b.speed)).map_or(ends[0], |total| total.plane)
    }

    /// Length that each plane holds of a run.
    fn totals(&self, run: &[usize]) -> Vec<Total> {
        let mut totals: Vec<Total> = Vec::new();
        for &piece in run {
            let Line { plane, speed, .. } = *self.line(piece);
            match totals.iter_mut().find(|total| total.plane == plane) {
                Some(total) => total.length += self.length(piece),
                None => totals.push(Total { plane, speed: speed.to_f64(), length: self.length(piece) }),
            }
        }
        totals
    }

    /// Gives consecutive pieces to the flanking winner, or half each to two.
    fn divide(&self, group: &[usize], flanks: [Option<usize>; 2]) -> Result<Vec<(usize, usize)>, Unsettled> {
        for &piece in group {
            let ends = [self.pieces[piece].from, self.pieces[piece].to];
            self.cut_at(ends.into_iter().find(|end| matches!(end, End::Corner(_))))?;
        }
        match flanks {
            [Some(left), Some(right)] if left != right => self.halve(group, left, right),
            [Some(line), _] | [_, Some(line)] => Ok(group.iter().map(|piece| (*piece, line)).collect()),
            [None, None] => Err(Unsettled::Stuck(self.meeting.points[0])),
        }
    }

    fn halve(&self, group: &[usize], left: usize, right: usize) -> Result<Vec<(usize, usize)>, Unsettled> {
        let half = group.iter().map(|piece| self.length(*piece)).sum::<f64>() / 2.0;
        let slack = EQUAL_LENGTH * half;
        let mut start = 0.0;
        let mut heirs = Vec::with_capacity(group.len());
        for &piece in group {
            let length = self.length(piece);
            if start < half - slack && start + length > half + slack {
                return Err(Unsettled::CutAt(self.point_along(piece, (half - start) / length)));
            }
            heirs.push((piece, if start < half - slack { left } else { right }));
            start += length;
        }
        Ok(heirs)
    }

    fn point_along(&self, piece: usize, share: f64) -> Vector {
        let [from, to] = [self.pieces[piece].from, self.pieces[piece].to]
            .map(|end| self.meeting.position(self.front, end));
        from + (to - from).times(Double::from(share))
    }

    fn cut_at(&self, end: Option<End>) -> Result<(), Unsettled> {
        match end {
            Some(end) => Err(Unsettled::CutAt(self.meeting.position(self.front, end))),
            None => Ok(()),
        }
    }
}

/// What one plane holds of a straight run.
struct Total {
    plane: usize,
    speed: f64,
    length: f64,
}

/// Groups with the position of their first element.
fn positions<'g, T: 'g>(groups: impl Iterator<Item = &'g [T]>) -> impl Iterator<Item = (usize, &'g [T])> {
    groups.scan(0, |position, group| {
        let at = *position;
        *position += group.len();
        Some((at, group))
    })
}
