//! Valleys: membrane under and beside the metal, and the metal itself.
//!
//! # Formula
//! strip: true length and its run-on at both ends, times its width. Metal: pieces of the valley's length and the metal's run-on,
//! each lapping the one below; every valley by itself, as a piece is cut to its valley.
//! # Source
//! Strip of 36 in centred: roofing contractors' association magazine, published. A strip on each side after the metal, about
//! 9 ft of membrane in all: common practice. Metal at least 24 in wide: IRC R905.2.8.2.

use book::{Because, LookupError};
use measure::Length;
use roof::{Edge, EdgeId, EdgeKind};

use crate::case::{Case, Ruled};
use crate::ice::Part;
use crate::line::{Item, Line, Quantity, because, input};
use crate::sticks;

const VALLEYS: [EdgeKind; 2] = [EdgeKind::Valley, EdgeKind::LevelValley];

/// The strips under the metal, as cut from rolls.
pub(crate) fn strips(case: &Case<'_>) -> Result<Part, LookupError> {
    let width: Ruled<Length> = case.rule("valley.strip.under-metal")?;
    let run_on: Ruled<Length> = case.rule("valley.strip.run-on")?;
    let valleys = case.edges(&VALLEYS);
    let cut = |edge: &Edge| edge.length + run_on.value * 2.0;
    let area = valleys.iter().map(|(_, edge)| cut(edge) * width.value).sum();
    let net: Length = valleys.iter().map(|(_, edge)| edge.length).sum();
    let mut inputs = lengths(case, &valleys);
    inputs.extend([width.input(), run_on.input()]);
    inputs.push(input("without the run-on", case.words.area(net * width.value)));
    let rule = "each valley and its run-on at both ends, times the strip's width";
    Ok(Part { name: "valley strips", area, because: because("valley strips", inputs, rule, width.source) })
}

/// Membrane in valleys, and the metal over it; nothing where there is no valley.
pub(crate) fn lines(case: &Case<'_>) -> Result<Vec<Line>, LookupError> {
    let valleys = case.edges(&VALLEYS);
    if valleys.is_empty() {
        return Ok(Vec::new());
    }
    Ok(vec![membrane(case, &valleys)?, metal(case, &valleys)?])
}

/// The strip under the metal, measured; it is ordered with the rest of the ice barrier.
fn membrane(case: &Case<'_>, valleys: &[(EdgeId, &Edge)]) -> Result<Line, LookupError> {
    let under: Ruled<Length> = case.rule("valley.strip.under-metal")?;
    let beside: Ruled<Length> = case.rule("valley.strip.each-side")?;
    let all: Ruled<Length> = case.rule("valley.strip.material-width")?;
    let length: Length = valleys.iter().map(|(_, edge)| edge.length).sum();
    let net = length * under.value;
    let mut inputs = lengths(case, valleys);
    inputs.push(under.input());
    let mut reasons = case.assumed_lengths(valleys);
    reasons.push(because("strip under the metal", inputs, "true length times width", under.source.clone()));
    let three = under.value + beside.value * 2.0;
    reasons.push(because(
        "all membrane where strips are also laid beside the metal",
        [
            under.input(),
            beside.input(),
            all.input(),
            input("three strips together", case.words.tape(three)),
            input("area of all three", case.words.area(length * three)),
        ],
        "one strip under the metal and one on each side after it; order the two side strips besides, if they are laid",
        all.source,
    ));
    Ok(Line::measured(
        Item::new("valley-membrane", "membrane under valley metal"),
        Quantity::Area(net),
        reasons,
    ))
}

fn metal(case: &Case<'_>, valleys: &[(EdgeId, &Edge)]) -> Result<Line, LookupError> {
    let package = case.package("valley-metal")?;
    let stick = package.stick()?;
    let run_on: Ruled<Length> = case.rule("valley.metal.run-on")?;
    let pieces = |edge: &Edge| sticks::pieces(edge.length + run_on.value * 2.0, stick);
    let count = valleys.iter().map(|(_, edge)| pieces(edge)).sum();
    let net = valleys.iter().map(|(_, edge)| edge.length).sum();
    let mut inputs: Vec<_> = (valleys.iter())
        .map(|(id, edge)| {
            input(id.to_string(), format!("{}, {} pieces", case.words.run(edge.length), pieces(edge)))
        })
        .collect();
    inputs.extend([run_on.input(), input("lap", stick.lap.text()), input("one piece", stick.length.text())]);
    let mut reasons = case.assumed_lengths(valleys);
    reasons.extend(level_valleys(case, valleys)?);
    reasons.push(width_because(case)?);
    let rule = "each valley with its run-on, laps between pieces, rounded up to whole pieces";
    reasons.push(because("pieces", inputs, rule, package.source.clone()));
    Ok(Line::ordered_as(
        Item::new("valley-metal", "valley metal"),
        package,
        Quantity::Length(net),
        count,
        reasons,
    ))
}

fn width_because(case: &Case<'_>) -> Result<Because, LookupError> {
    let clause = &case.edition.valley_metal;
    let width = case.package("valley-metal")?.stick()?.width.as_ref();
    let is_wide = width.is_some_and(|width| **width >= *clause.least_width);
    let inputs = [
        input("asked at least", clause.least_width.text()),
        input("as sold", width.map_or("not stated", |width| width.text())),
    ];
    let verdict = if is_wide { "wide enough" } else { "NOT wide enough: order a wider one" };
    Ok(because("width of the metal", inputs, format!("{}: {verdict}", clause.clause), clause.source.clone()))
}

fn level_valleys(case: &Case<'_>, valleys: &[(EdgeId, &Edge)]) -> Result<Option<Because>, LookupError> {
    let level = valleys.iter().filter(|(_, edge)| edge.kind == EdgeKind::LevelValley);
    let mut inputs: Vec<_> = level.map(|(id, _)| input(id.to_string(), "level")).collect();
    if inputs.is_empty() {
        return Ok(None);
    }
    let needs: Ruled<String> = case.rule("level-valley.needs")?;
    inputs.push(needs.input());
    let rule =
        format!("a level valley has no fall of its own: it needs {}, not valley metal alone", needs.value);
    Ok(Some(because("caution: dead valley", inputs, rule, needs.source)))
}

fn lengths(case: &Case<'_>, edges: &[(EdgeId, &Edge)]) -> Vec<(String, String)> {
    edges.iter().map(|(id, edge)| input(id.to_string(), case.words.run(edge.length))).collect()
}
