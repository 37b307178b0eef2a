//! Edge numbers on the plan: on the line where it is seen, else beside it with a leader.
//!
//! Numbers go onto their lines first, those of the shortest edges before the others, since they have fewest
//! places. A number that cannot stand anywhere near its edge without covering text is left out and counted.

use roof::EdgeId;

use crate::line::EdgeLine;
use crate::place::{Board, Tilted, rings};
use crate::svg::Svg;
use crate::symbol::{SMALL, Tag, draw_leader, leader};
use crate::vector::{P2, between, distance};

/// A number where it stands.
#[derive(Clone, Debug)]
pub(crate) struct PlacedTag {
    tag: Tag,
    at: P2,
    /// The point of the edge it is tied to when it does not stand on it.
    tied_to: Option<P2>,
}

/// What covering its own line, a second line drawn in the same place and a thin one costs.
const ON_LINE: u32 = 5;
/// What a leader to its own line costs, with the line's fringe and a wall line crossed.
const BESIDE: u32 = 4;

impl PlacedTag {
    /// Numbers for the edges, in the order of their lines, where there is room.
    pub(crate) fn all(lines: &[EdgeLine], board: &mut Board) -> Vec<Self> {
        let mut order: Vec<usize> = (0..lines.len()).collect();
        let length = |i: usize| distance(lines[i].ends[0], lines[i].ends[1]);
        order.sort_by(|&a, &b| length(a).total_cmp(&length(b)));
        let mut placed = Vec::new();
        for place in [Self::on_line, Self::beside] {
            order.retain(|&i| {
                let found = place(EdgeId(i), &lines[i], board);
                board.take_all(found.iter().flat_map(Self::rooms));
                let is_homeless = found.is_none();
                placed.extend(found);
                is_homeless
            });
        }
        placed
    }

    fn on_line(id: EdgeId, line: &EdgeLine, board: &mut Board) -> Option<Self> {
        let on = |at: P2| Self { tag: Tag::new(id.number(), SMALL), at, tied_to: None };
        let free = |stretches: &[[f64; 2]]| {
            let places = places_on(line, stretches).into_iter().map(on);
            board.cheapest(places, Self::rooms).filter(|&(_, cost)| cost <= ON_LINE).map(|(tag, _)| tag)
        };
        free(&line.seen).or_else(|| free(&line.hidden))
    }

    fn beside(id: EdgeId, line: &EdgeLine, board: &mut Board) -> Option<Self> {
        let home = home(line);
        let at = |at: P2| Self { tag: Tag::new(id.number(), SMALL), at, tied_to: Some(home) };
        board.with_leader(BESIDE, 1, &rings(home, 4.2, 2.0, 7).map(at), Self::rooms)
    }

    fn room(&self) -> Tilted {
        self.tag.room(self.at)
    }

    fn rooms(&self) -> Vec<Tilted> {
        let leader = self.leader().map(|ends| Tilted::around(ends, 0.0));
        std::iter::once(self.room()).chain(leader).collect()
    }

    fn leader(&self) -> Option<[P2; 2]> {
        leader(&self.room(), self.tied_to?, 0.0)
    }

    pub(crate) fn draw(&self, svg: &mut Svg) {
        if let Some(ends) = self.leader() {
            draw_leader(svg, ends);
        }
        self.tag.draw(svg, self.at);
    }
}

/// Places on stretches of the line, the middle of the longest first.
pub(super) fn places_on(line: &EdgeLine, stretches: &[[f64; 2]]) -> Vec<P2> {
    const SHARES: [f64; 15] =
        [0.5, 0.44, 0.56, 0.38, 0.62, 0.32, 0.68, 0.26, 0.74, 0.2, 0.8, 0.14, 0.86, 0.08, 0.92];
    let mut stretches = stretches.to_vec();
    stretches.sort_by(|a, b| (b[1] - b[0]).total_cmp(&(a[1] - a[0])));
    let ends = stretches.into_iter().map(|stretch| line.stretch(stretch));
    ends.flat_map(|[a, b]| SHARES.map(|t| between(a, b, t))).collect()
}

/// The point of the line a leader goes to.
pub(super) fn home(line: &EdgeLine) -> P2 {
    let seen = places_on(line, &line.seen).into_iter().next();
    seen.unwrap_or_else(|| between(line.ends[0], line.ends[1], 0.5))
}
