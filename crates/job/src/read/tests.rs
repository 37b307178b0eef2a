//! The description and the reader say the same: every described field is read, every example can be read, every
//! default is in the books.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use book::Book;
use serde_json::Value as Json;

use super::field::{Described, Section};
use super::{DOCUMENT, sections};
use crate::{Job, Problem};

/// A value that no field takes.
const NONSENSE: &str = "1979-05-27T07:32:00Z";

/// Codes of what the fields of one section, all filled in at once, say to each other.
const QUARRELS: [&str; 12] = [
    "unknown-attic",
    "two-footprints",
    "layer-beneath",
    "on-itself",
    "saltbox-alike",
    "not-low-slope",
    "not-a-vent",
    "shaft-without-light",
    "serves-nothing",
    "mount-without-skylight",
    "small-block",
    "unknown-side",
];

/// The fields that lead from the document to a section.
fn route(to: &'static Section) -> Vec<(&'static Section, &'static dyn Described)> {
    if to.name == DOCUMENT.name {
        return Vec::new();
    }
    let parents =
        sections().into_iter().flat_map(|parent| parent.fields.iter().map(move |field| (parent, *field)));
    let leads = |field: &dyn Described| field.sections().iter().any(|inner| inner.name == to.name);
    let (parent, field) =
        parents.into_iter().find(|(_, field)| leads(*field)).expect("every section is somewhere");
    let mut steps = route(parent);
    steps.push((parent, field));
    steps
}

/// The key and word that tell a section from its kin, if it has kin.
fn tag(section: &Section) -> Option<String> {
    let schema = crate::schema();
    let properties = schema["$defs"][section.name]["properties"].as_object()?;
    let constant = |(key, property): (&String, &Json)| Some(format!("{key} = {}", property.get("const")?));
    properties.iter().find_map(constant)
}

/// A section with all its fields, one of them perhaps with another value.
fn entries(section: &Section, replaced: Option<(&str, &str)>) -> Vec<String> {
    let value = |field: &dyn Described| match replaced {
        Some((key, value)) if key == field.key() => value.to_owned(),
        _ => field.example().to_owned(),
    };
    let fields = section.fields.iter().map(|field| format!("{} = {}", field.key(), value(*field)));
    tag(section).into_iter().chain(fields).collect()
}

/// A section as the value of a field: alone, in a list, or by name.
fn wrapped(field: &dyn Described, inner: &[String]) -> String {
    let table = format!("{{ {} }}", inner.join(", "));
    let opens = |start: &str| field.example().starts_with(start);
    if opens("[") {
        format!("[{table}]")
    } else if opens("{ main = {") {
        format!("{{ main = {table} }}")
    } else {
        table
    }
}

/// A document with every field along the way to a section, and in the section one field with another value.
fn document(section: &'static Section, replaced: Option<(&str, &str)>) -> String {
    let mut inner = entries(section, replaced);
    for (parent, field) in route(section).into_iter().rev() {
        let value = wrapped(field, &inner);
        inner = entries(parent, Some((field.key(), &value)));
    }
    inner.join("\n") + "\n"
}

fn problems(text: &str) -> Vec<Problem> {
    static BOOK: LazyLock<Book> = LazyLock::new(Book::builtin);
    Job::read(text, &BOOK).err().unwrap_or_default()
}

#[test]
fn every_described_field_is_read() {
    for section in sections() {
        for field in section.fields {
            let text = document(section, Some((field.key(), NONSENSE)));
            let place = text.find(NONSENSE).expect("it is there");
            let told = problems(&text).iter().any(|problem| problem.places[0].range.start == place);
            assert!(told, "`{}` of `{}` is described but never read:\n{text}", field.key(), section.name);
        }
    }
}

#[test]
fn every_example_can_be_read() {
    for section in sections() {
        let text = document(section, None);
        let faults: Vec<Problem> = problems(&text);
        let faults = faults.iter().filter(|problem| !QUARRELS.contains(&problem.code));
        let told: String = faults.map(|problem| problem.plain(&text)).collect();
        assert_eq!(told, "", "in `{}`", section.name);
    }
}

#[test]
fn sections_have_names_of_their_own_and_no_key_twice() {
    let sections = sections();
    let names: BTreeSet<&str> = sections.iter().map(|section| section.name).collect();
    assert_eq!(names.len(), sections.len());
    for section in sections {
        let keys: BTreeSet<&str> = section.keys().collect();
        assert_eq!(keys.len(), section.fields.len(), "{}", section.name);
    }
}

#[test]
fn every_unknown_a_field_allows_has_its_default_in_the_books() {
    for section in sections() {
        let allows = |field: &&&dyn Described| {
            field.schema(&mut crate::schema::Definitions::default()).to_string().contains("\"unknown\"")
        };
        for field in section.fields.iter().filter(allows) {
            let text = document(section, Some((field.key(), "\"unknown\"")));
            let faults = problems(&text);
            let missing =
                faults.iter().find(|problem| matches!(problem.code, "no-default" | "unfit-default"));
            assert_eq!(missing, None, "`{}` of `{}`", field.key(), section.name);
        }
    }
}
