//! Jobs for tests: the two example houses, changed where a test says so, and what is counted from them.
#![allow(dead_code, unreachable_pub, reason = "each test binary uses its own part")]

pub mod made;
pub mod random;

use std::sync::LazyLock;

use book::{Because, Book};
use job::Job;
use roof::{PlaneId, Roof};
use takeoff::{Line, Quantity, Takeoff};

pub const CROSS_GABLE: &str = include_str!("../../../../examples/cross-gable.toml");
pub const HIP_SPLIT_LEVEL: &str = include_str!("../../../../examples/hip-split-level.toml");

/// The books as the program carries them.
pub static BOOKS: LazyLock<Book> = LazyLock::new(Book::builtin);

/// A job, its roof and what is counted from it.
pub struct Counted {
    pub job: Job,
    pub roof: Roof,
    pub takeoff: Takeoff,
}

/// Counts a job document, which must be sound.
pub fn count(document: &str) -> Counted {
    count_with(document, &BOOKS)
}

pub fn count_with(document: &str, book: &Book) -> Counted {
    try_count(document, book).unwrap_or_else(|problems| panic!("{problems}"))
}

/// Counts a job document, or says what keeps it from having a roof.
pub fn try_count(document: &str, book: &Book) -> Result<Counted, String> {
    let (job, _) = Job::read(document, book).map_err(|problems| format!("{problems:#?}\n{document}"))?;
    let roof = Roof::of(&job, book).map_err(|problems| format!("{problems:#?}\n{document}"))?;
    let takeoff = Takeoff::of(&roof, &job, book).map_err(|problem| problem.to_string())?;
    Ok(Counted { job, roof, takeoff })
}

/// A document with one text in place of another, which must be there.
pub fn changed(document: &str, from: &str, to: &str) -> String {
    assert!(document.contains(from), "no `{from}` to change");
    document.replace(from, to)
}

impl Counted {
    pub fn line(&self, key: &str) -> &Line {
        self.takeoff.line(key).unwrap_or_else(|| panic!("no line `{key}`"))
    }

    pub fn ordered(&self, key: &str) -> u64 {
        self.line(key).ordered().unwrap_or_else(|| panic!("`{key}` is not ordered"))
    }

    pub fn ft(&self, key: &str) -> f64 {
        match self.line(key).net() {
            Some(Quantity::Length(length)) => length.ft(),
            other => panic!("`{key}` is {other:?}"),
        }
    }

    pub fn ft2(&self, key: &str) -> f64 {
        match self.line(key).net() {
            Some(Quantity::Area(area)) => area.ft2(),
            other => panic!("`{key}` is {other:?}"),
        }
    }

    pub fn pieces(&self, key: &str) -> f64 {
        match self.line(key).net() {
            Some(Quantity::Count(count)) => count as f64,
            other => panic!("`{key}` is {other:?}"),
        }
    }

    /// Area of a part cut from the rolls of ice barrier, 0 where there is none.
    pub fn part_ft2(&self, name: &str) -> f64 {
        self.takeoff.ice.parts.iter().filter(|part| part.name == name).map(|part| part.area.ft2()).sum()
    }

    pub fn plane(&self, name: &str) -> PlaneId {
        let at = self.roof.planes.iter().position(|plane| plane.name == name);
        PlaneId(at.unwrap_or_else(|| panic!("no plane `{name}`")))
    }

    /// All that a line was reached from, as text.
    pub fn why(&self, key: &str) -> String {
        let text = |because: &Because| {
            let inputs: Vec<String> =
                because.inputs.iter().map(|(name, value)| format!("{name} = {value}")).collect();
            format!("{}: {} [{}] {}", because.what, inputs.join("; "), because.rule, because.source)
        };
        self.line(key).because.iter().map(text).collect::<Vec<_>>().join("\n")
    }
}

pub fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} is not {wanted} within {within}");
}
