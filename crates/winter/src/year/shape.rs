//! Shapes of days: how temperature and sunshine go through them.

use std::f64::consts::{PI, TAU};

/// How far the temperature of each hour is from the day's mean, as a share of the day's range, hour 1 first (D. Erbs, S. Klein and W. Beckman 1983, in J. Duffie and
/// W. Beckman, Solar Engineering of Thermal Processes; from memory).
pub fn diurnal(hour: u8) -> f64 {
    let t = TAU * (f64::from(hour) - 1.0) / 24.0;
    0.4632 * (t - 3.805).cos()
        + 0.0984 * (2.0 * t - 0.360).cos()
        + 0.0168 * (3.0 * t - 0.822).cos()
        + 0.0138 * (4.0 * t - 3.513).cos()
}

/// The range of [`diurnal`].
pub(super) const DIURNAL_RANGE: f64 = 0.976;

/// Hour angle of sunset, rad: 0 where the sun does not rise, π where it does not set. Degrees.
pub fn sunset(latitude: f64, declination: f64) -> f64 {
    (-latitude.to_radians().tan() * declination.to_radians().tan()).clamp(-1.0, 1.0).acos()
}

/// What a day brings above the air on level ground, J/m² (Duffie and Beckman, equation 1.10.3; from memory); `solar` in W/m², degrees.
pub fn above_air(latitude: f64, declination: f64, day_of_year: u16, solar: f64) -> f64 {
    let set = sunset(latitude, declination);
    let (phi, delta) = (latitude.to_radians(), declination.to_radians());
    let near = 1.0 + 0.033 * (TAU * f64::from(day_of_year) / 365.0).cos();
    let day = phi.cos() * delta.cos() * set.sin() + set * phi.sin() * delta.sin();
    (86_400.0 * solar / PI * near * day).max(0.0)
}

/// Share of a day's global radiation in the hour around an hour angle; with that of sunset, rad (M. Collares-Pereira and A. Rabl, Solar Energy 22, 1979; from
/// memory). The shares of a day add up to about 0.99.
pub fn share_of_day(angle: f64, sunset: f64) -> f64 {
    if angle.abs() >= sunset {
        return 0.0;
    }
    let turned = (sunset - PI / 3.0).sin();
    let (a, b) = (0.409 + 0.5016 * turned, 0.6609 - 0.4767 * turned);
    let whole = sunset.sin() - sunset * sunset.cos();
    (PI / 24.0 * (a + b * angle.cos()) * (angle.cos() - sunset.cos()) / whole).max(0.0)
}

/// The most that comes down on level ground, W/m², where a beam meets it with a share: a twentieth more than under a clear sky (B. Haurwitz 1945; from memory).
pub(super) fn brightest(overhead: f64) -> f64 {
    if overhead > 0.0 { 1.05 * 1098.0 * overhead * (-0.059 / overhead).exp() } else { 0.0 }
}

/// The most that a day brings so, J/m²; degrees.
pub(super) fn brightest_day(latitude: f64, declination: f64) -> f64 {
    let (phi, delta) = (latitude.to_radians(), declination.to_radians());
    let overhead = |hour: u8| {
        let angle = (15.0 * (f64::from(hour) - 11.5)).to_radians();
        phi.sin() * delta.sin() + phi.cos() * delta.cos() * angle.cos()
    };
    (0..24).map(|hour| 3600.0 * brightest(overhead(hour))).sum()
}

/// What the noise of each step has to deviate by, so that a row in which each value keeps a share of the last deviates by so much.
pub fn noise(keeps: f64, deviation: f64) -> f64 {
    deviation * (1.0 - keeps * keeps).sqrt()
}

/// Share of normal numbers that are below one (M. Abramowitz and I. Stegun, 26.2.17, error below 7.5e-8; from memory).
pub(super) fn below(z: f64) -> f64 {
    let t = 1.0 / (1.0 + 0.231_641_9 * z.abs());
    let terms = [1.330_274_429, -1.821_255_978, 1.781_477_937, -0.356_563_782, 0.319_381_530];
    let tail = terms.into_iter().fold(0.0, |sum, term| (sum + term) * t) * (-z * z / 2.0).exp() / TAU.sqrt();
    if z > 0.0 { 1.0 - tail } else { tail }
}

/// By how much temperatures of days deviate, K, from their mean and the shares of days below some temperatures: the slope of the line through the origin in a
/// plot of a normal distribution. None where no share tells.
pub fn deviation(mean: f64, shares: &[(f64, f64)]) -> Option<f64> {
    // shares nearer to none or all than this are of a day or two in thirty years
    let told = shares.iter().filter(|(_, share)| (0.03..=0.97).contains(share));
    let [along, square] = told.fold([0.0; 2], |[along, square], (temperature, share)| {
        let z = above(*share);
        [along + z * (temperature - mean), square + z * z]
    });
    (square > 1e-3 && along > 0.0).then(|| along / square)
}

/// The number that a share of normal numbers is below.
pub fn above(share: f64) -> f64 {
    let mut range = [-8.0, 8.0];
    for _ in 0..60 {
        let middle = f64::midpoint(range[0], range[1]);
        range[usize::from(below(middle) > share)] = middle;
    }
    range[0]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Tables of the normal distribution.
    #[test]
    fn normal_numbers_below() {
        for (z, share) in [(0.0, 0.5), (1.0, 0.841_344_7), (-1.959_964, 0.025), (3.0, 0.998_650_1)] {
            assert!((below(z) - share).abs() < 1e-6, "{z}");
        }
    }

    /// Days about −10 °C that deviate by 8 K: their shares below some temperatures give that back.
    #[test]
    fn deviations_come_back_from_shares() {
        let shares = [-18.0, -12.0, -7.0, 0.0].map(|t: f64| (t, below((t + 10.0) / 8.0)));
        assert!((deviation(-10.0, &shares).unwrap() - 8.0).abs() < 1e-3);
        assert_eq!(deviation(-10.0, &[(-30.0, 0.0), (5.0, 1.0)]), None);
        assert_eq!(deviation(-10.0, &[]), None);
    }
}
