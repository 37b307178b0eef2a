//! Bays of sloped ceilings through the season, against the closed forms of one bay.

mod deck;
mod storms;

use heat::air::{Leak, SPECIFIC_HEAT};
use heat::attic::{Bay, way};
use heat::moist::saturation_over_water;
use measure::{Area, Flow, Length, RValue, Temperature, UValue};
use proptest::prelude::*;
use rand::RngExt;
use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;
use winter::column::{Base, Column};
use winter::house_air::{AtticAir, Bays, HouseAir, Last, Passage, VENT_DISCHARGE};
use winter::season::{Airflow, Aspect, Attic, Below, Hour, House, Passing, Season, Strip, Through};
use winter::sky::black;
use winter::slide::Moves;
use winter::surface::Sky;

use deck::DECK;
use storms::storms;

const SEA_LEVEL: f64 = 101_325.0;
/// Bays side by side.
const COUNT: f64 = 20.0;

/// One that loses nothing through the deck: 6 m long, 38 by 560 mm, 2 m of rise over a ceiling of U 0.28571.
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

/// Bays in so many parts under decks of a resistance inward.
fn house(bay: &Bay, parts: usize, inward: f64) -> House {
    let area = COUNT * bay.length.m() * bay.width.m() / parts as f64;
    let strip = |part: usize| Strip {
        plane: 0,
        area,
        below: Below::Attic(part),
        base: Base { inward, ..DECK },
        catch: 0.0,
        to: vec![],
    };
    let attic = Attic { to_rooms: bay.below.si() * area, to_outdoors: 0.0, capacity: 0.0 };
    House {
        strips: (0..parts).map(strip).collect(),
        planes: vec![Aspect { cosine: 0.94 }],
        attics: vec![attic; parts],
        moves: Moves::default(),
    }
}

fn hour(air: f64) -> Hour {
    windy(air, 0.0)
}

fn windy(air: f64, wind: f64) -> Hour {
    let sky = Sky {
        air,
        vapour: 0.8 * saturation_over_water(air),
        pressure: SEA_LEVEL,
        wind,
        sun: 0.0,
        longwave: black(air),
    };
    Hour { sky, rooms: 21.0, sun: vec![0.0], snow: 0.0, rain: 0.0, wind_from: None, seconds: 3600.0 }
}

/// Air up all parts, as much in every hour.
#[derive(Debug)]
struct Up(Vec<Passing>, f64);

impl Up {
    fn through(parts: usize, flow: f64) -> Self {
        Self((1..parts).map(|to| Passing { from: to - 1, to, flow }).collect(), flow)
    }
}

impl Airflow for Up {
    fn through(&mut self, _: f64, _: f64, _: f64, _: &[f64], flows: &mut [Through]) {
        flows.fill(Through::default());
        flows[0].vent = self.1;
    }

    fn between(&self) -> &[Passing] {
        &self.0
    }
}

/// Parts after two days at −10 °C.
fn held(house: &House, air: impl Airflow) -> Vec<f64> {
    let mut season = Season::from(house, air, vec![Column::bare(-10.0); house.strips.len()], -10.0);
    for _ in 0..48 {
        season.step(&hour(-10.0));
    }
    assert!(season.ledger().attic < 0.05, "{} W", season.ledger().attic);
    season.attics().to_vec()
}

/// 8 g/s in each bay: −6.5142 °C at its outlet (exponential approach, computed from its formula), to 0.01 K from forty parts on, and nearer with each part more.
#[test]
fn air_warms_from_part_to_part_as_along_the_bay() {
    let at = |parts: usize| {
        let air = Up::through(parts, 0.008 * COUNT);
        held(&house(&bay(), parts, 1e9), air)[parts - 1]
    };
    let misses = [5, 10, 20, 40].map(|parts| (at(parts) + 6.5142).abs());
    assert!(misses.windows(2).all(|pair| pair[1] < pair[0]) && misses[3] < 0.01, "{misses:?}");
    assert!(misses[0] < 0.05, "five parts are what a plane is cut into: {misses:?}");
}

/// Vents of an area for each bay, low and high.
fn vented(bay: &Bay, parts: usize, vents: Area) -> HouseAir {
    let sizes = [bay.length, bay.depth, bay.width];
    HouseAir {
        shell: Leak::at_50_pa(Flow::from_cfm(2000.0)),
        height: Length::from_m(5.0),
        attics: vec![AtticAir {
            ceiling: Leak::NONE,
            low: vents * COUNT,
            high: vents * COUNT,
            heights: [Length::from_m(5.0), Length::from_m(5.0) + bay.rise],
            ceiling_at: Length::from_m(5.0),
            blown: 0.0,
            bays: Some(Bays {
                parts: vec![1.0 / parts as f64; parts],
                way: way(sizes, Temperature::from_c(-8.0)).times(COUNT),
            }),
        }],
        passages: Vec::new(),
        pressure: SEA_LEVEL,
        exhaust: 0.0,
        shelter: 0.6,
        last: Last::default(),
    }
}

/// Driven by its own warmth air is as much and as warm as where weight, friction and ends of one bay are balanced by themselves. Each end takes (way / C·vent)² heads of the
/// way's speed. Where air warms by 20 K and more, the two part by a hundredth or so: the one has vents by the density outdoors, the other ends by that within.
#[test]
fn warmth_drives_air_as_it_does_up_one_bay() {
    let parts = 40;
    for (free, below, deck, near) in [
        (0.004, 0.03, None, 0.005),
        (0.004, 0.286, None, 0.02),
        (0.010, 0.286, None, 0.02),
        (0.004, 0.1, Some(0.8), 0.01),
    ] {
        let section = bay().width.m() * bay().depth.m();
        let end = (section / (VENT_DISCHARGE * free)).powi(2);
        let bay = Bay { ends: 2.0 * end, below: UValue::from_si(below), ..bay() };
        let house = house(&bay, parts, deck.unwrap_or(1e9));
        let snowed = Column::bare(-10.0).under_snow(0.3, 250.0, -10.0);
        let mut season =
            Season::from(&house, vented(&bay, parts, Area::from_m2(free)), vec![snowed; parts], -10.0);
        for _ in 0..96 {
            season.step(&hour(-10.0));
        }
        let flow = season.flows()[0].vent / COUNT;
        let top = season.attics()[parts - 1];
        // as much goes through the deck as the season, which knows more of it, lets through
        let mean = season.attics().iter().sum::<f64>() / parts as f64;
        let area = bay.length.m() * bay.width.m();
        let up = bay.below.si() * (21.0 - mean) - flow * SPECIFIC_HEAT * (top + 10.0) / area;
        let resists = deck.map(|_| RValue::from_si((mean + 10.0) / up));
        let own = Bay { deck: resists, snow: RValue::ZERO, ..bay };
        let air =
            own.driven(Temperature::from_c(21.0), Temperature::from_c(-10.0)).expect("a bay that vents");
        assert!((flow / air.flow - 1.0).abs() < near, "{free}, {below}: {flow} for {}", air.flow);
        let warmed = [top, air.outlet.c()].map(|outlet| outlet + 10.0);
        assert!((warmed[0] / warmed[1] - 1.0).abs() < near, "{free}, {below}: {warmed:?}");
    }
}

/// A way that insulation fills lets next to no air through, however large the vents.
#[test]
fn a_stuffed_bay_does_not_vent() {
    let bay = bay();
    let house = house(&bay, 5, 0.2);
    let open = held(&house, vented(&bay, 5, Area::from_m2(0.01)));
    let mut air = vented(&bay, 5, Area::from_m2(0.01));
    for attic in &mut air.attics {
        if let Some(bays) = &mut attic.bays {
            bays.way = bays.way.times(0.0);
        }
    }
    let mut season = Season::from(&house, air, vec![Column::bare(-10.0); 5], -10.0);
    season.step(&hour(-10.0));
    assert!(season.passing().iter().all(|passing| passing.flow < 1e-9), "{:?}", season.passing());
    let stuffed = season.attics();
    assert!(stuffed[4] > open[0] && open.windows(2).all(|pair| pair[1] > pair[0]), "{open:?} {stuffed:?}");
}

/// Bays beside an attic into which their upper half opens.
fn joined(leak: f64, wind: f64, at: [f64; 6], blown: f64) -> (Vec<Through>, Vec<Passing>, HouseAir) {
    let mut air = vented(&bay(), 5, Area::from_m2(0.004));
    air.attics[0].ceiling = Leak::at_50_pa(Flow::from_cfm(leak));
    air.attics[0].blown = blown;
    let attic = AtticAir {
        bays: None,
        heights: [7.0, 8.0].map(Length::from_m),
        ceiling_at: Length::from_m(7.0),
        ceiling: Leak::at_50_pa(Flow::from_cfm(150.0)),
        ..air.attics[0].clone()
    };
    air.attics.push(attic);
    let passage = |between: [usize; 2], foot: f64| Passage {
        between,
        area: Area::from_m2(0.05),
        tall: Length::from_m(0.2),
        foot: Length::from_m(foot),
    };
    // at the top of the bays, and a hole at their foot
    air.passages = vec![passage([0, 1], 6.9), passage([1, 0], 5.1)];
    let mut flows = vec![Through::default(); 6];
    air.through(-10.0, 21.0, wind, &at, &mut flows);
    let passing = air.between().to_vec();
    (flows, passing, air)
}

proptest! {
    /// What comes into a part goes on, or leaves through the ceiling and the ends of the bays: nothing else of it is left, and all told it is as the network says.
    #[test]
    fn air_adds_up_in_every_part(
        leak in prop_oneof![Just(0.0), 50.0..600.0_f64],
        wind in 0.0..8.0_f64,
        blown in 0.0..0.05_f64,
        at in prop::array::uniform6(-12.0..12.0_f64),
    ) {
        let (flows, passing, air) = joined(leak, wind, at, blown);
        let told = air.told(-10.0, 21.0, wind, &at).expect("a balance");
        let passes = |is_its: &dyn Fn(&Passing) -> bool| -> f64 {
            passing.iter().filter(|passing| is_its(passing)).map(|passing| passing.flow).sum()
        };
        let leaves: Vec<f64> = flows
            .iter()
            .enumerate()
            .map(|(part, flow)| flow.leak + flow.vent + passes(&|p| p.to == part) - passes(&|p| p.from == part))
            .collect();
        prop_assert!(leaves.iter().all(|flow| *flow > -1e-8), "{leaves:?}");
        if leak <= 0.0 {
            prop_assert!(leaves[1..4].iter().all(|flow| flow.abs() < 1e-8), "{leaves:?}");
        }
        let from_attic = passes(&|p| p.from == 5) - passes(&|p| p.to == 5);
        let [ceiling, low, high] = told.attics[0];
        prop_assert!((ceiling + blown + low + high + from_attic).abs() < 1e-8, "{told:?} {from_attic}");
        let comes: f64 = flows[..5].iter().map(|flow| flow.leak + flow.vent).sum();
        prop_assert!((comes + from_attic - leaves[..5].iter().sum::<f64>()).abs() < 1e-8);
    }

    /// Air in at the one eave and out at the other goes over the ridge: no part is skipped.
    #[test]
    fn wind_blows_past_every_part(wind in 3.0..10.0_f64) {
        let mut air = vented(&bay(), 5, Area::from_m2(0.004));
        air.attics[0].high = Area::ZERO;
        let mut flows = vec![Through::default(); 5];
        air.through(-10.0, 21.0, wind, &[-10.0; 5], &mut flows);
        let first = flows[0].vent;
        prop_assert!(first > 0.0 && flows[1..].iter().all(|flow| flow.vent.abs() < 1e-12));
        for passing in air.between() {
            prop_assert!((passing.flow - first).abs() < 1e-6 * first, "{passing:?} for {first}");
        }
    }
}

/// Each hour ends with no more than a watt left over in any part, whatever the vents, the leaks and the weather.
#[test]
fn bays_balance_in_any_weather() {
    for seed in 1..=24_u8 {
        let mut rng = ChaCha8Rng::seed_from_u64(u64::from(seed));
        let mut random = || rng.random::<f64>();
        let bay =
            Bay { below: UValue::from_si(0.1 + random()), depth: Length::from_m(0.06 * random()), ..bay() };
        let parts = 1 + usize::from(seed % 6);
        let house = house(&bay, parts, 0.2);
        let mut air = vented(&bay, parts, Area::from_m2(0.01 * random()));
        air.attics[0].ceiling = Leak::at_50_pa(Flow::from_cfm(400.0 * random()));
        air.attics[0].blown = if seed % 4 == 0 { 0.05 * random() } else { 0.0 };
        if seed % 5 == 0 {
            air.attics[0].high = Area::ZERO;
        }
        if seed % 7 == 0 {
            air.attics[0].low = Area::ZERO;
        }
        let mut season = Season::bare(&house, air, -3.0);
        for hour in storms(seed, &mut rng, windy) {
            season.step(&hour);
        }
        assert!(season.ledger().attic < 1.0, "{seed}: {:?}", season.ledger());
        assert!(season.ledger().heat < 1e-3 && season.closure()[1] < 1e-9, "{:?}", season.ledger());
    }
}
