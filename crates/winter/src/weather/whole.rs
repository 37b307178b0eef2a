//! A year without holes, made of readings.

use crate::calendar::Date;
use crate::slope::Light;
use crate::vapour;

use super::fall::{self, Fallen, Seen, Totals};
use super::filled::{Filled, How, What};
use super::light::{self, Read};
use super::reading::{Reading, WeatherError};
use super::{HOURS, Hour, Site, Weather, gap};

/// Hours in a row that may be missing altogether.
const LONGEST_GAP: usize = 24;
/// Hours in a row over which a straight line is drawn.
const LONGEST_LINE: usize = 24;
/// Wind where none was read in a row of hours longer than that, m/s (assumed).
const WIND: f64 = 3.0;
/// Cover of clouds likewise (assumed).
const COVER: f64 = 0.6;
/// How far below the temperature the dew point is taken where no humidity was read, K: the air of a night that is near to dew (assumed).
const DRY: f64 = 3.0;

/// An hour of the year in words.
fn named(place: usize) -> String {
    let date = Date::of(2001, u16::try_from(place / 24 + 1).unwrap_or(1));
    format!("month {} day {} hour {}", date.month(), date.day(), place % 24 + 1)
}

impl Weather {
    /// A year of readings that begin with the first hour of January. Months come to `totals` of precipitation, where those are given; `filled` is
    /// what a reader has done already.
    ///
    /// # Errors
    /// A place that is none; hours out of order; more than 24 hours in a row missing; a temperature that is missing or impossible for longer.
    pub fn of(
        site: Site,
        readings: &[Reading],
        totals: Option<&Totals>,
        filled: Filled,
    ) -> Result<Self, WeatherError> {
        if let Some((field, value)) = site.fault() {
            return Err(WeatherError::Site { field, value });
        }
        let sound = |total: &f64| (0.0..=3000.0).contains(total);
        if let Some((month, total)) = totals.and_then(|t| t.iter().enumerate().find(|(_, t)| !sound(t))) {
            return Err(WeatherError::Total { month: month + 1, total: *total });
        }
        let mut filled = filled;
        let year = in_order(readings, &mut filled)?;
        let mut hours = air(&site, &year, &mut filled)?;
        shine(&site, &year, &mut hours, &mut filled);
        precipitation(&year, &mut hours, totals, &mut filled);
        Ok(Self { site, hours, filled })
    }
}

/// All hours of the year, those that are missing without any reading.
fn in_order(readings: &[Reading], filled: &mut Filled) -> Result<Vec<Reading>, WeatherError> {
    let mut year: Vec<Reading> = Vec::with_capacity(HOURS);
    for reading in readings {
        let line = reading.line;
        if !(1..=24).contains(&reading.hour) {
            return Err(WeatherError::Hour { line, hour: reading.hour });
        }
        if reading.date.is_leap_day() {
            filled.add(What::Hour, How::LeftOut);
            continue;
        }
        let place = reading.place();
        if place < year.len() {
            let before = year.last().map_or(0, Reading::place);
            return Err(WeatherError::Order { line, here: named(place), before: named(before) });
        }
        bridge_hours(&mut year, place, reading.date.year(), line, filled)?;
        year.push(*reading);
    }
    let last = year.last().map_or(2001, |reading| reading.date.year());
    bridge_hours(&mut year, HOURS, last, 0, filled)?;
    Ok(year)
}

fn bridge_hours(
    year: &mut Vec<Reading>,
    to: usize,
    of: i32,
    line: usize,
    filled: &mut Filled,
) -> Result<(), WeatherError> {
    let hours = to - year.len();
    if hours > LONGEST_GAP {
        return Err(WeatherError::Gap { line, from: named(year.len()), hours });
    }
    filled.add_many(What::Hour, How::Between, hours);
    for place in year.len()..to {
        let date = Date::of(of, u16::try_from(place / 24 + 1).unwrap_or(1));
        year.push(Reading::none(line, date, u8::try_from(place % 24 + 1).unwrap_or(1)));
    }
    Ok(())
}

/// A row of readings with what cannot be dropped and short holes bridged.
fn row(
    year: &[Reading],
    what: What,
    of: impl Fn(&Reading) -> Option<f64>,
    range: std::ops::RangeInclusive<f64>,
    filled: &mut Filled,
) -> Vec<Option<f64>> {
    let mut values: Vec<Option<f64>> = year.iter().map(&of).collect();
    for value in &mut values {
        if value.is_some_and(|value| !range.contains(&value)) {
            *value = None;
            filled.add(what, How::Dropped);
        }
    }
    let bridged = gap::bridge(&mut values, LONGEST_LINE);
    filled.add_many(what, How::Between, bridged.len());
    values
}

/// The hours with their air; light and precipitation still to come.
fn air(site: &Site, year: &[Reading], filled: &mut Filled) -> Result<Vec<Hour>, WeatherError> {
    let temperatures = row(year, What::Temperature, |r| r.temperature, -70.0..=60.0, filled);
    let (place, hours) = gap::longest(&temperatures);
    if hours > 0 {
        return Err(WeatherError::Void { what: What::Temperature, from: named(place), hours });
    }
    let temperatures: Vec<f64> = temperatures.into_iter().flatten().collect();
    let dew_points = dew_points(year, &temperatures, filled);
    let winds = row(year, What::Wind, |r| r.wind, 0.0..=80.0, filled);
    let clouds = row(year, What::Cloud, |r| r.cloud, 0.0..=1.0, filled);
    let pressures = row(year, What::Pressure, |r| r.pressure, 45_000.0..=110_000.0, filled);
    let mut or = |value: Option<f64>, what, how, other| {
        value.unwrap_or_else(|| {
            filled.add(what, how);
            other
        })
    };
    let hours = year.iter().enumerate().map(|(at, reading)| Hour {
        date: reading.date,
        hour: reading.hour,
        temperature: temperatures[at],
        dew_point: dew_points[at],
        pressure: or(pressures[at], What::Pressure, How::Derived, site.pressure()),
        wind: or(winds[at], What::Wind, How::Assumed, WIND),
        wind_from: reading.wind_from.filter(|from| (0.0..=360.0).contains(from)),
        cloud: or(clouds[at], What::Cloud, How::Assumed, COVER),
        light: Light::default(),
        sky: None,
        rain: 0.0,
        snow: 0.0,
        snow_depth: None,
    });
    Ok(hours.collect())
}

/// As read; else by humidity; else between neighbours; else a little below the temperature. Never above the temperature.
fn dew_points(year: &[Reading], temperatures: &[f64], filled: &mut Filled) -> Vec<f64> {
    let mut derived = 0;
    let mut dropped = 0;
    let mut values: Vec<Option<f64>> = year
        .iter()
        .zip(temperatures)
        .map(|(reading, temperature)| {
            let read = reading.dew_point.filter(|t| (-90.0..=40.0).contains(t));
            let humidity = reading.humidity.filter(|share| (0.01..=1.1).contains(share));
            dropped += usize::from(read.is_none() && reading.dew_point.is_some());
            dropped += usize::from(humidity.is_none() && reading.humidity.is_some());
            derived += usize::from(read.is_none() && humidity.is_some());
            read.or_else(|| humidity.map(|share| vapour::dew_point_of(*temperature, share)))
        })
        .collect();
    filled.add_many(What::DewPoint, How::Dropped, dropped);
    filled.add_many(What::DewPoint, How::Derived, derived);
    let bridged = gap::bridge(&mut values, LONGEST_LINE);
    filled.add_many(What::DewPoint, How::Between, bridged.len());
    let pairs = values.into_iter().zip(temperatures);
    pairs
        .map(|(value, temperature)| match value {
            Some(dew_point) if dew_point > *temperature => {
                filled.add(What::DewPoint, How::Corrected);
                *temperature
            }
            Some(dew_point) => dew_point,
            None => {
                filled.add(What::DewPoint, How::Assumed);
                temperature - DRY
            }
        })
        .collect()
}

/// Sun, sky and the depth of snow.
fn shine(site: &Site, year: &[Reading], hours: &mut [Hour], filled: &mut Filled) {
    for (reading, hour) in year.iter().zip(hours) {
        let read = Read { global: reading.global, beam: reading.beam, diffuse: reading.diffuse };
        let sun = || site.sun(hour.date, hour.middle());
        hour.light = light::of(read, hour.cloud, sun, filled);
        hour.sky = checked(reading.sky, 50.0..=700.0, What::Sky, filled);
        hour.snow_depth = checked(reading.snow_depth, 0.0..=15.0, What::SnowDepth, filled);
    }
}

fn checked(
    value: Option<f64>,
    range: std::ops::RangeInclusive<f64>,
    what: What,
    filled: &mut Filled,
) -> Option<f64> {
    let sound = value.filter(|value| range.contains(value));
    if value.is_some() && sound.is_none() {
        filled.add(what, How::Dropped);
    }
    sound
}

fn precipitation(year: &[Reading], hours: &mut [Hour], totals: Option<&Totals>, filled: &mut Filled) {
    let fallen: Vec<Option<Fallen>> = year.iter().map(|reading| reading.fallen).collect();
    let seen: Vec<Option<Seen>> = year.iter().map(|reading| reading.seen).collect();
    let read = fall::hourly(&fallen, &seen, filled);
    let mut amounts: Vec<f64> = read.iter().map(|amount| amount.unwrap_or(0.0)).collect();
    let missing = read.iter().filter(|amount| amount.is_none()).count();
    match totals {
        Some(totals) => fall::to_totals(&mut amounts, &seen, hours, totals, filled),
        None if missing == read.len() && seen.iter().any(Option::is_some) => {
            fall::as_seen(&mut amounts, &seen, filled);
        }
        None => filled.add_many(What::Precipitation, How::None, missing),
    }
    for ((hour, water), seen) in hours.iter_mut().zip(amounts).zip(seen) {
        [hour.rain, hour.snow] = fall::parted(water, seen, hour.temperature, filled);
    }
}
