//! The blocks of a document by name and the year of the house, known before anything else is read, so that any field may refer to
//! any of them.

use std::collections::BTreeMap;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::node::{Node, shortened};
use super::notation::{Marked, whole};
use super::relations::twice;
use crate::suggest::listed;
use crate::{Problem, Side, Span};

/// The blocks, in document order.
#[derive(Default)]
pub(crate) struct Roll {
    entries: Vec<Entry>,
    /// Where each name stands first in the list.
    by_name: BTreeMap<String, usize>,
    /// Year the house was built, as far as it can be read.
    built: Option<Marked<i64>>,
}

/// Blocks whose names are offered or compared for a hint; no house has as many.
const MOST_OFFERED: usize = 40;

/// A block's name and the sides it has.
pub(crate) struct Entry {
    pub(crate) name: String,
    /// Where the name stands.
    pub(crate) span: Span,
    pub(crate) shape: Shape,
    /// The block whose roof it stands on, and where that is written.
    on: Option<Marked<String>>,
}

/// What sides a block has.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Shape {
    /// South, east, north and west.
    Rectangle,
    /// Numbered edges: how many in the outline, then in each hole.
    Outline(Vec<usize>),
}

/// A block, or a side of one, that cannot be found.
pub(crate) struct Lost {
    code: &'static str,
    message: String,
    mend: String,
}

impl Lost {
    /// The error of a heading such as `[walls.NAME]`.
    pub(crate) fn in_heading(self, section: &str, span: &Span) -> Problem {
        Problem::error(self.code, format!("`{section}` {}", self.message), self.mend).at(span.clone(), "")
    }

    /// The error of the field that refers to it.
    pub(crate) fn at(self, node: &Node<'_>) -> Problem {
        node.error(self.code, format!("`{}` {}", node.path, self.message), self.mend)
    }
}

impl Roll {
    /// Takes the roll of a document without reporting anything: what cannot be read is reported when it is read.
    pub(crate) fn call(document: &DeTable<'_>) -> Self {
        let blocks = document.get("block").and_then(|blocks| blocks.get_ref().as_array());
        let entries: Vec<Entry> =
            blocks.into_iter().flat_map(|blocks| blocks.iter()).filter_map(Entry::of).collect();
        let mut by_name = BTreeMap::new();
        for (index, entry) in entries.iter().enumerate() {
            by_name.entry(entry.name.clone()).or_insert(index);
        }
        Self { entries, by_name, built: built(document) }
    }

    /// Year the house was built, if the document says so.
    pub(crate) fn built(&self) -> Option<&Marked<i64>> {
        self.built.as_ref()
    }

    /// What is wrong among the blocks: names given twice, dormers that stand on themselves.
    pub(crate) fn faults(&self) -> Vec<Problem> {
        let repeated = self.entries.iter().filter_map(|entry| self.repeated(entry));
        repeated.chain(self.entries.iter().filter_map(|entry| self.stands_on_itself(entry))).collect()
    }

    fn repeated(&self, entry: &Entry) -> Option<Problem> {
        let first = self.find(&entry.name).filter(|first| first.span != entry.span)?;
        let name = Marked { value: entry.name.clone(), span: entry.span.clone() };
        Some(twice("blocks", &name, &first.span))
    }

    /// The chain of blocks below a dormer must end on one that stands on the ground.
    fn stands_on_itself(&self, entry: &Entry) -> Option<Problem> {
        let below = |entry: &&Entry| self.find(&entry.on.as_ref()?.value);
        let mut chain = std::iter::successors(below(&entry), |entry| below(entry)).take(self.entries.len());
        let on = entry.on.as_ref().filter(|_| chain.any(|other| other.name == entry.name))?;
        let by_way =
            if on.value == entry.name { String::new() } else { format!(" by way of `{}`", on.value) };
        let message = format!("`block.{}` stands on its own roof{by_way}", entry.name);
        let mend = "take `on` out of the block that stands on the ground";
        Some(Problem::error("on-itself", message, mend).at(on.span.clone(), ""))
    }

    /// The block of that name; the first, should there be two.
    pub(crate) fn find(&self, name: &str) -> Option<&Entry> {
        self.by_name.get(name).and_then(|index| self.entries.get(*index))
    }

    /// The name of a block, checked.
    pub(crate) fn block(&self, name: &str) -> Result<&Entry, Lost> {
        self.find(name).ok_or_else(|| self.lost(name))
    }

    /// A block and perhaps one of its sides, written `main` or `main south`.
    pub(crate) fn block_and_side(&self, text: &str) -> Result<(&Entry, Option<Side>), Lost> {
        let (entry, rest) = self.block_and_rest(text)?;
        if rest.is_empty() { Ok((entry, None)) } else { Ok((entry, Some(entry.side(rest)?))) }
    }

    /// A block and what follows its name. Of several names that fit the longest is taken.
    pub(crate) fn block_and_rest<'t>(&self, text: &'t str) -> Result<(&Entry, &'t str), Lost> {
        let text = text.trim();
        let spaces = text.rmatch_indices(' ').map(|(at, _)| at);
        let mut ends = std::iter::once(text.len()).chain(spaces);
        let found = ends.find_map(|end| Some((self.find(&text[..end])?, text[end..].trim())));
        found.ok_or_else(|| self.lost(text))
    }

    fn lost(&self, text: &str) -> Lost {
        let names = || self.entries.iter().take(MOST_OFFERED).map(|entry| entry.name.as_str());
        let first_word = text.split(' ').next().unwrap_or_default();
        let mend = match book::nearest(text, names()).or_else(|| book::nearest(first_word, names())) {
            Some(meant) => format!("did you mean `{meant}`?"),
            None if self.entries.is_empty() => "give the blocks names first".to_owned(),
            None => format!("name one of the blocks {}", listed(names())),
        };
        let message = format!("names no block of this job: `{}`", shortened(text));
        Lost { code: "unknown-block", message, mend }
    }
}

fn built(document: &DeTable<'_>) -> Option<Marked<i64>> {
    let year = document.get("site")?.get_ref().as_table()?.get("year_built")?;
    Some(Marked { value: whole(year.get_ref())?, span: year.span() })
}

impl Entry {
    fn of(item: &Spanned<DeValue<'_>>) -> Option<Self> {
        let table = item.get_ref().as_table()?;
        let name = table.get("name")?;
        let text = name.get_ref().as_str().filter(|text| !text.is_empty())?;
        let on = table
            .get("on")
            .and_then(|on| Some(Marked { value: on.get_ref().as_str()?.to_owned(), span: on.span() }));
        Some(Self { name: text.to_owned(), span: name.span(), shape: Shape::of(table), on })
    }

    /// Its sides.
    pub(crate) fn sides(&self) -> Vec<Side> {
        self.shape.sides()
    }

    /// A side of it by name.
    pub(crate) fn side(&self, text: &str) -> Result<Side, Lost> {
        let side = Side::parse(text).filter(|side| self.sides().contains(side));
        side.ok_or_else(|| Lost {
            code: "unknown-side",
            message: format!("names no side of `{}`: `{}`", self.name, shortened(text)),
            mend: self.shape.offer(text),
        })
    }
}

impl Shape {
    /// Of a block's table, readable or not.
    pub(crate) fn of(block: &DeTable<'_>) -> Self {
        let count =
            |value: &Spanned<DeValue<'_>>| value.get_ref().as_array().map_or(0, |points| points.len());
        let Some(outline) = block.get("outline") else { return Self::Rectangle };
        let holes = block.get("holes").and_then(|holes| holes.get_ref().as_array());
        let holes = holes.into_iter().flat_map(|holes| holes.iter()).map(count);
        Self::Outline(std::iter::once(count(outline)).chain(holes).collect())
    }

    /// All sides, contour by contour.
    pub(crate) fn sides(&self) -> Vec<Side> {
        match self {
            Self::Rectangle => Side::COMPASS.to_vec(),
            Self::Outline(counts) => {
                let edges = |(contour, &count)| (1..=count).map(move |number| Side::Edge { contour, number });
                counts.iter().enumerate().flat_map(edges).collect()
            }
        }
    }

    /// What to write instead of a side that is not there.
    pub(crate) fn offer(&self, text: &str) -> String {
        match self {
            Self::Rectangle => match book::nearest(text, ["south", "east", "north", "west"]) {
                Some(meant) => format!("did you mean `{meant}`?"),
                None => "a rectangle has the sides south, east, north and west".to_owned(),
            },
            Self::Outline(counts) => {
                let outer = counts.first().copied().unwrap_or_default();
                format!(
                    "an outline has numbered edges: write 1 to {outer}, edge 1 from the first point to the second"
                )
            }
        }
    }
}
