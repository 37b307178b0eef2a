//! What a station wrote.

use thiserror::Error;

use crate::calendar::Date;

use super::What;
use super::fall::{Fallen, Seen};

/// What was written for one hour. None is what was not read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// The line it stands in, for messages.
    pub line: usize,
    /// The day.
    pub date: Date,
    /// The hour that ends, 1 to 24.
    pub hour: u8,
    /// °C.
    pub temperature: Option<f64>,
    /// °C, over water.
    pub dew_point: Option<f64>,
    /// Share of the vapour that air can hold over water.
    pub humidity: Option<f64>,
    /// Pa.
    pub pressure: Option<f64>,
    /// m/s.
    pub wind: Option<f64>,
    /// Where the wind comes from, degrees clockwise from north.
    pub wind_from: Option<f64>,
    /// Share of the sky.
    pub cloud: Option<f64>,
    /// W/m² on level ground.
    pub global: Option<f64>,
    /// W/m² on a surface that faces the sun.
    pub beam: Option<f64>,
    /// W/m² on level ground.
    pub diffuse: Option<f64>,
    /// Long waves, W/m² on level ground.
    pub sky: Option<f64>,
    /// m.
    pub snow_depth: Option<f64>,
    /// Rain and snow.
    pub fallen: Option<Fallen>,
    /// What an observer saw falling.
    pub seen: Option<Seen>,
}

/// Why readings make no year.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum WeatherError {
    /// A place that is none.
    #[error("the {field} of the place is {value}, which cannot be")]
    Site {
        /// Which field.
        field: &'static str,
        /// What it says.
        value: f64,
    },
    /// Hours out of order, or one twice.
    #[error("line {line}: {here} comes after {before}; hours are to stand in order, each once")]
    Order {
        /// The line.
        line: usize,
        /// The hour there.
        here: String,
        /// The hour before it.
        before: String,
    },
    /// An hour of the day that is none.
    #[error("line {line}: hour {hour}; hours are 1 to 24, named by their end")]
    Hour {
        /// The line.
        line: usize,
        /// What it says.
        hour: u8,
    },
    /// Too many hours in a row are not there.
    #[error("{hours} hours are missing from {from} on{}; up to 24 in a row are filled in", at(*line))]
    Gap {
        /// The line after it; 0 where nothing follows.
        line: usize,
        /// The first hour missing.
        from: String,
        /// How many.
        hours: usize,
    },
    /// Too many readings in a row are missing or impossible.
    #[error("no {what} that can be for {hours} hours from {from} on; up to 24 in a row are filled in")]
    Void {
        /// Of what.
        what: What,
        /// The first hour.
        from: String,
        /// How many.
        hours: usize,
    },
    /// A month's total that is none.
    #[error("the total of month {month} is {total} kg/m², which cannot be")]
    Total {
        /// 1 to 12.
        month: usize,
        /// What it says.
        total: f64,
    },
}

fn at(line: usize) -> String {
    if line > 0 { format!(" (before line {line})") } else { " (at the end)".into() }
}

impl Reading {
    /// An hour of which nothing was read.
    pub fn none(line: usize, date: Date, hour: u8) -> Self {
        Self {
            line,
            date,
            hour,
            temperature: None,
            dew_point: None,
            humidity: None,
            pressure: None,
            wind: None,
            wind_from: None,
            cloud: None,
            global: None,
            beam: None,
            diffuse: None,
            sky: None,
            snow_depth: None,
            fallen: None,
            seen: None,
        }
    }

    /// Its place in a year.
    pub(super) fn place(&self) -> usize {
        (usize::from(self.date.of_year()) - 1) * 24 + usize::from(self.hour) - 1
    }
}
