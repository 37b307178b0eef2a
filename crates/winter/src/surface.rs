//! Heat and vapour between a surface and the air and sky over it.

use heat::air::{SPECIFIC_HEAT, density};
use heat::moist::iso_saturation;

use crate::sky::STEFAN_BOLTZMANN;
use crate::snow::SUBLIMATION;

const ZERO: f64 = 273.15;
/// Ratio of the gas constants of dry air and vapour.
const RATIO: f64 = 0.621_945;
/// Of turbulence (von Kármán).
const KARMAN: f64 = 0.4;

/// What is over a surface in a step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Sky {
    /// Air, °C.
    pub air: f64,
    /// Pressure of its vapour, Pa.
    pub vapour: f64,
    /// Pressure of the air, Pa.
    pub pressure: f64,
    /// Wind, m/s.
    pub wind: f64,
    /// Sun on the surface, W/m².
    pub sun: f64,
    /// Longwave on the surface, W/m².
    pub longwave: f64,
}

/// How air takes heat from a surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Turbulence {
    /// 4 + 4·v W/(m²·K) (ISO 6946:2017, annex C), or however much a surface's own law gives.
    Film {
        /// In still air, W/(m²·K).
        still: f64,
        /// More for each m/s.
        windy: f64,
    },
    /// A layer of air over level snow, steadied where the surface is colder (Louis 1979; as in FSM2, Essery 2015).
    Layer {
        /// Roughness, m.
        roughness: f64,
        /// Height at which wind was measured, m.
        wind_at: f64,
        /// Height at which air was measured, m.
        air_at: f64,
    },
}

impl Default for Turbulence {
    /// No air.
    fn default() -> Self {
        Self::Film { still: 0.0, windy: 0.0 }
    }
}

impl Turbulence {
    /// W/(m²·K), for a surface at a temperature.
    pub fn conductance(self, sky: &Sky, surface: f64) -> f64 {
        match self {
            Self::Film { still, windy } => still + windy * sky.wind,
            Self::Layer { roughness, wind_at, air_at } => {
                const LEAST_WIND: f64 = 0.1;
                const STEADIED: f64 = 5.0;
                let wind = sky.wind.max(LEAST_WIND);
                let neutral =
                    KARMAN * KARMAN / ((wind_at / roughness).ln() * (air_at / (0.1 * roughness)).ln());
                let richardson = heat::air::GRAVITY * (sky.air - surface) * wind_at * wind_at
                    / (air_at * (sky.air + ZERO) * wind * wind);
                let steadied = if richardson > 0.0 {
                    1.0 / (1.0 + 3.0 * STEADIED * richardson * (1.0 + STEADIED * richardson).sqrt())
                } else {
                    let turned =
                        3.0 * STEADIED * STEADIED * neutral * (-richardson * wind_at / roughness).sqrt();
                    1.0 - 3.0 * STEADIED * richardson / (1.0 + turned)
                };
                density(sky.pressure, sky.air) * SPECIFIC_HEAT * neutral * steadied * wind
            }
        }
    }
}

/// Heat from the surface at a temperature to all that is over it, as a line: W/(m²·K), and the temperature at which it would be none.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Line {
    pub(crate) conductance: f64,
    pub(crate) level: f64,
    /// Vapour that leaves at 0 °C, kg/(m²·s), and how much more with each kelvin, along the line.
    vapour: [f64; 2],
}

impl Line {
    /// Vapour that leaves at a temperature, kg/(m²·s): what its heat stands for.
    pub(crate) fn vapour(&self, at: f64) -> f64 {
        self.vapour[0] + self.vapour[1] * at
    }
}

/// A surface under the sky.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Surface {
    pub(crate) sky: Sky,
    pub(crate) turbulence: Turbulence,
    pub(crate) emissivity: f64,
    /// Share of the sun it takes.
    pub(crate) absorbed: f64,
    /// Whether ice lies open to the air, so that vapour goes and comes.
    pub(crate) is_icy: bool,
    /// Heat of rain and the like, W/m².
    pub(crate) source: f64,
}

impl Surface {
    /// Vapour that leaves it at a temperature, kg/(m²·s), by a conductance for heat (heat and vapour are carried alike).
    pub(crate) fn sublimation(&self, at: f64, conductance: f64) -> f64 {
        if !self.is_icy {
            return 0.0;
        }
        let share = |vapour: f64| RATIO * vapour / self.sky.pressure;
        conductance / SPECIFIC_HEAT * (share(iso_saturation(at)) - share(self.sky.vapour))
    }

    /// The line that touches at a temperature.
    pub(crate) fn line(&self, at: f64) -> Line {
        let h = self.turbulence.conductance(&self.sky, at);
        let kelvin = at + ZERO;
        let radiated = self.emissivity * STEFAN_BOLTZMANN * kelvin.powi(4);
        let latent = SUBLIMATION * self.sublimation(at, h);
        let lost = radiated - self.emissivity * self.sky.longwave + h * (at - self.sky.air) + latent
            - self.absorbed * self.sky.sun
            - self.source;
        let grows = if self.is_icy {
            // slope of saturation over ice by Clausius and Clapeyron
            let slope = iso_saturation(at) * SUBLIMATION / (461.5 * kelvin * kelvin);
            SUBLIMATION * h / SPECIFIC_HEAT * RATIO * slope / self.sky.pressure
        } else {
            0.0
        };
        let conductance = 4.0 * radiated / kelvin + h + grows;
        let by_kelvin = grows / SUBLIMATION;
        let vapour = [latent / SUBLIMATION - by_kelvin * at, by_kelvin];
        Line { conductance, level: at - lost / conductance, vapour }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A roof that takes no heat from below, −10 °C air, 179.868 W/m² from a clear sky, 10 W/(m²·K), emissivity 0.9: −16.094 °C (scipy 1.17.1, `brentq`).
    #[test]
    fn a_roof_at_night_is_colder_than_the_air() {
        let sky =
            Sky { air: -10.0, vapour: 200.0, pressure: 101_325.0, wind: 0.0, sun: 0.0, longwave: 179.868 };
        let surface = Surface {
            sky,
            turbulence: Turbulence::Film { still: 10.0, windy: 0.0 },
            emissivity: 0.9,
            absorbed: 0.9,
            is_icy: false,
            source: 0.0,
        };
        let mut t = sky.air;
        for _ in 0..20 {
            t = surface.line(t).level;
        }
        assert!((t + 16.094).abs() < 0.01, "{t}");
    }
}
