//! Floors that hang out past the wall below with their joist bays open: what closing them takes off the leaks.
//!
//! # Source
//! A gap that was measured lets through what an opening with sharp edges does; else leaks by the metre, as found less as made tight, by the row of the books. Air that
//! comes in low rises and goes out through the ceilings: a house that takes in less there pushes less up. Bays that stand open to an attic feed it from the floor.

use book::LookupError;
use heat::air::{Leak, density};
use heat::energy::leak_area;
use job::{Cantilever, Side};
use measure::{Flow, Length};

use ::winter::house_air::VENT_DISCHARGE;

use super::air::{MEASURED_AT, STANDARD};
use super::desk::Desk;
use super::foam::at_50_pa;

/// A cantilever whose joist bays stand open.
#[derive(Clone, Debug, PartialEq)]
pub struct Open {
    /// Block it belongs to.
    pub block: String,
    /// Its side.
    pub side: Side,
    /// Along the wall.
    pub length: Length,
    /// What closing it takes off, with the house at 50 Pa.
    pub takes: Flow,
    /// Whether its gap was measured.
    pub is_measured: bool,
    /// Number of the attic it stands open to; none where that is outdoors.
    pub attic: Option<usize>,
    /// Whether the work closes it.
    pub is_planned: bool,
}

/// Those of a job that are open, and why others cannot be told of.
pub(super) fn of(desk: &Desk<'_>) -> Result<(Vec<Open>, Vec<String>), LookupError> {
    let (mut all, mut unknown) = (Vec::new(), Vec::new());
    for (block, walls) in &desk.job.walls {
        for cantilever in &walls.cantilevers {
            match cantilever.blocked.as_ref().map(|blocked| blocked.value) {
                Some(true) => {}
                Some(false) => all.push(open(desk, block, cantilever)?),
                None => unknown.push(format!(
                    "`{block}` {}: look whether the bays are blocked and write `walls.{block}.cantilever.blocked`",
                    cantilever.side
                )),
            }
        }
    }
    Ok((all, unknown))
}

fn open(desk: &Desk<'_>, block: &str, cantilever: &Cantilever) -> Result<Open, LookupError> {
    let takes = if let Some(gap) = cantilever.gap {
        let leak = Leak::opening(gap, VENT_DISCHARGE, density(STANDARD, 20.0));
        Flow::from_m3_s(leak.flow(MEASURED_AT))
    } else {
        let row = desk.book.thermal().leak("kneewall")?;
        let [found, tight] = leak_area(&[(row, cantilever.length.m())]).map(at_50_pa);
        found - tight
    };
    let is_into =
        |attic: &job::Attic| cantilever.opens_into.as_ref().is_some_and(|block| attic.under.contains(block));
    Ok(Open {
        block: block.to_owned(),
        side: cantilever.side,
        length: cantilever.length,
        takes,
        is_measured: cantilever.gap.is_some(),
        attic: desk.job.attics.iter().position(is_into),
        is_planned: cantilever.close,
    })
}
