//! The example houses through a winter: what helps, what does not, and that the books close. The town and its climate are invented, as the houses are.

use std::sync::LazyLock;

use book::Book;
use job::Job;
use study::Study;
use study::winter::{Fine, Fixes, Sampling, Spread, State, Winter};
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

fn study(text: &str) -> Study {
    let book = Book::builtin();
    let (job, _) = Job::read(text, &book).unwrap_or_else(|problems| panic!("{problems:#?}"));
    Study::of(&job, &book).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

fn winter(text: &str) -> Winter {
    Winter::of(&study(text), &SNOWY).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

/// The cross-gable through the whole winter.
fn state(fixes: Fixes, fine: Fine) -> State {
    Winter::state(&study(CROSS_GABLE), &SNOWY, fixes, fine).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

#[test]
fn the_cross_gable_makes_ice_and_the_plan_stops_it() {
    let winter = winter(CROSS_GABLE);
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
    let winter = winter(SPLIT_LEVEL);
    assert!(winter.found.ice > winter.plan.ice && winter.found.melt > winter.plan.melt);
    assert!(winter.ablation.iter().all(|row| row.melt_day.is_finite() && row.attic < 20.0));
}

/// What the survey lacks is asked for by its field.
#[test]
fn a_house_without_readings_is_told_which_it_lacks() {
    let book = Book::builtin();
    let text = CROSS_GABLE.replace("effective = \"R-9\"\n", "").replace("leakage = \"2900 cfm50\"\n", "");
    let (job, _) = Job::read(&text, &book).unwrap_or_else(|problems| panic!("{problems:#?}"));
    let study = Study::of(&job, &book).unwrap_or_else(|problems| panic!("{problems:#?}"));
    let told: Vec<String> =
        Winter::of(&study, &SNOWY).unwrap_err().into_iter().map(|problem| problem.message).collect();
    assert_eq!(told.len(), 2, "{told:?}");
    assert!(
        told[0].contains("`house.leakage`") && told[1].contains("`attic.main.found.effective`"),
        "{told:?}"
    );
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
