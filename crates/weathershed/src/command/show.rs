//! `show`: one part of the results on the terminal, or as JSON for programs.

mod detail;
mod roof;
mod takeoff;
pub(super) mod water;

use std::path::Path;

use book::Book;

use super::{pretty, studied, warn};
use crate::args::Part;
use crate::failure::Failure;
use crate::output::Output;

pub(crate) fn run(part: Part, path: &Path, json: bool, books: &Book, out: &Output) -> Result<(), Failure> {
    let (document, study) = studied(path, books)?;
    warn(&document, &study, out);
    let shown = match (part, json) {
        (Part::Roof, true) => pretty(&exchange::roof(&study.roof)),
        (Part::Takeoff, true) => pretty(&exchange::takeoff(&study.takeoff, study.job.units)),
        (Part::Water, true) => {
            pretty(&exchange::water(&study.water, &study.gutters, &study.roof, study.job.site.rain.value))
        }
        (Part::Detail, true) => pretty(&exchange::details(&study.details, books)),
        (Part::Detail, false) => detail::text(&study.details, books),
        (Part::Roof, false) => roof::text(&study.roof, study.job.units),
        (Part::Water, false) => water::text(&study),
        (Part::Takeoff, false) => takeoff::text(&study.takeoff, study.job.units),
    };
    Output::result(&shown)
}
