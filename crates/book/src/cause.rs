//! What makes a house show what its owner saw: causes, how usual each is, and what speaks for or against it.
//!
//! # Rule
//! Before anything is known of the house, causes of a symptom are as usual as their weights say. A sign that holds multiplies the weight by `times`, one that
//! does not hold by `else`, one that nobody looked for leaves it as it is; shares are weights over their sum. Signs are taken to come independently of one another, which
//! makes shares too sure of themselves where they do not.

use std::collections::BTreeMap;

use serde::Deserialize;

use crate::source::{Source, words};
use crate::table::Row;

/// A cause.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cause {
    /// Name, such as `ice-back-up`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// What it shows as, and how usual it is among all that does.
    pub shows: BTreeMap<SymptomKind, f64>,
    /// What speaks for it, or against it.
    pub signs: Vec<Sign>,
    /// What mends it.
    #[serde(deserialize_with = "words")]
    pub fix: String,
    /// How it will be shown that it did.
    #[serde(deserialize_with = "words")]
    pub proof: String,
    /// Where weights and odds come from.
    pub source: Source,
}

/// What an owner sees.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "plain names")]
pub enum SymptomKind {
    Stain,
    Drip,
    Ice,
    Icicles,
    Frost,
    Condensation,
    PeelingPaint,
    ColdRoom,
    RunningVentilator,
}

/// Something that holds for a house or does not.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sign {
    /// What.
    pub fact: Evidence,
    /// Odds of the cause where it holds.
    pub times: f64,
    /// And where it does not.
    #[serde(rename = "else")]
    pub otherwise: f64,
}

/// What can be known of a house.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Evidence {
    /// The weather told of speaks of snow.
    Snow,
    /// Of a thaw.
    Thaw,
    /// Of rain.
    Rain,
    /// Of sun.
    Sun,
    /// Ice has backed up on roofs of the place.
    IceHistory,
    /// The deck is above freezing at 22 °F under a foot of snow.
    WarmDeck,
    /// The ceiling has much of the leaks of the house.
    LeakyCeiling,
    /// Insulation resists little.
    ThinInsulation,
    /// Insulation is blackened: air goes through it.
    Blackened,
    /// Frost was seen in the attic.
    FrostSeen,
    /// A fan blows into attic or soffit.
    FanIntoAttic,
    /// Air in the rooms is humid in cold spells.
    Humid,
    /// Too little of the vents is low.
    ShortIntake,
    /// The place lies by the outer wall under an eave.
    NearEave,
    /// By the low end of a roof at a wall.
    NearRoofEnd,
    /// A roof end has no kick-out.
    NoKickOut,
    /// By an opening in the roof.
    NearOpening,
    /// By a skylight.
    NearSkylight,
    /// By a valley.
    NearValley,
    /// A cantilevered floor is open to its joist bays.
    OpenCantilever,
    /// A power ventilator is in the roof.
    PowerVent,
}

impl Row for Cause {
    const TABLE: &'static str = "cause";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let is_odds = |odds: f64| odds > 0.0 && odds.is_finite();
        let shows = (self.shows.is_empty() || self.shows.values().any(|weight| !is_odds(*weight)))
            .then_some("`shows` needs at least one symptom, each with a weight above zero");
        let signs = (self.signs.iter().any(|sign| !is_odds(sign.times) || !is_odds(sign.otherwise)))
            .then_some("`signs` need `times` and `else` above zero");
        shows.into_iter().chain(signs).map(str::to_owned).collect()
    }
}
