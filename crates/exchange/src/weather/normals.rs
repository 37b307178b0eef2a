//! Monthly climate normals of the United States.
//!
//! Format: one file a station, one row a month, as the National Centers for Environmental Information publish the normals 1991 to 2020 (headings seen in a file; °F, inches;
//! −7777 for a trace that rounds to nothing and −9999 for missing from memory).

use measure::{Length, Temperature};
use winter::calendar::days_in;
use winter::weather::Site;
use winter::year::{Month, Normals, deviation};

use super::FileError;
use super::table::{Line, lines, shown, text};

const KIND: &str = "file of monthly normals";
/// Stands for less than is written.
const TRACE: f64 = -7777.0;
/// At or below this stands for missing, the trace apart.
const MISSING: f64 = -5555.0;
/// How a day's highest and lowest go together (assumed).
const TOGETHER: f64 = 0.75;
/// Degrees of longitude to an hour.
const HOUR: f64 = 15.0;

/// Normals of a station. Its standard time is taken to be that of its longitude.
///
/// # Errors
/// What is no such file, columns or months that are missing, what is not a number.
pub fn normals(bytes: &[u8]) -> Result<Normals, FileError> {
    let text = text(bytes);
    let mut lines = lines(&text).map(Line::of);
    let empty = || FileError::Kind { line: 1, kind: KIND, because: "it is empty".into() };
    let headings = Headings::of(&lines.next().ok_or_else(empty)?)?;
    let mut site = None;
    let mut months: [Option<Month>; 12] = [None; 12];
    for line in lines {
        let number = headings.month(&line)?;
        let told =
            || FileError::Time { line: line.number, what: "month", text: shown(line.text(headings.date)) };
        let place = months.get_mut(number.wrapping_sub(1)).ok_or_else(told)?;
        if place.is_some() {
            return Err(told());
        }
        *place = Some(headings.read(&line)?);
        site.get_or_insert(headings.site(&line)?);
    }
    let site = site.ok_or(FileError::Month { name: "everything", month: 1 })?;
    let mut whole = [Month::default(); 12];
    for (at, (month, read)) in whole.iter_mut().zip(months).enumerate() {
        *month = read.ok_or(FileError::Month { name: "everything", month: at + 1 })?;
    }
    Ok(Normals { site, months: whole })
}

/// Which column holds what.
struct Headings {
    date: usize,
    name: usize,
    place: [usize; 3],
    mean: usize,
    high: usize,
    low: usize,
    precipitation: usize,
    snowfall: Option<usize>,
    wet_days: Option<usize>,
    /// How far means of the month deviate from year to year.
    of_years: Option<usize>,
    /// Days whose lowest is below, and whose highest is above so many °F.
    colder: Vec<(usize, f64)>,
    warmer: Vec<(usize, f64)>,
}

impl Headings {
    fn of(line: &Line<'_>) -> Result<Self, FileError> {
        let find = |name: &str| line.columns.iter().position(|heading| *heading == name);
        let needed = |name| find(name).ok_or(FileError::Column { line: line.number, name });
        Ok(Self {
            date: needed("DATE")?,
            name: needed("NAME")?,
            place: [needed("LATITUDE")?, needed("LONGITUDE")?, needed("ELEVATION")?],
            mean: needed("MLY-TAVG-NORMAL")?,
            high: needed("MLY-TMAX-NORMAL")?,
            low: needed("MLY-TMIN-NORMAL")?,
            precipitation: needed("MLY-PRCP-NORMAL")?,
            snowfall: find("MLY-SNOW-NORMAL"),
            wet_days: find("MLY-PRCP-AVGNDS-GE001HI"),
            of_years: find("MLY-TAVG-STDDEV"),
            colder: counts(line, "MLY-TMIN-AVGNDS-LSTH"),
            warmer: counts(line, "MLY-TMAX-AVGNDS-GRTH"),
        })
    }

    /// The number of the month, 0 for what is none; dates are `01` or `2010-01`.
    fn month(&self, line: &Line<'_>) -> Result<usize, FileError> {
        let date = line.text(self.date);
        let month = date.rsplit('-').next().unwrap_or(date);
        let told = || FileError::Time { line: line.number, what: "month", text: shown(date) };
        month.parse().ok().filter(|month| (1..=12).contains(month)).ok_or_else(told)
    }

    fn site(&self, line: &Line<'_>) -> Result<Site, FileError> {
        let [latitude, longitude, height] = self.place;
        let longitude = line.needed(longitude, "LONGITUDE")?;
        Ok(Site {
            name: line.text(self.name).to_owned(),
            latitude: line.needed(latitude, "LATITUDE")?,
            longitude,
            zone: (longitude / HOUR).round(),
            height: line.needed(height, "ELEVATION")?,
        })
    }

    fn read(&self, line: &Line<'_>) -> Result<Month, FileError> {
        let value = |at: usize, field: &str| -> Result<Option<f64>, FileError> {
            let value = line
                .number(at, field)?
                .map(|value| if value <= TRACE && value > TRACE - 1.0 { 0.0 } else { value });
            Ok(value.filter(|value| *value > MISSING))
        };
        let month = self.month(line)?;
        let needed = |at, name: &'static str| value(at, name)?.ok_or(FileError::Month { name, month });
        let celsius = |at, name| needed(at, name).map(|f| Temperature::from_f(f).c());
        let maybe = |at: Option<usize>, name| at.map_or(Ok(None), |at| value(at, name));
        // 1 mm of water on 1 m² is 1 kg
        let water = Length::from_in(needed(self.precipitation, "MLY-PRCP-NORMAL")?).mm();
        let snow = maybe(self.snowfall, "MLY-SNOW-NORMAL")?;
        Ok(Month {
            mean: celsius(self.mean, "MLY-TAVG-NORMAL")?,
            high: celsius(self.high, "MLY-TMAX-NORMAL")?,
            low: celsius(self.low, "MLY-TMIN-NORMAL")?,
            precipitation: water,
            snowfall: snow.map(|inches| Length::from_in(inches).m()),
            wet_days: maybe(self.wet_days, "MLY-PRCP-AVGNDS-GE001HI")?,
            deviation: self.deviation(line, month)?,
            ..Month::default()
        })
    }

    /// By how much the means of days deviate within a month, K: by the days below and above some temperatures in all years, less what years deviate from one
    /// another.
    fn deviation(&self, line: &Line<'_>, month: usize) -> Result<Option<f64>, FileError> {
        let days = f64::from(days_in(u8::try_from(month).unwrap_or(0)));
        let shares = |counts: &[(usize, f64)]| -> Result<Vec<(f64, f64)>, FileError> {
            let pairs =
                counts.iter().map(|(at, t)| Ok(line.number(*at, "count of days")?.map(|n| (*t, n / days))));
            pairs.filter_map(Result::transpose).collect()
        };
        let below = shares(&self.colder)?;
        let above: Vec<_> = shares(&self.warmer)?.into_iter().map(|(t, share)| (t, 1.0 - share)).collect();
        let mean = |at, name| line.needed(at, name);
        let low = deviation(mean(self.low, "MLY-TMIN-NORMAL")?, &below);
        let high = deviation(mean(self.high, "MLY-TMAX-NORMAL")?, &above);
        let of_years =
            self.of_years.map_or(Ok(None), |at| line.number(at, "MLY-TAVG-STDDEV"))?.unwrap_or(0.0);
        Ok(low.zip(high).and_then(|(low, high)| {
            let all = (low * low + high * high + 2.0 * TOGETHER * low * high) / 4.0;
            let within = all - of_years * of_years;
            // °F of difference
            (within > 0.0).then(|| within.sqrt() / 1.8).filter(|deviation| *deviation <= 12.0)
        }))
    }
}

/// Columns whose heading begins so and ends in a temperature, °F.
fn counts(line: &Line<'_>, head: &str) -> Vec<(usize, f64)> {
    let headings = line.columns.iter().enumerate();
    headings.filter_map(|(at, heading)| Some((at, heading.strip_prefix(head)?.parse().ok()?))).collect()
}
