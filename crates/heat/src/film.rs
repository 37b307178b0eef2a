//! Resistance of air films.

use measure::{RValue, Temperature, UValue};

/// Stefan-Boltzmann constant, W/(m²·K⁴) (CODATA 2018, exact).
const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;

/// What a black body gives off by each kelvin at a temperature: 4σT³ (ISO 6946:2017, annex C).
pub fn black_body(mean: Temperature) -> UValue {
    UValue::from_si(4.0 * STEFAN_BOLTZMANN * mean.k().powi(3))
}

/// Resistance of the film at a surface: the reciprocal of what convection and radiation take together (ISO 6946:2017, annex C).
///
/// `convective` is 5.0 where heat goes up, 2.5 across and 0.7 down, 4 + 4·v outdoors at v m/s, all W/(m²·K); `emissivity` 0 to 1.
pub fn film(convective: UValue, emissivity: f64, mean: Temperature) -> RValue {
    RValue::from_si((convective.si() + emissivity * black_body(mean).si()).recip())
}
