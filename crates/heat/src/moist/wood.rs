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

/// Constants of the equation at a temperature, °C.
struct Sorption {
    /// Moisture is so much times the sum of its two parts.
    by: f64,
    k: f64,
    k1: f64,
    /// k1·k2.
    both: f64,
}

impl Sorption {
    fn at(temperature: f64) -> Self {
        let t = temperature.clamp(COLDEST, HOTTEST);
        let k1 = 6.27 - 0.009_38 * t - 0.000_303 * t * t;
        Self {
            by: 18.0 / (349.0 + 1.29 * t + 0.0135 * t * t),
            k: 0.805 + 0.000_736 * t - 0.000_002_73 * t * t,
            k1,
            both: k1 * (1.91 + 0.0407 * t - 0.000_293 * t * t),
        }
    }
}

/// Moisture wood comes to at a temperature, °C, and relative humidity, 0 to 1; share of its dry weight.
pub fn wood_moisture(temperature: f64, humidity: f64) -> f64 {
    let Sorption { by, k, k1, both } = Sorption::at(temperature);
    let kh = k * humidity.clamp(0.0, 1.0);
    let of_both = both * kh * kh;
    by * (kh / (1.0 - kh) + (k1 * kh + 2.0 * of_both) / (1.0 + k1 * kh + of_both))
}

/// Relative humidity, 0 to 1, of the air over wood of a moisture, to a part in 10¹²: wetter than air can make it is 1. With its fractions cleared the equation is a
/// cubic, which falls between its ends: Newton's method, halving where that leads out of them.
pub fn humidity_over(temperature: f64, moisture: f64) -> f64 {
    let Sorption { by, k, k1, both } = Sorption::at(temperature);
    let sum = moisture / by;
    let [cubed, squared, plain] =
        [both * (1.0 - sum), sum * (both - k1) - 2.0 * both, sum * (k1 - 1.0) - (1.0 + k1)];
    let value = |x: f64| ((cubed * x + squared) * x + plain) * x + sum;
    if sum <= 0.0 {
        return 0.0;
    }
    if value(k) >= 0.0 {
        return 1.0;
    }
    let (mut low, mut high, mut x) = (0.0, k, 0.5 * k);
    while high - low > CLOSE {
        let miss = value(x);
        if miss > 0.0 {
            low = x;
        } else {
            high = x;
        }
        let led = x - miss / ((3.0 * cubed * x + 2.0 * squared) * x + plain);
        let next = if led > low && led < high { led } else { f64::midpoint(low, high) };
        if (next - x).abs() < CLOSE {
            return next / k;
        }
        x = next;
    }
    x / k
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
