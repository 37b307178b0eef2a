//! Water that gathers in layers over a winter and dries over the summer.

use book::thermal::IndoorVapor;
use book::{Book, LookupError};

use super::air::iso_saturation;
use super::wall::{Condensing, Month, Wall, WallError};

const DAY: f64 = 86_400.0;
/// Outdoors, the excess of indoor vapor begins to fall here, and is none there, °C (ISO 13788:2012, annex A).
const FALLS_FROM: f64 = 0.0;
const NONE_AT: f64 = 20.0;
/// Water on a square metre that is none, kg.
const DRY: f64 = 1e-12;

/// Water at each interface at the end of a month.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    /// Which of the months it is, from 0.
    pub month: usize,
    /// How it stood as the month began.
    pub condensing: Condensing,
    /// At each interface from the inner surface to the outer, kg/m².
    pub water: Vec<f64>,
}

/// Twelve months, from the first in which water condenses.
#[derive(Clone, Debug, PartialEq)]
pub struct Year {
    /// Month by month, in the order they come.
    pub months: Vec<Held>,
}

impl Year {
    /// A year of months in order, the first of them January or any other. Starts in the first month that condenses after one that does not; a year without
    /// such a start begins with the first. An interface that dries within a month is dry from then on.
    ///
    /// # Errors
    /// Air that cannot be.
    pub fn of(wall: &Wall, months: &[Month]) -> Result<Self, WallError> {
        let first = start(wall, months)?;
        let mut water = vec![0.0; wall.sheets().len() + 1];
        let held = (0..months.len()).map(|i| {
            let month = (first + i) % months.len();
            let condensing = wall.month(&months[month], &wet(&water))?;
            advance(wall, &months[month], &mut water)?;
            Ok(Held { month, condensing, water: water.clone() })
        });
        held.collect::<Result<_, _>>().map(|months| Self { months })
    }

    /// The most water on a square metre, all interfaces together, and the month at whose end it stands, kg/m².
    pub fn most(&self) -> (usize, f64) {
        let sums = self.months.iter().map(|held| (held.month, held.water.iter().sum::<f64>()));
        sums.fold((0, 0.0), |most, next| if next.1 > most.1 { next } else { most })
    }

    /// What is left at the end, kg/m².
    pub fn left(&self) -> f64 {
        self.months.last().map_or(0.0, |held| held.water.iter().sum())
    }

    /// Whether more lies at one interface than stays there: it runs off and drips.
    ///
    /// # Errors
    /// A rule the books lack.
    pub fn runs(&self, book: &Book) -> Result<bool, LookupError> {
        let grams: f64 = book.rule("condensate.runs")?.get()?;
        Ok(self.months.iter().flat_map(|held| &held.water).any(|kg| *kg * 1000.0 > grams))
    }

    /// Whether it is dry by the end; else each year adds to the last.
    pub fn dries(&self) -> bool {
        self.left() <= DRY
    }
}

fn wet(water: &[f64]) -> Vec<bool> {
    water.iter().map(|kg| *kg > DRY).collect()
}

fn condenses(wall: &Wall, month: &Month) -> Result<bool, WallError> {
    Ok(wall.month(month, &[])?.rates.iter().any(|rate| *rate > 0.0))
}

fn start(wall: &Wall, months: &[Month]) -> Result<usize, WallError> {
    let all = months.iter().map(|month| condenses(wall, month)).collect::<Result<Vec<bool>, _>>()?;
    let begins = |i: &usize| all[*i] && !all[(*i + months.len() - 1) % months.len()];
    Ok((0..months.len()).find(begins).unwrap_or(0))
}

/// One month on: the rates hold until an interface is dry, then they are worked out anew for the rest.
fn advance(wall: &Wall, month: &Month, water: &mut [f64]) -> Result<(), WallError> {
    let mut left = month.days * DAY;
    let passes = water.len();
    for pass in 0..=passes {
        let rates = wall.month(month, &wet(water))?.rates;
        let until_dry = water
            .iter()
            .zip(&rates)
            .filter(|(kg, rate)| **kg > DRY && **rate < 0.0)
            .map(|(kg, rate)| kg / -rate);
        // each pass dries an interface; the last takes what time is left
        let step = if pass == passes { left } else { until_dry.fold(left, f64::min) };
        for (kg, rate) in water.iter_mut().zip(&rates) {
            *kg = (*kg + rate * step).max(0.0);
            *kg = if *kg <= DRY { 0.0 } else { *kg };
        }
        left -= step;
        if left <= 0.0 {
            break;
        }
    }
    Ok(())
}

/// Vapor indoors by a class of the books, Pa: that outdoors and the excess of the class with its margin, no more than the room's air can hold.
///
/// # Errors
/// A rule the books lack.
pub fn indoor_pressure(
    class: &IndoorVapor,
    [inside, outside]: [f64; 2],
    vapor_outside: f64,
    book: &Book,
) -> Result<f64, LookupError> {
    let margin: f64 = book.rule("indoor-vapor.margin")?.get()?;
    let share = ((NONE_AT - outside) / (NONE_AT - FALLS_FROM)).clamp(0.0, 1.0);
    Ok((vapor_outside + margin * class.excess.pa() * share).min(iso_saturation(inside)))
}
