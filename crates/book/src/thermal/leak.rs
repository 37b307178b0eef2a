//! What leaks, and how the wind and the warm air of a house drive it.

use serde::Deserialize;

use super::Range;
use crate::source::{Source, words};
use crate::table::Row;

/// A part of a house that leaks, as the area that lets the same through at 4 Pa (discharge 1).
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Leak {
    /// Name in tables, such as `attic-hatch`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// What its areas are counted by.
    pub per: LeakUnit,
    /// As found, cm².
    pub found_cm2: Range,
    /// Made tight, cm².
    pub tight_cm2: Range,
    /// Where it comes from.
    pub source: Source,
}

/// What leaks are counted by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LeakUnit {
    /// Each one.
    Each,
    /// Each metre of it.
    Metre,
    /// Each square metre of it.
    SquareMetre,
}

impl Row for Leak {
    const TABLE: &'static str = "leak";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let is_less = self.tight_cm2.high <= self.found_cm2.high;
        let order = (!is_less).then(|| "`tight_cm2` must be no more than `found_cm2`".to_owned());
        let found = self.found_cm2.fault("found_cm2", 0.0, 2000.0);
        let tight = self.tight_cm2.fault("tight_cm2", 0.0, 2000.0);
        [found, tight, order].into_iter().flatten().collect()
    }
}

/// How wind drives air through a house, by what stands around it.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shelter {
    /// Name in tables, `shelter-1` to `shelter-5`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// (L/s)²/(cm⁴·(m/s)²) for one, two and three stories.
    pub wind: [f64; 3],
    /// Where it comes from.
    pub source: Source,
}

impl Row for Shelter {
    const TABLE: &'static str = "shelter";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let sound = self.wind[0] > 0.0 && self.wind.windows(2).all(|pair| pair[0] < pair[1]);
        (!sound)
            .then(|| "`wind` must be above zero and rise with the stories".to_owned())
            .into_iter()
            .collect()
    }
}

/// How warm air drives itself through a house, by how high that is.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stack {
    /// Name in tables, `stories-1` to `stories-3`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// How many stories.
    pub stories: u8,
    /// (L/s)²/(cm⁴·K).
    pub warmth: f64,
    /// Where it comes from.
    pub source: Source,
}

impl Row for Stack {
    const TABLE: &'static str = "stack";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let sound = self.warmth > 0.0 && self.warmth < 1.0 && (1..=3).contains(&self.stories);
        let fault = "`warmth` must be above zero and below 1, `stories` from 1 to 3";
        (!sound).then(|| fault.to_owned()).into_iter().collect()
    }
}

/// What stands round a house and keeps wind off its leaks.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shielding {
    /// Name in tables, `shielding-1` to `shielding-5`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// How much of the wind drives air.
    pub factor: f64,
    /// Where it comes from.
    pub source: Source,
}

impl Row for Shielding {
    const TABLE: &'static str = "shielding";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let sound = self.factor > 0.0 && self.factor < 1.0;
        (!sound).then(|| "`factor` must be above zero and below 1".to_owned()).into_iter().collect()
    }
}

/// How wind grows with height over a kind of land: gain · (height / 10 m)^exponent times that of the open at 10 m.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Terrain {
    /// Name in tables, `terrain-1` to `terrain-5`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// At 10 m.
    pub gain: f64,
    /// Of the height.
    pub exponent: f64,
    /// Where it comes from.
    pub source: Source,
}

impl Row for Terrain {
    const TABLE: &'static str = "terrain";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let sound = self.gain > 0.0 && self.gain <= 2.0 && self.exponent > 0.0 && self.exponent < 1.0;
        let fault = "`gain` must be above zero and at most 2, `exponent` above zero and below 1";
        (!sound).then(|| fault.to_owned()).into_iter().collect()
    }
}
