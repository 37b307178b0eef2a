//! What rises from one edge: a pitch, or `gable`.

use measure::Pitch;
use serde_json::{Value as Json, json};

use super::Quantity;
use crate::read::desk::Desk;
use crate::read::field::Notation;
use crate::read::node::Node;
use crate::schema::Definitions;
use crate::{Basis, EdgeSlope, Figure};

/// A pitch, or the word `gable`.
pub(crate) struct SlopeWord(pub(crate) Quantity<Pitch>);

/// The word for an edge that nothing rises from.
const GABLE: &str = "gable";

impl Notation for SlopeWord {
    type Value = EdgeSlope;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<EdgeSlope> {
        if node.text() == Some(GABLE) {
            return Some(EdgeSlope::Gable);
        }
        let value = self.0.read(node, desk)?;
        Some(EdgeSlope::Pitch(Figure { value, basis: Basis::Measured, span: node.span.clone() }))
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        json!({ "anyOf": [self.0.schema(definitions), { "const": GABLE }] })
    }
}
