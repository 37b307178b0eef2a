//! Attics against one another and against the blocks they lie under.

use crate::read::desk::Desk;
use crate::read::notation::{Marked, bad_name, is_name};
use crate::read::section::AtticDraft;
use crate::{Attic, Block, Joined, Problem, Span};

/// The attics that could be read, in document order.
pub(super) fn attics(
    drafts: Vec<(Marked<String>, Option<AtticDraft>)>,
    blocks: &[Block],
    desk: &mut Desk<'_>,
) -> Vec<Attic> {
    for (name, _) in drafts.iter().filter(|(name, _)| !is_name(&name.value)) {
        desk.report(bad_name(&format!("attic.{}", name.value), &name.span));
    }
    let known: Vec<AtticDraft> = drafts.into_iter().filter_map(|(_, draft)| draft).collect();
    for (index, draft) in known.iter().enumerate() {
        for (number, block) in draft.under.iter().enumerate() {
            let (own, others) = (&draft.under[..number], &known[..index]);
            let problem = named_twice(draft, block, own)
                .or_else(|| shared(draft, block, others))
                .or_else(|| part_outside(draft, block, blocks))
                .or_else(|| on_posts(draft, block, blocks));
            if let Some(problem) = problem {
                desk.report(problem);
            }
        }
    }
    let problems: Vec<Problem> = known.iter().flat_map(|draft| badly_joined(draft, &known)).collect();
    for problem in problems {
        desk.report(problem);
    }
    known.into_iter().map(|draft| draft.attic).collect()
}

/// Ways to attics that are not there, to the attic itself, or written with both attics.
fn badly_joined(draft: &AtticDraft, all: &[AtticDraft]) -> Vec<Problem> {
    let own = draft.attic.name.as_str();
    let told = |(index, (way, span)): (usize, (&Joined, &Span))| {
        let before = draft.attic.joined[..index].iter().any(|other| other.to == way.to);
        let Some(other) = all.iter().find(|other| other.attic.name == way.to) else {
            let names = all.iter().map(|other| other.attic.name.as_str()).filter(|name| *name != own);
            let mend = book::nearest(&way.to, names).map_or_else(
                || "name one of the other attics, as its heading does".to_owned(),
                |meant| format!("did you mean `{meant}`?"),
            );
            let message = format!("`attic.{own}` is joined to `{}`, but no attic has that name", way.to);
            return Some(Problem::error("unknown-attic", message, mend).at(span.clone(), ""));
        };
        if way.to == own {
            let message = format!("`attic.{own}` is joined to itself");
            let problem = Problem::error("joined-to-itself", message, "name the other attic");
            return Some(problem.at(span.clone(), ""));
        }
        let back =
            other.attic.joined.iter().position(|back| back.to == own).filter(|_| own > way.to.as_str());
        let first = back.map(|back| &other.joined[back]);
        (before || first.is_some()).then(|| {
            let message = format!("the way between `attic.{own}` and `attic.{}` is written twice", way.to);
            let mend = "write each way once, with the area of all openings between the two, with one of them";
            let problem = Problem::error("joined-twice", message, mend).at(span.clone(), "");
            first.map_or(problem.clone(), |first| problem.at(first.clone(), "the other one"))
        })
    };
    draft.attic.joined.iter().zip(&draft.joined).enumerate().filter_map(told).collect()
}

fn named_twice(draft: &AtticDraft, block: &Marked<String>, before: &[Marked<String>]) -> Option<Problem> {
    let first = before.iter().find(|other| other.value == block.value)?;
    let message = format!("`attic.{}` lies under `{}` twice", draft.attic.name, block.value);
    let problem = Problem::error("listed-twice", message, "take one of them out");
    Some(problem.at(block.span.clone(), "").at(first.span.clone(), "the other one"))
}

/// Two attics under one block may be real (a fire wall, kneewalls, a cathedral ceiling), but then each has a ceiling or a part of its own.
fn shared(draft: &AtticDraft, block: &Marked<String>, before: &[AtticDraft]) -> Option<Problem> {
    let apart = |other: &AtticDraft| match (draft.attic.part, other.attic.part) {
        (Some(own), Some(other)) => !overlap(own, other),
        (None, None) => draft.attic.ceiling.is_some() && other.attic.ceiling.is_some(),
        _ => true,
    };
    let (other, first) = before
        .iter()
        .filter(|other| !apart(other))
        .find_map(|other| Some((other, other.under.iter().find(|under| under.value == block.value)?)))?;
    let message = format!(
        "`attic.{}` and `attic.{}` both lie under `{}`, whose ceiling, eaves and ridges count for each of them",
        other.attic.name, draft.attic.name, block.value
    );
    let mend = "list the block under one of them; or, where a wall parts two spaces, give one of them the `part` it lies under, \
                or each its own `ceiling` and the length of its vents with `over`";
    let problem = Problem::warning("shared-attic", message, mend);
    Some(problem.at(block.span.clone(), "").at(first.span.clone(), "the other attic"))
}

/// Whether two rectangles have some area in common.
fn overlap([from, to]: [[f64; 2]; 2], [other, end]: [[f64; 2]; 2]) -> bool {
    /// Rectangles by the tape that touch may do so by a hair, metres.
    const HAIR: f64 = 1e-3;
    (0..2).all(|axis| to[axis].min(end[axis]) - from[axis].max(other[axis]) > HAIR)
}

/// A part that lies nowhere near a block it is said to be a part of.
fn part_outside(draft: &AtticDraft, block: &Marked<String>, blocks: &[Block]) -> Option<Problem> {
    let part = draft.attic.part?;
    let corners =
        || blocks.iter().filter(|other| other.name == block.value).flat_map(|other| &other.contours);
    let ends = |axis: usize| {
        let along = corners().flatten().map(|corner| corner[axis]);
        along.fold([f64::INFINITY, f64::NEG_INFINITY], |[least, most], at| [least.min(at), most.max(at)])
    };
    let [[west, east], [south, north]] = [ends(0), ends(1)];
    if west > east || overlap(part, [[west, south], [east, north]]) {
        return None;
    }
    let message = format!("the `part` of `attic.{}` lies outside `{}`", draft.attic.name, block.value);
    let mend = "give the part by its place in plan, measured as blocks are; or take the block out of `under`";
    Some(Problem::error("part-outside", message, mend).at(block.span.clone(), ""))
}

/// A porch may have a ceiling of boards, so this stops nothing.
fn on_posts(draft: &AtticDraft, block: &Marked<String>, blocks: &[Block]) -> Option<Problem> {
    blocks.iter().find(|other| other.name == block.value && other.open)?;
    let message = format!(
        "`attic.{}` lies under `{}`, a roof on posts: its area and eaves count for the vents of the attic",
        draft.attic.name, block.value
    );
    let mend = "take it out of `under`, unless it has a ceiling and its space is open to the attic";
    Some(Problem::warning("attic-under-open", message, mend).at(block.span.clone(), ""))
}
