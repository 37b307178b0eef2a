//! Where the sun stands, and what it sends.
//!
//! # Method
//! The Solar Position Algorithm of I. Reda and A. Andreas (NREL/TP-560-34302), whole: Earth's place from periodic terms, nutation, aberration, parallax of the
//! place. Its authors give 0.0003° for the years −2000 to 6000.
//!
//! # Checks
//! outside: the worked example of the report, and pvlib 0.16.1 at places of both hemispheres (`tests/sun.rs`) · property: the sun of the other hemisphere
//! half a year later

mod terms;

use std::f64::consts::PI;

use crate::calendar::Date;
use terms::{DISTANCE, LATITUDE, LONGITUDE, NUTATION};

/// Radiation of the sun above the air at one astronomical unit, W/m² (mean of the measurements used by ASTM E490 and solar engineering; from memory).
pub const SOLAR_CONSTANT: f64 = 1366.1;
/// Noon of 1 January 2000, from which the terms count.
const EPOCH: f64 = 2_451_545.0;
/// How far clocks of the planets are ahead of clocks of the day, s: about 61 in 1995, 69 in 2020. Ten seconds move the sun by 0.0001°.
const LAG: f64 = 69.0;
/// Half the sun and the refraction at the horizon: below this nothing of it is seen, °.
const SET: f64 = 0.26667 + 0.5667;

/// A moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// Julian day of universal time.
    julian: f64,
    /// How far clocks of the planets are ahead, s.
    lag: f64,
}

impl Moment {
    /// Hours after midnight of a day, in a zone so many hours ahead of universal time.
    pub fn local(date: Date, hours: f64, zone: f64) -> Self {
        Self { julian: f64::from(date.julian_day()) - 0.5 + (hours - zone) / 24.0, lag: LAG }
    }

    /// The same with another lag of day clocks behind planets, s.
    #[must_use]
    pub fn lagging(self, lag: f64) -> Self {
        Self { lag, ..self }
    }

    /// Julian day of universal time.
    pub fn julian_day(self) -> f64 {
        self.julian
    }
}

/// Where the sun stands, seen from a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sun {
    /// Angle from straight up without refraction, °.
    pub zenith: f64,
    /// Clockwise from north, °, 0 to 360.
    pub azimuth: f64,
    /// North of the equator, °.
    pub declination: f64,
    /// Past the meridian, °, −180 to 180.
    pub hour_angle: f64,
    /// Distance, astronomical units.
    pub distance: f64,
}

impl Sun {
    /// The sun at a moment, seen from a place: degrees north and east, metres above the sea.
    pub fn at(moment: Moment, latitude: f64, longitude: f64, height: f64) -> Self {
        let [ascension, declination, distance, sidereal] = geocentric(moment);
        let hour = (sidereal + longitude - ascension).to_radians();
        let phi = latitude.to_radians();
        // parallax: the place is not the middle of the Earth
        let parallax = (8.794 / 3600.0 / distance).to_radians().sin();
        let u = (0.996_647_19 * phi.tan()).atan();
        let x = u.cos() + height / 6_378_140.0 * phi.cos();
        let y = 0.996_647_19 * u.sin() + height / 6_378_140.0 * phi.sin();
        let below = declination.cos() - x * parallax * hour.cos();
        let shift = (-x * parallax * hour.sin()).atan2(below);
        let declination = ((declination.sin() - y * parallax) * shift.cos()).atan2(below);
        let hour = hour - shift;
        let up = phi.sin() * declination.sin() + phi.cos() * declination.cos() * hour.cos();
        let west = hour.sin().atan2(hour.cos() * phi.sin() - declination.tan() * phi.cos());
        Self {
            zenith: 90.0 - up.clamp(-1.0, 1.0).asin().to_degrees(),
            azimuth: (west.to_degrees() + 180.0).rem_euclid(360.0),
            declination: declination.to_degrees(),
            hour_angle: (hour.to_degrees() + 180.0).rem_euclid(360.0) - 180.0,
            distance,
        }
    }

    /// Zenith with refraction of air at Pa and °C, °.
    pub fn apparent_zenith(&self, pressure: f64, temperature: f64) -> f64 {
        let height = 90.0 - self.zenith;
        if height < -SET {
            return self.zenith;
        }
        let bend = (height + 10.3 / (height + 5.11)).to_radians().tan();
        self.zenith - pressure / 101_000.0 * 283.0 / (273.0 + temperature) * 1.02 / (60.0 * bend)
    }

    /// The same sun where it seems to stand through air at Pa and °C.
    #[must_use]
    pub fn refracted(&self, pressure: f64, temperature: f64) -> Self {
        Self { zenith: self.apparent_zenith(pressure, temperature), ..*self }
    }

    /// What it sends above the air on a surface that faces it, W/m².
    pub fn above_air(&self) -> f64 {
        SOLAR_CONSTANT / self.distance.powi(2)
    }

    /// What share of a beam a level surface receives: the cosine of the zenith, 0 below the horizon.
    pub fn overhead(&self) -> f64 {
        self.zenith.to_radians().cos().max(0.0)
    }

    /// Towards it: east, north, up.
    pub fn direction(&self) -> [f64; 3] {
        let (zenith, azimuth) = (self.zenith.to_radians(), self.azimuth.to_radians());
        [zenith.sin() * azimuth.sin(), zenith.sin() * azimuth.cos(), zenith.cos()]
    }
}

/// How many times the air straight overhead a beam crosses, for an apparent zenith in °; that at the horizon for what is below it (F. Kasten and A. Young,
/// Applied Optics 28, 1989; from memory).
pub fn air_mass(zenith: f64) -> f64 {
    let zenith = zenith.clamp(0.0, 90.0);
    1.0 / (zenith.to_radians().cos() + 0.505_72 * (96.079_95 - zenith).powf(-1.6364))
}

/// Declination by P. Cooper (Solar Energy 12, 1969), °, for a day of the year: for shares of a day's sun, where a degree does not count.
pub fn declination_of(day_of_year: u16) -> f64 {
    23.45 * (2.0 * PI * (284.0 + f64::from(day_of_year)) / 365.0).sin()
}

/// Right ascension (°), declination (rad), distance and apparent sidereal time at Greenwich (°).
fn geocentric(moment: Moment) -> [f64; 4] {
    let century = (moment.julian + moment.lag / 86_400.0 - EPOCH) / 36_525.0;
    let millennium = century / 10.0;
    let distance = series(&DISTANCE, millennium);
    let [nutation, tilting] = nutation(century);
    let tilt = (obliquity(millennium / 10.0) / 3600.0 + tilting).to_radians();
    let aberration = -20.4898 / (3600.0 * distance);
    let seen = series(&LONGITUDE, millennium) + PI + (nutation + aberration).to_radians();
    let off = -series(&LATITUDE, millennium);
    let ascension = (seen.sin() * tilt.cos() - off.tan() * tilt.sin()).atan2(seen.cos());
    let declination = (off.sin() * tilt.cos() + off.cos() * tilt.sin() * seen.sin()).asin();
    let days = moment.julian - EPOCH;
    let since = days / 36_525.0;
    let mean = 280.460_618_37 + 360.985_647_366_29 * days + 0.000_387_933 * since.powi(2)
        - since.powi(3) / 38_710_000.0;
    [ascension.to_degrees(), declination, distance, mean + nutation * tilt.cos()]
}

fn series(powers: &[&[[f64; 3]]], t: f64) -> f64 {
    let sum = |terms: &[[f64; 3]]| terms.iter().map(|[a, b, c]| a * (b + c * t).cos()).sum::<f64>();
    powers.iter().rev().fold(0.0, |all, terms| all * t + sum(terms)) / 1e8
}

/// What is added to longitude and to obliquity, °.
fn nutation(t: f64) -> [f64; 2] {
    let cubic = |[a, b, c, d]: [f64; 4]| a + b * t + c * t.powi(2) + t.powi(3) / d;
    let angles = [
        [297.850_36, 445_267.111_480, -0.001_914_2, 189_474.0],
        [357.527_72, 35_999.050_340, -0.000_160_3, -300_000.0],
        [134.962_98, 477_198.867_398, 0.008_697_2, 56_250.0],
        [93.271_91, 483_202.017_538, -0.003_682_5, 327_270.0],
        [125.044_52, -1_934.136_261, 0.002_070_8, 450_000.0],
    ]
    .map(cubic);
    NUTATION.iter().fold([0.0; 2], |[longitude, tilt], (times, [a, b, c, d])| {
        let argument = times.iter().zip(angles).map(|(n, angle)| n * angle).sum::<f64>().to_radians();
        let unit = 36_000_000.0;
        [longitude + (a + b * t) * argument.sin() / unit, tilt + (c + d * t) * argument.cos() / unit]
    })
}

/// Mean obliquity of the ecliptic, seconds of arc; `u` in ten thousand years.
fn obliquity(u: f64) -> f64 {
    [2.45, 5.79, 27.87, 7.12, -39.05, -249.67, -51.38, 1999.25, -1.55, -4680.93, 84_381.448]
        .into_iter()
        .fold(0.0, |all, term| all * u + term)
}
