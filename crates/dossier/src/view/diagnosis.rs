//! From what the owner saw to the diagnosis sheet.

use std::collections::BTreeMap;

use book::Book;
use job::{Date, SymptomKind};
use study::Study;
use study::diagnosis::{Diagnosis, Ranked, diagnoses, likelihood};

use super::winter::{Wintered, cautions};
use super::{fact, head, quantity};
use crate::{
    CauseRow, DiagnosisSheet, DossierError, Fact, Prepared, Stated, SymptomPart, Typeset, diagnosis_sheet,
};

/// Causes of a symptom told at most, and the share below which the rest are left out.
const MOST: usize = 4;
const LEAST: f64 = 0.02;
/// A share from which on what mends a cause is told.
const MENDED: f64 = 0.075;

/// Typesets the diagnosis sheet of a job's results; with the winter where it was worked out.
///
/// # Errors
/// As [`crate::diagnosis_sheet`], and rows that the books lack.
pub fn diagnosis_paper(
    study: &Study,
    wintered: Option<&Wintered<'_>>,
    books: &Book,
    job_document: &str,
    hash: &str,
    prepared: Prepared,
) -> Result<Typeset, DossierError> {
    diagnosis_sheet(&sheet(study, wintered, books, hash, prepared)?, job_document)
}

const NOTE: &str = "What the owner saw, the causes the books know, and what of the survey speaks for or against each. Shares follow a rule: how usual a cause is, times the odds of each sign \
    that holds or does not; what nobody wrote down changes nothing and is named. They rank where to look first. They are no finding: open, look and photograph before anything is \
    priced on them.";

pub(crate) fn sheet(
    study: &Study,
    wintered: Option<&Wintered<'_>>,
    books: &Book,
    hash: &str,
    prepared: Prepared,
) -> Result<DiagnosisSheet, DossierError> {
    let all = diagnoses(study, wintered.map(|wintered| wintered.winter), books)?;
    let mut sources = BTreeMap::new();
    for ranked in all.iter().flat_map(|diagnosis| diagnosis.causes.iter().take(MOST)) {
        sources.entry(ranked.cause.name.clone()).or_insert_with(|| source(ranked));
    }
    Ok(DiagnosisSheet {
        head: head(study, ["diagnosis", "symptoms"], hash, prepared),
        note: NOTE.to_owned(),
        site: site(study, wintered),
        symptoms: all.iter().map(symptom).collect(),
        holds: study::heat::work_holds(study, books)?.into_iter().map(Into::into).collect(),
        sources: sources.into_values().collect(),
        cautions: cautions(study),
    })
}

fn site(study: &Study, wintered: Option<&Wintered<'_>>) -> Vec<Fact> {
    let winter = wintered.map_or_else(
        || "none: the job names no year of weather (site.winter)".to_owned(),
        |wintered| wintered.winter.weather.clone(),
    );
    let mut facts = vec![fact("winter reckoned", Stated::measured(winter))];
    let built = study.job.site.year_built.map(|year| year.to_string());
    facts.extend(built.map(|year| fact("built", Stated::measured(year))));
    let conditions = study.job.attics.iter().filter_map(|attic| {
        Some(fact(&format!("attic {}", attic.name), Stated::measured(attic.found.condition.as_ref()?)))
    });
    facts.extend(conditions);
    facts
}

fn symptom(diagnosis: &Diagnosis) -> SymptomPart {
    let Diagnosis { symptom, causes } = diagnosis;
    let date = symptom.date.map(|Date { year, month, day }| format!("{year}-{month:02}-{day:02}"));
    let when: Vec<String> = date.into_iter().chain(symptom.weather.clone()).collect();
    let told = causes.iter().enumerate().filter(|(i, ranked)| *i == 0 || ranked.share >= LEAST);
    SymptomPart {
        name: format!("{}: {}", kind(symptom.kind), symptom.place),
        when: when.join(", "),
        causes: told.take(MOST).map(|(_, ranked)| cause(ranked)).collect(),
    }
}

fn cause(ranked: &Ranked) -> CauseRow {
    let Ranked { cause, share, speaks_for, speaks_against, missing } = ranked;
    let is_mended = *share >= MENDED;
    let mended = |text: &str| if is_mended { text.to_owned() } else { String::new() };
    CauseRow {
        name: cause.name.clone(),
        likely: format!("{}, {}", likelihood(*share), of_hundred(*share)),
        speaks_for: speaks_for.clone(),
        speaks_against: speaks_against.clone(),
        missing: missing.iter().map(|field| (*field).to_owned()).collect(),
        fix: mended(&cause.fix),
        proof: mended(&cause.proof),
    }
}

/// A share to the nearest five of a hundred: more would be more than the odds are worth.
fn of_hundred(share: f64) -> String {
    let fives = (share * 20.0).round() * 5.0;
    match fives {
        f if f < 5.0 => "under 5\u{a0}%".to_owned(),
        f if f > 95.0 => "over 95\u{a0}%".to_owned(),
        f => format!("about {f:.0}\u{a0}%"),
    }
}

fn source(ranked: &Ranked) -> crate::Because {
    crate::Because {
        what: ranked.cause.name.clone(),
        inputs: String::new(),
        rule: "weight and odds in the book of symptoms".to_owned(),
        source: ranked.cause.source.text.clone(),
        confidence: quantity::confidence(ranked.cause.source.confidence),
    }
}

const fn kind(kind: SymptomKind) -> &'static str {
    match kind {
        SymptomKind::Stain => "Stain",
        SymptomKind::Drip => "Drip",
        SymptomKind::Ice => "Ice",
        SymptomKind::Icicles => "Icicles",
        SymptomKind::Frost => "Frost",
        SymptomKind::Condensation => "Condensation",
        SymptomKind::PeelingPaint => "Peeling paint",
        SymptomKind::ColdRoom => "Cold room",
        SymptomKind::RunningVentilator => "Running ventilator",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_are_told_in_fives() {
        assert_eq!(
            [0.994, 0.62, 0.06, 0.01].map(of_hundred),
            ["over 95\u{a0}%", "about 60\u{a0}%", "about 5\u{a0}%", "under 5\u{a0}%"]
        );
    }
}
