//! Code editions: what the adopted code asks of a steep roof, clause by clause.
//!
//! An edition is written as what changed since an earlier one and read whole: every rule is there. A rule that
//! changed is stated whole, with its own source.
//!
//! # What it does not judge
//! Whether a clause applies to a job (ice history, roof covering, climate zone) is for the caller; local amendments
//! are editions of their own.

use std::collections::BTreeSet;
use std::num::NonZeroU32;

use measure::{Length, Pitch};
use serde::Deserialize;

use crate::clause::{
    AtticAccess, ChimneyHeight, Clause, ClosedValley, Discharge, Fasteners, LeftToOthers, LotLine, NailCount,
    PlumbingVent, Recover, Replacement, SkylightCurb, VentClearance,
};
use crate::quantity::{Share, Text};
use crate::source::{Source, words};
use crate::table::Row;

/// A printed edition of the code, or a local amendment of one.
#[derive(Clone, Debug, PartialEq)]
pub struct Edition {
    /// Name in job documents, such as `irc-2018`.
    pub id: String,
    /// Name as printed.
    pub name: String,
    /// Year printed on it; orders the editions.
    pub year: u16,
    /// The edition this one was stated from.
    pub based_on: Option<String>,
    /// The work itself.
    pub source: Source,
    /// Ice barrier at eaves.
    pub ice_barrier: IceBarrier,
    /// Vent area of attics.
    pub attic_vents: AtticVents,
    /// Slopes for asphalt shingles and their underlayment.
    pub asphalt_shingles: AsphaltShingles,
    /// Drip edge, where the edition asks one.
    pub drip_edge: Option<DripEdge>,
    /// Flashing at sidewalls.
    pub sidewall_flashing: SidewallFlashing,
    /// Diverter where an eave meets a sidewall.
    pub kick_out: KickOut,
    /// Metal of open valleys.
    pub valley_metal: ValleyMetal,
    /// Metal of flashings.
    pub flashing_metal: FlashingMetal,
    /// Cricket behind chimneys.
    pub cricket: Cricket,
    /// Height of crickets behind chimneys.
    pub cricket_height: Clause,
    /// Deck under asphalt shingles.
    pub solid_deck: Clause,
    /// Nails of asphalt shingles.
    pub fasteners: Fasteners,
    /// How many nails a shingle takes.
    pub nail_count: NailCount,
    /// Lining of valleys closed over with shingles.
    pub closed_valley: ClosedValley,
    /// Metal of base and cap flashings.
    pub base_flashing: FlashingMetal,
    /// Where a roof is flashed.
    pub flashing_places: Clause,
    /// Flashing of what goes through a roof.
    pub penetrations: Clause,
    /// Counter-flashing of veneer above a roof.
    pub veneer: Clause,
    /// Taking the old roof off.
    pub replacement: Replacement,
    /// Laying a new roof over the old one.
    pub recover: Recover,
    /// Combustible space under a roof laid over old wood.
    pub wood_cover: Clause,
    /// What of the old roof is used again.
    pub reuse: Clause,
    /// Curbs of skylights on flat slopes.
    pub skylight_curb: SkylightCurb,
    /// Plumbing vents through the roof.
    pub plumbing_vent: PlumbingVent,
    /// Height of chimneys.
    pub chimney_height: ChimneyHeight,
    /// Air in and out of each space.
    pub cross_vents: Clause,
    /// Clear way between insulation and deck.
    pub vent_clearance: VentClearance,
    /// Way into an attic.
    pub attic_access: AtticAccess,
    /// Roofs without vents; what insulation they ask stands in the table of airtight insulation.
    pub unvented: Clause,
    /// Where exhaust ends.
    pub exhaust: Clause,
    /// Where roof water goes on poor soil.
    pub discharge: Discharge,
    /// Eaves and rakes near the lot line.
    pub lot_line: LotLine,
    /// Clauses about roofs that are for others to judge.
    pub left_to_others: Vec<LeftToOthers>,
    /// Names of the rules an overlay states, here or in an edition it is based on: local amendments.
    pub amended: BTreeSet<&'static str>,
}

impl Edition {
    /// Whether an overlay states a rule, by its name in the tables.
    pub fn is_amended(&self, rule: &str) -> bool {
        self.amended.contains(rule)
    }
}

/// Ice barrier at eaves, asked where the building department records a history of ice.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IceBarrier {
    /// Clause number.
    pub clause: String,
    /// Level distance inwards from the exterior wall line that the barrier must reach.
    pub inside_wall_line: Text<Length>,
    /// What is asked besides on steep roofs.
    pub steep: Option<SteepIceBarrier>,
    /// Detached accessory buildings without conditioned floor are let off.
    pub detached_excepted: bool,
    /// Where it comes from.
    pub source: Source,
}

/// Least reach of the ice barrier on steep roofs.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SteepIceBarrier {
    /// Flattest pitch it applies to.
    pub from: Text<Pitch>,
    /// Distance along the slope from the eave edge.
    pub along_slope: Text<Length>,
}

/// Vent area of attics.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AtticVents {
    /// Clause number.
    pub clause: String,
    /// Net free area is at least the area of the vented space over this.
    pub divisor: NonZeroU32,
    /// The same under the conditions below.
    pub reduced_divisor: NonZeroU32,
    /// How many of the conditions are needed.
    pub reduced_needs: Needs,
    /// Condition: the part of the required area that sits high.
    pub high_share: ShareRange,
    /// What counts as high.
    pub high_place: HighPlace,
    /// Condition: what of the required area is not high sits in the bottom third of the space.
    #[serde(default)]
    pub rest_low: bool,
    /// Condition: a vapour retarder on the warm side of the ceiling.
    pub retarder: Retarder,
    /// Where it comes from.
    pub source: Source,
}

/// How many of several conditions must hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Needs {
    /// One is enough.
    Any,
    /// All of them.
    All,
}

/// From the least to the most, both included.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ShareRange {
    /// Lower end.
    pub least: Text<Share>,
    /// Upper end.
    pub most: Text<Share>,
}

/// Where a vent must sit to count as high.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum HighPlace {
    /// At least this far above the eave vents.
    AboveEaveVents(Text<Length>),
    /// At most this far below the ridge or the highest point of the space, measured upright.
    BelowRidge(Text<Length>),
}

/// A vapour retarder on the warm side.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Retarder {
    /// Weakest class that counts: 2 means class I or II, at most 1 perm.
    pub class: u8,
    /// Lowest climate zone in which the condition exists; everywhere when absent.
    pub from_zone: Option<u8>,
}

/// Slopes for asphalt shingles and their underlayment.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AsphaltShingles {
    /// Clause number.
    pub clause: String,
    /// Flattest pitch shingles may cover.
    pub least_pitch: Text<Pitch>,
    /// From here up the underlayment is single, below it doubled.
    pub single_underlayment_from: Text<Pitch>,
    /// Clause that tells how the underlayment is doubled, where it is another one.
    pub method_clause: Option<String>,
    /// Where it comes from.
    pub source: Source,
}

/// Drip edge at eaves and rakes.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DripEdge {
    /// Clause number.
    pub clause: String,
    /// Least lap of adjoining pieces.
    pub lap: Text<Length>,
    /// Least reach below the deck.
    pub below_deck: Text<Length>,
    /// Least reach onto the deck.
    pub onto_deck: Text<Length>,
    /// Widest spacing of fasteners.
    pub fastened_every: Text<Length>,
    /// Where it comes from.
    pub source: Source,
}

/// Base flashing at sidewalls.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SidewallFlashing {
    /// Clause number.
    pub clause: String,
    /// Least leg up the wall.
    pub least_height: Text<Length>,
    /// Least leg on the roof.
    pub least_width: Text<Length>,
    /// Continuous flashing may stand in for step flashing.
    pub continuous_allowed: bool,
    /// Where it comes from.
    pub source: Source,
}

/// Diverter where the eave of a sloped roof meets a sidewall.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KickOut {
    /// Clause number.
    pub clause: String,
    /// Where it comes from.
    pub source: Source,
}

/// Metal of open valleys.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ValleyMetal {
    /// Clause number.
    pub clause: String,
    /// Least width.
    pub least_width: Text<Length>,
    /// Where it comes from.
    pub source: Source,
}

/// Metal of flashings.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FlashingMetal {
    /// Clause number.
    pub clause: String,
    /// Least thickness of corrosion-resistant metal.
    pub least_thickness: Text<Length>,
    /// Where it comes from.
    pub source: Source,
}

/// Cricket on the ridge side of a chimney or other penetration.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cricket {
    /// Clause number.
    pub clause: String,
    /// Asked when the penetration, across the slope, is wider than this.
    pub wider_than: Text<Length>,
    /// Where it comes from.
    pub source: Source,
}

/// An edition as written: what it changes.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Written {
    #[serde(deserialize_with = "words")]
    pub(crate) id: String,
    name: String,
    year: u16,
    pub(crate) based_on: Option<String>,
    source: Source,
    ice_barrier: Option<IceBarrier>,
    attic_vents: Option<AtticVents>,
    asphalt_shingles: Option<AsphaltShingles>,
    drip_edge: Option<DripEdge>,
    sidewall_flashing: Option<SidewallFlashing>,
    kick_out: Option<KickOut>,
    valley_metal: Option<ValleyMetal>,
    flashing_metal: Option<FlashingMetal>,
    cricket: Option<Cricket>,
    cricket_height: Option<Clause>,
    solid_deck: Option<Clause>,
    fasteners: Option<Fasteners>,
    nail_count: Option<NailCount>,
    closed_valley: Option<ClosedValley>,
    base_flashing: Option<FlashingMetal>,
    flashing_places: Option<Clause>,
    penetrations: Option<Clause>,
    veneer: Option<Clause>,
    replacement: Option<Replacement>,
    recover: Option<Recover>,
    wood_cover: Option<Clause>,
    reuse: Option<Clause>,
    skylight_curb: Option<SkylightCurb>,
    plumbing_vent: Option<PlumbingVent>,
    chimney_height: Option<ChimneyHeight>,
    cross_vents: Option<Clause>,
    vent_clearance: Option<VentClearance>,
    attic_access: Option<AtticAccess>,
    unvented: Option<Clause>,
    exhaust: Option<Clause>,
    discharge: Option<Discharge>,
    lot_line: Option<LotLine>,
    left_to_others: Option<Vec<LeftToOthers>>,
}

/// Takes each rule from the written edition or else from its base, or names all the rules neither has.
macro_rules! inherit {
    ($written:ident, $base:ident, $is_local:ident, $($rule:ident),+) => {{
        let mut amended = $base.map(|base| base.amended.clone()).unwrap_or_default();
        let stated = [("drip_edge", $written.drip_edge.is_some()), $((stringify!($rule), $written.$rule.is_some())),+];
        amended.extend(stated.into_iter().filter(|(_, is)| $is_local && *is).map(|(rule, _)| rule));
        $(let $rule = $written.$rule.or_else(|| $base.map(|base| base.$rule.clone()));)+
        let missing: Vec<&str> =
            [$((stringify!($rule), $rule.is_none())),+].iter().filter(|(_, none)| *none).map(|(rule, _)| *rule).collect();
        let ($(Some($rule),)+) = ($($rule,)+) else { return Err(missing) };
        Edition {
            id: $written.id,
            name: $written.name,
            year: $written.year,
            based_on: $written.based_on,
            source: $written.source,
            drip_edge: $written.drip_edge.or_else(|| $base.and_then(|base| base.drip_edge.clone())),
            $($rule,)+
            amended,
        }
    }};
}

impl Row for Written {
    const TABLE: &'static str = "edition";

    fn id(&self) -> &str {
        &self.id
    }
}

impl Written {
    /// The whole edition, or the names of the rules neither it nor its base states; `is_local` where an overlay states it.
    pub(crate) fn on(self, base: Option<&Edition>, is_local: bool) -> Result<Edition, Vec<&'static str>> {
        Ok(inherit!(
            self,
            base,
            is_local,
            ice_barrier,
            attic_vents,
            asphalt_shingles,
            sidewall_flashing,
            kick_out,
            valley_metal,
            flashing_metal,
            cricket,
            cricket_height,
            solid_deck,
            fasteners,
            nail_count,
            closed_valley,
            base_flashing,
            flashing_places,
            penetrations,
            veneer,
            replacement,
            recover,
            wood_cover,
            reuse,
            skylight_curb,
            plumbing_vent,
            chimney_height,
            cross_vents,
            vent_clearance,
            attic_access,
            unvented,
            exhaust,
            discharge,
            lot_line,
            left_to_others
        ))
    }
}
