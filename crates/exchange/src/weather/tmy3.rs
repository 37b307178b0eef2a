//! Typical years of the United States, third edition.
//!
//! Format: S. Wilcox and W. Marion, Users Manual for TMY3 Data Sets, NREL/TP-581-43156, 2008 (headings seen in a file; −9900 for missing from memory).

use winter::calendar::Date;
use winter::weather::{Fallen, Filled, Reading, Site, Totals, Weather};

use super::FileError;
use super::table::{Line, lines, shown, text};

const KIND: &str = "TMY3 file";
/// At or below this stands for missing.
const MISSING: f64 = -9900.0;
/// A time that stands for missing, h.
const UNTOLD: f64 = 99.0;

/// Columns that have to be there, by the headings before their unit.
const NEEDED: [&str; 12] = [
    "Date",
    "Time",
    "GHI",
    "DNI",
    "DHI",
    "TotCld",
    "OpqCld",
    "Dry-bulb",
    "Dew-point",
    "RHum",
    "Pressure",
    "Wspd",
];

/// A year of a TMY3 file, with its months brought to `totals` of precipitation (kg/m²) where those are given: most stations read none, or in some hours.
///
/// # Errors
/// What is no such file, columns that are missing, what is not a number, days that are none, hours out of order or missing for more than a day.
pub fn tmy3(bytes: &[u8], totals: Option<&Totals>) -> Result<Weather, FileError> {
    let text = text(bytes);
    let mut lines = lines(&text).map(Line::of);
    let site = site(lines.next())?;
    let headings = Headings::of(lines.next())?;
    let readings = lines.map(|line| headings.reading(&line)).collect::<Result<Vec<_>, _>>()?;
    Ok(Weather::of(site, &readings, totals, Filled::default())?)
}

fn site(first: Option<Line<'_>>) -> Result<Site, FileError> {
    let no = |line, because: String| FileError::Kind { line, kind: KIND, because };
    let line = first.ok_or_else(|| no(1, "it is empty".into()))?;
    if line.columns.len() < 7 {
        return Err(no(
            line.number,
            "the first line is to hold station, name, state, time zone, latitude, longitude, elevation"
                .into(),
        ));
    }
    Ok(Site {
        name: [line.text(1), line.text(2)].join(", "),
        zone: line.needed(3, "time zone")?,
        latitude: line.needed(4, "latitude")?,
        longitude: line.needed(5, "longitude")?,
        height: line.needed(6, "elevation")?,
    })
}

/// Which column holds what.
struct Headings {
    needed: [usize; 12],
    /// Depth of precipitation and its hours.
    fallen: Option<[usize; 2]>,
    /// Direction of the wind.
    wind_from: Option<usize>,
    count: usize,
}

impl Headings {
    fn of(line: Option<Line<'_>>) -> Result<Self, FileError> {
        let missing = || FileError::Kind { line: 2, kind: KIND, because: "it has no headings".into() };
        let line = line.ok_or_else(missing)?;
        let find = |name: &str| {
            line.columns
                .iter()
                .position(|heading| heading.split(" (").next().is_some_and(|h| h.trim() == name))
        };
        let mut needed = [0; 12];
        for (place, name) in needed.iter_mut().zip(NEEDED) {
            *place = find(name).ok_or(FileError::Column { line: line.number, name })?;
        }
        let fallen = find("Lprecip depth").zip(find("Lprecip quantity")).map(|(depth, hours)| [depth, hours]);
        let count = needed.iter().max().map_or(0, |last| last + 1);
        Ok(Self { needed, fallen, wind_from: find("Wdir"), count })
    }

    fn reading(&self, line: &Line<'_>) -> Result<Reading, FileError> {
        let has = line.columns.len();
        if has < self.count {
            return Err(FileError::Columns { line: line.number, has, wants: self.count });
        }
        let [date, time, ..] = self.needed.map(|at| line.text(at));
        let told = |what, text: &str| FileError::Time { line: line.number, what, text: shown(text) };
        let date = day(date).ok_or_else(|| told("day as MM/DD/YYYY", date))?;
        let hour = hour(time).ok_or_else(|| told("time as HH:00", time))?;
        let at =
            |at: usize, name: &str| line.number(at, name).map(|value| value.filter(|value| *value > MISSING));
        let value = |index: usize| at(self.needed[index], NEEDED[index]);
        let fallen = match self.fallen {
            Some([depth, hours]) => fallen(at(depth, "Lprecip depth")?, at(hours, "Lprecip quantity")?),
            None => None,
        };
        Ok(Reading {
            global: value(2)?,
            beam: value(3)?,
            diffuse: value(4)?,
            cloud: value(6)?.or(value(5)?).map(|tenths| tenths / 10.0),
            temperature: value(7)?,
            dew_point: value(8)?,
            humidity: value(9)?.map(|percent| percent / 100.0),
            pressure: value(10)?.map(|millibar| millibar * 100.0),
            wind: value(11)?,
            wind_from: self.wind_from.map(|column| at(column, "Wdir")).transpose()?.flatten(),
            fallen,
            ..Reading::none(line.number, date, hour)
        })
    }
}

fn day(text: &str) -> Option<Date> {
    let mut parts = text.split('/');
    let (month, day, year) = (parts.next()?, parts.next()?, parts.next()?);
    parts.next().is_none().then_some(())?;
    Date::new(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?)
}

fn hour(text: &str) -> Option<u8> {
    let (hour, minutes) = text.split_once(':')?;
    (minutes == "00").then(|| hour.parse().ok())?
}

/// A depth, where the hours it fell in are told.
fn fallen(water: Option<f64>, hours: Option<f64>) -> Option<Fallen> {
    let hours = hours.filter(|hours| *hours < UNTOLD)?;
    let hours = (1..=98_u8).find(|whole| (f64::from(*whole) - hours).abs() < 0.5)?;
    water.map(|water| Fallen { water, hours })
}
