//! Free text, names, days, and values that remember where they stand.

use std::ops::RangeInclusive;

use serde_json::{Value as Json, json};
use toml::de::DeValue;

use crate::read::desk::Desk;
use crate::read::field::{Notation, Section};
use crate::read::node::Node;
use crate::schema::Definitions;
use crate::{Date, Problem, Span};

/// Years of buildings that stand and of what befalls them.
pub(crate) const YEARS: RangeInclusive<u32> = 1600..=2200;

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

/// Text that says something, in so many letters at most. Papers print all of it.
pub(crate) struct Text(usize);

impl Text {
    /// What a job is called: papers carry it on every page, and as a property of the file.
    pub(crate) const TITLE: Self = Self(300);
    /// A remark: a page of writing at most.
    pub(crate) const NOTE: Self = Self(4000);
    /// Whatever says more about its own length.
    const ANY: Self = Self(usize::MAX);
}

impl Notation for Text {
    type Value = String;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<String> {
        let Some(text) = node.text() else {
            return desk.refuse(node.wrong_kind("text", "\"words in quotes\""));
        };
        if text.trim().is_empty() {
            let message = format!("`{}` is empty", node.path);
            return desk.refuse(node.error("empty-text", message, "write something, or take the line out"));
        }
        let length = text.chars().count();
        if length > self.0 {
            let message = format!("`{}` has {length} letters, more than {}", node.path, self.0);
            let mend = "shorten it, and keep the long version in a file of its own";
            return desk.refuse(node.error("text-too-long", message, mend));
        }
        Some(text.to_owned())
    }

    fn schema(&self, _: &mut Definitions) -> Json {
        json!({ "type": "string", "pattern": r"\S", "maxLength": self.0 })
    }
}

/// A name: text on one line, without space at its ends.
pub(crate) struct Name;

impl Notation for Name {
    type Value = String;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<String> {
        let name = Text::ANY.read(node, desk)?;
        if is_name(&name) { Some(name) } else { desk.refuse(bad_name(&node.path, &node.span)) }
    }

    fn schema(&self, _: &mut Definitions) -> Json {
        json!({ "type": "string", "pattern": r"^\S(.*\S)?$", "maxLength": LONGEST_NAME })
    }
}

/// Most letters of a name.
pub(crate) const LONGEST_NAME: usize = 60;

/// Whether a text can be a name.
pub(crate) fn is_name(text: &str) -> bool {
    text.trim() == text
        && !text.contains(char::is_control)
        && (1..=LONGEST_NAME).contains(&text.chars().count())
}

/// The error of a text that cannot be one.
pub(crate) fn bad_name(path: &str, span: &Span) -> Problem {
    let message =
        format!("`{path}` is empty, has space at its ends, a line break or more than {LONGEST_NAME} letters");
    Problem::error("bad-name", message, "write a short name such as \"main\"").at(span.clone(), "")
}

/// A day on which something befell the house, such as 2025-06-14, with or without quotes.
pub(crate) struct Day;

/// What is wrong with a day that no house of today can have seen, or this one cannot.
fn no_day_of_the_house(node: &Node<'_>, day: Date, desk: &Desk<'_>) -> Option<Problem> {
    let (path, year) = (&node.path, day.year);
    if !YEARS.contains(&u32::from(year)) {
        let message = format!("`{path}` is in the year {year}");
        return Some(node.error("out-of-range", message, "check the year, four digits that come first"));
    }
    let built = desk.roll().built().filter(|built| i64::from(year) < built.value)?;
    let message = format!("`{path}` is in {year}, but the house was built in {}", built.value);
    let problem = node.error("before-the-house", message, "check this day and `site.year_built`");
    Some(problem.at(built.span.clone(), "the year it was built"))
}

impl Notation for Day {
    type Value = Date;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Date> {
        let parsed = node.text().and_then(|text| text.parse().ok());
        let written = if let DeValue::Datetime(date) = node.value { Some(*date) } else { parsed };
        let day = written.filter(|written| written.time.is_none()).and_then(|written| written.date);
        let Some(day) = day else {
            return desk.refuse(node.wrong_kind("a day", "2025-06-14, year first, without quotes"));
        };
        let day = Date { year: day.year, month: day.month, day: day.day };
        match no_day_of_the_house(node, day, desk) {
            Some(problem) => desk.refuse(problem),
            None => Some(day),
        }
    }

    fn schema(&self, _: &mut Definitions) -> Json {
        json!({ "type": "string", "format": "date" })
    }
}
