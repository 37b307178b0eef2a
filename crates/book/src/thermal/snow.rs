//! Snow on roofing: what it slides off, and the wind that moves it.

use serde::Deserialize;

use super::Range;
use crate::source::{Source, words};
use crate::table::Row;

/// Roofing, as snow lies on it.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RoofSurface {
    /// Name in tables, such as `metal`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// Whether codes of loads count it as slippery.
    pub slippery: bool,
    /// Slope from which snow on it slides once its foot is wet, degrees.
    pub slides_from_deg: Range,
    /// Where it comes from.
    pub source: Source,
}

impl Row for RoofSurface {
    const TABLE: &'static str = "roof_surface";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        self.slides_from_deg.fault("slides_from_deg", 0.0, 90.0).into_iter().collect()
    }
}

/// Wind that moves dry snow.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WindOnSnow {
    /// Name in tables.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// Wind from which it moves, m/s at 10 m: a polynomial of the air in °C.
    pub threshold: [f64; 3],
    /// What a wind of 1 m/s would move over ever so long level ground, kg in a second over each metre across, and the power it goes with.
    pub rate: f64,
    /// That power.
    pub power: f64,
    /// Way over which it comes to that, m.
    pub fetch_m: f64,
    /// By so many folds of e.
    pub folds: f64,
    /// Snow denser than this stays, kg/m³.
    pub densest_kg_m3: f64,
    /// Share of it that comes down again behind a ridge.
    pub trapped: f64,
    /// Where it comes from.
    pub source: Source,
}

impl Row for WindOnSnow {
    const TABLE: &'static str = "wind_on_snow";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let above =
            [("rate", self.rate), ("power", self.power), ("fetch_m", self.fetch_m), ("folds", self.folds)];
        let sound = |number: f64| number.is_finite() && number > 0.0;
        let wrong = above.into_iter().filter(|(_, number)| !sound(*number));
        let share =
            (!(0.0..=1.0).contains(&self.trapped)).then(|| "`trapped` must be from 0 to 1".to_owned());
        let threshold = (!self.threshold.iter().all(|number| number.is_finite()))
            .then(|| "`threshold` needs three numbers".to_owned());
        let dense = (!sound(self.densest_kg_m3)).then(|| "`densest_kg_m3` must be above 0".to_owned());
        wrong
            .map(|(name, _)| format!("`{name}` must be above 0"))
            .chain(share)
            .chain(threshold)
            .chain(dense)
            .collect()
    }
}
