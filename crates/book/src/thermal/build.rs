//! Films, air layers, framing, batts and insulation as it is blown, laid or sprayed.

use measure::{Length, Load, RValue};
use serde::Deserialize;

use super::Range;
use crate::quantity::{Share, Text};
use crate::source::{Source, words};
use crate::table::Row;

/// The film of air at a surface.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SurfaceFilm {
    /// Name in tables, such as `still-up`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// What it resists at a surface that is not shiny.
    pub resistance: Text<RValue>,
    /// At a bright metal one, where that is known.
    pub shiny: Option<Text<RValue>>,
    /// Where it comes from.
    pub source: Source,
}

impl Row for SurfaceFilm {
    const TABLE: &'static str = "surface_film";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let is_less = self.shiny.as_ref().is_some_and(|shiny| shiny.si() < self.resistance.si());
        let shiny = is_less.then_some("`shiny` must be at least `resistance`");
        let none = (self.resistance.si() <= 0.0).then_some("`resistance` must be above zero");
        [none, shiny].into_iter().flatten().map(str::to_owned).collect()
    }
}

/// A layer of air that is not ventilated, between surfaces that are not shiny.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AirLayer {
    /// Name in tables, such as `air-25mm`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// From surface to surface.
    pub thickness: Text<Length>,
    /// What it resists to heat that goes up.
    pub up: Text<RValue>,
    /// To heat across.
    pub across: Text<RValue>,
    /// To heat down.
    pub down: Text<RValue>,
    /// Where it comes from.
    pub source: Source,
}

impl AirLayer {
    /// Up, across and down.
    pub(super) fn resistances(&self) -> [RValue; 3] {
        [*self.up, *self.across, *self.down]
    }
}

impl Row for AirLayer {
    const TABLE: &'static str = "air_layer";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let rises = self.up.si() > 0.0 && *self.up <= *self.across && *self.across <= *self.down;
        let order = (!rises).then_some("`up` must be above zero, `across` no less, `down` no less than that");
        let thin = (self.thickness.m() <= 0.0).then_some("`thickness` must be above zero");
        [thin, order].into_iter().flatten().map(str::to_owned).collect()
    }
}

/// How much of an assembly is wood.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Framing {
    /// Name in tables, such as `wall-16`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// Of the area.
    pub share: Text<Share>,
    /// Where it comes from.
    pub source: Source,
}

impl Row for Framing {
    const TABLE: &'static str = "framing";

    fn id(&self) -> &str {
        &self.id
    }
}

/// A batt in less room than it is made for.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CompressedBatt {
    /// Name in tables, such as `r19-in-5-1-2`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// What its label says.
    pub label: Text<RValue>,
    /// The room it is in.
    pub depth: Text<Length>,
    /// What it resists there.
    pub resistance: Text<RValue>,
    /// Where it comes from.
    pub source: Source,
}

impl Row for CompressedBatt {
    const TABLE: &'static str = "compressed_batt";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let sound = self.depth.m() > 0.0 && self.resistance.si() > 0.0 && *self.resistance <= *self.label;
        let fault = "`depth` and `resistance` must be above zero, and `resistance` no more than `label`";
        (!sound).then(|| fault.to_owned()).into_iter().collect()
    }
}

/// Insulation to be put in, by kind.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Insulation {
    /// Name in tables, such as `cellulose-open`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// What each inch of it resists, settled or aged.
    pub per_inch: Text<RValue>,
    /// Density once settled or set, kg/m³.
    pub density_kg_m3: Range,
    /// How it comes and what it does then.
    pub supply: Supply,
    /// Where it comes from.
    pub source: Source,
}

/// How insulation comes.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Supply {
    /// Blown from bags.
    Blown {
        /// How much of the depth blown it loses, share of it.
        settles: Range,
        /// Weight of a bag, kg.
        bag_kg: f64,
    },
    /// In batts, which keep their depth.
    Batts {},
    /// Sprayed, in lifts.
    Sprayed {
        /// The most of one pass.
        lift: Text<Length>,
        /// How much of what a set should give it gives on the job, share of it.
        yields: Range,
    },
}

impl Row for Insulation {
    const TABLE: &'static str = "insulation";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let none = (self.per_inch.si() <= 0.0).then(|| "`per_inch` must be above zero".to_owned());
        let density = self.density_kg_m3.fault("density_kg_m3", 0.0, 500.0);
        let supply = match &self.supply {
            Supply::Blown { settles, bag_kg } => {
                let bag =
                    (!(1.0..=100.0).contains(bag_kg)).then(|| "`bag_kg` must be from 1 to 100".to_owned());
                bag.or_else(|| settles.fault("settles", 0.0, 0.5))
            }
            Supply::Batts {} => None,
            Supply::Sprayed { lift, yields } => {
                let lift = (lift.m() <= 0.0).then(|| "`lift` must be above zero".to_owned());
                lift.or_else(|| yields.fault("yields", 0.0, 1.0))
            }
        };
        [none, density, supply].into_iter().flatten().collect()
    }
}

/// What a ceiling board carries of insulation that nothing else holds.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CeilingLimit {
    /// Name in tables, such as `gypsum-1-2-at-24`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// From joist to joist.
    pub spacing: Text<Length>,
    /// The most it carries.
    pub load: Text<Load>,
    /// Where it comes from.
    pub source: Source,
}

impl Row for CeilingLimit {
    const TABLE: &'static str = "ceiling_limit";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let sound = self.spacing.m() > 0.0 && self.load.pa() > 0.0;
        (!sound).then(|| "`spacing` and `load` must be above zero".to_owned()).into_iter().collect()
    }
}
