//! The version of the document: `weathershed = 1`.
//!
//! When the notation changes so that old documents would read differently, the number goes up, and a step is added
//! here that brings the tree of an older document to the shape of the next version before it is read.

use serde_json::{Value as Json, json};
use toml::de::{DeTable, DeValue};

use super::desk::Desk;
use super::field::{Must, Notation};
use super::node::Node;
use crate::Problem;
use crate::schema::Definitions;

/// The version this program writes, and the newest it reads.
const CURRENT: i64 = 1;

/// The field.
pub(crate) const VERSION: Must<Version> =
    Must::new("weathershed", "version of the document's notation", "1", Version);

/// How it is written.
pub(crate) struct Version;

impl Notation for Version {
    type Value = ();

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<()> {
        match number(node.value) {
            Some(CURRENT) => Some(()),
            Some(other) => {
                let message = format!("there is no version {other} of the document");
                desk.refuse(node.error("no-such-version", message, format!("write weathershed = {CURRENT}")))
            }
            None => desk.refuse(node.wrong_kind("a version number", "weathershed = 1, without quotes")),
        }
    }

    fn schema(&self, _: &mut Definitions) -> Json {
        json!({ "const": CURRENT })
    }
}

/// The error of a document of a later version.
pub(crate) fn newer(document: &DeTable<'_>) -> Option<Problem> {
    let value = document.get(VERSION.0.key)?;
    let written = number(value.get_ref()).filter(|version| *version > CURRENT)?;
    let message =
        format!("this document is of version {written}; this program reads up to version {CURRENT}");
    let mend = "open it with a newer weathershed, or ask its writer for one of version 1";
    Some(Problem::error("newer-version", message, mend).at(value.span(), ""))
}

fn number(value: &DeValue<'_>) -> Option<i64> {
    let number = value.as_integer()?;
    i64::from_str_radix(number.as_str(), number.radix()).ok()
}
