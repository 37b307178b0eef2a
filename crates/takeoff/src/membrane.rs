//! All self-adhering membrane of a roof, and the rolls it takes.
//!
//! # Formula
//! eave courses (exact area) + valley strips + planes covered whole + strips along walls and pitch breaks + patches at
//! openings; with the share for laps and offcuts, over the area of a roll. Places where two parts overlap are counted
//! twice, as they are laid.

use book::{Because, LookupError};
use job::OpeningKind;
use measure::{Area, Length};
use roof::{EdgeKind, PlacedOpening};

use crate::case::{Case, Ruled, WHOLE_BELOW};
use crate::ice::{IceBarrier, Part};
use crate::line::{Item, Line, Quantity, because, computed, input, packages};
use crate::openings::sizes;
use crate::valley;

const WALLS: [EdgeKind; 5] =
    [EdgeKind::Sidewall, EdgeKind::Headwall, EdgeKind::SkewWall, EdgeKind::BackWall, EdgeKind::Step];

/// Adds to the strips at eaves the other parts, none of them empty.
pub(crate) fn complete(case: &Case<'_>, ice: IceBarrier) -> Result<IceBarrier, LookupError> {
    let parts = [
        courses(case, &ice),
        valley::strips(case)?,
        whole_planes(case)?,
        wall_strips(case)?,
        break_strips(case)?,
        patches(case)?,
    ];
    let parts = parts.into_iter().filter(|part| part.area > Area::ZERO).collect();
    Ok(IceBarrier { parts, ..ice })
}

/// The line that orders it; none where nothing is cut from the rolls.
pub(crate) fn line(case: &Case<'_>, ice: &IceBarrier) -> Result<Option<Line>, LookupError> {
    let net: Area = ice.parts.iter().map(|part| part.area).sum();
    if net <= Area::ZERO {
        return Ok(None);
    }
    let package = case.package("ice-barrier")?;
    let roll = package.roll()?.area();
    let laps: Ruled<book::Share> = case.rule("ice-barrier.laps-and-cuts")?;
    let with_laps = net * (1.0 + laps.value.of_one());
    let count = packages(with_laps.m2(), roll.m2());
    let mut reasons = ice.because.clone();
    reasons.extend(case.assumed_shape());
    reasons.extend(ice.parts.iter().map(|part| part.because.clone()));
    reasons.push(sum(case, ice));
    reasons.push(because(
        "rolls",
        [
            input("material", case.words.area(net)),
            laps.input(),
            input("with laps and offcuts", case.words.area(with_laps)),
            input("one roll", case.words.area(roll)),
        ],
        "material and its laps over the area of a roll, rounded up",
        package.source.clone(),
    ));
    Ok(Some(Line::ordered_as(
        Item::new("ice-barrier", "self-adhering ice barrier"),
        package,
        Quantity::Area(net),
        count,
        reasons,
    )))
}

/// The parts, and what they come to where the strips at eaves are taken as length times width.
fn sum(case: &Case<'_>, ice: &IceBarrier) -> Because {
    let net: Area = ice.parts.iter().map(|part| part.area).sum();
    let mut inputs: Vec<_> =
        ice.parts.iter().map(|part| input(part.name, case.words.area(part.area))).collect();
    inputs.push(input("all parts", case.words.area(net)));
    let by_length = net - ice.laid.exact + ice.laid.by_length;
    inputs.push(input("all parts, eaves as length times width", case.words.area(by_length)));
    because(
        "material in all",
        inputs,
        "sum of the parts; where two of them overlap, both are laid",
        computed(),
    )
}

fn courses(case: &Case<'_>, ice: &IceBarrier) -> Part {
    let mut inputs: Vec<_> = (ice.laid.planes.iter())
        .map(|(plane, area)| input(&case.roof.plane(*plane).name, case.words.area(*area)))
        .collect();
    let courses =
        |eave: &crate::EaveStrip| format!("{} courses cover {}", eave.courses, case.words.inches(eave.cover));
    inputs.extend(ice.eaves.iter().map(|eave| input(eave.edge.to_string(), courses(eave))));
    let rule = "whole courses from each eave, mitred at hips, run on into valleys";
    Part {
        name: "eave courses",
        area: ice.laid.exact,
        because: because("eave courses", inputs, rule, computed()),
    }
}

fn whole_planes(case: &Case<'_>) -> Result<Part, LookupError> {
    let below: Ruled<measure::Pitch> = case.rule(WHOLE_BELOW)?;
    let planes: Vec<_> = case.planes().filter(|(id, _)| case.is_covered_whole(*id)).collect();
    let mut inputs = vec![below.input()];
    inputs.extend(planes.iter().map(|(_, plane)| {
        input(&plane.name, format!("{}, {}", plane.pitch, case.words.area(plane.slope_area)))
    }));
    let clause = &case.edition.asphalt_shingles;
    let rule = format!(
        "covered whole; stands in for the doubled underlayment that {} asks under {}",
        case.doubling_clause(),
        clause.single_underlayment_from.text()
    );
    let area = planes.iter().map(|(_, plane)| plane.slope_area).sum();
    Ok(Part {
        name: "planes covered whole",
        area,
        because: because("planes covered whole", inputs, rule, below.source),
    })
}

fn wall_strips(case: &Case<'_>) -> Result<Part, LookupError> {
    let on_deck: Ruled<Length> = case.rule("ice-barrier.wall.deck")?;
    let up_wall: Ruled<Length> = case.rule("ice-barrier.wall.turn-up")?;
    let walls = case.edges(&WALLS);
    let length: Length = walls.iter().map(|(_, edge)| edge.length).sum();
    let mut inputs: Vec<_> = (walls.iter())
        .map(|(id, edge)| input(format!("{id}, {}", edge.kind.name()), case.words.run(edge.length)))
        .collect();
    inputs.extend([on_deck.input(), up_wall.input()]);
    let rule = "a strip of its own along every wall, part on the deck and part up the wall";
    let area = length * (on_deck.value + up_wall.value);
    Ok(Part {
        name: "strips along walls",
        area,
        because: because("strips along walls", inputs, rule, on_deck.source),
    })
}

fn break_strips(case: &Case<'_>) -> Result<Part, LookupError> {
    let width: Ruled<Length> = case.rule("ice-barrier.pitch-break")?;
    let breaks = case.edges(&[EdgeKind::PitchBreakConvex, EdgeKind::PitchBreakConcave]);
    let sides = |edge: &roof::Edge| {
        edge.planes
            .iter()
            .filter(|plane| case.takes_shingles(**plane) && !case.is_covered_whole(**plane))
            .count() as f64
    };
    let area = breaks.iter().map(|(_, edge)| edge.length * width.value * sides(edge)).sum();
    let mut inputs: Vec<_> =
        breaks.iter().map(|(id, edge)| input(id.to_string(), case.words.run(edge.length))).collect();
    inputs.push(width.input());
    let rule = "a strip on each side of a pitch break, but on planes covered whole";
    Ok(Part {
        name: "strips at pitch breaks",
        area,
        because: because("strips at pitch breaks", inputs, rule, width.source),
    })
}

/// Rings around what is framed through the roof, squares at what is round. None on planes that are covered whole.
fn patches(case: &Case<'_>) -> Result<Part, LookupError> {
    let ring: Ruled<Length> = case.rule("ice-barrier.chimney.ring")?;
    let head: Ruled<Length> = case.rule("ice-barrier.chimney.head")?;
    let square: Ruled<Length> = case.rule("ice-barrier.pipe.patch")?;
    let (mut area, mut inputs) = (Area::ZERO, vec![ring.input(), head.input(), square.input()]);
    let on_strips =
        |placed: &PlacedOpening| case.takes_shingles(placed.plane) && !case.is_covered_whole(placed.plane);
    for (opening, placed) in case.openings().into_iter().filter(|(_, placed)| on_strips(placed)) {
        let patch = match opening.kind {
            OpeningKind::Chimney | OpeningKind::Skylight => {
                let [across, along] = sizes(placed);
                (across + ring.value * 2.0) * (along + ring.value + head.value) - across * along
            }
            _ => square.value * square.value,
        };
        area += patch;
        inputs.push(input(&opening.name, case.words.area(patch)));
    }
    let rule = "a ring less the opening around what is framed, a square at what is round";
    Ok(Part {
        name: "patches at openings",
        area,
        because: because("patches at openings", inputs, rule, ring.source),
    })
}
