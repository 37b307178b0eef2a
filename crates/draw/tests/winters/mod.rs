//! Winters for tests and for looking at: the example houses in the weather their jobs name, and some that are hard to draw.
#![allow(dead_code, unreachable_pub, reason = "each user takes its own part")]

use std::sync::LazyLock;

use book::Book;
use draw::{
    ChartOptions, Figure, WinterScene, bands_chart, fixes_chart, headline_bands, owner_breath, owner_choices,
    owner_house, owner_melt, season_chart, slope_profile,
};
use job::{Job, Units};
use study::Study;
use study::winter::{Log, Winter};

/// A house and its winter.
pub struct House {
    pub name: &'static str,
    pub study: Study,
    pub winter: Winter,
    pub log: Log,
}

const SNOWY: &[u8] = include_bytes!("../../../../examples/snowy-town-normals.csv");
const MOUNTAIN: &[u8] = include_bytes!("../../../../examples/mountain-valley-normals.csv");
const CROSS_GABLE: &str = include_str!("../../../../examples/cross-gable.toml");
const SPLIT_LEVEL: &str = include_str!("../../../../examples/hip-split-level.toml");

impl House {
    fn of(name: &'static str, text: &str, normals: &[u8]) -> Self {
        let book = Book::builtin();
        let (job, _) = Job::read(text, &book).unwrap_or_else(|problems| panic!("{name}: {problems:?}"));
        let study = Study::of(&job, &book).unwrap_or_else(|problems| panic!("{name}: {problems:?}"));
        let weather = exchange::weather::year(normals, 1).unwrap_or_else(|fault| panic!("{name}: {fault}"));
        let (winter, log) =
            Winter::logged(&study, &weather, &book).unwrap_or_else(|problems| panic!("{name}: {problems:?}"));
        Self { name, study, winter, log }
    }

    pub fn scene(&self, units: Units) -> WinterScene<'_> {
        WinterScene { winter: &self.winter, log: &self.log, units }
    }

    /// Charts for the desk by name.
    pub fn charts(&self, units: Units) -> Vec<(&'static str, Figure)> {
        let (scene, options) = (self.scene(units), ChartOptions { size_mm: (177.0, 225.0) });
        let bands = bands_chart(&scene, &headline_bands(&scene, None), &options);
        let charts = [
            ("season", season_chart(&scene, &options)),
            ("fixes", fixes_chart(&scene, &options)),
            ("bands", bands),
        ];
        let profile = slope_profile(&scene, &options).map(|figure| ("profile", figure));
        charts.into_iter().chain(profile).collect()
    }

    /// Pictures for the owner by name.
    pub fn pictures(&self, units: Units) -> Vec<(&'static str, Figure)> {
        let (scene, size) = (self.scene(units), (177.0, 78.0));
        let pictures = [
            ("house", owner_house(&scene, size)),
            ("melt", owner_melt(&scene, size)),
            ("choices", owner_choices(&scene, size)),
            ("breath", owner_breath(&scene, size)),
        ];
        pictures.into_iter().filter_map(|(name, figure)| Some((name, figure?))).collect()
    }
}

/// Each is run through its winters once for all tests.
static CROSS: LazyLock<House> = LazyLock::new(|| House::of("cross gable", CROSS_GABLE, SNOWY));
static SPLIT: LazyLock<House> = LazyLock::new(|| House::of("split level", SPLIT_LEVEL, MOUNTAIN));
static STEEP: LazyLock<House> =
    LazyLock::new(|| House::of("steep", &pitched("14/12").replace("\"9/12\"", "\"16/12\""), SNOWY));
static LOW: LazyLock<House> = LazyLock::new(|| House::of("low", &pitched("3/12"), SNOWY));
static WARM: LazyLock<House> = LazyLock::new(|| {
    let warm = String::from_utf8_lossy(SNOWY).lines().map(warmed).collect::<Vec<_>>().join("\n");
    House::of("warm", CROSS_GABLE, warm.as_bytes())
});

fn pitched(pitch: &str) -> String {
    CROSS_GABLE.replace("pitch = \"6/12\"", &format!("pitch = \"{pitch}\""))
}

pub fn cross_gable() -> &'static House {
    &CROSS
}

pub fn split_level() -> &'static House {
    &SPLIT
}

/// All of them: also steep, nearly flat, and in a place without winter.
pub fn all() -> [&'static House; 5] {
    [&CROSS, &SPLIT, &STEEP, &LOW, &WARM]
}

/// A row of normals thirty degrees Fahrenheit warmer.
fn warmed(row: &str) -> String {
    let warmer = |(i, field): (usize, &str)| match field.parse::<f64>() {
        Ok(value) if (7..=9).contains(&i) => format!("{:.1}", value + 30.0),
        _ => field.to_owned(),
    };
    // the name holds no comma
    row.split(',').enumerate().map(|(i, field)| warmer((i + 1, field))).collect::<Vec<_>>().join(",")
}
