//! Weather that tries a roof hard.

use rand::RngExt;
use rand::rngs::ChaCha8Rng;
use winter::season::Hour;

/// Fifty days of storms, thaws, gales and still hours, made of hours of an air, °C, and a wind, m/s; in two of five houses nobody heats.
pub(crate) fn storms(seed: u8, rng: &mut ChaCha8Rng, hour: impl Fn(f64, f64) -> Hour) -> Vec<Hour> {
    let most = if seed.is_multiple_of(3) { 10.0 } else { 2.0 };
    let mut random = || rng.random::<f64>();
    let mut mean = -3.0;
    let of = |_| {
        mean += 0.1 * (-3.0 - mean) + 3.0 * (random() - 0.5);
        let falls = if random() < 0.15 { 4.0 * random() } else { 0.0 };
        let share = winter::weather::snow_share(mean);
        let rooms = if seed % 5 < 2 { mean } else { 21.0 };
        let sun = if random() < 0.3 { 400.0 * random() } else { 0.0 };
        let falls = [falls * share, falls * (1.0 - share)];
        Hour { rooms, sun: vec![sun], snow: falls[0], rain: falls[1], ..hour(mean, most * random()) }
    };
    (0..1200).map(of).collect()
}
