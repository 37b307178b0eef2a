//! Plain numbers, counts, and yes or no.

use serde_json::{Value as Json, json};
use toml::de::DeValue;

use crate::Problem;
use crate::read::desk::Desk;
use crate::read::field::Notation;
use crate::read::node::Node;
use crate::schema::Definitions;

/// A plain number within bounds, for what has no unit of its own; what it counts in is said in the field.
pub(crate) struct Number(pub(crate) f64, pub(crate) f64);

impl Notation for Number {
    type Value = f64;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<f64> {
        let Self(least, most) = *self;
        match plain(node.value) {
            Some(value) if (least..=most).contains(&value) => Some(value),
            Some(value) => desk.refuse(out_of_bounds(node, value, least, most)),
            None if node.is_unknown() => desk.refuse(node.must_be_measured()),
            None => desk.refuse(node.wrong_kind(
                &format!("a number from {least} to {most}"),
                &format!("{}, without quotes", least.max(1.0)),
            )),
        }
    }

    fn schema(&self, _: &mut Definitions) -> Json {
        json!({ "type": "number", "minimum": self.0, "maximum": self.1 })
    }
}

/// A whole number within bounds.
pub(crate) struct Count(pub(crate) u32, pub(crate) u32);

impl Notation for Count {
    type Value = u32;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<u32> {
        let Self(least, most) = *self;
        match whole(node.value) {
            Some(value) => match u32::try_from(value).ok().filter(|count| (least..=most).contains(count)) {
                Some(count) => Some(count),
                None => desk.refuse(out_of_bounds(node, value, least, most)),
            },
            None if node.is_unknown() => desk.refuse(node.must_be_measured()),
            None => desk.refuse(node.wrong_kind(
                &format!("a whole number from {least} to {most}"),
                &format!("{}, without quotes", least.max(1)),
            )),
        }
    }

    fn schema(&self, _: &mut Definitions) -> Json {
        json!({ "type": "integer", "minimum": self.0, "maximum": self.1 })
    }
}

/// Yes or no.
pub(crate) struct Flag;

impl Notation for Flag {
    type Value = bool;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<bool> {
        match node.value {
            DeValue::Boolean(yes) => Some(*yes),
            _ if node.is_unknown() => desk.refuse(node.must_be_measured()),
            _ => desk.refuse(node.wrong_kind("yes or no", "true or false, without quotes")),
        }
    }

    fn schema(&self, _: &mut Definitions) -> Json {
        json!({ "type": "boolean" })
    }
}

fn out_of_bounds<T: std::fmt::Display, B: std::fmt::Display>(
    node: &Node<'_>,
    value: T,
    least: B,
    most: B,
) -> Problem {
    let message = format!("`{}` is {value}, which is not from {least} to {most}", node.path);
    node.error("out-of-range", message, format!("write a number from {least} to {most}"))
}

/// A whole number, in any notation TOML has for them.
pub(crate) fn whole(value: &DeValue<'_>) -> Option<i64> {
    let number = value.as_integer()?;
    i64::from_str_radix(number.as_str(), number.radix()).ok()
}

fn plain(value: &DeValue<'_>) -> Option<f64> {
    match value {
        DeValue::Integer(number) if number.radix() == 10 => number.as_str().parse().ok(),
        DeValue::Float(number) => number.as_str().parse().ok().filter(|value: &f64| value.is_finite()),
        _ => None,
    }
}
