//! A table of the document being read by its description.

use toml::de::DeTable;

use super::desk::Desk;
use super::field::{Described, Field, May, Must, Notation, Section};
use super::node::{Node, child, shortened};
use super::notation::{Defaulted, Marked, Survey};
use super::roll::Shape;
use crate::suggest::listed;
use crate::{Figure, Problem, Side, Span};

/// A table, its description, and where it stands.
pub(crate) struct Table<'t, 'b> {
    pub(crate) desk: &'t mut Desk<'b>,
    /// Where a missing key is reported: the header, or the braces of an inline table.
    pub(crate) span: Span,
    /// Such as `block.main`.
    pub(crate) path: String,
    /// The key it stands at, where that is a name someone gave.
    pub(crate) key: String,
    section: &'static Section,
    entries: &'t DeTable<'t>,
    /// The key that says which of several sections this is, if one does.
    tag: Option<&'static str>,
    /// Those sections by word.
    kin: Vec<(&'static str, &'static Section)>,
}

impl<'t, 'b> Table<'t, 'b> {
    /// The table at a node; none after reporting that there is none.
    pub(crate) fn open(section: &'static Section, node: &Node<'t>, desk: &'t mut Desk<'b>) -> Option<Self> {
        let Some(entries) = node.table() else {
            return desk.refuse(node.wrong_kind("a table", &example_of(section)));
        };
        Some(Self {
            desk,
            span: node.span.clone(),
            path: node.path.clone(),
            key: node.key.clone(),
            section,
            entries,
            tag: None,
            kin: Vec::new(),
        })
    }

    /// The whole document.
    pub(crate) fn root(section: &'static Section, entries: &'t DeTable<'t>, desk: &'t mut Desk<'b>) -> Self {
        let (path, key) = (String::new(), String::new());
        Self { desk, span: 0..0, path, key, section, entries, tag: None, kin: Vec::new() }
    }

    /// The same, known to be one of several sections told apart by the word at `tag`.
    pub(crate) fn one_of(self, tag: &'static str, kin: Vec<(&'static str, &'static Section)>) -> Self {
        Self { tag: Some(tag), kin, ..self }
    }

    /// The value of a field that must be there; none after reporting why not.
    pub(crate) fn must<N: Notation>(&mut self, field: &Must<N>) -> Option<N::Value> {
        match self.node(&field.0) {
            Some(node) => field.0.notation.read(&node, self.desk),
            None => self.desk.refuse(self.missing(field)),
        }
    }

    /// The value of a field that may be left out; none if it is, and after reporting why it cannot be read.
    pub(crate) fn may<N: Notation>(&mut self, field: &May<N>) -> Option<N::Value> {
        let node = self.node(&field.0)?;
        field.0.notation.read(&node, self.desk)
    }

    /// The figure of a field; left out or unknown, the books' default is assumed.
    pub(crate) fn survey<N: Defaulted>(&mut self, field: &May<Survey<N>>) -> Option<Figure<N::Value>> {
        match self.node(&field.0) {
            Some(node) => field.0.notation.read(&node, self.desk),
            None => field.0.notation.assume(&child(&self.path, field.0.key), &self.span, self.desk),
        }
    }

    /// The figure of a field no result leans on; left out, the books' default is taken without being an assumption.
    pub(crate) fn quietly<N: Defaulted>(&mut self, field: &May<Survey<N>>) -> Option<Figure<N::Value>> {
        match self.node(&field.0) {
            Some(node) => field.0.notation.read(&node, self.desk),
            None => field.0.notation.derive(&child(&self.path, field.0.key), &self.span, self.desk),
        }
    }

    /// Where a key's value stands, or the whole table where the key is left out.
    pub(crate) fn span_of(&self, key: &str) -> Span {
        self.entries.get(key).map_or_else(|| self.span.clone(), toml::Spanned::span)
    }

    /// The text of a key, as written; none where it has none.
    pub(crate) fn text_of(&self, key: &str) -> Option<&'t str> {
        self.entries.get(key)?.get_ref().as_str()
    }

    /// Whether a key is written, readable or not.
    pub(crate) fn has(&self, key: &str) -> bool {
        self.entries.contains_key(key)
    }

    /// Reports a side that a block of this shape does not have.
    pub(crate) fn check_side(&mut self, side: &Marked<Side>, shape: &Shape) {
        if !shape.sides().contains(&side.value) {
            let message = format!("`{}` has no side `{}`", self.path, side.value);
            let problem = Problem::error("unknown-side", message, shape.offer(&side.value.to_string()));
            self.desk.report(problem.at(side.span.clone(), ""));
        }
    }

    /// Reports every key that is not described.
    pub(crate) fn close(self) {
        for (key, _) in self.entries {
            let known =
                self.tag == Some(key.get_ref()) || self.section.keys().any(|known| known == key.get_ref());
            if !known {
                self.desk.report(self.unknown_key(key.get_ref(), key.span()));
            }
        }
    }

    fn node<N: Notation>(&self, field: &Field<N>) -> Option<Node<'t>> {
        debug_assert!(
            self.section.keys().any(|key| key == field.key),
            "`{}` is read but not described",
            field.key
        );
        let value = self.entries.get(field.key)?;
        Some(Node::new(value, child(&self.path, field.key)))
    }

    fn missing(&self, field: &dyn Described) -> Problem {
        let (key, what) = (field.key(), field.what());
        let message = format!("{} has no `{key}`", self.name());
        let line = if self.path.is_empty() && !field.sections().is_empty() {
            heading(key, field.example())
        } else {
            format!("`{key} = {}`", field.example())
        };
        Problem::error("missing-key", message, format!("add {line}: {what}")).at(self.span.clone(), "")
    }

    fn unknown_key(&self, key: &str, span: Span) -> Problem {
        let message = format!("`{}` is not a key of {}", shortened(key), self.name());
        let near = || book::nearest(key, self.section.keys()).map(|meant| format!("did you mean `{meant}`?"));
        let mend = self.of_kin(key).or_else(near).unwrap_or_else(|| self.elsewhere(key));
        Problem::error("unknown-key", message, mend).at(span, "")
    }

    /// Which words at the tag would allow the key.
    fn of_kin(&self, key: &str) -> Option<String> {
        let has = |section: &Section| section.keys().any(|known| known == key);
        let words: Vec<&str> =
            self.kin.iter().filter(|(_, section)| has(section)).map(|(word, _)| *word).collect();
        let tag = self.tag.filter(|_| !words.is_empty())?;
        Some(format!("it goes with the {tag} {}: change `{tag}`, or take `{key}` out", listed(words)))
    }

    /// Which section has the key, or which keys there are here.
    fn elsewhere(&self, key: &str) -> String {
        let here = outer_name(self.section.name);
        let mut homes: Vec<&str> =
            super::describing(key).into_iter().map(outer_name).filter(|home| *home != here).collect();
        homes.dedup();
        if homes.is_empty() {
            format!("take it out; the keys here are {}", self.section.keys().collect::<Vec<_>>().join(", "))
        } else {
            format!("move it: `{key}` is a key of {}", listed(homes))
        }
    }

    fn name(&self) -> String {
        if self.path.is_empty() { "the document".to_owned() } else { format!("`{}`", self.path) }
    }
}

/// `roof` of `roof.gable`.
fn outer_name(section: &str) -> &str {
    section.split('.').next().unwrap_or(section)
}

/// The heading of a section, with one pair of brackets or, for a list, two.
fn heading(key: &str, example: &str) -> String {
    if example.starts_with('[') { format!("a heading [[{key}]]") } else { format!("a heading [{key}]") }
}

/// The required fields of a section, or its first, as an inline table.
fn example_of(section: &Section) -> String {
    let required = || section.fields.iter().filter(|field| field.is_required());
    let shown: Vec<_> = if required().next().is_some() {
        required().collect()
    } else {
        section.fields.iter().take(1).collect()
    };
    let entries: Vec<String> =
        shown.iter().map(|field| format!("{} = {}", field.key(), field.example())).collect();
    format!("{{ {} }}", entries.join(", "))
}
