//! What a number with a comma out of place may have meant.

use std::ops::Range;

use super::error::{Cause, Fault};

/// The fault of the comma in `number`, offering it with a point there or with the comma dropped, each as it
/// stands and with the usual unit of the quantity, of which those that cannot be read fall away.
pub(crate) fn fault(number: &str, at: Range<usize>, with_unit: impl Fn(&str) -> String) -> Fault {
    let (whole, decimals) = number.split_once('.').unwrap_or((number, ""));
    let groups: Vec<&str> = whole.split(',').collect();
    let is_point = groups.len() == 2 && decimals.is_empty();
    let is_grouped = groups.iter().skip(1).all(|group| group.len() == 3);
    let pointed = is_point.then(|| number.replace(',', "."));
    let joined = is_grouped.then(|| number.replace(',', ""));
    let readings = pointed.into_iter().chain(joined).flat_map(|number| [with_unit(&number), number]);
    Fault::new(at, Cause::Comma).perhaps(readings)
}
