//! What carries roof water away, as published tables rate it.
//!
//! # Validity
//! Ratings are areas in plan at 1 in/h of rain: what a part carries at another rate is the rating divided by that rate in inches an hour.

use measure::{Area, Length, Pitch};
use serde::Deserialize;

use crate::quantity::Text;
use crate::source::{Source, words};
use crate::table::Row;

/// A gutter.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Gutter {
    /// Name in tables, such as `k-style-5`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    pub name: String,
    /// Across its top.
    pub width: Text<Length>,
    /// What it carries, by its fall.
    pub drains: Vec<Drains>,
    /// Where it comes from.
    pub source: Source,
}

/// What a gutter carries at one fall.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Drains {
    /// Fall in each foot of its length.
    pub fall: Text<Length>,
    /// Area of roof in plan at 1 in/h.
    pub area: Text<Area>,
}

impl Row for Gutter {
    const TABLE: &'static str = "gutter";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let rises = self.drains.windows(2).all(|w| *w[0].fall < *w[1].fall && *w[0].area < *w[1].area);
        let rated = |d: &Drains| d.area.m2() > 0.0 && d.fall.m() > 0.0;
        let sound = !self.drains.is_empty() && rises && self.drains.iter().all(rated);
        let ratings = (!sound).then_some(
            "`drains` needs falls and ratings above zero, each with more fall and more area than the one before",
        );
        let width = (self.width.m() <= 0.0).then_some("`width` must be above zero");
        ratings.into_iter().chain(width).map(str::to_owned).collect()
    }
}

/// A downspout.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Downspout {
    /// Name in tables, such as `downspout-2x3`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    pub name: String,
    /// Area of its opening.
    pub opening: Text<Area>,
    /// Where it comes from.
    pub source: Source,
}

impl Row for Downspout {
    const TABLE: &'static str = "downspout";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let none = self.opening.m2() <= 0.0;
        none.then(|| "`opening` must be above zero".to_owned()).into_iter().collect()
    }
}

/// How many times slopes of a pitch count their area in plan, since driven rain meets their face.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RainFactor {
    /// Name of the row.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// The steepest pitch it is for.
    pub up_to: Text<Pitch>,
    /// How many times.
    pub factor: f64,
    /// Where it comes from.
    pub source: Source,
}

impl Row for RainFactor {
    const TABLE: &'static str = "rain_factor";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let sound = (1.0..=2.0).contains(&self.factor);
        (!sound).then(|| "`factor` must be from 1 to 2".to_owned()).into_iter().collect()
    }
}
