//! Heat that comes down from the sky as long waves.
//!
//! A clear sky sends as a grey body at the temperature of the air; how grey, formulas tell by the vapour in the air, and they differ: in cold dry air
//! Clark and Allen stand 0.05 to 0.09 above the others. Take that spread for the doubt.
//!
//! # Checks
//! outside: the published formulas at three states of air (`tests/sky.rs`) · property: between 0 and 1, more vapour or cloud sends more

use crate::vapour;

/// Stefan and Boltzmann's constant, W/(m²·K⁴) (CODATA 2018).
pub const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;
/// How much of what a clear sky lacks a full cover of cloud makes up. Open building and snow models take 0.467, 0.784 and 0.9 (seen); the middle one is taken here.
pub const CLOUD: f64 = 0.784;
/// Freezing point, K.
const FREEZING: f64 = 273.15;

/// Which formula tells how grey a clear sky is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Clear {
    /// P. Berdahl and M. Martin 1984 (seen in an open building model): by dew point, hour and pressure.
    #[default]
    BerdahlMartin,
    /// G. Clark and C. Allen 1978 (from memory): by dew point.
    ClarkAllen,
    /// W. Brutsaert 1975 (from memory): by vapour and temperature.
    Brutsaert,
    /// A. Prata 1996 (from memory): by vapour and temperature.
    Prata,
    /// D. Brunt 1932, with 0.52 and 0.065 (from memory): by vapour.
    Brunt,
}

/// How clouds add to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Clouds {
    /// They make up this share of what a clear sky lacks, when they cover all of it.
    Share(f64),
    /// The polynomial of Clark and Allen 1978 (from memory), made for their clear sky.
    ClarkAllen,
}

impl Default for Clouds {
    fn default() -> Self {
        Self::Share(CLOUD)
    }
}

/// Air near the ground, and what hangs over it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// °C.
    pub temperature: f64,
    /// °C.
    pub dew_point: f64,
    /// Pa.
    pub pressure: f64,
    /// Share of the sky that opaque clouds cover, 0 to 1.
    pub cloud: f64,
    /// Hours after midnight, local standard time.
    pub hours: f64,
}

/// A sky, by the formulas it goes by.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Sky {
    /// For a clear sky.
    pub clear: Clear,
    /// For clouds.
    pub clouds: Clouds,
}

impl Clear {
    /// Emittance of the clear sky, held between 0 and 1.
    pub fn emittance(self, air: &Air) -> f64 {
        let kelvin = air.temperature + FREEZING;
        let vapour = vapour::over_water(air.dew_point) / 100.0;
        let emittance = match self {
            Self::BerdahlMartin => {
                let dew = air.dew_point / 100.0;
                let hour = 0.013 * (std::f64::consts::TAU * air.hours / 24.0).cos();
                let height = 0.000_12 * (air.pressure / 100.0 - 1000.0);
                0.711 + 0.56 * dew + 0.73 * dew.powi(2) + hour + height
            }
            Self::ClarkAllen => 0.787 + 0.764 * ((air.dew_point + FREEZING) / 273.0).ln(),
            Self::Brutsaert => 1.24 * (vapour / kelvin).powf(1.0 / 7.0),
            Self::Prata => {
                let water = 46.5 * vapour / kelvin;
                1.0 - (1.0 + water) * (-(1.2 + 3.0 * water).sqrt()).exp()
            }
            Self::Brunt => 0.52 + 0.065 * vapour.sqrt(),
        };
        emittance.clamp(0.0, 1.0)
    }
}

impl Clouds {
    /// Emittance of a sky of which clouds cover a share.
    pub fn over(self, clear: f64, cover: f64) -> f64 {
        let cover = cover.clamp(0.0, 1.0);
        match self {
            Self::Share(share) => clear + share * (1.0 - clear) * cover,
            Self::ClarkAllen => clear * clark_allen(10.0 * cover),
        }
        .clamp(0.0, 1.0)
    }
}

/// How many times a clear sky's the emittance is with so many tenths of opaque cover (Clark and Allen 1978; from memory).
pub fn clark_allen(tenths: f64) -> f64 {
    1.0 + 0.0224 * tenths - 0.0035 * tenths.powi(2) + 0.000_28 * tenths.powi(3)
}

impl Sky {
    /// Emittance of the sky.
    pub fn emittance(&self, air: &Air) -> f64 {
        self.clouds.over(self.clear.emittance(air), air.cloud)
    }

    /// What comes down on a level surface, W/m².
    pub fn down(&self, air: &Air) -> f64 {
        self.emittance(air) * black(air.temperature)
    }
}

/// The temperature of a black sky that sends so many W/m², °C.
pub fn temperature(down: f64) -> f64 {
    (down.max(0.0) / STEFAN_BOLTZMANN).powf(0.25) - FREEZING
}

/// What a tilted surface receives, W/m²: so much from the sky on the level, the rest from ground at a temperature in °C, which sends as a black body.
pub fn on(tilt: f64, down: f64, ground: f64) -> f64 {
    on_cosine(tilt.to_radians().cos(), down, ground)
}

/// The same by the cosine of the tilt.
pub fn on_cosine(cosine: f64, down: f64, ground: f64) -> f64 {
    let seen = f64::midpoint(1.0, cosine);
    seen * down + (1.0 - seen) * black(ground)
}

/// What a black body at a temperature in °C sends, W/m².
pub fn black(temperature: f64) -> f64 {
    STEFAN_BOLTZMANN * (temperature + FREEZING).max(0.0).powi(4)
}
