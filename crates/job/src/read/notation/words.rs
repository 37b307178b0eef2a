//! One word out of a few.

use serde_json::{Value as Json, json};

use crate::Problem;
use crate::read::desk::Desk;
use crate::read::field::Notation;
use crate::read::node::{Node, shortened};
use crate::schema::Definitions;
use crate::suggest::listed;

/// Words and what each stands for.
pub(crate) struct Words<T: 'static>(pub(crate) &'static [(&'static str, T)]);

impl<T: Copy> Words<T> {
    /// What a word stands for.
    pub(crate) fn find(&self, word: &str) -> Option<T> {
        self.0.iter().find(|(known, _)| *known == word).map(|(_, value)| *value)
    }

    fn known(&self) -> impl Iterator<Item = &'static str> {
        self.0.iter().map(|(word, _)| *word)
    }

    fn unknown_word(&self, node: &Node<'_>, word: &str) -> Problem {
        let message =
            format!("`{}` is `{}`, which is not one of {}", node.path, shortened(word), listed(self.known()));
        let mend = match book::nearest(word, self.known()) {
            Some(meant) => format!("did you mean \"{meant}\"?"),
            None => format!("write one of {}", listed(self.known())),
        };
        node.error("unknown-word", message, mend)
    }
}

impl<T: Copy + Sync> Notation for Words<T> {
    type Value = T;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<T> {
        let Some(word) = node.text() else {
            return desk
                .refuse(node.wrong_kind(&format!("one of {}", listed(self.known())), &self.example()));
        };
        match self.find(word) {
            None if node.is_unknown() => desk.refuse(node.must_be_measured()),
            None => desk.refuse(self.unknown_word(node, word)),
            found => found,
        }
    }

    fn schema(&self, _: &mut Definitions) -> Json {
        json!({ "enum": self.known().collect::<Vec<_>>() })
    }
}

impl<T: Copy> Words<T> {
    fn example(&self) -> String {
        format!("\"{}\"", self.known().next().unwrap_or_default())
    }
}
