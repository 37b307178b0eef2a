//! What of eaves, decks and the old roof a person should look at before it is built as counted.
//!
//! # Source
//! Common practice; limits are rules of the books.

use book::{Kind, LookupError};
use job::{Block, Cricket, DeckKind, OldRoof, OpeningKind, Problem, Units};
use measure::Length;
use roof::EdgeKind;

use crate::array;
use crate::case::Case;
use crate::ice::{EaveStrip, IceBarrier};
use crate::vents::wary as vents;

/// Warnings of a takeoff, in the order of the work.
pub(crate) fn warnings(case: &Case<'_>, ice: &IceBarrier) -> Result<Vec<Problem>, LookupError> {
    let mut all: Vec<Problem> = small(case)?.into_iter().collect();
    all.extend(old_roof(case)?);
    all.extend(decks(case)?);
    all.extend(slides(case));
    all.extend(deep_eaves(case, ice)?);
    all.extend(skylights(case, ice)?);
    all.extend(crickets(case)?);
    all.extend(vents::warnings(case)?);
    all.extend(array::warnings(case));
    Ok(all)
}

fn rule<T: Kind>(case: &Case<'_>, id: &str) -> Result<T, LookupError> {
    Ok(case.rule(id)?.value)
}

/// A roof too small to be reckoned by its area.
fn small(case: &Case<'_>) -> Result<Option<Problem>, LookupError> {
    let least: f64 = rule(case, "repair.small")?;
    let squares = case.roof.slope_area().squares();
    Ok((squares < least).then(|| {
        let message = format!(
            "all of this roof is {squares:.2} squares, less than {least}: coming, setting up and least orders make its cost, not its area"
        );
        let mend = "reckon the hours of a whole visit and a minimum charge, never so much a square; order by the whole package";
        Problem::warning("small-repair", message, mend)
    }))
}

fn old_roof(case: &Case<'_>) -> Result<Vec<Problem>, LookupError> {
    let covering = &case.job.covering;
    let place = |problem: Problem| match &covering.layers {
        Some(layers) => problem.at(layers.span.clone(), "the old roof"),
        None => problem,
    };
    let mut all = Vec::new();
    if covering.over {
        let weight: f64 = rule(case, "recover.weight")?;
        let message = format!(
            "the new roof is laid over the old one: no ice barrier reaches the deck but where it is laid bare for one, nobody sees the deck, and it weighs {weight} psf more; \
             nothing is counted to take off and no underlayment; membranes and flashings are counted as on the bare deck, which is laid bare for them"
        );
        let mend = "take the old roof off; or only over one flat, dry layer, torn off at the eaves for the barrier, with longer nails, an engineer's \
                    word on the load, the maker's on the warranty, and the owner's signature";
        all.push(place(Problem::warning("laid-over", message, mend)));
    }
    if let Some(wood) =
        covering.beneath.filter(|old| matches!(old, OldRoof::WoodShingle | OldRoof::WoodShake))
    {
        let panel: Length = rule(case, "deck.over-spaced")?;
        let message = format!(
            "{} beneath the old roof mostly lie on spaced boards, which hold no shingles",
            old_word(wood)
        );
        let mend = format!(
            "count on a new deck of {} or more over them and look when the first strip is off: edges, gutters, curbs and flashings come up by that",
            case.words.0.lap(panel)
        );
        all.push(place(Problem::warning("spaced-boards", message, mend)));
    }
    Ok(all)
}

const fn old_word(old: OldRoof) -> &'static str {
    if matches!(old, OldRoof::WoodShake) { "wood shakes" } else { "wood shingles" }
}

fn decks(case: &Case<'_>) -> Result<Vec<Problem>, LookupError> {
    let most_gap: Length = rule(case, "deck.gap.most")?;
    let overlay: Length = rule(case, "deck.overlay")?;
    let most_sag: Length = rule(case, "deck.sag.most")?;
    let units = case.words.0;
    let told = |block: &Block| [gaps(block, most_gap, overlay, units), sag(block, most_sag, units)];
    Ok(case.job.blocks.iter().flat_map(told).flatten().collect())
}

/// Boards whose gaps a nail can miss wood in.
fn gaps(block: &Block, most: Length, overlay: Length, units: Units) -> Option<Problem> {
    let deck = block.deck.as_ref()?;
    deck.kind.as_ref().filter(|kind| kind.value == DeckKind::Boards)?;
    let gap = deck.widest_gap.or_else(|| deck.gap.as_ref().map(|gap| gap.value)).filter(|gap| *gap > most)?;
    let gap = units.length(gap);
    let message = format!("the boards of block `{}` have gaps up to {gap}: nails miss the wood", block.name);
    let mend = format!(
        "lay a panel of {} or more over them, with nails that much longer and edge metal, gutters and flashings that much higher; ask the official \
         whether gapped boards count as solid",
        units.length(overlay)
    );
    Some(Problem::warning("deck-gaps", message, mend).at(block.span.clone(), "this block"))
}

/// Decks that hang through.
fn sag(block: &Block, most: Length, units: Units) -> Option<Problem> {
    let sag = block.deck.as_ref()?.sag.filter(|sag| *sag > most)?;
    let over = if units == Units::Us { "10 ft" } else { "3.05 m" };
    let message =
        format!("the roof of block `{}` is {} out of plane in {over}", block.name, units.length(sag));
    let mend = "have an engineer look at what carries it before it is loaded; furring strips hide a sag and mend nothing";
    Some(Problem::warning("sag", message, mend).at(block.span.clone(), "this block"))
}

/// Flat roofs right under steeper ones.
fn slides(case: &Case<'_>) -> Vec<Problem> {
    let breaks = case.all_edges(&[EdgeKind::PitchBreakConcave]).into_iter();
    let told = breaks.filter_map(|(id, edge)| {
        let flat = edge.planes.iter().find(|plane| case.is_low(**plane))?;
        let steep = edge.planes.iter().find(|plane| *plane != flat)?;
        let [flat, steep] = [flat, steep].map(|plane| case.roof.plane(*plane));
        let message = format!(
            "snow of `{}` at {} slides onto `{}` at {} over {}",
            steep.name,
            case.words.0.pitch(steep.pitch),
            flat.name,
            case.words.0.pitch(flat.pitch),
            id
        );
        let mend = "have an engineer look at what drifts and slides onto the flatter roof; membrane on all of it, and its joint at the old wall opened \
                    and looked at for rot";
        let block = case.job.blocks.iter().find(|block| block.name == flat.block)?;
        Some(Problem::warning("slides-onto", message, mend).at(block.span.clone(), "the flatter roof"))
    });
    told.collect()
}

/// Eaves so deep that ice does not stand where the clause thinks.
fn deep_eaves(case: &Case<'_>, ice: &IceBarrier) -> Result<Vec<Problem>, LookupError> {
    let from: f64 = rule(case, "ice-barrier.deep-eave")?;
    let told = |strip: &EaveStrip| {
        let overhang = case.words.0.length(case.roof.edge(strip.edge).overhang);
        let message = format!(
            "{} stands out {overhang} and takes {} courses of ice barrier: ice may stand at the wall line, far up from the edge",
            strip.edge, strip.courses
        );
        let mend = "look where ice stood and carry the barrier past it; have an engineer look at notched or long rafter tails";
        Problem::warning("deep-eave", message, mend)
    };
    #[allow(clippy::cast_precision_loss, reason = "a handful of courses")]
    let is_deep = |strip: &&EaveStrip| strip.courses as f64 >= from;
    Ok(ice.eaves.iter().filter(is_deep).map(told).collect())
}

/// Skylights with their sills where water may stand behind ice.
fn skylights(case: &Case<'_>, ice: &IceBarrier) -> Result<Vec<Problem>, LookupError> {
    let clear: Length = rule(case, "ice-barrier.skylight.clear")?;
    let asked = |strip: &EaveStrip| strip.asked(ice.taken).along;
    let mut all = Vec::new();
    for (opening, placed) in case.openings().into_iter().filter(|(one, _)| one.kind == OpeningKind::Skylight)
    {
        let up = |strip: &EaveStrip| placed.distances.iter().find(|near| near.edge == strip.edge);
        let within = ice.eaves.iter().filter_map(|strip| Some((strip, up(strip)?.slope_from_rim)));
        let Some((strip, up)) =
            within.filter(|(strip, up)| *up < asked(strip)).min_by(|a, b| a.1.m().total_cmp(&b.1.m()))
        else {
            continue;
        };
        let units = case.words.0;
        let tape = |length: Length| units.length(length);
        let message = format!(
            "skylight `{}` begins {} up from {}, inside the ice barrier zone of {}: water behind ice stands at its sill",
            opening.name,
            tape(up),
            strip.edge,
            tape(asked(strip))
        );
        let mend = format!(
            "move it {} or more up the slope, {} clear of the zone; if the owner keeps it there: membrane without a break under it and up its curb, a curb \
             of {} or more, a cricket at its head, an insulated shaft, and the risk in writing",
            tape(asked(strip) + clear - up),
            tape(clear),
            units.lap(Length::from_in(4.0))
        );
        all.push(
            Problem::warning("skylight-in-ice-zone", message, mend)
                .at(opening.at_span.clone(), "this skylight"),
        );
    }
    Ok(all)
}

/// Chimneys that the code lets off a cricket and practice does not, where the job does not say.
fn crickets(case: &Case<'_>) -> Result<Vec<Problem>, LookupError> {
    let from: Length = rule(case, "cricket.by-practice")?;
    let clause = &case.edition.cricket;
    let is_between = |across: Length| across >= from && across <= *clause.wider_than;
    let is_ridge = |edge| case.roof.edge(edge).kind == EdgeKind::Ridge;
    let chimneys = case.openings().into_iter().filter(|(one, placed)| {
        let in_ridge =
            placed.distances.iter().any(|near| is_ridge(near.edge) && near.slope_from_rim <= Length::ZERO);
        one.kind == OpeningKind::Chimney
            && one.cricket == Cricket::ByCode
            && is_between(one.across)
            && !in_ridge
    });
    let told = chimneys.map(|(opening, _)| {
        let message = format!(
            "chimney `{}` is {} wide: {} asks a cricket only over {}, but in snow country one is built from {} on",
            opening.name,
            case.words.0.lap(opening.across),
            clause.clause,
            case.words.0.lap(*clause.wider_than),
            case.words.0.lap(from)
        );
        let mend = "write `cricket = true` to have it built and counted, or `cricket = false` to have a pan all the same";
        Problem::warning("cricket-by-practice", message, mend).at(opening.at_span.clone(), "this chimney")
    });
    Ok(told.collect())
}
