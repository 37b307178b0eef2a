//! `[[array]]`: solar arrays that stand on a plane.

use super::gutter::STATE;
use crate::read::field::{Must, Section};
use crate::read::notation::{At, PlaneOf};
use crate::read::table::Table;
use crate::{Array, State};

/// The section.
pub(crate) const ARRAY: Section =
    Section { name: "array", what: "a solar array on a plane of the roof", fields: &[&ON, &STATE] };

const ON: Must<At<PlaneOf>> = Must::new("on", "the plane it stands on", r#""main S""#, At(PlaneOf));

/// Reads an array.
pub(crate) fn array(table: &mut Table<'_, '_>) -> Option<Array> {
    let (on, state) = (table.must(&ON), table.may(&STATE));
    let on = on?;
    let state = state.unwrap_or(State::Found);
    Some(Array { on: on.value, state, span: table.span.clone(), on_span: on.span })
}
