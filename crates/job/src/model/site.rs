//! Where the house stands and what the place asks of it.

use measure::{Length, Load, RainRate, Temperature};

use super::{Figure, Span};

/// Which face of the exterior wall the ice barrier clause is measured from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WallLine {
    /// Outside face of the wall.
    Outside,
    /// Inside face: adds the wall's thickness.
    Inside,
}

/// Hail by the map of the code.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "the map's own words")]
pub enum HailExposure {
    Low,
    Moderate,
    Severe,
}

/// A year of weather to hold the house against.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Climate {
    /// File of weather or of monthly normals, as written: beside the document where it is no whole path.
    pub file: String,
    /// Where it stands in the document.
    pub span: Span,
}

/// Place, climate and adopted code.
#[derive(Clone, Debug, PartialEq)]
pub struct Site {
    /// Latitude in degrees north, -90 to 90.
    pub latitude: Option<f64>,
    /// Adopted code edition, a key of the books such as `irc-2018`.
    pub code: String,
    /// Climate zone of the energy code, such as `6A`.
    pub climate_zone: Option<String>,
    /// Ground snow load.
    pub ground_snow: Option<Load>,
    /// Depth of snow the building department expects to lie on roofs.
    pub snow_depth: Option<Length>,
    /// Design rain.
    pub rain: Figure<RainRate>,
    /// Whether ice has backed up on roofs of the place; turns the ice barrier clause on.
    pub ice_history: Figure<bool>,
    /// Reading of "exterior wall line" by the local official.
    pub wall_line: Figure<WallLine>,
    /// Thickness of the exterior wall.
    pub wall_thickness: Figure<Length>,
    /// Year the house was built.
    pub year_built: Option<i64>,
    /// Address as written.
    pub address: Option<String>,
    /// Height above the sea.
    pub elevation: Option<Length>,
    /// Heating degree-days of a year, °F·day below 65 °F.
    pub heating_degree_days_f: Option<f64>,
    /// Whether the building department asks for a permit.
    pub permit: Option<bool>,
    /// 99 % heating design temperature.
    pub design_temperature: Option<Temperature>,
    /// 97.5 % winter design temperature.
    pub winter_temperature: Option<Temperature>,
    /// Hail by the map of the code.
    pub hail_exposure: Option<HailExposure>,
    /// Whether the soil swells or gives way when wet.
    pub poor_soil: Option<bool>,
    /// The winter that ice is reckoned for.
    pub winter: Option<Climate>,
    /// A hard winter that was; one is made of the typical year where none is named.
    pub hard_winter: Option<Climate>,
}
