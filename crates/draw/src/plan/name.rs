//! Names of openings on the plan, beside their symbols.

use std::collections::BTreeMap;

use super::draft::Draft;
use crate::letter::{Anchor, Text};
use crate::opening::{OpeningSymbol, marked_name};
use crate::paper::Paper;
use crate::place::{Board, Tilted, rings};
use crate::svg::Svg;
use crate::symbol::{SMALL, draw_leader, leader};
use crate::vector::{P2, add, length};

/// An opening's name where it stands.
#[derive(Clone, Debug)]
struct OpeningName {
    text: Text,
    /// The symbol's middle and how far off it a leader ends, when there is one.
    tied_to: Option<(P2, f64)>,
}

/// What a leader over an edge with its fringe costs.
const LEADER: u32 = 3;

/// Symbols of all openings on paper.
pub(crate) fn symbols(draft: &Draft, paper: &Paper) -> Vec<OpeningSymbol> {
    let on_paper = |p| paper.at(draft.scene.eye.screen(p));
    let openings = draft.roof.openings.iter();
    openings.map(|o| OpeningSymbol::new(o.kind, draft.survey.state(&o.name), o.rim.map(on_paper))).collect()
}

/// The names that found room, by index of the opening.
#[derive(Clone, Debug, Default)]
pub(crate) struct OpeningNames(BTreeMap<usize, OpeningName>);

impl OpeningNames {
    /// Places the names that have room right beside their symbols.
    pub(crate) fn place_beside(&mut self, draft: &Draft, symbols: &[OpeningSymbol], board: &mut Board) {
        self.place(draft, symbols, board, |text, symbol, board| {
            let best = board.cheapest(beside(text, symbol), OpeningName::rooms);
            best.filter(|&(_, cost)| cost == 0).map(|(name, _)| name)
        });
    }

    /// Places the rest further off, with leaders.
    pub(crate) fn place_around(&mut self, draft: &Draft, symbols: &[OpeningSymbol], board: &mut Board) {
        self.place(draft, symbols, board, |text, symbol, board| {
            board.with_leader(LEADER, 1, &around(text, symbol), OpeningName::rooms)
        });
    }

    fn place(
        &mut self,
        draft: &Draft,
        symbols: &[OpeningSymbol],
        board: &mut Board,
        find: impl Fn(&Text, &OpeningSymbol, &Board) -> Option<OpeningName>,
    ) {
        for (i, (opening, symbol)) in draft.roof.openings.iter().zip(symbols).enumerate() {
            if self.0.contains_key(&i) {
                continue;
            }
            let text = Text::new(marked_name(&opening.name, symbol.state), symbol.center(), SMALL);
            let name = find(&text, symbol, board);
            board.take_all(name.iter().flat_map(OpeningName::rooms));
            self.0.extend(name.map(|name| (i, name)));
        }
    }

    pub(crate) fn count(&self) -> usize {
        self.0.len()
    }

    pub(crate) fn draw(&self, svg: &mut Svg) {
        for name in self.0.values() {
            name.draw(svg);
        }
    }
}

impl OpeningName {
    fn rooms(&self) -> Vec<Tilted> {
        let leader = self.leader().map(|ends| Tilted::around(ends, 0.0));
        std::iter::once(self.text.room()).chain(leader).collect()
    }

    fn leader(&self) -> Option<[P2; 2]> {
        let (to, clear) = self.tied_to?;
        leader(&self.text.room(), to, clear)
    }

    fn draw(&self, svg: &mut Svg) {
        if let Some(ends) = self.leader() {
            draw_leader(svg, ends);
        }
        svg.text("opening-name", &self.text);
    }
}

/// Next to the symbol, where no leader is needed.
fn beside(text: &Text, symbol: &OpeningSymbol) -> Vec<OpeningName> {
    let bounds = symbol.room().bounds();
    let (x, y) = (bounds.width() / 2.0 + 0.8, bounds.height() / 2.0 + 2.0);
    let at = |shift: P2, anchor: Anchor| {
        let text = Text { at: add(symbol.center(), shift), anchor, ..text.clone() };
        OpeningName { text, tied_to: None }
    };
    vec![
        at([x, 0.0], Anchor::Start),
        at([-x, 0.0], Anchor::End),
        at([0.0, -y], Anchor::Middle),
        at([0.0, y], Anchor::Middle),
        at([x - 0.6, -y + 0.8], Anchor::Start),
        at([x - 0.6, y - 0.8], Anchor::Start),
        at([-x + 0.6, -y + 0.8], Anchor::End),
        at([-x + 0.6, y - 0.8], Anchor::End),
    ]
}

/// Further off, with a leader.
fn around(text: &Text, symbol: &OpeningSymbol) -> impl Iterator<Item = OpeningName> + Clone {
    let center = symbol.center();
    let clear = length(symbol.room().half) + 0.5;
    let name =
        move |at: P2| OpeningName { text: Text { at, ..text.clone() }, tied_to: Some((center, clear)) };
    rings(center, 5.0, 2.5, 11).map(name)
}
