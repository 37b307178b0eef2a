//! Quantities counted from the measured roof, each with its because.
//!
//! [`Takeoff::of`] is the one entry: roof, job and books in, lines out. Each trade in its own module:
//! `areas` (what was measured) · `tear_off` · `ice` and `membrane` (ice barrier: the clause, and all that is cut from the rolls; `columns` and `band`
//! follow the fall over the planes) · `underlayment` · `edges` (drip edge, starter, caps) · `field` (shingles) · `nails` · `valley` · `steps` (where roof
//! meets wall) · `openings` · `vents` and `ridge`. `wary` (what a person should look at). `sticks` and `line` count pieces and packages. [`dimensions`] is the other entry: what the details measure on this
//! house, place by place.
//!
//! Invariant: every figure comes from the roof, the job or a row of the books, and its line says which. No figure is
//! given where a rule forbids the thing: the line says so instead.

mod areas;
mod array;
mod assumed;
mod band;
mod case;
mod columns;
mod dimension;
mod edges;
mod field;
mod ice;
mod line;
mod membrane;
mod nails;
mod openings;
mod plan;
mod ridge;
mod steps;
mod sticks;
mod tear_off;
mod underlayment;
mod valley;
mod vents;
mod wary;
mod words;

use book::{Book, LookupError};
use job::{Attic, Job, Problem};
use roof::Roof;

pub use crate::assumed::{Assumed, Of};
use crate::case::Case;
pub use crate::dimension::{Dimension, Size, dimensions, drawn_short};
pub use crate::ice::{Band, EaveStrip, IceBarrier, Part, Reach, Spared, Why};
pub use crate::line::{Amount, Item, Line, Quantity};
pub use crate::underlayment::Underlay;
pub use crate::vents::{Applies, Condition, Place, Region, VentCheck, VentPart, Vented, Verdict};
pub use crate::words::state_word;

/// What a roof takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Takeoff {
    /// Quantities in the order they are laid.
    pub lines: Vec<Line>,
    /// Ice barrier at eaves in detail.
    pub ice: IceBarrier,
    /// What is laid under the covering, plane by plane.
    pub underlay: Vec<Underlay>,
    /// Ventilation, attic by attic.
    pub vents: Vec<VentCheck>,
    /// What of the roof rests on readings nobody took.
    pub assumed: Assumed,
    /// What of eaves, decks, vents and the old roof a person should look at.
    pub warnings: Vec<Problem>,
}

impl Takeoff {
    /// Vents of an attic of the job.
    pub fn vents_of(&self, attic: &Attic) -> Option<&VentCheck> {
        self.vents.iter().find(|check| check.attic == attic.name)
    }

    /// Counts what the roof of a job takes.
    ///
    /// # Errors
    /// A row of the books that the job names or a count needs, and that is not there or of another kind.
    pub fn of(roof: &Roof, job: &Job, books: &Book) -> Result<Self, LookupError> {
        let case = Case::new(roof, job, books)?;
        let ice = membrane::complete(&case, IceBarrier::of(&case)?)?;
        let vents =
            job.attics.iter().map(|attic| VentCheck::of(&case, attic)).collect::<Result<Vec<_>, _>>()?;
        let mut lines = areas::lines(&case);
        lines.extend(tear_off::line(&case));
        lines.extend(membrane::line(&case, &ice)?);
        let underlayment = underlayment::line(&case, &ice)?;
        let caps = nails::caps(&case, underlayment.as_ref())?;
        lines.extend(underlayment.into_iter().chain(caps));
        lines.extend(edges::lines(&case)?);
        lines.extend(field::lines(&case)?);
        lines.extend(nails::roofing(&case)?);
        lines.extend(valley::lines(&case)?);
        lines.extend(steps::lines(&case)?);
        lines.extend(openings::lines(&case)?);
        lines.extend(vents::order::lines(&case, &vents)?);
        let underlay = underlayment::by_plane(&case);
        let warnings = wary::warnings(&case, &ice)?;
        Ok(Self { lines, ice, underlay, vents, assumed: case.assumed, warnings })
    }

    /// The line of an item.
    pub fn line(&self, key: &str) -> Option<&Line> {
        self.lines.iter().find(|line| line.item.key == key)
    }
}
