//! What keeps a house from its details, in words.

use std::collections::BTreeMap;

use book::{Book, Choice, Spot};
use job::{Job, Problem, Units};
use roof::Roof;

use super::{At, Fit, Place};

/// Places without a detail to be built; details chosen that are faulty, each once with its places; wishes that cannot be met.
pub(super) fn problems(places: &[Place], roof: &Roof, job: &Job, book: &Book) -> Vec<Problem> {
    let lacking = places.iter().filter_map(|place| lacking(place, roof));
    lacking
        .chain(faulty(places, job.units))
        .chain(unmet(places, job, book))
        .chain(stripped(places, book))
        .collect()
}

/// What a place lacks that will be there but has no detail to build.
fn lacking(place: &Place, roof: &Roof) -> Option<Problem> {
    if place.chosen().is_some() || !place.will_be {
        return None;
    }
    let (code, message) = match (place.spot, place.at) {
        (Spot::KickOut, At::End(edge, _)) => {
            let wall = roof.edge(edge).wall_of.as_deref().unwrap_or("the house");
            let number = edge.number();
            let why = "its water runs down behind the siding";
            (
                "no-kick-out",
                format!("edge {number}, the roof's end at the wall of {wall}, has no kick-out: {why}"),
            )
        }
        _ => ("no-detail", format!("{} has no detail to be built", place.name)),
    };
    let spot = place.spot.name();
    let mend = format!(
        "the books on top of the built-in ones (`--book`) refuse or replace every detail with `at = \"{spot}\"` that fits there: take that back, or add one"
    );
    Some(Problem::error(code, message, mend))
}

/// Faults of the details that will be built.
fn faulty(places: &[Place], units: Units) -> Vec<Problem> {
    let mut told: BTreeMap<(&str, String), Vec<&str>> = BTreeMap::new();
    for place in places {
        for fit in place.chosen().into_iter().flat_map(Fit::all) {
            for fault in &fit.faults {
                told.entry((&fit.detail, fault.told(units))).or_default().push(&place.name);
            }
        }
    }
    let problem = |((detail, fault), at): ((&str, String), Vec<&str>)| {
        let message = format!("detail `{detail}`: {fault} (at {})", at.join("; "));
        Problem::error("detail-fault", message, "mend its layers in the books, or wish another detail there")
    };
    told.into_iter().map(problem).collect()
}

/// Places of a roof laid over the old one whose details need the bare deck.
fn stripped(places: &[Place], book: &Book) -> Option<Problem> {
    let is_bare = |place: &&Place| {
        let detail = place.chosen().and_then(|fit| book.detail(&fit.detail).ok());
        place.facts.over == Some(true) && detail.is_some_and(|detail| detail.when.over != Some(true))
    };
    let names: Vec<&str> = places.iter().filter(is_bare).map(|place| place.name.as_str()).collect();
    (!names.is_empty()).then(|| {
        let message = format!(
            "the old roof cannot stay under what is built at {}: flashing and membrane there go on the bare deck",
            names.join("; ")
        );
        let mend = "take the old roof off along them, as far as the membrane of each section reaches, and slip it up under the old felt at its upper \
                    edge; or take the whole old roof off, which is what snow country asks";
        Problem::warning("stripped-for-flashing", message, mend)
    })
}

/// Wishes for details that are refused, or that fit no place of the house.
fn unmet(places: &[Place], job: &Job, book: &Book) -> Vec<Problem> {
    let problem = |wish: &job::Wish| {
        let detail = book.detail(&wish.detail).ok()?;
        let fits = places.iter().flat_map(|place| &place.planned).filter(|fit| fit.detail == wish.detail);
        let is_refused = fits.into_iter().any(|fit| fit.choice == Choice::Refused);
        if is_refused || detail.choice == Choice::Refused {
            let message = format!("`{}` is never built: {}", wish.detail, detail.note);
            return Some(
                Problem::error("refused-detail", message, "wish another one, or none")
                    .at(wish.span.clone(), ""),
            );
        }
        let is_met = places.iter().filter_map(Place::chosen).any(|fit| fit.detail == wish.detail);
        (!is_met).then(|| {
            let message = format!("`{}` fits no place of this house", wish.detail);
            let mend = format!(
                "wish one for a place the house has, or none; `{}` is for {}",
                wish.detail,
                detail.at.name()
            );
            Problem::warning("unmet-wish", message, mend).at(wish.span.clone(), "")
        })
    };
    job.covering.details.iter().filter_map(problem).collect()
}
