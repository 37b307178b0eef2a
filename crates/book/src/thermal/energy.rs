//! Fuels, what burns them, and how much a house may be drawn on where something burns.

use measure::Pressure;
use serde::Deserialize;

use super::Range;
use crate::quantity::Text;
use crate::source::{Source, words};
use crate::table::Row;

/// A fuel.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fuel {
    /// Name in tables, such as `propane`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// What it is sold by, such as `gallon`.
    #[serde(deserialize_with = "words")]
    pub unit: String,
    /// Heat in each of these, Btu, water condensed.
    pub heat_btu: Range,
    /// Where it comes from.
    pub source: Source,
}

impl Row for Fuel {
    const TABLE: &'static str = "fuel";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        self.heat_btu.fault("heat_btu", 0.0, 1e8).into_iter().collect()
    }
}

/// What makes heat of a fuel.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Heater {
    /// Name in tables, such as `gas-condensing`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// Heat it gives for each that goes in, over a season; above 1 for heat pumps.
    pub gives: Range,
    /// Where it comes from.
    pub source: Source,
}

impl Row for Heater {
    const TABLE: &'static str = "heater";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        self.gives.fault("gives", 0.0, 6.0).into_iter().collect()
    }
}

/// How long a fan runs.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FanUse {
    /// Name in tables: the room as the job has it.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// Hours in a day.
    pub hours_a_day: Range,
    /// Where it comes from.
    pub source: Source,
}

impl Row for FanUse {
    const TABLE: &'static str = "fan_use";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        self.hours_a_day.fault("hours_a_day", 0.0, 24.0).into_iter().collect()
    }
}

/// How far a house may be drawn below outdoors by its fans, worst case, where something burns in it.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CombustionLimit {
    /// Name in tables, such as `water-heater-alone`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// What burns, for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// The lowest pressure, below zero.
    pub lowest: Text<Pressure>,
    /// Where it comes from.
    pub source: Source,
}

impl Row for CombustionLimit {
    const TABLE: &'static str = "combustion_limit";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let sound = self.lowest.pa() < 0.0 && self.lowest.pa() > -100.0;
        (!sound).then(|| "`lowest` must be below zero and above -100 Pa".to_owned()).into_iter().collect()
    }
}
