//! What a number with a comma out of place may have meant.

use std::ops::Range;

use super::error::{Cause, Fault};
use super::unit_name::UnitName;

/// The fault of the comma in `number`, offering it with a point there or with the comma dropped. Where no unit
/// follows, each is also offered with the `missing` one.
pub(crate) fn fault(number: &str, at: Range<usize>, missing: Option<UnitName>) -> Fault {
    let (whole, decimals) = number.split_once('.').unwrap_or((number, ""));
    let groups: Vec<&str> = whole.split(',').collect();
    let is_point = groups.len() == 2 && decimals.is_empty() && !number.starts_with(',');
    let is_grouped = !decimals.contains(',') && groups.iter().skip(1).all(|group| group.len() == 3);
    let pointed = is_point.then(|| number.replace(',', "."));
    let joined = is_grouped.then(|| number.replace(',', ""));
    let with_unit = |number: String| missing.map(|unit| unit.after(&number)).into_iter().chain([number]);
    Fault::new(at, Cause::Comma).perhaps(pointed.into_iter().chain(joined).flat_map(with_unit))
}
