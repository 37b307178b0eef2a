//! One value of the document, with its place and its path.

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::notation::LONGEST_NAME;
use crate::{Problem, Span};

/// The word that stands for a figure nobody has measured.
pub(crate) const UNKNOWN: &str = "unknown";

/// A value, where it stands, and how it is called in messages.
pub(crate) struct Node<'t> {
    pub(crate) value: &'t DeValue<'t>,
    pub(crate) span: Span,
    /// Such as `block.main.plate`.
    pub(crate) path: String,
    /// The key it stands at, where that is a name someone gave; else empty.
    pub(crate) key: String,
}

impl<'t> Node<'t> {
    pub(crate) fn new(value: &'t Spanned<DeValue<'t>>, path: String) -> Self {
        Self { value: value.get_ref(), span: value.span(), path, key: String::new() }
    }

    /// The items of a list, each with its number, counted from 1, in its path; none if this is no list.
    pub(crate) fn items(&self) -> Option<Vec<Node<'t>>> {
        let list = self.value.as_array()?;
        Some(
            list.iter()
                .enumerate()
                .map(|(n, item)| Node::new(item, format!("{}.{}", self.path, n + 1)))
                .collect(),
        )
    }

    /// The text, if this is one.
    pub(crate) fn text(&self) -> Option<&'t str> {
        self.value.as_str()
    }

    /// The table, if this is one.
    pub(crate) fn table(&self) -> Option<&'t DeTable<'t>> {
        self.value.as_table()
    }

    /// Whether the writer says that nobody knows.
    pub(crate) fn is_unknown(&self) -> bool {
        self.text() == Some(UNKNOWN)
    }

    /// Whether this is text without a figure in it, other than `unknown`.
    pub(crate) fn is_word(&self) -> bool {
        !self.is_unknown() && self.text().is_some_and(|text| !text.contains(char::is_numeric))
    }

    /// An error here.
    pub(crate) fn error(
        &self,
        code: &'static str,
        message: impl Into<String>,
        mend: impl Into<String>,
    ) -> Problem {
        Problem::error(code, message, mend).at(self.span.clone(), "")
    }

    /// The error of a value of the wrong kind.
    pub(crate) fn wrong_kind(&self, expected: &str, example: &str) -> Problem {
        let message = format!("`{}` is {}, where {expected} is expected", self.path, kind(self.value));
        self.error("wrong-kind", message, format!("write it like {example}"))
    }

    /// The error of an `unknown` that nothing can stand in for.
    pub(crate) fn must_be_measured(&self) -> Problem {
        let message = format!("`{}` is unknown, and nothing honest can stand in for it", self.path);
        self.error(
            "must-be-measured",
            message,
            "measure it; or take the line out if the job can do without it",
        )
    }
}

/// Dotted path of a name or key under `parent`, quoted where it needs to be, and cut where it is too long to be either.
pub(crate) fn child(parent: &str, key: &str) -> String {
    if key.len() > 4 * LONGEST_NAME {
        return child(parent, &shortened(key));
    }
    let plain = !key.is_empty() && !key.contains(['.', '"', '\\']) && !key.contains(char::is_control);
    let key = if plain { key.to_owned() } else { format!("{key:?}") };
    if parent.is_empty() { key } else { format!("{parent}.{key}") }
}

/// What a value is, in words.
fn kind(value: &DeValue<'_>) -> String {
    match value {
        DeValue::String(text) => format!("the text `{}`", shortened(text)),
        DeValue::Integer(number) => format!("the number {}", shortened(&number.to_string())),
        DeValue::Float(number) => format!("the number {}", shortened(number.as_str())),
        DeValue::Boolean(yes) => format!("`{yes}`"),
        DeValue::Datetime(date) => format!("the date {date}"),
        DeValue::Array(_) => "a list".to_owned(),
        DeValue::Table(_) => "a table".to_owned(),
    }
}

/// At most 40 characters of a text, on one line.
pub(crate) fn shortened(text: &str) -> String {
    let line: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).take(40).collect();
    if line.chars().count() < text.chars().count() { format!("{line}…") } else { line }
}
