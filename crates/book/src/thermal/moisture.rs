//! Vapor indoors, what holds it back, and what grows where it stays.

use measure::Pressure;
use serde::Deserialize;

use crate::quantity::Text;
use crate::source::{Source, words};
use crate::table::Row;

/// How much more vapor a house has than the air outdoors.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct IndoorVapor {
    /// Name in tables, `indoor-1` to `indoor-5`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// How much more at 0 °C outdoors and colder; from there it falls in a straight line to none at 20 °C.
    pub excess: Text<Pressure>,
    /// Where it comes from.
    pub source: Source,
}

impl Row for IndoorVapor {
    const TABLE: &'static str = "indoor_vapor";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let sound = self.excess.pa() > 0.0 && self.excess.pa() < 3000.0;
        (!sound).then(|| "`excess` must be above zero and below 3000 Pa".to_owned()).into_iter().collect()
    }
}

/// A class of vapor retarders.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct VaporRetarder {
    /// Name in tables, `class-1` to `class-3`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// The most open it is, US perms.
    pub most_perms: f64,
    /// What is usual of it.
    #[serde(deserialize_with = "words")]
    pub such_as: String,
    /// Where it comes from.
    pub source: Source,
}

impl Row for VaporRetarder {
    const TABLE: &'static str = "vapor_retarder";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let sound = self.most_perms > 0.0 && self.most_perms <= 100.0;
        (!sound).then(|| "`most_perms` must be above zero and at most 100".to_owned()).into_iter().collect()
    }
}

/// How readily mold grows on a surface.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MoldClass {
    /// Name in tables, such as `very-sensitive`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers, with what is usual of it.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// How fast it starts, against pine sapwood.
    pub starts: f64,
    /// How fast it goes on from index 1.
    pub goes_on: f64,
    /// A, B and C of the highest index A + B·x − C·x², x how far humidity is on the way from critical to 100 %.
    pub highest: [f64; 3],
    /// Least humidity at which it grows, %.
    pub least_humidity: f64,
    /// Where it comes from.
    pub source: Source,
}

impl Row for MoldClass {
    const TABLE: &'static str = "mold_class";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let rates = self.starts > 0.0 && self.goes_on > 0.0 && self.starts <= 5.0 && self.goes_on <= 5.0;
        let rates = (!rates).then_some("`starts` and `goes_on` must be above zero and at most 5");
        let humid = (50.0..100.0).contains(&self.least_humidity);
        let humid = (!humid).then_some("`least_humidity` must be from 50 to below 100");
        let is_number = self.highest.iter().all(|number| (0.0..=10.0).contains(number));
        let highest = (!is_number).then_some("`highest` must be three numbers from 0 to 10");
        [rates, highest, humid].into_iter().flatten().map(str::to_owned).collect()
    }
}
