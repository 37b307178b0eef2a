//! How long the details of a house take, with the least failures of each under every attack.

use book::Book;
use detail::{Details, Section, Stand};
use divan::Bencher;
use job::Job;
use measure::Pitch;
use roof::Roof;

fn main() {
    divan::main();
}

fn of(bencher: Bencher, text: &str) {
    let book = Book::builtin();
    let (job, _) = Job::read(text, &book).expect("a sound job");
    let roof = Roof::of(&job, &book).expect("a roof");
    bencher.bench(|| Details::of(&roof, &job, &book).expect("materials of the books"));
}

#[divan::bench]
fn cross_gable(bencher: Bencher) {
    of(bencher, include_str!("../../../examples/cross-gable.toml"));
}

#[divan::bench]
fn hip_split_level(bencher: Bencher) {
    of(bencher, include_str!("../../../examples/hip-split-level.toml"));
}

#[divan::bench(args = ["sidewall-lap-siding", "ridge-closed"])]
fn one_detail(bencher: Bencher, id: &str) {
    let book = Book::builtin();
    let section =
        Section::of(book.detail(id).expect("a detail"), "6/12".parse::<Pitch>().expect("a pitch"), &book)
            .expect("sound");
    bencher.bench(|| Stand::all(&section));
}
