//! What runs along edges: drip edge, starter, caps.
//!
//! # Formula
//! Drip edge: every straight run in pieces with laps, offcuts of one run used in another; the count by the share for
//! laps and offcuts stands beside it. Starter: eaves and rakes over what a bundle covers. Caps: ridges and hips over what
//! a bundle covers.
//! # Source
//! Drip edge at eaves and rakes with 2 in laps: IRC 2012 to 2024 R905.2.8.5; common practice where the edition asks none.

use book::{Because, LookupError};
use measure::Length;
use roof::{Edge, EdgeId, EdgeKind};

use crate::case::{Case, Ruled};
use crate::line::{Item, Line, Quantity, because, computed, input, packages};
use crate::sticks::{pieces_by_run, pieces_pooled};

const FREE: [EdgeKind; 4] = [EdgeKind::Eave, EdgeKind::Rake, EdgeKind::SkewRake, EdgeKind::HighEave];
const STARTED: [EdgeKind; 3] = [EdgeKind::Eave, EdgeKind::Rake, EdgeKind::SkewRake];
const CAPPED: [EdgeKind; 2] = [EdgeKind::Ridge, EdgeKind::Hip];

pub(crate) fn lines(case: &Case<'_>) -> Result<Vec<Line>, LookupError> {
    let lines = [
        drip_edge(case)?,
        bundles(case, "starter", &STARTED, "eaves and rakes over what one bundle covers, rounded up")?,
        bundles(case, "ridge-cap", &CAPPED, "ridges and hips over what one bundle covers, rounded up")?,
    ];
    Ok(lines.into_iter().flatten().collect())
}

/// How long each kind of edge is, for the edges some item runs along.
pub(crate) fn lengths_by_kind(case: &Case<'_>, edges: &[(EdgeId, &Edge)]) -> Because {
    let of_kind =
        |kind: EdgeKind| edges.iter().filter(move |(_, edge)| edge.kind == kind).map(|(_, edge)| edge);
    let total = |kind| of_kind(kind).map(|edge| edge.length).sum::<Length>();
    let mut inputs: Vec<_> = (EdgeKind::ALL.into_iter())
        .filter(|kind| of_kind(*kind).next().is_some())
        .map(|kind| {
            input(format!("{}, {} of them", kind.name(), of_kind(kind).count()), case.words.run(total(kind)))
        })
        .collect();
    inputs.push(input("all", case.words.run(sum(edges))));
    because("length", inputs, "true lengths added up", computed())
}

fn sum(edges: &[(EdgeId, &Edge)]) -> Length {
    edges.iter().map(|(_, edge)| edge.length).sum()
}

fn drip_edge(case: &Case<'_>) -> Result<Option<Line>, LookupError> {
    let edges = case.edges(&FREE);
    if edges.is_empty() {
        return Ok(None);
    }
    let package = case.package("drip-edge")?;
    let stick = package.stick()?;
    let laps: Ruled<book::Share> = case.rule("drip-edge.laps-and-cuts")?;
    let runs: Vec<Length> = edges.iter().map(|(_, edge)| edge.length).collect();
    let (net, count) = (sum(&edges), pieces_pooled(&runs, stick));
    let by_share = packages((net * (1.0 + laps.value.of_one())).m(), stick.length.m());
    let mut reasons = case.assumed_lengths(&edges);
    reasons.extend(drip_edge_clause(case));
    reasons.push(lengths_by_kind(case, &edges));
    reasons.push(because(
        "pieces",
        [
            input("straight runs", runs.len().to_string()),
            input("one piece", stick.length.text()),
            input("lap", stick.lap.text()),
            input("each run by itself", pieces_by_run(&runs, stick).to_string()),
            input("offcuts of one run used in another", count.to_string()),
            input(format!("by length and {}", laps.input().1), by_share.to_string()),
        ],
        "every straight run in pieces with laps, offcuts used again, rounded up to whole pieces",
        package.source.clone(),
    ));
    Ok(Some(Line::ordered_as(
        Item::new("drip-edge", "drip edge"),
        package,
        Quantity::Length(net),
        count,
        reasons,
    )))
}

fn drip_edge_clause(case: &Case<'_>) -> Option<Because> {
    let clause = case.edition.drip_edge.as_ref()?;
    let inputs = [
        input("lap at least", clause.lap.text()),
        input("onto the deck at least", clause.onto_deck.text()),
        input("below the deck at least", clause.below_deck.text()),
    ];
    let rule = format!("{} of {}: at eaves and rakes", clause.clause, case.edition.name);
    Some(because("drip edge is asked", inputs, rule, clause.source.clone()))
}

/// Something sold by the length it covers, along some kinds of edges; none where there are none.
fn bundles(case: &Case<'_>, id: &str, kinds: &[EdgeKind], rule: &str) -> Result<Option<Line>, LookupError> {
    let edges = case.edges(kinds);
    if edges.is_empty() {
        return Ok(None);
    }
    let package = case.package(id)?;
    let covers = &package.run()?.covers;
    let net = sum(&edges);
    let mut reasons = case.assumed_lengths(&edges);
    reasons.push(lengths_by_kind(case, &edges));
    let inputs = [input("length", case.words.run(net)), input("one covers", covers.text())];
    reasons.push(because("packages", inputs, rule, package.source.clone()));
    let count = packages(net.m(), covers.m());
    Ok(Some(Line::ordered_as(Item::new(id, &package.name), package, Quantity::Length(net), count, reasons)))
}
