//! `trace`: one drop from where it falls to where it leaves.

use std::path::Path;

use book::Book;
use measure::Length;
use water::Water;

use super::show::water::way;
use super::{pretty, studied, warn};
use crate::failure::Failure;
use crate::output::Output;

pub(crate) fn run(
    path: &Path,
    [x, y]: [Length; 2],
    json: bool,
    books: &Book,
    out: &Output,
) -> Result<(), Failure> {
    let (document, study) = studied(path, books)?;
    warn(&document, &study, out);
    let units = study.job.units;
    let trace = Water::trace(&study.roof, [x.m(), y.m()])
        .ok_or_else(|| Failure::OffRoof { x: units.length(x), y: units.length(y) })?;
    Output::result(&if json {
        pretty(&exchange::path(&trace, &study.roof))
    } else {
        way(&study.roof, &trace, units)
    })
}
