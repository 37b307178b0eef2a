//! Reading table files into typed rows, with every problem found and its place.
//!
//! A file holds arrays of tables, each element a row with an `id`. A row that does not read is tried again without the
//! part that was at fault, so that one pass finds all of it. A file that is not TOML at all gives its syntax errors only.

use std::collections::BTreeSet;
use std::ops::Range;

use serde::de::DeserializeOwned;
use toml::Spanned;
use toml::de::{DeTable, DeValue, ValueDeserializer};

use crate::lookup::hint;
use crate::problem::Problem;
use crate::wording::{NO_SOURCE, field_told, follows_from, mend};

/// What a row of a table is to its reader.
pub(crate) trait Row: DeserializeOwned {
    /// Name of the table.
    const TABLE: &'static str;

    /// The row's name.
    fn id(&self) -> &str;

    /// What is wrong with its figures.
    fn faults(&self) -> Vec<String> {
        Vec::new()
    }

    /// Whether this row can stand where the other stood.
    fn replaces(&self, _old: &Self) -> bool {
        true
    }
}

/// A table file being read.
pub(crate) struct TableFile<'a> {
    name: &'a str,
    text: &'a str,
    problems: Vec<Problem>,
}

/// A row and its place in the file.
pub(crate) struct Placed<'a, R> {
    pub(crate) row: R,
    /// Where the row begins.
    pub(crate) at: Range<usize>,
    /// The row as written.
    written: DeValue<'a>,
}

impl<R> Placed<'_, R> {
    /// Where what a message speaks of stands in the row: the names it has in backticks are looked for one within the other.
    fn spoken_of(&self, message: &str) -> Range<usize> {
        let names = message.split('`').skip(1).step_by(2);
        let (mut inside, mut at) = (&self.written, self.at.clone());
        for name in names {
            if let Some((found, place)) = named(inside, name) {
                (inside, at) = (found, place);
            }
        }
        at
    }
}

/// The part of a value that a name is of: what stands under that key, the table whose `id` or `name` it is, or the text itself.
fn named<'v, 'a>(value: &'v DeValue<'a>, name: &str) -> Option<(&'v DeValue<'a>, Range<usize>)> {
    let parts: Vec<(Option<&str>, &Spanned<DeValue<'a>>)> = match value {
        DeValue::Table(table) => {
            table.iter().map(|(key, part)| (Some(key.get_ref().as_ref()), part)).collect()
        }
        DeValue::Array(items) => items.iter().map(|item| (None, item)).collect(),
        _ => return None,
    };
    let is_called = |part: &DeValue<'_>| {
        let tags = ["id", "name"].map(|tag| part.get(tag).and_then(|tag| tag.get_ref().as_str()));
        part.as_str() == Some(name) || tags.contains(&Some(name))
    };
    let is_meant = |(key, part): &&(Option<&str>, &Spanned<DeValue<'a>>)| {
        *key == Some(name) || (*key != Some("id") && is_called(part.get_ref()))
    };
    let here = parts.iter().find(is_meant).map(|(_, part)| (part.get_ref(), part.span()));
    here.or_else(|| parts.iter().find_map(|(_, part)| named(part.get_ref(), name)))
}

impl<'a> TableFile<'a> {
    /// A file by name and text; a byte order mark before the text is passed over.
    pub(crate) fn new(name: &'a str, text: &'a str) -> Self {
        Self { name, text: text.strip_prefix('\u{feff}').unwrap_or(text), problems: Vec::new() }
    }

    /// The tables of the file by name; none after a syntax error.
    pub(crate) fn tables(&mut self) -> Vec<(Spanned<String>, Spanned<DeValue<'a>>)> {
        let (root, errors) = DeTable::parse_recoverable(self.text);
        for error in &errors {
            let mend = "mend the TOML here; the rest of the file is read after that".to_owned();
            self.report(&error.span().unwrap_or(0..0), error.message().replace('\n', ", "), mend);
        }
        if !errors.is_empty() {
            return Vec::new();
        }
        let tables = root.into_inner().into_iter();
        tables.map(|(key, value)| (Spanned::new(key.span(), key.into_inner().into_owned()), value)).collect()
    }

    /// The rows of one table that are sound; no two share an id.
    pub(crate) fn rows<R: Row>(&mut self, table: Spanned<DeValue<'a>>) -> Vec<Placed<'a, R>> {
        let at = table.span();
        let DeValue::Array(elements) = table.into_inner() else {
            self.report(
                &at,
                format!("`{}` is not a list of rows", R::TABLE),
                format!("head each row with [[{}]]", R::TABLE),
            );
            return Vec::new();
        };
        let mut seen = BTreeSet::new();
        let elements = elements.into_iter().enumerate();
        let read: Vec<Placed<'a, R>> = elements.filter_map(|(n, element)| self.row(n + 1, element)).collect();
        read.into_iter().filter(|placed| self.is_sound(placed, &mut seen)).collect()
    }

    fn is_sound<R: Row>(&mut self, placed: &Placed<'a, R>, seen: &mut BTreeSet<String>) -> bool {
        let Placed { row, at, .. } = placed;
        let faults = row.faults();
        for fault in &faults {
            self.report_fault(placed, fault, String::new());
        }
        let is_new = seen.insert(row.id().to_owned());
        if !is_new {
            let message = format!("{} `{}` stands twice in this file", R::TABLE, row.id());
            self.report(at, message, "keep one of them".to_owned());
        }
        faults.is_empty() && is_new
    }

    /// Reads one element as a row, reporting all that is wrong with it.
    fn row<R: Row>(&mut self, number: usize, mut element: Spanned<DeValue<'a>>) -> Option<Placed<'a, R>> {
        let at = element.span();
        let name = row_name(R::TABLE, number, element.get_ref());
        let mut told = Vec::new();
        loop {
            let error = match R::deserialize(ValueDeserializer::from(element.clone())) {
                Ok(row) => {
                    let written = element.into_inner();
                    return told.is_empty().then_some(Placed { row, at, written });
                }
                Err(error) => error,
            };
            let place = error.span().unwrap_or_else(|| at.clone());
            if !follows_from(&told, error.message()) {
                self.report_in(&name, &place, error.message());
            }
            told.extend(field_told(error.message()).map(str::to_owned));
            let Some(key) = cut(element.get_mut(), &place) else { break };
            told.push(key);
        }
        // Serde names one missing field of several; the one no row may lack is told in any case.
        if element.get_ref().get("source").is_none() && !told.iter().any(|key| key == "source") {
            self.report_in(&name, &at, NO_SOURCE);
        }
        None
    }

    fn report_in(&mut self, row: &str, at: &Range<usize>, message: &str) {
        self.report(at, format!("{row}: {message}"), mend(message));
    }

    /// Notes what is wrong with a row, at the place in it that the words speak of.
    pub(crate) fn report_fault<R: Row>(&mut self, placed: &Placed<'_, R>, fault: &str, mend: String) {
        let at = placed.spoken_of(fault);
        self.report(&at, format!("{} `{}`: {fault}", R::TABLE, placed.row.id()), mend);
    }

    /// Notes a table whose name is not among the known ones.
    pub(crate) fn report_table(&mut self, name: &Spanned<String>, known: &[&str]) {
        let message = format!("unknown table `{}`", name.get_ref());
        self.report(&name.span(), message, hint(name.get_ref(), known.iter().copied()));
    }

    /// Notes a problem at a place of the file.
    pub(crate) fn report(&mut self, at: &Range<usize>, message: String, mend: String) {
        self.problems.push(Problem::at(self.name, self.text, at.start, message, mend));
    }

    /// All problems in the order of their places.
    pub(crate) fn into_problems(mut self) -> Vec<Problem> {
        self.problems.sort();
        self.problems
    }
}

/// A row's name for messages: its id, or else its number in the table.
fn row_name(table: &str, number: usize, row: &DeValue<'_>) -> String {
    match row.get("id").and_then(|id| id.get_ref().as_str()) {
        Some(id) => format!("{table} `{id}`"),
        None => format!("{table} number {number}"),
    }
}

/// Removes the innermost entry that holds the place, and returns its key; nothing when the place is the row itself.
fn cut(value: &mut DeValue<'_>, place: &Range<usize>) -> Option<String> {
    let DeValue::Table(table) = value else { return None };
    let key = table.iter().find(|(key, entry)| covers(&key.span(), place) || holds(entry, place))?.0.clone();
    let inner = table
        .get_mut(&key)
        .filter(|entry| entry.span() != *place)
        .and_then(|entry| cut(entry.get_mut(), place));
    inner.or_else(|| {
        table.remove(&key);
        Some(key.into_inner().into_owned())
    })
}

/// Whether the place lies in an entry or in any part of it; the span of a dotted table need not cover its parts.
fn holds(entry: &Spanned<DeValue<'_>>, place: &Range<usize>) -> bool {
    let in_part =
        |(key, part): (&Spanned<_>, &Spanned<DeValue<'_>>)| covers(&key.span(), place) || holds(part, place);
    covers(&entry.span(), place) || entry.get_ref().as_table().is_some_and(|table| table.iter().any(in_part))
}

fn covers(outer: &Range<usize>, inner: &Range<usize>) -> bool {
    outer.start <= inner.start && inner.end <= outer.end
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::package::Package;
    use crate::rule::Rule;

    fn problems(text: &str) -> Vec<String> {
        let mut file = TableFile::new("t.toml", text);
        for (_, table) in file.tables() {
            file.rows::<Package>(table);
        }
        file.into_problems().iter().map(Problem::to_string).collect()
    }

    const SOURCE: &str = "source = { text = \"label\", confidence = \"published\" }";

    #[test]
    fn a_sound_row_has_no_problem() {
        let text = format!(
            "[[package]]\nid = \"a\"\nname = \"a\"\nunit = \"roll\"\nform.run = {{ covers = \"105 ft\" }}\n{SOURCE}\n"
        );
        assert_eq!(problems(&text), [""; 0]);
    }

    #[test]
    fn every_fault_of_a_row_is_found_in_one_pass_with_its_place() {
        let text = "[[package]]\nid = \"a\"\nnmae = \"a\"\nunit = 3\nform.run = { covers = \"105 parsecs\" }\n\
                    source = { text = \" \", confidence = \"publisht\" }\n";
        let found = problems(text);
        assert_eq!(found.len(), 5, "{found:#?}");
        assert!(found[0].starts_with("t.toml:3:1: package `a`: unknown field `nmae`"), "{}", found[0]);
        assert!(found[0].ends_with("did you mean `name`?"), "{}", found[0]);
        assert!(found[1].starts_with("t.toml:4:8: package `a`: invalid type"), "{}", found[1]);
        assert!(found[1].ends_with("write it in quotes, with its unit"), "{}", found[1]);
        assert!(found[2].starts_with("t.toml:5:23: package `a`: "), "{}", found[2]);
        assert!(found[3].starts_with("t.toml:6:19: package `a`: empty text"), "{}", found[3]);
        assert!(found[4].starts_with("t.toml:6:37: package `a`: unknown variant `publisht`"), "{}", found[4]);
        assert!(found[4].ends_with("did you mean `published`?"), "{}", found[4]);
    }

    #[test]
    fn a_row_without_source_is_refused_by_name() {
        let found = problems("[[package]]\nid = \"a\"\nname = \"a\"\nunit = \"roll\"\nform.each = {}\n");
        assert_eq!(found.len(), 1, "{found:#?}");
        assert!(
            found[0].starts_with("t.toml:1:1: package `a`: missing field `source`; say where"),
            "{}",
            found[0]
        );
    }

    #[test]
    fn a_row_without_source_is_refused_whatever_else_it_lacks() {
        let found = problems("[[package]]\nid = \"a\"\nform.each = {}\n");
        let lost: Vec<&str> = found.iter().filter_map(|line| line.split("missing field ").nth(1)).collect();
        assert_eq!((found.len(), lost.len()), (2, 2), "{found:#?}");
        assert!(
            lost[0].starts_with("`name`; add `name = ...`") && lost[1].starts_with("`source`; say"),
            "{lost:#?}"
        );
    }

    #[test]
    fn a_figure_of_the_wrong_toml_type_is_told_how_to_write() {
        let head = "[[rule]]\nid = \"a\"\nwhat = \"a\"\n";
        let check = |tail: &str, mend: &str| {
            let mut file = TableFile::new("t.toml", tail);
            let table = file.tables().remove(0).1;
            file.rows::<Rule>(table);
            let found = file.into_problems();
            assert_eq!(
                found.iter().map(|problem| problem.mend.as_str()).collect::<Vec<_>>(),
                [mend],
                "{found:#?}"
            );
        };
        check(&format!("{head}value.number = \"4\"\n{SOURCE}"), "write a plain number without quotes");
        check(&format!("{head}value.length = 4\n{SOURCE}"), "write it in quotes, with its unit");
        check(&format!("{head}value.yes_no = \"yes\"\n{SOURCE}"), "write true or false without quotes");
        check(
            &format!("{head}value.word = \"a\"\nvalue.number = 1\n{SOURCE}"),
            "write one kind and only one",
        );
        check(&format!("{head}value.number = 1\nsource = \"label\"\n"), mend(NO_SOURCE).as_str());
    }

    #[test]
    fn a_lap_as_long_as_the_piece_is_refused() {
        let text = format!(
            "[[package]]\nid = \"a\"\nname = \"a\"\nunit = \"piece\"\nform.stick = {{ length = \"2 in\", lap = \"2 in\" }}\n{SOURCE}\n"
        );
        let found = problems(&text);
        assert_eq!(
            found,
            ["t.toml:5:39: package `a`: `lap` is 2 in; it must be from zero to less than `length`, 2 in"]
        );
    }

    #[test]
    fn one_id_twice_in_a_file_is_refused() {
        let row =
            format!("[[package]]\nid = \"a\"\nname = \"a\"\nunit = \"piece\"\nform.each = {{}}\n{SOURCE}\n");
        assert_eq!(
            problems(&format!("{row}{row}")),
            ["t.toml:7:1: package `a` stands twice in this file; keep one of them"]
        );
    }

    #[test]
    fn a_file_that_is_not_toml_gives_its_syntax_errors() {
        let found = problems("\u{feff}[[package]]\nid = \"a\nname = 3 3\n");
        assert!(!found.is_empty());
        assert!(found.iter().all(|problem| problem.contains("mend the TOML here")), "{found:#?}");
        assert!(found[0].starts_with("t.toml:2:"), "{}", found[0]);
    }

    #[test]
    fn a_table_that_is_no_list_of_rows_is_refused() {
        assert_eq!(
            problems("package = 3\n"),
            ["t.toml:1:11: `package` is not a list of rows; head each row with [[package]]"]
        );
    }
}
