//! Old roofing to take off.
//!
//! # Formula
//! slope area of the whole roof times the layers found on it.
//! # What it does not judge
//! Whether all of the roof carries as many layers: an addition often has fewer. What the layers weigh: the job document does not say
//! what they are. Planes steeper or higher than others, which take longer.

use crate::case::Case;
use crate::line::{Item, Line, Quantity, because, computed, input};

/// None where the job says nothing of layers, that there are none, or that they stay under the new roof.
pub(crate) fn line(case: &Case<'_>) -> Option<Line> {
    let covering = &case.job.covering;
    let layers = covering.layers.as_ref().filter(|layers| layers.value > 0 && !covering.over)?;
    let (area, count) = (case.roof.slope_area(), layers.value);
    let all = area * f64::from(count);
    let mut reasons = case.assumed_shape();
    reasons.extend(case.assumed("all planes", layers));
    let inputs = [
        input("area on the slope", case.words.area(area)),
        input("layers found", count.to_string()),
        input("squares of 100 ft²", format!("{:.2}", all.squares())),
    ];
    let rule = "area times layers, taken to be alike on all planes; openings are not taken off";
    reasons.push(because("layers to take off", inputs, rule, computed()));
    Some(Line::measured(
        Item::new("tear-off", "old roofing taken off, layer by layer"),
        Quantity::Area(all),
        reasons,
    ))
}
