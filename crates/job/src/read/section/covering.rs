//! `[covering]`: what the roof is covered with.

use measure::Length;

use crate::Covering;
use crate::read::field::{May, Must, Section};
use crate::read::notation::{At, Count, Marked, Quantity, Survey, Text};
use crate::read::table::Table;

/// The section.
pub(crate) const COVERING: Section = Section {
    name: "covering",
    what: "what the roof is covered with",
    fields: &[&SHINGLE, &EXPOSURE, &LAYERS],
};

const SHINGLE: Must<At<Text>> = Must::new(
    "shingle",
    "package of the new shingles, as the books name it",
    r#""shingle-laminated-metric""#,
    At(Text::NOTE),
);
const EXPOSURE: May<Survey<Quantity<Length>>> = May::new(
    "exposure",
    "height of shingle left visible",
    r#""5 5/8 in""#,
    Survey(Quantity::within("3 in", "12 in"), "covering.exposure"),
);
const LAYERS: May<Survey<Count>> =
    May::new("layers", "layers of roofing found on the deck", "1", Survey(Count(0, 5), "covering.layers"));

/// Reads the section.
pub(crate) fn covering(table: &mut Table<'_, '_>) -> Option<Covering> {
    let shingle = shingle(table);
    let exposure = table.survey(&EXPOSURE);
    let layers = table.may(&LAYERS);
    Some(Covering { shingle: shingle?, exposure: exposure?, layers })
}

/// A package of the books that is a shingle.
fn shingle(table: &mut Table<'_, '_>) -> Option<String> {
    let Marked { value: id, span } = table.must(&SHINGLE)?;
    let shingle = table.desk.book().package(&id).and_then(|package| package.shingle().map(|_| id));
    table.desk.looked_up("unknown-package", shingle, &span)
}
