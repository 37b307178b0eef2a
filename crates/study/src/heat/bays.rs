//! Rafter bays over sloped ceilings, and what lies beside them under the same roof plane.
//!
//! # Source
//! Each space has its own way in and out (IRC R806.1); a roof without vents: IRC R806.5 with the table of the books. What else may be done is common practice.

use book::LookupError;
use heat::air::Leak;
use job::{Attic, Problem, SpaceKind};
use measure::{Area, Length, RValue, Temperature};
use roof::plan::flat;
use roof::{Plane, PlaneId};
use takeoff::{Region, VentCheck};

use super::desk::Desk;
use super::dressed;

/// The way for air in the bays of a sloped ceiling.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Channel {
    /// Between two rafters.
    pub width: Length,
    /// From rafter to rafter.
    pub spacing: Length,
    /// How deep it is as found and as planned; nothing where insulation fills the bays.
    pub depths: [Length; 2],
}

/// Rafters as they stand where nobody measured it, and how thick they are, in (common practice).
const SPACING: f64 = 16.0;
const THICK: f64 = 1.5;
/// Air of a winter bay, °C.
const COLD: f64 = -5.0;

impl Channel {
    /// What the rafters leave over the insulation that resists as it does; at least the clear way of the edition where new insulation is laid, and that where nobody measured the
    /// rafters. None of a space that is an attic.
    pub(super) fn of(desk: &Desk<'_>, bays: &Attic) -> Result<Option<Self>, LookupError> {
        if bays.kind == SpaceKind::Attic {
            return Ok(None);
        }
        let framing = || desk.blocks(bays).filter_map(|block| block.framing.as_ref());
        let size = framing().find_map(|framing| framing.size).map(dressed);
        let spacing = framing().find_map(|framing| framing.spacing.as_ref());
        let depths = desk.insulations(bays)?.map(|(insulation, kind, clear)| {
            let left = insulation.zip(size).map(|(wanted, size)| size - kind.depth(wanted));
            left.map_or(desk.clear, |left| left.max(clear))
        });
        let spacing = spacing.map_or(Length::from_in(SPACING), |spacing| spacing.value);
        Ok(Some(Self { width: spacing - Length::from_in(THICK), spacing, depths }))
    }

    /// What bays of a length under an area of deck let through, all of them side by side, as found or with the insulation that is planned.
    pub(crate) fn way(&self, length: Length, deck: Area, is_insulated: bool) -> Leak {
        let count = deck.m2() / (length * self.spacing).m2();
        let depth = self.depths[usize::from(is_insulated)];
        if count > 0.0 && count.is_finite() && self.width > Length::ZERO {
            heat::attic::way([length, depth, self.width], Temperature::from_c(COLD)).times(count)
        } else {
            Leak::NONE
        }
    }
}

/// Of every sloped ceiling: what it shares a plane with, and whether insulation and air fit in its bays.
pub(super) fn warnings(desk: &Desk<'_>) -> Result<Vec<Problem>, LookupError> {
    let mut all = Vec::new();
    let is_sloped = |attic: &&Attic| attic.kind == SpaceKind::Cathedral;
    for bays in desk.job.attics.iter().filter(is_sloped) {
        for attic in desk.job.attics.iter().filter(|attic| attic.kind == SpaceKind::Attic) {
            all.extend(mixed(desk, bays, attic));
        }
        all.extend(shallow(desk, bays)?);
    }
    Ok(all)
}

/// Planes with bays and an attic under them.
fn mixed(desk: &Desk<'_>, bays: &Attic, attic: &Attic) -> Option<Problem> {
    let both = |id: &PlaneId| [bays, attic].into_iter().all(|space| is_under(desk, space, *id));
    let planes: Vec<String> = (0..desk.roof.planes.len())
        .map(PlaneId)
        .filter(both)
        .map(|id| format!("`{}`", desk.roof.plane(id).name))
        .collect();
    if planes.is_empty() {
        return None;
    }
    let message = format!(
        "under {} lie attic `{}` and the bays of cathedral ceiling `{}`: air of the one does not go through the other, and no vent counts for both. {}; {}",
        planes.join(", "),
        attic.name,
        bays.name,
        own(desk, attic),
        own(desk, bays)
    );
    let mend = format!(
        "vent and insulate each space by itself: every bay of `{}` with its own opening at the soffit and at the ridge (bays that a hip, a valley, a skylight or a \
         chimney shuts get none: cross-battens over the deck there); a bulkhead from ceiling to deck between the two, sealed; net free area counted on the eaves and the \
         ridge of each alone",
        bays.name
    );
    Some(
        Problem::warning("mixed-spaces", message, mend)
            .at(bays.span.clone(), "the bays")
            .at(attic.span.clone(), "the attic"),
    )
}

/// What a space has of its own, and asks.
fn own(desk: &Desk<'_>, space: &Attic) -> String {
    let check = desk.takeoff.vents_of(space);
    let lacks = |check: &VentCheck| match (check.plan.low.m2() > 0.0, check.plan.total > check.plan.low) {
        (true, true) => "",
        (true, false) => ", and nothing at the ridge",
        (false, true) => ", and nothing at the eaves",
        (false, false) => ", that is nothing at eaves or ridge",
    };
    let area = |of| desk.job.units.free_area(of);
    check.map_or(String::new(), |check| {
        format!(
            "`{}` asks {} of its own ({} under conditions) and is planned {}{}",
            space.name,
            area(check.required),
            area(check.reduced),
            area(check.plan.total),
            lacks(check)
        )
    })
}

/// Whether some of a plane lies over a space.
fn is_under(desk: &Desk<'_>, space: &Attic, id: PlaneId) -> bool {
    /// Less is a hair of the tape, m².
    const SOME: f64 = 0.1;
    let Plane { blocks, outline, .. } = desk.roof.plane(id);
    let outline: Vec<_> = outline.iter().copied().map(flat).collect();
    blocks.iter().any(|block| space.under.contains(block))
        && Region::of(desk.job, space).area(&outline).m2() > SOME
}

/// Bays that do not take the insulation and a way for air.
fn shallow(desk: &Desk<'_>, bays: &Attic) -> Result<Vec<Problem>, LookupError> {
    let Some(target) = desk.target(bays)? else { return Ok(Vec::new()) };
    let kind = desk.kind(bays)?;
    let (wanted, lap) = (kind.depth(target), |of: Length| desk.job.units.length(of));
    let mut all = Vec::new();
    for block in desk.blocks(bays) {
        let Some(size) = block.framing.as_ref().and_then(|framing| framing.size) else {
            let message = format!(
                "cannot tell whether {} of {}, {} deep, and {} of air fit in the bays of cathedral ceiling `{}`: the rafters of block `{}` were not measured",
                desk.r(target),
                kind.told(),
                lap(wanted),
                desk.job.units.lap(desk.clear),
                bays.name,
                block.name
            );
            let mend = format!("measure a rafter and write `block.{}.framing.size`", block.name);
            all.push(Problem::warning("bay-unknown", message, mend).at(block.span.clone(), "this block"));
            continue;
        };
        let room = (dressed(size) - desk.clear).max(Length::ZERO);
        if room >= wanted {
            continue;
        }
        let fits = RValue::from_si(room.m() * kind.per_metre());
        let message = format!(
            "bays too shallow: the {}x{} rafters over cathedral ceiling `{}` leave {} under {} of air, which is {} of {}; {} is {} deep",
            size.thickness,
            size.depth,
            bays.name,
            lap(room),
            desk.job.units.lap(desk.clear),
            desk.r(fits),
            kind.told(),
            desk.r(target),
            lap(wanted)
        );
        all.push(
            Problem::warning("bay-too-shallow", message, instead(desk)?).at(bays.span.clone(), "these bays"),
        );
    }
    Ok(all)
}

/// What else may be done about bays without room.
fn instead(desk: &Desk<'_>) -> Result<String, LookupError> {
    let clause = &desk.edition.unvented.clause;
    let unvented = match desk.job.site.climate_zone.as_deref() {
        Some(zone) => {
            let row = desk.book.thermal().airtight_in(zone)?;
            let share = row
                .share
                .as_ref()
                .map_or(String::new(), |share| format!(" and {} of all of it", share.text()));
            format!(
                "no vents and at least {}{share} of insulation no air goes through against the deck or over it (IRC {clause}, zone {zone}), no class 1 retarder below",
                desk.r(*row.resistance)
            )
        }
        None => format!(
            "no vents by IRC {clause} (how much insulation no air goes through cannot be told: write `site.climate_zone`)"
        ),
    };
    Ok(format!(
        "battens and a second deck, vented over the first, with insulation in the whole bay; or {unvented}; or deeper bays, furred down from the room"
    ))
}
