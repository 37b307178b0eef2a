//! The cross-gable example house under assumptions lumped into one attic and one roof, against a table worked out by hand for it: the model of the season with
//! its air, snow and roof set so. The house is invented; its table is arithmetic, not measurement.

use heat::air::SPECIFIC_HEAT;
use winter::column::{Base, Column};
use winter::season::{Airflow, Aspect, Attic, Below, Hour, House, Season, Strip, Through};
use winter::slide::Moves;
use winter::snow::{Conductivity, Held, Law};
use winter::surface::{Sky, Turbulence};

const R_US: f64 = 0.176_110_2;
const FT2: f64 = 0.092_903_04;
/// Surface of main roof and wing, ft²; the porch has no attic.
const ROOF: f64 = 673.06 + 540.55 + 2.0 * 181.48;
/// One cfm takes 1.08 Btu/h for each °F: as mass of air, kg/s.
const CFM: f64 = 1.08 * 0.527_528 / SPECIFIC_HEAT;

fn celsius(f: f64) -> f64 {
    (f - 32.0) / 1.8
}

fn fahrenheit(c: f64) -> f64 {
    1.8 * c + 32.0
}

/// Stack over a height in feet between two temperatures, Pa: 3465·h·(1/T - 1/T').
fn stack(feet: f64, cold: f64, warm: f64) -> f64 {
    (3465.0 * feet * 0.3048 * ((cold + 273.15).recip() - (warm + 273.15).recip())).max(0.0)
}

/// Neutral level 9 ft below the ceiling; vents by their area in series and the height between them.
#[derive(Debug)]
struct Lumped {
    /// Ceiling, ft³/min at 50 Pa.
    leakage: f64,
    /// Low and high, in².
    vents: [f64; 2],
    height: f64,
}

impl Lumped {
    fn effective(&self) -> f64 {
        let [low, high] = self.vents;
        (low.powi(-2) + high.powi(-2)).sqrt().recip()
    }
}

impl Airflow for Lumped {
    fn through(&mut self, outdoors: f64, rooms: f64, _: f64, attics: &[f64], flows: &mut [Through]) {
        let leak = self.leakage * (stack(9.0, outdoors, rooms) / 50.0).powf(0.65);
        let vent = 1.059 * self.effective() * stack(self.height, outdoors, attics[0]).sqrt();
        flows[0] = Through { leak: leak * CFM, vent: vent * CFM };
    }
}

struct Case {
    name: &'static str,
    air: Lumped,
    ceiling: f64,
    /// Attic and deck without melting °F, vent and leak ft³/min, melt gal a day at 22 °F.
    wanted: [f64; 5],
}

fn cases() -> Vec<Case> {
    let [old, sealed] = [550.0, 150.0];
    let [shut, open, boxes, ridge] = [78.0, 711.0, 351.6, 696.0];
    let case = |name, leakage, vents, height, ceiling, wanted| Case {
        name,
        air: Lumped { leakage, vents, height },
        ceiling,
        wanted,
    };
    vec![
        case("before", old, [shut, boxes], 4.5, 9.0, [48.1, 44.4, 77.0, 92.0, 92.0]),
        case("ridge vent alone", old, [shut, boxes + 456.0], 4.5, 9.0, [48.0, 44.3, 78.0, 92.0, 92.0]),
        case("sealed alone", sealed, [shut, boxes], 4.5, 9.0, [44.0, 40.9, 71.0, 25.0, 59.0]),
        case("insulated alone", old, [shut, boxes], 4.5, 52.0, [41.2, 38.5, 67.0, 92.0, 39.0]),
        case("vented alone", old, [open, ridge], 5.5, 9.0, [36.1, 34.1, 414.0, 92.0, 23.0]),
        case("insulated and sealed", sealed, [shut, boxes], 4.5, 52.0, [33.1, 31.5, 51.0, 25.0, 0.0]),
        case("all", sealed, [open, ridge], 5.5, 52.0, [27.45, 26.7, 260.0, 25.0, 0.0]),
    ]
}

/// One roof of under snow of R-12 that stays as it is, or under as much that cannot melt.
fn house(ceiling: f64, melts: bool) -> (House, Column) {
    let snow = 12.0 * R_US;
    let law = Law {
        conductivity: Conductivity::Yen,
        denser: 1.0,
        brighter: 0.0,
        emissivity: 0.0,
        held: Held::Ice(0.0),
        wicks: 0.0,
        settles: false,
        evaporates: false,
        layers: 1,
    };
    let still = if melts { 1e4 } else { snow.recip() };
    let base = Base {
        capacity: 100.0,
        inward: R_US,
        outward: R_US,
        absorbed: 0.0,
        emissivity: 0.0,
        turbulence: Turbulence::Film { still, windy: 0.0 },
        snow: law,
    };
    // so deep and dense that a day's melt is nothing beside it
    let density = 900.0;
    let column = Column::bare(0.0);
    let column =
        if melts { column.under_snow(snow * Conductivity::Yen.at(density), density, -1.0) } else { column };
    let house = House {
        strips: vec![Strip {
            plane: 0,
            area: ROOF * FT2,
            below: Below::Attic(0),
            base,
            catch: 1.0,
            to: vec![],
        }],
        planes: vec![Aspect { cosine: 1.0 }],
        attics: vec![Attic { to_rooms: 1200.0 * FT2 / (ceiling * R_US), to_outdoors: 0.0, capacity: 0.0 }],
        moves: Moves::default(),
    };
    (house, column)
}

/// Attic and deck °F, vent and leak ft³/min, melt gal a day, when nothing changes any more.
fn settled(case: Case, outdoors: f64, melts: bool) -> [f64; 5] {
    let (house, column) = house(case.ceiling, melts);
    let mut season = Season::from(&house, case.air, vec![column], celsius(outdoors));
    let sky =
        Sky { air: celsius(outdoors), vapour: 0.0, pressure: 101_325.0, wind: 0.0, sun: 0.0, longwave: 0.0 };
    // snow of such weight takes long to settle: steps of ten days
    let hour = Hour {
        sky,
        rooms: celsius(70.0),
        sun: vec![0.0],
        snow: 0.0,
        rain: 0.0,
        wind_from: None,
        seconds: 864_000.0,
    };
    for _ in 0..12 {
        season.step(&hour);
    }
    let Through { leak, vent } = season.flows()[0];
    let kg_per_day = season.outcomes()[0].base_melt * ROOF * FT2 / 10.0;
    // a pound melts for 144 Btu, a gallon is 8.34 lb
    let gallons = kg_per_day * 333_550.0 / 1055.056 / 144.0 / 8.34;
    let column = &season.columns()[0];
    [fahrenheit(season.attics()[0]), fahrenheit(column.surface()), vent / CFM, leak / CFM, gallons]
}

/// Temperatures to 0.5 °F, melt and air to 5 %.
#[test]
fn the_lumped_house_comes_to_its_table() {
    for (dry, wet) in cases().into_iter().zip(cases()) {
        let (name, wanted) = (dry.name, dry.wanted);
        let [attic, deck, vent, leak, _] = settled(dry, 22.0, false);
        let melt = settled(wet, 22.0, true)[4];
        for (found, wanted) in [(attic, wanted[0]), (deck, wanted[1])] {
            assert!((found - wanted).abs() <= 0.5, "{name}: {found} °F for {wanted}");
        }
        for (found, wanted) in [(vent, wanted[2]), (leak, wanted[3]), (melt, wanted[4])] {
            assert!((found - wanted).abs() <= 0.05 * wanted, "{name}: {found} for {wanted}");
        }
    }
}

/// At 10 °F: before, 42.8 and 38.1 °F and 48 gal a day; after, 16.8 and 15.8 °F and none.
#[test]
fn the_lumped_house_at_10_degrees() {
    let [before, after] = [0, 6];
    let [attic, deck, ..] = settled(cases().swap_remove(before), 10.0, false);
    assert!((attic - 42.8).abs() <= 0.5 && (deck - 38.1).abs() <= 0.5, "{attic} {deck}");
    let melt = settled(cases().swap_remove(before), 10.0, true)[4];
    assert!((melt / 48.0 - 1.0).abs() <= 0.05, "{melt}");
    let [attic, deck, ..] = settled(cases().swap_remove(after), 10.0, false);
    assert!((attic - 16.8).abs() <= 0.5 && (deck - 15.8).abs() <= 0.5, "{attic} {deck}");
    assert!(settled(cases().swap_remove(after), 10.0, true)[4] < 1e-9);
}
