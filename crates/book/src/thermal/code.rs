//! What energy and building codes ask by climate zone.

use measure::RValue;
use serde::Deserialize;

use crate::lookup::LookupError;
use crate::quantity::{Share, Text};
use crate::source::{Source, words};
use crate::table::Row;

/// Least insulation that no air goes through, of roofs without vents.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AirtightInsulation {
    /// Name in tables, such as `airtight-6`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Climate zones it is for: `6` is all of zone 6, `4C` the marine part of zone 4.
    pub zones: Vec<String>,
    /// For tile roofs only.
    #[serde(default)]
    pub tile: bool,
    /// Its least resistance.
    pub resistance: Text<RValue>,
    /// Its least share of all insulation, which holds it dry whatever that is.
    pub share: Option<Text<Share>>,
    /// Where it comes from.
    pub source: Source,
}

impl Row for AirtightInsulation {
    const TABLE: &'static str = "airtight_insulation";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        zone_fault(&self.zones).into_iter().collect()
    }
}

/// What the energy code asks of houses of a climate zone.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EnergyCode {
    /// Name in tables, such as `energy-2012-6`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Year of the edition it came with; it holds until another row's year.
    pub from: u16,
    /// Climate zones it is for.
    pub zones: Vec<String>,
    /// Ceilings under attics.
    pub ceiling: Text<RValue>,
    /// Walls of wood, any one of these; none where it is not known.
    #[serde(default)]
    pub wall: Vec<WallInsulation>,
    /// Floors over what is not heated, where that is known.
    pub floor: Option<Text<RValue>>,
    /// Where it comes from.
    pub source: Source,
}

/// One way to insulate a wall.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WallInsulation {
    /// Between the studs.
    pub cavity: Text<RValue>,
    /// Over them, without a gap.
    pub continuous: Option<Text<RValue>>,
}

impl Row for EnergyCode {
    const TABLE: &'static str = "energy_code";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let year = (!(1990..=2100).contains(&self.from)).then(|| "`from` must be a year".to_owned());
        let none = (self.ceiling.si() <= 0.0).then(|| "`ceiling` must be above zero".to_owned());
        [year, zone_fault(&self.zones), none].into_iter().flatten().collect()
    }
}

/// What the building code says of vapor retarders on the warm side of walls in a climate zone.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RetarderCode {
    /// Name in tables, such as `retarder-2009-5-to-8`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Year of the edition it came with; it holds until another row's year.
    pub from: u16,
    /// Where it stands in it.
    #[serde(deserialize_with = "words")]
    pub clause: String,
    /// Climate zones it is for.
    pub zones: Vec<String>,
    /// The most open class that will do; none where nothing is asked.
    pub asks: Option<u8>,
    /// Classes that are not permitted.
    #[serde(default)]
    pub bars: Vec<u8>,
    /// Where it comes from.
    pub source: Source,
}

impl Row for RetarderCode {
    const TABLE: &'static str = "retarder_code";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let year = (!(1990..=2100).contains(&self.from)).then(|| "`from` must be a year".to_owned());
        let is_class = |class: &u8| (1..=3).contains(class);
        let sound = self.asks.iter().chain(&self.bars).all(is_class);
        let classes = (!sound).then(|| "classes of vapor retarders go from 1 to 3".to_owned());
        let both = self.asks.is_some_and(|asks| self.bars.contains(&asks));
        let denied = both.then(|| "`bars` must not hold what `asks` has".to_owned());
        [year, zone_fault(&self.zones), classes, denied].into_iter().flatten().collect()
    }
}

/// Whether zones written in a row take in one of a job: `6` takes in `6A`; `4C` is marine and belongs to no row of `4` that stands beside one of `4C`.
pub(super) fn takes_in(zones: &[String], zone: &str) -> bool {
    let zone = zone.trim().to_ascii_uppercase();
    let whole = |own: &String| own.len() == 1 && zone.starts_with(own.as_str()) && zone != "4C";
    zones.iter().any(|own| *own == zone || whole(own))
}

/// Zones are a digit from 1 to 8, with a letter or without.
fn zone_fault(zones: &[String]) -> Option<String> {
    let is_zone = |zone: &String| {
        let mut letters = zone.chars();
        let digit = letters.next().is_some_and(|digit| ('1'..='8').contains(&digit));
        digit && matches!(letters.as_str(), "" | "A" | "B" | "C")
    };
    let sound = !zones.is_empty() && zones.iter().all(is_zone);
    (!sound).then(|| "`zones` must name climate zones, such as \"6\" or \"4C\"".to_owned())
}

pub(super) fn no_zone(table: &'static str, zone: &str) -> LookupError {
    let hint = "zones go from `1` to `8`, with `A`, `B` or `C` behind".to_owned();
    LookupError::Unknown { table, id: zone.to_owned(), hint }
}
