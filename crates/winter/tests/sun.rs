//! The sun against the published example of its algorithm and a general-purpose library.

use proptest::prelude::*;
use winter::calendar::Date;
use winter::sun::{Moment, Sun, air_mass, declination_of};

fn close(found: f64, wanted: f64, tolerance: f64) {
    assert!((found - wanted).abs() <= tolerance, "{found} for {wanted}");
}

/// The worked example of the report (NREL/TP-560-34302, table A5.1): Julian day, distance and hour angle from memory; zenith with refraction and azimuth confirmed
/// with pvlib 0.16.1. To 1e-4.
#[test]
fn the_example_of_the_report() {
    let hours = 12.0 + 30.0 / 60.0 + 30.0 / 3600.0;
    let moment = Moment::local(Date::new(2003, 10, 17).unwrap(), hours, -7.0).lagging(67.0);
    close(moment.julian_day(), 2_452_930.312_847, 1e-4);
    let sun = Sun::at(moment, 39.742_476, -105.1786, 1830.14);
    close(sun.distance, 0.996_542_297_4, 1e-4);
    close(sun.hour_angle, 11.105_902, 1e-3);
    close(sun.apparent_zenith(82_000.0, 11.0), 50.111_62, 1e-4);
    close(sun.azimuth, 194.340_24, 1e-4);
    // a plane of 30° whose normal is turned 10° from south to the east
    let incidence =
        winter::slope::Plane { tilt: 30.0, azimuth: 170.0 }.incidence(&sun.refracted(82_000.0, 11.0));
    close(incidence.acos().to_degrees(), 25.187, 1e-3);
}

/// Zenith without refraction and azimuth, pvlib 0.16.1 (`nrel_numpy`, lag 69 s): both hemispheres, high and low sun, 29 February. To 0.01°, which the second row's
/// published tolerance asks; the library agrees far closer.
#[test]
fn places_of_both_hemispheres() {
    let rows = [
        ((2021, 12, 21), 12.0, -5.0, [44.0, -73.0, 100.0], [67.476_77, 182.419_27]),
        ((2021, 6, 21), 15.0, -5.0, [44.0, -73.0, 100.0], [43.078_46, 257.0996]),
        ((2021, 3, 20), 9.0, -5.0, [44.0, -73.0, 100.0], [59.2791, 124.8809]),
        ((1997, 1, 15), 13.5, -9.0, [55.317, -160.517, 7.0], [76.436_82, 174.785_19]),
        ((2010, 7, 15), 10.5, 12.0, [-45.0, 169.0, 350.0], [73.821_66, 33.7164]),
        ((2020, 2, 29), 8.5, 1.0, [60.5, 10.2, 200.0], [82.910_29, 119.732_29]),
    ];
    for ((year, month, day), hours, zone, [latitude, longitude, height], [zenith, azimuth]) in rows {
        let moment = Moment::local(Date::new(year, month, day).unwrap(), hours, zone);
        let sun = Sun::at(moment, latitude, longitude, height);
        close(sun.zenith, zenith, 0.01);
        close(sun.azimuth, azimuth, 0.01);
    }
}

/// Short form of J. Spencer (1971; seen in the documentation of an open snow model) at 44° north, 73° west: declination, zenith and azimuth of a formula that errs by up to
/// 0.6°, so that a slip in the long one shows.
#[test]
fn the_short_form_agrees_as_far_as_it_reaches() {
    let rows = [
        ((2021, 12, 21), 12.0, [-23.4199, 67.4602, 182.527]),
        ((2021, 3, 20), 9.0, [-0.461_033, 59.8232, 125.062]),
        ((2021, 6, 21), 15.0, [23.452, 43.1718, 257.248]),
    ];
    for ((year, month, day), hours, [declination, zenith, azimuth]) in rows {
        let moment = Moment::local(Date::new(year, month, day).unwrap(), hours, -5.0);
        let sun = Sun::at(moment, 44.0, -73.0, 100.0);
        close(sun.declination, declination, 0.6);
        close(sun.zenith, zenith, 0.6);
        close(sun.azimuth, azimuth, 0.6);
    }
}

/// P. Cooper 1969, closed form: −20.138° on 21 January. To 0.01°.
#[test]
fn declination_in_short() {
    close(declination_of(21), -20.138, 0.01);
}

/// Overhead and at the horizon (F. Kasten and A. Young 1989: 1 and about 38; from memory), and pvlib 0.16.1 with the sun seen at 63.71281°.
#[test]
fn air_to_cross() {
    close(air_mass(0.0), 1.0, 1e-3);
    close(air_mass(90.0), 38.0, 0.2);
    close(air_mass(95.0), air_mass(90.0), 1e-12);
    let sun = Sun::at(Moment::local(Date::new(2021, 1, 21).unwrap(), 12.0, -5.0), 44.0, -73.0, 0.0);
    close(sun.apparent_zenith(101_325.0, 12.0), 63.712_81, 0.01);
    close(air_mass(sun.apparent_zenith(101_325.0, 12.0)), 2.249_31, 0.003);
}

proptest! {
    /// The sun of a place is mirrored at the equator: north and south, half a year apart, it stands about as high.
    #[test]
    fn summer_and_winter_are_turned(latitude in -66.0..66.0_f64, hours in 0.0..24.0_f64, day in 1..183_u16) {
        let height = |latitude, day| {
            Sun::at(Moment::local(Date::of(2023, day), hours, 0.0), latitude, 0.0, 0.0)
        };
        let (here, there) = (height(latitude, day), height(-latitude, day + 182));
        // the equation of time differs by up to half an hour, and the year is no mirror of itself
        prop_assert!((here.declination + there.declination).abs() < 2.5);
        prop_assert!((here.zenith - there.zenith).abs() < 9.0);
    }

    #[test]
    fn angles_are_in_range(latitude in -90.0..=90.0_f64, longitude in -180.0..180.0_f64, hours in -24.0..48.0_f64, day in 1..366_u16) {
        let sun = Sun::at(Moment::local(Date::of(2024, day), hours, 0.0), latitude, longitude, 0.0);
        prop_assert!((0.0..=180.0).contains(&sun.zenith) && (0.0..=360.0).contains(&sun.azimuth));
        prop_assert!((0.983..1.017).contains(&sun.distance) && sun.declination.abs() < 23.5);
        prop_assert!(sun.apparent_zenith(101_325.0, 0.0) <= sun.zenith);
        let length: f64 = sun.direction().iter().map(|x| x * x).sum();
        prop_assert!((length - 1.0).abs() < 1e-12);
    }
}
