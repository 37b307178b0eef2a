//! The code sheet as JSON.

use book::Because;
use serde::Serialize;
use serde_json::Value;
use study::code::{Check, CodeSheet, Demand, Figure, Judged, Need, Row, Verdict};

use crate::VERSION;
use crate::number::tidy;

#[derive(Serialize)]
struct Document<'a> {
    version: u32,
    edition: &'a str,
    edition_id: &'a str,
    amended: bool,
    failing: usize,
    untold: usize,
    passing: usize,
    rows: Vec<RowOut<'a>>,
    unasked: Vec<UnaskedOut<'a>>,
    left_to_others: Vec<LeftOut<'a>>,
}

#[derive(Serialize)]
struct RowOut<'a> {
    part: &'static str,
    rule: &'static str,
    clause: &'a str,
    amended: bool,
    asked: &'a str,
    places: &'a [String],
    need: &'static str,
    taken: Option<usize>,
    checks: Vec<CheckOut<'a>>,
    found: Option<FoundOut<VerdictOut<'a>>>,
    planned: VerdictOut<'a>,
    because: &'a [Because],
}

#[derive(Serialize)]
struct CheckOut<'a> {
    what: &'a str,
    demand: &'static str,
    required: f64,
    unit: &'static str,
    margin: Option<f64>,
    found: Option<FoundOut<JudgedOut<'a>>>,
    planned: JudgedOut<'a>,
}

/// What is found, and whether anybody surveyed it.
#[derive(Serialize)]
struct FoundOut<T> {
    basis: &'static str,
    #[serde(flatten)]
    what: T,
}

#[derive(Serialize)]
struct JudgedOut<'a> {
    provided: Option<f64>,
    #[serde(flatten)]
    verdict: VerdictOut<'a>,
}

#[derive(Serialize)]
struct VerdictOut<'a> {
    verdict: &'static str,
    missing: Option<&'a str>,
}

#[derive(Serialize)]
struct UnaskedOut<'a> {
    clause: &'a str,
    what: &'a str,
    why: &'a str,
}

#[derive(Serialize)]
struct LeftOut<'a> {
    clause: &'a str,
    what: &'a str,
    to: &'a str,
}

/// Every clause that asks something of the house, in the order of the parts; then those that ask nothing, and those for others to judge.
pub fn code(sheet: &CodeSheet) -> Value {
    let [failing, untold, passing] = sheet.counts();
    crate::number::value(&Document {
        version: VERSION,
        edition: &sheet.edition,
        edition_id: &sheet.edition_id,
        amended: sheet.is_amended,
        failing,
        untold,
        passing,
        rows: sheet.rows.iter().map(row).collect(),
        unasked: (sheet.unasked.iter())
            .map(|u| UnaskedOut { clause: &u.clause, what: u.what, why: &u.why })
            .collect(),
        left_to_others: (sheet.left_to_others.iter())
            .map(|left| LeftOut { clause: &left.clause, what: &left.what, to: &left.to })
            .collect(),
    })
}

fn row(row: &Row) -> RowOut<'_> {
    let (need, taken) = match row.need {
        Need::All => ("all", None),
        Need::Any => ("any", None),
        Need::Taken(index) => ("taken", Some(index)),
    };
    RowOut {
        part: row.part.name(),
        rule: row.rule,
        clause: &row.clause,
        amended: row.is_amended,
        asked: &row.asked,
        places: &row.places,
        need,
        taken,
        checks: row.checks.iter().map(check).collect(),
        found: row
            .found
            .as_ref()
            .map(|found| FoundOut { basis: basis(row.is_usual()), what: verdict(found) }),
        planned: verdict(&row.planned),
        because: &row.because,
    }
}

fn check(check: &Check) -> CheckOut<'_> {
    let (required, unit) = check.demand.figure().si();
    CheckOut {
        what: &check.what,
        demand: match check.demand {
            Demand::AtLeast(_) => "at_least",
            Demand::AtMost(_) => "at_most",
            Demand::Yes => "yes",
        },
        required: tidy(required),
        unit,
        margin: check.margin().map(number),
        found: (check.found.as_ref())
            .map(|found| FoundOut { basis: basis(check.is_usual), what: judged(found) }),
        planned: judged(&check.planned),
    }
}

/// Surveyed here, or what the books say is usual at such a place.
const fn basis(is_usual: bool) -> &'static str {
    if is_usual { "usual" } else { "survey" }
}

fn judged(judged: &Judged) -> JudgedOut<'_> {
    JudgedOut { provided: judged.provided.map(number), verdict: verdict(&judged.verdict) }
}

fn verdict(verdict: &Verdict) -> VerdictOut<'_> {
    let word = match verdict {
        Verdict::Pass => "pass",
        Verdict::Fail => "fail",
        Verdict::CannotTell { .. } => "cannot_tell",
    };
    VerdictOut { verdict: word, missing: verdict.missing() }
}

fn number(figure: Figure) -> f64 {
    tidy(figure.si().0)
}
