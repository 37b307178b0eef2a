//! Free text, names, days, and values that remember where they stand.

use serde_json::{Value as Json, json};
use toml::de::DeValue;

use crate::read::desk::Desk;
use crate::read::field::{Notation, Section};
use crate::read::node::Node;
use crate::schema::Definitions;
use crate::{Date, Span};

/// A value and where it stands.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Marked<T> {
    pub(crate) value: T,
    pub(crate) span: Span,
}

/// A notation whose place matters.
pub(crate) struct At<N>(pub(crate) N);

impl<N: Notation> Notation for At<N> {
    type Value = Marked<N::Value>;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Self::Value> {
        Some(Marked { value: self.0.read(node, desk)?, span: node.span.clone() })
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        self.0.schema(definitions)
    }

    fn sections(&self) -> Vec<&'static Section> {
        self.0.sections()
    }
}

/// Text that says something.
pub(crate) struct Text;

impl Notation for Text {
    type Value = String;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<String> {
        match node.text() {
            Some(text) if text.trim().is_empty() => {
                let message = format!("`{}` is empty", node.path);
                desk.refuse(node.error("empty-text", message, "write something, or take the line out"))
            }
            Some(text) => Some(text.to_owned()),
            None => desk.refuse(node.wrong_kind("text", "\"words in quotes\"")),
        }
    }

    fn schema(&self, _: &mut Definitions) -> Json {
        json!({ "type": "string", "pattern": r"\S" })
    }
}

/// A name: text on one line, without space at its ends.
pub(crate) struct Name;

impl Notation for Name {
    type Value = String;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<String> {
        let name = Text.read(node, desk)?;
        if name.trim() == name && !name.contains(char::is_control) && name.chars().count() <= 60 {
            return Some(name);
        }
        let message = format!("`{}` has space at its ends, a line break or more than 60 letters", node.path);
        desk.refuse(node.error("bad-name", message, "write a short name such as \"main\""))
    }

    fn schema(&self, _: &mut Definitions) -> Json {
        json!({ "type": "string", "pattern": r"^\S(.*\S)?$", "maxLength": 60 })
    }
}

/// A day, such as 2025-06-14, with or without quotes.
pub(crate) struct Day;

impl Notation for Day {
    type Value = Date;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Date> {
        let parsed = node.text().and_then(|text| text.parse().ok());
        let written = if let DeValue::Datetime(date) = node.value { Some(*date) } else { parsed };
        let day = written.filter(|written| written.time.is_none()).and_then(|written| written.date);
        match day {
            Some(day) => Some(Date { year: day.year, month: day.month, day: day.day }),
            None => desk.refuse(node.wrong_kind("a day", "2025-06-14, year first, without quotes")),
        }
    }

    fn schema(&self, _: &mut Definitions) -> Json {
        json!({ "type": "string", "format": "date" })
    }
}
