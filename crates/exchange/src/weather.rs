//! Weather as services and programs write it.
//!
//! [`epw`] reads the weather files of building simulation, [`tmy3`] typical years as published for the United States, [`normals`] the monthly climate normals there.
//! What a file has read becomes [`winter::weather::Reading`]s; what is missing or cannot be is filled and counted by [`winter::weather::Weather::of`].
//!
//! # Valid input
//! Bytes of text, lines ended in any way. What is not a file of the kind is told with its line; nothing panics.

mod epw;
mod normals;
mod table;
mod tmy3;

use thiserror::Error;
use winter::weather::{Weather, WeatherError};

pub use epw::epw;
pub use normals::normals;
pub use tmy3::tmy3;

/// A year of weather from a file of any of these kinds, told by its first line; from normals one is made by a seed.
///
/// # Errors
/// As of the kind it is.
pub fn year(bytes: &[u8], seed: u64) -> Result<Weather, FileError> {
    let end = bytes.iter().position(|byte| *byte == b'\n').unwrap_or(bytes.len());
    let first = String::from_utf8_lossy(&bytes[..end]).to_ascii_uppercase();
    if first.contains("LOCATION") {
        epw(bytes, None)
    } else if first.contains("STATION") && first.contains("DATE") {
        normals(bytes)?.year(seed).map_err(|fault| FileError::Normals(fault.to_string()))
    } else {
        tmy3(bytes, None)
    }
}

/// Why a file does not read.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum FileError {
    /// Normals out of which no year can be made.
    #[error("{0}")]
    Normals(String),
    /// Another kind of file, or none.
    #[error("line {line}: this is no {kind}: {because}")]
    Kind {
        /// The line.
        line: usize,
        /// What it should be.
        kind: &'static str,
        /// What tells that it is not.
        because: String,
    },
    /// A line with too few columns.
    #[error("line {line} has {has} columns; at least {wants} are needed")]
    Columns {
        /// The line.
        line: usize,
        /// How many it has.
        has: usize,
        /// How many it needs.
        wants: usize,
    },
    /// A column that is nowhere.
    #[error("line {line}: no column `{name}`")]
    Column {
        /// The line of the headings.
        line: usize,
        /// What it is called.
        name: &'static str,
    },
    /// What should be a number.
    #[error("line {line}, {field}: `{text}` is not a number")]
    Number {
        /// The line.
        line: usize,
        /// What it should be.
        field: String,
        /// What stands there.
        text: String,
    },
    /// A day or a time that is none.
    #[error("line {line}: `{text}` is no {what}")]
    Time {
        /// The line.
        line: usize,
        /// Day, time, month.
        what: &'static str,
        /// What stands there.
        text: String,
    },
    /// More than one row an hour.
    #[error("line {line}: {rows} rows an hour; only hourly files are read")]
    Rows {
        /// The line.
        line: usize,
        /// How many.
        rows: String,
    },
    /// A month without a value, or twice.
    #[error("{name} of month {month} is missing")]
    Month {
        /// Which value.
        name: &'static str,
        /// 1 to 12.
        month: usize,
    },
    /// Readings that make no year.
    #[error(transparent)]
    Weather(#[from] WeatherError),
}
