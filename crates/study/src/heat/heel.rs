//! Room for insulation over the wall.
//!
//! # Formula
//! Over the outside of the plate there is room for the heel's height less the way kept clear under the deck, which stands square to it: 1 in of it takes
//! 1 in × slope factor of the height. Inward room grows with the deck ([`heat::Taper`]); transmittances are averaged, never resistances.
//!
//! # Source
//! The way: the clause of the adopted edition. Options and where ice comes: common practice. A rafter stands over its plate by depth × slope factor less
//! seat × slope, the seat as deep as the plate unless its notch would take more than a quarter of the rafter (common practice).

use book::LookupError;
use heat::Taper;
use heat::energy::Heel;
use job::{Attic, Basis, Block, EdgeSlope, FramingKind, Problem, SpaceKind};
use measure::{Area, Length, Pitch, RValue};
use roof::EdgeId;

use super::desk::Desk;
use super::dressed;
use super::kind::Kind;

/// What a heel leaves of the insulation that is wanted.
#[derive(Clone, Debug, PartialEq)]
pub struct Short {
    /// The insulation over the wall and inward.
    pub taper: Taper,
    /// At the outside of the plate, films and ceiling with it.
    pub edge: RValue,
    /// How far in it is whole.
    pub reach: Length,
    /// Averaged over that.
    pub average: RValue,
}

/// Of every attic that is to be insulated.
pub(super) fn warnings(desk: &Desk<'_>) -> Result<Vec<Problem>, LookupError> {
    let mut all = Vec::new();
    if !desk.is_cold() {
        return Ok(all);
    }
    for attic in desk.job.attics.iter().filter(|attic| attic.kind == SpaceKind::Attic) {
        let Some(target) = desk.target(attic)? else { continue };
        let kind = desk.kind(attic)?;
        for block in desk.blocks(attic) {
            let Some(pitch) = flattest(block) else { continue };
            all.extend(match measured(block) {
                Some(height) => low(desk, block, (height, pitch), (target, kind)),
                None => Some(unknown(desk, block, pitch, (target, kind))),
            });
        }
    }
    Ok(all)
}

/// The pitch over the eave that takes longest to give room.
fn flattest(block: &Block) -> Option<Pitch> {
    let pitches = block.edges.iter().flatten().filter_map(|edge| match &edge.slope {
        EdgeSlope::Pitch(pitch) => Some(pitch.value),
        EdgeSlope::Gable => None,
    });
    pitches.filter(|pitch| pitch.slope() > 0.0).min_by(|a, b| a.slope().total_cmp(&b.slope()))
}

pub(super) fn measured(block: &Block) -> Option<Length> {
    let heel = block.framing.as_ref()?.heel.as_ref()?;
    (heel.basis == Basis::Measured).then_some(heel.value)
}

/// What a heel leaves; none where all of it fits.
pub(super) fn short(
    height: Length,
    pitch: Pitch,
    clear: Length,
    target: RValue,
    kind: Kind<'_>,
) -> Option<Short> {
    let heel = Heel { height, clear: clear * pitch.slope_factor(), pitch };
    let taper = heel.taper(kind.depth(target), kind.per_metre(), RValue::from_us(super::CEILING)).ok()?;
    let reach = taper.reach()?;
    let average = taper.mean(reach).ok()?.r_value()?;
    Some(Short { taper, edge: taper.at(Length::ZERO), reach, average })
}

/// How much larger a ceiling would be that lost as much without its measured heels, as found and as planned: along each eave its insulation runs out under the deck
/// and lets more through. Insulation lies as deep as its kind takes for what it resists, under the clear way where it is planned.
pub(super) fn larger(desk: &Desk<'_>, attic: &Attic) -> Result<[Area; 2], LookupError> {
    let states = desk.insulations(attic)?;
    let check = desk.takeoff.vents_of(attic);
    let soffits = check.map_or(&[][..], |check| &check.soffits);
    Ok(states.map(|(insulation, kind, clear)| {
        let along = |(eave, along): &(EdgeId, Length)| {
            let plane = desk.roof.edge(*eave).planes.iter().map(|plane| desk.roof.plane(*plane)).next()?;
            let mut blocks = desk.blocks(attic).filter(|block| plane.blocks.contains(&block.name));
            let short = short(blocks.find_map(measured)?, plane.pitch, clear, insulation?, kind)?;
            let whole = insulation? + RValue::from_us(super::CEILING);
            Some(*along * short.reach * (whole / short.average - 1.0))
        };
        soffits.iter().filter_map(along).sum()
    }))
}

fn low(
    desk: &Desk<'_>,
    block: &Block,
    (height, pitch): (Length, Pitch),
    (target, kind): (RValue, Kind<'_>),
) -> Option<Problem> {
    let Short { taper, edge, reach, average } = short(height, pitch, desk.clear, target, kind)?;
    let (r, lap) = (|of| desk.r(of), |of: Length| desk.job.units.length(of));
    let message = format!(
        "low heel: block `{}` has {} over its plate at {}, which less {} of air under the deck leaves {}; {} of {} is {} deep. With films and ceiling that is {} at the \
         edge, {} on average over the {} inward in which it comes to full depth: a warm strip over the wall line, whose melt freezes on the cold eave right below it{}",
        block.name,
        lap(height),
        desk.job.units.pitch(pitch),
        desk.job.units.lap(desk.clear),
        lap(taper.at_wall),
        r(target),
        kind.told(),
        lap(taper.full),
        r(edge),
        r(average),
        lap(reach),
        barrier(desk, block, reach),
    );
    let foam = RValue::from_si(taper.at_wall.m() / Length::from_in(1.0).m() * desk.closed_cell().si());
    let mend = format!(
        "while the deck is open at the eave, the lowest 2 to 3 ft of sheathing off: seal the top plate from outside, then foam board or closed-cell foam over the plate with {} of \
         air kept over it ({} in that room); or foam over the whole deck; or a heel raised to {} when the roof is rebuilt",
        desk.job.units.lap(desk.clear),
        r(foam),
        lap(taper.full + desk.clear * pitch.slope_factor()),
    );
    Some(Problem::warning("low-heel", message, mend).at(block.span.clone(), "this block"))
}

/// Whether the ice barrier covers the warm strip.
fn barrier(desk: &Desk<'_>, block: &Block, reach: Length) -> String {
    let inside = |strip: &takeoff::EaveStrip| {
        let edge = desk.roof.edge(strip.edge);
        let plane = edge
            .planes
            .iter()
            .map(|plane| desk.roof.plane(*plane))
            .find(|plane| plane.blocks.contains(&block.name))?;
        Some(strip.cover / plane.pitch.slope_factor() - edge.overhang)
    };
    let least = desk.takeoff.ice.eaves.iter().filter_map(inside).min_by(|a, b| a.m().total_cmp(&b.m()));
    let lap = |of| desk.job.units.length(of);
    match least {
        Some(inside) if inside >= reach => {
            format!("; the ice barrier reaches {} in and covers it", lap(inside))
        }
        Some(inside) => format!(
            "; the ice barrier ends {} in, {} short of its upper end",
            lap(inside),
            lap(reach - inside)
        ),
        None => "; no ice barrier covers it".to_owned(),
    }
}

/// A heel nobody measured, with what rafter and pitch suggest.
fn unknown(desk: &Desk<'_>, block: &Block, pitch: Pitch, (target, kind): (RValue, Kind<'_>)) -> Problem {
    let lap = |of: Length| desk.job.units.length(of);
    let framing = block.framing.as_ref();
    let is_truss = framing
        .and_then(|framing| framing.kind.as_ref())
        .is_some_and(|kind| kind.value == FramingKind::Truss && kind.basis == Basis::Measured);
    let size = framing.and_then(|framing| framing.size).filter(|_| !is_truss);
    let of_rafter = |size: job::Lumber| {
        let from = format!(
            "a {}x{} rafter at {} on a {} seat",
            size.thickness,
            size.depth,
            desk.job.units.pitch(pitch),
            desk.job.units.lap(SEAT)
        );
        (over_plate(dressed(size), pitch), from)
    };
    let usual = || desk.usual_heel().map(|height| (height, "what is usual".to_owned()));
    let suggests = size.map(of_rafter).or_else(usual).map_or(String::new(), |(height, from)| {
        let room = (height - desk.clear * pitch.slope_factor()).max(Length::ZERO);
        let verdict = if room < kind.depth(target) { ": too little" } else { ": enough" };
        format!(". From {from} it would be about {}, which leaves {}{verdict}", lap(height), lap(room))
    });
    let message = format!(
        "cannot tell whether {} of {}, {} deep, fits over the wall of block `{}`: its heel was not measured{suggests}",
        desk.r(target),
        kind.told(),
        lap(kind.depth(target)),
        block.name,
    );
    let mend = format!(
        "measure `block.{}.framing.heel`: upright from the plate to the top of the rafter or truss, over the outside of the wall",
        block.name
    );
    Problem::warning("heel-unknown", message, mend).at(block.span.clone(), "this block")
}

/// A plate of 2x4 (common practice).
const SEAT: Length = Length::from_in(3.5);
/// A notch takes no more of a rafter than this (IRC R802.7.1.1, from memory).
const NOTCH: f64 = 0.25;

/// How high a rafter stands over the outside of its plate.
fn over_plate(depth: Length, pitch: Pitch) -> Length {
    let sine = pitch.slope() / pitch.slope_factor();
    let seat = if sine > 0.0 { SEAT.min(depth * (NOTCH / sine)) } else { SEAT };
    depth * pitch.slope_factor() - seat * pitch.slope()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rafter depth × slope factor less seat × slope by hand: 2x6 at 5/12: 5.5 × 1.0833 − 3.5 × 5/12 = 4.50; 2x8 at 6/12: 7.25 × 1.1180 − 1.75 = 6.36; 2x4 at 8/12,
    /// whose seat is cut to 0.875 / 0.5547 = 1.577 in: 3.5 × 1.2019 − 1.577 × 2/3 = 3.16.
    #[test]
    fn a_rafter_over_its_plate() {
        for (depth, rise, wanted) in [(5.5, 5.0, 4.50), (7.25, 6.0, 6.36), (3.5, 8.0, 3.155)] {
            let height = over_plate(Length::from_in(depth), Pitch::from_rise_per_12(rise)).inches();
            assert!((height - wanted).abs() < 0.006, "{depth} at {rise}/12: {height}");
        }
    }
}
