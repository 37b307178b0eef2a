//! Radiation of the sun where not all of it was read.

use crate::slope::Light;
use crate::sun::Sun;

use super::filled::{Filled, How, What};

/// More than comes above the air on a surface that faces the sun, W/m².
const MOST: f64 = 1500.0;
/// So much at night cannot be, W/m².
const NIGHT: f64 = 20.0;
/// The sun this far under the horizon at the middle of an hour is under it the whole hour at any latitude, °.
const DARK: f64 = 106.0;
/// A sun lower than this does not tell beam by its height, °.
const LOW: f64 = 87.0;

/// What of radiation was read in an hour, W/m².
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Read {
    pub(super) global: Option<f64>,
    pub(super) beam: Option<f64>,
    pub(super) diffuse: Option<f64>,
}

/// Global radiation under a clear sky, W/m² (F. Kasten and G. Czeplak, Solar Energy 24, 1980; from memory).
pub fn clear_sky(sun: &Sun) -> f64 {
    (910.0 * sun.overhead() - 30.0).max(0.0)
}

/// Under clouds that cover a share of the sky (as above).
fn under(cloud: f64, sun: &Sun) -> f64 {
    clear_sky(sun) * (1.0 - 0.75 * cloud.powf(3.4))
}

/// The light of an hour, from what was read of it and the clouds.
pub(super) fn of(read: Read, cloud: f64, sun: impl FnOnce() -> Sun, filled: &mut Filled) -> Light {
    let is_night = |value: f64| (0.0..=NIGHT).contains(&value);
    if let Read { global: Some(global), beam: Some(beam), diffuse: Some(diffuse) } = read
        && [global, beam, diffuse].into_iter().all(is_night)
    {
        // where the sun stands does not matter then, and takes its time to find
        return Light { global, beam, diffuse };
    }
    let sun = &sun();
    let dark = sun.zenith > DARK;
    let can_be = |value: &f64| (0.0..=MOST).contains(value) && !(dark && *value > NIGHT);
    let mut take = |value: Option<f64>| {
        let sound = value.filter(can_be);
        if value.is_some() && sound.is_none() {
            filled.add(What::Light, How::Dropped);
        }
        sound
    };
    let [global, beam, diffuse] = [read.global, read.beam, read.diffuse].map(&mut take);
    let up = sun.overhead();
    let light = match (global, beam, diffuse) {
        (Some(global), Some(beam), Some(diffuse)) => return Light { global, beam, diffuse },
        (None, Some(beam), Some(diffuse)) => Light { global: beam * up + diffuse, beam, diffuse },
        (Some(global), Some(beam), None) => Light { global, beam, diffuse: (global - beam * up).max(0.0) },
        (Some(global), None, Some(diffuse)) if sun.zenith < LOW => {
            Light { global, beam: ((global - diffuse).max(0.0) / up).min(sun.above_air()), diffuse }
        }
        (Some(global), None, _) => Light::of_global(global, sun),
        (None, ..) => {
            // by clouds: at night there is nothing to assume
            if sun.zenith < 90.0 {
                filled.add(What::Light, How::Assumed);
            }
            return Light::of_global(under(cloud, sun), sun);
        }
    };
    filled.add(What::Light, How::Derived);
    light
}
