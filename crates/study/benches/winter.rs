//! A winter of the example house: nine houses (as found, with each fix, as planned) through a typical and a hard winter of eight months, each lived in and with rooms
//! as cold as outdoors, thirty-six seasons, and two thousand hours at 22 °F. One state is two seasons; by steps to the hour, bands over the attic and houses drawn.

use book::Book;
use divan::Bencher;
use job::Job;
use study::Study;
use study::winter::{Fine, Fixes, Sampling, Spread, Winter};
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

fn study() -> Study {
    let book = Book::builtin();
    let (job, _) = Job::read(include_str!("../../../examples/cross-gable.toml"), &book).expect("a job");
    Study::of(&job, &book).expect("a study")
}

#[divan::bench(sample_count = 10)]
fn cross_gable(bencher: Bencher<'_, '_>) {
    let (study, weather, book) = (study(), weather(), Book::builtin());
    bencher.bench_local(|| Winter::of(&study, &weather, &book));
}

/// Two seasons in so many steps to the hour.
#[divan::bench(sample_count = 5, args = [1, 2, 4])]
fn steps(bencher: Bencher<'_, '_>, steps: u32) {
    let (study, weather) = (study(), weather());
    let fine = Fine { steps, ..Fine::default() };
    bencher.bench_local(|| Winter::state(&study, &weather, Fixes::default(), fine));
}

/// Two seasons over so many bands in a plane.
#[divan::bench(sample_count = 5, args = [5, 10, 20])]
fn bands(bencher: Bencher<'_, '_>, bands: usize) {
    let (study, weather) = (study(), weather());
    let fine = Fine { bands, ..Fine::default() };
    bencher.bench_local(|| Winter::state(&study, &weather, Fixes::default(), fine));
}

/// So many houses drawn, on all threads.
#[divan::bench(sample_count = 3, args = [4, 8, 16])]
fn houses(bencher: Bencher<'_, '_>, runs: usize) {
    let (study, weather, book) = (study(), weather(), Book::builtin());
    bencher.bench_local(|| Spread::of(&study, &weather, &book, Sampling { runs, seed: 1 }));
}
