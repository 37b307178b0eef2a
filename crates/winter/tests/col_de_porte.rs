//! Snow on level ground through a measured winter: Col de Porte, 1325 m, October 2005 to June 2006 (Morin and others 2012, Earth System Science Data 4,
//! 13-21; hourly weather and daily observations as distributed with FSM, MIT licence).
//!
//! The files are not part of the project. Their folder is named by `WEATHERSHED_DATA`; without it the test says so and is skipped. Nothing of the model is
//! fitted to this winter.

#![allow(clippy::print_stdout, reason = "what a measured winter was met to is to be read")]

use std::path::PathBuf;

use heat::moist::saturation_over_water;
use winter::column::{Base, Column, Weather};
use winter::snow::Law;
use winter::surface::{Sky, Turbulence};

const HOUR: f64 = 3600.0;

/// Level ground: 0.3 m of moist soil over what lies deeper (2 MJ/(m³·K), 1 W/(m·K); handbook figures from memory), snow of 1 mm roughness under wind
/// at 10 m and air at 2 m.
const GROUND: Base = Base {
    capacity: 6e5,
    inward: 1.0,
    outward: 0.15,
    absorbed: 0.8,
    emissivity: 0.95,
    turbulence: Turbulence::Layer { roughness: 0.001, wind_at: 10.0, air_at: 2.0 },
    snow: Law::FULL,
};
/// Of the ground below, °C.
const DEEP: f64 = 5.0;

fn rows(name: &str) -> Option<Vec<Vec<f64>>> {
    let Some(folder) = std::env::var_os("WEATHERSHED_DATA") else {
        println!("skipped: WEATHERSHED_DATA names no folder with {name}");
        return None;
    };
    let text = std::fs::read_to_string(PathBuf::from(folder).join(name)).expect("the file");
    let row = |line: &str| line.split_whitespace().map(|field| field.parse().expect("a number")).collect();
    Some(text.lines().map(row).collect())
}

fn date(row: &[f64]) -> String {
    format!("{}-{}-{}", row[0], row[1], row[2])
}

struct Day {
    date: String,
    depth: f64,
    water: f64,
}

fn simulated(hours: &[Vec<f64>], base: &Base) -> Vec<Day> {
    let mut column = Column::bare(10.0);
    let mut days: Vec<Day> = Vec::new();
    for row in hours {
        let [sun, longwave, snow, rain, kelvin, humidity, wind, pressure] = row[4..12] else {
            panic!("{row:?}")
        };
        let air = kelvin - 273.15;
        let sky =
            Sky { air, vapour: humidity / 100.0 * saturation_over_water(air), pressure, wind, sun, longwave };
        let weather =
            Weather { sky, below: DEEP, snow: snow * HOUR, rain: rain * HOUR, inflow: 0.0, seconds: HOUR };
        let outcome = column.step(base, &weather);
        assert!(outcome.heat_error.abs() < 1e-3 && outcome.mass_error.abs() < 1e-9, "{row:?}: {outcome:?}");
        let day = Day { date: date(row), depth: column.snow_depth(), water: column.snow_water() };
        match days.last_mut().filter(|last| last.date == day.date) {
            Some(last) => *last = day,
            None => days.push(day),
        }
    }
    days
}

/// Mean of what is missed, and its root mean square.
fn missed(pairs: impl Iterator<Item = (f64, f64)>) -> [f64; 2] {
    let misses: Vec<f64> = pairs.map(|(found, measured)| found - measured).collect();
    let count = misses.len() as f64;
    [misses.iter().sum::<f64>() / count, (misses.iter().map(|miss| miss * miss).sum::<f64>() / count).sqrt()]
}

#[test]
fn snow_of_a_measured_winter() {
    let Some((hours, observed)) =
        rows("snow-forcing-col-de-porte-2005.txt").zip(rows("snow-observed-col-de-porte-2005.txt"))
    else {
        return;
    };
    let days = simulated(&hours, &GROUND);
    let same = |row: &Vec<f64>| days.iter().find(|day| day.date == date(row));
    let pairs = |column: usize, of: fn(&Day) -> f64| {
        observed
            .iter()
            .filter(move |row| row[column] > -90.0)
            .filter_map(move |row| Some((of(same(row)?), row[column])))
    };
    let depth = missed(pairs(5, |day| day.depth));
    let water = missed(pairs(6, |day| day.water));
    let last = days.iter().rfind(|day| day.water > 1.0).expect("snow");
    println!("depth: bias {:+.3} m, root mean square {:.3} m", depth[0], depth[1]);
    println!("water: bias {:+.1} kg/m2, root mean square {:.1} kg/m2", water[0], water[1]);
    println!("melted out after {}", last.date);
    assert!(water[1] < 40.0 && depth[1] < 0.25);
}
