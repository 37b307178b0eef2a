//! Readings made a year: what goes in comes out, and what was filled is counted.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

use proptest::prelude::*;
use winter::calendar::Date;
use winter::sky::Sky;
use winter::weather::{
    Fallen, Filled, HOURS, How, Reading, Seen, Site, Weather, WeatherError, What, snow_share,
};

fn site(latitude: f64) -> Site {
    Site { name: "test".into(), latitude, longitude: -72.3, zone: -5.0, height: 180.0 }
}

/// A year as even as can be: warm at midsummer, cold half a year later, a cloudless sky.
fn year(latitude: f64) -> Vec<Reading> {
    (0..HOURS)
        .map(|place| {
            let day = u16::try_from(place / 24 + 1).unwrap();
            let hour = u8::try_from(place % 24 + 1).unwrap();
            let season = (std::f64::consts::TAU * (f64::from(day) - 20.0) / 365.0).cos();
            Reading {
                temperature: Some(8.0 - latitude.signum() * 15.0 * season),
                dew_point: Some(-25.0),
                pressure: Some(99_000.0),
                wind: Some(2.0),
                cloud: Some(0.0),
                global: Some(0.0),
                beam: Some(0.0),
                diffuse: Some(0.0),
                fallen: Some(Fallen { water: 0.0, hours: 1 }),
                ..Reading::none(place + 9, Date::of(2001, day), hour)
            }
        })
        .collect()
}

fn made(readings: &[Reading]) -> Result<Weather, WeatherError> {
    Weather::of(site(43.6), readings, None, Filled::default())
}

#[test]
fn a_year_without_holes_stays_as_it_is() {
    let weather = made(&year(43.6)).unwrap();
    assert_eq!(weather.hours.len(), HOURS);
    assert!(weather.filled.is_empty(), "{:?}", weather.filled);
    assert!(weather.hours.iter().all(|hour| hour.falls() == 0.0 && hour.sky.is_none()));
}

#[test]
fn holes_are_bridged_and_counted() {
    let mut readings = year(43.6);
    for reading in &mut readings[100..110] {
        reading.temperature = None;
        reading.dew_point = None;
        reading.humidity = Some(0.5);
        reading.pressure = Some(-3.0);
    }
    readings[100].temperature = Some(999.0);
    let weather = made(&readings).unwrap();
    let count = |what, how| weather.filled.hours(what, how);
    assert_eq!(count(What::Temperature, How::Dropped), 1);
    assert_eq!(count(What::Temperature, How::Between), 10);
    assert_eq!(count(What::DewPoint, How::Derived), 10);
    assert_eq!(count(What::Pressure, How::Dropped), 10);
    assert_eq!(count(What::Pressure, How::Between), 10);
    assert!((weather.hours[105].humidity() - 0.5).abs() < 1e-9);
    assert!((weather.hours[105].pressure - 99_000.0).abs() < 1e-6);
}

#[test]
fn what_was_never_read_is_derived_or_assumed_and_said() {
    let mut readings = year(43.6);
    for reading in &mut readings {
        *reading = Reading {
            temperature: reading.temperature,
            ..Reading::none(reading.line, reading.date, reading.hour)
        };
    }
    let weather = made(&readings).unwrap();
    let count = |what, how| weather.filled.hours(what, how);
    assert_eq!(count(What::Pressure, How::Derived), HOURS);
    assert_eq!(count(What::DewPoint, How::Assumed), HOURS);
    assert_eq!(count(What::Wind, How::Assumed), HOURS);
    assert_eq!(count(What::Cloud, How::Assumed), HOURS);
    assert_eq!(count(What::Precipitation, How::None), HOURS);
    // by day only: about half the hours of a year
    assert!((4000..4900).contains(&count(What::Light, How::Assumed)));
    assert!(weather.hours.iter().all(|hour| hour.sky_down(&Sky::default()) > 100.0));
    let noon = weather.hours.iter().map(|hour| hour.light.global).fold(0.0, f64::max);
    assert!((500.0..1000.0).contains(&noon), "{noon}");
}

#[test]
fn hours_out_of_order_or_twice_are_told_with_their_line() {
    let mut shuffled = year(43.6);
    shuffled.swap(500, 501);
    let told = made(&shuffled).unwrap_err();
    assert!(matches!(told, WeatherError::Order { line: 509, .. }), "{told}");
    let mut twice = year(43.6);
    twice.insert(48, twice[47]);
    assert!(matches!(made(&twice), Err(WeatherError::Order { line: 56, .. })));
    let mut odd = year(43.6);
    odd[3].hour = 25;
    assert!(matches!(made(&odd), Err(WeatherError::Hour { line: 12, hour: 25 })));
}

#[test]
fn short_years_and_long_gaps_are_told() {
    let mut short = year(43.6);
    short.truncate(4000);
    let told = made(&short).unwrap_err();
    assert_eq!(told, WeatherError::Gap { line: 0, from: "month 6 day 16 hour 17".into(), hours: 4760 });
    assert!(told.to_string().contains("(at the end)"));
    let mut hole = year(43.6);
    hole.drain(1000..1025);
    assert!(matches!(made(&hole), Err(WeatherError::Gap { line: 1034, hours: 25, .. })));
    let mut small = year(43.6);
    small.drain(1000..1024);
    let weather = made(&small).unwrap();
    assert_eq!(weather.filled.hours(What::Hour, How::Between), 24);
    assert_eq!(weather.hours.len(), HOURS);
    assert!(matches!(made(&[]), Err(WeatherError::Gap { hours: HOURS, .. })));
    let mut cold = year(43.6);
    for reading in &mut cold[300..330] {
        reading.temperature = None;
    }
    let told = made(&cold).unwrap_err();
    assert_eq!(
        told.to_string(),
        "no temperature that can be for 30 hours from month 1 day 13 hour 13 on; up to 24 in a row are filled in"
    );
}

#[test]
fn a_leap_day_is_left_out() {
    let mut readings = year(43.6);
    let date = Date::new(2004, 2, 29).unwrap();
    let leap = (1..=24).map(|hour| Reading { date, hour, ..readings[1415] }).collect::<Vec<_>>();
    readings.splice(1416..1416, leap);
    let weather = made(&readings).unwrap();
    assert_eq!(weather.filled.hours(What::Hour, How::LeftOut), 24);
    assert_eq!(weather.filled.iter().count(), 1);
}

#[test]
fn winter_comes_in_one_piece_in_either_hemisphere() {
    for latitude in [43.6, -43.6] {
        let weather = Weather::of(site(latitude), &year(latitude), None, Filled::default()).unwrap();
        let turned: Vec<f64> = weather.through_winter().map(|hour| hour.temperature).collect();
        assert_eq!(turned.len(), HOURS);
        // below the mean in one run: crossed twice, down and up
        let crossed = turned.windows(2).filter(|pair| (pair[0] < 8.0) != (pair[1] < 8.0)).count();
        assert_eq!(crossed, 2, "{latitude}");
        assert!(turned[0] > 15.0 && turned[HOURS / 2] < 0.0);
        let noon = &weather.hours[12];
        assert!(weather.sun(noon).declination < 0.0);
        assert!((weather.sun(noon).zenith < 50.0) == (latitude < 0.0), "January is summer in the south");
    }
}

#[test]
fn places_and_totals_that_are_none_are_refused() {
    let bad = Site { latitude: 143.0, ..site(0.0) };
    assert!(matches!(
        Weather::of(bad, &[], None, Filled::default()),
        Err(WeatherError::Site { field: "latitude", .. })
    ));
    let mut totals = [50.0; 12];
    totals[4] = f64::NAN;
    let told = Weather::of(site(43.6), &year(43.6), Some(&totals), Filled::default());
    assert!(matches!(told, Err(WeatherError::Total { month: 5, .. })));
}

/// All snow at 0 °C, all rain at 2 °C, a straight line between (rule chosen). Exact.
#[test]
fn between_nought_and_two_degrees_both_fall() {
    for (temperature, share) in [(-1.0, 1.0), (0.0, 1.0), (0.5, 0.75), (1.0, 0.5), (2.0, 0.0), (3.0, 0.0)] {
        assert!((snow_share(temperature) - share).abs() < 1e-9);
    }
}

#[test]
fn totals_of_several_hours_are_spread_over_the_hours_without() {
    let mut readings = year(43.6);
    for reading in &mut readings[10..16] {
        reading.fallen = None;
    }
    readings[12].fallen = Some(Fallen { water: 2.0, hours: 1 });
    readings[15].fallen = Some(Fallen { water: 12.0, hours: 6 });
    let weather = made(&readings).unwrap();
    let falls: Vec<f64> = weather.hours[10..16].iter().map(winter::weather::Hour::falls).collect();
    assert_eq!(falls, [2.0; 6]);
    assert_eq!(weather.filled.hours(What::Precipitation, How::Spread), 5);
    assert_eq!(weather.filled.hours(What::Precipitation, How::None), 0);
}

#[test]
fn a_bad_reading_is_dropped_with_every_total_it_is_in() {
    let mut readings = year(43.6);
    readings[500].fallen = Some(Fallen { water: 253.0, hours: 1 });
    readings[502].fallen = Some(Fallen { water: 100.0, hours: 3 });
    readings[700].fallen = Some(Fallen { water: 753.0, hours: 24 });
    let weather = made(&readings).unwrap();
    assert_eq!(weather.filled.hours(What::Precipitation, How::Dropped), 3);
    assert!(weather.hours.iter().all(|hour| hour.falls() == 0.0));
}

#[test]
fn months_come_to_their_totals_by_what_was_seen_read_or_damp() {
    let mut readings = year(43.6);
    let totals: [f64; 12] = std::array::from_fn(|month| 40.0 + month as f64);
    // January read, February seen, the rest neither
    readings[30].fallen = Some(Fallen { water: 20.0, hours: 1 });
    for (at, seen) in [(800, Seen { rain: 0.0, snow: 1.0 }), (801, Seen { rain: 3.0, snow: 0.0 })] {
        readings[at].seen = Some(seen);
    }
    let weather = Weather::of(site(43.6), &readings, Some(&totals), Filled::default()).unwrap();
    for (found, wanted) in weather.sum_by_month(winter::weather::Hour::falls).iter().zip(totals) {
        assert!((found - wanted).abs() < 1e-9);
    }
    let count = |how| weather.filled.hours(What::Precipitation, how);
    assert_eq!((count(How::Scaled), count(How::Reported)), (1, 2));
    assert!((weather.hours[800].snow - 41.0 / 4.0).abs() < 1e-9 && weather.hours[800].rain == 0.0);
    // rain was seen in frost: it is not snow for that
    assert!(
        (weather.hours[801].rain - 3.0 * 41.0 / 4.0).abs() < 1e-9 && weather.hours[801].temperature < 0.0
    );
    assert!(count(How::Damp) >= 10 * 67, "a tenth of the hours of ten months");
}

#[test]
fn where_no_depth_was_read_what_was_seen_tells_roughly_how_much() {
    let mut readings = year(43.6);
    for reading in &mut readings {
        reading.fallen = None;
        reading.seen = Some(Seen::default());
    }
    readings[300].seen = Some(Seen { rain: 0.0, snow: 0.25 });
    readings[4300].seen = Some(Seen { rain: 3.0, snow: 0.0 });
    let weather = made(&readings).unwrap();
    assert!((weather.hours[300].snow - 0.25).abs() < 1e-12 && (weather.hours[4300].rain - 3.0).abs() < 1e-12);
    assert_eq!(weather.filled.hours(What::Precipitation, How::Reported), 2);
    assert_eq!(weather.filled.hours(What::Precipitation, How::None), 0);
    // one depth in the year, and it is depths that are believed
    readings[0].fallen = Some(Fallen { water: 0.0, hours: 1 });
    let weather = made(&readings).unwrap();
    assert!(weather.hours.iter().all(|hour| hour.falls() == 0.0));
    assert_eq!(weather.filled.hours(What::Precipitation, How::None), HOURS - 1);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    /// Whatever is read of precipitation: nothing below nought, and months come to their totals.
    #[test]
    fn precipitation_closes(
        rows in prop::collection::vec((0..HOURS, -5.0..400.0_f64, 0..60_u8), 0..200),
        totals in prop::array::uniform12(0.0..300.0_f64),
        holes in prop::collection::vec((0..HOURS, 0..24_usize), 0..20),
    ) {
        let mut readings = year(43.6);
        for (from, count) in holes {
            readings[from..(from + count).min(HOURS)].iter_mut().for_each(|reading| reading.fallen = None);
        }
        for (at, water, hours) in rows {
            readings[at].fallen = Some(Fallen { water, hours });
        }
        let weather = made(&readings).unwrap();
        prop_assert!(weather.hours.iter().all(|hour| hour.rain >= 0.0 && hour.snow >= 0.0));
        let weather = Weather::of(site(43.6), &readings, Some(&totals), Filled::default()).unwrap();
        for (found, wanted) in weather.sum_by_month(winter::weather::Hour::falls).iter().zip(totals) {
            prop_assert!((found - wanted).abs() < 1e-9 * (1.0 + wanted));
        }
    }

    /// Whatever is read of the air, the year is whole, or a reason is told.
    #[test]
    fn years_are_whole_or_refused(rows in prop::collection::vec((0..HOURS, prop::num::f64::ANY, 0..8_u8), 0..400)) {
        let mut readings = year(43.6);
        for (at, value, field) in rows {
            let reading = &mut readings[at];
            let field = match field {
                0 => &mut reading.temperature,
                1 => &mut reading.dew_point,
                2 => &mut reading.pressure,
                3 => &mut reading.wind,
                4 => &mut reading.cloud,
                5 => &mut reading.global,
                6 => &mut reading.beam,
                _ => &mut reading.diffuse,
            };
            *field = Some(value);
        }
        if let Ok(weather) = made(&readings) {
            for hour in &weather.hours {
                let all = [hour.temperature, hour.dew_point, hour.pressure, hour.wind, hour.cloud, hour.light.global, hour.light.beam, hour.light.diffuse];
                prop_assert!(all.iter().all(|value| value.is_finite()));
                prop_assert!(hour.dew_point <= hour.temperature && (0.0..=1.0).contains(&hour.cloud));
                prop_assert!(hour.light.global >= 0.0 && hour.light.beam >= 0.0 && hour.light.diffuse >= -1e-9);
            }
        }
    }
}
