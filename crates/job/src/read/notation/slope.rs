//! What rises from one edge: a pitch, or `gable`.

use measure::Pitch;
use serde_json::{Value as Json, json};

use super::{Quantity, Written};
use crate::read::desk::Desk;
use crate::read::field::Notation;
use crate::read::node::{Node, shortened};
use crate::schema::Definitions;
use crate::{Basis, EdgeSlope, Figure, Problem};

/// A pitch, or the word `gable`.
pub(crate) struct SlopeWord(pub(crate) Quantity<Pitch>);

/// The word for an edge that nothing rises from.
const GABLE: &str = "gable";

impl Notation for SlopeWord {
    type Value = EdgeSlope;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<EdgeSlope> {
        match node.text() {
            Some(GABLE) => return Some(EdgeSlope::Gable),
            Some(word) if node.is_word() => return desk.refuse(not_a_slope(node, word)),
            _ => {}
        }
        let value = self.0.read(node, desk)?;
        Some(EdgeSlope::Pitch(Figure { value, basis: Basis::Measured, span: node.span.clone() }))
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        json!({ "anyOf": [self.0.schema(definitions), { "const": GABLE }] })
    }
}

fn not_a_slope(node: &Node<'_>, word: &str) -> Problem {
    let message = format!("`{}` is `{}`, neither a pitch nor `{GABLE}`", node.path, shortened(word));
    node.error("unknown-word", message, format!("write a pitch like {}, or \"{GABLE}\"", Pitch::EXAMPLE))
}
