//! Figures that may be unknown.

use serde_json::{Value as Json, json};

use book::{DefaultValue, Kind};

use super::{Count, Flag, Quantity, Text, Words, Written};
use crate::read::desk::Desk;
use crate::read::field::Notation;
use crate::read::node::{Node, UNKNOWN};
use crate::schema::Definitions;
use crate::{Basis, Figure, Span};

/// A notation whose values the books can supply.
pub(crate) trait Defaulted: Notation {
    /// The value of a default, if it is one of this notation.
    fn of_book(&self, row: &DefaultValue) -> Option<Self::Value>;
}

impl<Q: Written + Kind> Defaulted for Quantity<Q> {
    fn of_book(&self, row: &DefaultValue) -> Option<Q> {
        Q::of(&row.value)
    }
}

impl<T: Copy + Sync> Defaulted for Words<T> {
    fn of_book(&self, row: &DefaultValue) -> Option<T> {
        String::of(&row.value).and_then(|word| self.find(&word))
    }
}

impl Defaulted for Text {
    fn of_book(&self, row: &DefaultValue) -> Option<String> {
        String::of(&row.value)
    }
}

impl Defaulted for Flag {
    fn of_book(&self, row: &DefaultValue) -> Option<bool> {
        bool::of(&row.value)
    }
}

impl Defaulted for Count {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "checked to be a whole number in range"
    )]
    fn of_book(&self, row: &DefaultValue) -> Option<u32> {
        let number = f64::of(&row.value)?;
        (number.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(&number)).then_some(number as u32)
    }
}

/// A figure that must be measured.
pub(crate) struct Known<N>(pub(crate) N);

impl<N: Notation> Notation for Known<N> {
    type Value = Figure<N::Value>;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Self::Value> {
        let value = self.0.read(node, desk)?;
        Some(Figure { value, basis: Basis::Measured, span: node.span.clone() })
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        self.0.schema(definitions)
    }
}

/// A figure that may be `unknown`: the books' default of that key then stands in.
pub(crate) struct Survey<N>(pub(crate) N, pub(crate) &'static str);

impl<N: Defaulted> Survey<N> {
    /// The default, as an assumption about the field at `path`.
    pub(crate) fn assume(&self, path: &str, span: &Span, desk: &mut Desk<'_>) -> Option<Figure<N::Value>> {
        desk.assume(self.1, path, span, |row| self.0.of_book(row))
    }

    /// The default, where no result leans on it.
    pub(crate) fn derive(&self, path: &str, span: &Span, desk: &mut Desk<'_>) -> Option<Figure<N::Value>> {
        desk.derive(self.1, path, span, |row| self.0.of_book(row))
    }
}

impl<N: Defaulted> Notation for Survey<N> {
    type Value = Figure<N::Value>;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Self::Value> {
        if node.is_unknown() {
            return self.assume(&node.path, &node.span, desk);
        }
        let value = self.0.read(node, desk)?;
        Some(Figure { value, basis: Basis::Measured, span: node.span.clone() })
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        let known = self.0.schema(definitions);
        json!({ "anyOf": [known, { "const": UNKNOWN, "description": format!("takes the books' default `{}`", self.1) }] })
    }
}
