//! Snow that slides and drifts: what goes and what stays, and that nothing is lost on the way.

mod deck;

use book::Book;
use heat::moist::saturation_over_water;
use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use winter::column::Column;
use winter::season::{Aspect, Attic, Below, Hour, House, Season, Steady, Strip, Through};
use winter::slide::{Drift, DriftLaw, Moves, Open, Way};
use winter::surface::Sky;

use deck::DECK;

/// Li and Pomeroy 1997, Tabler, Liston and Sturm 1998 (from memory).
const LAW: DriftLaw = DriftLaw {
    threshold: [9.43, 0.18, 0.0033],
    rate: 1.0 / 233_847.0,
    power: 3.8,
    growth: 3.0 / 500.0,
    densest: 300.0,
    trapped: 0.5,
};

fn strip(plane: usize, below: Below, area: f64, to: Vec<(usize, f64)>) -> Strip {
    Strip { plane, area, below, base: DECK, catch: 0.8, to }
}

/// A gable's south slope (over an attic, then its overhang) over a lower roof, and its north slope: strips 0 and 1, 2, 3.
fn house(sheds: bool, drift: Option<Drift>) -> House {
    let strips = vec![
        strip(0, Below::Attic(0), 40.0, vec![(1, 1.0)]),
        strip(0, Below::Outdoors, 5.0, vec![(2, 0.6)]),
        strip(1, Below::Outdoors, 12.0, vec![]),
        strip(2, Below::Attic(0), 45.0, vec![]),
    ];
    let way = |on, off| Way { sheds, on, off };
    let ways =
        vec![way(vec![(1, 1.0)], vec![]), way(vec![], vec![(2, 0.6)]), Way::default(), way(vec![], vec![])];
    House {
        strips,
        planes: vec![Aspect { cosine: 0.9 }, Aspect { cosine: 1.0 }, Aspect { cosine: 0.9 }],
        attics: vec![Attic { to_rooms: 40.0, to_outdoors: 0.0, capacity: 0.0 }],
        moves: Moves { ways, drift },
    }
}

fn drift() -> Drift {
    let open = |azimuth, strips: Vec<usize>, beyond| Open {
        azimuth,
        scoured: strips.clone(),
        settles: strips,
        beyond,
    };
    let planes = vec![open(180.0, vec![0, 1], vec![2]), Open::default(), open(0.0, vec![3], vec![0])];
    Drift { law: LAW, shelter: 1.0, planes }
}

fn hour(air: f64, wind: f64) -> Hour {
    let sky = Sky {
        air,
        vapour: 0.8 * saturation_over_water(air),
        pressure: 95_000.0,
        wind,
        sun: 0.0,
        longwave: 220.0,
    };
    Hour {
        sky,
        rooms: 21.0,
        sun: vec![0.0; 3],
        snow: 0.0,
        rain: 0.0,
        wind_from: Some(180.0),
        seconds: 3600.0,
    }
}

fn season(house: &House, snow: f64, air: f64) -> Season<'_> {
    let column = Column::bare(air).under_snow(snow, 200.0, air);
    let columns = vec![column; house.strips.len()];
    Season::from(house, Steady(vec![Through { leak: 0.01, vent: 0.02 }]), columns, air)
}

/// A slippery roof warm from below lets its snow go once its foot is wet: three fifths of what passes the eave come to lie on the lower roof, the rest on the
/// ground. Nothing lies on the slope then, and none of it is lost.
#[test]
fn a_wet_foot_lets_a_slippery_roof_go() {
    let house = house(true, None);
    let mut season = season(&house, 0.4, -0.5);
    let [before, lower] = [season.mass(), season.columns()[2].snow_water()];
    for _ in 0..240 {
        season.step(&hour(1.5, 1.0));
        if season.sums().slid > 0.0 && !season.columns()[..2].iter().any(|column| column.snow_depth() > 0.0) {
            break;
        }
    }
    let sums = season.sums();
    assert!(season.columns()[0].snow_depth() < 1e-12 && sums.landed > 0.0, "{sums:?}");
    let of_south = sums.slid / sums.landed;
    // strip 3 slides as well, all of it to the ground
    assert!(of_south > 0.4 / 0.6 - 1e-9 && season.columns()[2].snow_water() > lower, "{of_south}");
    let left = season.mass() + sums.drip + sums.cold_drip + sums.sublimation + sums.slid;
    assert!((left - before).abs() < 1e-9 * before, "{left} of {before}");
    assert!(season.ledger().mass < 1e-9 && season.ledger().heat < 1e-4, "{:?}", season.ledger());
}

/// In the same weather shingles hold: snow leaves as water alone.
#[test]
fn shingles_hold_their_snow() {
    let house = house(false, None);
    let mut season = season(&house, 0.4, -0.5);
    for _ in 0..240 {
        season.step(&hour(1.5, 1.0));
    }
    assert!(season.sums().slid.abs() + season.sums().landed.abs() < f64::MIN_POSITIVE);
    assert!(season.sums().drip > 0.0);
}

/// Snow frozen to a cold eave holds what lies wet above it, as low metal roofs dam, as long as the eave freezes all that comes; the slope without a cold eave
/// goes to the ground, and once the eave thaws all goes.
#[test]
fn a_frozen_eave_holds_the_slope_above_it() {
    let house = house(true, None);
    let columns = vec![Column::bare(-6.0).under_snow(0.5, 250.0, -2.0); 4];
    let warm = Steady(vec![Through { leak: 0.05, vent: 0.0 }]);
    let mut season = Season::from(&house, warm, columns, 2.0);
    for _ in 0..480 {
        season.step(&hour(-6.0, 1.0));
        if season.columns()[1].ice() > 0.5 {
            break;
        }
    }
    assert!(season.columns()[1].ice() > 0.5 && season.sums().drip + season.sums().cold_drip < 1e-9);
    let depths = [0, 1, 3].map(|i| season.columns()[i].snow_depth());
    assert!(depths[0] > 0.2 && depths[1] > 0.2 && depths[2] < 1e-12, "{depths:?}");
    for _ in 0..240 {
        season.step(&hour(2.0, 1.0));
    }
    assert!(season.columns()[0].snow_depth() < 1e-12 && season.sums().landed > 0.0, "{:?}", season.sums());
}

/// A wind of 15 m/s from the south at −5 °C: it takes 15^3.8/233847 · 3/500 · 0.9 · 3600 s = 2.4486 kg/m² of the south slope in an hour (by hand), 45 m² of it,
/// lays half on the north slope and blows the other half away.
#[test]
fn wind_takes_from_the_slope_it_meets_and_leaves_half_behind_the_ridge() {
    let house = house(false, Some(drift()));
    let mut season = season(&house, 0.3, -8.0);
    season.step(&hour(-5.0, 15.0));
    let sums = season.sums();
    assert!((sums.blown / (0.5 * 45.0 * 2.4486) - 1.0).abs() < 0.001, "{}", sums.blown);
    assert!((sums.drifted / sums.blown - 1.0).abs() < 1e-12);
    let [south, north] = [0, 3].map(|i| season.columns()[i].snow_water());
    assert!(((north - south) - (2.4486 + 0.5 * 2.4486)).abs() < 0.02, "{south} {north}");
    assert!(season.ledger().mass < 1e-9 && season.ledger().heat < 1e-4, "{:?}", season.ledger());
}

/// Threshold at −5 °C: 9.43 − 0.9 + 0.0825 = 8.6125 m/s (by hand). Below it, in a thaw, and where nobody knows where the wind comes from, nothing moves.
#[test]
fn what_moves_no_snow() {
    assert!(LAW.lifted(-5.0, 8.6).abs() < f64::MIN_POSITIVE && LAW.lifted(-5.0, 8.62) > 0.0);
    assert!(LAW.lifted(0.5, 20.0).abs() < f64::MIN_POSITIVE);
    let house = house(false, Some(drift()));
    for (air, wind, from) in
        [(-5.0, 8.6, Some(180.0)), (0.5, 15.0, Some(180.0)), (-5.0, 15.0, None), (-5.0, 0.0, Some(0.0))]
    {
        let mut season = season(&house, 0.3, -8.0);
        season.step(&Hour { wind_from: from, ..hour(air, wind) });
        let sums = season.sums();
        assert!(sums.blown + sums.drifted < f64::MIN_POSITIVE, "{air} {wind}: {sums:?}");
    }
    // wind along the ridge meets no slope
    let mut season = season(&house, 0.3, -8.0);
    season.step(&Hour { wind_from: Some(90.0), ..hour(-5.0, 15.0) });
    assert!(season.sums().blown + season.sums().drifted < f64::MIN_POSITIVE);
}

/// Storms, thaws and gales on a roof that sheds and one that holds: mass and heat of the whole roof close in every step, with what slid and blew.
#[test]
fn mass_and_heat_close_whatever_slides_and_blows() {
    for (seed, sheds) in [(1, true), (2, false), (3, true)] {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        let mut random = || rng.random::<f64>();
        let house = house(sheds, Some(drift()));
        let mut season = season(&house, 0.2, -3.0);
        let before = season.mass();
        let mut mean = -3.0;
        for _ in 0..2500 {
            mean += 0.1 * (-3.0 - mean) + 3.0 * (random() - 0.5);
            let falls = if random() < 0.15 { 4.0 * random() } else { 0.0 };
            let share = winter::weather::snow_share(mean);
            let weather = Hour {
                snow: falls * share,
                rain: falls * (1.0 - share),
                wind_from: Some(360.0 * random()),
                ..hour(mean, 20.0 * random())
            };
            season.step(&weather);
        }
        let sums = season.sums();
        assert!(sums.blown > 0.0 && sums.drifted > 0.0, "{sums:?}");
        assert!((sums.slid > 0.0 && sums.landed > 0.0) == sheds, "{sums:?}");
        let came = before + sums.fallen;
        let gone = sums.drip + sums.cold_drip + sums.sublimation + sums.slid + sums.blown;
        assert!((season.mass() + gone - came).abs() < 1e-9 * came, "{} of {came}", season.mass() + gone);
        assert!(season.ledger().mass < 1e-9 && season.ledger().heat < 1e-3, "{:?}", season.ledger());
    }
}

/// Slopes from which roofing lets go, against those from which a code of loads begins to count on it (ASCE 7, figure 7.4-1, seen at second hand): cold roofs 15°
/// where slippery and free, 45° otherwise; 70° where nothing lies any more. Loads are to be safe: no roofing may let go in a season before the code counts on it.
#[test]
fn roofing_lets_go_no_earlier_than_codes_of_loads_count_on() {
    let book = Book::builtin();
    let mut count = [0, 0];
    for row in book.thermal().roof_surfaces() {
        let from = if row.slippery { 15.0 } else { 45.0 };
        assert!(
            (from..70.0).contains(&row.slides_from_deg.low) && row.slides_from_deg.high <= 70.0,
            "{row:?}"
        );
        count[usize::from(row.slippery)] += 1;
    }
    assert!(count[0] > 0 && count[1] > 0);
    let row = book.thermal().wind_on_snow("dry-snow").unwrap();
    assert!((row.threshold[0] - LAW.threshold[0]).abs() < 1e-12 && (row.rate / LAW.rate - 1.0).abs() < 1e-4);
    assert!((row.folds / row.fetch_m - LAW.growth).abs() < 1e-12);
}
