//! Years out of monthly normals: shapes by their closed forms, months by their normals.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

use proptest::prelude::*;
use winter::design::degree_days;
use winter::weather::{HOURS, Hour, How, Site, Weather, What};
use winter::year::{Month, Normals, NormalsError, above_air, diurnal, noise, share_of_day, sunset};

/// D. Erbs and others 1983, in Duffie and Beckman (series from memory, worked out by itself): hours 1 to 24 to 0.002, mean 0, range 0.976.
#[test]
fn the_shape_of_a_day() {
    let wanted = [
        -0.2743, -0.3232, -0.3682, -0.4116, -0.4462, -0.4513, -0.4025, -0.2895, -0.1271, 0.05135, 0.2125,
        0.3396, 0.4328, 0.4959, 0.5245, 0.5067, 0.4357, 0.3223, 0.1926, 0.07383, -0.02086, -0.09496, -0.159,
        -0.219,
    ];
    let found: Vec<f64> = (1..=24).map(diurnal).collect();
    for (found, wanted) in found.iter().zip(wanted) {
        assert!((found - wanted).abs() < 0.002, "{found} for {wanted}");
    }
    let range =
        found.iter().copied().fold(f64::MIN, f64::max) - found.iter().copied().fold(f64::MAX, f64::min);
    assert!((range - 0.9758).abs() < 0.002);
    assert!(found.iter().sum::<f64>().abs() < 1e-9);
}

/// s = 4·√(1 − 0.7²) = 2.8566, to 1e-4: what keeps a first-order process stationary.
#[test]
fn noise_that_keeps_a_row_as_wide_as_it_is() {
    assert!((noise(0.7, 4.0) - 2.8566).abs() < 1e-4);
}

/// 44° north, declination −20.14°, half past eleven by the sun: sunset at 69.258°, share 0.175 85, all hours 0.992 24; to 0.002 (Collares-Pereira and Rabl 1979 from
/// memory, closed form).
#[test]
fn shares_of_a_day() {
    let set = sunset(44.0, -20.14);
    assert!((set.to_degrees() - 69.258).abs() < 0.002);
    assert!((share_of_day((-7.5_f64).to_radians(), set) - 0.175_85).abs() < 0.002);
    let all: f64 =
        (0..24).map(|hour| share_of_day((15.0 * (f64::from(hour) - 11.5)).to_radians(), set)).sum();
    assert!((all - 0.992_24).abs() < 0.002, "{all}");
}

/// 13.272 MJ/m² on 21 January at 44° north with 1367 W/m² (Duffie and Beckman, equation 1.10.3, closed form): to 0.1 %.
#[test]
fn a_day_above_the_air() {
    assert!((above_air(44.0, -20.14, 21, 1367.0) / 13.272e6 - 1.0).abs() < 1e-3);
    // a night that lasts the day, and a day that lasts the night
    assert!(above_air(80.0, -20.14, 21, 1367.0) == 0.0 && above_air(-80.0, -20.14, 21, 1367.0) > 40e6);
}

/// A place of cold winters, made up; turned about the equator for the south.
fn place(latitude: f64) -> Normals {
    let site = Site { name: "made up".into(), latitude, longitude: -72.3, zone: -5.0, height: 180.0 };
    let months = std::array::from_fn(|at| {
        let at = if latitude < 0.0 { (at + 6) % 12 } else { at };
        let season = (std::f64::consts::TAU * (at as f64 - 0.5) / 12.0).cos();
        let mean = 8.0 - 14.0 * season;
        Month {
            mean,
            high: mean + 6.0,
            low: mean - 6.0,
            precipitation: 75.0 - 15.0 * season,
            wet_days: Some(11.0),
            ..Month::default()
        }
    });
    Normals { site, months }
}

fn is_normal(weather: &Weather, normals: &Normals) {
    let means = weather.by_month(|hour| hour.temperature);
    let falls = weather.sum_by_month(Hour::falls);
    for (at, month) in normals.months.iter().enumerate() {
        assert!((means[at] - month.mean).abs() < 0.1, "month {}: {} for {}", at + 1, means[at], month.mean);
        assert!((falls[at] / month.precipitation - 1.0).abs() < 0.01);
    }
}

#[test]
fn months_come_back_as_they_are_normal_north_and_south() {
    for latitude in [44.0, -44.0] {
        let normals = place(latitude);
        for seed in 0..5 {
            let weather = normals.year(seed).unwrap();
            assert_eq!(weather.hours.len(), HOURS);
            is_normal(&weather, &normals);
        }
        let weather = normals.year(1).unwrap();
        let light = weather.by_month(|hour| hour.light.global);
        let (january, july) = (light[0], light[6]);
        assert!((july > 2.0 * january) == (latitude > 0.0) && (january > 2.0 * july) == (latitude < 0.0));
        let snow: f64 = weather.through_winter().skip(HOURS / 4).take(HOURS / 2).map(|hour| hour.snow).sum();
        let all: f64 = weather.hours.iter().map(|hour| hour.snow).sum();
        assert!(snow > 0.97 * all && all > 100.0, "{snow} of {all}");
    }
}

/// Highs and lows of days are the normals': within 1.5 K, since days wander within themselves too.
#[test]
fn days_reach_from_their_lows_to_their_highs() {
    let normals = place(44.0);
    let weather = normals.year(3).unwrap();
    let reach = |pick: fn(f64, f64) -> f64, from: f64| -> f64 {
        let days = weather.hours.chunks(24).take(31);
        days.map(|day| day.iter().map(|hour| hour.temperature).fold(from, pick)).sum::<f64>() / 31.0
    };
    assert!((reach(f64::max, f64::MIN) - normals.months[0].high).abs() < 1.5);
    assert!((reach(f64::min, f64::MAX) - normals.months[0].low).abs() < 1.5);
    // degree days of heating of a month by its mean: within 3 %
    let found = degree_days(&weather.hours[..31 * 24], 18.3);
    assert!((found / (31.0 * (18.3 - normals.months[0].mean)) - 1.0).abs() < 0.03);
}

#[test]
fn a_seed_is_a_year() {
    let normals = place(44.0);
    assert_eq!(normals.year(9), normals.year(9));
    assert_ne!(normals.year(9).unwrap().hours, normals.year(10).unwrap().hours);
}

#[test]
fn what_is_given_of_sun_wind_and_snow_comes_back() {
    let mut normals = place(44.0);
    for month in &mut normals.months {
        month.global = Some(10e6);
        month.wind = Some(4.2);
        month.dew_point = Some(month.mean - 8.0);
    }
    normals.months[0].global = Some(6e6);
    normals.months[0].snowfall = Some(0.40);
    normals.months[10].snowfall = Some(0.20);
    let weather = normals.year(2).unwrap();
    let winds = weather.by_month(|hour| hour.wind);
    assert!(winds.iter().all(|wind| (wind - 4.2).abs() < 1e-9));
    let january = weather.by_month(|hour| hour.light.global)[0] * 86_400.0;
    assert!((january / 6e6 - 1.0).abs() < 0.01, "{january}");
    let snow = weather.sum_by_month(|hour| hour.snow);
    assert!((snow[10] / 20.0 - 1.0).abs() < 0.1, "{}", snow[10]);
    assert_eq!(weather.filled.hours(What::Wind, How::Drawn), HOURS);
    assert_eq!(weather.filled.hours(What::Light, How::Assumed), 0);
    assert_eq!(place(44.0).year(2).unwrap().filled.hours(What::Light, How::Assumed), HOURS);
}

#[test]
fn a_colder_year_with_more_snow() {
    let normals = place(44.0);
    let changed = normals.changed(-2.0, 1.5);
    assert!((changed.months[0].mean - normals.months[0].mean + 2.0).abs() < 1e-12);
    assert!((changed.months[0].precipitation / normals.months[0].precipitation - 1.5).abs() < 1e-12);
    assert!((changed.months[6].precipitation - normals.months[6].precipitation).abs() < 1e-12);
    let snow = |normals: &Normals| normals.year(4).unwrap().hours.iter().map(|hour| hour.snow).sum::<f64>();
    assert!(snow(&changed) > 1.3 * snow(&normals));
}

#[test]
fn normals_that_cannot_be_are_told() {
    let mut normals = place(44.0);
    normals.months[3].low = normals.months[3].mean + 1.0;
    assert!(matches!(normals.year(1), Err(NormalsError::Range { month: 4, .. })));
    normals.months[1].precipitation = -1.0;
    assert_eq!(normals.year(1).unwrap_err().to_string(), "month 2: a precipitation of -1 cannot be");
    normals.site.height = f64::NAN;
    assert!(matches!(normals.year(1), Err(NormalsError::Site { field: "elevation", .. })));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]
    #[test]
    fn hours_can_be(latitude in -70.0..70.0_f64, seed in any::<u64>(), dry in 0.0..1.0_f64) {
        let mut normals = place(latitude);
        for month in &mut normals.months {
            month.precipitation *= dry;
        }
        let weather = normals.year(seed).unwrap();
        is_normal_if_wet(&weather, &normals);
        for hour in &weather.hours {
            prop_assert!(hour.dew_point <= hour.temperature && hour.dew_point > -90.0);
            prop_assert!(hour.wind >= 0.0 && hour.wind < 40.0 && (0.0..=1.0).contains(&hour.cloud));
            prop_assert!(hour.rain >= 0.0 && hour.snow >= 0.0);
            let sun = weather.sun(hour);
            // no more than a twentieth over a clear sky (B. Haurwitz 1945; from memory)
            let up = sun.overhead();
            let clear = 1098.0 * up * (-0.059 / up).exp();
            prop_assert!(hour.light.global <= 1.05 * clear + 1e-9, "{} of {clear}", hour.light.global);
            prop_assert!(hour.falls() == 0.0 || hour.humidity() >= 0.9 - 1e-9);
        }
    }
}

fn is_normal_if_wet(weather: &Weather, normals: &Normals) {
    if normals.months.iter().all(|month| month.precipitation > 0.0) {
        is_normal(weather, normals);
    }
}
