//! The example houses through a winter: what helps, what does not, and that the books close. The town and its climate are invented, as the houses are.

use std::sync::LazyLock;

use book::Book;
use job::Job;
use study::Study;
use study::winter::{Fine, Fixes, Log, Sampling, Spread, State, Winter};
use winter::weather::{Site, Weather};
use winter::year::{Month, Normals};

const CROSS_GABLE: &str = include_str!("../../../examples/cross-gable.toml");
const SPLIT_LEVEL: &str = include_str!("../../../examples/hip-split-level.toml");

/// Cold and snowy: January −8 °C, 2 m of snow in a winter.
static SNOWY: LazyLock<Weather> = LazyLock::new(|| {
    let means = [-8.0, -6.5, -1.0, 6.0, 12.5, 17.5, 20.0, 19.0, 14.5, 8.0, 2.0, -4.5];
    let snow = [0.50, 0.45, 0.35, 0.08, 0.0, 0.0, 0.0, 0.0, 0.0, 0.02, 0.15, 0.45];
    let months = std::array::from_fn(|i| Month {
        mean: means[i],
        high: means[i] + 6.0,
        low: means[i] - 6.0,
        precipitation: 80.0,
        snowfall: Some(snow[i]),
        wet_days: Some(11.0),
        wind: Some(2.5),
        ..Month::default()
    });
    let site = Site {
        name: "a snowy inland town".into(),
        latitude: 46.9,
        longitude: -92.0,
        zone: -6.0,
        height: 350.0,
    };
    Normals { site, months }.year(5).expect("a year")
});

/// One cold month of it alone, so that few hours are run through.
fn january() -> Weather {
    let warm = |hour: &winter::weather::Hour| {
        if hour.date.month() == 1 { *hour } else { winter::weather::Hour { temperature: 25.0, ..*hour } }
    };
    Weather { hours: SNOWY.hours.iter().map(warm).collect(), ..SNOWY.clone() }
}

fn study(text: &str) -> Study {
    let book = Book::builtin();
    let (job, _) = Job::read(text, &book).unwrap_or_else(|problems| panic!("{problems:#?}"));
    Study::of(&job, &book).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

fn winter(text: &str) -> Winter {
    Winter::of(&study(text), &*SNOWY, &Book::builtin()).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

/// Each house through it once for all tests.
static CROSS: LazyLock<(Winter, Log)> = LazyLock::new(|| logged(CROSS_GABLE));
static SPLIT: LazyLock<Winter> = LazyLock::new(|| winter(SPLIT_LEVEL));

fn logged(text: &str) -> (Winter, Log) {
    Winter::logged(&study(text), &*SNOWY, &Book::builtin()).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

/// The cross-gable through the whole winter.
fn state(fixes: Fixes, fine: Fine) -> State {
    Winter::state(&study(CROSS_GABLE), &SNOWY, fixes, fine).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

#[test]
fn the_cross_gable_makes_ice_and_the_plan_stops_it() {
    let (winter, _) = &*CROSS;
    let melt =
        |name: &str| winter.ablation.iter().find(|row| row.name.starts_with(name)).expect(name).melt_day;
    let found = melt("as found");
    for one in ["leaks sealed", "insulated", "vented at eaves"] {
        assert!(melt(one) < 0.95 * found, "{one}");
    }
    assert!(melt("ridge vent alone") > 0.97 * found, "a ridge vent over shut soffits helps nothing");
    assert!(melt("as planned") < 0.02 * found);
    assert!(winter.plan.ice < 0.2 * winter.found.ice && winter.found.ice > 1.0);
    assert!(winter.plan.heat < winter.found.heat);
    assert!(
        winter.ledger.mass < 1e-9 && winter.ledger.heat < 1e-3 && winter.ledger.attic < 1.0,
        "{:?}",
        winter.ledger
    );
}

#[test]
fn two_attics_of_a_split_level_each_have_their_air() {
    assert!(SPLIT.ledger.attic < 0.1, "{:?}", SPLIT.ledger);
    let winter = &*SPLIT;
    assert!(winter.found.ice > winter.plan.ice && winter.found.melt > winter.plan.melt);
    assert!(winter.ablation.iter().all(|row| row.melt_day.is_finite() && row.attic < 20.0));
}

/// What the survey lacks is asked for by its field.
#[test]
fn a_house_without_readings_is_told_which_it_lacks() {
    let text = CROSS_GABLE.replace("effective = \"R-9\"\n", "").replace("leakage = \"2900 cfm50\"\n", "");
    let told: Vec<String> = Winter::of(&study(&text), &*SNOWY, &Book::builtin())
        .unwrap_err()
        .into_iter()
        .map(|problem| problem.message)
        .collect();
    assert_eq!(told.len(), 2, "{told:?}");
    assert!(
        told[0].contains("`house.leakage`") && told[1].contains("`attic.main.found.effective`"),
        "{told:?}"
    );
}

/// What drips in freezing air is part of what melts from below and of what the eaves did not hold; the plan leaves less of it.
#[test]
fn icicles_grow_of_what_the_building_melts() {
    let (winter, _) = &*CROSS;
    let (found, plan) = (&winter.found, &winter.plan);
    assert!(found.icicles > 0.0 && found.icicles < found.melt, "{} of {}", found.icicles, found.melt);
    assert!(plan.icicles < 0.5 * found.icicles, "{} of {}", plan.icicles, found.icicles);
}

/// Whoever looks on changes nothing; what is logged is the same winter, and the eave looked at has the most ice of the building of all.
#[test]
fn a_logged_winter_is_the_same_winter() {
    let (winter, log) = &*CROSS;
    assert_eq!(*winter, self::winter(CROSS_GABLE));
    assert_eq!(*log, Winter::hours(&study(CROSS_GABLE), &SNOWY).expect("hours"));
    let hours = log.weather.len();
    assert!((4000..8760).contains(&hours) && log.found.len() == hours && log.plan.len() == hours);
    let most = log.found.iter().map(|hour| hour.ice - hour.sun_ice).fold(0.0, f64::max);
    assert!(most >= winter.found.ice, "the worst eave has no less than the mean of all");
    assert!(log.found.iter().all(|hour| hour.ice >= 0.0 && hour.pond >= 0.0 && hour.snow_depth >= 0.0));
    let snow: f64 = log.weather.iter().map(|hour| hour.snow).sum();
    let of_year: f64 = SNOWY.sum_by_month(|hour| hour.snow).iter().sum();
    assert!(snow <= of_year && snow > 0.9 * of_year, "what falls, falls in the months that are logged");
}

/// The north slope of the main roof, by hand: 14' 4" in plan from the edge at 16 in to the ridge, on a slope of √5/2.
#[test]
fn bands_of_the_worst_slope_go_from_its_edge_to_its_ridge() {
    let (winter, log) = &*CROSS;
    let slope = log.slope.as_ref().expect("an eave");
    assert_eq!((slope.plane.as_str(), slope.is_ridged), ("main N", true));
    let secant = 1.25_f64.sqrt();
    assert!((slope.top.ft() - (14.0 + 4.0 / 12.0) * secant).abs() < 0.01, "{}", slope.top.ft());
    assert!((slope.cold.ft() - 16.0 / 12.0 * secant).abs() < 0.05, "{}", slope.cold.ft());
    assert_eq!(slope.bands.len(), 6);
    assert!(!slope.bands[0].is_over_attic && slope.bands[1..].iter().all(|band| band.is_over_attic));
    assert!(slope.bands.windows(2).all(|pair| (pair[0].to.m() - pair[1].from.m()).abs() < 1e-9));
    let [found, plan] =
        [winter.ablation.first(), winter.ablation.last()].map(|row| slope.decks(row.expect("a row")));
    assert!(found[1..].iter().zip(&plan[1..]).all(|(found, plan)| found > plan));
    assert!(found[0] < found[1], "the overhang is colder than what lies over the attic");
}

/// A place without a cold month has no ice and nothing to tell of.
#[test]
fn a_winter_without_cold_has_no_hours() {
    let warm = Weather {
        hours: SNOWY.hours.iter().map(|hour| winter::weather::Hour { temperature: 25.0, ..*hour }).collect(),
        ..SNOWY.clone()
    };
    let (winter, log) =
        Winter::logged(&study(CROSS_GABLE), &warm, &Book::builtin()).unwrap_or_else(|p| panic!("{p:#?}"));
    assert!(log.weather.is_empty() && winter.found.ice == 0.0);
}

/// With leaks sealed the rooms' vapor stays below: the planned attic's deck is drier and bears less frost than the found one's; what is vented and leaks nothing is
/// as dry as the air outdoors lets it be (15 to 18 % at 80 to 85 % humidity, Wood Handbook, chapter 4).
#[test]
fn a_sealed_and_vented_attic_is_drier() {
    let (winter, _) = &*CROSS;
    let (found, plan) = (&winter.found.damp[0], &winter.plan.damp[0]);
    assert!(
        plan.wood < found.wood && plan.frost <= found.frost && plan.mold <= found.mold,
        "{found:?} {plan:?}"
    );
    assert!(plan.wood < 0.25 && plan.frost < 0.1, "{plan:?}");
    let rooms = |humidity: &str| {
        let job = CROSS_GABLE.replace("humidity = \"38 %\"", &format!("humidity = \"{humidity}\""));
        let winter = Winter::of(&study(&job), &january(), &Book::builtin()).expect("a winter");
        winter.found.damp[0].clone()
    };
    let (damp, dry) = (rooms("50 %"), rooms("20 %"));
    assert!(damp.wood > dry.wood, "damper rooms, damper deck");
    println!("found {found:?}\nplan {plan:?}\nat 50 % {damp:?}\nat 20 % {dry:?}");
}

/// Half the step moves the ice of the whole winter by less than 3 %, twice the bands by less than 5 %.
#[test]
fn steps_and_strips_of_the_cross_gable_are_fine_enough() {
    let [whole, halved, finer] =
        [Fine::default(), Fine { steps: 2, ..Fine::default() }, Fine { bands: 10, ..Fine::default() }]
            .map(|fine| state(Fixes::default(), fine).ice);
    assert!((halved / whole - 1.0).abs() < 0.03, "{halved} for {whole}");
    assert!((finer / whole - 1.0).abs() < 0.05, "{finer} for {whole}");
}

/// Rooms as cold as the air outdoors make no ice of the building's, melt nothing from below and lose no heat.
#[test]
fn a_house_nobody_heats_makes_no_ice_of_its_own() {
    let cold = state(Fixes::default(), Fine { is_heated: false, ..Fine::default() });
    assert!(cold.ice.abs() < 1e-12 && cold.melt.abs() < 1e-9, "{cold:?}");
    assert!(cold.sun_ice > 0.0, "the sun makes some all the same");
}

/// Sealing, insulating and venting at eaves and ridge each lower the ice of the whole winter; a ridge vent over shut soffits does not; all together leave less
/// than any, and melt nothing at 22 °F (the ablation above).
#[test]
fn each_fix_lowers_the_ice_of_a_winter_but_a_ridge_vent_over_shut_soffits() {
    let none = Fixes::default();
    let ice = |fixes: Fixes| state(fixes, Fine::default()).ice;
    let found = ice(none);
    let alone = [
        Fixes { seal: true, ..none },
        Fixes { insulate: true, ..none },
        Fixes { low_vents: true, high_vents: true, ..none },
    ]
    .map(ice);
    assert!(alone.iter().all(|one| *one < found), "{alone:?} of {found}");
    assert!(ice(Fixes { high_vents: true, ..none }) > 0.97 * found);
    let all = ice(Fixes::ALL);
    assert!(alone.iter().all(|one| all < *one), "{all} of {alone:?}");
}

/// A seed is the same ranges to the last bit on one thread and on three, another seed others; ranges are in order, and the plan leaves less in every house drawn.
#[test]
fn ranges_are_the_same_on_any_number_of_threads() {
    let (study, book) = (study(CROSS_GABLE), Book::builtin());
    let spread = |threads: usize, seed: u64| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("threads");
        let sampling = Sampling { runs: 4, seed };
        pool.install(|| Spread::of(&study, &SNOWY, &book, sampling)).expect("a spread")
    };
    let one = spread(1, 7);
    assert_eq!(format!("{one:?}"), format!("{:?}", spread(3, 7)));
    assert_ne!(one.found.ice, spread(2, 8).found.ice);
    for band in [one.found.ice, one.found.melt, one.plan.heat, one.found.attic_at_design] {
        assert!(band.p10 <= band.p50 && band.p50 <= band.p90 && band.width() > 0.0, "{band:?}");
    }
    assert!((one.plan_lowers - 1.0).abs() < 1e-12 && one.saved.p10 > 0.0);
    assert!(one.influences.is_empty(), "four houses tell nothing of what the ice hangs on");
}

/// Snow of an old metal roof slides off as found and is told; under the shingles that follow it stays. With a wind of which the direction is known some is blown off,
/// without none. Water closes with it.
#[test]
fn snow_that_slides_and_blows_is_told() {
    let metal = SPLIT_LEVEL.replace("[covering]", "[covering]\nold = \"metal\"");
    let through = |text: &str, weather: &Weather, fixes: Fixes| {
        let state = Winter::state(&study(text), weather, fixes, Fine::default());
        let state = state.unwrap_or_else(|problems| panic!("{problems:#?}"));
        assert!(state.closure[0] < 1e-6 && state.closure[1] < 1e-9, "{:?}", state.closure);
        state
    };
    let still = through(&metal, &SNOWY, Fixes::NONE);
    assert!(still.slid > 1000.0 && still.blown.abs() < f64::MIN_POSITIVE, "{}", still.slid);
    assert!(through(&metal, &SNOWY, Fixes::ALL).slid.abs() < f64::MIN_POSITIVE);
    let mut windy = SNOWY.clone();
    for (hour, at) in windy.hours.iter_mut().zip(0_u32..) {
        (hour.wind, hour.wind_from) = (4.0 * hour.wind, Some(f64::from(at % 360)));
    }
    let blown = through(SPLIT_LEVEL, &windy, Fixes::NONE);
    assert!(blown.blown > 0.0 && blown.slid.abs() < f64::MIN_POSITIVE, "{blown:?}");
}

/// The split level with its two attics open to each other: the warmer one cools, the colder one warms, in the cold and on the sheet, and heat and water still close.
#[test]
fn attics_open_to_each_other_come_nearer() {
    let open = SPLIT_LEVEL
        .replace("[attic.upper]", "[attic.upper]\njoined = [{ to = \"lower\", area = \"40 ft2\" }]");
    let gap = |text: &str| {
        let heat = study::heat::Heat::of(&study(text), &Book::builtin()).expect("rows of the books");
        let days = heat.air.expect("leaks").days;
        let at_22 = days.iter().rev().find(|day| day.state == "as found").expect("a day");
        (at_22.attics[0].temperature.c() - at_22.attics[1].temperature.c()).abs()
    };
    let (apart, near) = (gap(SPLIT_LEVEL), gap(&open));
    assert!(near < 0.8 * apart, "{apart} {near}");
    let joined = winter(&open);
    assert!(joined.closure[0] < 1e-6 && joined.closure[1] < 1e-9, "{:?}", joined.closure);
    assert!(joined.ledger.attic < 1.0, "{:?}", joined.ledger);
}

/// Each row through the typical and the hard winter: as found and as planned are the winter's own; the hard one of that town makes more ice and takes more heat of every
/// house; what it costs is the heat by the therm: 100 000 Btu at 80 % for $1.32 are 80 000 Btu, 23.446 kWh.
#[test]
fn every_fix_goes_through_a_typical_and_a_hard_winter() {
    let (winter, _) = &*CROSS;
    assert_eq!(winter.seasons.len(), winter.ablation.len());
    assert_eq!(
        [&winter.seasons[0][0], &winter.seasons[winter.seasons.len() - 1][0]],
        [&winter.found, &winter.plan]
    );
    for (row, [typical, hard]) in winter.rows() {
        assert!(hard.ice >= typical.ice && hard.heating > typical.heating, "{}", row.name);
        assert!(typical.heating >= typical.heat, "{}: make-up air is colder than the attic", row.name);
        assert_eq!((typical.damp.len(), typical.deck_at_design.to_bits()), (1, row.deck.to_bits()));
    }
    let dollars = winter.found.heating / 23.446 * 1.32;
    let money = winter.bill.money(winter.found.heating).expect("a price").to_string();
    let told: f64 = money.trim_start_matches('$').replace(',', "").parse().expect("dollars");
    assert!((told - dollars).abs() < 1e-3 * dollars, "{money} for {dollars}");
    assert!(winter.bill.lacks().is_none());
}

/// What helps nothing is told by one reason wherever it is told; a ridge vent over narrow eaves draws from the rooms in both houses. What the job does not plan helps neither nor not.
#[test]
fn what_helps_nothing_has_one_reason() {
    let narrow =
        "what it lets out it draws from the rooms, for the way in from outdoors is as narrow as before";
    for winter in [&CROSS.0, &*SPLIT] {
        let useless = winter.useless();
        let told = |name: &str| useless.iter().find(|(row, _)| row.name == name).map(|(_, why)| *why);
        assert_eq!(told("ridge vent alone, eaves as found"), Some(narrow));
        for row in &winter.ablation {
            let why = winter.why(row).unwrap_or_default();
            let is_told = told(&row.name).map(|reason| format!("helps nothing: {reason} "));
            assert_eq!(why.starts_with("helps nothing"), is_told.is_some(), "{why}");
            assert!(is_told.is_none_or(|words| why.starts_with(&words)), "{why}");
        }
    }
    let unplanned = SPLIT.ablation.iter().find(|row| row.name == "insulated alone").expect("a row");
    assert_eq!(SPLIT.why(unplanned).as_deref(), Some("the job plans none of it"));
}

/// Foam no deeper than the heels leave: 5 1/4 in less an inch of way at 9/12, the steeper of both roofs, by hand 5.25 − 1.25 = 4.00 in, in two lifts, R-25.2. It seals to
/// 0.79 cm² for each m² of 1200 ft². Both together lower melt and ice more than they leave.
#[test]
fn foam_fits_the_heel_and_lowers_the_ice() {
    let foam = study(CROSS_GABLE).envelope.foams[0].clone().expect("a measured heel");
    assert!((foam.depth.inches() - 4.0).abs() < 1e-9 && foam.lifts == 2, "{foam:?}");
    assert!((foam.resists.us() - 25.2).abs() < 1e-6, "{foam:?}");
    // 88.07 cm² at 4 Pa: 0.008807·√(8/1.204) = 0.02270 m³/s, times 12.5^0.65 = 0.1172 m³/s at 50 Pa
    assert!((foam.leakage.m3_s() - 0.1172).abs() < 2e-4, "{foam:?}");
    let (winter, _) = &*CROSS;
    let of = |name: &str| winter.rows().find(|(row, _)| row.name.starts_with(name)).expect(name);
    let (row, [typical, hard]) = of("closed-cell foam");
    assert!(row.melt_day < 0.5 * winter.ablation[0].melt_day);
    assert!(typical.ice < 0.5 * winter.found.ice && hard.ice < 0.5 * winter.seasons[0][1].ice);
    assert!(winter.why(row).expect("a fix").contains("less heat through the ceiling"));
    let unmeasured = CROSS_GABLE.replace(", heel = \"5 1/4 in\"", "");
    let told = Fixes::left_out(&study(&unmeasured));
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].contains("`block.main.framing.heel`"), "{told:?}");
    assert!(Fixes::worth(&study(&unmeasured)).iter().all(|(_, fixes)| !fixes.foam));
}

/// 32 ft of open joist bays leak 25 cm² a metre as found and 2 made tight: 224.3 cm² at 4 Pa, 0.2986 m³/s at 50 Pa. Closed, less air comes in low and less goes up;
/// bays that stand open to an attic feed it with all of it. No house without one has the row.
#[test]
fn a_cantilever_feeds_what_rises() {
    let split = study(SPLIT_LEVEL);
    let open = &split.envelope.cantilevers[0];
    assert!((open.takes.m3_s() - 0.2986).abs() < 5e-4 && open.attic.is_none(), "{open:?}");
    let ice = |text: &str, name: &str| {
        let rows = Winter::of(&study(text), &january(), &Book::builtin()).expect("a winter");
        let row = rows.rows().find(|(row, _)| row.name.starts_with(name)).expect(name);
        (row.0.leak, row.1[0].ice)
    };
    let (found, closed) = (ice(SPLIT_LEVEL, "as found"), ice(SPLIT_LEVEL, "cantilevers closed"));
    assert!(closed.0 < 0.9 * found.0 && closed.1 < found.1, "{closed:?} of {found:?}");
    let inward = SPLIT_LEVEL.replace("blocked = false", "blocked = false\nopens_into = \"upper\"");
    let fed = ice(&inward, "cantilevers closed");
    assert!(fed.0 < closed.0, "{fed:?} of {closed:?}");
    let planned = SPLIT_LEVEL.replace("blocked = false", "blocked = false\nclose = true");
    assert!(ice(&planned, "as planned").0 < ice(SPLIT_LEVEL, "as planned").0);
    assert!(Fixes::worth(&study(CROSS_GABLE)).iter().all(|(name, _)| !name.contains("cantilever")));
}

/// The same to the last bit on one thread and on three.
#[test]
fn a_winter_is_the_same_on_any_number_of_threads() {
    let (study, book, weather) = (study(SPLIT_LEVEL), Book::builtin(), january());
    let on = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().expect("threads");
        pool.install(|| Winter::of(&study, &weather, &book)).expect("a winter")
    };
    assert_eq!(format!("{:?}", on(1)), format!("{:?}", on(3)));
}
