//! Underlayment on what the ice barrier leaves bare.
//!
//! # Formula
//! slope area of planes that are not covered whole, less the courses at eaves; what is left of planes that take two layers once
//! more; and a lap over the courses' upper edge; over what a roll covers less its side and end lap.
//! # Clause
//! IRC R905.2.2 (how it is laid, from 2018: R905.1.1): two layers under 4/12. Where a plane is covered whole with ice barrier, that
//! stands in for both; the courses at eaves do as far as they reach.

use book::{Because, LookupError};
use measure::{Area, Length};
use roof::{Plane, PlaneId};

use crate::case::{Case, Ruled};
use crate::ice::IceBarrier;
use crate::line::{Item, Line, Quantity, because, input, packages};

/// What lies between the deck of a plane and its covering.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Underlay {
    /// Nothing is counted: too flat for shingles.
    Uncounted,
    /// Underlayment.
    Single,
    /// Underlayment laid double.
    Double,
    /// Self-adhering membrane on the whole of it.
    Membrane,
}

/// What is laid under the covering of each plane, in the order of the roof.
pub(crate) fn by_plane(case: &Case<'_>) -> Vec<Underlay> {
    let under = |(id, _): (PlaneId, &Plane)| match id {
        _ if !case.takes_shingles(id) => Underlay::Uncounted,
        _ if case.is_covered_whole(id) => Underlay::Membrane,
        _ if case.takes_two_layers(id) => Underlay::Double,
        _ => Underlay::Single,
    };
    case.planes().map(under).collect()
}

/// None where the old roof stays, which is what the new one lies on.
pub(crate) fn line(case: &Case<'_>, ice: &IceBarrier) -> Result<Option<Line>, LookupError> {
    if case.job.covering.over {
        return Ok(None);
    }
    let bare = case.shingled().filter(|(id, _)| !case.is_covered_whole(*id));
    let area: Area = bare.map(|(_, plane)| plane.slope_area).sum();
    let once = area - ice.laid.exact;
    let doubled = Doubled::of(case, ice);
    let net = once + doubled.area();
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
            input("left", case.words.area(once)),
        ],
        "slope area less the courses at eaves; the valley strips are covered again",
        over.source.clone(),
    ));
    reasons.extend(doubled.because(case));
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

/// What the ice barrier leaves bare of planes that take two layers.
struct Doubled<'a> {
    planes: Vec<(&'a Plane, Area)>,
}

impl<'a> Doubled<'a> {
    fn of(case: &Case<'a>, ice: &IceBarrier) -> Self {
        let bare = |id: PlaneId, plane: &Plane| {
            plane.slope_area - ice.laid.planes.get(&id).copied().unwrap_or(Area::ZERO)
        };
        let two = case.shingled().filter(|(id, _)| case.takes_two_layers(*id));
        Self { planes: two.map(|(id, plane)| (plane, bare(id, plane))).collect() }
    }

    fn area(&self) -> Area {
        self.planes.iter().map(|(_, area)| *area).sum()
    }

    /// None where no plane takes two layers.
    fn because(&self, case: &Case<'_>) -> Option<Because> {
        let clause = &case.edition.asphalt_shingles;
        let mut inputs: Vec<_> = (self.planes.iter())
            .map(|(plane, area)| input(&plane.name, format!("{}, {}", plane.pitch, case.words.area(*area))))
            .collect();
        inputs.push(input("second layer in all", case.words.area(self.area())));
        let rule = format!(
            "{} of {}: two layers under {}; what is bare of these planes is counted once more",
            case.doubling_clause(),
            case.edition.name,
            clause.single_underlayment_from.text()
        );
        let because = because("second layer of underlayment", inputs, rule, clause.source.clone());
        (!self.planes.is_empty()).then_some(because)
    }
}
