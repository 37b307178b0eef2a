//! Closed-cell foam over a ceiling, as deep as the heel or the bays leave room for: what it would do where other insulation does not fit.
//!
//! # Method
//! Over the outside of the wall there is room for the heel less the way kept clear under the deck; foam of that depth over the whole ceiling thins out nowhere. Bays take
//! what the rafter leaves under the way. No deeper than what the job plans to resist, or the energy code asks. What lay there is taken out first, so that foam
//! sticks to the ceiling; it leaves the leaks of a tight ceiling by the row of the books.
//!
//! # Range
//! A suggestion beside the plan: foam next to rooms asks for a thermal or ignition barrier, bare flues and lamps keep their distance, and no wire or leak is
//! reached again.

use book::LookupError;
use heat::air::{Leak, density};
use heat::energy::{Foam as Sprayed, leak_area};
use job::{Attic, Block, EdgeSlope, SpaceKind};
use measure::{Area, Flow, Length, Pitch, Pressure, RValue};

use super::air::{MEASURED_AT, STANDARD};
use super::desk::Desk;
use super::dressed;
use super::heel::measured;
use super::kind::Kind;

/// Foam that fits over a ceiling.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Foam {
    /// Depth over the whole ceiling.
    pub depth: Length,
    /// Passes it is sprayed in.
    pub lifts: u32,
    /// What it resists.
    pub resists: RValue,
    /// What the ceiling leaks under it with the house at 50 Pa, where it leaked more.
    pub leakage: Flow,
}

/// Of an attic or of bays; else why it is not looked at, with the field that would tell.
pub(super) fn of(desk: &Desk<'_>, attic: &Attic, area: Area) -> Result<Result<Foam, String>, LookupError> {
    let row = desk.book.thermal().insulation("foam-closed")?;
    let kind = Kind { row, is_named: true };
    let Some(sprayed) = Sprayed::of(row) else {
        return Ok(Err(format!("`{}`: the books do not say how {} is sprayed", attic.name, row.name)));
    };
    let room = match attic.kind {
        SpaceKind::Attic => least(desk, attic, over_wall),
        SpaceKind::Cathedral => least(desk, attic, in_bay),
    };
    let depth = match room {
        Ok(room) => asked(desk, attic)?.map_or(room, |asked| room.min(kind.depth(asked))),
        Err(lacks) => return Ok(Err(lacks)),
    };
    let resists = RValue::from_si(depth.m() * kind.per_metre());
    let found = attic.found.effective.as_ref().map_or(RValue::ZERO, |r| r.value);
    if resists <= found {
        let told = format!(
            "`{}`: there is room for {} of it, which is {}, no more than what lies there",
            attic.name,
            desk.job.units.lap(depth),
            desk.r(resists)
        );
        return Ok(Err(told));
    }
    let [_, tight] = leak_area(&[(desk.book.thermal().leak("ceiling")?, area.m2())]);
    Ok(Ok(Foam { depth, lifts: sprayed.lifts(depth), resists, leakage: at_50_pa(tight) }))
}

/// What leaks of an area at 4 Pa let through at 50 Pa, by the exponent of houses.
pub(super) fn at_50_pa(area: Area) -> Flow {
    const REFERENCE: f64 = 4.0;
    let flow = Leak::opening(area, 1.0, density(STANDARD, 20.0)).flow(REFERENCE);
    let leak = Leak::at(Flow::from_m3_s(flow), Pressure::from_pa(REFERENCE), Leak::USUAL_EXPONENT);
    Flow::from_m3_s(leak.flow(MEASURED_AT))
}

/// What it is to resist at most: as the job plans, or as the energy code asks in its zone; none where nobody can tell.
fn asked(desk: &Desk<'_>, attic: &Attic) -> Result<Option<RValue>, LookupError> {
    let zone = desk.job.site.climate_zone.as_deref();
    match (desk.target(attic)?, zone) {
        (None, Some(zone)) => Ok(Some(*desk.book.thermal().energy_code_in(desk.edition.year, zone)?.ceiling)),
        (planned, _) => Ok(planned),
    }
}

/// Room over the wall of a block, for foam under the way kept clear; else what to do about it, with a gap for the block's name.
fn over_wall(desk: &Desk<'_>, block: &Block) -> Result<Length, &'static str> {
    let sloped = block.edges.iter().flatten().filter_map(|edge| match &edge.slope {
        EdgeSlope::Pitch(pitch) => Some(pitch.value),
        EdgeSlope::Gable => None,
    });
    let factor = sloped.map(Pitch::slope_factor).fold(1.0, f64::max);
    let heel = measured(block).ok_or("measure `block.{}.framing.heel`")?;
    Ok((heel - desk.clear * factor).max(Length::ZERO))
}

/// Room in the bays of a block under a sloped ceiling; else likewise.
fn in_bay(desk: &Desk<'_>, block: &Block) -> Result<Length, &'static str> {
    let size = block.framing.as_ref().and_then(|framing| framing.size);
    let size = size.ok_or("write `block.{}.framing.size`")?;
    Ok((dressed(size) - desk.clear).max(Length::ZERO))
}

/// The least room over all blocks of a space.
fn least(
    desk: &Desk<'_>,
    attic: &Attic,
    room: impl Fn(&Desk<'_>, &Block) -> Result<Length, &'static str>,
) -> Result<Length, String> {
    let of = |block: &Block| {
        let told = |lacks: &str| format!("`{}`: {}", attic.name, lacks.replace("{}", &block.name));
        room(desk, block).map_err(told)
    };
    let rooms = desk.blocks(attic).map(of).collect::<Result<Vec<_>, _>>()?;
    let least = rooms.into_iter().reduce(Length::min);
    least.ok_or_else(|| format!("`{}` lies under no block with walls", attic.name))
}
