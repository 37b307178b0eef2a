//! A quantity within bounds.

use serde_json::{Value as Json, json};
use toml::de::DeValue;

use super::written::retold;
use super::{Unread, Written};
use crate::Problem;
use crate::read::desk::Desk;
use crate::read::field::Notation;
use crate::read::node::{Node, shortened};
use crate::schema::Definitions;

/// A quantity, and between what it makes sense where it stands.
pub(crate) struct Quantity<Q> {
    bounds: Option<Bounds<Q>>,
}

/// The least and the most, both taken in, as text.
struct Bounds<Q> {
    least: &'static str,
    most: &'static str,
    /// Whether the first is no more than the second.
    in_order: fn(&Q, &Q) -> bool,
}

impl<Q: Written> Quantity<Q> {
    /// Any that can be written.
    pub(crate) const ANY: Self = Self { bounds: None };
}

impl<Q: Written + PartialOrd> Quantity<Q> {
    /// From `least` to `most`, both taken in.
    pub(crate) const fn within(least: &'static str, most: &'static str) -> Self {
        Self { bounds: Some(Bounds { least, most, in_order: |one, other| one <= other }) }
    }
}

impl<Q: Written> Bounds<Q> {
    /// What is wrong with a value beyond the bounds.
    fn fault(&self, value: Q, node: &Node<'_>) -> Option<Problem> {
        let (least, most) = (Q::parse(self.least).ok()?, Q::parse(self.most).ok()?);
        let is_below = !(self.in_order)(&least, &value);
        (is_below || !(self.in_order)(&value, &most)).then(|| {
            let text = node.text().unwrap_or_default();
            let told = |bound: Q, words: &str, is_least: bool| {
                retold(bound, words, text, is_least).unwrap_or_else(|| words.to_owned())
            };
            let bounds = [told(least, self.least, true), told(most, self.most, false)];
            out_of_bounds(node, &bounds, is_below)
        })
    }
}

/// The error of a value beyond bounds, told in the unit it is written in.
fn out_of_bounds(node: &Node<'_>, [least, most]: &[String; 2], is_below: bool) -> Problem {
    let beyond = if is_below { format!("less than {least}") } else { format!("more than {most}") };
    let message = format!("`{}` is {}, {beyond}", node.path, shortened(node.text().unwrap_or_default()));
    node.error(
        "out-of-range",
        message,
        format!("check the figure and its unit: it must be from {least} to {most}"),
    )
}

impl<Q: Written> Quantity<Q> {
    /// The error of a number without its unit, with what it may have meant that makes sense here.
    fn bare(&self, node: &Node<'_>, number: &str) -> Problem {
        let message = format!("`{}` is the bare number {number}, but {} needs its unit", node.path, Q::NOUN);
        let makes_sense = |text: &String| {
            let value = Q::parse(text).ok();
            value.is_some_and(|value| {
                self.bounds.as_ref().is_none_or(|bounds| bounds.fault(value, node).is_none())
            })
        };
        let meant: Vec<String> =
            Q::dressed(number).into_iter().filter(makes_sense).map(|text| quoted(&text)).collect();
        let like = if meant.is_empty() { Q::EXAMPLE.to_owned() } else { meant.join(" or ") };
        node.error("bare-number", message, format!("write it in quotes with its unit, like {like}"))
    }

    fn bounded(&self, value: Q, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Q> {
        match self.bounds.as_ref().and_then(|bounds| bounds.fault(value, node)) {
            Some(problem) => desk.refuse(problem),
            None => Some(value),
        }
    }
}

impl<Q: Written> Notation for Quantity<Q> {
    type Value = Q;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Q> {
        if node.is_unknown() {
            return desk.refuse(node.must_be_measured());
        }
        match node.value {
            DeValue::String(text) => match Q::parse(text) {
                Ok(value) => self.bounded(value, node, desk),
                Err(fault) => desk.refuse(unread::<Q>(node, text, fault)),
            },
            DeValue::Integer(number) => desk.refuse(self.bare(node, &number.to_string())),
            DeValue::Float(number) => desk.refuse(self.bare(node, number.as_str())),
            _ => desk.refuse(node.wrong_kind(Q::NOUN, Q::EXAMPLE)),
        }
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        let reference = definitions.refer_to_written::<Q>();
        match &self.bounds {
            Some(Bounds { least, most, .. }) => {
                json!({ "$ref": reference, "description": format!("from {least} to {most}") })
            }
            None => json!({ "$ref": reference }),
        }
    }
}

fn unread<Q: Written>(node: &Node<'_>, text: &str, fault: Unread) -> Problem {
    let message = format!("`{}` cannot be read as {}: {}", node.path, Q::NOUN, fault.message);
    let mend = if fault.mend.is_empty() { format!("write it like {}", Q::EXAMPLE) } else { fault.mend };
    let mut problem = node.error("unreadable", message, mend);
    if let Some(place) = problem.places.first_mut() {
        place.range = within(node, text, fault.at);
    }
    problem
}

/// The bytes at fault inside the quotes, if the text stands there as it reads; else the whole value.
fn within(node: &Node<'_>, text: &str, at: std::ops::Range<usize>) -> std::ops::Range<usize> {
    let verbatim = node.span.len() == text.len() + 2;
    let start = node.span.start + 1;
    if verbatim && !at.is_empty() { start + at.start..start + at.end } else { node.span.clone() }
}

fn quoted(text: &str) -> String {
    format!("\"{text}\"")
}
