//! Attics that exchange air.

mod deck;
mod storms;

use heat::air::Leak;
use heat::moist::saturation_over_water;
use measure::{Area, Flow, Length};
use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use winter::column::Column;
use winter::house_air::{AtticAir, HouseAir, Last, Passage};
use winter::season::{Airflow, Aspect, Attic, Below, Hour, House, Season, Strip};
use winter::slide::Moves;
use winter::surface::Sky;

use deck::DECK;
use storms::storms;

/// Losses through two ceilings, W/K: badly and well insulated.
const TO_ROOMS: [f64; 2] = [50.0, 12.0];

fn house(to_rooms: &[f64], area: f64) -> House {
    let strip = |attic: usize| Strip {
        plane: 0,
        area,
        below: Below::Attic(attic),
        base: DECK,
        catch: 0.8,
        to: vec![],
    };
    House {
        strips: (0..to_rooms.len()).map(strip).collect(),
        planes: vec![Aspect { cosine: 0.9 }],
        attics: to_rooms
            .iter()
            .map(|to_rooms| Attic { to_rooms: *to_rooms, to_outdoors: 0.0, capacity: 0.0 })
            .collect(),
        moves: Moves::default(),
    }
}

/// Attics with so many times 100 in² of vents low and high and 200 ft³/min of leaks at 50 Pa, joined by so much.
fn air(times: &[f64], passage_m2: Option<f64>) -> HouseAir {
    let attic = |times: &f64| AtticAir {
        ceiling: Leak::at_50_pa(Flow::from_cfm(200.0 * times)),
        low: Area::from_in2(100.0 * times),
        high: Area::from_in2(100.0 * times),
        heights: [17.0, 23.0].map(Length::from_ft),
        ceiling_at: Length::from_ft(17.0),
        blown: 0.0,
        bays: None,
    };
    let passage = |m2: f64| Passage {
        between: [0, 1],
        area: Area::from_m2(m2),
        tall: Length::from_m(m2.sqrt().min(2.0)),
        foot: Length::from_ft(17.0),
    };
    HouseAir {
        shell: Leak::at_50_pa(Flow::from_cfm(2000.0)),
        height: Length::from_ft(17.0),
        attics: times.iter().map(attic).collect(),
        passages: passage_m2.map(passage).into_iter().collect(),
        pressure: 101_325.0,
        exhaust: 0.0,
        shelter: 0.6,
        last: Last::default(),
    }
}

fn hour(air: f64, wind: f64) -> Hour {
    let sky = Sky {
        air,
        vapour: 0.8 * saturation_over_water(air),
        pressure: 101_325.0,
        wind,
        sun: 0.0,
        longwave: 240.0,
    };
    Hour { sky, rooms: 21.0, sun: vec![0.0], snow: 0.0, rain: 0.0, wind_from: None, seconds: 3600.0 }
}

/// Attics after three days at −6 °C under half a metre of snow, and what the worst step left of their heat, W.
fn held(house: &House, air: HouseAir) -> (Vec<f64>, f64) {
    let columns = vec![Column::bare(-6.0).under_snow(0.5, 250.0, -6.0); house.strips.len()];
    let mut season = Season::from(house, air, columns, -6.0);
    for _ in 0..72 {
        season.step(&hour(-6.0, 2.0));
    }
    (season.attics().to_vec(), season.ledger().attic)
}

/// A badly and a well insulated attic whose wall is open all over are as one attic with the ceilings, decks and vents of both: alike to a few hundredths of a kelvin.
/// Shut, they are degrees apart; from a door on, the more is open, the nearer they come (what passes a small hole follows the vents, one way).
#[test]
fn attics_joined_by_a_huge_opening_are_as_one() {
    let two = house(&TO_ROOMS, 40.0);
    let one = held(&house(&[TO_ROOMS[0] + TO_ROOMS[1]], 80.0), air(&[2.0], None)).0[0];
    let (apart, _) = held(&two, air(&[1.0; 2], None));
    assert!(apart[0] - apart[1] > 1.5, "{apart:?}");
    let mut gap = apart[0] - apart[1];
    for m2 in [1.0, 10.0, 200.0, 2000.0] {
        let (joined, left) = held(&two, air(&[1.0; 2], Some(m2)));
        assert!(joined[0] - joined[1] < gap && joined[0] > joined[1], "{m2}: {joined:?} {gap}");
        assert!(left < 0.1, "{m2}: {left} W");
        gap = joined[0] - joined[1];
        if m2 > 1000.0 {
            assert!(gap < 0.02, "{joined:?}");
            assert!(joined.iter().all(|at| (at - one).abs() < 0.02), "{joined:?} {one}");
        }
    }
}

/// With next to nothing between them they are as two.
#[test]
fn attics_joined_by_a_pinhole_are_as_two() {
    let two = house(&TO_ROOMS, 40.0);
    let apart = held(&two, air(&[1.0; 2], None)).0;
    let pinhole = held(&two, air(&[1.0; 2], Some(1e-8))).0;
    for (apart, pinhole) in apart.iter().zip(&pinhole) {
        assert!((apart - pinhole).abs() < 1e-3, "{apart} {pinhole}");
    }
}

/// What comes into each zone leaves it, and what passes is told as the network has it, both ways at once where one attic is warmer: through a door of 1 m² and 1 m high
/// between 5 °C and 0 °C 0.6/3·√(9.81·5/275.6) = 0.0844 m³/s either way (Brown and Solvason 1962, by hand; 10 %: vents drive some of it besides).
#[test]
fn air_closes_in_each_zone_and_passes_both_ways_through_a_door() {
    for wind in [0.0, 3.0, 9.0] {
        let mut house = air(&[1.0, 0.3], Some(1.0));
        let flows = house.network_at(-6.0, 21.0, wind, &[5.0, 0.0]).solved().unwrap();
        let network = house.network_at(-6.0, 21.0, wind, &[5.0, 0.0]);
        for zone in 0..3 {
            let sum: f64 = network
                .openings
                .iter()
                .zip(&flows.openings)
                .map(|(opening, flow)| match () {
                    () if opening.to == Some(zone) => *flow,
                    () if opening.from == Some(zone) => -flow,
                    () => 0.0,
                })
                .sum();
            assert!(sum.abs() < 1e-9, "{zone}: {sum}");
        }
        let mut through = [winter::season::Through::default(); 2];
        house.through(-6.0, 21.0, wind, &[5.0, 0.0], &mut through);
        let passed: f64 = house.between().iter().map(|passing| passing.flow).sum();
        let wanted: f64 = flows.openings.iter().rev().take(2).map(|flow| flow.abs()).sum();
        assert!((passed - wanted).abs() < 1e-6, "{passed} {wanted}");
        if wind < 1.0 {
            for passing in house.between() {
                assert!((passing.flow / 1.28 / 0.0844 - 1.0).abs() < 0.1, "{passing:?}");
            }
        }
    }
}

/// Storms, thaws, gales and still hours over attics of all sorts that are open to each other: each hour ends with no more than a watt left over in any attic.
#[test]
fn joined_attics_balance_in_any_weather() {
    for seed in 1..=24_u8 {
        let passage = [0.02, 0.5, 3.7, 40.0][usize::from(seed % 4)];
        let mut rng = ChaCha8Rng::seed_from_u64(u64::from(seed));
        let mut random = || rng.random::<f64>();
        let house = house(&[60.0 * random(), 60.0 * random()], 40.0);
        let mut air = air(&[2.0 * random(), 0.5 * random()], Some(passage));
        air.passages[0].foot = Length::from_ft(17.0 + 4.0 * random());
        air.attics[1].heights = [12.0, 21.0].map(Length::from_ft);
        air.attics[1].ceiling_at = Length::from_ft(12.0);
        let mut season = Season::bare(&house, air, -3.0);
        for hour in storms(seed, &mut rng, hour) {
            season.step(&hour);
        }
        assert!(season.ledger().attic < 1.0, "{seed} {passage}: {:?}", season.ledger());
        assert!(season.ledger().heat < 1e-3 && season.closure()[1] < 1e-9, "{:?}", season.ledger());
    }
}

/// Attics with nothing between them but the rooms below move each other's air: a storm through, each hour ends with less than a tenth of a watt left over in both.
#[test]
fn attics_over_the_same_rooms_balance_in_any_weather() {
    for seed in 1..=24_u8 {
        let mut rng = ChaCha8Rng::seed_from_u64(u64::from(seed));
        let mut random = || rng.random::<f64>();
        let house = house(&[30.0 + 30.0 * random(), 30.0 + 30.0 * random()], 80.0);
        let mut air = air(&[1.0; 2], None);
        air.attics[1].heights = [9.0, 14.0].map(Length::from_ft);
        air.attics[1].ceiling_at = Length::from_ft(9.0);
        for attic in &mut air.attics {
            (attic.low, attic.high) = (Area::from_in2(60.0 * random()), Area::from_in2(150.0 * random()));
            attic.ceiling = attic.ceiling.times(1.0 + 3.0 * random());
        }
        let mut season = Season::bare(&house, air, -3.0);
        for hour in storms(seed, &mut rng, hour) {
            season.step(&hour);
        }
        assert!(season.ledger().attic < 0.1, "{seed}: {:?}", season.ledger());
    }
}
