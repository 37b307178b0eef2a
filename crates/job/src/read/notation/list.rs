//! Lists, pairs, lists of tables, and tables by name.

use serde_json::{Value as Json, json};

use super::{Marked, Quantity, Written};
use crate::Problem;
use crate::read::desk::Desk;
use crate::read::field::{Notation, Section};
use crate::read::node::{Node, child};
use crate::schema::Definitions;

/// A list of values, at least so many.
pub(crate) struct List<N>(pub(crate) N, pub(crate) usize);

impl<N: Notation> Notation for List<N> {
    type Value = Vec<N::Value>;

    /// All items are read, but one that cannot be read spoils the list.
    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Self::Value> {
        let Some(items) = node.items() else {
            return desk.refuse(node.wrong_kind("a list", "[ one, two, .. ] in square brackets"));
        };
        if items.len() < self.1 {
            let message =
                format!("`{}` is a list of {}, where at least {} are needed", node.path, items.len(), self.1);
            return desk.refuse(node.error(
                "too-few",
                message,
                "write the missing items between the brackets",
            ));
        }
        let values: Vec<Option<N::Value>> = items.iter().map(|item| self.0.read(item, desk)).collect();
        values.into_iter().collect()
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        json!({ "type": "array", "minItems": self.1, "items": self.0.schema(definitions) })
    }

    fn sections(&self) -> Vec<&'static Section> {
        self.0.sections()
    }
}

/// Two quantities in brackets, such as `["40'", "26'"]`.
pub(crate) struct Pair<Q>(pub(crate) Quantity<Q>);

impl<Q: Written> Notation for Pair<Q> {
    type Value = [Q; 2];

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<[Q; 2]> {
        let example = Q::EXAMPLE;
        let Some(items) = node.items() else {
            return desk.refuse(node.wrong_kind("a pair in brackets", &format!("[{example}, {example}]")));
        };
        let [first, second] = items.as_slice() else {
            let message = format!("`{}` is a list of {}, where a pair is expected", node.path, items.len());
            return desk.refuse(node.error(
                "not-a-pair",
                message,
                format!("write two, like [{example}, {example}]"),
            ));
        };
        let (first, second) = (self.0.read(first, desk), self.0.read(second, desk));
        Some([first?, second?])
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        json!({ "type": "array", "minItems": 2, "maxItems": 2, "items": self.0.schema(definitions) })
    }
}

/// A list of tables, `[[block]]`, called by their names where they have one, or of values in brackets. What cannot be read is left out.
pub(crate) struct Many<N>(pub(crate) N);

impl<N: Notation> Many<N> {
    /// The error of what is no list.
    fn not_a_list(&self, node: &Node<'_>) -> Problem {
        if self.0.sections().is_empty() {
            let inside = node.text().map_or_else(|| "one, two, ..".to_owned(), |text| format!("{text:?}"));
            return node.wrong_kind("a list", &format!("[{inside}], in square brackets"));
        }
        let header = node.path.rsplit('.').next().unwrap_or_default();
        let message = format!("`{}` is not a list of tables", node.path);
        let mend = format!("write [[{header}]] with two brackets before each of them");
        node.error("wrong-kind", message, mend)
    }
}

impl<N: Notation> Notation for Many<N> {
    type Value = Vec<N::Value>;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Self::Value> {
        let Some(items) = node.items() else {
            return desk.refuse(self.not_a_list(node));
        };
        Some(items.into_iter().filter_map(|item| self.0.read(&called(item, &node.path), desk)).collect())
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        json!({ "type": "array", "items": self.0.schema(definitions) })
    }

    fn sections(&self) -> Vec<&'static Section> {
        self.0.sections()
    }
}

/// The item with its name in its path, if it has one.
fn called<'t>(item: Node<'t>, parent: &str) -> Node<'t> {
    let name = item.table().and_then(|table| table.get("name")).and_then(|name| name.get_ref().as_str());
    match name.filter(|name| !name.trim().is_empty()) {
        Some(name) => Node { path: child(parent, name), ..item },
        None => item,
    }
}

/// Tables by name: `[attic.main]`; none for those that cannot be read.
pub(crate) struct Map<N>(pub(crate) N);

impl<N: Notation> Notation for Map<N> {
    type Value = Vec<(Marked<String>, Option<N::Value>)>;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Self::Value> {
        let Some(entries) = node.table() else {
            return desk.refuse(
                node.wrong_kind("a table by name", &format!("[{}.main] on a line of its own", node.path)),
            );
        };
        let mut values = Vec::new();
        for (key, value) in entries {
            let name = Marked { value: key.get_ref().to_string(), span: key.span() };
            let path = child(&node.path, key.get_ref());
            let node = Node { key: name.value.clone(), ..Node::new(value, path) };
            values.push((name, self.0.read(&node, desk)));
        }
        values.sort_by_key(|(name, _)| name.span.start);
        Some(values)
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        json!({ "type": "object", "additionalProperties": self.0.schema(definitions) })
    }

    fn sections(&self) -> Vec<&'static Section> {
        self.0.sections()
    }
}
