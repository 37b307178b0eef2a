//! Vapour in the air, as far as weather needs it.

/// Pressure of vapour over water, Pa, at °C; also below freezing, where stations give humidity and dew point over water (D. Sonntag 1990, the coefficients of the World
/// Meteorological Organization's guide; from memory). 0.3 % from −40 to 50 °C.
pub(crate) fn over_water(temperature: f64) -> f64 {
    611.2 * (17.62 * temperature / (243.12 + temperature)).exp()
}

/// The temperature at which air holds no more, °C, for a pressure of vapour in Pa above 0.
pub(crate) fn dew_point(pressure: f64) -> f64 {
    let log = (pressure / 611.2).ln();
    243.12 * log / (17.62 - log)
}

/// Dew point, °C, of air at a temperature with a share of the vapour it can hold (over water); a share of less than a hundredth counts as one.
pub(crate) fn dew_point_of(temperature: f64, humidity: f64) -> f64 {
    dew_point(over_water(temperature) * humidity.clamp(0.01, 1.0)).min(temperature)
}

/// Share of the vapour that air can hold over water, from 0 to 1.
pub(crate) fn humidity(temperature: f64, dew_point: f64) -> f64 {
    (over_water(dew_point) / over_water(temperature)).min(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dew_point_gives_back_the_vapour() {
        for t in [-40.0, -14.0, 0.0, 10.0, 30.0] {
            assert!((dew_point(over_water(t)) - t).abs() < 1e-9);
            assert!((humidity(t, dew_point_of(t, 0.4)) - 0.4).abs() < 1e-9);
        }
    }

    /// 2338.8 Pa at 20 °C (`PsychroLib` 2.5.0) within the 0.3 % this form is good for.
    #[test]
    fn pressure_is_that_of_steam_tables() {
        assert!((over_water(20.0) / 2338.8 - 1.0).abs() < 3e-3);
        assert!((over_water(0.0) / 611.154 - 1.0).abs() < 3e-3);
    }
}
