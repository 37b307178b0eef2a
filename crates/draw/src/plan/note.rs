//! Words on the plan beside what they are about: close by, or further off with a leader.

use crate::letter::{Anchor, Text};
use crate::place::{Tilted, rings};
use crate::svg::Svg;
use crate::symbol::{SMALL, draw_leader, leader};
use crate::vector::{P2, add, length};

/// Words where they stand.
#[derive(Clone, Debug)]
pub(crate) struct Note {
    text: Text,
    /// The middle of what they are about and how far off it a leader ends, when there is one.
    tied_to: Option<(P2, f64)>,
}

impl Note {
    /// The words, and the leader.
    pub(crate) fn rooms(&self) -> Vec<Tilted> {
        let leader = self.leader().map(|ends| Tilted::around(ends, 0.0));
        std::iter::once(self.text.room()).chain(leader).collect()
    }

    fn leader(&self) -> Option<[P2; 2]> {
        let (to, clear) = self.tied_to?;
        leader(&self.text.room(), to, clear)
    }

    pub(crate) fn draw(&self, svg: &mut Svg, class: &str) {
        if let Some(ends) = self.leader() {
            draw_leader(svg, ends);
        }
        svg.text(class, &self.text);
    }

    /// Next to a room, where no leader is needed.
    pub(crate) fn beside(text: &Text, room: &Tilted) -> Vec<Self> {
        let bounds = room.bounds();
        let (x, y) = (bounds.width() / 2.0 + 0.8, bounds.height() / 2.0 + 2.0 * text.size / SMALL);
        let at = |shift: P2, anchor: Anchor| {
            let text = Text { at: add(room.center, shift), anchor, ..text.clone() };
            Self { text, tied_to: None }
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
    pub(crate) fn around(text: &Text, room: &Tilted) -> impl Iterator<Item = Self> + Clone {
        let (center, clear) = (room.center, length(room.half) + 0.5);
        let note = move |at: P2| Self { text: Text { at, ..text.clone() }, tied_to: Some((center, clear)) };
        rings(center, 5.0, 2.5, 11).map(note)
    }
}
