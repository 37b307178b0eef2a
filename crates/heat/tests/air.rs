//! Air networks against a general-purpose solver, closed forms and conservation.

use heat::air::{AirError, Fan, Leak, Network, Opening, Outdoors, Zone, density, series};
use measure::{Area, Flow, Pressure};
use proptest::prelude::*;

const SEA_LEVEL: f64 = 101_325.0;

fn zone(name: &str, temperature: f64) -> Zone {
    Zone { name: name.into(), temperature }
}

fn opening(from: Option<usize>, to: Option<usize>, height: f64, coefficient: f64, exponent: f64) -> Opening {
    Opening { from, to, height, leak: Leak { coefficient, exponent }, wind: 0.0 }
}

/// House and attic under stack alone, solved with scipy 1.17.1 (`fsolve`): six openings, pressures and flows to 0.1 %.
#[test]
fn house_and_attic_balance_as_a_general_solver_has_them() {
    let network = Network {
        outdoors: Outdoors { temperature: -10.0, pressure: SEA_LEVEL },
        zones: vec![zone("house", 21.0), zone("attic", -4.0)],
        openings: vec![
            opening(None, Some(0), 0.3, 0.010, 0.65),
            opening(None, Some(0), 1.5, 0.006, 0.65),
            opening(None, Some(0), 4.0, 0.006, 0.65),
            opening(Some(0), Some(1), 5.2, 0.012, 0.65),
            opening(None, Some(1), 5.4, 0.030, 0.5),
            opening(None, Some(1), 7.4, 0.030, 0.5),
        ],
        fans: Vec::new(),
    };
    let flows = network.solved().unwrap();
    let close =
        |found: f64, wanted: f64| assert!((found / wanted - 1.0).abs() < 1e-3, "{found} for {wanted}");
    close(flows.pressures[0], -3.8787);
    close(flows.pressures[1], -1.5818);
    // the ceiling leaks more than the ridge lets out: the soffit breathes out
    let wanted = [0.030_074, 0.011_79, -0.010_037, 0.031_827, -0.001_649_4, -0.030_178];
    flows.openings.iter().zip(wanted).for_each(|(found, wanted)| close(*found, wanted));
}

/// h = H / (1 + (A/B)² · t/s), A and B the areas low and high, t and s kelvin inside and out: ASHRAE Handbook Fundamentals, chapter 16 (natural ventilation): 2.3231 m of 5 m for openings alike.
#[test]
fn neutral_level_of_two_openings() {
    let [inside, out] = [294.26 - 273.15, 255.37 - 273.15];
    for ratio in [1.0, 0.5, 2.0] {
        let wanted = 5.0 / (1.0 + f64::powi(ratio, 2) * 294.26 / 255.37);
        let network = Network {
            outdoors: Outdoors { temperature: out, pressure: SEA_LEVEL },
            zones: vec![zone("room", inside)],
            openings: vec![
                opening(None, Some(0), 0.0, 0.05 * ratio, 0.5),
                opening(Some(0), None, 5.0, 0.05, 0.5),
            ],
            fans: Vec::new(),
        };
        let flows = network.solved().unwrap();
        // where pressure inside is that outdoors; Q = C√Δp of the air's own density at each opening
        let fall = (density(SEA_LEVEL, out) - density(SEA_LEVEL, inside)) * heat::air::GRAVITY;
        let level = -flows.pressures[0] / fall;
        // C is of volume: √ρ of the closed form is not in it, so that masses balance at ρ²
        let by_volume = 5.0 / (1.0 + f64::powi(ratio, 2) * (294.26_f64 / 255.37).powi(2));
        assert!((level - by_volume).abs() < 1e-6, "{level} for {by_volume}");
        // with the orifice law of each density it is the handbook's
        let mut by_orifice = network.clone();
        for (o, t) in by_orifice.openings.iter_mut().zip([out, inside]) {
            let area = Area::from_m2(o.leak.coefficient);
            o.leak = Leak::opening(area, 0.6, density(SEA_LEVEL, t));
        }
        let level = -by_orifice.solved().unwrap().pressures[0] / fall;
        assert!((level - wanted).abs() < 1e-6, "{level} for {wanted}");
    }
    assert!((5.0_f64 / (1.0 + 294.26 / 255.37) - 2.3231).abs() < 1e-3);
}

/// 1000 ft³/min at 50 Pa are 193.65 at 4 Pa and a leakage area of 54.95 in² at 1.204 kg/m³ (ASTM E779, discharge 1).
#[test]
fn a_blower_door_reading_is_a_leakage_area() {
    let leak = Leak::at_50_pa(Flow::from_cfm(1000.0));
    assert!((Flow::from_m3_s(leak.flow(4.0)).cfm() / 193.65 - 1.0).abs() < 1e-3);
    assert!((leak.effective_area(1.204).in2() / 54.954 - 1.0).abs() < 1e-3);
    let readings = [50.0, 10.0].map(|pa| (Flow::from_m3_s(leak.flow(pa)), Pressure::from_pa(pa)));
    let found = Leak::of_two(readings).unwrap();
    assert!(
        (found.exponent - 0.65).abs() < 1e-9 && (found.coefficient / leak.coefficient - 1.0).abs() < 1e-9
    );
    assert!(Leak::of_two([readings[0], readings[0]]).is_err());
}

/// 1/A² = 1/1² + 1/0.5².
#[test]
fn areas_in_series() {
    let area = series([1.0, 0.5].map(Area::from_m2)).unwrap();
    assert!((area.m2() - 0.447_214).abs() < 1e-6);
    assert_eq!(series([1.0, 0.0].map(Area::from_m2)), None);
}

#[test]
fn a_fan_into_a_sealed_room_is_refused_and_a_still_one_is_not() {
    let mut network = Network {
        outdoors: Outdoors { temperature: 0.0, pressure: SEA_LEVEL },
        zones: vec![zone("house", 20.0), zone("closet", 20.0)],
        openings: vec![opening(None, Some(0), 0.0, 0.01, 0.65)],
        fans: vec![Fan { from: Some(0), to: None, flow: 0.05 }],
    };
    let flows = network.solved().unwrap();
    assert!((flows.openings[0] - 0.05).abs() < 1e-9, "all the fan takes comes in");
    network.fans.push(Fan { from: None, to: Some(1), flow: 0.01 });
    assert_eq!(network.solved(), Err(AirError::Sealed("closet".into())));
    network.openings[0].to = Some(7);
    assert_eq!(network.solved(), Err(AirError::Zone(1)));
}

fn networks() -> impl Strategy<Value = Network> {
    let opening = (0..4_usize, 0..4_usize, 0.0..9.0_f64, -6.0..0.0_f64, 0.5..1.0_f64, -50.0..50.0_f64);
    let zones = prop::collection::vec(-60.0..60.0_f64, 3);
    let fans = prop::collection::vec((0..4_usize, 0..4_usize, 0.0..1.0_f64), 0..3);
    (-60.0..50.0_f64, zones, prop::collection::vec(opening, 3..12), fans).prop_map(
        |(out, zones, openings, fans)| {
            let end = |i: usize| i.checked_sub(1);
            let mut all: Vec<Opening> = openings
                .into_iter()
                .map(|(from, to, height, size, exponent, wind)| {
                    let leak = Leak { coefficient: 10_f64.powf(size), exponent };
                    Opening { from: end(from), to: end(to), height, leak, wind }
                })
                .collect();
            // each zone has some way out
            all.extend((0..3).map(opening_of));
            Network {
                outdoors: Outdoors { temperature: out, pressure: 80_000.0 },
                zones: zones.into_iter().map(|t| zone("zone", t)).collect(),
                openings: all,
                fans: fans.into_iter().map(|(a, b, flow)| Fan { from: end(a), to: end(b), flow }).collect(),
            }
        },
    )
}

fn opening_of(zone: usize) -> Opening {
    opening(None, Some(zone), zone as f64, 1e-4, 0.6)
}

proptest! {
    /// Whatever joins them, air into each zone is air out of it, and turned openings have the same air the other way.
    #[test]
    fn air_balances_in_any_network(network in networks()) {
        let flows = network.solved().unwrap();
        let moved: f64 = flows.openings.iter().map(|flow| flow.abs()).sum();
        prop_assert!(flows.residual <= 1e-9 * moved + 1e-12, "{} of {moved}", flows.residual);
        let mut turned = network.clone();
        turned.openings.iter_mut().for_each(|o| std::mem::swap(&mut o.from, &mut o.to));
        let other = turned.solved().unwrap();
        for (one, back) in flows.openings.iter().zip(&other.openings) {
            prop_assert!((one + back).abs() <= 1e-6 * moved, "{one} and {back}");
        }
    }

    /// One temperature, no wind and no fan: no air moves.
    #[test]
    fn nothing_drives_still_air(network in networks(), t in -40.0..40.0_f64) {
        let mut still = network;
        still.outdoors.temperature = t;
        still.zones.iter_mut().for_each(|zone| zone.temperature = t);
        still.openings.iter_mut().for_each(|opening| opening.wind = 0.0);
        still.fans.clear();
        let flows = still.solved().unwrap();
        prop_assert!(flows.openings.iter().all(|flow| flow.abs() < 1e-9));
    }
}
