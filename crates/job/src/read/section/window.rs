//! `[[window]]`: windows above a roof that meets their wall.

use measure::Length;

use crate::Window;
use crate::read::field::{Must, Section};
use crate::read::notation::{At, BlockSide, Name, Quantity};
use crate::read::table::Table;

/// The section.
pub(crate) const WINDOW: Section = Section {
    name: "window",
    what: "a window or a door in a wall, above a roof that meets the wall below it",
    fields: &[&NAME, &WALL, &ALONG, &WIDTH, &SILL],
};

const NAME: Must<At<Name>> =
    Must::new("name", "what it is called, unique among windows", r#""stair window""#, At(Name));
const WALL: Must<BlockSide> = Must::new("wall", "the wall it is in", r#""main south""#, BlockSide);
const ALONG: Must<Quantity<Length>> = Must::new(
    "at",
    "from the wall's west end, its south end where it runs north, to the frame",
    r#""12' 3\"""#,
    Quantity::within("0'", "500'"),
);
const WIDTH: Must<Quantity<Length>> =
    Must::new("width", "width of its frame", r#""3'""#, Quantity::within("4 in", "50'"));
const SILL: Must<Quantity<Length>> = Must::new(
    "sill",
    "from the roof up to the underside of the sill, where the two are nearest",
    r#""7 in""#,
    Quantity::within("0 in", "30'"),
);

/// Reads a window.
pub(crate) fn window(table: &mut Table<'_, '_>) -> Option<Window> {
    let (name, wall) = (table.must(&NAME), table.must(&WALL));
    let (at, width, sill) = (table.must(&ALONG), table.must(&WIDTH), table.must(&SILL));
    let (name, wall, at, width, sill) = (name?, wall?, at?, width?, sill?);
    Some(Window { name: name.value, name_span: name.span, wall, at, width, sill })
}
