//! How far what a winter hangs on may be off.

use serde::Deserialize;

use super::Range;
use crate::source::{Source, words};
use crate::table::Row;

/// Something a winter hangs on that nobody knows sharply.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Unknown {
    /// Name in tables, such as `ceiling-leakage`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// A factor on what was written: standard deviation of its logarithm.
    pub factor: Option<f64>,
    /// Added to what was written: standard deviation in kelvin.
    pub kelvin: Option<f64>,
    /// Anywhere between two ends, each place as likely.
    pub between: Option<Range>,
    /// One of so many laws, each as likely.
    pub one_of: Option<u32>,
    /// How it can be measured; nothing where it cannot on site.
    pub measured: Option<Measured>,
    /// The field of the job it is written to, `{attic}` for the name of an attic.
    pub field: Option<String>,
    /// Where it comes from.
    pub source: Source,
}

/// A measurement.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Measured {
    /// With what.
    #[serde(deserialize_with = "words")]
    pub by: String,
    /// Standard deviation that is left, in what the spread is given in.
    pub to: f64,
}

impl Row for Unknown {
    const TABLE: &'static str = "unknown";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let given = [
            self.factor.map(|of| of > 0.0 && of <= 1.0),
            self.kelvin.map(|of| of > 0.0 && of <= 10.0),
            self.between.map(|of| of.low < of.high),
            self.one_of.map(|of| of > 1),
        ];
        let is_one = given.iter().flatten().count() == 1;
        let is_sound = given.into_iter().flatten().all(|sound| sound);
        let spread = (!is_one || !is_sound).then_some(
            "one of `factor` (to 1), `kelvin` (to 10), `between` and `one_of` must be given, above nothing, ends in order",
        );
        let is_left = self.measured.as_ref().is_none_or(|measured| measured.to > 0.0);
        let measured = (!is_left).then_some("`to` must be above zero");
        spread.into_iter().chain(measured).map(str::to_owned).collect()
    }
}
