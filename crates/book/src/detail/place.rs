//! Where on a house details are for, and what must hold there.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::{Cladding, Role};

/// Where on a house a detail is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize, Serialize)]
#[serde(rename_all = "kebab-case")]
#[expect(missing_docs, reason = "the trade's own words")]
pub enum Spot {
    Eave,
    Rake,
    HighEave,
    Ridge,
    Hip,
    Valley,
    LevelValley,
    Sidewall,
    Headwall,
    BackWall,
    KickOut,
    /// Where a kick-out turns up the wall.
    KickOutWall,
    /// Steeper above.
    PitchBreakIn,
    /// Flatter above.
    PitchBreakOut,
    LowSlope,
    Step,
    /// A roof that ends in under another roof's overhang.
    Soffit,
    Cantilever,
    ChimneyLow,
    ChimneySide,
    ChimneyHigh,
    /// Where a cricket's planes meet the chimney.
    CricketWall,
    Pipe,
    Hood,
    BoxVent,
    DaylightTube,
    SkylightLow,
    SkylightSide,
    SkylightHigh,
}

impl Spot {
    /// As tables write it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Eave => "eave",
            Self::Rake => "rake",
            Self::HighEave => "high-eave",
            Self::Ridge => "ridge",
            Self::Hip => "hip",
            Self::Valley => "valley",
            Self::LevelValley => "level-valley",
            Self::Sidewall => "sidewall",
            Self::Headwall => "headwall",
            Self::BackWall => "back-wall",
            Self::KickOut => "kick-out",
            Self::KickOutWall => "kick-out-wall",
            Self::PitchBreakIn => "pitch-break-in",
            Self::PitchBreakOut => "pitch-break-out",
            Self::LowSlope => "low-slope",
            Self::Step => "step",
            Self::Soffit => "soffit",
            Self::Cantilever => "cantilever",
            Self::ChimneyLow => "chimney-low",
            Self::ChimneySide => "chimney-side",
            Self::ChimneyHigh => "chimney-high",
            Self::CricketWall => "cricket-wall",
            Self::Pipe => "pipe",
            Self::Hood => "hood",
            Self::BoxVent => "box-vent",
            Self::DaylightTube => "daylight-tube",
            Self::SkylightLow => "skylight-low",
            Self::SkylightSide => "skylight-side",
            Self::SkylightHigh => "skylight-high",
        }
    }

    /// What one of the layers built there must be for, so that sizes and clauses find it.
    pub(crate) const fn wants(self) -> Option<Role> {
        match self {
            Self::Eave | Self::Rake | Self::Ridge | Self::Hip | Self::Valley => Some(Role::Covering),
            Self::KickOut => Some(Role::KickOut),
            _ => None,
        }
    }
}

/// What is known of a place of a house, for the choice of its detail; none where it says nothing there.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Facts {
    /// What the wall is clad with.
    pub cladding: Option<Cladding>,
    /// Whether the weather barrier laps over the flashing.
    pub lapped: Option<bool>,
    /// Whether there is a kick-out.
    pub kick_out: Option<bool>,
    /// Whether the space below breathes at the ridge.
    pub vented: Option<bool>,
    /// Whether a cricket stands behind the chimney.
    pub cricket: Option<bool>,
    /// Whether a gutter hangs there.
    pub gutter: Option<bool>,
    /// Whether ice barrier lies at the eave.
    pub barrier: Option<bool>,
    /// Whether there is drip edge.
    pub drip_edge: Option<bool>,
    /// Whether the new roof is laid over the old one.
    pub over: Option<bool>,
    /// Whether the new shingles are of one sheet cut into tabs, which bends.
    pub tabs: Option<bool>,
    /// Whether the skylight stands on a curb; else its own frame is screwed to the deck.
    pub curb: Option<bool>,
    /// Whether the veneer was laid on the legs of the step flashing, which then cannot be pulled.
    pub built_in: Option<bool>,
}

/// One of the [`Facts`], whatever it is at a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "as the facts of these names")]
pub enum Fact {
    Cladding,
    Lapped,
    KickOut,
    Vented,
    Cricket,
    Gutter,
    Barrier,
    DripEdge,
    Over,
    Tabs,
    Curb,
    BuiltIn,
}

/// What must hold at a place for a detail to be right there.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct When {
    /// Claddings that will do; any where none is named.
    pub cladding: Vec<Cladding>,
    /// As [`Facts::lapped`].
    pub lapped: Option<bool>,
    /// As [`Facts::kick_out`].
    pub kick_out: Option<bool>,
    /// As [`Facts::vented`].
    pub vented: Option<bool>,
    /// As [`Facts::cricket`].
    pub cricket: Option<bool>,
    /// As [`Facts::gutter`].
    pub gutter: Option<bool>,
    /// As [`Facts::barrier`].
    pub barrier: Option<bool>,
    /// As [`Facts::drip_edge`].
    pub drip_edge: Option<bool>,
    /// As [`Facts::over`].
    pub over: Option<bool>,
    /// As [`Facts::tabs`].
    pub tabs: Option<bool>,
    /// As [`Facts::curb`].
    pub curb: Option<bool>,
    /// As [`Facts::built_in`].
    pub built_in: Option<bool>,
}

impl When {
    /// How much it asks; none where a place does not fit.
    pub fn asks(&self, facts: &Facts) -> Option<usize> {
        let clad =
            self.cladding.is_empty() || facts.cladding.is_some_and(|known| self.cladding.contains(&known));
        let asked = self.asked(facts);
        let fits = clad && asked.iter().all(|(_, wanted, known)| wanted.is_none() || wanted == known);
        fits.then(|| self.count())
    }

    /// How much it asks.
    fn count(&self) -> usize {
        let asked = self.asked(&Facts::default());
        asked.iter().filter(|(_, wanted, _)| wanted.is_some()).count()
            + usize::from(!self.cladding.is_empty())
    }

    /// Whether some place fits both, and both ask as much of it: nothing there tells which of two details is the better one.
    pub(crate) fn ties_with(&self, other: &Self) -> bool {
        let either_any = self.cladding.is_empty() || other.cladding.is_empty();
        let clad = either_any || self.cladding.iter().any(|cladding| other.cladding.contains(cladding));
        let facts = Facts::default();
        let agree = self
            .asked(&facts)
            .into_iter()
            .zip(other.asked(&facts))
            .all(|((_, one, _), (_, two, _))| one.is_none() || two.is_none() || one == two);
        clad && agree && self.count() == other.count()
    }

    /// Whether it asks anything.
    pub fn asks_any(&self) -> bool {
        *self != Self::default()
    }

    /// Whether all it asks after is known, however the answer is.
    pub fn is_settled(&self, known: &BTreeSet<Fact>) -> bool {
        let is_clad = self.cladding.is_empty() || known.contains(&Fact::Cladding);
        let asked = self.asked(&Facts::default());
        is_clad && asked.iter().all(|(fact, wanted, _)| wanted.is_none() || known.contains(fact))
    }

    /// What it asks after, what it wants, and what a place has.
    const fn asked(&self, facts: &Facts) -> [(Fact, Option<bool>, Option<bool>); 11] {
        [
            (Fact::Lapped, self.lapped, facts.lapped),
            (Fact::KickOut, self.kick_out, facts.kick_out),
            (Fact::Vented, self.vented, facts.vented),
            (Fact::Cricket, self.cricket, facts.cricket),
            (Fact::Gutter, self.gutter, facts.gutter),
            (Fact::Barrier, self.barrier, facts.barrier),
            (Fact::DripEdge, self.drip_edge, facts.drip_edge),
            (Fact::Over, self.over, facts.over),
            (Fact::Tabs, self.tabs, facts.tabs),
            (Fact::Curb, self.curb, facts.curb),
            (Fact::BuiltIn, self.built_in, facts.built_in),
        ]
    }
}
