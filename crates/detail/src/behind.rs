//! Where water gets behind a layer: reverse laps, found from where layers lie, whatever the detail says of its laps.
//!
//! The pair of a reverse lap is *upper* and *lower*: the lower lies outside the upper, its top edge stands open, and going down the fall the
//! upper ends first. What runs down on the upper then comes out behind the lower. Everything else counts as failed, as a layer of the second line
//! matters only once the first has let water by; but for a layer that sticks over the top edge.
//!
//! No reverse lap is
//! - a layer that ends first and empties on the one it lies on: a patch, a strip, a counter-flashing;
//! - a sheet that runs on behind shingles, siding or boards to another layer under it: that is where the second line belongs;
//! - a sheet under metal through a trough, along which both run out;
//! - two coverings woven through a trough.

use book::{Act, Falls, Look, Role};

use crate::lap::Fault;
use crate::reach::Ways;
use crate::section::{SAME, Section, Sheet};

/// All layers that water gets behind, each with the one that leads it there, in the order of the upper ones.
pub(crate) fn faults(section: &Section<'_>, ways: &Ways<'_, '_>) -> Vec<Fault> {
    let layers = 0..section.sheets.len();
    let fault = |upper: usize| {
        let outer = upper + 1..section.sheets.len();
        // directly on the upper one first: what lies further out has water behind it only by way of this one
        let lower = outer.clone().find(|lower| runs_behind(section, ways, upper, *lower));
        let lower = lower.or_else(|| outer.clone().find(|lower| lies_across(section, upper, *lower)));
        let name = |layer: usize| section.sheets[layer].layer.id.clone();
        let reverse = lower.map(|lower| Fault::Reverse { upper: name(upper), lower: name(lower) });
        reverse.or_else(|| {
            let behind = hides(section, upper)?;
            Some(Fault::Hidden { layer: name(upper), behind: name(behind) })
        })
    };
    layers.filter_map(fault).collect()
}

/// An end of a layer: where it is, the stretch next to it on the layer, and the one beyond.
#[derive(Clone, Copy)]
pub(crate) struct End {
    place: f64,
    pub(crate) inside: usize,
    pub(crate) beyond: usize,
}

/// The ends of a layer short of the ends of what is shown, towards the first face and towards the last.
fn ends(section: &Section<'_>, sheet: &Sheet<'_>) -> [Option<End>; 2] {
    let cut = |place: f64| {
        let ends = |pair: &[crate::Stretch]| (pair[0].span.to - place).abs() < SAME;
        section.stretches.windows(2).position(ends)
    };
    let [from, to] = [sheet.span.from, sheet.span.to];
    [
        cut(from).map(|before| End { place: from, inside: before + 1, beyond: before }),
        cut(to).map(|before| End { place: to, inside: before, beyond: before + 1 }),
    ]
}

/// The edges of a layer that water comes down to, or falls on at a peak.
fn top_edges(section: &Section<'_>, sheet: &Sheet<'_>) -> impl Iterator<Item = End> {
    let [first, last] = ends(section, sheet);
    let comes = |end: &End, falls: Falls| {
        section.falls(end.inside) == falls && section.falls(end.beyond) != Falls::Along
    };
    let first = first.filter(|end| comes(end, Falls::On));
    let last = last.filter(|end| comes(end, Falls::Back));
    first.into_iter().chain(last).filter(|_| !sheet.layer.let_in)
}

/// Whether what runs down on the upper of two layers comes behind the other, which lies outside it.
fn runs_behind(section: &Section<'_>, ways: &Ways<'_, '_>, upper: usize, lower: usize) -> bool {
    let [above, below] = [upper, lower].map(|layer| &section.sheets[layer]);
    let kept = kept(section, upper, lower);
    let is_wet = |at: usize| ways.outside(upper, at).is_some_and(|slot| ways.reach(slot, &kept));
    let from_edge = |edge: End| {
        is_next(section, upper, lower, edge)
            && ends_behind(section, above, below, edge)
            && !hands_on(section, upper, lower, edge)
            && is_wet(edge.beyond)
    };
    let at_low_end = |end: End| {
        let goes_on = section.stretches[end.beyond].layers.contains(&lower);
        goes_on
            && is_next(section, upper, lower, end)
            && !hands_on(section, upper, lower, end)
            && is_wet(end.inside)
    };
    top_edges(section, below).any(from_edge) || low_ends(section, above).any(at_low_end)
}

/// The ends of a layer that water runs off, whether it lies on another there or not.
pub(crate) fn low_ends(section: &Section<'_>, sheet: &Sheet<'_>) -> impl Iterator<Item = End> {
    let [first, last] = ends(section, sheet);
    let first = first.filter(|end| section.falls(end.inside) == Falls::Back);
    first.into_iter().chain(last.filter(|end| section.falls(end.inside) == Falls::On))
}

/// Whether nothing lies between two layers past an end of one of them: else water gets behind that first.
fn is_next(section: &Section<'_>, upper: usize, lower: usize, end: End) -> bool {
    let both = |layer: usize| {
        [end.inside, end.beyond].iter().all(|at| section.stretches[*at].layers.contains(&layer))
    };
    !(upper + 1..lower).any(both)
}

/// Whether a layer ends behind another one on the way down from the top edge of that one.
fn ends_behind(section: &Section<'_>, above: &Sheet<'_>, below: &Sheet<'_>, edge: End) -> bool {
    let falls = section.falls(edge.inside);
    let run = |place: f64| if falls == Falls::On { place } else { -place };
    let last = |sheet: &Sheet<'_>| run(if falls == Falls::On { sheet.span.to } else { sheet.span.from });
    let foot = foot(section, edge);
    let reach = |sheet: &Sheet<'_>| foot.map_or(last(sheet), |(place, _)| last(sheet).min(run(place)));
    let ends_first = reach(above) < reach(below) - SAME;
    let both_meet = foot.is_some_and(|(place, is_trough)| {
        is_trough && [above, below].iter().all(|sheet| last(sheet) > run(place) - SAME)
    });
    ends_first || (both_meet && !is_sheet(above) && !is_woven(section, above, below))
}

/// Where the fall from an edge ends short of the end of what is shown, and whether another one comes to meet it there.
fn foot(section: &Section<'_>, edge: End) -> Option<(f64, bool)> {
    let falls = section.falls(edge.inside);
    let other = |at: &usize| section.falls(*at) != falls;
    let (at, place) = if falls == Falls::On {
        let at = (edge.inside..section.stretches.len()).find(other)?;
        (at, section.stretches[at].span.from)
    } else {
        let at = (0..edge.inside).rev().find(other)?;
        (at, section.stretches[at].span.to)
    };
    Some((place, section.falls(at) != Falls::Along))
}

/// Whether two coverings each run through the joint onto the other's face, course by course over one another, so that neither is the outer one.
fn is_woven(section: &Section<'_>, one: &Sheet<'_>, other: &Sheet<'_>) -> bool {
    let through = |sheet: &Sheet<'_>| {
        let joints = section.faces.windows(2).map(|pair| pair[0].span.to);
        sheet.acts(Act::Courses)
            && joints.into_iter().any(|joint| sheet.span.from < joint - SAME && sheet.span.to > joint + SAME)
    };
    through(one) && through(other)
}

/// Whether the upper of two layers hands its water to one under it, where that is in order behind the lower: a sheet behind a covering,
/// anything that ends just where the lower begins and lies on what goes on there.
fn hands_on(section: &Section<'_>, upper: usize, lower: usize, edge: End) -> bool {
    let [above, below] = [upper, lower].map(|layer| &section.sheets[layer]);
    let is_same = |one: f64, other: f64| (one - other).abs() < SAME;
    let end = if section.falls(edge.inside) == Falls::On { above.span.to } else { above.span.from };
    let ends_at_edge = is_same(end, below.span.from) || is_same(end, below.span.to);
    let takes = |sheet: &Sheet<'_>| sheet.span.from < end - SAME && sheet.span.to > end + SAME;
    let is_second_line = is_sheet(above) && below.material.drawn == Look::Band;
    (is_second_line || ends_at_edge) && section.sheets[..upper].iter().any(takes)
}

/// What is taken as sound when two layers are looked at: them, and what sticks over the top edge of the lower one.
fn kept(section: &Section<'_>, upper: usize, lower: usize) -> Vec<usize> {
    let edges: Vec<f64> = top_edges(section, &section.sheets[lower]).map(|edge| edge.place).collect();
    let closes = |layer: &usize| {
        let sheet = &section.sheets[*layer];
        let covers = |edge: &f64| sheet.span.from < edge - SAME && sheet.span.to > edge + SAME;
        sheet.acts(Act::Bonds) && edges.iter().any(covers)
    };
    let closing = (lower + 1..section.sheets.len()).filter(closes);
    [upper, lower].into_iter().chain(closing).collect()
}

/// Whether a layer lies on shingles with its edge along the fall open on them: what runs down beside it gets under. Each piece of it must lie
/// under the course above.
fn lies_across(section: &Section<'_>, upper: usize, lower: usize) -> bool {
    let [above, below] = [upper, lower].map(|layer| &section.sheets[layer]);
    let is_open = |end: End| {
        let on = |layer: usize, at: usize| section.stretches[at].layers.contains(&layer);
        let both = |layer: usize| on(layer, end.inside) && on(layer, end.beyond);
        let is_along = [end.inside, end.beyond].iter().all(|at| section.falls(*at) == Falls::Along);
        is_along && both(upper) && !(lower + 1..section.sheets.len()).any(both)
    };
    above.acts(Act::Courses)
        && !below.acts(Act::Courses)
        && ends(section, below).into_iter().flatten().any(is_open)
}

/// What hides a layer that is there to be rained on, and sheds nothing where it sees no sky: the innermost layer over it.
fn hides(section: &Section<'_>, layer: usize) -> Option<usize> {
    let sheet = &section.sheets[layer];
    let is_outer = sheet.material.drawn == Look::Band || sheet.acts(Act::Gutters);
    let is_weathered = is_outer && sheet.layer.role != Some(Role::OldCovering);
    let over = |stretch: &crate::Stretch| {
        let hides = |other: &&usize| **other > layer && !section.sheets[**other].acts(Act::Courses);
        stretch.layers.iter().find(hides).copied()
    };
    let on = section.stretches.iter().filter(|stretch| is_weathered && stretch.layers.contains(&layer));
    let over: Option<Vec<usize>> = on.map(over).collect();
    over?.into_iter().min()
}

/// Whether a layer is of the second line, behind what is rained on.
fn is_sheet(sheet: &Sheet<'_>) -> bool {
    matches!(sheet.material.drawn, Look::Sheet | Look::Membrane)
}
