//! Any text read as a job document: no panic, and every problem has a place inside the text, a cause and a mend. What reads
//! goes on to the roof builder, its gutters to be hung and its details to be found.
#![no_main]

use std::sync::LazyLock;

use book::Book;
use detail::Details;
use job::Job;
use libfuzzer_sys::fuzz_target;
use roof::Roof;

static BOOKS: LazyLock<Book> = LazyLock::new(Book::builtin);

fuzz_target!(|text: &str| {
    let problems = match Job::read(text, &BOOKS) {
        Ok((job, warnings)) => match Roof::of(&job, &BOOKS) {
            Ok(roof) => {
                let hung = water::hang(&roof, &job.gutters).err().unwrap_or_default();
                let details = Details::of(&roof, &job, &BOOKS).expect("the books have all their materials");
                [warnings, hung, details.problems, roof.warnings].concat()
            }
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
