//! Any text read as a job document: no panic, and every problem has a place inside the text, a cause and a mend. What reads
//! goes on to the roof builder.
#![no_main]

use std::sync::LazyLock;

use book::Book;
use job::Job;
use libfuzzer_sys::fuzz_target;
use roof::Roof;

static BOOKS: LazyLock<Book> = LazyLock::new(Book::builtin);

fuzz_target!(|text: &str| {
    let problems = match Job::read(text, &BOOKS) {
        Ok((job, warnings)) => match Roof::of(&job, &BOOKS) {
            Ok(roof) => [warnings, roof.warnings].concat(),
            Err(problems) => problems,
        },
        Err(problems) => {
            assert!(!problems.is_empty());
            problems
        }
    };
    for problem in problems {
        assert!(!problem.message.is_empty() && !problem.mend.is_empty());
        assert!(problem.places.iter().all(|p| p.range.start <= p.range.end && p.range.end <= text.len()));
        assert!(!problem.plain(text).is_empty());
    }
});
