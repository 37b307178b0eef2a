//! `trace`: one drop from where it falls to where it leaves.

use std::path::Path;

use book::Book;
use measure::Length;
use water::Water;

use super::show::parts_named;
use super::show::water::way;
use super::{pretty, studied, warn};
use crate::failure::Failure;
use crate::output::Output;

/// Which gutters a drop meets.
#[derive(Clone, Copy)]
pub(crate) enum Hung<'a> {
    /// The bare roof.
    None,
    /// Those of the job but for some that are blocked, by name.
    But(&'a [String]),
}

pub(crate) fn run(
    path: &Path,
    [x, y]: [Length; 2],
    json: bool,
    hung: Hung<'_>,
    books: &Book,
    out: &Output,
) -> Result<(), Failure> {
    let (document, study) = studied(path, books)?;
    warn(&document, &study, out);
    let units = study.job.units;
    let (gutters, blocked) = match hung {
        Hung::None => (&[][..], vec![]),
        Hung::But(names) => {
            let gutters = study.drainage.gutters.as_slice();
            (gutters, parts_named(names, gutters)?)
        }
    };
    let trace = Water::trace_with(&study.roof, gutters, &blocked, [x.m(), y.m()])
        .ok_or_else(|| Failure::OffRoof { x: units.length(x), y: units.length(y) })?;
    Output::result(&if json {
        pretty(&exchange::path(&trace, &study.roof, gutters))
    } else {
        way(&study.roof, gutters, &trace, units)
    })
}
