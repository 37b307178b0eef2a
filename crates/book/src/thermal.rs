//! Heat, air and moisture of building parts: what materials resist, what leaks, what fuels hold, how much insulation the code asks.
//!
//! Rows are found by [`Book::thermal`](crate::Book::thermal). Figures that have no type of their own in `measure` carry their unit in their name.
//!
//! # Validity
//! Design values: the label of the product at hand, in an overlay, goes before them.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use toml::Spanned;
use toml::de::DeValue;

use crate::lookup::LookupError;
use crate::shelf::{find, put_all};
use crate::table::{Row, TableFile};

mod build;
mod code;
mod energy;
mod leak;
mod material;
mod moisture;
mod range;
mod snow;
mod unknown;

pub use build::{AirLayer, CeilingLimit, CompressedBatt, Framing, Insulation, Supply, SurfaceFilm};
pub use code::{AirtightInsulation, EnergyCode, RetarderCode, WallInsulation};
pub use energy::{CombustionLimit, FanUse, Fuel, Heater};
pub use leak::{Leak, LeakUnit, Shelter, Shielding, Stack, Terrain};
pub use material::{Resists, ThermalMaterial, Vapor, perms};
pub use moisture::{IndoorVapor, MoldClass, VaporRetarder};
pub use range::Range;
pub use snow::{RoofSurface, WindOnSnow};
pub use unknown::{Measured, Unknown};

/// The file the program carries. It is long and few commands ask it: it is read when it is first asked.
pub(crate) const BUILTIN: (&str, &str) = ("books/thermal.toml", include_str!("../../../books/thermal.toml"));
static READ: LazyLock<Thermal> = LazyLock::new(|| {
    let (mut thermal, mut file) = (Thermal::default(), TableFile::new(BUILTIN.0, BUILTIN.1));
    for (name, table) in file.tables() {
        thermal.lay(name.get_ref(), table, &mut file);
    }
    let problems = file.into_problems();
    assert!(
        problems.is_empty(),
        "the built-in tables read without a problem, as the tests of this crate show: {problems:?}"
    );
    thermal
});

/// The tables of this part: a map of rows each, a look-up by id, and all of them in order of their ids.
macro_rules! tables {
    ($($field:ident: $row:ty, $one:ident, $all:ident, $what:literal;)+) => {
        /// Rows on heat, air and moisture.
        #[derive(Clone, Debug, Default, PartialEq)]
        pub struct Thermal {
            $($field: BTreeMap<String, $row>,)+
        }

        impl Thermal {
            /// Names of the tables.
            pub(crate) const TABLES: &'static [&'static str] = &[$(<$row>::TABLE,)+];

            $(
                #[doc = concat!("The ", $what, " of that id.")]
                ///
                /// # Errors
                /// No row of that id.
                pub fn $one(&self, id: &str) -> Result<&$row, LookupError> {
                    find(&self.$field, <$row>::TABLE, id)
                }

                #[doc = concat!("Every ", $what, ", by id.")]
                pub fn $all(&self) -> impl Iterator<Item = &$row> {
                    self.$field.values()
                }
            )+

            /// Lays one table of a file over what is there.
            pub(crate) fn lay<'a>(
                &mut self,
                name: &str,
                table: Spanned<DeValue<'a>>,
                file: &mut TableFile<'a>,
            ) {
                match name {
                    $(<$row>::TABLE => put_all(&mut self.$field, file.rows(table), file),)+
                    _ => {}
                }
            }

            /// How many rows there are.
            #[cfg(test)]
            pub(crate) fn count(&self) -> usize {
                [$(self.$field.len(),)+].iter().sum()
            }
        }
    };
}

tables! {
    materials: ThermalMaterial, material, materials, "material";
    films: SurfaceFilm, film, films, "surface film";
    air_layers: AirLayer, air_layer, air_layers, "air layer";
    framings: Framing, framing, framings, "framing";
    batts: CompressedBatt, batt, batts, "compressed batt";
    insulations: Insulation, insulation, insulations, "insulation product";
    ceilings: CeilingLimit, ceiling, ceilings, "limit of a ceiling";
    leaks: Leak, leak, leaks, "leak";
    shelters: Shelter, shelter, shelters, "class of shelter";
    stacks: Stack, stack, stacks, "number of stories";
    shieldings: Shielding, shielding, shieldings, "class of shielding";
    terrains: Terrain, terrain, terrains, "class of terrain";
    fuels: Fuel, fuel, fuels, "fuel";
    heaters: Heater, heater, heaters, "heater";
    combustion_limits: CombustionLimit, combustion_limit, combustion_limits, "limit of combustion";
    indoor_vapors: IndoorVapor, indoor_vapor, indoor_vapors, "class of indoor vapor";
    retarders: VaporRetarder, retarder, retarders, "class of vapor retarder";
    molds: MoldClass, mold, molds, "class of mold growth";
    airtights: AirtightInsulation, airtight, airtights, "least airtight insulation";
    retarder_codes: RetarderCode, retarder_code, retarder_codes, "rule on vapor retarders";
    energy_codes: EnergyCode, energy_code, energy_codes, "row of the energy code";
    fan_uses: FanUse, fan_use, fan_uses, "use of a fan";
    roof_surfaces: RoofSurface, roof_surface, roof_surfaces, "roofing as snow lies on it";
    winds_on_snow: WindOnSnow, wind_on_snow, winds_on_snow, "wind that moves snow";
    unknowns: Unknown, unknown, unknowns, "unknown of a winter";
}

impl Thermal {
    /// The tables the program carries.
    pub(crate) fn builtin() -> &'static Self {
        &READ
    }

    /// What an unventilated air layer of a thickness resists, straight between the rows beside it; below the thinnest in proportion, above the thickest as
    /// that one.
    pub fn air_layer_of(&self, thickness: measure::Length) -> Option<[measure::RValue; 3]> {
        let mut rows: Vec<&AirLayer> = self.air_layers.values().collect();
        rows.sort_by(|a, b| a.thickness.m().total_cmp(&b.thickness.m()));
        let at = thickness.m().max(0.0);
        let (last, above) = (rows.last()?, rows.iter().position(|row| row.thickness.m() >= at));
        let Some(above) = above else { return Some(last.resistances()) };
        let (low, from) = match above.checked_sub(1) {
            Some(below) => (rows[below].resistances(), rows[below].thickness.m()),
            None => ([measure::RValue::ZERO; 3], 0.0),
        };
        let (high, to) = (rows[above].resistances(), rows[above].thickness.m());
        let share = (at - from) / (to - from);
        Some(std::array::from_fn(|i| low[i] + (high[i] - low[i]) * share))
    }

    /// The least airtight insulation of an unvented roof in a climate zone, such as `6A`.
    ///
    /// # Errors
    /// A zone no row has.
    pub fn airtight_in(&self, zone: &str) -> Result<&AirtightInsulation, LookupError> {
        let row = self.airtights.values().find(|row| !row.tile && code::takes_in(&row.zones, zone));
        row.ok_or_else(|| code::no_zone(AirtightInsulation::TABLE, zone))
    }

    /// What the energy code of a year asks in a climate zone: the row of the last edition not after it.
    ///
    /// # Errors
    /// A zone no row has, a year before the first edition.
    pub fn energy_code_in(&self, year: u16, zone: &str) -> Result<&EnergyCode, LookupError> {
        let rows =
            self.energy_codes.values().filter(|row| row.from <= year && code::takes_in(&row.zones, zone));
        rows.max_by_key(|row| row.from).ok_or_else(|| code::no_zone(EnergyCode::TABLE, zone))
    }

    /// What the building code of a year says of vapor retarders in a climate zone: the row of the last edition not after it.
    ///
    /// # Errors
    /// A zone no row has, a year before the first edition.
    pub fn retarder_code_in(&self, year: u16, zone: &str) -> Result<&RetarderCode, LookupError> {
        let rows =
            self.retarder_codes.values().filter(|row| row.from <= year && code::takes_in(&row.zones, zone));
        rows.max_by_key(|row| row.from).ok_or_else(|| code::no_zone(RetarderCode::TABLE, zone))
    }

    /// The class of a vapor retarder by its permeance in US perms; none where it is too open to be one.
    pub fn retarder_of(&self, perms: f64) -> Option<&VaporRetarder> {
        let tight = self.retarders.values().filter(|row| perms <= row.most_perms);
        tight.min_by(|a, b| a.most_perms.total_cmp(&b.most_perms))
    }
}
