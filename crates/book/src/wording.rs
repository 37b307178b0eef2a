//! What serde's messages about a row say, in terms a person can act on.
//!
//! Serde gives its errors as text only; the wordings relied on here are locked by the tests of `table`.

use crate::lookup::nearest;

const WRITE_SOURCE: &str =
    "say where the figures come from: source = { text = \"...\", confidence = \"published\" }";

/// Message for a row that has no source.
pub(crate) const NO_SOURCE: &str = "missing field `source`";

/// The field a message tells of: the missing one, or the one a misspelt one most likely stands for.
pub(crate) fn field_told(message: &str) -> Option<&str> {
    let mut words = quoted(message);
    let first = words.next()?;
    if message.starts_with("missing field") {
        Some(first)
    } else if message.starts_with("unknown field") {
        nearest(first, words)
    } else {
        None
    }
}

/// Whether something is missing only because a fault told of before was cut out.
pub(crate) fn follows_from(told: &[String], message: &str) -> bool {
    let missing =
        message.starts_with("missing field") && told.iter().any(|key| Some(&**key) == field_told(message));
    let emptied = message.starts_with("wanted exactly 1 element, found 0");
    missing || (emptied && !told.is_empty())
}

/// What would mend it; empty where the message says so.
pub(crate) fn mend(message: &str) -> String {
    let mut words = quoted(message);
    match words.next() {
        _ if message == NO_SOURCE || message.contains("expected struct Source") => WRITE_SOURCE.to_owned(),
        Some(field) if message.starts_with("missing field") => format!("add `{field} = ...`"),
        Some(unknown) if message.starts_with("unknown ") => {
            nearest(unknown, words).map(|near| format!("did you mean `{near}`?")).unwrap_or_default()
        }
        _ if message.starts_with("wanted exactly 1 element") => "write one kind and only one".to_owned(),
        _ if message.contains("expected a string") => "write it in quotes, with its unit".to_owned(),
        _ if message.contains("expected f64") => "write a plain number without quotes".to_owned(),
        _ if message.contains("expected a boolean") => "write true or false without quotes".to_owned(),
        _ => String::new(),
    }
}

/// The words between back-quotes.
fn quoted(message: &str) -> impl Iterator<Item = &str> {
    message.split('`').skip(1).step_by(2)
}
