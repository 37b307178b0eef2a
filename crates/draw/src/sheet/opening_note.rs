//! Openings on a flat plane: symbol, name, and distances on the slope to the eave and the nearest other edges.

use roof::{EdgeDistance, EdgeKind, PlacedOpening};
use takeoff::Of;

use super::edge_note::readable_turn;
use super::flat::Layout;
use crate::letter::{Anchor, Text};
use crate::opening::{OpeningSymbol, marked_name};
use crate::place::{Board, Tilted, rings};
use crate::polygon::{nearest_on, ring_sides};
use crate::svg::Svg;
use crate::symbol::{dimension_line, draw_leader, leader};
use crate::vector::{P2, add, along, between, distance, length, quarter, sub, unit};

/// Size of names and distances.
pub(super) const SIZE: f64 = 3.6;
/// What a leader over an edge with its fringe costs.
const LEADER: u32 = 3;
/// Edges an opening is tied to beside the eave.
const OTHERS: usize = 2;

/// An opening's name, where it stands.
pub(super) struct OpeningNote {
    name: Text,
    leader: Option<[P2; 2]>,
}

/// A distance from an opening to an edge, drawn.
pub(super) struct DrawnDistance {
    line: [P2; 2],
    text: Text,
}

/// The distances that place an opening: to the nearest eave, and to the two nearest other edges.
pub(super) fn ties<'o>(layout: &Layout, opening: &'o PlacedOpening) -> Vec<&'o EdgeDistance> {
    let is_eave = |d: &&EdgeDistance| layout.roof.edge(d.edge).kind == EdgeKind::Eave;
    let eave = opening.distances.iter().filter(is_eave).take(1);
    let others = opening.distances.iter().filter(|d| !is_eave(d)).take(OTHERS);
    eave.chain(others).collect()
}

/// The distances in words, each with the edge it goes to.
pub(super) fn tie_words(layout: &Layout, opening: &PlacedOpening) -> Vec<String> {
    let words = |d: &EdgeDistance| {
        let edge = layout.roof.edge(d.edge);
        let length = layout.survey.basis(Of::Line(d.edge)).mark(layout.units.length(d.slope_from_rim));
        format!("{length} to {} {}", edge.kind.name(), d.edge.number())
    };
    ties(layout, opening).into_iter().map(words).collect()
}

impl OpeningNote {
    /// The name beside its symbol or near it; none when it finds no room, since the list has it too.
    pub(super) fn place(opening: &PlacedOpening, symbol: &OpeningSymbol, board: &mut Board) -> Option<Self> {
        let words = marked_name(&opening.name, symbol.state);
        let beside = board.cheapest(Self::beside(&words, symbol), Self::rooms).filter(|&(_, cost)| cost == 0);
        let around = || board.with_leader(LEADER, 1, &Self::around(&words, symbol), Self::rooms);
        let note = beside.map(|(note, _)| note).or_else(around)?;
        board.take_all(note.rooms());
        Some(note)
    }

    fn beside(words: &str, symbol: &OpeningSymbol) -> [Self; 4] {
        let bounds = symbol.room().bounds();
        let (x, y) = (bounds.width() / 2.0 + 1.0, bounds.height() / 2.0 + 2.4);
        let note = |shift: P2, anchor: Anchor| Self {
            name: Text::new(words, add(symbol.center(), shift), SIZE).anchored(anchor),
            leader: None,
        };
        [
            note([x, 0.0], Anchor::Start),
            note([-x, 0.0], Anchor::End),
            note([0.0, -y], Anchor::Middle),
            note([0.0, y], Anchor::Middle),
        ]
    }

    fn around(words: &str, symbol: &OpeningSymbol) -> impl Iterator<Item = Self> + Clone {
        let (center, clear) = (symbol.center(), length(symbol.room().half) + 0.4);
        rings(center, 6.0, 2.5, 10).map(move |at| {
            let name = Text::new(words, at, SIZE);
            let leader = leader(&name.room(), center, clear);
            Self { name, leader }
        })
    }

    fn rooms(&self) -> Vec<Tilted> {
        std::iter::once(self.name.room()).chain(self.leader.map(|ends| Tilted::around(ends, 0.0))).collect()
    }

    pub(super) fn draw(&self, svg: &mut Svg) {
        if let Some(ends) = self.leader {
            draw_leader(svg, ends);
        }
        svg.text("opening-name", &self.name);
    }
}

impl DrawnDistance {
    /// The distances of an opening that can be drawn without covering anything.
    pub(super) fn all(layout: &Layout, opening: &PlacedOpening, board: &mut Board) -> Vec<Self> {
        let rim = opening.rim.map(|p| layout.at(p));
        let tied = ties(layout, opening);
        tied.into_iter().filter_map(|tie| Self::place(layout, tie, &rim, board)).collect()
    }

    fn place(layout: &Layout, tie: &EdgeDistance, rim: &[P2; 4], board: &mut Board) -> Option<Self> {
        let line = shortest(rim, layout.roof.ends(tie.edge).map(|p| layout.at(p)));
        let way = unit(sub(line[1], line[0]))?;
        let basis = layout.survey.basis(Of::Line(tie.edge));
        let number = basis.mark(layout.units.length(tie.slope_from_rim));
        let turn = readable_turn(sub(line[1], line[0]));
        let text = |(side, t): (f64, f64)| {
            let at = along(between(line[0], line[1], t), quarter(way), side * 2.5);
            basis.set(Text::new(number.clone(), at, SIZE).turned(turn))
        };
        let places = [1.0, -1.0].into_iter().flat_map(|side| [0.5, 0.35, 0.65].map(|t| (side, t)));
        let fits = |text: &Text| text.width() + 1.0 < distance(line[0], line[1]);
        // The line itself starts at the symbol and ends on the edge.
        let core = Tilted::around([along(line[0], way, 1.2), along(line[1], way, -1.2)], 0.0);
        let rooms = |text: &Text| vec![text.room(), core];
        let (text, _) =
            board.cheapest(places.map(text).filter(fits), rooms).filter(|&(_, cost)| cost == 0)?;
        board.take(text.room());
        board.take(core);
        Some(Self { line, text })
    }

    pub(super) fn draw(&self, svg: &mut Svg) {
        dimension_line(svg, self.line);
        svg.text("opening-distance", &self.text);
    }
}

/// The shortest line from a rim to an edge; the middle one where rim side and edge run alongside.
fn shortest(rim: &[P2; 4], edge: [P2; 2]) -> [P2; 2] {
    let corners = rim.iter().map(|&p| [p, nearest_on(edge, p)]);
    let sides = ring_sides(rim).map(|[a, b]| between(a, b, 0.5)).map(|p| [p, nearest_on(edge, p)]);
    let ends = edge.into_iter().flat_map(|p| ring_sides(rim).map(move |side| [nearest_on(side, p), p]));
    let all = sides.chain(corners).chain(ends);
    // The middles come first, so that they win over corners as near.
    let shorter = |best: Option<[P2; 2]>, line: [P2; 2]| match best {
        Some(best) if distance(best[0], best[1]) <= distance(line[0], line[1]) + 1e-6 => Some(best),
        _ => Some(line),
    };
    all.fold(None, shorter).unwrap_or([rim[0], edge[0]])
}
