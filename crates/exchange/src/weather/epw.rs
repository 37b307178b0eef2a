//! Weather files of building simulation.
//!
//! Format: as the United States Department of Energy publishes it with its weather data (the order of columns seen in open readers up to cloud cover, the rest, what stands for
//! missing, and the codes of present weather from memory).

use winter::calendar::Date;
use winter::weather::{Fallen, Filled, How, Reading, Seen, Site, Totals, Weather, What};

use super::FileError;
use super::table::{Line, lines, shown, text};

const KIND: &str = "EPW weather file";
/// Columns of a row, those that older files leave off not counted.
const COLUMNS: usize = 32;
/// Depths of snow that never go above this are a flag whether snow lies, cm.
const FLAG: f64 = 1.0;

/// What kinds of falling weather count, light, moderate, heavy, in shares of light rain, 1 kg/m² an hour (assumed, so that the reports of a design year of Montréal come to about
/// what falls there: 780 kg/m² of rain and 220 of snow by its normals, from memory). Where months come to totals, only the proportions count.
const STEADY: [f64; 3] = [1.0, 3.0, 8.0];
const SNOWING: [f64; 3] = [0.25, 1.0, 3.0];
const SLIGHT: [f64; 3] = [0.2, 0.4, 0.6];
const CRYSTALS: [f64; 3] = [0.02, 0.04, 0.06];
const NONE: [f64; 3] = [0.0; 3];

/// A year of an EPW file, with its months brought to `totals` of precipitation (kg/m²) where those are given: many such files have none of their own, or a few. Without
/// totals and any depth of its own, what observers saw falling stands for it, roughly.
///
/// # Errors
/// What is no such file, rows with too few columns, what is not a number, days that are none, hours out of order or missing for more than a day.
pub fn epw(bytes: &[u8], totals: Option<&Totals>) -> Result<Weather, FileError> {
    let text = text(bytes);
    let mut lines = lines(&text).map(Line::of);
    let site = site(lines.next())?;
    periods(&mut lines)?;
    let mut readings = lines.map(|line| reading(&line)).collect::<Result<Vec<_>, _>>()?;
    let mut filled = Filled::default();
    without_flags(&mut readings, &mut filled);
    Ok(Weather::of(site, &readings, totals, filled)?)
}

fn site(first: Option<Line<'_>>) -> Result<Site, FileError> {
    let no = |line, because: String| FileError::Kind { line, kind: KIND, because };
    let line = first.ok_or_else(|| no(1, "it is empty".into()))?;
    if !line.text(0).eq_ignore_ascii_case("LOCATION") {
        return Err(no(line.number, format!("it begins with `{}`, not with LOCATION", shown(line.text(0)))));
    }
    Ok(Site {
        name: [line.text(1), line.text(2)].join(", "),
        latitude: line.needed(6, "latitude")?,
        longitude: line.needed(7, "longitude")?,
        zone: line.needed(8, "time zone")?,
        height: line.needed(9, "elevation")?,
    })
}

/// Reads on to the end of the headings.
fn periods<'a>(lines: &mut impl Iterator<Item = Line<'a>>) -> Result<(), FileError> {
    for line in lines {
        if line.text(0).eq_ignore_ascii_case("DATA PERIODS") {
            let rows = line.text(2);
            let is_hourly = rows == "1";
            return if is_hourly {
                Ok(())
            } else {
                Err(FileError::Rows { line: line.number, rows: shown(rows) })
            };
        }
    }
    Err(FileError::Kind { line: 1, kind: KIND, because: "no line begins with DATA PERIODS".into() })
}

fn reading(line: &Line<'_>) -> Result<Reading, FileError> {
    let has = line.columns.len();
    if has < COLUMNS {
        return Err(FileError::Columns { line: line.number, has, wants: COLUMNS });
    }
    let (date, hour) = time(line)?;
    // what is at or above the last stands for missing
    let value = |at: usize, field: &str, missing: f64| {
        line.number(at - 1, field).map(|value| value.filter(|value| *value < missing))
    };
    let opaque = value(24, "opaque sky cover", 99.0)?;
    let cover = value(23, "total sky cover", 99.0)?;
    Ok(Reading {
        temperature: value(7, "dry bulb temperature", 99.9)?,
        dew_point: value(8, "dew point temperature", 99.9)?,
        humidity: value(9, "relative humidity", 999.0)?.map(|percent| percent / 100.0),
        pressure: value(10, "pressure", 999_999.0)?,
        sky: value(13, "horizontal infrared radiation", 9999.0)?.filter(|sky| *sky > 0.0),
        global: value(14, "global horizontal radiation", 9999.0)?,
        beam: value(15, "direct normal radiation", 9999.0)?,
        diffuse: value(16, "diffuse horizontal radiation", 9999.0)?,
        wind: value(22, "wind speed", 999.0)?,
        wind_from: value(21, "wind direction", 999.0)?,
        cloud: opaque.or(cover).map(|tenths| tenths / 10.0),
        snow_depth: value(31, "snow depth", 999.0)?.map(|depth| depth / 100.0),
        fallen: fallen(value(34, "liquid precipitation", 999.0)?, line.number(34, "its period")?),
        seen: seen(line.text(26), line.text(27)),
        ..Reading::none(line.number, date, hour)
    })
}

fn time(line: &Line<'_>) -> Result<(Date, u8), FileError> {
    let texts = [0, 1, 2].map(|at| line.text(at));
    let told = |what, text: &str| FileError::Time { line: line.number, what, text: shown(text) };
    let [year, month, day] = texts;
    let date = match (year.parse(), month.parse(), day.parse()) {
        (Ok(year), Ok(month), Ok(day)) => Date::new(year, month, day),
        _ => None,
    };
    let date = date.ok_or_else(|| told("day", &texts.join("-")))?;
    Ok((date, line.text(3).parse().map_err(|_| told("hour", line.text(3)))?))
}

/// A depth and its period in hours. No depth in no time was not read at all; a depth without one is of the hour.
fn fallen(water: Option<f64>, hours: Option<f64>) -> Option<Fallen> {
    let water = water?;
    let hours = (1..=98_u8).find(|whole| (f64::from(*whole) - hours.unwrap_or(1.0)).abs() < 0.5);
    match hours {
        Some(hours) => Some(Fallen { water, hours }),
        None => (water > 0.0).then_some(Fallen { water, hours: 1 }),
    }
}

/// The nine digits of present weather; an observer wrote them only where the column before says 0.
fn seen(observed: &str, codes: &str) -> Option<Seen> {
    let digits: Vec<usize> =
        codes.bytes().filter(u8::is_ascii_digit).map(|digit| usize::from(digit - b'0')).collect();
    // nothing but zeros would be everything at once: it is a column nobody filled
    if observed != "0" || digits.len() > 9 || digits.iter().all(|digit| *digit == 0) {
        return None;
    }
    // leading zeros are lost where programs took them for a number
    let digit = |at: usize| (at + digits.len()).checked_sub(10).map_or(0, |at| digits[at]);
    let of = |at: usize, kinds: [[f64; 3]; 3]| {
        let code = digit(at);
        if code < 9 { kinds[code / 3][code % 3] } else { 0.0 }
    };
    let rain = of(2, [STEADY, STEADY, STEADY]).max(of(3, [STEADY, SLIGHT, SLIGHT]));
    let snow = [
        of(4, [SNOWING, SLIGHT, CRYSTALS]),
        of(5, [SNOWING, SNOWING, SLIGHT]),
        of(6, [SNOWING, NONE, NONE]),
        of(9, [SNOWING, NONE, NONE]),
    ];
    Some(Seen { rain, snow: snow.into_iter().fold(0.0, f64::max) })
}

/// Takes off depths of snow that only say whether there is any.
fn without_flags(readings: &mut [Reading], filled: &mut Filled) {
    let deepest = readings.iter().filter_map(|reading| reading.snow_depth).fold(0.0, f64::max);
    if deepest * 100.0 > FLAG {
        return;
    }
    for reading in readings {
        if reading.snow_depth.take().is_some_and(|depth| depth > 0.0) {
            filled.add(What::SnowDepth, How::LeftOut);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_an_observer_saw() {
        assert_eq!(seen("9", "999099999"), None);
        assert_eq!(seen("0", "999999999"), Some(Seen::default()));
        assert_eq!(seen("0", "999099999"), Some(Seen { rain: 0.0, snow: 0.25 }));
        assert_eq!(seen("0", "919199999"), Some(Seen { rain: 3.0, snow: 1.0 }));
        // ice pellets stand twice; one leading zero was lost
        assert_eq!(seen("0", "99991991"), Some(Seen { rain: 0.0, snow: 1.0 }));
        assert_eq!(seen("0", "9999999999"), None);
        assert_eq!(seen("0", "0"), None);
    }

    #[test]
    fn a_depth_needs_a_time() {
        assert_eq!(fallen(Some(0.0), Some(0.0)), None);
        assert_eq!(fallen(Some(2.0), Some(0.0)), Some(Fallen { water: 2.0, hours: 1 }));
        assert_eq!(fallen(Some(2.0), Some(6.0)), Some(Fallen { water: 2.0, hours: 6 }));
        assert_eq!(fallen(None, Some(6.0)), None);
        assert_eq!(fallen(Some(0.0), Some(99.0)), None);
    }
}
