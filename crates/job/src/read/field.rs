//! How the document is described: sections of fields, each with its key, what it is, how it is written.
//!
//! One description serves two readers: [`super::table`] reads documents by it, and [`crate::schema`] writes the JSON
//! Schema from it. A key that is described nowhere cannot be read, and is an error when a person writes it.

use serde_json::Value as Json;

use super::desk::Desk;
use super::node::Node;
use super::table::Table;
use crate::schema::Definitions;

/// A way of writing values: how one is read and how a schema tells it.
pub(crate) trait Notation: Sync {
    /// What reading gives.
    type Value;

    /// The value of a node; none after reporting why not.
    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Self::Value>;

    /// JSON Schema of the notation.
    fn schema(&self, definitions: &mut Definitions) -> Json;

    /// Sections that values in this notation are made of.
    fn sections(&self) -> Vec<&'static Section> {
        Vec::new()
    }
}

/// One key of a section.
pub(crate) struct Field<N> {
    /// As written.
    pub(crate) key: &'static str,
    /// What it is, for schemas and messages.
    pub(crate) what: &'static str,
    /// A value as the document would write it.
    pub(crate) example: &'static str,
    /// How its values are written.
    pub(crate) notation: N,
}

/// A field every document must have.
pub(crate) struct Must<N>(pub(crate) Field<N>);

/// A field that may be left out.
pub(crate) struct May<N>(pub(crate) Field<N>);

impl<N> Must<N> {
    pub(crate) const fn new(
        key: &'static str,
        what: &'static str,
        example: &'static str,
        notation: N,
    ) -> Self {
        Self(Field { key, what, example, notation })
    }
}

impl<N> May<N> {
    pub(crate) const fn new(
        key: &'static str,
        what: &'static str,
        example: &'static str,
        notation: N,
    ) -> Self {
        Self(Field { key, what, example, notation })
    }
}

/// What a schema, a hint or a test asks of a field, whatever its notation.
pub(crate) trait Described: Sync {
    fn key(&self) -> &'static str;
    fn what(&self) -> &'static str;
    fn example(&self) -> &'static str;
    fn is_required(&self) -> bool;
    fn schema(&self, definitions: &mut Definitions) -> Json;
    fn sections(&self) -> Vec<&'static Section>;
}

macro_rules! described {
    ($field:ident, $required:literal) => {
        impl<N: Notation> Described for $field<N> {
            fn key(&self) -> &'static str {
                self.0.key
            }

            fn what(&self) -> &'static str {
                self.0.what
            }

            fn example(&self) -> &'static str {
                self.0.example
            }

            fn is_required(&self) -> bool {
                $required
            }

            fn schema(&self, definitions: &mut Definitions) -> Json {
                self.0.notation.schema(definitions)
            }

            fn sections(&self) -> Vec<&'static Section> {
                self.0.notation.sections()
            }
        }
    };
}

described! { Must, true }
described! { May, false }

/// A table of the document.
pub(crate) struct Section {
    /// Unique name, such as `block` or `roof.gable`.
    pub(crate) name: &'static str,
    /// What it is.
    pub(crate) what: &'static str,
    /// Its keys.
    pub(crate) fields: &'static [&'static dyn Described],
}

impl Section {
    /// Its keys, in order of description.
    pub(crate) fn keys(&self) -> impl Iterator<Item = &'static str> {
        self.fields.iter().map(|field| field.key())
    }
}

/// A table with keys of its own, read by a function.
pub(crate) struct Nested<T> {
    pub(crate) section: &'static Section,
    pub(crate) read: fn(&mut Table<'_, '_>) -> Option<T>,
}

impl<T> Notation for Nested<T> {
    type Value = T;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<T> {
        let mut table = Table::open(self.section, node, desk)?;
        let value = (self.read)(&mut table);
        table.close();
        value
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        definitions.refer(self.section)
    }

    fn sections(&self) -> Vec<&'static Section> {
        vec![self.section]
    }
}
