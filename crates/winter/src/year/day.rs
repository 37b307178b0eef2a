//! The days of a year out of monthly normals.

use crate::calendar::{Date, days_in};
use crate::sun::{SOLAR_CONSTANT, declination_of};

use super::random::Random;
use super::shape::{above_air, brightest_day, noise};
use super::{Month, Normals};

/// Days of a year.
pub(super) const DAYS: u16 = 365;
/// How much of a day's departure from the normal the next day keeps: temperature, sunshine.
const KEEPS: [f64; 2] = [0.7, 0.3];
/// How far the means of days deviate in the coldest and in the warmest month, K, where it is not given (continental climates; assumed).
const DEVIATION: [f64; 2] = [5.0, 2.5];
/// How much likelier a wet day follows a wet one (assumed).
const CLING: f64 = 0.3;
/// What falls on a wet day, kg/m², where their number is not given (assumed).
const PER_WET_DAY: f64 = 7.0;
/// The least share of what comes above the air that reaches the ground in a day, and by how much days of a kind deviate from one another (assumed).
const DULLEST: f64 = 0.05;
const CLEARNESS_DEVIATION: f64 = 0.25;
/// A wet day has this share of a dry day's sun.
const WET_SUN: f64 = 0.5;
/// How much wider a clear day's range of temperatures is than a month's, and how much narrower a wet day's.
const RANGES: [f64; 2] = [1.2, 0.6];
/// From which clearness on a day is clear.
const CLEAR: f64 = 0.6;

/// A day.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Day {
    /// Mean, °C.
    pub(super) mean: f64,
    /// How much warmer than normal, K.
    pub(super) warmer: f64,
    /// Highest less lowest, K.
    pub(super) range: f64,
    /// What falls, kg/m².
    pub(super) water: f64,
    /// Share of what comes above the air that reaches the ground.
    pub(super) clearness: f64,
}

/// The places in a year of a month's days.
pub(super) fn of_month(month: usize) -> std::ops::Range<usize> {
    let before = |month: usize| (1..=month).map(|m| usize::from(days_in(u8::try_from(m).unwrap_or(0)))).sum();
    before(month)..before(month + 1)
}

pub(super) fn of(normals: &Normals, random: &mut Random) -> Vec<Day> {
    let mut days = vec![Day::default(); usize::from(DAYS)];
    temperatures(normals, &mut days, random);
    fall(normals, &mut days, random);
    sunshine(normals, &mut days, random);
    ranges(normals, &mut days);
    days
}

/// A periodic cubic through the middles of the months, moved until its means are the normals.
fn smooth(wanted: &[f64; 12]) -> Vec<f64> {
    let middles: [f64; 12] = std::array::from_fn(|month| {
        let days = of_month(month);
        f64::midpoint(days.start as f64, days.end as f64)
    });
    let mut knots = *wanted;
    let mut curve = through(&middles, &knots);
    for _ in 0..20 {
        for (month, knot) in knots.iter_mut().enumerate() {
            let days = of_month(month);
            let mean = curve[days.clone()].iter().sum::<f64>() / days.len() as f64;
            *knot += wanted[month] - mean;
        }
        curve = through(&middles, &knots);
    }
    curve
}

/// Cubics from knot to knot, level with the line between the knots beside each (E. Catmull and R. Rom 1974).
fn through(middles: &[f64; 12], knots: &[f64; 12]) -> Vec<f64> {
    let year = f64::from(DAYS);
    (0..DAYS)
        .map(|day| {
            let at = f64::from(day) + 0.5;
            let from = middles.iter().rposition(|middle| *middle <= at).unwrap_or(11);
            let knot = |k: usize| knots[(from + 12 + k - 1) % 12];
            let place = |k: usize| middles[(from + 12 + k - 1) % 12];
            let length = (place(2) - place(1)).rem_euclid(year);
            let t = (at - place(1)).rem_euclid(year) / length;
            let slope = |k: usize| {
                let apart = (place(k + 1) - place(k - 1)).rem_euclid(year);
                (knot(k + 1) - knot(k - 1)) / apart * length
            };
            let (a, b) = (knot(1), knot(2));
            let (t2, t3) = (t * t, t * t * t);
            a * (2.0 * t3 - 3.0 * t2 + 1.0)
                + slope(1) * (t3 - 2.0 * t2 + t)
                + b * (3.0 * t2 - 2.0 * t3)
                + slope(2) * (t3 - t2)
        })
        .collect()
}

fn temperatures(normals: &Normals, days: &mut [Day], random: &mut Random) {
    let means = normals.months.map(|month| month.mean);
    let coldest = means.into_iter().fold(f64::INFINITY, f64::min);
    let warmest = means.into_iter().fold(f64::NEG_INFINITY, f64::max);
    let [winter, summer] = DEVIATION;
    let deviation = |month: &Month| {
        let share = (month.mean - coldest) / (warmest - coldest).max(1e-9);
        month.deviation.unwrap_or(winter + (summer - winter) * share)
    };
    let normal = smooth(&means);
    // days run on from month to month in deviations; what a month is off by is taken from it
    let mut departs = random.normal();
    for (month, at) in normals.months.iter().zip(0..) {
        let places = of_month(at);
        let drawn: Vec<f64> = places
            .clone()
            .map(|_| {
                departs = KEEPS[0] * departs + random.normal() * noise(KEEPS[0], 1.0);
                departs * deviation(month)
            })
            .collect();
        let off = drawn.iter().sum::<f64>() / drawn.len() as f64;
        for (place, warmer) in places.zip(drawn) {
            days[place].warmer = warmer - off;
            days[place].mean = normal[place] + days[place].warmer;
        }
    }
}

fn fall(normals: &Normals, days: &mut [Day], random: &mut Random) {
    let mut is_wet = false;
    for (month, at) in normals.months.iter().zip(0..) {
        let places = of_month(at);
        let count = places.len() as f64;
        let wet_days = month.wet_days.unwrap_or(month.precipitation / PER_WET_DAY).clamp(1.0, count);
        let share = wet_days / count;
        for day in &mut days[places.clone()] {
            let chance = if is_wet { share + CLING * (1.0 - share) } else { share * (1.0 - CLING) };
            is_wet = random.even() <= chance;
            day.water = if is_wet { random.exponential() } else { 0.0 };
        }
        if days[places.clone()].iter().all(|day| day.water <= 0.0) {
            days[places.start + random.below(places.len())].water = 1.0;
        }
        let drawn: f64 = days[places.clone()].iter().map(|day| day.water).sum();
        for day in &mut days[places] {
            day.water *= month.precipitation / drawn;
        }
    }
}

/// Above the air, J/m² on level ground in a day of the year from 0.
pub(super) fn above(latitude: f64, day: usize) -> f64 {
    let day = u16::try_from(day + 1).unwrap_or(DAYS);
    above_air(latitude, declination_of(day), day, SOLAR_CONSTANT)
}

fn sunshine(normals: &Normals, days: &mut [Day], random: &mut Random) {
    let latitude = normals.site.latitude;
    let mut departs = random.normal();
    for (month, at) in normals.months.iter().zip(0..) {
        let places = of_month(at);
        let above: Vec<f64> = places.clone().map(|place| above(latitude, place)).collect();
        let mean = above.iter().sum::<f64>() / above.len() as f64;
        let usual = usual_clearness(latitude, places.start + 15);
        let wanted = month.global.map_or(usual, |global| if mean > 0.0 { global / mean } else { usual });
        let most: Vec<f64> =
            places.clone().zip(&above).map(|(place, above)| clearest(latitude, place, *above)).collect();
        let days = &mut days[places];
        for day in days.iter_mut() {
            departs = KEEPS[1] * departs + random.normal() * noise(KEEPS[1], 1.0);
            let kind = if day.water > 0.0 { WET_SUN } else { 1.0 };
            day.clearness = (kind * (1.0 + CLEARNESS_DEVIATION * departs)).max(0.1);
        }
        to_clearness(days, &above, &most, wanted);
    }
}

/// The most of what comes above the air that reaches the ground in a day.
fn clearest(latitude: f64, day: usize, above: f64) -> f64 {
    // what hours bring by their middles is a little off what the day brings
    const HOURLY: f64 = 0.97;
    let day = u16::try_from(day + 1).unwrap_or(DAYS);
    let most = brightest_day(latitude, declination_of(day));
    if above > 0.0 { (HOURLY * most / above).clamp(DULLEST, 1.0) } else { DULLEST }
}

/// Multiplies the days until together they let through the share that is wanted, none of them more than a clear sky.
fn to_clearness(days: &mut [Day], above: &[f64], most: &[f64], wanted: f64) {
    let all: f64 = above.iter().sum();
    if all <= 0.0 {
        for (day, most) in days.iter_mut().zip(most) {
            day.clearness = wanted.clamp(DULLEST, *most);
        }
        return;
    }
    let drawn: Vec<f64> = days.iter().map(|day| day.clearness).collect();
    let day = |times: f64, at: usize| (drawn[at] * times).clamp(DULLEST, most[at]);
    let through = |times: f64| (0..drawn.len()).map(|at| day(times, at) * above[at]).sum::<f64>() / all;
    let mut range = [0.0, 20.0];
    for _ in 0..60 {
        let middle = f64::midpoint(range[0], range[1]);
        range[usize::from(through(middle) > wanted)] = middle;
    }
    let clearness: Vec<f64> = (0..drawn.len()).map(|at| day(range[0], at)).collect();
    for (day, clearness) in days.iter_mut().zip(clearness) {
        day.clearness = clearness;
    }
}

/// Share of what comes above the air that reaches the ground where it is not given: 0.45 in winter, 0.55 in summer (assumed).
fn usual_clearness(latitude: f64, day: usize) -> f64 {
    let season = (std::f64::consts::TAU * (day as f64 - 20.0) / 365.0).cos();
    0.5 - 0.05 * season * latitude.signum()
}

/// Clear days have wide ranges and wet ones narrow, about the month's.
fn ranges(normals: &Normals, days: &mut [Day]) {
    for (month, at) in normals.months.iter().zip(0..) {
        let days = &mut days[of_month(at)];
        for day in days.iter_mut() {
            let [clear, wet] = RANGES;
            let is_clear = day.clearness >= CLEAR;
            day.range = if day.water > 0.0 {
                wet
            } else if is_clear {
                clear
            } else {
                1.0
            };
        }
        let mean = days.iter().map(|day| day.range).sum::<f64>() / days.len() as f64;
        for day in days.iter_mut() {
            day.range *= (month.high - month.low) / mean;
        }
    }
}

/// The month of a place in the year, from 0.
pub(super) fn month(day: usize) -> usize {
    usize::from(Date::of(2001, u16::try_from(day + 1).unwrap_or(DAYS)).month()) - 1
}
