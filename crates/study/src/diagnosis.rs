//! Why a house shows what its owner saw: causes of the books in the order of their likelihood, with what of the survey speaks for and against each.
//!
//! # Rule
//! That of [`book::Cause`]: weights times odds. What nobody wrote down changes nothing and is named, since it would settle more.

mod evidence;

use book::{Book, Cause, LookupError};
use job::Symptom;

use crate::Study;
use crate::winter::Winter;
use evidence::Evidence;

/// What a fact is for a house.
#[derive(Clone, Debug, PartialEq)]
pub enum Held {
    /// It holds: in words.
    Yes(String),
    /// It does not: in words.
    No(String),
    /// Nobody wrote it down: the field that would tell.
    Unknown(&'static str),
}

/// A cause as it stands for one symptom.
#[derive(Clone, Debug, PartialEq)]
pub struct Ranked {
    /// The cause.
    pub cause: Cause,
    /// Its share of all causes that the books know.
    pub share: f64,
    /// What speaks for it, in words.
    pub speaks_for: Vec<String>,
    /// What speaks against it.
    pub speaks_against: Vec<String>,
    /// Fields nobody wrote that would speak.
    pub missing: Vec<&'static str>,
}

/// A symptom with its causes, the likeliest first.
#[derive(Clone, Debug, PartialEq)]
pub struct Diagnosis {
    /// What the owner saw.
    pub symptom: Symptom,
    /// Why, perhaps.
    pub causes: Vec<Ranked>,
}

/// How likely a share makes a cause, in words; limits lie between fives of a hundred, to which shares are told.
pub const fn likelihood(share: f64) -> &'static str {
    if share >= 0.575 {
        "likely"
    } else if share >= 0.225 {
        "may be"
    } else if share >= 0.075 {
        "less likely"
    } else {
        "hardly"
    }
}

/// Diagnoses every symptom of a job; with the winter of the house where it was reckoned.
///
/// # Errors
/// Rows that the books lack.
pub fn diagnoses(study: &Study, winter: Option<&Winter>, book: &Book) -> Result<Vec<Diagnosis>, LookupError> {
    let diagnosis = |symptom: &Symptom| {
        let evidence = Evidence { study, winter, book, symptom };
        let known = book.causes().filter_map(|cause| Some((cause, *cause.shows.get(&symptom.kind)?)));
        let mut causes: Vec<Ranked> = known
            .map(|(cause, weight)| ranked(cause, weight, &evidence))
            .collect::<Result<_, LookupError>>()?;
        let all: f64 = causes.iter().map(|ranked| ranked.share).sum();
        for ranked in &mut causes {
            ranked.share /= all;
        }
        causes.sort_by(|a, b| b.share.total_cmp(&a.share));
        Ok(Diagnosis { symptom: symptom.clone(), causes })
    };
    study.job.symptoms.iter().map(diagnosis).collect()
}

/// A cause with its weight times its odds.
fn ranked(cause: &Cause, weight: f64, evidence: &Evidence<'_>) -> Result<Ranked, LookupError> {
    let mut ranked = Ranked {
        cause: cause.clone(),
        share: weight,
        speaks_for: Vec::new(),
        speaks_against: Vec::new(),
        missing: Vec::new(),
    };
    for sign in &cause.signs {
        let (odds, words) = match evidence.of(sign.fact)? {
            Held::Yes(words) => (sign.times, words),
            Held::No(words) => (sign.otherwise, words),
            Held::Unknown(field) => {
                ranked.missing.push(field);
                continue;
            }
        };
        ranked.share *= odds;
        if odds > 1.0 {
            ranked.speaks_for.push(words);
        } else if odds < 1.0 {
            ranked.speaks_against.push(words);
        }
    }
    ranked.missing.sort_unstable();
    ranked.missing.dedup();
    Ok(ranked)
}
