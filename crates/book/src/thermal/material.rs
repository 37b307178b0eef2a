//! What building materials resist.

use measure::{Length, RValue};
use serde::Deserialize;

use super::Range;
use crate::quantity::Text;
use crate::source::{Source, words};
use crate::table::Row;

/// A building material as heat and vapor meet it.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ThermalMaterial {
    /// Name in tables, such as `plywood`.
    #[serde(deserialize_with = "words")]
    pub id: String,
    /// Name for papers.
    #[serde(deserialize_with = "words")]
    pub name: String,
    /// Density, kg/m³.
    pub density_kg_m3: Option<Range>,
    /// What it resists.
    pub resists: Resists,
    /// Specific heat, J/(kg·K).
    pub specific_heat: Option<Range>,
    /// How vapor goes through it, where that is known.
    pub vapor: Option<Vapor>,
    /// Where it comes from.
    pub source: Source,
}

/// What heat meets.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Resists {
    /// Conductivity, W/(m·K).
    Conductivity(Range),
    /// Resistance of each inch: what a label says.
    PerInch(Text<RValue>),
    /// Resistance of the item as it is, however thick.
    Item(Text<RValue>),
    /// Next to nothing, as metal and sheets do.
    Nothing {},
}

/// What vapor meets.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Vapor {
    /// How many times the resistance of still air of the same thickness: wet to dry (ISO 10456).
    Factor(Range),
    /// Permeance of the item, US perms.
    Perms(Range),
    /// Permeability, US perm·in.
    PermInch(Range),
    /// None goes through.
    Stopped {},
}

/// Thickness of still air that lets through as much as one US perm, m: 2·10⁻¹⁰ kg/(s·m·Pa) over 5.7214·10⁻¹¹ kg/(s·m²·Pa) (ISO 13788:2012 for the
/// permeability of air).
const AIR_OF_ONE_PERM: f64 = 3.4956;
/// What stops vapor is taken as so much still air, m.
const STOPPED: f64 = 1e5;

impl ThermalMaterial {
    /// What a thickness of it resists: an item resists the same however thick it is said to be.
    pub fn resistance(&self, thickness: Length) -> RValue {
        match &self.resists {
            Resists::Conductivity(w_mk) => RValue::from_si(thickness.m() / w_mk.middle()),
            Resists::PerInch(r) => **r * thickness.inches(),
            Resists::Item(r) => **r,
            Resists::Nothing {} => RValue::ZERO,
        }
    }

    /// Conductivity, W/(m·K); none of an item or of what resists nothing.
    pub fn conductivity(&self) -> Option<f64> {
        match &self.resists {
            Resists::Conductivity(w_mk) => Some(w_mk.middle()),
            Resists::PerInch(r) => Some(Length::from_in(1.0).m() / r.si()),
            Resists::Item(_) | Resists::Nothing {} => None,
        }
    }

    /// Thickness of still air through which vapor goes as hard as through a thickness of it, m: the middle of its range.
    pub fn still_air(&self, thickness: Length) -> Option<f64> {
        self.vapor.as_ref().map(|vapor| match vapor {
            Vapor::Factor(times) => times.middle() * thickness.m(),
            Vapor::Perms(perms) => AIR_OF_ONE_PERM / perms.middle(),
            Vapor::PermInch(perms) => AIR_OF_ONE_PERM * thickness.inches() / perms.middle(),
            Vapor::Stopped {} => STOPPED,
        })
    }
}

/// Permeance of what resists vapor as so much still air, US perms.
pub fn perms(still_air: f64) -> f64 {
    AIR_OF_ONE_PERM / still_air
}

impl Row for ThermalMaterial {
    const TABLE: &'static str = "thermal_material";

    fn id(&self) -> &str {
        &self.id
    }

    fn faults(&self) -> Vec<String> {
        let resists = match &self.resists {
            Resists::Conductivity(w_mk) => w_mk.fault("conductivity", 0.0, 1000.0),
            Resists::PerInch(r) => nothing("per_inch", **r),
            Resists::Item(r) => nothing("item", **r),
            Resists::Nothing {} => None,
        };
        let vapor = self.vapor.as_ref().and_then(|vapor| match vapor {
            Vapor::Factor(times) => times.fault("factor", 0.0, 1e7),
            Vapor::Perms(perms) => perms.fault("perms", 0.0, 1000.0),
            Vapor::PermInch(perms) => perms.fault("perm_inch", 0.0, 1000.0),
            Vapor::Stopped {} => None,
        });
        let density = self.density_kg_m3.and_then(|kg| kg.fault("density_kg_m3", 0.0, 25_000.0));
        let heat = self.specific_heat.and_then(|j| j.fault("specific_heat", 0.0, 5000.0));
        [density, resists, heat, vapor].into_iter().flatten().collect()
    }
}

fn nothing(name: &str, r: RValue) -> Option<String> {
    (r.si() <= 0.0).then(|| format!("`{name}` must be above zero"))
}
