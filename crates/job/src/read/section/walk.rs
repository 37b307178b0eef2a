//! `[[walk]]`: where people walk or drive below the eaves.

use measure::Length;

use super::block::PLAN;
use crate::Walk;
use crate::read::field::{Must, Section};
use crate::read::notation::{At, Name, Pair, Quantity};
use crate::read::table::Table;

/// The section.
pub(crate) const WALK: Section = Section {
    name: "walk",
    what: "a walk, an entrance, steps or a drive, to be kept clear of drips and ice",
    fields: &[&NAME, &AT, &SIZE],
};

const NAME: Must<At<Name>> =
    Must::new("name", "what it is called, unique among walks", r#""front steps""#, At(Name));
const AT: Must<Pair<Length>> =
    Must::new("at", "its south-west corner, plan x and y", r#"["4'", "-12'"]"#, Pair(PLAN));
const SIZE: Must<Pair<Length>> =
    Must::new("size", "its size east and north", r#"["5'", "3'"]"#, Pair(Quantity::within("1 in", "500'")));

/// Reads a walk.
pub(crate) fn walk(table: &mut Table<'_, '_>) -> Option<Walk> {
    let (name, at, size) = (table.must(&NAME), table.must(&AT), table.must(&SIZE));
    let (name, [x, y], [wide, deep]) = (name?, at?, size?);
    let (from, to) = ([x.m(), y.m()], [(x + wide).m(), (y + deep).m()]);
    Some(Walk { name: name.value, name_span: name.span, from, to })
}
