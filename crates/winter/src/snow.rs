//! What snow is like: how dense it falls and settles, what it conducts, how bright it is.

use heat::air::GRAVITY;

/// Specific heat of ice, J/(kg·K).
pub const ICE_HEAT: f64 = 2100.0;
/// Specific heat of water, J/(kg·K).
pub const WATER_HEAT: f64 = 4186.0;
/// Heat that melts ice, J/kg.
pub const FUSION: f64 = 333_550.0;
/// Heat that turns ice into vapour, J/kg.
pub const SUBLIMATION: f64 = 2.834e6;
/// Density of ice, kg/m³.
pub const ICE_DENSITY: f64 = 917.0;

/// How dense snow falls, kg/m³: 67.92 + 51.25·exp(T/2.59), T no more than 0 °C (Hedstrom and Pomeroy 1998; from memory).
pub fn fresh_density(air: f64) -> f64 {
    67.92 + 51.25 * (air.min(0.0) / 2.59).exp()
}

/// How fast snow settles under its own weight and with age, kg/m³ in a second (FSM2, Essery 2015, after Anderson 1976).
///
/// `over` is the snow above the middle of the layer, kg/m².
pub fn settling(density: f64, over: f64, temperature: f64) -> f64 {
    const VISCOSITY: f64 = 3.7e7;
    let weight = GRAVITY * over / (VISCOSITY * (-temperature / 12.4 + density / 55.6).exp());
    let age = 2.8e-6 * (temperature / 23.8 - (density - 150.0).max(0.0) / 21.7).exp();
    density * (weight + age)
}

/// What snow conducts, W/(m·K), by the formula chosen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Conductivity {
    /// 2.224·(ρ/1000)^1.885 (Yen 1981).
    #[default]
    Yen,
    /// About half as much: favours melting from below (Sturm and others 1997; coefficients from memory).
    Sturm,
    /// Between the two (Calonne and others 2011; from memory).
    Calonne,
}

impl Conductivity {
    /// At a density, kg/m³.
    pub fn at(self, density: f64) -> f64 {
        let grams = density / 1000.0;
        match self {
            Self::Yen => 2.224 * grams.powf(1.885),
            Self::Sturm if grams < 0.156 => 0.023 + 0.234 * grams,
            Self::Sturm => 0.138 - 1.01 * grams + 3.233 * grams * grams,
            Self::Calonne => 2.5e-6 * density * density - 1.23e-4 * density + 0.024,
        }
    }
}

/// Water that a layer holds against its weight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Held {
    /// A share of its pores.
    Pores(f64),
    /// A share of its ice.
    Ice(f64),
}

impl Held {
    /// In a layer, kg/m².
    pub fn of(self, ice: f64, depth: f64) -> f64 {
        match self {
            Self::Pores(share) => share * 1000.0 * (depth - ice / ICE_DENSITY).max(0.0),
            Self::Ice(share) => share * ice,
        }
    }
}

/// How snow is reckoned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Law {
    /// What it conducts.
    pub conductivity: Conductivity,
    /// How many times as dense as [`fresh_density`] it falls.
    pub denser: f64,
    /// Share of the sun it throws back more than [`Albedo`] tells.
    pub brighter: f64,
    /// What it radiates, 0.97 to 0.99 (from memory).
    pub emissivity: f64,
    /// Water it holds.
    pub held: Held,
    /// Water that stays at its foot, as a share of its ice: it wicks up there (range 0.02 to 0.08; common practice).
    pub wicks: f64,
    /// Whether it settles.
    pub settles: bool,
    /// Whether vapour leaves it and comes to it.
    pub evaporates: bool,
    /// Most layers it is divided into, 1 to 3.
    pub layers: usize,
}

impl Law {
    /// All of it, in three layers: 0.03 of the pores hold water (FSM2, Essery 2015).
    pub const FULL: Self = Self {
        conductivity: Conductivity::Yen,
        denser: 1.0,
        brighter: 0.0,
        emissivity: 0.98,
        held: Held::Pores(0.03),
        wicks: 0.03,
        settles: true,
        evaporates: true,
        layers: 3,
    };
}

/// How bright snow is: brighter with each fall, duller with age, faster when it melts (FSM2, Essery 2015).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Albedo(f64);

impl Albedo {
    const LEAST: f64 = 0.5;
    const MOST: f64 = 0.85;
    /// Fall that makes it as new, kg/m².
    const RENEWED: f64 = 10.0;
    const HOUR: f64 = 3600.0;

    /// Of snow just fallen.
    pub const fn fresh() -> Self {
        Self(Self::MOST)
    }

    /// One that was measured, 0 to 1.
    pub const fn of(share: f64) -> Self {
        Self(share)
    }

    /// Share of the sun that is thrown back.
    pub const fn share(self) -> f64 {
        self.0
    }

    /// After a time under a fall of snow, kg/m² in a second.
    #[must_use]
    pub fn aged(self, seconds: f64, snowfall: f64, is_melting: bool) -> Self {
        let tau = Self::HOUR * if is_melting { 100.0 } else { 1000.0 };
        let rate = tau.recip() + snowfall / Self::RENEWED;
        let limit = (Self::LEAST / tau + snowfall * Self::MOST / Self::RENEWED) / rate;
        Self(self.0 + (limit - self.0) * (1.0 - (-rate * seconds).exp()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(found: f64, wanted: f64, share: f64) {
        assert!((found - wanted).abs() <= share * wanted.abs(), "{found} for {wanted}");
    }

    /// Formulas evaluated apart from this code; Sturm 1997, Yen 1981, Calonne 2011.
    #[test]
    fn conductivity_by_each_formula() {
        for (density, sturm, yen, calonne) in [
            (50.0, 0.0347, 0.007_847, 0.0241),
            (100.0, 0.0464, 0.028_98, 0.0367),
            (150.0, 0.0581, 0.062_24, 0.0618),
            (200.0, 0.065_32, 0.107, 0.0994),
            (500.0, 0.4413, 0.6021, 0.5875),
        ] {
            close(Conductivity::Sturm.at(density), sturm, 0.002);
            close(Conductivity::Yen.at(density), yen, 0.002);
            close(Conductivity::Calonne.at(density), calonne, 0.002);
        }
    }

    /// Hedstrom and Pomeroy 1998, evaluated apart from this code.
    #[test]
    fn snow_falls_denser_when_it_is_less_cold() {
        for (air, wanted) in [(-10.0, 68.999), (-5.0, 75.355), (-1.0, 102.75), (0.0, 119.17)] {
            close(fresh_density(air), wanted, 0.002);
        }
    }

    /// 100 kg/m³ under 20 kg/m² at −5 °C: 126.6 after a day, 193.73 after five (FSM2's formula evaluated apart, steps of an hour).
    #[test]
    fn snow_settles() {
        let mut density = 100.0;
        for hour in 1..=120 {
            density += 3600.0 * settling(density, 20.0, -5.0);
            match hour {
                24 => close(density, 126.6, 0.002),
                120 => close(density, 193.73, 0.002),
                _ => {}
            }
        }
    }

    /// From 0.85 in 72 hours cold to 0.82569, melting to 0.67036; from 0.6 in 24 hours of 1 mm/h cold to 0.8247 (FSM2's formula evaluated apart).
    #[test]
    fn snow_dulls_and_is_renewed() {
        let days = 72.0 * 3600.0;
        assert!((Albedo::fresh().aged(days, 0.0, false).share() - 0.825_69).abs() < 5e-4);
        assert!((Albedo::fresh().aged(days, 0.0, true).share() - 0.670_36).abs() < 5e-4);
        assert!((Albedo::of(0.6).aged(24.0 * 3600.0, 1.0 / 3600.0, false).share() - 0.8247).abs() < 5e-4);
    }

    /// 10 mm of rain at 3 °C bring 125 580 J/m², as much as melts 0.3765 kg/m²; freezing, 3 335 500 J/m² (closed form; 0.01 %).
    #[test]
    fn heat_of_rain() {
        close(WATER_HEAT * 10.0 * 3.0, 125_580.0, 1e-4);
        close(WATER_HEAT * 10.0 * 3.0 / FUSION, 0.3765, 1e-4);
        close(FUSION * 10.0, 3_335_500.0, 1e-4);
    }

    /// 60 kg/m² at −8 °C ask 1 008 000 J/m² to come to 0 °C, as much as melts 3.022 kg/m².
    #[test]
    fn cold_content() {
        let cold: f64 = ICE_HEAT * 60.0 * 8.0;
        close(cold, 1_008_000.0, 1e-4);
        close(cold / FUSION, 3.022, 1e-4);
    }
}
