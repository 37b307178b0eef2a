//! Nails: for field shingles and caps, and the caps that hold the underlayment.
//!
//! # Formula
//! Field: area on the slope over what a shingle covers at the job's exposure, times nails per shingle. Caps: ridges and hips over
//! the exposure, each piece rounded up, times nails per piece. Underlayment: its area over the square of the distance
//! between fasteners.
//! # Clause
//! IRC R905.2.6: at least four nails to a strip shingle.
//! # What it does not judge
//! The wind: the job document has no design wind speed, so the books' number of nails stands. Nails of the starter, of
//! flashing and of the ridge vent, and those dropped or pulled, are not counted.

use book::LookupError;
use measure::{Area, Length};
use roof::EdgeKind;

use crate::case::{Case, Ruled};
use crate::line::{Amount, Item, Line, Quantity, because, input, packages, whole};

/// Nails of field shingles and caps; none where nothing is shingled.
pub(crate) fn roofing(case: &Case<'_>) -> Result<Option<Line>, LookupError> {
    let area: Area = case.shingled().map(|(_, plane)| plane.slope_area).sum();
    if area <= Area::ZERO {
        return Ok(None);
    }
    let exposure = case.job.covering.exposure.value;
    let shingle = case.package(&case.job.covering.shingle)?.shingle()?;
    let each: Ruled<f64> = case.rule("nails.per-shingle")?;
    let least = &case.edition.nail_count;
    let each_cap: Ruled<f64> = case.rule("nails.per-cap")?;
    let in_package: Ruled<f64> = case.rule("nails.per-coil")?;
    let shingles = packages(area.m2(), (exposure * *shingle.length).m2());
    let length: Length =
        case.edges(&[EdgeKind::Ridge, EdgeKind::Hip]).iter().map(|(_, edge)| edge.length).sum();
    let caps = packages(length.m(), exposure.m());
    let nails = |each: f64| whole((shingles as f64 * each + caps as f64 * each_cap.value).ceil());
    let count = nails(each.value);
    let mut reasons = case.assumed_shape();
    reasons.extend(case.assumed("all planes", &case.job.covering.exposure));
    let inputs = [
        input("shingles", shingles.to_string()),
        each.input(),
        input("cap pieces", caps.to_string()),
        each_cap.input(),
        input(
            format!("fewest to a shingle by {}", least.clause),
            format!("{}, {} nails in all", least.least, nails(f64::from(least.least))),
        ),
    ];
    let rule = "shingles and cap pieces by their nails; the job has no design wind, so take the shingle's label where it asks more";
    reasons.push(because("nails", inputs, rule, each.source));
    let package = case.package("roofing-nails")?;
    let coils = packages(count as f64, in_package.value);
    let rule = "nails over what one holds, rounded up; those of starter, flashing and ridge vent come on top";
    reasons.push(because(
        "coils",
        [input("nails", count.to_string()), in_package.input()],
        rule,
        in_package.source,
    ));
    let item = Item::new("roofing-nails", "roofing nails");
    Ok(Some(Line::ordered_as(item, package, Quantity::Count(count), coils, reasons)))
}

/// Fasteners of the underlayment, measured; none where it is not laid.
pub(crate) fn caps(case: &Case<'_>, underlayment: Option<&Line>) -> Result<Option<Line>, LookupError> {
    let Some(Amount::Ordered { net: Quantity::Area(area), .. }) = underlayment.map(|line| &line.amount)
    else {
        return Ok(None);
    };
    let apart: Ruled<Length> = case.rule("underlayment.fasteners-apart")?;
    let count = packages(area.m2(), (apart.value * apart.value).m2());
    let mut reasons = case.assumed_shape();
    let inputs = [input("underlayment", case.words.area(*area)), apart.input()];
    let rule = "one fastener for each square of that side, layer by layer, rounded up";
    reasons.push(because("cap nails", inputs, rule, apart.source));
    let item = Item::new("cap-nails", "cap nails for underlayment");
    Ok(Some(Line::measured(item, Quantity::Count(count), reasons)))
}
