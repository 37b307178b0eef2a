//! What moisture wood comes to in air.
//!
//! # Source
//! Wood Handbook (USDA FPL-GTR-190), chapter 4, equation 4-5, constants for °C (seen).
//!
//! # Valid range
//! -1 to 55 °C; colder air is taken as at the lower end. Wood that dries holds somewhat more than wood that wets; what is given lies between.

use book::{Book, LookupError, Share};

/// Moisture and humidity are found to this.
const CLOSE: f64 = 1e-12;
const COLDEST: f64 = -1.1;
const HOTTEST: f64 = 55.0;

/// Moisture wood comes to at a temperature, °C, and relative humidity, 0 to 1; share of its dry weight.
pub fn wood_moisture(temperature: f64, humidity: f64) -> f64 {
    let t = temperature.clamp(COLDEST, HOTTEST);
    let h = humidity.clamp(0.0, 1.0);
    let w = 349.0 + 1.29 * t + 0.0135 * t * t;
    let k = 0.805 + 0.000_736 * t - 0.000_002_73 * t * t;
    let k1 = 6.27 - 0.009_38 * t - 0.000_303 * t * t;
    let k2 = 1.91 + 0.0407 * t - 0.000_293 * t * t;
    let (kh, both) = (k * h, k1 * k2 * k * k * h * h);
    18.0 / w * (kh / (1.0 - kh) + (k1 * kh + 2.0 * both) / (1.0 + k1 * kh + both))
}

/// Relative humidity, 0 to 1, of the air over wood of a moisture, to a part in 10¹²: wetter than air can make it is 1. By the chord, halving the weight of an end
/// that stays (Illinois rule), since it is asked of every piece of wood in every hour.
pub fn humidity_over(temperature: f64, moisture: f64) -> f64 {
    let off = |humidity: f64| wood_moisture(temperature, humidity) - moisture;
    let (mut low, mut high) = ((0.0, off(0.0)), (1.0, off(1.0)));
    if low.1 >= 0.0 || high.1 <= 0.0 {
        return if low.1 >= 0.0 { 0.0 } else { 1.0 };
    }
    while high.0 - low.0 > CLOSE {
        let humidity = (low.0 * high.1 - high.0 * low.1) / (high.1 - low.1);
        let miss = off(humidity);
        if miss.abs() < CLOSE {
            return humidity;
        }
        if miss < 0.0 {
            low = (humidity, miss);
            high.1 *= 0.5;
        } else {
            high = (humidity, miss);
            low.1 *= 0.5;
        }
    }
    f64::midpoint(low.0, high.0)
}

/// How wood of a moisture stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum WoodState {
    /// No reason to worry.
    #[default]
    Dry,
    /// To be looked at again.
    Watch,
    /// Mold and worse are likely if it stays.
    AtRisk,
    /// It rots if it stays.
    Decays,
}

/// Moistures of wood past which it stands otherwise, shares of its dry weight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WoodLimits {
    watch: f64,
    risk: f64,
    decay: f64,
}

impl WoodLimits {
    /// Those of the books.
    ///
    /// # Errors
    /// A limit the books lack.
    pub fn of(book: &Book) -> Result<Self, LookupError> {
        let limit = |id| book.rule(id)?.get::<Share>().map(Share::of_one);
        Ok(Self { watch: limit("wood.watch")?, risk: limit("wood.risk")?, decay: limit("wood.decay")? })
    }

    /// How wood of a moisture stands.
    pub fn state(&self, moisture: f64) -> WoodState {
        match moisture {
            wet if wet >= self.decay => WoodState::Decays,
            wet if wet > self.risk => WoodState::AtRisk,
            wet if wet > self.watch => WoodState::Watch,
            _ => WoodState::Dry,
        }
    }
}
