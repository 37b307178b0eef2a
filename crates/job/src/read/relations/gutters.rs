//! Gutters against one another: names that repeat, downspouts that empty on what is not there.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::RangeFrom;

use super::planes::Lost;
use super::twice;
use crate::read::desk::Desk;
use crate::read::node::shortened;
use crate::read::notation::{Marked, PlaneOf};
use crate::read::section::{DownspoutDraft, GutterDraft};
use crate::{Block, Downspout, Empties, Gutter, Problem, Span, State};

/// Words that are no names, since downspouts empty there.
const PLACES: [(&str, Empties); 2] = [("ground", Empties::Ground), ("drain", Empties::Drain)];

/// Gutters with their names and with what their downspouts empty on. What cannot be read is left out.
pub(super) fn gutters(drafts: Vec<GutterDraft>, blocks: &[Block], desk: &mut Desk<'_>) -> Vec<Gutter> {
    let mut made = Names { taken: taken(&drafts, desk), numbers: BTreeMap::new() };
    let names: Vec<String> = drafts.iter().map(|draft| made.of(draft.name.as_ref(), "gutter")).collect();
    let known: BTreeMap<String, State> =
        names.iter().cloned().zip(drafts.iter().map(|draft| draft.state)).collect();
    let mut gutters = Vec::new();
    for (draft, name) in drafts.into_iter().zip(names) {
        gutters.extend(gutter(draft, name, &mut made, &Around { known: &known, blocks }, desk));
    }
    gutters
}

/// What a downspout may name.
struct Around<'a> {
    known: &'a BTreeMap<String, State>,
    blocks: &'a [Block],
}

/// Names that are written, each reported where it stands twice or names something else.
fn taken(drafts: &[GutterDraft], desk: &mut Desk<'_>) -> BTreeSet<String> {
    let mut first: BTreeMap<&str, &Span> = BTreeMap::new();
    for name in drafts.iter().flat_map(|draft| {
        draft.name.iter().chain(draft.downspouts.iter().filter_map(|spout| spout.name.as_ref()))
    }) {
        let is_place = PLACES.iter().any(|(place, _)| *place == name.value);
        if let Some(first) = first.get(name.value.as_str()) {
            desk.report(twice("gutters or downspouts", name, first));
        } else if is_place || PlaneOf::find(&name.value, desk).is_some() {
            let message = format!("`{}` is where water can go, and cannot name a gutter too", name.value);
            let mend = format!("call it something else, such as `{} gutter`", name.value);
            desk.report(Problem::error("name-taken", message, mend).at(name.span.clone(), ""));
        }
        first.entry(&name.value).or_insert(&name.span);
    }
    first.into_keys().map(str::to_owned).collect()
}

/// Names that are taken, and where counting goes on for those still to be made.
struct Names {
    taken: BTreeSet<String>,
    numbers: BTreeMap<String, RangeFrom<usize>>,
}

impl Names {
    /// The name written, or one made from a word and the least number that is free.
    fn of(&mut self, written: Option<&Marked<String>>, word: &str) -> String {
        if let Some(name) = written {
            return name.value.clone();
        }
        let numbers = self.numbers.entry(word.to_owned()).or_insert(1..);
        let name = numbers.map(|n| format!("{word} {n}")).find(|name| !self.taken.contains(name));
        name.unwrap_or_default()
    }
}

fn gutter(
    draft: GutterDraft,
    name: String,
    names: &mut Names,
    around: &Around<'_>,
    desk: &mut Desk<'_>,
) -> Option<Gutter> {
    let itself = (name.as_str(), draft.state);
    let spouts: Vec<Option<Downspout>> =
        draft.downspouts.into_iter().map(|spout| downspout(spout, itself, names, around, desk)).collect();
    let Marked { value: eave, span: eave_span } = draft.eave?;
    if let Some(lost) = Lost::of(&eave, around.blocks) {
        let message = format!("`{}` hangs at {}", draft.path, Lost::told(&eave));
        let mend = format!("hang it at {}", lost.offered());
        desk.report(Problem::error("unknown-plane", message, mend).at(eave_span.clone(), ""));
    }
    Some(Gutter {
        eave,
        part: draft.part,
        kind: draft.kind?,
        fall: draft.fall?,
        wall_gap: draft.wall_gap,
        downspouts: spouts.into_iter().collect::<Option<_>>()?,
        state: draft.state,
        span: draft.span,
        eave_span,
        name,
    })
}

fn downspout(
    draft: DownspoutDraft,
    of: (&str, State),
    names: &mut Names,
    around: &Around<'_>,
    desk: &mut Desk<'_>,
) -> Option<Downspout> {
    let name = names.of(draft.name.as_ref(), &format!("{} downspout", of.0));
    let to = draft.to?;
    let empties = empties(&to, &draft.path, of, around, desk);
    let Marked { value: at, span: at_span } = draft.at?;
    Some(Downspout { name, at, size: draft.size?, to: empties?, away: draft.away, at_span, to_span: to.span })
}

/// What a downspout empties on.
fn empties(
    to: &Marked<String>,
    path: &str,
    (gutter, state): (&str, State),
    around: &Around<'_>,
    desk: &mut Desk<'_>,
) -> Option<Empties> {
    if let Some((_, place)) = PLACES.iter().find(|(word, _)| *word == to.value) {
        return Some(place.clone());
    }
    if let Some((name, other)) = around.known.get_key_value(&to.value) {
        let wrong = if name == gutter {
            Some("which is the gutter it hangs on")
        } else {
            (*other == State::Remove && state != State::Remove).then_some("which goes")
        };
        return match wrong {
            None => Some(Empties::Gutter(name.clone())),
            Some(wrong) => {
                let message = format!("`{path}` empties into `{name}`, {wrong}");
                let mend = "name a lower gutter that stays, or `ground` or `drain`";
                desk.refuse(Problem::error("empties-nowhere", message, mend).at(to.span.clone(), ""))
            }
        };
    }
    let Some(plane) = PlaneOf::find(&to.value, desk) else {
        return desk.refuse(nothing(to, path, around));
    };
    match Lost::of(&plane, around.blocks) {
        None => Some(Empties::Roof(plane)),
        Some(lost) => {
            let message = format!("`{path}` empties on {}", Lost::told(&plane));
            let mend = format!("name {}, or `ground` or `drain`", lost.offered());
            desk.refuse(Problem::error("unknown-plane", message, mend).at(to.span.clone(), ""))
        }
    }
}

fn nothing(to: &Marked<String>, path: &str, around: &Around<'_>) -> Problem {
    let message = format!("`{path}` empties on `{}`, which is nothing here", shortened(&to.value));
    let names = PLACES.iter().map(|(place, _)| *place);
    let mend = match book::nearest(&to.value, names.chain(around.known.keys().map(String::as_str))) {
        Some(meant) => format!("did you mean `{meant}`?"),
        None => "write `ground`, `drain`, the name of a lower gutter, or a lower roof such as \"porch S\""
            .to_owned(),
    };
    Problem::error("empties-nowhere", message, mend).at(to.span.clone(), "")
}
