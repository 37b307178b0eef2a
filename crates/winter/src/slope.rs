//! Sun on a plane that is tilted.
//!
//! # Method
//! The beam by its incidence; the ground by its albedo and the share of it that is seen; the sky either evenly bright or by R. Perez and others (Solar Energy 44,
//! 1990), who take apart what comes from around the sun and from the horizon. How global radiation parts into beam and diffuse, where nothing was
//! measured, by D. Erbs and others (Solar Energy 28, 1982).
//!
//! # Checks
//! outside: pvlib 0.16.1 on two planes, Erbs's points (`tests/slope.rs`) · property: a level plane receives what is level

use crate::sun::{Sun, air_mass};

/// A sun so low makes more of a beam than there is: from here on 85° is taken where something is divided by its height (Perez and others 1990).
const LOW: f64 = 85.0;

/// A plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plane {
    /// From the level, °.
    pub tilt: f64,
    /// Which way it looks, clockwise from north, °.
    pub azimuth: f64,
}

/// What the sun sends, W/m².
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Light {
    /// On level ground, all.
    pub global: f64,
    /// On a surface that faces the sun, from it alone.
    pub beam: f64,
    /// On level ground, from the sky.
    pub diffuse: f64,
}

/// How bright the sky is where.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Diffuse {
    /// Brighter around the sun and along the horizon.
    #[default]
    Perez,
    /// The same all over.
    Even,
}

/// What a plane receives, W/m².
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Received {
    /// From the sun.
    pub beam: f64,
    /// From the sky.
    pub sky: f64,
    /// From the ground.
    pub ground: f64,
}

/// What a sky with the sun in it is like for [`Diffuse`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bright {
    /// What the sun sends above the air, W/m².
    pub above_air: f64,
    /// How many times the air overhead its beam crosses.
    pub air_mass: f64,
}

impl Bright {
    /// For a sun seen through air at Pa and °C.
    pub fn of(sun: &Sun, pressure: f64, temperature: f64) -> Self {
        Self { above_air: sun.above_air(), air_mass: air_mass(sun.apparent_zenith(pressure, temperature)) }
    }
}

impl Received {
    /// All of it.
    pub fn total(&self) -> f64 {
        self.beam + self.sky + self.ground
    }
}

impl Plane {
    /// Cosine of the angle between the sun and straight out of the plane; below 0 when the sun is behind it.
    pub fn incidence(&self, sun: &Sun) -> f64 {
        let (tilt, turn) = (self.tilt.to_radians(), (sun.azimuth - self.azimuth).to_radians());
        let zenith = sun.zenith.to_radians();
        (zenith.cos() * tilt.cos() + zenith.sin() * tilt.sin() * turn.cos()).clamp(-1.0, 1.0)
    }

    /// What it receives over ground of an albedo.
    pub fn receives(
        &self,
        sun: &Sun,
        light: Light,
        albedo: f64,
        bright: Bright,
        diffuse: Diffuse,
    ) -> Received {
        let tilt = self.tilt.to_radians().cos();
        let incidence = self.incidence(sun).max(0.0);
        // a sun under the horizon sends nothing, however the plane leans
        let beam = if sun.zenith < 90.0 { light.beam * incidence } else { 0.0 };
        let sky = match diffuse {
            Diffuse::Even => light.diffuse * f64::midpoint(1.0, tilt),
            Diffuse::Perez => self.sky(sun, light, bright),
        };
        Received { beam, sky, ground: light.global * albedo * (1.0 - tilt) / 2.0 }
    }

    /// From a sky that is not evenly bright (Perez and others 1990, equation 9).
    fn sky(&self, sun: &Sun, light: Light, bright: Bright) -> f64 {
        if light.diffuse <= 0.0 {
            return 0.0;
        }
        let tilt = self.tilt.to_radians();
        let zenith = sun.zenith.min(90.0).to_radians();
        let [around, along] = brightness(zenith, light, bright);
        let near = self.incidence(sun).max(0.0) / sun.zenith.to_radians().cos().max(LOW.to_radians().cos());
        let even = (1.0 - around) * f64::midpoint(1.0, tilt.cos());
        (light.diffuse * (even + around * near + along * tilt.sin())).max(0.0)
    }
}

/// How much of the diffuse light comes from around the sun and from the horizon, shares.
fn brightness(zenith: f64, light: Light, bright: Bright) -> [f64; 2] {
    let cubed = 1.041 * zenith.powi(3);
    let clearness = ((light.diffuse + light.beam) / light.diffuse + cubed) / (1.0 + cubed);
    let row = PEREZ.iter().rev().find(|(from, _)| clearness >= *from).unwrap_or(&PEREZ[0]).1;
    let brightness = light.diffuse * bright.air_mass / bright.above_air;
    let of = |f: &[f64]| f[0] + f[1] * brightness + f[2] * zenith;
    [of(&row[..3]).max(0.0), of(&row[3..])]
}

/// Clearness from which on, and the coefficients F11, F12, F13, F21, F22, F23: all sites of Perez and others 1990 (seen in an open solar library).
const PEREZ: [(f64, [f64; 6]); 8] = [
    (1.0, [-0.008, 0.588, -0.062, -0.060, 0.072, -0.022]),
    (1.065, [0.130, 0.683, -0.151, -0.019, 0.066, -0.029]),
    (1.23, [0.330, 0.487, -0.221, 0.055, -0.064, -0.026]),
    (1.5, [0.568, 0.187, -0.295, 0.109, -0.152, -0.014]),
    (1.95, [0.873, -0.392, -0.362, 0.226, -0.462, 0.001]),
    (2.8, [1.132, -1.237, -0.412, 0.288, -0.823, 0.056]),
    (4.5, [1.060, -1.600, -0.359, 0.264, -1.127, 0.131]),
    (6.2, [0.678, -0.327, -0.250, 0.156, -1.377, 0.251]),
];

/// Share of global radiation that is diffuse, by the share of that above the air that comes down (Erbs and others 1982; the coefficients seen rounded in the
/// documentation of an open snow model, their last digits from memory).
pub fn diffuse_share(clearness: f64) -> f64 {
    let k = clearness.max(0.0);
    if k <= 0.22 {
        1.0 - 0.09 * k
    } else if k <= 0.80 {
        0.9511 - 0.1604 * k + 4.388 * k.powi(2) - 16.638 * k.powi(3) + 12.336 * k.powi(4)
    } else {
        0.165
    }
}

impl Light {
    /// Global radiation parted into beam and diffuse, for an hour with the sun where it is at the middle of it. A beam is never more than is sent above the air; where the sun is
    /// under 85° or lower all is diffuse.
    pub fn of_global(global: f64, sun: &Sun) -> Self {
        let global = global.max(0.0);
        let level = sun.above_air() * sun.overhead();
        if sun.zenith >= LOW {
            return Self { global, beam: 0.0, diffuse: global };
        }
        let diffuse = global * diffuse_share(global / level);
        let beam = ((global - diffuse) / sun.overhead()).min(sun.above_air());
        Self { global, beam, diffuse: global - beam * sun.overhead() }
    }
}
