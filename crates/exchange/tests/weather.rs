//! Weather files: small ones made here, and those of weather services where they are at hand.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]
#![allow(clippy::print_stdout, reason = "a test that is skipped says why")]

use std::fmt::Write as _;
use std::path::PathBuf;

use exchange::weather::{FileError, epw, normals, tmy3};
use proptest::prelude::*;
use winter::calendar::Date;
use winter::design::{Frost, degree_days, exceeded};
use winter::slope::{Diffuse, Plane};
use winter::weather::{HOURS, Hour, How, Weather, WeatherError, What};
use winter::year::Normals;

/// A file of a weather service; none, and said so, where they are not at hand.
fn service(name: &str) -> Option<Vec<u8>> {
    let Some(folder) = std::env::var_os("WEATHERSHED_DATA") else {
        println!("skipped: WEATHERSHED_DATA does not name the folder that holds {name}");
        return None;
    };
    match std::fs::read(PathBuf::from(folder).join(name)) {
        Ok(bytes) => Some(bytes),
        Err(error) => {
            println!("skipped: {name}: {error}");
            None
        }
    }
}

/// Temperature of an hour in a made year, °C: warm at midsummer, in the tenth of a degree that files have.
fn warm(day: u16, hour: u16, latitude: f64) -> f64 {
    let season = (std::f64::consts::TAU * (f64::from(day) - 20.0) / 365.0).cos();
    let t = 8.0 - latitude.signum() * 15.0 * season
        + 4.0 * (f64::from(hour) / 24.0 * std::f64::consts::TAU).sin();
    (t * 10.0).round() / 10.0
}

fn epw_head(latitude: f64) -> String {
    format!(
        "LOCATION,Made Up,XX,YYY,none,000000,{latitude},-72.3,-5.0,180.0\nDESIGN CONDITIONS,0\nTYPICAL/EXTREME PERIODS,0\n\
         GROUND TEMPERATURES,0\nHOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\nCOMMENTS 1,made\nCOMMENTS 2,made\nDATA PERIODS,1,1,Data,Sunday,1/1,12/31\n"
    )
}

fn epw_row(year: i32, month: u8, day: u8, hour: u16, t: f64, codes: &str, depth: &str) -> String {
    format!(
        "{year},{month},{day},{hour},60,?,{t:.1},{:.1},80,98000,0,0,9999,0,0,0,0,0,0,0,180,3.0,8,6,20,2000,0,{codes},10,0,0,88,0.2,{depth}\n",
        t - 3.0
    )
}

/// Line 9 is the first hour.
fn epw_file(latitude: f64) -> String {
    let mut text = epw_head(latitude);
    for day in 1..=365 {
        let date = Date::of(2001, day);
        for hour in 1..=24 {
            text += &epw_row(
                2001,
                date.month(),
                date.day(),
                hour,
                warm(day, hour, latitude),
                "999999999",
                "0.0,1.0",
            );
        }
    }
    text
}

fn tmy3_file() -> String {
    let mut text = String::from(
        "000000,\"MADE, UP\",XX,-5.0,44.0,-72.3,180\nDate (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),DNI (W/m^2),DHI (W/m^2),TotCld (tenths),\
         OpqCld (tenths),Dry-bulb (C),Dew-point (C),RHum (%),Pressure (mbar),Wspd (m/s),Lprecip depth (mm),Lprecip quantity (hr)\n",
    );
    for day in 1..=365 {
        let date = Date::of(1999, day);
        for hour in 1..=24_u16 {
            let t = warm(day, hour, 44.0);
            writeln!(
                text,
                "{:02}/{:02}/1999,{hour:02}:00,0,0,0,8,-9900,{t:.1},{:.1},80,980,3.0,0,1",
                date.month(),
                date.day(),
                t - 3.0
            )
            .unwrap();
        }
    }
    text
}

fn replaced(text: &str, line: usize, with: impl Fn(&str) -> String) -> String {
    let lines = text.lines().enumerate();
    lines.map(|(at, old)| if at + 1 == line { with(old) } else { old.to_owned() } + "\n").collect()
}

#[test]
fn made_files_read_without_a_hole() {
    let weather = epw(epw_file(44.0).as_bytes(), None).unwrap();
    assert!(weather.filled.is_empty(), "{:?}", weather.filled);
    assert_eq!(weather.site.name, "Made Up, XX");
    let hour = &weather.hours[24 * 31 + 5];
    assert_eq!((hour.date.month(), hour.date.day(), hour.hour), (2, 1, 6));
    assert!((hour.temperature - warm(32, 6, 44.0)).abs() < 1e-9 && (hour.cloud - 0.6).abs() < 1e-12);
    assert!((hour.pressure - 98_000.0).abs() < 1e-9 && hour.sky.is_none());

    let other = tmy3(tmy3_file().as_bytes(), None).unwrap();
    assert!(other.filled.is_empty(), "{:?}", other.filled);
    assert_eq!(other.site.name, "MADE, UP, XX");
    let same = weather.hours.iter().zip(&other.hours);
    assert!(
        same.clone()
            .all(|(a, b)| (a.temperature - b.temperature).abs() < 1e-9
                && (a.pressure - b.pressure).abs() < 1e-9)
    );
    // opaque clouds were not told there: all clouds stand for them
    assert!(same.clone().all(|(_, b)| (b.cloud - 0.8).abs() < 1e-12));
}

#[test]
fn lines_may_end_in_any_way_and_begin_with_a_mark() {
    let text = epw_file(44.0);
    let marked = [b"\xef\xbb\xbf", text.replace('\n', "\r\n").as_bytes(), b"\r\n\r\n"].concat();
    assert_eq!(epw(&marked, None), epw(text.as_bytes(), None));
}

#[test]
fn what_is_wrong_is_told_with_its_line() {
    let text = epw_file(44.0);
    let told = |text: &str| epw(text.as_bytes(), None).unwrap_err();
    let row = |line, with: &dyn Fn(&str) -> String| told(&replaced(&text, line, with));
    assert_eq!(told("").to_string(), "line 1: this is no EPW weather file: it is empty");
    assert_eq!(
        told("station,1,2\n").to_string(),
        "line 1: this is no EPW weather file: it begins with `station`, not with LOCATION"
    );
    assert!(
        told(&epw_head(44.0).replace("DATA", "DATE"))
            .to_string()
            .contains("no line begins with DATA PERIODS")
    );
    assert!(matches!(told(&text.replace("PERIODS,1,1,", "PERIODS,1,4,")), FileError::Rows { line: 8, .. }));
    let short = row(100, &|old| old.split(',').take(20).collect::<Vec<_>>().join(","));
    assert_eq!(short, FileError::Columns { line: 100, has: 20, wants: 32 });
    let odd = row(57, &|old| old.replacen(",80,", ",wet,", 1));
    assert_eq!(odd.to_string(), "line 57, relative humidity: `wet` is not a number");
    let no_day = row(9, &|old| old.replacen("2001,1,1,", "2001,2,30,", 1));
    assert_eq!(no_day.to_string(), "line 9: `2001-2-30` is no day");
    let no_hour = row(9, &|old| old.replacen("2001,1,1,1,", "2001,1,1,noon,", 1));
    assert_eq!(no_hour.to_string(), "line 9: `noon` is no hour");
    let order = row(60, &|old| old.replacen("2001,1,3,4,", "2001,1,3,3,", 1));
    assert_eq!(
        order.to_string(),
        "line 60: month 1 day 3 hour 3 comes after month 1 day 3 hour 3; hours are to stand in order, each once"
    );
    let south = told(&text.replace(",44,", ",144,"));
    assert!(matches!(south, FileError::Weather(WeatherError::Site { field: "latitude", .. })));
    let cut: String = text.lines().take(5000).fold(String::new(), |all, line| all + line + "\n");
    assert!(matches!(told(&cut), FileError::Weather(WeatherError::Gap { line: 0, hours: 3768, .. })));

    let text = tmy3_file();
    let told = |text: &str| tmy3(text.as_bytes(), None).unwrap_err();
    assert!(matches!(told("a,b\n"), FileError::Kind { line: 1, .. }));
    assert_eq!(told(&text.replace("Dry-bulb", "Wet-bulb")), FileError::Column { line: 2, name: "Dry-bulb" });
    assert_eq!(
        told(&replaced(&text, 7, |_| "01/01/1999,05:00,0".into())),
        FileError::Columns { line: 7, has: 3, wants: 12 }
    );
    assert_eq!(
        told(&replaced(&text, 7, |old| old.replace("05:00", "05:30"))).to_string(),
        "line 7: `05:30` is no time as HH:00"
    );
    assert!(matches!(
        told(&replaced(&text, 7, |old| old.replace("01/01", "1/32"))),
        FileError::Time { line: 7, .. }
    ));
}

#[test]
fn what_is_missing_or_cannot_be_is_counted() {
    let text = epw_file(44.0);
    // dry bulb 99.9 is missing, −120 cannot be; a row is gone
    let text = replaced(&text, 200, |old| old.replacen(&format!(",{:.1},", warm(8, 24, 44.0)), ",99.9,", 1));
    let text = replaced(&text, 300, |old| {
        let mut columns: Vec<&str> = old.split(',').collect();
        columns[6] = "-120";
        columns.join(",")
    });
    let lines: Vec<&str> = text.lines().collect();
    let text = [&lines[..399], &lines[400..]].concat().join("\n");
    let weather = epw(text.as_bytes(), None).unwrap();
    let count = |what, how| weather.filled.hours(what, how);
    assert_eq!(count(What::Temperature, How::Dropped), 1);
    assert_eq!(count(What::Temperature, How::Between), 3);
    assert_eq!(count(What::Hour, How::Between), 1);
    assert_eq!(count(What::Precipitation, How::None), 1);
    assert_eq!(weather.hours.len(), HOURS);
}

#[test]
fn a_leap_day_is_left_out_and_the_south_has_its_winter_in_july() {
    let text = epw_file(-44.0);
    let leap: String = (1..=24).map(|hour| epw_row(2004, 2, 29, hour, 0.0, "999999999", "0.0,1.0")).collect();
    let at = text.find("2001,3,1,1,").unwrap();
    let text = [&text[..at], &leap, &text[at..]].concat();
    let weather = epw(text.as_bytes(), None).unwrap();
    assert_eq!(weather.filled.hours(What::Hour, How::LeftOut), 24);
    assert_eq!(weather.hours.len(), HOURS);
    let means = weather.by_month(|hour| hour.temperature);
    assert!(means[6] < -5.0 && means[0] > 20.0);
    assert_eq!(weather.through_winter().next().unwrap().date.month(), 1);
}

#[test]
fn snow_is_made_of_what_was_seen_and_the_months_totals() {
    let mut text = epw_head(44.0);
    for day in 1..=365 {
        let date = Date::of(2001, day);
        for hour in 1..=24 {
            // ten hours of light snow and five of moderate rain every tenth day, no depth ever
            let codes = match (day % 10, hour) {
                (0, 1..=10) => "999099999",
                (0, 11..=15) => "919999999",
                _ => "999999999",
            };
            text += &epw_row(2001, date.month(), date.day(), hour, warm(day, hour, 44.0), codes, "0.0,0.0");
        }
    }
    let totals = [80.0; 12];
    let weather = epw(text.as_bytes(), Some(&totals)).unwrap();
    assert!(weather.sum_by_month(Hour::falls).iter().all(|sum| (sum - 80.0).abs() < 1e-9));
    // ten times 0.25 against five times 3: one part in seven is snow
    assert!(weather.sum_by_month(|hour| hour.snow).iter().all(|sum| (sum - 80.0 / 7.0).abs() < 1e-9));
    assert_eq!(weather.filled.hours(What::Precipitation, How::Reported), 36 * 15);
    assert_eq!(weather.filled.hours(What::Phase, How::Reported), 36 * 15);
    let without = epw(text.as_bytes(), None).unwrap();
    let snow: f64 = without.hours.iter().map(|hour| hour.snow).sum();
    assert!((snow - 36.0 * 10.0 * 0.25).abs() < 1e-9);
    assert_eq!(without.filled.hours(What::Precipitation, How::Reported), 36 * 15);
}

/// Months that are as wet as given, for files that tell no precipitation: Montréal, about 1000 kg/m² a year (a round figure, to bring it to something).
const ROUND: [f64; 12] = [80.0; 12];

/// A design year of Montréal (CWEC, Environment Canada), in which depths of rain are 0 and depths of snow a flag.
#[test]
fn a_snowy_city_without_precipitation_of_its_own() {
    let Some(bytes) = service("montreal-cwec.epw") else { return };
    let weather = epw(&bytes, Some(&ROUND)).unwrap();
    // first row: 6.8 °C, 4.9 °C, 100 550 Pa, 322 W/m² of sky, 7.2 m/s
    let first = &weather.hours[0];
    assert_eq!((first.temperature, first.dew_point, first.pressure), (6.8, 4.9, 100_550.0));
    assert_eq!((first.sky, first.wind, first.cloud), (Some(322.0), 7.2, 1.0));
    assert_eq!(first.wind_from, Some(225.0));
    assert_eq!(first.snow_depth, None);
    let count = |what, how| weather.filled.hours(what, how);
    // the flag is 1 in 2976 hours
    assert_eq!(count(What::SnowDepth, How::LeftOut), 2976);
    assert!(weather.sum_by_month(Hour::falls).iter().all(|sum| (sum - 80.0).abs() < 1e-9));
    assert_eq!(count(What::Precipitation, How::Damp), 0, "every month has reports");
    let snow = weather.sum_by_month(|hour| hour.snow);
    assert!(snow[0] > 40.0 && snow[5..8].iter().all(|sum| *sum == 0.0), "{snow:?}");
    // without totals: 780 kg/m² of rain and 220 of snow in an average year, from memory; of this one, a sixth either way
    let seen = epw(&bytes, None).unwrap();
    let [rain, snow] =
        [Hour::falls, |hour: &Hour| hour.snow].map(|of| seen.hours.iter().map(of).sum::<f64>());
    assert!(
        ((rain - snow) / 780.0 - 1.0).abs() < 0.167 && (snow / 220.0 - 1.0).abs() < 0.167,
        "{rain} {snow}"
    );
    let temperatures: Vec<f64> = weather.hours.iter().map(|hour| hour.temperature).collect();
    // its own heading gives −23.7 °C for 99.6 % and −21.1 °C for 99 % of thirty years; one typical year is near
    let [coldest, cold] = [0.996, 0.99].map(|share| exceeded(&temperatures, share).unwrap());
    assert!((coldest + 23.7).abs() < 2.5 && (cold + 21.1).abs() < 2.5, "{coldest} {cold}");
    let frost = Frost::of_hours(&weather.hours);
    assert!(frost.cycles > 30 && frost.index > 700.0, "{frost:?}");
}

/// A typical year of Denver (TMY3 as EPW, National Renewable Energy Laboratory), in which some depths are totals of 3, 6 and 24 hours. Counts by a script of the same rules.
#[test]
fn totals_of_several_hours_in_a_dry_high_city() {
    let Some(bytes) = service("denver-tmy3.epw") else { return };
    let weather = epw(&bytes, None).unwrap();
    let first = &weather.hours[0];
    assert_eq!((first.temperature, first.pressure, first.sky), (-18.0, 83_700.0, Some(181.0)));
    // depths of one hour: 51 of 1 mm, 20 of 2, 10 of 3, 4 of 4, 5 of 5, 3 of 6, and 7, 8, 9, 11, 12, 34, 13 twice
    let hourly = f64::from(51 + 20 * 2 + 10 * 3 + 4 * 4 + 5 * 5 + 3 * 6 + 7 + 8 + 9 + 11 + 12 + 34 + 2 * 13);
    let all: f64 = weather.hours.iter().map(Hour::falls).sum();
    // and totals of six hours, 2 mm twice and 1 once, of which nothing was told hour by hour
    assert!((all - hourly - 5.0).abs() < 1e-9, "{all} for {hourly}");
    let count = |how| weather.filled.hours(What::Precipitation, how);
    assert_eq!((count(How::Dropped), count(How::Spread), count(How::None)), (0, 4, 1385));
    assert!(weather.hours.iter().any(|hour| hour.snow > 0.0));
    // handbooks have about 5900 °F·d below 65 °F there (from memory), 3300 K·d; a typical year is near
    let found = degree_days(&weather.hours, 18.3);
    assert!((2800.0..3800.0).contains(&found), "{found}");
}

/// A typical year of Sand Point, Alaska (TMY3, National Renewable Energy Laboratory): most precipitation missing, 27 depths that cannot be, among them 753 mm in a day.
#[test]
fn bad_depths_on_an_island() {
    let Some(bytes) = service("sand-point-tmy3.csv") else { return };
    let weather = tmy3(&bytes, None).unwrap();
    let first = &weather.hours[0];
    assert_eq!((first.temperature, first.dew_point, first.pressure), (4.0, 3.0, 101_200.0));
    // counted apart from this program, with a script by the same rules: 27 dropped, 67 hours take a share of a total, 6198 are told nothing
    let count = |how| weather.filled.hours(What::Precipitation, how);
    assert_eq!((count(How::Dropped), count(How::Spread), count(How::None)), (27, 67, 6198));
    let most = weather.hours.iter().map(Hour::falls).fold(0.0, f64::max);
    assert!((most - 5.0).abs() < 1e-9, "{most}");
    let all: f64 = weather.hours.iter().map(Hour::falls).sum();
    assert!((all - 106.0).abs() < 1e-9, "{all}");
}

/// Sun of the files against the sun of this program: hours with a beam have a sun above the horizon, and the radiation above the air that they give is ours.
#[test]
fn the_sun_of_the_files_is_where_ours_is() {
    for (name, read) in
        [("denver-tmy3.epw", epw as fn(&[u8], Option<&[f64; 12]>) -> _), ("sand-point-tmy3.csv", tmy3)]
    {
        let Some(bytes) = service(name) else { return };
        let weather: Weather = read(&bytes, None).unwrap();
        for hour in weather.hours.iter().filter(|hour| hour.light.beam > 0.0) {
            // an hour at whose end the sun rises, at whose beginning it sets
            assert!(weather.sun(hour).zenith < 97.0, "{name} {:?} hour {}", hour.date, hour.hour);
        }
        // global is what falls level of the beam, and the sky: with the sun well up, over the year, to 3 %
        let high = |hour: &&Hour| weather.sun(hour).zenith < 75.0;
        let level = |hour: &Hour| hour.light.beam * weather.sun(hour).overhead() + hour.light.diffuse;
        let [ours, theirs] = weather
            .hours
            .iter()
            .filter(high)
            .fold([0.0; 2], |[a, b], hour| [a + level(hour), b + hour.light.global]);
        assert!((ours / theirs - 1.0_f64).abs() < 0.03, "{name}: {ours} for {theirs}");
    }
}

/// Over a cold half year at 39.8° north, a slope to the south receives more than level ground and one to the north less; one that lies level, what is level.
#[test]
fn slopes_of_a_house_in_denver() {
    let Some(bytes) = service("denver-tmy3.epw") else { return };
    let weather = epw(&bytes, None).unwrap();
    let winter: Vec<&Hour> = weather.through_winter().skip(HOURS / 4).take(HOURS / 2).collect();
    let sum = |tilt, azimuth, diffuse| {
        let plane = Plane { tilt, azimuth };
        winter.iter().map(|hour| weather.on(hour, &[plane], 0.2, diffuse)[0].total()).sum::<f64>()
    };
    let global: f64 = winter.iter().map(|hour| hour.light.global).sum();
    for diffuse in [Diffuse::Perez, Diffuse::Even] {
        let [level, south, north] =
            [(0.0, 180.0), (26.565, 180.0), (26.565, 0.0)].map(|(t, a)| sum(t, a, diffuse));
        assert!((level / global - 1.0).abs() < 0.03, "{level} for {global}");
        assert!(south > 1.3 * level && north < 0.75 * level, "{south} {level} {north}");
    }
    // at night nothing
    let night =
        weather.on(&weather.hours[0], &[Plane { tilt: 30.0, azimuth: 180.0 }], 0.6, Diffuse::Perez)[0];
    assert!(night.total().abs() < 1e-12);
}

const NORMALS: &str = "\"STATION\",\"DATE\",\"LATITUDE\",\"LONGITUDE\",\"ELEVATION\",\"NAME\",\"MLY-TAVG-NORMAL\",\"MLY-TMAX-NORMAL\",\"MLY-TMIN-NORMAL\",\"MLY-PRCP-NORMAL\",\
    \"MLY-PRCP-AVGNDS-GE001HI\",\"MLY-SNOW-NORMAL\"\n";

fn normals_file() -> String {
    (1..=12).fold(NORMALS.to_owned(), |all, month| {
        all + &format!("\"X\",\"{month:02}\",\" 44.0\",\"-72.0\",\" 100.0\",\"MADE UP, XX\",\" 32.0\",\" 42.0\",\" 22.0\",\" 2.00\",\" 9.0\",\"-7777\"\n")
    })
}

#[test]
fn normals_are_read_in_their_units() {
    let read = normals(normals_file().as_bytes()).unwrap();
    assert_eq!((read.site.name.as_str(), read.site.zone), ("MADE UP, XX", -5.0));
    let month = read.months[4];
    assert!(
        month.mean.abs() < 1e-9
            && (month.high - 10.0 / 1.8).abs() < 1e-9
            && (month.low + 10.0 / 1.8).abs() < 1e-9
    );
    assert!((month.precipitation - 50.8).abs() < 1e-9);
    assert_eq!((month.wet_days, month.snowfall), (Some(9.0), Some(0.0)));
    let told = |text: String| normals(text.as_bytes()).unwrap_err();
    assert_eq!(
        told(normals_file().replace("MLY-TMAX-NORMAL", "MLY")),
        FileError::Column { line: 1, name: "MLY-TMAX-NORMAL" }
    );
    assert_eq!(told(normals_file().replace("\"07\"", "\"06\"")).to_string(), "line 8: `06` is no month");
    assert_eq!(told(normals_file().replace("\"12\"", "\"13\"")).to_string(), "line 13: `13` is no month");
    assert_eq!(
        told(normals_file().replace("\" 2.00\"", "\"-9999\"")),
        FileError::Month { name: "MLY-PRCP-NORMAL", month: 1 }
    );
    assert_eq!(told(NORMALS.to_owned()).to_string(), "everything of month 1 is missing");
}

/// Normals 1991 to 2020 of Lebanon, New Hampshire (National Centers for Environmental Information): January 19.8 °F, 2.29 in on 10.5 days; 8134 °F·d below 65 °F in all. A year
/// made of them comes back to its months and to the degree days within 3 %.
#[test]
fn a_year_of_a_station_in_new_hampshire() {
    let Some(bytes) = service("normals-monthly-lebanon-nh.csv") else { return };
    let read: Normals = normals(&bytes).unwrap();
    assert!((read.months[0].mean - (19.8 - 32.0) / 1.8).abs() < 1e-9);
    assert!(
        (read.months[0].precipitation - 2.29 * 25.4).abs() < 1e-9 && read.months[0].wet_days == Some(10.5)
    );
    // by hand from its counts: lowest below 0 °F on 9 days, 10 on 15.8, 20 on 23 (about 16 °F), highest above 40 °F on 5.3 and 50 on 1.1 (about 10.5 °F), so about
    // 12.5 °F of days in all years, 5.1 of years: 11.4 °F within a January
    let deviation = read.months[0].deviation.unwrap();
    assert!((deviation - 11.4 / 1.8).abs() < 0.7, "{deviation}");
    let summer = read.months[6].deviation.unwrap();
    assert!((2.0..3.5).contains(&summer), "{summer}");
    for seed in [1, 2, 3] {
        let weather = read.year(seed).unwrap();
        // handbooks have about −20 °C for 99.6 % of thirty years (from memory); a year of normals is warm at its ends, by up to 5 K
        let temperatures: Vec<f64> = weather.hours.iter().map(|hour| hour.temperature).collect();
        let cold = exceeded(&temperatures, 0.996).unwrap();
        assert!((-25.0..-15.0).contains(&cold), "{cold}");
        let means = weather.by_month(|hour| hour.temperature);
        let falls = weather.sum_by_month(Hour::falls);
        for (at, month) in read.months.iter().enumerate() {
            assert!(
                (means[at] - month.mean).abs() < 0.1 && (falls[at] / month.precipitation - 1.0).abs() < 0.01
            );
        }
        // the sum of its monthly normals of degree days
        let wanted = [1401.1, 1191.4, 1027.7, 624.2, 277.2, 75.4, 13.7, 26.6, 168.7, 510.8, 832.5, 1184.2];
        let wanted = wanted.iter().sum::<f64>() / 1.8;
        let found = degree_days(&weather.hours, (65.0 - 32.0) / 1.8);
        assert!((found / wanted - 1.0).abs() < 0.03, "{found} for {wanted}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]
    #[test]
    fn bytes_of_any_kind_never_panic(bytes in prop::collection::vec(any::<u8>(), 0..600)) {
        let _ = (epw(&bytes, None), tmy3(&bytes, None), normals(&bytes));
    }

    /// Bytes after a true beginning.
    #[test]
    fn rows_of_any_kind_never_panic(rows in prop::collection::vec("[0-9,./: \"a-z-]{0,200}", 0..8)) {
        let rows = rows.join("\n");
        let head = tmy3_file().lines().take(2).collect::<Vec<_>>().join("\n");
        let _ = epw((epw_head(44.0) + &rows).as_bytes(), None);
        let _ = tmy3((head + "\n" + &rows).as_bytes(), None);
        let _ = normals((NORMALS.to_owned() + &rows).as_bytes());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    /// True files with bytes changed, taken out and put in: a whole year, or a reason.
    #[test]
    fn files_with_slips_never_panic(
        slips in prop::collection::vec((any::<prop::sample::Index>(), 0..3_u8, any::<u8>()), 1..12),
        kind in 0..3_u8,
    ) {
        let mut bytes = match kind {
            0 => epw_file(44.0),
            1 => tmy3_file(),
            _ => normals_file(),
        }
        .into_bytes();
        for (at, how, byte) in slips {
            let at = at.index(bytes.len());
            match how {
                0 => bytes[at] = byte,
                1 => drop(bytes.remove(at)),
                _ => bytes.insert(at, byte),
            }
        }
        match kind {
            0 | 1 => {
                let made = if kind == 0 { epw(&bytes, Some(&ROUND)) } else { tmy3(&bytes, Some(&ROUND)) };
                if let Ok(weather) = made {
                    prop_assert_eq!(weather.hours.len(), HOURS);
                    prop_assert!(weather.hours.iter().all(|hour| hour.temperature.is_finite() && hour.falls().is_finite()));
                }
            }
            _ => {
                if let Ok(read) = normals(&bytes) {
                    prop_assert!(read.year(1).is_ok_and(|weather| weather.hours.len() == HOURS) || read.year(1).is_err());
                }
            }
        }
    }
}
