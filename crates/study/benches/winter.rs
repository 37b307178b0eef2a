//! A winter of the example house: four seasons (as found and as planned, lived in and with rooms as cold as outdoors) of eight months, and eighteen hundred
//! hours at 22 °F.

use book::Book;
use divan::Bencher;
use job::Job;
use study::Study;
use study::winter::Winter;
use winter::weather::{Site, Weather};
use winter::year::{Month, Normals};

fn main() {
    divan::main();
}

fn weather() -> Weather {
    let means = [-8.0, -6.5, -1.0, 6.0, 12.5, 17.5, 20.0, 19.0, 14.5, 8.0, 2.0, -4.5];
    let months = means.map(|mean| Month {
        mean,
        high: mean + 6.0,
        low: mean - 6.0,
        precipitation: 80.0,
        ..Month::default()
    });
    let site = Site { name: "town".into(), latitude: 46.9, longitude: -92.0, zone: -6.0, height: 350.0 };
    Normals { site, months }.year(5).expect("a year")
}

#[divan::bench(sample_count = 10)]
fn cross_gable(bencher: Bencher<'_, '_>) {
    let book = Book::builtin();
    let (job, _) = Job::read(include_str!("../../../examples/cross-gable.toml"), &book).expect("a job");
    let study = Study::of(&job, &book).expect("a study");
    let weather = weather();
    bencher.bench_local(|| Winter::of(&study, &weather, &book));
}
