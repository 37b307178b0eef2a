//! The model of the two measured attics: what is known of each house, its hours, and what the season makes of them.
#![allow(
    dead_code,
    unreachable_pub,
    clippy::print_stdout,
    reason = "each user takes its own part; how measured attics were met is to be read"
)]

use std::path::PathBuf;

use heat::moist::saturation_over_water;
use winter::calendar::Date;
use winter::column::Base;
use winter::season::{Aspect, Attic, Below, Hour, House, Season, Steady, Strip, Through};
use winter::sky::{Air, Sky};
use winter::slope::{Bright, Diffuse, Light, Plane};
use winter::snow::Law;
use winter::sun::{Moment, Sun};
use winter::surface::{self, Turbulence};
use winter::weather::snow_share;

/// A house by its drawings; for a square metre of ceiling.
pub struct Built {
    pub file: &'static str,
    pub latitude: f64,
    pub longitude: f64,
    /// Insulation with its films, m²·K/W.
    pub ceiling: f64,
    /// Height of the attic, m.
    pub high: f64,
    pub tilt: f64,
    /// Roof covering with what lies under it: heat J/(m²·K), resistance m²·K/W, share of the sun it takes.
    pub roof: [f64; 3],
}

/// 0.20 m of blown mineral wool at 0.045 W/(m·K), tiles over an underlay with an air gap.
pub const TAMPERE: Built = Built {
    file: "attic-r4-tampere.csv",
    latitude: 61.5,
    longitude: 23.8,
    ceiling: 0.20 / 0.045 + 0.2,
    high: 0.7,
    tilt: 14.0,
    roof: [40_000.0, 0.2, 0.8],
};

/// 0.5 m of blown cellulose at 0.041 W/(m·K), sheet metal over an underlay with an air gap.
pub const VALKEAKOSKI: Built = Built {
    file: "attic-r6-valkeakoski.csv",
    latitude: 61.3,
    longitude: 24.0,
    ceiling: 0.5 / 0.041 + 0.2,
    high: 1.5,
    tilt: 22.0,
    roof: [8_000.0, 0.2, 0.8],
};

/// Trusses and the upper part of the insulation: 10 kg of wood on a square metre.
const WOOD: f64 = 16_000.0;
/// Cover of clouds, of which nothing was recorded: a Finnish winter is mostly overcast (an assumption).
const CLOUD: f64 = 0.7;
const PRESSURE: f64 = 100_000.0;

pub struct Row {
    pub month: u8,
    pub year: i32,
    pub hour: Hour,
    pub measured: Option<f64>,
}

pub fn rows(built: &Built) -> Option<Vec<Row>> {
    let Some(folder) = std::env::var_os("WEATHERSHED_DATA") else {
        println!("skipped: WEATHERSHED_DATA names no folder with {}", built.file);
        return None;
    };
    let text = std::fs::read_to_string(PathBuf::from(folder).join(built.file)).expect("the file");
    Some(text.lines().filter(|line| line.starts_with("20")).map(|line| row(built, line)).collect())
}

fn row(built: &Built, line: &str) -> Row {
    let fields: Vec<&str> = line.split(',').collect();
    let number = |i: usize| fields[i].parse::<f64>().ok();
    let part = |range: std::ops::Range<usize>| fields[0][range].parse::<u32>().expect("a time");
    let (year, month, day, clock) = (part(0..4), part(5..7), part(8..10), part(11..13));
    let byte = |value: u32| u8::try_from(value).expect("a small number");
    let date = Date::new(i32::try_from(year).expect("a year"), byte(month), byte(day)).expect("a day");
    let [air, humidity, wind] = [1, 2, 5].map(|i| number(i).unwrap_or(0.0));
    let sun = Sun::at(Moment::local(date, f64::from(clock), 2.0), built.latitude, built.longitude, 100.0);
    let (diffuse, global) = (number(3).unwrap_or(0.0), number(4).unwrap_or(0.0));
    let upright = sun.zenith.to_radians().cos();
    let beam = if upright > 0.05 { ((global - diffuse) / upright).clamp(0.0, 1100.0) } else { 0.0 };
    let light = Light { global, beam, diffuse };
    let bright = Bright::of(&sun, PRESSURE, air);
    let on = |azimuth: f64| {
        let plane = Plane { tilt: built.tilt, azimuth };
        plane.receives(&sun, light, 0.3, bright, Diffuse::Perez).total()
    };
    let vapour = humidity / 100.0 * saturation_over_water(air);
    let dew_point = 237.3 / (17.269 / (vapour.max(1.0) / 610.5).ln() - 1.0);
    let above =
        Air { temperature: air, dew_point, pressure: PRESSURE, cloud: CLOUD, hours: f64::from(clock) };
    let falls = number(7).unwrap_or(0.0);
    let share = snow_share(air);
    let sky = surface::Sky {
        air,
        vapour,
        pressure: PRESSURE,
        wind,
        sun: 0.0,
        longwave: Sky::default().down(&above),
    };
    let hour = Hour {
        sky,
        rooms: number(8).unwrap_or(21.0),
        sun: vec![on(0.0), on(180.0)],
        snow: falls * share,
        rain: falls * (1.0 - share),
        seconds: 3600.0,
    };
    Row { month: byte(month), year: i32::try_from(year).expect("a year"), hour, measured: number(10) }
}

fn house(built: &Built) -> House {
    let cosine = built.tilt.to_radians().cos();
    let [capacity, resistance, absorbed] = built.roof;
    let strip = |plane: usize| Strip {
        plane,
        area: 0.5 / cosine,
        below: Below::Attic(0),
        base: Base {
            capacity,
            inward: 0.107 + resistance,
            outward: 0.02,
            absorbed,
            emissivity: 0.9,
            turbulence: Turbulence::Film { still: 4.0, windy: 4.0 * 0.6 },
            snow: Law::FULL,
        },
        catch: 0.8 * cosine,
        to: vec![],
    };
    House {
        strips: vec![strip(0), strip(1)],
        planes: vec![Aspect { cosine }; 2],
        attics: vec![Attic { to_rooms: 1.0 / built.ceiling, to_outdoors: 0.0, capacity: WOOD }],
    }
}

/// Attic in every hour with so many changes of its air in an hour.
pub fn attic(built: &Built, rows: &[Row], changes: f64) -> Vec<f64> {
    let vent = changes * built.high * 1.29 / 3600.0;
    let house = house(built);
    let mut season = Season::bare(&house, Steady(vec![Through { leak: 0.0, vent }]), rows[0].hour.sky.air);
    let step = |row: &Row| {
        season.step(&row.hour);
        season.attics()[0]
    };
    rows.iter().map(step).collect()
}

/// Mean and root mean square of what is missed in some rows.
pub fn missed(rows: &[Row], found: &[f64], of: impl Fn(&Row) -> bool) -> [f64; 2] {
    let misses: Vec<f64> = rows
        .iter()
        .zip(found)
        .filter(|(row, _)| of(row))
        .filter_map(|(row, found)| Some(found - row.measured?))
        .collect();
    let count = misses.len() as f64;
    [misses.iter().sum::<f64>() / count, (misses.iter().map(|miss| miss * miss).sum::<f64>() / count).sqrt()]
}

pub fn is_winter(row: &Row, from: i32) -> bool {
    (row.year == from && row.month >= 11) || (row.year == from + 1 && row.month <= 3)
}

/// Changes of air in an hour that are tried.
pub const TRIED: [f64; 14] = [0.25, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0, 12.0, 16.0, 24.0, 32.0, 48.0];

/// Changes of air that meet the first winter best, and how well.
pub fn fitted(built: &Built, rows: &[Row]) -> (f64, f64) {
    let first = |changes: f64| missed(rows, &attic(built, rows, changes), |row| is_winter(row, 2010))[1];
    let tried = TRIED.map(|changes| (changes, first(changes)));
    tried.into_iter().min_by(|a, b| a.1.total_cmp(&b.1)).expect("some")
}
