//! Air with vapor in it.
//!
//! # Sources
//! Saturation: Hyland and Wexler 1983, as ASHRAE Handbook Fundamentals 2017, chapter 1, equations 5 and 6 have it; the other relations: the same chapter.
//! Another, simpler form of saturation is that of ISO 13788:2012, annex E, which condensation in layers uses: within 0.15 % of it from -10 to 30 °C.

use crate::air::GAS_CONSTANT;

/// Molar mass of water over that of dry air.
const RATIO: f64 = 0.621_945;
/// Below this water is ice: the triple point, °C.
const TRIPLE_POINT: f64 = 0.01;
/// Specific heat of dry air and of vapor, J/(kg·K), and heat of evaporation at 0 °C, J/kg, of the enthalpy of this chapter.
const DRY: f64 = 1006.0;
const VAPOR: f64 = 1860.0;
const EVAPORATION: f64 = 2_501_000.0;
/// Temperatures between which saturation is known, °C.
const COLDEST: f64 = -100.0;
const HOTTEST: f64 = 200.0;

/// Pressure of vapor over ice or water at °C, Pa; from -100 to 200 °C, beyond which it is that of the end.
pub fn saturation(temperature: f64) -> f64 {
    if temperature > TRIPLE_POINT {
        return saturation_over_water(temperature);
    }
    let t = temperature.max(COLDEST) + 273.15;
    let log = -5.674_535_9e3 / t + 6.392_524_7 - 9.677_843e-3 * t
        + 6.221_570_1e-7 * t.powi(2)
        + 2.074_782_5e-9 * t.powi(3)
        - 9.484_024e-13 * t.powi(4)
        + 4.163_501_9 * t.ln();
    log.exp()
}

/// The same over water, though it freeze: what humidity is read against where a hygrometer or a weather station reports it.
pub fn saturation_over_water(temperature: f64) -> f64 {
    let t = temperature.clamp(COLDEST, HOTTEST) + 273.15;
    let log = -5.800_220_6e3 / t + 1.391_499_3 - 4.864_023_9e-2 * t + 4.176_476_8e-5 * t.powi(2)
        - 1.445_209_3e-8 * t.powi(3)
        + 6.545_967_3 * t.ln();
    log.exp()
}

/// The same as ISO 13788:2012 has it, Pa.
pub fn iso_saturation(temperature: f64) -> f64 {
    let [a, b] = iso_constants(temperature < 0.0);
    610.5 * (a * temperature / (b + temperature)).exp()
}

/// Temperature at which a pressure is that of saturation by ISO 13788:2012, °C.
pub fn iso_dew_point(pressure: f64) -> f64 {
    let log = (pressure / 610.5).ln();
    let [a, b] = iso_constants(log < 0.0);
    b * log / (a - log)
}

const fn iso_constants(is_frozen: bool) -> [f64; 2] {
    if is_frozen { [21.875, 265.5] } else { [17.269, 237.3] }
}

/// Air with vapor in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MoistAir {
    /// °C.
    pub temperature: f64,
    /// Vapor for each kg of dry air, kg.
    pub ratio: f64,
    /// Of the station, Pa.
    pub pressure: f64,
}

impl MoistAir {
    /// Of a relative humidity, 0 to 1.
    pub fn of_humidity(temperature: f64, humidity: f64, pressure: f64) -> Self {
        Self::of_vapor(temperature, humidity * saturation(temperature), pressure)
    }

    /// Of a pressure of vapor, Pa.
    pub fn of_vapor(temperature: f64, vapor: f64, pressure: f64) -> Self {
        Self { temperature, ratio: RATIO * vapor / (pressure - vapor), pressure }
    }

    /// Air that holds all it can.
    pub fn saturated(temperature: f64, pressure: f64) -> Self {
        Self::of_humidity(temperature, 1.0, pressure)
    }

    /// Pressure of its vapor, Pa.
    pub fn vapor(&self) -> f64 {
        self.pressure * self.ratio / (RATIO + self.ratio)
    }

    /// Relative humidity, 0 to 1: over ice where it freezes.
    pub fn humidity(&self) -> f64 {
        self.vapor() / saturation(self.temperature)
    }

    /// Temperature at which dew or frost begins, °C.
    pub fn dew_point(&self) -> f64 {
        let vapor = self.vapor();
        between(COLDEST, self.temperature, |t| saturation(t) - vapor)
    }

    /// Temperature of a wet cloth in its wind, °C. Close to freezing both water and ice satisfy its equation; one of both is given.
    pub fn wet_bulb(&self) -> f64 {
        between(self.dew_point().min(self.temperature), self.temperature, |wet| {
            let held = Self::saturated(wet, self.pressure).ratio;
            let dry = self.temperature;
            let ratio = if wet >= 0.0 {
                ((2501.0 - 2.326 * wet) * held - 1.006 * (dry - wet)) / (2501.0 + 1.86 * dry - 4.186 * wet)
            } else {
                ((2830.0 - 0.24 * wet) * held - 1.006 * (dry - wet)) / (2830.0 + 1.86 * dry - 2.1 * wet)
            };
            ratio - self.ratio
        })
    }

    /// Heat in it over dry air and water at 0 °C, J for each kg of dry air.
    pub fn enthalpy(&self) -> f64 {
        DRY * self.temperature + self.ratio * (EVAPORATION + VAPOR * self.temperature)
    }

    /// Room it takes, m³ for each kg of dry air.
    pub fn volume(&self) -> f64 {
        GAS_CONSTANT * (self.temperature + 273.15) * (1.0 + self.ratio / RATIO) / self.pressure
    }
}

/// Where a rising function passes nothing: halved until two numbers are next to each other.
pub(crate) fn between(mut low: f64, mut high: f64, rising: impl Fn(f64) -> f64) -> f64 {
    loop {
        let middle = f64::midpoint(low, high);
        if !(middle > low && middle < high) {
            return middle;
        }
        if rising(middle) < 0.0 { low = middle } else { high = middle }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        /// Saturation rises with temperature everywhere, and its inverses are that.
        #[test]
        fn saturation_rises(t in -99.0..199.0_f64, step in 1e-6..1.0_f64) {
            prop_assert!(saturation(t + step) > saturation(t));
            prop_assert!(iso_saturation(t + step) > iso_saturation(t));
            prop_assert!((iso_dew_point(iso_saturation(t)) - t).abs() < 1e-9);
        }

        /// Dew point, wet bulb and temperature come in that order and fall together in saturated air.
        #[test]
        fn dew_point_and_wet_bulb_lie_in_order(t in -50.0..50.0_f64, rh in 0.01..1.0_f64) {
            let air = MoistAir::of_humidity(t, rh, 95_000.0);
            let (dew, wet) = (air.dew_point(), air.wet_bulb());
            prop_assert!(dew <= wet + 1e-9 && wet <= t + 1e-9, "{dew} {wet} {t}");
            prop_assert!((air.humidity() - rh).abs() < 1e-12);
            let full = MoistAir::saturated(t, 95_000.0);
            prop_assert!((full.dew_point() - t).abs() < 1e-9);
        }
    }
}
