//! Flashing where roof meets wall: step pieces by course, kick-outs, aprons, chimneys and skylights; the siding cut for it.
//!
//! # Formula
//! Courses along a wall: distance up the slope over the exposure, rounded up; one step piece for each, the lowest being under
//! or part of the kick-out, which is ordered apart. Aprons: length and a return at each end, in pieces with laps. A
//! chimney or skylight has its courses on both sides.
//! # Source
//! One piece per course: roofing trade guides. Legs of at least 4 in by 4 in and the turned-out end: IRC R905.2.8.3 and
//! R903.2.1.

use book::{Because, LookupError, Package, Step};
use job::OpeningKind;
use measure::Length;
use roof::{Edge, EdgeId, EdgeKind, LEVEL, NodeKind, Plane, Roof};

use crate::case::{Case, Ruled};
use crate::line::{Item, Line, Quantity, because, input, packages, whole};
use crate::openings::sizes;
use crate::sticks::{HAIR, pieces_by_run, pieces_pooled};

const WALLS: [EdgeKind; 4] = [EdgeKind::Sidewall, EdgeKind::SkewWall, EdgeKind::Headwall, EdgeKind::Step];

pub(crate) fn lines(case: &Case<'_>) -> Result<Vec<Line>, LookupError> {
    let lines = [
        step_flashing(case)?,
        kick_outs(case)?,
        headwall_apron(case)?,
        chimney_apron(case)?,
        skylight_kits(case)?,
        back_walls(case)?,
        siding(case)?,
    ];
    Ok(lines.into_iter().flatten().collect())
}

/// Edges along walls that run up the slope, so that courses end at them.
fn stepped<'a>(case: &Case<'a>) -> Vec<(EdgeId, &'a Edge)> {
    let walls = case.edges(&[EdgeKind::Sidewall, EdgeKind::SkewWall, EdgeKind::Step]);
    walls.into_iter().filter(|(_, edge)| edge.slope.abs() >= LEVEL).collect()
}

/// Edges along walls at the top of a plane.
fn headed<'a>(case: &Case<'a>) -> Vec<(EdgeId, &'a Edge)> {
    let walls = case.edges(&[EdgeKind::Headwall, EdgeKind::Step]);
    walls
        .into_iter()
        .filter(|(_, edge)| edge.kind == EdgeKind::Headwall || edge.slope.abs() < LEVEL)
        .collect()
}

fn step_flashing(case: &Case<'_>) -> Result<Option<Line>, LookupError> {
    let exposure = case.job.covering.exposure.value;
    let extra: Ruled<f64> = case.rule("step-flashing.extra")?;
    let (mut count, mut inputs) = (0, vec![input("exposure", case.words.tape(exposure))]);
    for (id, edge) in stepped(case) {
        let up = up_the_slope(case.roof, edge);
        let pieces = courses(up, exposure) + whole(extra.value);
        count += pieces;
        let name = format!("{id}, {}, {} up the slope", edge.kind.name(), case.words.run(up));
        inputs.push(input(name, format!("{:.2} courses, {pieces} pieces", up / exposure)));
    }
    for (opening, placed) in case.openings().into_iter().filter(|(o, _)| o.kind == OpeningKind::Chimney) {
        let [_, along] = sizes(placed);
        let pieces = courses(along, exposure);
        count += 2 * pieces;
        let name = format!("{}, two sides of {}", opening.name, case.words.inches(along));
        inputs.push(input(name, format!("{:.2} courses, {pieces} pieces a side", along / exposure)));
    }
    if count == 0 {
        return Ok(None);
    }
    let (package, long_enough) = step_package(case, exposure)?;
    let mut reasons = case.assumed_lengths(&stepped(case));
    reasons.extend(case.assumed("all planes", &case.job.covering.exposure));
    reasons.push(legs(case, package)?);
    reasons.push(long_enough);
    inputs.push(extra.input());
    let rule = "one piece for each course that ends at the wall; the kick-out at the foot is ordered apart";
    reasons.push(because("pieces", inputs, rule, package.source.clone()));
    Ok(Some(Line::ordered_as(
        Item::new("step-flashing", "step flashing"),
        package,
        Quantity::Count(count),
        count,
        reasons,
    )))
}

/// How far an edge climbs its plane, measured on the slope.
pub(crate) fn up_the_slope(roof: &Roof, edge: &Edge) -> Length {
    edge.planes.first().map_or(edge.length, |plane| up_the_plane(roof.plane(*plane), edge))
}

/// How far an edge climbs one of its planes, measured on the slope; nothing on a level plane.
pub(crate) fn up_the_plane(plane: &Plane, edge: &Edge) -> Length {
    let slope = plane.pitch.slope();
    let run = if slope > 0.0 { edge.plan_length * (edge.slope.abs() / slope) } else { Length::ZERO };
    run * plane.pitch.slope_factor()
}

pub(crate) fn courses(length: Length, exposure: Length) -> u64 {
    packages(length.m(), exposure.m())
}

/// The shortest step piece that is long enough for the exposure, and the because of that; the longest where none is.
fn step_package<'a>(case: &Case<'a>, exposure: Length) -> Result<(&'a Package, Because), LookupError> {
    let over: Ruled<Length> = case.rule("step-flashing.over-exposure")?;
    let pieces: Ruled<String> = case.rule("step-flashing.pieces")?;
    let wanted = exposure + over.value - HAIR;
    let (taken, step) = shortest(case, &pieces.value, wanted)?;
    let verdict =
        if *step.length >= wanted { "long enough" } else { "NOT long enough: have longer ones bent" };
    let inputs = [
        input("exposure", case.words.tape(exposure)),
        over.input(),
        pieces.input(),
        input("length of a piece", step.length.text()),
    ];
    let rule = format!("the shortest that holds exposure and headlap, else the longest: {verdict}");
    Ok((taken, because("length of a step piece", inputs, rule, over.source)))
}

/// Of step pieces by their ids, with commas between, the shortest of at least a length; the longest where none is.
fn shortest<'a>(case: &Case<'a>, ids: &str, wanted: Length) -> Result<(&'a Package, &'a Step), LookupError> {
    let piece = |id: &str| {
        let package = case.package(id.trim())?;
        Ok((package, package.step()?))
    };
    let is_better = |new: Length, old: Length| match (new >= wanted, old >= wanted) {
        (true, true) => new < old,
        (false, false) => new > old,
        (fits, _) => fits,
    };
    let (first, rest) = ids.split_once(',').unwrap_or((ids, ""));
    let mut others = rest.split_terminator(',').map(piece);
    others.try_fold(piece(first)?, |old, new| {
        let new = new?;
        Ok(if is_better(*new.1.length, *old.1.length) { new } else { old })
    })
}

fn legs(case: &Case<'_>, package: &Package) -> Result<Because, LookupError> {
    let (clause, step) = (&case.edition.sidewall_flashing, package.step()?);
    let is_enough = *step.wall_leg >= *clause.least_height && *step.roof_leg >= *clause.least_width;
    let inputs = [
        input(
            "asked at least",
            format!("{} up, {} out", clause.least_height.text(), clause.least_width.text()),
        ),
        input("as sold", format!("{} up, {} out", step.wall_leg.text(), step.roof_leg.text())),
    ];
    let verdict = if is_enough { "enough" } else { "NOT enough: have wider ones bent" };
    let rule = format!("{} of {}: {verdict}", clause.clause, case.edition.name);
    Ok(because("legs of a step piece", inputs, rule, clause.source.clone()))
}

fn kick_outs(case: &Case<'_>) -> Result<Option<Line>, LookupError> {
    let is_shingled =
        |edge: &EdgeId| case.roof.edge(*edge).planes.iter().any(|plane| case.takes_shingles(*plane));
    let feet = case
        .roof
        .nodes
        .iter()
        .filter(|node| node.kind == NodeKind::WallFoot && node.edges.iter().any(is_shingled));
    let walls_at = |edges: &[EdgeId]| -> Vec<String> {
        edges.iter().filter(|edge| case.roof.edge(**edge).kind.is_wall()).map(ToString::to_string).collect()
    };
    let inputs: Vec<_> = feet.map(|node| input("foot of", walls_at(&node.edges).join(" and "))).collect();
    if inputs.is_empty() {
        return Ok(None);
    }
    let (package, clause) = (case.package("kick-out")?, &case.edition.kick_out);
    let count = inputs.len() as u64;
    let rule = format!(
        "{} of {}: water is turned off the wall where an eave ends on it; one at each such foot",
        clause.clause, case.edition.name
    );
    let reasons = vec![because("kick-outs", inputs, rule, clause.source.clone())];
    Ok(Some(Line::ordered_as(
        Item::new("kick-out", "kick-out flashing"),
        package,
        Quantity::Count(count),
        count,
        reasons,
    )))
}

fn headwall_apron(case: &Case<'_>) -> Result<Option<Line>, LookupError> {
    let walls = headed(case);
    if walls.is_empty() {
        return Ok(None);
    }
    let package = case.package("headwall-apron")?;
    let stick = package.stick()?;
    let end: Ruled<Length> = case.rule("headwall.end-return")?;
    let runs: Vec<Length> = walls.iter().map(|(_, edge)| edge.length + end.value * 2.0).collect();
    let mut inputs: Vec<_> = (walls.iter())
        .map(|(id, edge)| input(format!("{id}, {}", edge.kind.name()), case.words.run(edge.length)))
        .collect();
    inputs.extend([
        end.input(),
        input("one piece", stick.length.text()),
        input("lap", stick.lap.text()),
        input("each wall by itself", pieces_by_run(&runs, stick).to_string()),
    ]);
    let mut reasons = case.assumed_lengths(&walls);
    let rule =
        "each wall and its returns in pieces with laps, offcuts used again, rounded up to whole pieces";
    reasons.push(because("pieces", inputs, rule, package.source.clone()));
    let net = walls.iter().map(|(_, edge)| edge.length).sum();
    let item = Item::new("headwall-apron", "headwall apron");
    Ok(Some(Line::ordered_as(item, package, Quantity::Length(net), pieces_pooled(&runs, stick), reasons)))
}

fn chimney_apron(case: &Case<'_>) -> Result<Option<Line>, LookupError> {
    let chimneys = case.openings().into_iter().filter(|(opening, _)| opening.kind == OpeningKind::Chimney);
    let extra: Ruled<Length> = case.rule("chimney.apron-extra")?;
    let (mut runs, mut inputs) = (Vec::new(), Vec::new());
    for (opening, _) in chimneys {
        runs.push(opening.across + extra.value);
        inputs.push(input(format!("{}, across the slope", opening.name), case.words.tape(opening.across)));
    }
    if runs.is_empty() {
        return Ok(None);
    }
    let package = case.package("headwall-apron")?;
    let stick = package.stick()?;
    inputs.extend([extra.input(), input("one piece", stick.length.text())]);
    let rule = "each chimney's width and what it is wider, cut from as few pieces as possible";
    let reasons = vec![because("pieces", inputs, rule, extra.source)];
    let net = runs.iter().sum();
    let item = Item::new("chimney-apron", "chimney apron");
    Ok(Some(Line::ordered_as(item, package, Quantity::Length(net), pieces_pooled(&runs, stick), reasons)))
}

fn skylight_kits(case: &Case<'_>) -> Result<Option<Line>, LookupError> {
    let exposure = case.job.covering.exposure.value;
    let skylights = case.openings().into_iter().filter(|(opening, _)| opening.kind == OpeningKind::Skylight);
    let inputs: Vec<_> = skylights
        .map(|(opening, placed)| {
            let [_, along] = sizes(placed);
            let name = format!("{}, two sides of {}", opening.name, case.words.inches(along));
            input(
                name,
                format!(
                    "{:.2} courses, {} step pieces a side in its kit",
                    along / exposure,
                    courses(along, exposure)
                ),
            )
        })
        .collect();
    if inputs.is_empty() {
        return Ok(None);
    }
    let (package, count) = (case.package("skylight-kit")?, inputs.len() as u64);
    let mut reasons: Vec<Because> =
        case.assumed("all planes", &case.job.covering.exposure).into_iter().collect();
    reasons.push(because(
        "kits",
        inputs,
        "one kit for each skylight; see that it holds enough step pieces",
        package.source.clone(),
    ));
    Ok(Some(Line::ordered_as(
        Item::new("skylight-kit", "skylight flashing kit"),
        package,
        Quantity::Count(count),
        count,
        reasons,
    )))
}

/// Walls that water runs into: nothing is ordered, because shingles may not end there.
fn back_walls(case: &Case<'_>) -> Result<Option<Line>, LookupError> {
    let walls = case.edges(&[EdgeKind::BackWall]);
    if walls.is_empty() {
        return Ok(None);
    }
    let needs: Ruled<String> = case.rule("back-wall.needs")?;
    let mut inputs: Vec<_> =
        walls.iter().map(|(id, edge)| input(id.to_string(), case.words.run(edge.length))).collect();
    inputs.push(needs.input());
    let reason = format!(
        "water runs into this wall: it needs {} drawn first; it is never flashed as it is",
        needs.value
    );
    let rule = "no flashing is counted here";
    let reasons = vec![because("walls at the foot of a plane", inputs, rule, needs.source)];
    let item = Item::new("back-wall", "wall at the foot of a plane");
    Ok(Some(Line::refused(item, &reason, reasons)))
}

/// Siding to cut back so that flashing can be lapped behind it.
fn siding(case: &Case<'_>) -> Result<Option<Line>, LookupError> {
    let walls = case.edges(&WALLS);
    if walls.is_empty() {
        return Ok(None);
    }
    let height: Ruled<Length> = case.rule("siding.cut")?;
    let net: Length = walls.iter().map(|(_, edge)| edge.length).sum();
    let mut reasons = case.assumed_lengths(&walls);
    reasons.push(crate::edges::lengths_by_kind(case, &walls));
    let inputs = [height.input(), input("area of the strip", case.words.area(net * height.value))];
    reasons.push(because(
        "strip of siding",
        inputs,
        "cut along every wall that stands on the roof",
        height.source.clone(),
    ));
    Ok(Some(Line::measured(
        Item::new("siding-cut", "siding cut back along walls"),
        Quantity::Length(net),
        reasons,
    )))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand: at 5 5/8 in, 26.83 in of chimney is 4.77 courses, 46 1/2 in of skylight 8.27.
    #[test]
    fn a_side_takes_a_piece_for_each_course_begun() {
        let exposure = Length::from_in(5.625);
        for (inches, wanted) in
            [(26.83, 5), (46.5, 9), (111.3, 20), (5.625, 1), (11.25, 2), (11.26, 3), (0.0, 0)]
        {
            assert_eq!(courses(Length::from_in(inches), exposure), wanted, "{inches} in");
        }
    }
}
