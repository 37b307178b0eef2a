//! Changing one value of a document and nothing else.
//!
//! The new value takes the place of the old one's bytes, so that comments, layout, line ends and the spelling of
//! everything else stay as they are. What comes out is parsed again before it is given back.

mod gap;
mod path;
mod value;

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeArray, DeTable, DeValue};

use self::gap::Gap;
use self::path::{joined, steps};
use self::value::written;
use crate::Problem;
use crate::read::syntax;
use crate::suggest::listed;

/// The text with the value at `path` set to `value`.
///
/// The path is dotted, as in messages: `block.main.roof.pitch`. Items of a list are called by name, or by number from
/// 1 (`reading.2.value`); names with points in them stand in quotes. A key that is missing is added to its table, and
/// a table that is missing to the document; a list gets no new items. The value is taken as TOML where it is TOML
/// (`true`, `1964`, `["0'", "26'"]`), and else as text.
///
/// ```
/// let text = "[[block]]\nname = \"main\" # the old part\nplate = \"9'\"   # taped\n";
/// let edited = job::edit::set(text, "block.main.plate", "9' 2\"").expect("there is such a block");
/// assert_eq!(edited, "[[block]]\nname = \"main\" # the old part\nplate = \"9' 2\\\"\"   # taped\n");
/// ```
pub fn set(text: &str, path: &str, value: &str) -> Result<String, Problem> {
    let steps = steps(path)?;
    let document = parse(text)?;
    let change = match find(text, document.get_ref(), &steps)? {
        Found::Value(range) => Change { range, text: written(value) },
        Found::Gap(gap) => gap.filled(&written(value)),
    };
    let edited = change.applied(text);
    if leads_to_value(&edited, &steps) { Ok(edited) } else { Err(cannot_add(path)) }
}

/// Bytes of the text, and what takes their place.
struct Change {
    range: Range<usize>,
    text: String,
}

impl Change {
    fn applied(&self, text: &str) -> String {
        let (before, after) = (text.get(..self.range.start), text.get(self.range.end..));
        [before.unwrap_or_default(), &self.text, after.unwrap_or_default()].concat()
    }
}

/// Where a path leads.
enum Found<'t> {
    /// To a value that stands there.
    Value(Range<usize>),
    /// To a table that lacks the rest of the path.
    Gap(Gap<'t>),
}

/// Follows a path as far as it goes.
fn find<'t>(text: &'t str, document: &'t DeTable<'t>, steps: &'t [String]) -> Result<Found<'t>, Problem> {
    let mut place: Option<&Spanned<DeValue<'_>>> = None;
    for (index, step) in steps.iter().enumerate() {
        let (known, rest) = steps.split_at(index);
        let next = match place.map(Spanned::get_ref) {
            None => document.get(step.as_str()),
            Some(DeValue::Table(table)) => table.get(step.as_str()),
            Some(DeValue::Array(items)) => Some(item(items, step, known)?),
            Some(_) => return Err(no_table(known, step)),
        };
        match next {
            Some(value) => place = Some(value),
            None => return Ok(Found::Gap(Gap { text, document, table: place, known, rest })),
        }
    }
    let value = place.ok_or_else(|| cannot_add(""))?;
    if is_section(text, value) {
        return Err(whole_section(steps));
    }
    Ok(Found::Value(value.span()))
}

/// An item of a list by its name, or by its number from 1.
fn item<'t>(
    items: &'t DeArray<'t>,
    step: &str,
    known: &[String],
) -> Result<&'t Spanned<DeValue<'t>>, Problem> {
    let name = |item: &'t Spanned<DeValue<'t>>| item.get_ref().as_table()?.get("name")?.get_ref().as_str();
    let named = items.iter().find(|item| name(item) == Some(step));
    let numbered = || step.parse().ok().and_then(|number: usize| items.get(number.checked_sub(1)?));
    named
        .or_else(numbered)
        .ok_or_else(|| no_item(step, known, items.iter().filter_map(name).collect(), items.len()))
}

/// A table with a heading or dotted keys of its own, or a list of such: its bytes are not in one place.
fn is_section(text: &str, value: &Spanned<DeValue<'_>>) -> bool {
    match value.get_ref() {
        DeValue::Table(_) => !opens_with(text, value, "{"),
        DeValue::Array(items) => {
            items.iter().any(|item| item.get_ref().is_table() && opens_with(text, item, "[["))
        }
        _ => false,
    }
}

fn opens_with(text: &str, value: &Spanned<DeValue<'_>>, opening: &str) -> bool {
    text.get(value.span()).is_some_and(|written| written.starts_with(opening))
}

fn leads_to_value(text: &str, steps: &[String]) -> bool {
    let document = parse(text);
    document.is_ok_and(|document| matches!(find(text, document.get_ref(), steps), Ok(Found::Value(_))))
}

fn parse(text: &str) -> Result<Spanned<DeTable<'_>>, Problem> {
    DeTable::parse(text).map_err(|error| syntax::problem(text, &error))
}

fn no_item(step: &str, known: &[String], names: Vec<&str>, count: usize) -> Problem {
    let message = format!("`{}` has no item `{step}`", joined(known));
    let mend = match book::nearest(step, names.iter().copied()) {
        Some(meant) => format!("did you mean `{meant}`?"),
        None if names.is_empty() => format!("call it by number, 1 to {count}"),
        None => format!("name one of {}", listed(names)),
    };
    Problem::error("no-such-path", message, mend)
}

fn no_table(known: &[String], step: &str) -> Problem {
    let message = format!("`{}` is a single value and has no `{step}` in it", joined(known));
    Problem::error("no-such-path", message, format!("set `{}` itself to a table or a list", joined(known)))
}

fn whole_section(steps: &[String]) -> Problem {
    let message = format!("`{}` is a section of its own, not a value", joined(steps));
    Problem::error("no-such-path", message, "name one key in it")
}

fn cannot_add(path: &str) -> Problem {
    let message = format!("`{path}` cannot be set without changing more of the document");
    Problem::error("cannot-set", message, "write it into the document by hand")
}

#[cfg(test)]
mod tests;
