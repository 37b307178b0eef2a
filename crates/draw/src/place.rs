//! Where things may go on paper: rooms already taken, and the first candidate that is free.
//!
//! # Determinism
//! Candidates are tried in the order given; the first that touches nothing wins, else the first of those that
//! touch least. What must not be covered at all (other text) counts a hundred times what may be crossed in need
//! (lines).

use crate::polygon::Bounds;
use crate::vector::{P2, add, along, dot, quarter, scale, sub};

/// A rectangle turned by any angle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Tilted {
    pub(crate) center: P2,
    /// Half its length and half its height.
    pub(crate) half: P2,
    /// Unit vector of its length.
    pub(crate) along: P2,
}

impl Tilted {
    /// Upright, around a point.
    pub(crate) fn upright(center: P2, half: P2) -> Self {
        Self { center, half, along: [1.0, 0.0] }
    }

    /// Around a segment, so wide to each side of it.
    pub(crate) fn around([a, b]: [P2; 2], side: f64) -> Self {
        let d = sub(b, a);
        let l = dot(d, d).sqrt();
        let along = if l > 0.0 { scale(d, 1.0 / l) } else { [1.0, 0.0] };
        Self { center: scale(add(a, b), 0.5), half: [l / 2.0 + side, side], along }
    }

    pub(crate) fn corners(&self) -> [P2; 4] {
        let (u, v) = (scale(self.along, self.half[0]), scale(quarter(self.along), self.half[1]));
        [[1.0, 1.0], [-1.0, 1.0], [-1.0, -1.0], [1.0, -1.0]]
            .map(|[a, b]| along(along(self.center, u, a), v, b))
    }

    pub(crate) fn grown(self, by: f64) -> Self {
        Self { half: self.half.map(|h| h + by), ..self }
    }

    pub(crate) fn bounds(&self) -> Bounds {
        Bounds::of(self.corners())
    }

    /// Whether the two share more than their borders.
    pub(crate) fn meets(&self, other: &Self) -> bool {
        [self, other]
            .iter()
            .all(|box_| [box_.along, quarter(box_.along)].iter().all(|&axis| self.overlaps_on(other, axis)))
    }

    fn overlaps_on(&self, other: &Self, axis: P2) -> bool {
        dot(sub(other.center, self.center), axis).abs() < self.reach(axis) + other.reach(axis) - 1e-9
    }

    /// How far from its middle a ray in a unit direction leaves it.
    pub(crate) fn exit(&self, direction: P2) -> f64 {
        let along = [dot(direction, self.along), dot(direction, quarter(self.along))];
        let far = |i: usize| self.half[i] / along[i].abs().max(1e-9);
        far(0).min(far(1))
    }

    /// Half its extent in a direction.
    pub(crate) fn reach(&self, axis: P2) -> f64 {
        self.half[0] * dot(self.along, axis).abs() + self.half[1] * dot(quarter(self.along), axis).abs()
    }

    fn inside(&self, frame: &Bounds) -> bool {
        let b = self.bounds();
        (0..2).all(|i| b.low[i] >= frame.low[i] - 1e-9 && b.high[i] <= frame.high[i] + 1e-9)
    }
}

/// Something on paper, and how much it hurts to cover it.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Thing {
    room: Tilted,
    bounds: Bounds,
    weight: u32,
}

impl Thing {
    fn new(room: Tilted, weight: u32) -> Self {
        Self { room, bounds: room.bounds(), weight }
    }

    fn is_met_by(&self, other: &Self) -> bool {
        self.bounds.meets(&other.bounds) && self.room.meets(&other.room)
    }
}

/// The paper with what is on it.
#[derive(Clone, Debug)]
pub(crate) struct Board {
    frame: Bounds,
    taken: Vec<Thing>,
    lines: Vec<Thing>,
}

/// The cost of covering text, or of leaving the frame.
const COVER: u32 = 100;
/// The cost of covering a symbol.
const SYMBOL: u32 = 10;
/// Space kept between two texts, mm.
const AIR: f64 = 0.35;

impl Board {
    pub(crate) fn new(frame: Bounds) -> Self {
        Self { frame, taken: Vec::new(), lines: Vec::new() }
    }

    pub(crate) fn take(&mut self, room: Tilted) {
        self.taken.push(Thing::new(room, COVER));
    }

    pub(crate) fn take_all(&mut self, rooms: impl IntoIterator<Item = Tilted>) {
        rooms.into_iter().for_each(|room| self.take(room));
    }

    /// A symbol: no text may cover it, a leader may cross it when there is no other way.
    pub(crate) fn symbol(&mut self, room: Tilted) {
        self.taken.push(Thing::new(room, SYMBOL));
    }

    /// A line that text should keep off.
    pub(crate) fn line(&mut self, ends: [P2; 2]) {
        self.lines.push(Thing::new(Tilted::around(ends, 0.0), 2));
    }

    /// A thin line that text may cover before anything else.
    pub(crate) fn thin_line(&mut self, ends: [P2; 2]) {
        self.lines.push(Thing::new(Tilted::around(ends, 0.0), 1));
    }

    /// Zero when the room is free.
    pub(crate) fn cost(&self, room: &Tilted) -> u32 {
        let outside = if room.inside(&self.frame) { 0 } else { COVER };
        outside + met(&self.taken, &room.grown(AIR)) + met(&self.lines, room)
    }

    /// The cheapest candidate, the first among equals, with its cost; none when there are no candidates.
    pub(crate) fn cheapest<T>(
        &self,
        candidates: impl IntoIterator<Item = T>,
        rooms: impl Fn(&T) -> Vec<Tilted>,
    ) -> Option<(T, u32)> {
        self.first_within(0, candidates, rooms)
    }

    /// For words with a leader: the first candidate whose words touch nothing, or in need a thin line, and
    /// whose leader costs no more than `enough`, else the one with the cheapest leader that covers no text;
    /// `rooms` gives the words first.
    pub(crate) fn with_leader<T>(
        &self,
        enough: u32,
        words: usize,
        candidates: &(impl Iterator<Item = T> + Clone),
        rooms: impl Fn(&T) -> Vec<Tilted>,
    ) -> Option<T> {
        let within = |most: u32| {
            let is_clear =
                |candidate: &T| rooms(candidate).iter().take(words).all(|room| self.cost(room) <= most);
            let best = self.first_within(enough, candidates.clone().filter(is_clear), &rooms);
            best.filter(|&(_, cost)| !covers(cost)).map(|(candidate, _)| candidate)
        };
        within(0).or_else(|| within(1))
    }

    /// The first candidate whose cost is within `enough`, else the cheapest.
    pub(crate) fn first_within<T>(
        &self,
        enough: u32,
        candidates: impl IntoIterator<Item = T>,
        rooms: impl Fn(&T) -> Vec<Tilted>,
    ) -> Option<(T, u32)> {
        let mut best: Option<(T, u32)> = None;
        for candidate in candidates {
            let least = best.as_ref().map_or(u32::MAX, |(_, least)| *least);
            let costs = rooms(&candidate).into_iter().map(|room| self.cost(&room));
            // The rest of a candidate that is already too dear need not be looked at.
            let cost = costs.into_iter().try_fold(0, |sum, cost| Some(sum + cost).filter(|&sum| sum < least));
            let Some(cost) = cost else { continue };
            best = Some((candidate, cost));
            if cost <= enough {
                break;
            }
        }
        best
    }
}

fn met(things: &[Thing], room: &Tilted) -> u32 {
    let room = Thing::new(*room, 0);
    things.iter().filter(|thing| thing.is_met_by(&room)).map(|thing| thing.weight).sum()
}

/// Whether a cost means that text would be covered or leave the frame.
pub(crate) const fn covers(cost: u32) -> bool {
    cost >= COVER
}

/// Points around a centre on growing rings: for things that may stand anywhere near.
pub(crate) fn rings(center: P2, first: f64, step: f64, count: u32) -> impl Iterator<Item = P2> + Clone {
    const DIRECTIONS: [P2; 12] = [
        [1.0, 0.0],
        [-1.0, 0.0],
        [0.0, -1.0],
        [0.0, 1.0],
        [0.866, -0.5],
        [0.866, 0.5],
        [-0.866, -0.5],
        [-0.866, 0.5],
        [0.5, -0.866],
        [0.5, 0.866],
        [-0.5, -0.866],
        [-0.5, 0.866],
    ];
    (0..count).flat_map(move |ring| DIRECTIONS.map(|d| along(center, d, first + step * f64::from(ring))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn turned_boxes_meet_by_their_true_shape_not_their_bounds() {
        let half = std::f64::consts::FRAC_1_SQRT_2;
        let diamond = Tilted { center: [0.0, 0.0], half: [1.0, 1.0], along: [half, half] };
        assert!(!diamond.meets(&Tilted::upright([1.2, 1.2], [0.4, 0.4])));
        assert!(diamond.meets(&Tilted::upright([1.2, 0.0], [0.4, 0.4])));
        let segment = |from: f64| Tilted::around([[from; 2], [5.0; 2]], 0.0);
        assert!(diamond.meets(&segment(0.0)) && !diamond.meets(&segment(1.0)));
    }

    #[test]
    fn candidate_on_a_line_is_taken_only_when_all_others_cover_text() {
        let mut board = Board::new(Bounds { low: [0.0, 0.0], high: [10.0, 10.0] });
        board.take(Tilted::upright([2.0, 2.0], [1.0, 1.0]));
        board.line([[0.0, 6.0], [10.0, 6.0]]);
        let room = |&at: &P2| vec![Tilted::upright(at, [1.0, 1.0])];
        assert_eq!(board.cheapest([[2.0, 2.0], [5.0, 6.0], [9.8, 3.0]], room), Some(([5.0, 6.0], 2)));
        assert_eq!(board.cheapest([[2.0, 2.0], [5.0, 6.0], [8.0, 3.0]], room), Some(([8.0, 3.0], 0)));
    }
}
