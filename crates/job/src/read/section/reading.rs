//! `[[reading]]`: tape readings beyond what the blocks need.

use book::Rule;
use measure::Length;

use crate::read::field::{May, Must, Section};
use crate::read::notation::{BlockCorner, BlockName, BlockSide, Quantity};
use crate::read::roll::Shape;
use crate::read::table::Table;
use crate::read::variants::{Case, Variants};
use crate::{Problem, Reading, ReadingOf};

/// A block and the number of its corner.
type Corner = (String, usize);

const VALUE: Must<Quantity<Length>> =
    Must::new("value", "the reading", r#""47' 8 1/2\"""#, Quantity::within("1 in", "500'"));
const SPREAD: May<Quantity<Length>> = May::new(
    "spread",
    "one standard deviation of it; the books' tape reading when left out",
    r#""1/2 in""#,
    Quantity::within("1/64 in", "3'"),
);
const OF_SIDE: Must<BlockSide> = Must::new("of", "block and side", r#""main south""#, BlockSide);
const OF_BLOCK: Must<BlockName> = Must::new("of", "block", r#""main""#, BlockName);
const FROM: Must<BlockCorner> = Must::new("from", "block and corner", r#""main south-west""#, BlockCorner);
const TO: Must<BlockCorner> = Must::new("to", "block and corner", r#""main north-east""#, BlockCorner);

macro_rules! section {
    ($name:ident, $key:literal, $what:literal, [$($field:ident),+]) => {
        const $name: Section = Section { name: $key, what: $what, fields: &[$(&$field,)+ &VALUE, &SPREAD] };
    };
}

section! { WALL, "reading.wall", "length of a wall line", [OF_SIDE] }
section! { DIAGONAL, "reading.diagonal", "corner to opposite corner of a rectangle's walls", [OF_BLOCK] }
section! { DISTANCE, "reading.distance", "corner to corner in plan", [FROM, TO] }
section! { EAVE_HEIGHT, "reading.eave-height", "roof edge of a side above the first floor", [OF_SIDE] }
section! { RIDGE_HEIGHT, "reading.ridge-height", "ridge above the first floor", [OF_BLOCK] }
section! { RAFTER, "reading.rafter", "along the slope from wall line to ridge", [OF_SIDE] }

/// How a reading is written; its corners are still counted as the document counts them.
pub(crate) const READING: Variants<Reading> = Variants {
    refused: None,
    key: "what",
    cases: &[
        Case { word: "wall", section: &WALL, read: wall },
        Case { word: "diagonal", section: &DIAGONAL, read: diagonal },
        Case { word: "distance", section: &DISTANCE, read: between },
        Case { word: "eave height", section: &EAVE_HEIGHT, read: eave_height },
        Case { word: "ridge height", section: &RIDGE_HEIGHT, read: ridge_height },
        Case { word: "rafter", section: &RAFTER, read: rafter },
    ],
};

fn wall(table: &mut Table<'_, '_>) -> Option<Reading> {
    let of = table.must(&OF_SIDE).map(|(block, side)| ReadingOf::Wall { block, side });
    reading(table, of)
}

fn diagonal(table: &mut Table<'_, '_>) -> Option<Reading> {
    let block = table.must(&OF_BLOCK);
    let of = block.and_then(|block| of_rectangle(table, block)).map(|block| ReadingOf::Diagonal { block });
    reading(table, of)
}

fn between(table: &mut Table<'_, '_>) -> Option<Reading> {
    let (from, to) = (table.must(&FROM), table.must(&TO));
    let ends = from.zip(to).and_then(|(from, to)| apart(table, from, to));
    reading(table, ends.map(|(from, to)| ReadingOf::Distance { from, to }))
}

fn eave_height(table: &mut Table<'_, '_>) -> Option<Reading> {
    let of = table.must(&OF_SIDE).map(|(block, side)| ReadingOf::EaveHeight { block, side });
    reading(table, of)
}

fn ridge_height(table: &mut Table<'_, '_>) -> Option<Reading> {
    let of = table.must(&OF_BLOCK).map(|block| ReadingOf::RidgeHeight { block });
    reading(table, of)
}

fn rafter(table: &mut Table<'_, '_>) -> Option<Reading> {
    let of = table.must(&OF_SIDE).map(|(block, side)| ReadingOf::Rafter { block, side });
    reading(table, of)
}

fn reading(table: &mut Table<'_, '_>, of: Option<ReadingOf>) -> Option<Reading> {
    let value = table.must(&VALUE);
    let spread = if table.has(SPREAD.0.key) { table.may(&SPREAD) } else { tape_spread(table) };
    Some(Reading { of: of?, value: value?, spread: spread?, span: table.span.clone() })
}

/// Only a rectangle has a diagonal.
fn of_rectangle(table: &mut Table<'_, '_>, block: String) -> Option<String> {
    if table.desk.roll().find(&block).is_none_or(|entry| entry.shape == Shape::Rectangle) {
        return Some(block);
    }
    let message = format!("`{}` gives the diagonal of `{block}`, which is no rectangle", table.path);
    let problem = Problem::error("no-diagonal", message, "write what = \"distance\" with from and to");
    let span = table.span_of(OF_BLOCK.0.key);
    table.desk.refuse(problem.at(span, ""))
}

/// A corner and another one.
fn apart(table: &mut Table<'_, '_>, from: Corner, to: Corner) -> Option<(Corner, Corner)> {
    if from != to {
        return Some((from, to));
    }
    let message = format!("`{}` gives the distance from a corner of `{}` to itself", table.path, from.0);
    let problem = Problem::error("no-distance", message, "name two corners");
    let span = table.span_of(TO.0.key);
    table.desk.refuse(problem.at(span, ""))
}

/// How far a tape reading usually is off.
fn tape_spread(table: &mut Table<'_, '_>) -> Option<Length> {
    let spread = table.desk.book().rule("spread.tape").and_then(Rule::get);
    let span = table.span.clone();
    table.desk.looked_up("no-default", spread, &span)
}
