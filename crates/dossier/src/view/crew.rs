//! The crew book: each detail that will be built, with its section, its layers, its sizes on this house and its hold points.

use std::collections::BTreeMap;

use book::{Book, Detail, Hold, Layer};
use detail::{At, Attack, Built, Fit, Place, Section};
use draw::{PlanOptions, Reader, SectionOptions, Survey};
use job::Units;
use measure::Length;
use study::Study;
use takeoff::{Dimension, drawn_short};

use super::words::stated;
use super::{drawing, head};
use crate::{
    CrewBook, DetailPage, DossierError, Drawing, Fact, HoldRow, Illustrated, LayerRow, PlaceRow, Prepared,
    Room, StandRow, Stated, crew_book, standing_cautions,
};

/// Typesets the crew book of a job's results.
///
/// # Errors
/// As [`crate::crew_book`], and rows the books do not have.
pub fn crew_papers(
    study: &Study,
    book: &Book,
    job_document: &str,
    hash: &str,
    prepared: Prepared,
) -> Result<Illustrated, DossierError> {
    let (contents, key, sections) = contents(study, book, hash, prepared)?;
    let paper = crew_book(&contents, &key, &sections, job_document)?;
    Ok(Illustrated { paper, drawings: vec![("key-plan".to_owned(), key.svg)] })
}

/// The book of a job's results, with the plan of its details and a section for each page.
pub(crate) fn contents(
    study: &Study,
    book: &Book,
    hash: &str,
    prepared: Prepared,
) -> Result<(CrewBook, Drawing, Vec<Drawing>), DossierError> {
    let (mut pages, mut sections) = (Vec::new(), Vec::new());
    let mut holds = Vec::new();
    let all = of_one_detail(study.details.built());
    let key = key(study, &all);
    for built in all {
        let detail = book.detail(&built.fit.detail)?;
        let section = Section::of(detail, built.fit.at, book)?;
        let short = drawn_short(built.places.iter().flat_map(|place| &study.dimensions[*place]));
        sections.push(cut(&section, study.job.units, short));
        pages.push(page(study, &built, detail, &section, &mut holds));
    }
    let head = head(study, ["details", "crew"], hash, prepared);
    let attic = study::heat::work_holds(study, book)?.into_iter().map(Into::into).collect();
    Ok((CrewBook { head, attic, pages, cautions: standing_cautions() }, key, sections))
}

/// One page for each detail and cladding, whatever the pitch as long as it stands alike: layers lie along the wood alike.
fn of_one_detail(all: Vec<Built<'_>>) -> Vec<Built<'_>> {
    let mut pages: Vec<Built<'_>> = Vec::new();
    for built in all {
        let is_same = |page: &&mut Built<'_>| {
            page.fit.detail == built.fit.detail
                && page.fit.at.cladding == built.fit.at.cladding
                && page.fit.stands_as(built.fit)
        };
        match pages.iter_mut().find(is_same) {
            Some(page) => page.places.extend(built.places),
            None => pages.push(built),
        }
    }
    pages
}

/// The plan with the numbers of the details at their places.
fn key(study: &Study, all: &[Built<'_>]) -> Drawing {
    let mut numbers: BTreeMap<At, Vec<usize>> = BTreeMap::new();
    for (i, built) in all.iter().enumerate() {
        for index in &built.places {
            numbers.entry(study.details.places[*index].at).or_default().push(i + 1);
        }
    }
    let numbers: Vec<(At, Vec<usize>)> = numbers.into_iter().collect();
    let survey = Survey::of(&study.job, study.takeoff.assumed.clone());
    let options = PlanOptions { size_mm: Room::KEY.size_mm(), units: study.job.units };
    drawing(draw::key_plan(&study.roof, &survey, &numbers, &options), "")
}

fn cut(section: &Section<'_>, units: Units, short: Option<[Length; 2]>) -> Drawing {
    let options = SectionOptions { size_mm: Room::CREW.size_mm(), units, reader: Reader::Crew, short };
    drawing(draw::section(section, &options), "")
}

fn page<'b>(
    study: &Study,
    built: &Built<'_>,
    detail: &'b Detail,
    section: &Section<'_>,
    holds: &mut Vec<&'b Hold>,
) -> DetailPage {
    let units = study.job.units;
    let places: Vec<&Place> = built.places.iter().map(|index| &study.details.places[*index]).collect();
    let sizes: Vec<&[Dimension]> =
        built.places.iter().map(|index| study.dimensions[*index].as_slice()).collect();
    let (mut same, heads, rows) = split(&places, &sizes, units);
    same.splice(0..0, clad(&places, built.fit));
    let short = drawn_short(sizes.iter().copied().flatten());
    DetailPage {
        name: built.fit.name.clone(),
        at: at(&places),
        cut: drawn_at(&places, built.fit, units),
        stands: Attack::ALL.into_iter().filter_map(|attack| stand(attack, &places, built.fit)).collect(),
        layers: section.laying().iter().map(|i| layer(section, &detail.layers[*i], units, short)).collect(),
        sizes: same,
        heads,
        places: rows,
        holds: detail.hold.iter().map(|one| hold(one, holds)).collect(),
        note: detail.note.clone(),
    }
}

/// The siding of walls that nobody described, where the detail has siding.
fn clad(places: &[&Place], fit: &Fit) -> Option<Fact> {
    let cladding = fit.at.cladding?;
    let at: Vec<String> =
        places.iter().filter(|place| place.is_wall_assumed).map(|place| place.short()).collect();
    (!at.is_empty()).then(|| Fact {
        label: format!("siding at {}, which nobody wrote down,", detail::listed(&at).join("; ")),
        value: Stated::assumed(cladding.name()),
    })
}

/// The pitch a section is drawn at, where its places have several.
fn drawn_at(places: &[&Place], fit: &Fit, units: Units) -> String {
    let pitches = |place: &Place| {
        let [first, then] = [place.slopes.first, place.slopes.then].map(|pitch| units.pitch(pitch));
        if first == then { first } else { format!("{first} and {then}") }
    };
    let mut all: Vec<String> = places.iter().map(|place| pitches(place)).collect();
    all.dedup();
    match all.as_slice() {
        [first, _, ..] if fit.is_pitched => {
            format!("Drawn at {first}; the same along the wood at {}.", other(&all))
        }
        _ => String::new(),
    }
}

/// The pitches after the first, each once.
fn other(all: &[String]) -> String {
    let mut others: Vec<&str> = all[1..].iter().map(String::as_str).filter(|one| *one != all[0]).collect();
    others.sort_unstable();
    others.dedup();
    others.join(", ")
}

/// Such as `edges 16, 17`.
fn at(places: &[&Place]) -> String {
    let names: Vec<String> = places.iter().map(|place| place.short()).collect();
    detail::listed(&names).join("; ")
}

/// How many layers must fail under an attack that can happen there; as found, the worst of its places.
fn stand(attack: Attack, places: &[&Place], fit: &Fit) -> Option<StandRow> {
    let stood = fit.stands.iter().find(|stood| stood.attack == attack)?;
    let words =
        |failures: Option<usize>| failures.map_or_else(|| "all".to_owned(), |count| count.to_string());
    let found = places.iter().filter_map(|place| place.found.as_ref());
    let worst = found
        .filter_map(|found| found.stands.iter().find(|stood| stood.attack == attack))
        .map(|stood| stood.failures)
        .min_by_key(|failures| failures.unwrap_or(usize::MAX));
    let is_assumed =
        worst.is_some() && places.iter().filter_map(|place| place.found.as_ref()).any(|fit| fit.is_assumed);
    let is_new = places.iter().all(|place| !place.is_there);
    let found = worst.map_or_else(|| if is_new { "new" } else { "–" }.to_owned(), words);
    Some(StandRow {
        attack: attack.name().to_owned(),
        found: stated(found, is_assumed),
        built: words(stood.failures),
    })
}

fn layer(section: &Section<'_>, layer: &Layer, units: Units, short: Option<[Length; 2]>) -> LayerRow {
    let told = [
        draw::layer_covers(section, layer, units, short),
        draw::layer_laps(layer, units),
        draw::layer_held(layer, units),
    ];
    let told: Vec<String> = told.into_iter().filter(|part| !part.is_empty()).collect();
    LayerRow { name: layer.id.clone(), told: told.join("; "), note: layer.note.clone() }
}

/// A hold point with its number in the book: one asked at several details keeps its number.
fn hold<'b>(one: &'b Hold, known: &mut Vec<&'b Hold>) -> HoldRow {
    let index = known.iter().position(|other| *other == one).unwrap_or_else(|| {
        known.push(one);
        known.len() - 1
    });
    HoldRow {
        number: index + 1,
        photo: one.photo.clone(),
        passes: one.passes.clone(),
        prevents: one.prevents.clone(),
    }
}

/// What a dimension is of and how much it is; distances from an edge are of one sort, whichever edge that is, and so are angles off the eaves of
/// the planes on either side, so that they share a column.
fn told<'o>(one: &'o Dimension, place: &Place, units: Units) -> (&'o str, String) {
    let size = one.size.written(units);
    if let Some((what, edge)) = one.what.split_once(" from edge ") {
        let number = edge.split(',').next().unwrap_or(edge);
        return (what, format!("{size} from edge {number}"));
    }
    let plane = one.what.strip_prefix("in plan off the eave of ");
    match plane.and_then(|plane| place.sides.iter().position(|side| side == plane)) {
        Some(0) => ("in plan off the eave of one", size),
        Some(_) => ("in plan off the eave of the other", size),
        None => (&one.what, size),
    }
}

/// The sizes of a place by what they are of, with the planes that are its two sides first: the layers of one are laid first.
fn sizes_of<'o>(place: &Place, all: &'o [Dimension], units: Units) -> Vec<(&'o str, Stated)> {
    let names = ["one (laid first)", "other"];
    let sides =
        names.into_iter().zip(&place.sides).map(|(what, name)| (what, Stated::measured(name.as_str())));
    let sizes = all.iter().map(|one| {
        let (what, size) = told(one, place, units);
        (what, stated(size, one.is_assumed))
    });
    sides.chain(sizes).collect()
}

/// Sizes that are the same at all places; what the others are of; the others, place by place.
fn split(places: &[&Place], sizes: &[&[Dimension]], units: Units) -> (Vec<Fact>, Vec<String>, Vec<PlaceRow>) {
    let all: Vec<Vec<(&str, Stated)>> =
        places.iter().zip(sizes).map(|(place, sizes)| sizes_of(place, sizes, units)).collect();
    let mut whats: Vec<&str> = Vec::new();
    for (what, _) in all.iter().flatten() {
        if !whats.contains(what) {
            whats.push(what);
        }
    }
    let of = |sizes: &[(&str, Stated)], what: &str| {
        sizes.iter().find(|(other, _)| *other == what).map(|(_, size)| size.clone())
    };
    let is_same = |what: &&&str| {
        let first = of(&all[0], what);
        first.is_some() && all.iter().all(|sizes| of(sizes, what) == first)
    };
    let (same, other): (Vec<&&str>, Vec<&&str>) = whats.iter().partition(is_same);
    let same = same
        .into_iter()
        .filter_map(|what| Some(Fact { label: (*what).to_owned(), value: of(&all[0], what)? }));
    let row = |(place, sizes): (&&Place, &Vec<(&str, Stated)>)| PlaceRow {
        name: place.short(),
        sizes: other.iter().map(|what| of(sizes, what).unwrap_or_else(|| Stated::measured("–"))).collect(),
    };
    let rows = if other.is_empty() { Vec::new() } else { places.iter().zip(&all).map(row).collect() };
    (same.collect(), other.iter().map(|what| (**what).to_owned()).collect(), rows)
}
