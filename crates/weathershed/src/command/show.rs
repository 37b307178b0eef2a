//! `show`: one part of the results on the terminal, or as JSON for programs.

mod code;
mod detail;
mod gutters;
mod heat;
mod roof;
mod takeoff;
mod walls;
pub(super) mod water;
mod winter;

use std::path::Path;

use ::water::{Drainage, HungGutter, Part as Blocked};
use book::Book;
use study::Study;
use study::heat::Heat;
use study::winter::{Sampling, Spread, Winter};

use super::weather::years;
use super::{pretty, studied, warn};
use crate::args::Part;
use crate::document::Document;
use crate::failure::Failure;
use crate::output::Output;

/// How a part is asked for.
pub(crate) struct Asked<'a> {
    pub(crate) json: bool,
    pub(crate) blocked: &'a [String],
    pub(crate) weather: Option<&'a Path>,
    pub(crate) sampling: Sampling,
}

pub(crate) fn run(
    part: Part,
    path: &Path,
    asked: &Asked<'_>,
    books: &Book,
    out: &Output,
) -> Result<(), Failure> {
    let Asked { json, blocked, weather, .. } = *asked;
    if part != Part::Water && !blocked.is_empty() {
        return Err(Failure::NothingToBlock);
    }
    if part != Part::Winter && weather.is_some() {
        return Err(Failure::Weather { is_asked: false });
    }
    let (document, study) = studied(path, books)?;
    warn(&document, &study, out);
    let shown = match (part, json) {
        (Part::Roof, true) => pretty(&exchange::roof(&study.roof)),
        (Part::Takeoff, true) => pretty(&exchange::takeoff(&study.takeoff, study.job.units)),
        (Part::Water, _) => water_shown(&study, json, blocked, books)?,
        (Part::Code, true) => pretty(&exchange::code(&study.code)),
        (Part::Code, false) => code::text(&study.code, study.job.units),
        (Part::Detail, true) => {
            pretty(&exchange::details(&study.details, &study.dimensions, study.job.units, books))
        }
        (Part::Detail, false) => detail::text(&study, books),
        (Part::Heat, _) => heat_shown(&study, json, books)?,
        (Part::Winter, _) => winter_shown(&document, &study, asked, books)?,
        (Part::Roof, false) => roof::text(&study),
        (Part::Takeoff, false) => takeoff::text(&study.takeoff, study.job.units),
    };
    Output::result(&shown)
}

/// Where heat goes.
fn heat_shown(study: &Study, json: bool, books: &Book) -> Result<String, Failure> {
    let found = Heat::of(study, books)?;
    Ok(if json { pretty(&exchange::heat(&found)) } else { heat::text(&found, study.job.units) })
}

/// The winter by a file of weather, and by one of a hard winter where the job names it, with ranges where runs are asked.
fn winter_shown(
    document: &Document,
    study: &Study,
    asked: &Asked<'_>,
    books: &Book,
) -> Result<String, Failure> {
    let years = years(document, study, asked.weather)?;
    let year = &years.typical.weather;
    let found = Winter::of(study, years.both(), books).map_err(|problems| document.failed(problems))?;
    let spread = (asked.sampling.runs > 0).then(|| Spread::of(study, year, books, asked.sampling));
    let spread = spread.transpose().map_err(|problems| document.failed(problems))?;
    Ok(if asked.json {
        pretty(&exchange::winter(&found, spread.as_ref()))
    } else {
        winter::text(&found, spread.as_ref(), study.job.units)
    })
}

/// Water without gutters, and with them, some perhaps blocked.
fn water_shown(study: &Study, json: bool, blocked: &[String], books: &Book) -> Result<String, Failure> {
    let open = &study.drainage;
    let parts = parts_named(blocked, &open.gutters)?;
    let rain = study.job.site.rain.value;
    let drainage = Drainage::of(&study.roof, &open.gutters, &parts, rain, books)?;
    let changes = drainage.water.changes(&open.water);
    Ok(if json {
        pretty(&exchange::water(
            &study.water,
            &study.gutters,
            &drainage,
            &changes,
            &study.roof,
            rain,
            study.job.units,
        ))
    } else {
        water::text(study, &drainage, &changes)
    })
}

/// The gutters and downspouts of some names.
pub(super) fn parts_named(names: &[String], gutters: &[HungGutter]) -> Result<Vec<Blocked>, Failure> {
    names.iter().map(|name| part_named(name, gutters)).collect()
}

/// The gutter or downspout of a name.
fn part_named(name: &str, gutters: &[HungGutter]) -> Result<Blocked, Failure> {
    Blocked::named(name, gutters).ok_or_else(|| {
        let spouts = gutters.iter().flat_map(|g| &g.downspouts).map(|d| d.name.as_str());
        let names: Vec<&str> = gutters.iter().map(|g| g.name.as_str()).chain(spouts).collect();
        let mend = match book::nearest(name, names.iter().copied()) {
            Some(meant) => format!("did you mean `{meant}`?"),
            None if names.is_empty() => "hang gutters in the job first: [[gutter]]".to_owned(),
            None => format!("name one of {}", names.join(", ")),
        };
        Failure::NoSuchGutter { name: name.to_owned(), mend }
    })
}
