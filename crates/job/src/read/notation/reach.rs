//! Overhangs: a length, `level with` another block, or unknown; one for all, at eaves and rakes, or by side.

use measure::Length;
use serde_json::{Map as JsonMap, Value as Json, json};

use super::sided::{by_side, sides};
use super::{Marked, Quantity, Written};
use crate::read::desk::Desk;
use crate::read::field::Notation;
use crate::read::node::{Node, UNKNOWN, child, shortened};
use crate::schema::Definitions;
use crate::{Basis, Figure, Overhang, Problem, Side, Span};

/// Overhangs a roof may have.
const RANGE: Quantity<Length> = Quantity::within("0'", "8'");
/// What stands before the name of a block.
const LEVEL_WITH: &str = "level with ";

/// How far one edge reaches out.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Reach {
    /// As written.
    Written(Overhang),
    /// Nobody knows: the books' default for an eave or a rake, whichever the edge turns out to be.
    Unknown(Span),
}

/// How an overhang is written.
struct ReachText;

impl Notation for ReachText {
    type Value = Reach;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Reach> {
        if node.is_unknown() {
            return Some(Reach::Unknown(node.span.clone()));
        }
        if let Some(name) = node.text().and_then(|text| text.trim().strip_prefix(LEVEL_WITH)) {
            return level_with(name, node, desk).map(Reach::Written);
        }
        if node.is_word() {
            return desk.refuse(not_a_reach(node));
        }
        let value = RANGE.read(node, desk)?;
        Some(Reach::Written(Overhang::Run(Figure { value, basis: Basis::Measured, span: node.span.clone() })))
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        let level = json!({
            "type": "string",
            "pattern": format!("^{LEVEL_WITH}"),
            "description": "as far as keeps the fascia level with the eave of that block, or of that side of it",
        });
        json!({ "anyOf": [RANGE.schema(definitions), level, { "const": UNKNOWN }] })
    }
}

fn not_a_reach(node: &Node<'_>) -> Problem {
    let written = shortened(node.text().unwrap_or_default());
    let message = format!(
        "`{}` is `{written}`, neither a length nor `{LEVEL_WITH}` and the name of a block",
        node.path
    );
    node.error(
        "unknown-word",
        message,
        format!("write a length like {}, or \"{LEVEL_WITH}main\"", Length::EXAMPLE),
    )
}

fn level_with(name: &str, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Overhang> {
    match desk.roll().block_and_side(name) {
        Ok((entry, side)) => {
            Some(Overhang::LevelWith { block: entry.name.clone(), side, span: node.span.clone() })
        }
        Err(lost) => desk.refuse(lost.at(node)),
    }
}

/// How the overhangs of a block are written.
pub(crate) struct Overhangs;

/// The overhangs of a block.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Reaches {
    all: Option<Reach>,
    eave: Option<Reach>,
    rake: Option<Reach>,
    pub(crate) sides: Vec<(Marked<Side>, Reach)>,
}

impl Reaches {
    /// Nothing written.
    pub(crate) const NONE: Self = Self { all: None, eave: None, rake: None, sides: Vec::new() };

    /// How far a side reaches out that slopes.
    pub(crate) fn at_eave(&self, side: Side) -> Option<&Reach> {
        self.at(side).or(self.eave.as_ref()).or(self.all.as_ref())
    }

    /// How far a side reaches out that does not slope.
    pub(crate) fn at_rake(&self, side: Side) -> Option<&Reach> {
        self.at(side).or(self.rake.as_ref()).or(self.all.as_ref())
    }

    fn at(&self, side: Side) -> Option<&Reach> {
        self.sides.iter().find(|(named, _)| named.value == side).map(|(_, reach)| reach)
    }
}

impl Notation for Overhangs {
    type Value = Reaches;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<Reaches> {
        let Some(entries) = node.table() else {
            return Some(Reaches { all: Some(ReachText.read(node, desk)?), ..Reaches::NONE });
        };
        let mut spoilt = false;
        let mut one = |key: &str, desk: &mut Desk<'_>| {
            let written =
                entries.get(key).map(|value| ReachText.read(&Node::new(value, child(&node.path, key)), desk));
            spoilt |= written == Some(None);
            written.flatten()
        };
        let (eave, rake) = (one("eave", desk), one("rake", desk));
        let sides = sides(&ReachText, entries, &node.path, &["eave", "rake"], desk)?;
        (!spoilt).then_some(Reaches { all: None, eave, rake, sides })
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        let reach = ReachText.schema(definitions);
        let mut others = JsonMap::new();
        others.insert("eave".to_owned(), reach.clone());
        others.insert("rake".to_owned(), reach.clone());
        json!({ "anyOf": [reach, by_side(&reach, others)] })
    }
}
