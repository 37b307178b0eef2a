//! The model of the two measured attics: what is known of each house, its hours, and what the season makes of them.
//!
//! Both roofs are battens and covering over an underlay with a vented gap between. Covering, underlay and the air of the gap give heat to each other, two by two: that triangle is
//! made a star, whose middle stands as an attic of its own under each slope. The covering is the strip over it; the underlay joins it to the attic, the air of the gap to
//! outdoors, as far as air that goes through takes heat along.
#![allow(
    dead_code,
    unreachable_pub,
    clippy::print_stdout,
    reason = "each user takes its own part; how measured attics were met is to be read"
)]

use std::path::PathBuf;

use heat::air::SPECIFIC_HEAT;
use heat::moist::{At, MoistAir, Moved, Store, Wet, dampen, exchange, saturation_over_water};
use winter::calendar::Date;
use winter::column::Base;
use winter::season::{Airflow, Aspect, Attic, Below, Hour, House, Passing, Season, Strip, Through};
use winter::sky::{Air, Sky};
use winter::slide::Moves;
use winter::slope::{Bright, Diffuse, Light, Plane};
use winter::snow::Law;
use winter::sun::{Moment, Sun};
use winter::surface::{self, Turbulence};
use winter::weather::snow_share;

/// A house by its drawings; for a square metre of ceiling.
pub struct Built {
    pub file: &'static str,
    /// Where the weather stands of the weeks before its own readings begin.
    pub before: Option<&'static str>,
    pub latitude: f64,
    pub longitude: f64,
    /// Insulation with its films, m²·K/W.
    pub ceiling: f64,
    /// Height of the attic, m.
    pub high: f64,
    pub tilt: f64,
    /// Roof covering: heat J/(m²·K), share of the sun it takes.
    pub covering: [f64; 2],
    /// Insulation that takes up moisture where the attic's air reaches it, kg/m².
    pub sorbing: f64,
}

/// 0.20 m of blown mineral wool at 0.045 W/(m·K), tiles over an underlay with a vented gap.
pub const TAMPERE: Built = Built {
    file: "attic-r4-tampere.csv",
    before: None,
    latitude: 61.5,
    longitude: 23.8,
    ceiling: 0.20 / 0.045 + 0.2,
    high: 0.7,
    tilt: 14.0,
    covering: [40_000.0, 0.8],
    sorbing: 0.0,
};

/// 0.5 m of blown cellulose at 0.041 W/(m·K), sheet metal over an underlay with a vented gap.
/// Air reaches some 5 cm of it, 50 kg/m³ (an assumption).
pub const VALKEAKOSKI: Built = Built {
    file: "attic-r6-valkeakoski.csv",
    before: Some("attic-r4-tampere.csv"),
    latitude: 61.3,
    longitude: 24.0,
    ceiling: 0.5 / 0.041 + 0.2,
    high: 1.5,
    tilt: 22.0,
    covering: [8_000.0, 0.8],
    sorbing: 2.5,
};

/// Trusses and the upper part of the insulation: 10 kg of wood on a square metre.
const WOOD: f64 = 16_000.0;
/// The same wood as it meets the air: boards 45 mm thick, half of them from either face.
const BOARDS: [f64; 3] = [0.9, 0.0225, 500.0];
/// Films: of the underlay to the attic and to the gap, m²·K/W, and what radiates between underlay and covering, around freezing (ASHRAE Handbook
/// Fundamentals, chapter 26, and 4·0.9·5.67e-8·273³ W/(m²·K); from memory).
const FILM: f64 = 0.117;
const GAP: f64 = 1.0 / 3.0;
const ACROSS: f64 = 0.24;
/// Speed of the air through the gap by that of the wind, and in still air, m/s (it follows the wind, 0.1 to 0.4 where it was measured; from memory).
const BLOWN: f64 = 0.1;
const STILL: f64 = 0.05;
/// Depth of the gap, of two layers of battens, and length of a slope, m (assumptions).
const BATTENS: f64 = 0.05;
const SLOPE: f64 = 5.0;
/// What is asked: root mean square of temperature in the second winter and over a year, K; bias of humidity, points.
pub const WARMTH: [f64; 2] = [2.0, 3.5];
pub const DAMP: f64 = 7.0;
/// Cover of clouds, of which nothing was recorded: a Finnish winter is mostly overcast (an assumption).
const CLOUD: f64 = 0.7;
const PRESSURE: f64 = 100_000.0;

pub struct Row {
    pub month: u8,
    pub year: i32,
    pub hour: Hour,
    /// Vapour for each kg of dry air outdoors.
    pub ratio: f64,
    /// Temperature and relative humidity of the attic.
    pub measured: Option<[f64; 2]>,
}

pub fn rows(built: &Built) -> Option<Vec<Row>> {
    let Some(folder) = std::env::var_os("WEATHERSHED_DATA") else {
        println!("skipped: WEATHERSHED_DATA names no folder with {}", built.file);
        return None;
    };
    let read = |file: &str| std::fs::read_to_string(PathBuf::from(&folder).join(file)).expect("the file");
    let hours = |text: &str| -> Vec<String> {
        text.lines().filter(|line| line.starts_with("20")).map(str::to_owned).collect()
    };
    let own = hours(&read(built.file));
    let before = built.before.map_or_else(Vec::new, |file| hours(&read(file)));
    // a time is written so that it sorts
    let earlier = before.iter().filter(|line| line[..19] < own[0][..19]);
    let unread = earlier.map(|line| Row { measured: None, ..row(built, line) });
    Some(unread.chain(own.iter().map(|line| row(built, line))).collect())
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
        wind_from: None,
        seconds: 3600.0,
    };
    Row {
        month: byte(month),
        year: i32::try_from(year).expect("a year"),
        hour,
        ratio: MoistAir::of_vapor(air, vapour, PRESSURE).ratio,
        measured: number(10).zip(number(11)).map(|(t, rh)| [t, rh]),
    }
}

/// The star of covering, underlay and gap: from its middle to each, m²·K/W.
fn star() -> [f64; 3] {
    let (covering, underlay, gap) = ([ACROSS, GAP], [ACROSS, GAP], [GAP, GAP]);
    [covering, underlay, gap].map(|[a, b]| a * b / (ACROSS + 2.0 * GAP))
}

fn house(built: &Built) -> House {
    let cosine = built.tilt.to_radians().cos();
    let [capacity, absorbed] = built.covering;
    let [to_covering, _, _] = star();
    let area = 0.5 / cosine;
    let strip = |plane: usize| Strip {
        plane,
        area,
        below: Below::Attic(1 + plane),
        base: Base {
            capacity,
            inward: to_covering,
            outward: 0.02,
            absorbed,
            emissivity: 0.9,
            turbulence: Turbulence::Film { still: 4.0, windy: 4.0 * 0.6 },
            snow: Law::FULL,
        },
        catch: 0.8 * cosine,
        to: vec![],
    };
    let middle = Attic { to_rooms: 0.0, to_outdoors: 0.0, capacity: 0.0 };
    let attic = Attic { to_rooms: 1.0 / built.ceiling, to_outdoors: 0.0, capacity: WOOD };
    House {
        strips: vec![strip(0), strip(1)],
        planes: vec![Aspect { cosine }; 2],
        attics: vec![attic, middle, middle],
        moves: Moves::default(),
    }
}

/// Air through the attic and the two gaps; heat through the underlays, as so much air to and fro would carry it.
#[derive(Debug)]
struct Under {
    vent: f64,
    /// Of a slope, m².
    area: f64,
    underlays: Vec<Passing>,
}

impl Under {
    fn of(house: &House, vent: f64) -> Self {
        let [_, to_underlay, _] = star();
        let area = house.strips[0].area;
        let flow = area / (to_underlay + FILM) / SPECIFIC_HEAT;
        let ways = [(0, 1), (1, 0), (0, 2), (2, 0)];
        Self { vent, area, underlays: ways.map(|(from, to)| Passing { from, to, flow }).to_vec() }
    }
}

impl Airflow for Under {
    fn through(&mut self, _: f64, _: f64, wind: f64, _: &[f64], flows: &mut [Through]) {
        let through = (BLOWN * wind).max(STILL) * BATTENS / SLOPE * 1.29;
        let [_, _, to_gap] = star();
        let taken = self.area / (to_gap * SPECIFIC_HEAT + through.recip());
        flows.fill(Through { leak: 0.0, vent: taken });
        flows[0].vent = self.vent;
    }

    fn between(&self) -> &[Passing] {
        &self.underlays
    }
}

/// Temperature and relative humidity of the attic in every hour with so many changes of its air in an hour.
pub fn attic(built: &Built, rows: &[Row], changes: f64) -> Vec<[f64; 2]> {
    let vent = changes * built.high * 1.29 / 3600.0;
    let house = house(built);
    let outdoors = rows[0].hour.sky.air;
    let mut season = Season::bare(&house, Under::of(&house, vent), outdoors);
    let stores = stores(built, &house);
    let mut wet: Vec<Wet> = stores.iter().map(|store| store.in_balance(outdoors, 0.9)).collect();
    let step = |row: &Row| {
        season.step(&row.hour);
        let [air, slopes @ ..] = season.attics() else { unreachable!("an attic") };
        let temperatures = [underlay(*air, slopes[0]), underlay(*air, slopes[1]), *air, *air].map(At::of);
        let moved = Moved { air: [0.0, vent], ratio: [0.0, row.ratio], ceiling: 0.0, pressure: PRESSURE };
        let ratio = dampen(&moved, &stores, &temperatures, &mut wet, row.hour.seconds);
        let vapour = ratio * PRESSURE / (0.621_945 + ratio);
        [*air, (100.0 * vapour / saturation_over_water(*air)).min(100.0)]
    };
    rows.iter().map(step).collect()
}

/// The underlay's own temperature: it lies on the way from the middle of the star to the attic.
fn underlay(attic: f64, middle: f64) -> f64 {
    let [_, to_underlay, _] = star();
    middle + (attic - middle) * to_underlay / (to_underlay + FILM)
}

/// What takes up moisture: both sides of the underlay's slope, which only let it freeze on, trusses, insulation.
fn stores(built: &Built, house: &House) -> [Store; 4] {
    let slow = exchange(3.0);
    let [area, thickness, density] = BOARDS;
    [
        Store::bare(house.strips[0].area, slow),
        Store::bare(house.strips[1].area, slow),
        Store::wood(area, thickness, density, slow),
        Store { area: 1.0, exchange: slow, dry: [built.sorbing, 0.0], apart: 1.0 },
    ]
}

/// Mean and root mean square of what is missed in some rows, of temperature or humidity.
pub fn missed(rows: &[Row], found: &[[f64; 2]], which: usize, of: impl Fn(&Row) -> bool) -> [f64; 2] {
    let misses: Vec<f64> = rows
        .iter()
        .zip(found)
        .filter(|(row, _)| of(row))
        .filter_map(|(row, found)| Some(found[which] - row.measured?[which]))
        .collect();
    let count = misses.len() as f64;
    [misses.iter().sum::<f64>() / count, (misses.iter().map(|miss| miss * miss).sum::<f64>() / count).sqrt()]
}

pub fn is_winter(row: &Row, from: i32) -> bool {
    (row.year == from && row.month >= 11) || (row.year == from + 1 && row.month <= 3)
}

/// Changes of the air in an hour that meet the winter of 2010 best. The air of a well insulated attic hardly shows in its temperature, but well in its
/// humidity: both count, by what is asked of them.
pub fn fitted(built: &Built, rows: &[Row]) -> f64 {
    let first = |changes: f64| {
        let found = attic(built, rows, changes);
        let miss = |which| missed(rows, &found, which, |row| is_winter(row, 2010))[1];
        (miss(0) / WARMTH[0]).hypot(miss(1) / DAMP)
    };
    let tried = [0.25, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0, 12.0, 16.0, 24.0, 32.0, 48.0];
    let missed = tried.map(|changes| (changes, first(changes)));
    missed.into_iter().min_by(|a, b| a.1.total_cmp(&b.1)).expect("some").0
}
