//! Number, kind and true length along every edge of a flat plane.

use roof::EdgeId;
use takeoff::Of;

use super::flat::Layout;
use crate::letter::Text;
use crate::line::EdgeLine;
use crate::notation;
use crate::place::{Board, Tilted, rings};
use crate::svg::Svg;
use crate::symbol::{Tag, draw_leader, leader};
use crate::vector::{P2, along, between, distance, sub};

/// Size of numbers and lengths on a plane's sheet: 14 point, to be read on a roof.
const SIZE: f64 = 4.94;
/// Tag to the middle of the words beside it.
const OFF: f64 = 2.9;

/// What a tag on its own line costs, with the line's fringe and another line crossing.
const ON_LINE: u32 = 5;

/// What a leader to its own line and over its fringe costs.
const BESIDE: u32 = 3;

/// An edge's tag, and its words where they have room.
pub(super) struct EdgeNote {
    tag: Tag,
    tag_at: P2,
    /// The point of the edge, where the tag stands off it.
    tied_to: Option<P2>,
    words: Option<Text>,
}

/// What an edge is and how long.
pub(super) fn edge_words(layout: &Layout, id: EdgeId) -> (String, notation::Basis) {
    let edge = layout.roof.edge(id);
    let basis = layout.survey.basis(Of::Length(id));
    let length = basis.mark(layout.units.length(edge.length));
    (format!("{} {length}", edge.kind.name()), basis)
}

impl EdgeNote {
    /// Notes for the edges, the shortest first. `listed` edges have their words elsewhere; edges whose words
    /// found no room are given back.
    pub(super) fn all(layout: &Layout, listed: &[EdgeId], board: &mut Board) -> (Vec<Self>, Vec<EdgeId>) {
        let mut order = layout.plane.edges.clone();
        order.sort_by(|&a, &b| layout.roof.edge(a).length.m().total_cmp(&layout.roof.edge(b).length.m()));
        let (mut notes, mut homeless) = (Vec::new(), Vec::new());
        for id in order {
            let line = layout.line(id);
            let with_words =
                if listed.contains(&id) { None } else { Self::with_words(layout, id, &line, board) };
            if with_words.is_none() && !listed.contains(&id) {
                homeless.push(id);
            }
            let note = with_words.or_else(|| Self::alone(id, &line, board));
            board.take_all(note.iter().flat_map(Self::rooms));
            notes.extend(note);
        }
        (notes, homeless)
    }

    /// The tag on the line and the words beside it, outside before inside.
    fn with_words(layout: &Layout, id: EdgeId, line: &EdgeLine, board: &Board) -> Option<Self> {
        let (words, basis) = edge_words(layout, id);
        let [a, b] = line.ends;
        let turn = readable_turn(sub(b, a));
        let off = tag(id).room(a).reach(line.inward) + OFF;
        let note = |(side, t): (f64, f64)| {
            let at = along(between(a, b, t), line.inward, side * off);
            let text = basis.set(Text::new(words.clone(), at, SIZE).turned(turn));
            Self { tag: tag(id), tag_at: between(a, b, t), tied_to: None, words: Some(text) }
        };
        let places = [-1.0, 1.0].into_iter().flat_map(|side| [0.5, 0.4, 0.6, 0.3, 0.7].map(|t| (side, t)));
        let is_long_enough =
            |note: &Self| note.words.as_ref().is_some_and(|text| text.width() < distance(a, b) + 12.0);
        let is_clear = |note: &Self| note.words.as_ref().is_some_and(|text| board.cost(&text.room()) == 0);
        let candidates = places.map(note).filter(|note| is_long_enough(note) && is_clear(note));
        board.cheapest(candidates, Self::rooms).filter(|&(_, cost)| cost <= ON_LINE).map(|(note, _)| note)
    }

    /// The tag on the line, or off it with a leader; none where it would cover something.
    fn alone(id: EdgeId, line: &EdgeLine, board: &Board) -> Option<Self> {
        let [a, b] = line.ends;
        let note = |tag_at: P2, tied_to: Option<P2>| Self { tag: tag(id), tag_at, tied_to, words: None };
        let on = [0.5, 0.4, 0.6, 0.3, 0.7].map(|t| note(between(a, b, t), None));
        let on = board.cheapest(on, Self::rooms).filter(|&(_, cost)| cost <= ON_LINE).map(|(note, _)| note);
        let home = between(a, b, 0.5);
        let off = || {
            let places = rings(home, 6.0, 2.5, 8).map(|at| note(at, Some(home)));
            board.with_leader(BESIDE, 1, &places, Self::rooms)
        };
        on.or_else(off)
    }

    fn rooms(&self) -> Vec<Tilted> {
        let words = self.words.as_ref().map(Text::room);
        let leader = self.leader().map(|ends| Tilted::around(ends, 0.0));
        std::iter::once(self.tag.room(self.tag_at)).chain(words).chain(leader).collect()
    }

    fn leader(&self) -> Option<[P2; 2]> {
        leader(&self.tag.room(self.tag_at), self.tied_to?, 0.0)
    }

    pub(super) fn draw(&self, svg: &mut Svg) {
        if let Some(ends) = self.leader() {
            draw_leader(svg, ends);
        }
        self.tag.draw(svg, self.tag_at);
        if let Some(words) = &self.words {
            svg.text("edge-length", words);
        }
    }
}

fn tag(id: EdgeId) -> Tag {
    Tag::new(id.number(), SIZE)
}

/// The clockwise turn, from just over −90° to 90°, that sets text along a direction on paper so that it can be
/// read from below or from the side it falls back to.
pub(super) fn readable_turn([x, y]: P2) -> f64 {
    let degrees = y.atan2(x).to_degrees();
    if degrees > 89.99 {
        degrees - 180.0
    } else if degrees <= -90.01 {
        degrees + 180.0
    } else {
        degrees
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_along_a_line_is_never_upside_down_and_uprights_read_upwards() {
        for (direction, turn) in [
            ([1.0, 0.0], 0.0),
            ([-1.0, 0.0], 0.0),
            ([0.0, 1.0], -90.0),
            ([0.0, -1.0], -90.0),
            ([-1.0, -1.0], 45.0),
        ] {
            assert!((readable_turn(direction) - turn).abs() < 1e-9, "{direction:?}");
        }
    }
}
