//! The measured roof in figures: areas by plane, lengths by kind of edge. Nothing is ordered by these lines.
//!
//! # Formula
//! slope area = plan area × √(1 + m²), m the slope; a square is 100 ft² of slope.

use roof::EdgeKind;

use crate::case::Case;
use crate::line::{Item, Line, Quantity, because, computed, input};

pub(crate) fn lines(case: &Case<'_>) -> Vec<Line> {
    let mut lines = vec![plan_area(case), slope_area(case)];
    lines.extend(EdgeKind::ALL.into_iter().filter_map(|kind| edges(case, kind)));
    lines
}

fn plan_area(case: &Case<'_>) -> Line {
    let by_plane: Vec<_> =
        case.planes().map(|(_, plane)| input(&plane.name, case.words.area(plane.plan_area))).collect();
    let mut reasons = case.assumed_shape();
    reasons.push(because("plan area", by_plane, "planes as seen from above, added up", computed()));
    Line::measured(Item::new("plan-area", "roof, plan area"), Quantity::Area(case.roof.plan_area()), reasons)
}

fn slope_area(case: &Case<'_>) -> Line {
    let mut inputs: Vec<_> = (case.planes())
        .map(|(_, plane)| {
            let factor = format!("{:.4}", plane.pitch.slope_factor());
            let (plan, slope) = (case.words.area(plane.plan_area), case.words.area(plane.slope_area));
            input(&plane.name, format!("{plan} × {factor} at {} = {slope}", plane.pitch))
        })
        .collect();
    let total = case.roof.slope_area();
    inputs.push(input("squares of 100 ft²", format!("{:.2}", total.squares())));
    let mut reasons = case.assumed_shape();
    let rule = "plan area times the slope factor √(1 + m²), plane by plane, added up";
    reasons.push(because("slope area", inputs, rule, computed()));
    Line::measured(Item::new("slope-area", "roof, area on the slope"), Quantity::Area(total), reasons)
}

/// All edges of one kind; none where there are none.
fn edges(case: &Case<'_>, kind: EdgeKind) -> Option<Line> {
    let edges = case.all_edges(&[kind]);
    let inputs: Vec<_> =
        edges.iter().map(|(id, edge)| input(id.to_string(), case.words.run(edge.length))).collect();
    let mut reasons = case.assumed_lengths(&edges);
    let is_there = !inputs.is_empty();
    reasons.push(because(format!("length of {}", kind.name()), inputs, "true lengths added up", computed()));
    let net = Quantity::Length(case.roof.length_of(kind));
    is_there.then(|| {
        Line::measured(
            Item::new(format!("edge.{}", kind.key()), format!("{}, length", kind.name())),
            net,
            reasons,
        )
    })
}
