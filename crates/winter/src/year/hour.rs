//! The hours of a year out of its days.

use crate::calendar::Date;
use crate::slope::Light;
use crate::sun::declination_of;
use crate::vapour;
use crate::weather::{Hour, snow_share};

use super::day::{self, Day};
use super::random::Random;
use super::shape::{DIURNAL_RANGE, below, brightest, diurnal, noise, share_of_day, sunset};
use super::{NEW_SNOW, Normals};

/// The calendar year of a year that never was; without a leap day.
const YEAR: i32 = 2001;
/// Hours to either side over which one day's mean goes over into the next.
const BLEND: usize = 3;
/// How long what falls on a wet day takes, hours.
const SHOWER: std::ops::RangeInclusive<usize> = 6..=10;
/// How much of an hour's wind the next keeps (its rank, as a normal number).
const WIND_KEEPS: f64 = 0.85;
/// Mean wind where it is not given, m/s (assumed).
const WIND: f64 = 3.0;
/// Mean of a Weibull distribution with shape 2 and scale 1: Γ(3/2).
const WEIBULL: f64 = 0.886_226_925;
/// Air in which it rains or snows holds at least this share of vapour (assumed).
const WET_AIR: f64 = 0.9;
/// How much of a warm day's departure its dew point follows.
const FOLLOWS: f64 = 0.6;
/// Farthest that the line between snow and rain is moved to come to a month's snowfall, K.
const FARTHEST: f64 = 2.0;

pub(super) fn of(normals: &Normals, days: &[Day], random: &mut Random) -> Vec<Hour> {
    let temperatures = temperatures(normals, days);
    let winds = winds(normals, temperatures.len(), random);
    let falls = falls(days, random);
    let mut hours = Vec::with_capacity(temperatures.len());
    for (at, day) in days.iter().enumerate() {
        let date = Date::of(YEAR, u16::try_from(at + 1).unwrap_or(day::DAYS));
        let here = at * 24..at * 24 + 24;
        let lowest = temperatures[here.clone()].iter().copied().fold(f64::INFINITY, f64::min);
        let dew = dew_point(normals, at, day, lowest, random);
        let lights = lights(normals, at, date, day);
        for ((place, light), hour) in here.zip(lights).zip(1..) {
            let temperature = temperatures[place];
            let wet = vapour::dew_point_of(temperature, WET_AIR);
            let dew = if falls[place] > 0.0 { dew.max(wet) } else { dew };
            hours.push(Hour {
                date,
                hour,
                temperature,
                dew_point: dew.min(temperature),
                pressure: normals.site.pressure(),
                wind: winds[place],
                wind_from: None,
                cloud: ((0.75 - day.clearness) / 0.55).clamp(0.0, 1.0),
                light,
                sky: None,
                rain: falls[place],
                snow: 0.0,
                snow_depth: None,
            });
        }
    }
    for month in 0..12 {
        let days = day::of_month(month);
        part(&mut hours[days.start * 24..days.end * 24], normals.months[month].snowfall);
    }
    hours
}

/// Means of days, blended at midnight, and the day's shape about them; months moved to their means.
fn temperatures(normals: &Normals, days: &[Day]) -> Vec<f64> {
    let count = days.len() * 24;
    let blended = |at: usize, of: fn(&Day) -> f64| {
        let around = (0..=2 * BLEND).map(|k| of(&days[(at + count + k - BLEND) % count / 24]));
        around.sum::<f64>() / (2 * BLEND + 1) as f64
    };
    let mut values: Vec<f64> = (0..count)
        .map(|at| {
            let hour = u8::try_from(at % 24 + 1).unwrap_or(1);
            blended(at, |day| day.mean) + blended(at, |day| day.range) / DIURNAL_RANGE * diurnal(hour)
        })
        .collect();
    for (month, normal) in normals.months.iter().enumerate() {
        let days = day::of_month(month);
        let here = &mut values[days.start * 24..days.end * 24];
        let off = normal.mean - here.iter().sum::<f64>() / here.len() as f64;
        for t in here.iter_mut() {
            *t += off;
        }
    }
    values
}

/// Speeds by their rank in a Weibull distribution, months brought to their means.
fn winds(normals: &Normals, count: usize, random: &mut Random) -> Vec<f64> {
    let mut rank = random.normal();
    let mut speeds: Vec<f64> = (0..count)
        .map(|_| {
            rank = WIND_KEEPS * rank + random.normal() * noise(WIND_KEEPS, 1.0);
            (-(1.0 - below(rank)).max(1e-9).ln()).max(0.0).sqrt() / WEIBULL
        })
        .collect();
    for (month, normal) in normals.months.iter().enumerate() {
        let days = day::of_month(month);
        let here = &mut speeds[days.start * 24..days.end * 24];
        let mean = here.iter().sum::<f64>() / here.len() as f64;
        for speed in here.iter_mut() {
            *speed *= normal.wind.unwrap_or(WIND) / mean;
        }
    }
    speeds
}

/// What falls on a day, evenly over some hours of it, kg/m².
fn falls(days: &[Day], random: &mut Random) -> Vec<f64> {
    let mut hours = vec![0.0; days.len() * 24];
    for (at, day) in days.iter().enumerate().filter(|(_, day)| day.water > 0.0) {
        let long = SHOWER.start() + random.below(SHOWER.count());
        let from = at * 24 + random.below(25 - long);
        hours[from..from + long].iter_mut().for_each(|water| *water = day.water / long as f64);
    }
    hours
}

fn dew_point(normals: &Normals, at: usize, day: &Day, lowest: f64, random: &mut Random) -> f64 {
    let of_night = lowest - 2.0 * random.even();
    let normal = normals.months[day::month(at)].dew_point;
    normal.map_or(of_night, |normal| of_night.min(normal + FOLLOWS * day.warmer))
}

/// The sun of each hour: its share of what the day lets through.
fn lights(normals: &Normals, at: usize, date: Date, day: &Day) -> [Light; 24] {
    let latitude = normals.site.latitude;
    let set = sunset(latitude, declination_of(date.of_year()));
    let suns: [_; 24] = std::array::from_fn(|hour| normals.site.sun(date, hour as f64 + 0.5));
    let shares = suns.map(|sun| share_of_day(sun.hour_angle.to_radians(), set));
    let whole: f64 = shares.iter().sum();
    let sum = if whole > 0.0 { day.clearness * day::above(latitude, at) / 3600.0 } else { 0.0 };
    let most = suns.map(|sun| brightest(sun.overhead()));
    // what is more than a clear sky lets through at noon goes to the other hours
    let under = |times: f64, hour: usize| (times * sum * shares[hour] / whole.max(1e-9)).min(most[hour]);
    let mut range = [1.0, 3.0];
    for _ in 0..40 {
        let middle = f64::midpoint(range[0], range[1]);
        range[usize::from((0..24).map(|hour| under(middle, hour)).sum::<f64>() > sum)] = middle;
    }
    std::array::from_fn(|hour| Light::of_global(under(range[0], hour), &suns[hour]))
}

/// Parts what falls in a month into rain and snow. The line between them is moved so far that the month comes to its depth of new snow.
fn part(hours: &mut [Hour], snowfall: Option<f64>) {
    let snow =
        |shift: f64| hours.iter().map(|hour| hour.rain * snow_share(hour.temperature - shift)).sum::<f64>();
    let mut range = [-FARTHEST, FARTHEST];
    let shift = match snowfall {
        None => 0.0,
        Some(depth) => {
            for _ in 0..40 {
                let middle = f64::midpoint(range[0], range[1]);
                range[usize::from(snow(middle) > depth * NEW_SNOW)] = middle;
            }
            range[0]
        }
    };
    for hour in hours {
        hour.snow = hour.rain * snow_share(hour.temperature - shift);
        hour.rain -= hour.snow;
    }
}
