//! Thousands of faults in one document are all found and told in few words each. Where each fault costs what all before it did, these
//! tests take minutes instead of seconds.

use std::fmt::Write as _;

use book::Book;
use job::Job;

const MANY: usize = 5_000;

/// The starter with a piece for each number after it.
fn crowded(piece: impl Fn(usize) -> String) -> String {
    (0..MANY).fold(job::starter().to_owned(), |mut text, n| {
        let _ = writeln!(text, "{}", piece(n));
        text
    })
}

fn check(what: &str, text: &str) {
    let problems = Job::read(text, &Book::builtin()).expect_err("it is broken");
    assert!(problems.len() >= MANY, "{what}: {}", problems.len());
    let told: usize = problems.iter().map(|problem| problem.message.len() + problem.mend.len()).sum();
    assert!(told / problems.len() < 2_000, "{what}: {} letters each", told / problems.len());
}

#[test]
fn openings() {
    check(
        "unnamed, one beyond the plan",
        &crowded(|n| {
            format!("[[opening]]\nkind = \"pipe\"\nat = [\"1'\", \"1'\"]\nsize = \"3 in\"\nodd{n} = 1")
        }),
    );
}

#[test]
fn blocks_that_stand_on_nothing() {
    check(
        "blocks",
        &crowded(|n| {
            format!(
                "[[block]]\nname = \"b{n}\"\non = \"nothing {n}\"\nat = [\"0'\", \"0'\"]\nsize = [\"9'\", \"9'\"]\n\
             plate = \"9'\"\nroof = {{ form = \"hip\", pitch = \"6/12\" }}"
            )
        }),
    );
}

#[test]
fn readings_of_no_side() {
    check(
        "readings",
        &crowded(|n| format!("[[reading]]\nwhat = \"wall\"\nof = \"main {n}\"\nvalue = \"9'\"")),
    );
}

#[test]
fn walls_of_no_block() {
    check("walls", &crowded(|n| format!("[walls.w{n}]\nsiding = \"cedar-bevel\"")));
}
