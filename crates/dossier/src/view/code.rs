//! From the code sheet of a study to its paper.

use std::collections::BTreeSet;

use job::{Units, WallLine};
use study::Study;
use study::code::{Check, Figure, Judged, Need, Part, Row, Verdict};

use super::quantity::because;
use super::{fact, head, stated, words};
use crate::{
    Caution, CodeCheck, CodeNote, CodePart, CodeRow, CodeSheet, CodeState, CodeVerdict, DossierError, Fact,
    Prepared, Stated, Typeset,
};

/// Typesets the code sheet of a job's results.
///
/// `job_document` is the text the results come from and `hash` its SHA-256; both stand on the paper.
///
/// # Errors
/// As [`crate::code_sheet`].
pub fn code_paper(
    study: &Study,
    job_document: &str,
    hash: &str,
    prepared: Prepared,
) -> Result<Typeset, DossierError> {
    crate::code_sheet(&sheet(study, hash, prepared), job_document)
}

pub(crate) fn sheet(study: &Study, hash: &str, prepared: Prepared) -> CodeSheet {
    let (code, units) = (&study.code, study.job.units);
    let numbered: Vec<(usize, &Row)> = code.rows.iter().enumerate().map(|(i, row)| (i + 1, row)).collect();
    let mut open: Vec<&(usize, &Row)> = numbered.iter().filter(|(_, r)| r.planned != Verdict::Pass).collect();
    open.sort_by_key(|(_, row)| row.planned != Verdict::Fail);
    let rows = |part: Part| {
        let of_part = numbered.iter().filter(|(_, row)| row.part == part);
        of_part.map(|(number, row)| one(*number, row, units)).collect::<Vec<_>>()
    };
    let parts = Part::ALL.into_iter().map(|part| CodePart { name: capital(part.name()), rows: rows(part) });
    CodeSheet {
        head: head(study, ["code", "building department"], hash, prepared),
        note: note(units).to_owned(),
        site: site(study),
        counts: counts(code.counts()),
        open: open.into_iter().map(|(number, row)| one(*number, row, units)).collect(),
        parts: parts.filter(|part| !part.rows.is_empty()).collect(),
        unasked: (code.unasked.iter())
            .map(|u| CodeNote { clause: u.clause.clone(), what: u.what.to_owned(), why: u.why.clone() })
            .collect(),
        others: (code.left_to_others.iter())
            .map(|left| CodeNote {
                clause: left.clause.clone(),
                what: left.what.clone(),
                why: left.to.clone(),
            })
            .collect(),
        doubts: doubts(study),
        cautions: cautions(),
    }
}

const fn note(units: Units) -> &'static str {
    match units {
        Units::Us => {
            "For the building official. Lengths in decimal inches, free areas in square inches, slopes as rise in 12."
        }
        Units::Si => {
            "For the building official. Lengths in millimetres, free areas in square centimetres, slopes in degrees."
        }
    }
}

fn site(study: &Study) -> Vec<Fact> {
    let (code, site, units) = (&study.code, &study.job.site, study.job.units);
    let is_assumed = |field: &str| words::is_any_assumed(study, field);
    let line = match site.wall_line.value {
        WallLine::Outside => "outside face",
        WallLine::Inside => "inside face",
    };
    let yes_no = |is: bool| if is { "yes" } else { "no" }.to_owned();
    let amended = if code.is_amended { code.edition_id.as_str() } else { "none" };
    let mut facts = vec![
        fact("adopted edition", stated(code.edition.clone(), is_assumed("site.code"))),
        fact("local amendments", Stated::measured(amended)),
        fact("wall line read at", stated(line.to_owned(), words::is_assumed(&site.wall_line))),
        fact("history of ice", stated(yes_no(site.ice_history.value), words::is_assumed(&site.ice_history))),
    ];
    let measured = |label: &str, text: Option<String>| text.map(|text| fact(label, Stated::measured(text)));
    facts.extend(measured("address", site.address.clone()));
    facts.extend(measured("climate zone", site.climate_zone.clone()));
    facts.extend(measured("ground snow", site.ground_snow.map(|snow| snow.to_string())));
    facts.extend(measured("snow expected on roofs", site.snow_depth.map(|depth| units.lap(depth))));
    facts.extend(measured("soil swells or gives way", site.poor_soil.map(yes_no)));
    facts.extend(measured("built", site.year_built.map(|year| year.to_string())));
    facts.extend(measured("permit asked", site.permit.map(yes_no)));
    facts
}

fn counts([failing, untold, passing]: [usize; 3]) -> Vec<Fact> {
    let count = |label: &str, count: usize| fact(label, Stated::measured(count.to_string()));
    vec![
        count("clauses that ask something here", failing + untold + passing),
        count("fail as planned", failing),
        count("cannot be told", untold),
        count("pass as planned", passing),
    ]
}

fn one(number: usize, row: &Row, units: Units) -> CodeRow {
    // where the clause stands is on the row already; its source is told first
    let mut reasons = because(&row.because);
    if let Some(first) = reasons.first_mut() {
        "clause".clone_into(&mut first.what);
    }
    CodeRow {
        number,
        verdict: verdict(&row.planned),
        clause: row.clause.clone(),
        amended: row.is_amended,
        asked: capital(&row.asked),
        places: detail::listed(&row.places),
        missing: row.planned.missing().unwrap_or_default().to_owned(),
        checks: row
            .checks
            .iter()
            .enumerate()
            .map(|(i, c)| check(c, row.need == Need::Taken(i), units))
            .collect(),
        because: reasons,
    }
}

fn check(check: &Check, is_taken: bool, units: Units) -> CodeCheck {
    let [required, found, planned] = check.written(units);
    let state = |text: String, judged: Option<&Judged>| CodeState {
        text,
        verdict: judged.map_or(CodeVerdict::None, |judged| verdict(&judged.verdict)),
    };
    let what = if check.what.is_empty() { "there" } else { &check.what };
    CodeCheck {
        what: if is_taken { format!("{what} (taken)") } else { what.to_owned() },
        required,
        found: state(found, check.found.as_ref()),
        planned: state(planned, Some(&check.planned)),
        margin: check.margin().map_or_else(String::new, |margin: Figure| margin.written(units)),
    }
}

const fn verdict(verdict: &Verdict) -> CodeVerdict {
    match verdict {
        Verdict::Pass => CodeVerdict::Pass,
        Verdict::Fail => CodeVerdict::Fail,
        Verdict::CannotTell { .. } => CodeVerdict::CannotTell,
    }
}

/// What stands on texts that were recalled and not read again, and on values nobody measured.
fn doubts(study: &Study) -> Vec<String> {
    let mut recalled: BTreeSet<&str> = BTreeSet::new();
    let mut assumed: BTreeSet<&str> = BTreeSet::new();
    for row in &study.code.rows {
        for because in &row.because {
            match because.source.confidence {
                book::Confidence::PublishedFromMemory => drop(recalled.insert(&row.clause)),
                book::Confidence::Assumed => drop(assumed.insert(&because.what)),
                _ => {}
            }
        }
    }
    let list = |names: BTreeSet<&str>| names.into_iter().collect::<Vec<_>>().join(", ");
    let mut doubts = Vec::new();
    if !recalled.is_empty() {
        let names = list(recalled);
        doubts.push(format!(
            "Recalled and not read again for this edition: {names}. Look them up before leaning on them."
        ));
    }
    if !assumed.is_empty() {
        doubts.push(format!("Nobody measured: {}.", list(assumed).replace("assumed: ", "")));
    }
    if study.job.site.wall_line.value == WallLine::Outside {
        doubts.push(
            "Officials read the exterior wall line at the outside or at the inside face: both are printed, and the one taken is marked."
                .to_owned(),
        );
    }
    doubts
}

const CAUTIONS: [(&str, &str); 5] = [
    (
        "Who decides",
        "The code as the place adopted and amended it, and its official, decide. This sheet screens and explains; it is no permit, \
         and a pass on it is no approval.",
    ),
    (
        "Editions",
        "Ask which edition and which amendments are in force on the day of the permit. Clause numbers move between editions.",
    ),
    ("Makers", "Where a maker's printed instruction asks more than the code, it holds. Keep it on site."),
    (
        "Found",
        "What is hidden is known when the roof is open. Photograph it then, and hold it against this sheet again.",
    ),
    (
        "Framing and fire",
        "Strength, fire and combustion are not judged here. Ask an engineer, the official and the licensed trade.",
    ),
];

fn cautions() -> Vec<Caution> {
    let caution =
        |(heading, text): (&str, &str)| Caution { heading: heading.to_owned(), text: text.to_owned() };
    CAUTIONS.into_iter().map(caution).collect()
}

/// A text with a capital at its start.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
