//! The code sheet: every clause of the adopted edition about roofs, flashing, ice barriers, re-roofing and vents that asks something of
//! this house, and whether what is found and what is planned does it.
//!
//! [`CodeSheet::of`] is the one entry. A [`Row`] is one clause at the places where it asks the same; it holds one check or several, and
//! says how many of them must hold. `figure` writes figures so that they differ on paper as they do in fact; `judge` holds what is provided
//! against what is asked; the others each ask the clauses of a part of the house. Figures of the code come from the books, what is provided
//! from the layers of the details, the takeoff and the job.
//!
//! # Limits
//! What is found at an edge is what the books say is usually found there, but for what the survey recorded of walls, attics and openings;
//! a [`Check`] says which ([`Check::is_usual`]), and so do all papers.
//! Nothing here is a permit: the adopted local code and the official decide.

mod airway;
mod attic;
mod chimney;
mod covering;
mod desk;
mod edges;
mod exhaust;
mod figure;
mod flashing;
mod ice;
mod judge;
mod lot;
mod metal;
mod replace;
mod standing;
mod vapor;
mod water;

use book::{Because, Book, Confidence, LookupError};
use detail::Details;
use job::{Job, Units};
use roof::Roof;
use takeoff::Takeoff;

use desk::Desk;

pub use figure::{Figure, apart};
pub use judge::{Check, Demand, Judged, Need, Verdict};

/// What the adopted edition asks of a house.
#[derive(Clone, Debug, PartialEq)]
pub struct CodeSheet {
    /// The edition, as printed.
    pub edition: String,
    /// Its id in the books.
    pub edition_id: String,
    /// Where the edition itself comes from.
    pub edition_source: book::Source,
    /// Whether an overlay amends rules of it.
    pub is_amended: bool,
    /// Clauses that ask something of this house, by part, in the order of the work.
    pub rows: Vec<Row>,
    /// Clauses that were looked at and ask nothing here.
    pub unasked: Vec<Unasked>,
    /// Clauses about roofs that others judge.
    pub left_to_others: Vec<book::LeftToOthers>,
}

/// A clause at the places where it asks the same and is met alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// The part of the house it is about.
    pub part: Part,
    /// Name for programs: the rule of the books it comes from.
    pub rule: &'static str,
    /// Clause number.
    pub clause: String,
    /// An overlay amends it.
    pub is_amended: bool,
    /// What it asks, in words.
    pub asked: String,
    /// Where, by name.
    pub places: Vec<String>,
    /// What is held against it.
    pub checks: Vec<Check>,
    /// How many of the checks must hold.
    pub need: Need,
    /// As found; none where nothing is there yet or nobody can know.
    pub found: Option<Verdict>,
    /// As planned.
    pub planned: Verdict,
    /// How it was reached; the clause first.
    pub because: Vec<Because>,
}

/// A clause that asks nothing of this house.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unasked {
    /// Clause number.
    pub clause: String,
    /// What it is about.
    pub what: &'static str,
    /// Why it asks nothing here.
    pub why: String,
}

/// Parts of a house the rows are grouped by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// What becomes of the old roof.
    Reroofing,
    /// Covering, deck, underlayment, nails.
    Covering,
    /// Ice barrier.
    IceBarrier,
    /// Flashing and drip edge.
    Flashing,
    /// What stands on the roof or goes through it.
    Standing,
    /// Attics and their vents.
    Attic,
    /// Roof water on the ground.
    Water,
    /// What is near the lot line.
    LotLine,
}

impl Part {
    /// All of them, in the order of the rows.
    pub const ALL: [Self; 8] = [
        Self::Reroofing,
        Self::Covering,
        Self::IceBarrier,
        Self::Flashing,
        Self::Standing,
        Self::Attic,
        Self::Water,
        Self::LotLine,
    ];

    /// For papers.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Reroofing => "the old roof",
            Self::Covering => "covering, deck, underlayment",
            Self::IceBarrier => "ice barrier",
            Self::Flashing => "flashing and drip edge",
            Self::Standing => "chimneys, skylights, pipes, exhaust",
            Self::Attic => "attics and their vents",
            Self::Water => "roof water on the ground",
            Self::LotLine => "near the lot line",
        }
    }
}

impl CodeSheet {
    /// What the edition a job adopts asks of its house.
    ///
    /// # Errors
    /// Rows the books do not have.
    pub fn of(
        roof: &Roof,
        details: &Details,
        takeoff: &Takeoff,
        job: &Job,
        book: &Book,
    ) -> Result<Self, LookupError> {
        let edition = book.edition(&job.site.code)?;
        let mut desk = Desk::new(roof, details, takeoff, job, book, edition);
        desk.old_roof();
        desk.covering()?;
        desk.ice_barrier()?;
        desk.edges()?;
        desk.flashing()?;
        desk.standing()?;
        desk.attics()?;
        desk.vapor()?;
        desk.water();
        desk.lot_lines();
        let (mut rows, unasked) = desk.finish();
        rows.sort_by_key(|row| row.part);
        Ok(Self {
            edition: edition.name.clone(),
            edition_id: edition.id.clone(),
            edition_source: edition.source.clone(),
            is_amended: !edition.amended.is_empty(),
            rows,
            unasked,
            left_to_others: edition.left_to_others.clone(),
        })
    }

    /// The rows of a rule of the books.
    pub fn rule<'a>(&'a self, rule: &'a str) -> impl Iterator<Item = &'a Row> {
        self.rows.iter().filter(move |row| row.rule == rule)
    }

    /// Rows by their verdict as planned, what fails first, then what cannot be told.
    pub fn worst_first(&self) -> Vec<&Row> {
        let mut rows: Vec<&Row> = self.rows.iter().collect();
        rows.sort_by_key(|row| row.planned.rank());
        rows
    }

    /// How many rows fail, cannot be told and pass, as planned.
    pub fn counts(&self) -> [usize; 3] {
        [0, 1, 2].map(|rank| self.rows.iter().filter(|row| row.planned.rank() == rank).count())
    }
}

impl Row {
    /// Whether what is found there leans on what is usual at such places.
    pub fn is_usual(&self) -> bool {
        self.checks.iter().any(|check| check.is_usual)
    }

    /// The check that tells most: the first that decides the verdict as planned.
    pub fn telling(&self) -> &Check {
        let decides = |check: &&Check| check.planned.verdict.rank() == self.planned.rank();
        let named = match self.need {
            Need::Taken(index) => self.checks.get(index),
            Need::All | Need::Any => self.checks.iter().find(decides),
        };
        named.unwrap_or(&self.checks[0])
    }

    /// The weakest of the sources it leans on.
    pub fn confidence(&self) -> Confidence {
        let all = self.because.iter().map(|because| because.source.confidence);
        all.max().unwrap_or(Confidence::Assumed)
    }

    /// Whether it asks the same as another and is met alike, as papers write it.
    fn says_as(&self, other: &Self, units: Units) -> bool {
        let told = |row: &Self| -> Vec<[String; 4]> {
            let told = |check: &Check| {
                let [required, found, planned] = check.written(units);
                [check.what.clone(), required, found, planned]
            };
            row.checks.iter().map(told).collect()
        };
        (self.rule, &self.asked, &self.found, &self.planned, self.need, &self.because)
            == (other.rule, &other.asked, &other.found, &other.planned, other.need, &other.because)
            && told(self) == told(other)
    }
}
