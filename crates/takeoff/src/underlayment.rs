//! Underlayment on what the ice barrier leaves bare.
//!
//! # Formula
//! slope area of planes that are not covered whole, less the courses at eaves, and a lap over their upper edge; over what a
//! roll covers less its side and end lap.

use book::LookupError;
use measure::{Area, Length};

use crate::case::{Case, Ruled};
use crate::ice::IceBarrier;
use crate::line::{Item, Line, Quantity, because, input, packages};

pub(crate) fn line(case: &Case<'_>, ice: &IceBarrier) -> Result<Option<Line>, LookupError> {
    let bare = case.shingled().filter(|(id, _)| !case.is_covered_whole(*id));
    let area: Area = bare.map(|(_, plane)| plane.slope_area).sum();
    let net = area - ice.laid.exact;
    if net <= Area::ZERO {
        return Ok(None);
    }
    let over: Ruled<Length> = case.rule("ice-barrier.underlayment-over")?;
    let package = case.package("underlayment-synthetic")?;
    let roll = package.roll()?;
    let covers = (*roll.width - *roll.side_lap) * (*roll.length - *roll.end_lap);
    let lapped: Length = ice.eaves.iter().map(|eave| case.roof.edge(eave.edge).length).sum();
    let total = net + lapped * over.value;
    let mut reasons = case.assumed_shape();
    reasons.push(because(
        "area left bare by the ice barrier",
        [
            input("planes not covered whole", case.words.area(area)),
            input("eave courses of ice barrier", case.words.area(ice.laid.exact)),
            input("left", case.words.area(net)),
        ],
        "slope area less the courses at eaves; the valley strips are covered again",
        over.source.clone(),
    ));
    reasons.push(because(
        "rolls",
        [
            over.input(),
            input("with that lap along the eaves", case.words.area(total)),
            input("side lap", roll.side_lap.text()),
            input("end lap", roll.end_lap.text()),
            input("one roll covers", case.words.area(covers)),
        ],
        "area over what a roll covers less its laps, rounded up",
        package.source.clone(),
    ));
    let count = packages(total.m2(), covers.m2());
    let item = Item::new("underlayment", "underlayment");
    Ok(Some(Line::ordered_as(item, package, Quantity::Area(net), count, reasons)))
}
