//! One value for all sides of a block, or one for each side.

use serde_json::{Map as JsonMap, Value as Json, json};
use toml::de::DeTable;

use super::Marked;
use crate::read::desk::Desk;
use crate::read::field::Notation;
use crate::read::node::{Node, child, shortened};
use crate::read::roll::Shape;
use crate::schema::Definitions;
use crate::{Side, Span};

/// Pattern of the keys of numbered edges.
const EDGE_KEY: &str = "^(edge )?[1-9][0-9]*$|^hole [1-9][0-9]* edge [1-9][0-9]*$";

/// A value for all sides, or a table of values by side.
pub(crate) struct BySide<N>(pub(crate) N);

/// Values by side.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Sided<T> {
    /// For every side not named.
    pub(crate) all: Option<T>,
    /// For the sides named.
    pub(crate) sides: Vec<(Marked<Side>, T)>,
    /// Where all of it stands.
    pub(crate) span: Span,
}

impl<T> Sided<T> {
    /// The sides named.
    pub(crate) fn named(&self) -> impl Iterator<Item = &Marked<Side>> {
        self.sides.iter().map(|(side, _)| side)
    }

    /// The value of a side.
    pub(crate) fn of(&self, side: Side) -> Option<&T> {
        let named = self.sides.iter().find(|(named, _)| named.value == side);
        named.map(|(_, value)| value).or(self.all.as_ref())
    }
}

impl<N: Notation> Notation for BySide<N> {
    type Value = Sided<N::Value>;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Self::Value> {
        let span = node.span.clone();
        match node.table() {
            None => Some(Sided { all: Some(self.0.read(node, desk)?), sides: Vec::new(), span }),
            Some(entries) => {
                Some(Sided { all: None, sides: sides(&self.0, entries, &node.path, &[], desk)?, span })
            }
        }
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        let value = self.0.schema(definitions);
        json!({ "anyOf": [value, by_side(&value, JsonMap::new())] })
    }
}

/// Reads a table whose keys are sides, but for the keys in `others`; one bad key or value spoils it.
pub(crate) fn sides<N: Notation>(
    notation: &N,
    entries: &DeTable<'_>,
    path: &str,
    others: &[&str],
    desk: &mut Desk<'_>,
) -> Option<Vec<(Marked<Side>, N::Value)>> {
    let mut values = Vec::new();
    for (key, value) in entries.iter().filter(|(key, _)| !others.contains(&key.get_ref().as_ref())) {
        let node = Node::new(value, child(path, key.get_ref()));
        values.push(match Side::parse(key.get_ref()) {
            Some(side) => {
                let side = Marked { value: side, span: key.span() };
                notation.read(&node, desk).map(|value| (side, value))
            }
            None => desk.refuse(not_a_side(&Node { span: key.span(), ..node }, key.get_ref(), path, others)),
        });
    }
    values.into_iter().collect()
}

fn not_a_side(node: &Node<'_>, key: &str, path: &str, others: &[&str]) -> crate::Problem {
    let words = ["south", "east", "north", "west"];
    let mend = match book::nearest(key, others.iter().copied().chain(words)) {
        Some(meant) => format!("did you mean `{meant}`?"),
        None => "write south, east, north or west, or for an outline the number of the edge".to_owned(),
    };
    node.error("unknown-key", format!("`{key}` is not a side in `{path}`"), mend)
}

/// Schema of a table by side, with other keys beside the sides.
pub(crate) fn by_side(value: &Json, mut properties: JsonMap<String, Json>) -> Json {
    for side in Side::COMPASS {
        properties.insert(side.to_string(), value.clone());
    }
    json!({
        "type": "object",
        "properties": properties,
        "patternProperties": { EDGE_KEY: value },
        "additionalProperties": false,
    })
}

/// A side of the block at hand, such as `north` or `3`; whether the block has it is for the block to say.
pub(crate) struct SideName;

impl Notation for SideName {
    type Value = Marked<Side>;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Marked<Side>> {
        let side = node.text().map(Side::parse);
        match side {
            Some(Some(value)) => Some(Marked { value, span: node.span.clone() }),
            Some(None) => {
                let written = node.text().unwrap_or_default();
                let message = format!("`{}` names no side: `{}`", node.path, shortened(written));
                desk.refuse(node.error("unknown-side", message, Shape::Rectangle.offer(written)))
            }
            None => {
                desk.refuse(node.wrong_kind("a side", "\"north\", or \"3\" for the third edge of an outline"))
            }
        }
    }

    fn schema(&self, _: &mut Definitions) -> Json {
        json!({ "type": "string", "pattern": format!("^(south|east|north|west)$|{EDGE_KEY}") })
    }
}
