//! Names of openings on the plan, beside their symbols.

use std::collections::BTreeMap;

use super::draft::Draft;
use super::note::Note;
use crate::letter::Text;
use crate::opening::{OpeningSymbol, marked_name};
use crate::paper::Paper;
use crate::place::Board;
use crate::svg::Svg;
use crate::symbol::SMALL;

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
pub(crate) struct OpeningNames(BTreeMap<usize, Note>);

impl OpeningNames {
    /// Places the names that have room right beside their symbols.
    pub(crate) fn place_beside(&mut self, draft: &Draft, symbols: &[OpeningSymbol], board: &mut Board) {
        self.place(draft, symbols, board, |text, symbol, board| {
            let best = board.cheapest(Note::beside(text, &symbol.room()), Note::rooms);
            best.filter(|&(_, cost)| cost == 0).map(|(name, _)| name)
        });
    }

    /// Places the rest further off, with leaders.
    pub(crate) fn place_around(&mut self, draft: &Draft, symbols: &[OpeningSymbol], board: &mut Board) {
        self.place(draft, symbols, board, |text, symbol, board| {
            board.with_leader(LEADER, 1, &Note::around(text, &symbol.room()), Note::rooms)
        });
    }

    fn place(
        &mut self,
        draft: &Draft,
        symbols: &[OpeningSymbol],
        board: &mut Board,
        find: impl Fn(&Text, &OpeningSymbol, &Board) -> Option<Note>,
    ) {
        for (i, (opening, symbol)) in draft.roof.openings.iter().zip(symbols).enumerate() {
            if self.0.contains_key(&i) {
                continue;
            }
            let text = Text::new(marked_name(&opening.name, symbol.state), symbol.center(), SMALL);
            let name = find(&text, symbol, board);
            board.take_all(name.iter().flat_map(Note::rooms));
            self.0.extend(name.map(|name| (i, name)));
        }
    }

    pub(crate) fn count(&self) -> usize {
        self.0.len()
    }

    pub(crate) fn draw(&self, svg: &mut Svg) {
        for name in self.0.values() {
            name.draw(svg, "opening-name");
        }
    }
}
