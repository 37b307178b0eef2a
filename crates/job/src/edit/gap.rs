//! Filling in a key that a table lacks, where it will be found.

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::value::key;
use super::{Change, is_section, opens_with};

/// A table that lacks the rest of a path.
pub(super) struct Gap<'t> {
    pub(super) text: &'t str,
    pub(super) document: &'t DeTable<'t>,
    /// The table; none for the document itself.
    pub(super) table: Option<&'t Spanned<DeValue<'t>>>,
    /// Steps to the table.
    pub(super) known: &'t [String],
    /// Steps it lacks: at least one.
    pub(super) rest: &'t [String],
}

impl Gap<'_> {
    /// The change that adds the value.
    pub(super) fn filled(&self, value: &str) -> Change {
        let opens = |opening: &str| self.table.filter(|table| opens_with(self.text, table, opening));
        let entry = nested(self.rest, value);
        if let Some(table) = opens("{") {
            return self.in_braces(table, &entry);
        }
        let is_item = opens("[[").is_some(); // whose parts can have no heading that names it
        let is_section = self.table.is_none() || opens("[").is_some();
        match self.rest {
            [_] if is_section => self.on_a_line(&entry),
            [heads @ .., name] if !is_item => self.under_heading(heads, &format!("{} = {value}", key(name))),
            _ => self.on_a_line(&entry),
        }
    }

    /// After the last entry of an inline table.
    fn in_braces(&self, table: &Spanned<DeValue<'_>>, entry: &str) -> Change {
        match last_end(self.text, table.get_ref()) {
            Some(end) => Change { range: end..end, text: format!(", {entry}") },
            None => Change { range: table.span(), text: format!("{{ {entry} }}") },
        }
    }

    /// On a line of its own after the last entry of a section, or after its heading.
    fn on_a_line(&self, entry: &str) -> Change {
        let last = match self.table {
            Some(table) => Some(last_end(self.text, table.get_ref()).unwrap_or(table.span().end)),
            None => last_end_in(self.text, self.document),
        };
        last.map_or_else(|| self.on_the_first_line(entry), |last| self.after_line(last, entry))
    }

    fn on_the_first_line(&self, entry: &str) -> Change {
        let start = if self.text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
        Change { range: start..start, text: format!("{entry}{}", self.newline()) }
    }

    fn after_line(&self, last: usize, entry: &str) -> Change {
        let (newline, indent) = (self.newline(), self.indent(last));
        let line_end = self.text[last..].find('\n').map(|at| last + at + 1);
        let (end, gap) = line_end.map_or((self.text.len(), newline), |end| (end, ""));
        Change { range: end..end, text: format!("{gap}{indent}{entry}{newline}") }
    }

    /// Under a heading of its own at the end of the document.
    fn under_heading(&self, heads: &[String], entry: &str) -> Change {
        let newline = self.newline();
        let names: Vec<String> = self.known.iter().chain(heads).map(|name| key(name)).collect();
        let end = self.text.len();
        let gap = if self.text.is_empty() || self.text.ends_with('\n') { "" } else { newline };
        let text = format!("{gap}{newline}[{}]{newline}{entry}{newline}", names.join("."));
        Change { range: end..end, text }
    }

    /// The space a line starts with.
    fn indent(&self, at: usize) -> &str {
        let start = self.text[..at].rfind('\n').map_or(0, |newline| newline + 1);
        let line = &self.text[start..at];
        &line[..line.len() - line.trim_start_matches([' ', '\t']).len()]
    }

    /// How this document ends its lines.
    fn newline(&self) -> &'static str {
        let first = self.text.find('\n').is_some_and(|at| self.text[..at].ends_with('\r'));
        if first { "\r\n" } else { "\n" }
    }
}

/// The rest of a path as entry of an inline table: `a = { b = value }`.
fn nested(rest: &[String], value: &str) -> String {
    match rest {
        [] => value.to_owned(),
        [name] => format!("{} = {value}", key(name)),
        [name, inner @ ..] => format!("{} = {{ {} }}", key(name), nested(inner, value)),
    }
}

/// Where the last entry written under a table's own heading ends.
fn last_end(text: &str, table: &DeValue<'_>) -> Option<usize> {
    last_end_in(text, table.as_table()?)
}

fn last_end_in(text: &str, table: &DeTable<'_>) -> Option<usize> {
    table.iter().filter_map(|(_, value)| entry_end(text, value)).max()
}

/// Where an entry ends; none where it has a heading of its own.
fn entry_end(text: &str, value: &Spanned<DeValue<'_>>) -> Option<usize> {
    match value.get_ref() {
        _ if !is_section(text, value) => Some(value.span().end),
        DeValue::Table(table) if !opens_with(text, value, "[") => last_end_in(text, table), // dotted keys
        _ => None,
    }
}
