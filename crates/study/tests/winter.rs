//! The example houses through a winter: what helps, what does not, and that the books close. The town and its climate are invented, as the houses are.

use std::sync::LazyLock;

use book::Book;
use job::Job;
use study::Study;
use study::winter::Winter;
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

fn winter(text: &str) -> Winter {
    let book = Book::builtin();
    let (job, _) = Job::read(text, &book).unwrap_or_else(|problems| panic!("{problems:#?}"));
    let study = Study::of(&job, &book).unwrap_or_else(|problems| panic!("{problems:#?}"));
    Winter::of(&study, &SNOWY).unwrap_or_else(|problems| panic!("{problems:#?}"))
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
