//! Units and their size in SI.
//!
//! A size is kept as a ratio of two numbers that are exact in binary wherever the definition allows it (an inch is
//! 127/5000 m). A conversion then rounds once, and 24 ft and 288 in are the very same number of metres.
//!
//! # Source
//! Definitions: international yard and pound agreement of 1959 (foot, inch, pound), 3rd CGPM 1901 (standard
//! gravity), 1956 International Table Btu (2326 J/kg per Btu/lb), U.S. liquid gallon of 231 in³. All are repeated
//! in NIST SP 811 (2008), appendix B, against which `tests/outside_units.rs` checks them.

/// A unit: a value `x` in it is `(x + zero) * times / over` in SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Unit {
    times: f64,
    over: f64,
    zero: f64,
}

impl Unit {
    const fn ratio(times: f64, over: f64) -> Self {
        Self { times, over, zero: 0.0 }
    }

    /// The SI value of `x` of this unit.
    pub(crate) const fn to_si(self, x: f64) -> f64 {
        (x + self.zero) * self.times / self.over
    }

    /// How many of this unit the SI value is.
    pub(crate) const fn count(self, si: f64) -> f64 {
        si * self.over / self.times - self.zero
    }
}

/// Pound mass in kg, exact (1959).
const POUND: f64 = 0.45359237;
/// Standard gravity in m/s², exact (3rd CGPM, 1901).
const GRAVITY: f64 = 9.80665;
/// British thermal unit, International Table, in J, exact: 2326 J/kg times the pound.
const BTU: f64 = 2326.0 * POUND;
/// Square foot in m², exact: 0.3048².
const FT2: f64 = 145161.0 / 1562500.0;

/// The SI unit itself, of whatever quantity.
pub(crate) const SI: Unit = Unit::ratio(1.0, 1.0);

pub(crate) const MILLIMETRE: Unit = Unit::ratio(1.0, 1000.0);
pub(crate) const CENTIMETRE: Unit = Unit::ratio(1.0, 100.0);
/// 0.0254 m exactly (1959).
pub(crate) const INCH: Unit = Unit::ratio(127.0, 5000.0);
/// 0.3048 m exactly (1959).
pub(crate) const FOOT: Unit = Unit::ratio(381.0, 1250.0);

/// 0.0254² m² exactly.
pub(crate) const SQUARE_INCH: Unit = Unit::ratio(16129.0, 25000000.0);
/// 0.3048² m² exactly.
pub(crate) const SQUARE_FOOT: Unit = Unit::ratio(145161.0, 1562500.0);
/// The roofer's square, 100 ft².
pub(crate) const ROOF_SQUARE: Unit = Unit::ratio(145161.0, 15625.0);
/// 0.3048³ m³ exactly.
pub(crate) const CUBIC_FOOT: Unit = Unit::ratio(55306341.0, 1953125000.0);

/// A rise in inches over a run of 12 inches.
pub(crate) const RISE_PER_12: Unit = Unit::ratio(1.0, 12.0);
/// Degree of arc, in radians.
pub(crate) const DEGREE: Unit = Unit::ratio(std::f64::consts::PI, 180.0);
pub(crate) const PERCENT: Unit = Unit::ratio(1.0, 100.0);

/// Degree Celsius as a temperature: 0 °C is 273.15 K exactly.
pub(crate) const CELSIUS: Unit = Unit { times: 1.0, over: 1.0, zero: 273.15 };
/// Degree Fahrenheit as a temperature: 0 °F is 459.67 °R, and a degree 5/9 K, exactly.
pub(crate) const FAHRENHEIT: Unit = Unit { times: 5.0, over: 9.0, zero: 459.67 };
/// Degree Fahrenheit as a difference: 5/9 K exactly.
pub(crate) const FAHRENHEIT_STEP: Unit = Unit::ratio(5.0, 9.0);

pub(crate) const KILOPASCAL: Unit = Unit::ratio(1000.0, 1.0);
/// Pound-force per square foot.
pub(crate) const PSF: Unit = Unit::ratio(POUND * GRAVITY, FT2);
/// Inch of water, conventional: water of 1000 kg/m³ under standard gravity, 249.08891 Pa.
pub(crate) const INCH_WATER: Unit = Unit::ratio(25.4 * GRAVITY, 1.0);
/// Hectopascal, the same as a millibar.
pub(crate) const HECTOPASCAL: Unit = Unit::ratio(100.0, 1.0);

/// h·ft²·°F/Btu in m²·K/W.
pub(crate) const R_US: Unit = Unit::ratio(3600.0 * FT2 * 5.0, 9.0 * BTU);
/// Btu/(h·ft²·°F) in W/(m²·K).
pub(crate) const U_US: Unit = Unit::ratio(9.0 * BTU, 3600.0 * FT2 * 5.0);

/// Cubic foot per minute.
pub(crate) const CFM: Unit = Unit::ratio(55306341.0, 60.0 * 1953125000.0);
/// U.S. liquid gallon (231 in³ = 3.785411784 L exactly) per minute.
pub(crate) const GPM: Unit = Unit::ratio(3.785411784, 60000.0);
pub(crate) const LITRE_PER_SECOND: Unit = Unit::ratio(1.0, 1000.0);
/// Inch per hour.
pub(crate) const INCH_PER_HOUR: Unit = Unit::ratio(127.0, 3600.0 * 5000.0);
/// Millimetre per hour.
pub(crate) const MILLIMETRE_PER_HOUR: Unit = Unit::ratio(1.0, 3600000.0);
