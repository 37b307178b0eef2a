//! Cold attics and rafter bays against closed forms and a general-purpose solver.

#![allow(clippy::unwrap_used, reason = "a failed step fails its test")]

use heat::air::density;
use heat::attic::{
    Bay, BayError, DESIGN_OUTDOORS, Vented, WARMEST_ATTIC, airflow_to_hold, friction, hydraulic_diameter,
    opening_for, way,
};
use measure::{Area, Flow, Length, RValue, Temperature, UValue};
use proptest::prelude::*;

const SEA_LEVEL: f64 = 101_325.0;

fn close(found: f64, wanted: f64, share: f64) {
    assert!((found - wanted).abs() <= share * wanted.abs(), "{found} for {wanted}");
}

/// Heat of air by the rule of the trade, 1.08 Btu/(h·°F) for each cubic foot a minute, J/(m³·K): 1055.056 J in 3600 s over 5/9 K and 0.000471947 m³/s.
fn trade_air() -> f64 {
    1.08 * 1055.05585 / 3600.0 / (5.0 / 9.0) / Flow::from_cfm(1.0).m3_s()
}

/// Air that holds 30 °F at 22 °F outdoors over a room of 70 °F, 1000 ft² without leaks: steady balance, A·(70 − 30)/R over 1.08·8, to 0.01 %. The
/// criterion: Tobiasson, Buska and Greatorex (22 °F seen, 30 °F from memory).
#[test]
fn air_to_hold_an_attic_cold() {
    let rooms = [Temperature::from_f(70.0), DESIGN_OUTDOORS];
    let needed = |r: f64, area: f64, leak: f64| {
        let ceiling = Area::from_ft2(area).m2() / RValue::from_us(r).si();
        let air = airflow_to_hold(WARMEST_ATTIC, rooms, ceiling, Flow::from_cfm(leak), trade_air());
        air.unwrap().cfm()
    };
    close(needed(20.0, 1.0, 0.0), 0.23148, 1e-4);
    for (r, cfm) in [(10.0, 462.96), (20.0, 231.48), (30.0, 154.32), (38.0, 121.83), (49.0, 94.482)] {
        close(needed(r, 1000.0, 0.0), cfm, 1e-4);
    }
    // each cubic foot that leaks takes five more: (70 − 30)/(30 − 22)
    close(needed(20.0, 1000.0, 10.0) - needed(20.0, 1000.0, 0.0), 50.0, 1e-9);
    let cold = airflow_to_hold(DESIGN_OUTDOORS, rooms, 1.0, Flow::ZERO, trade_air());
    assert_eq!(cold, None, "no air holds it as cold as outdoors");
}

/// 231.5 cfm over 1.8 m at a discharge of 0.6: 0.339 m² low and as much high, Q = C·A·√(2·g·(h/2)·Δt/T), worked by hand.
#[test]
fn openings_for_that_air() {
    let rooms = [WARMEST_ATTIC, DESIGN_OUTDOORS];
    let area = opening_for(Flow::from_cfm(231.48), Length::from_m(1.8), rooms, 0.6).unwrap();
    close(area.m2(), 0.339, 2e-3);
    close(area.in2(), 526.0, 2e-3);
    assert_eq!(opening_for(Flow::from_cfm(1.0), Length::from_m(1.8), [DESIGN_OUTDOORS; 2], 0.6), None);
}

/// Equal openings of 0.155 m², 1.8 m apart, discharge 0.6, 70 °F and 22 °F: scipy 1.17.1 (`brentq`), to 0.02 K.
#[test]
fn an_attic_vents_by_its_own_warmth() {
    for (ceiling, wanted) in [(52.7, 3.9061), (26.4, 1.036), (10.8, -1.6219)] {
        let attic = Vented {
            ceiling,
            each: Area::from_m2(0.155),
            height: Length::from_m(1.8),
            discharge: 0.6,
            pressure: SEA_LEVEL,
        };
        let found = attic.temperature(Temperature::from_c(21.11), Temperature::from_c(-5.5556)).c();
        assert!((found - wanted).abs() <= 0.02, "{found} for {wanted}");
    }
}

fn bay() -> Bay {
    Bay {
        length: Length::from_m(6.0),
        width: Length::from_m(0.56),
        depth: Length::from_m(0.038),
        rise: Length::from_m(2.0),
        below: UValue::from_si(0.28571),
        deck: None,
        snow: RValue::from_si(2.0),
        ends: 3.5,
        pressure: SEA_LEVEL,
    }
}

/// 8 g/s up 6 m of a bay under which U is 0.28571 and over which nothing goes: exponential approach, to 0.01 K and 0.01 m.
#[test]
fn air_of_a_bay_warms_exponentially() {
    let rooms = [Temperature::from_c(21.0), Temperature::from_c(-10.0)];
    let air = bay().at(0.008, rooms);
    assert!((air.scale - 50.3).abs() <= 0.01, "{}", air.scale);
    assert!((air.outlet.c() + 6.5142).abs() <= 0.01, "{}", air.outlet.c());
    assert!((air.tends_to.c() - 21.0).abs() < 1e-9);
}

/// A way of 38 by 560 mm, 6 m long, 0.3 m/s, 1.34 kg/m³, 1.25·10⁻⁵ m²/s: 96/Re between plates, to 0.2 %.
#[test]
fn friction_between_plates() {
    let [length, depth, width] = [6.0, 0.038, 0.56].map(Length::from_m);
    let across = hydraulic_diameter(depth, width).m();
    close(across, 0.071_171, 2e-3);
    close(0.3 * across / 1.25e-5, 1708.1, 2e-3);
    close(friction([length, depth, width], 0.3, 1.34, 1.25e-5), 0.285_71, 2e-3);
    assert!(friction([length, depth, width], 0.0, 1.34, 1.25e-5).abs() < 1e-12);
}

/// The same as a leak takes the same pressure for the same air, also through a way twice as long; one without depth lets nothing through.
#[test]
fn a_way_leaks_what_friction_lets_through() {
    let (cold, pressure) = (Temperature::from_c(-10.0), 0.2);
    let viscosity = 1.716e-5 * (263.15_f64 / 273.15).powf(1.5) * 383.55 / (263.15 + 110.4);
    for length in [6.0, 12.0] {
        let sizes = [length, 0.038, 0.56].map(Length::from_m);
        let speed = way(sizes, cold).flow(pressure) / (0.038 * 0.56);
        close(friction(sizes, speed, 1.34, viscosity / 1.34), pressure, 1e-9);
    }
    assert_eq!(way([6.0, 0.0, 0.56].map(Length::from_m), cold).flow(1.0).to_bits(), 0);
}

/// At the speed found, what drives the air is what holds it: weight of the column by the mean of ten thousand slices of it, friction and ends.
#[test]
fn what_drives_air_up_a_bay_is_what_holds_it() {
    let (bay, rooms) =
        (Bay { deck: Some(RValue::from_si(0.3)), ..bay() }, [21.0, -10.0].map(Temperature::from_c));
    let air = bay.driven(rooms[0], rooms[1]).unwrap();
    let slices = 10_000;
    let at =
        |i: i32| bay.air_at(bay.length * ((f64::from(i) + 0.5) / f64::from(slices)), air.flow, rooms).k();
    let mean = Temperature::from_k((0..slices).map(at).sum::<f64>() / f64::from(slices));
    let [cold, warm] = [rooms[1], mean].map(|t| density(SEA_LEVEL, t.c()));
    let drive = (cold - warm) * 9.80665 * bay.rise.m();
    // Sutherland's law: 1.716·10⁻⁵ Pa·s at 0 °C
    let viscosity = 1.716e-5 * (mean.k() / 273.15).powf(1.5) * 383.55 / (mean.k() + 110.4);
    let held = friction([bay.length, bay.depth, bay.width], air.speed, warm, viscosity / warm)
        + 3.5 * warm * air.speed.powi(2) / 2.0;
    close(held, drive, 1e-6);
    // heat in is heat out: what the air carries away at its end is what came through below less what went through above
    let carried = air.flow * 1006.0 * (air.outlet - rooms[1]).k();
    let gained = bay.below.si() * (rooms[0] - mean).k() - (mean - rooms[1]).k() / 2.3;
    close(gained * bay.length.m() * bay.width.m(), carried, 1e-6);
}

#[test]
fn snow_melts_from_where_the_deck_is_warm() {
    let rooms = [21.0, -2.0].map(Temperature::from_c);
    let bay = Bay { below: UValue::from_si(1.5), deck: Some(RValue::from_si(0.3)), ..bay() };
    let air = bay.at(0.008, rooms);
    let from = air.melts_from.expect("it melts near the ridge");
    let under = |up: f64| bay.under_snow(bay.air_at(Length::from_m(up), 0.008, rooms), rooms[1]).c();
    assert!(under(from.m()).abs() < 1e-9 && under(from.m() + 0.1) > 0.0 && under(0.0) < 0.0);
    let cold = [21.0, -20.0].map(Temperature::from_c);
    assert_eq!(Bay { below: UValue::from_si(0.1), ..bay }.at(0.05, cold).melts_from, None);
    assert_eq!(bay.at(0.008, [21.0, 5.0].map(Temperature::from_c)).melts_from, Some(Length::ZERO));
    assert_eq!(bay.driven(rooms[1], rooms[0]), Err(BayError));
    assert_eq!(Bay { depth: Length::ZERO, ..bay }.driven(rooms[0], rooms[1]), Err(BayError));
}

proptest! {
    /// A deeper way, a better insulated one and a steeper one end colder; all lie between outdoors and where they tend to.
    #[test]
    fn more_room_for_air_ends_colder(
        depth in 0.02..0.1_f64, below in 0.1..1.5_f64, rise in 0.5..4.0_f64, outdoors in -35.0..15.0_f64, times in 1.05..2.0_f64
    ) {
        let rooms = [21.0, outdoors].map(Temperature::from_c);
        let bay = Bay {
            depth: Length::from_m(depth),
            below: UValue::from_si(below),
            rise: Length::from_m(rise),
            deck: Some(RValue::from_si(0.3)),
            ..bay()
        };
        let outlet = |bay: Bay| bay.driven(rooms[0], rooms[1]).unwrap().outlet.k();
        let own = bay.driven(rooms[0], rooms[1]).unwrap();
        prop_assert!(own.outlet.k() > rooms[1].k() && own.outlet.k() <= own.tends_to.k());
        let others = [
            Bay { depth: bay.depth * times, ..bay },
            Bay { below: bay.below / times, ..bay },
            Bay { rise: bay.rise * times, ..bay },
        ];
        for other in others {
            prop_assert!(outlet(other) < own.outlet.k() + 1e-9, "{:?}", other);
        }
    }

    /// Attics over thicker insulation, with larger openings or higher, are colder, and never colder than outdoors.
    #[test]
    fn larger_openings_leave_colder_attics(ceiling in 1.0..200.0_f64, each in 0.001..1.0_f64, height in 0.2..5.0_f64, times in 1.05..3.0_f64) {
        let attic = Vented {
            ceiling,
            each: Area::from_m2(each),
            height: Length::from_m(height),
            discharge: 0.6,
            pressure: 90_000.0,
        };
        let [room, out] = [21.0, -10.0].map(Temperature::from_c);
        let at = |attic: Vented| attic.temperature(room, out).c();
        prop_assert!(at(attic) >= -10.0 && at(attic) <= 21.0);
        let others = [
            Vented { ceiling: ceiling / times, ..attic },
            Vented { each: attic.each * times, ..attic },
            Vented { height: attic.height * times, ..attic },
        ];
        for other in others {
            prop_assert!(at(other) < at(attic), "{:?}", other);
        }
    }
}
