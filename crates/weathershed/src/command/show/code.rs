//! What the adopted code asks, as a table with what each clause asks below.

use job::Units;
use study::code::{Check, CodeSheet, Figure, Need, Row, Verdict};

use super::roof::table;

/// Every clause that asks something, what fails first; what each asks and where that comes from; what asks nothing here.
pub(super) fn text(sheet: &CodeSheet, units: Units) -> String {
    let legend = "Found is what the survey recorded; where it says `usually`, nobody surveyed the place and what the books call usual there stands in. Planned is what will be built. \
                  Provided figures come from details, takeoff and job. The adopted local code and the official decide.";
    [
        heading(sheet),
        rows(sheet, units),
        missing(sheet),
        asked(sheet),
        unasked(sheet),
        others(sheet),
        legend.to_owned(),
    ]
    .into_iter()
    .filter(|part| !part.is_empty())
    .collect::<Vec<_>>()
    .join("\n\n")
}

fn heading(sheet: &CodeSheet) -> String {
    let [failing, untold, passing] = sheet.counts();
    let amended = if sheet.is_amended { ", amended by a book of your own (marked *)" } else { "" };
    format!("{}{amended}: {failing} fail, {untold} cannot be told, {passing} pass, as planned", sheet.edition)
}

fn rows(sheet: &CodeSheet, units: Units) -> String {
    let mut table =
        table(&["planned", "clause", "where", "of it", "required", "found", "planned", "margin"], usize::MAX);
    for row in sheet.worst_first() {
        table.add_row(cells(row, units));
    }
    table.to_string()
}

/// A row as cells, each check on a line of its own.
fn cells(row: &Row, units: Units) -> [String; 8] {
    let mark = if row.is_amended { " *" } else { "" };
    let lines = |text: &dyn Fn(usize, &Check) -> String| {
        row.checks.iter().enumerate().map(|(index, check)| text(index, check)).collect::<Vec<_>>().join("\n")
    };
    let found = |check: &Check| {
        let [_, found, _] = check.written(units);
        check.found.as_ref().map_or_else(|| "-".to_owned(), |judged| told(&found, &judged.verdict))
    };
    [
        row.planned.word().to_owned(),
        format!("{}{mark}", row.clause),
        places(&row.places),
        lines(&|index, check| format!("{}{}", check.what, taken(row.need, index))),
        lines(&|_, check| check.written(units)[0].clone()),
        lines(&|_, check| found(check)),
        lines(&|_, check| told(&check.written(units)[2], &check.planned.verdict)),
        lines(&|_, check| check.margin().map_or_else(String::new, |margin: Figure| margin.written(units))),
    ]
}

/// Of several readings of a clause, which one is taken.
fn taken(need: Need, index: usize) -> &'static str {
    if need == Need::Taken(index) { " (taken)" } else { "" }
}

/// A figure, and that it is not enough or not known.
fn told(figure: &str, verdict: &Verdict) -> String {
    match verdict {
        Verdict::Pass => figure.to_owned(),
        Verdict::Fail => format!("{figure} NOT"),
        Verdict::CannotTell { .. } => format!("{figure} ?").trim().to_owned(),
    }
}

/// Places with their common words said once, broken into lines.
fn places(places: &[String]) -> String {
    detail::listed(places).iter().map(|line| folded(line)).collect::<Vec<_>>().join("\n")
}

/// A list broken after commas, so that no table grows wider than a terminal for its longest list.
fn folded(line: &str) -> String {
    const WIDE: usize = 34;
    let mut lines = vec![String::new()];
    for (index, name) in line.split(", ").enumerate() {
        let last = lines.last_mut().map_or(0, |last| last.chars().count());
        if index > 0 && last + name.chars().count() > WIDE {
            lines.push(String::new());
        }
        if let Some(last) = lines.last_mut() {
            *last += if last.is_empty() { "" } else { ", " };
            *last += name;
        }
    }
    lines.join(",\n")
}

/// What would settle the rows that cannot be told.
fn missing(sheet: &CodeSheet) -> String {
    let mut table = table(&["clause", "where", "missing"], usize::MAX);
    let mut any = false;
    for row in sheet.worst_first() {
        if let Some(missing) = row.planned.missing() {
            any = true;
            table.add_row([row.clause.clone(), places(&row.places), missing.replace("; ", "\n")]);
        }
    }
    if any { format!("What would settle what cannot be told\n{table}") } else { String::new() }
}

fn asked(sheet: &CodeSheet) -> String {
    let mut told: Vec<(&str, &str)> = Vec::new();
    let mut lines = vec!["What each clause asks".to_owned()];
    for row in &sheet.rows {
        if told.contains(&(&row.clause, &row.asked)) {
            continue;
        }
        told.push((&row.clause, &row.asked));
        let source = row.because.first().map_or_else(String::new, |because| because.source.to_string());
        lines.push(format!("  {}: {}\n    {source}", row.clause, row.asked));
    }
    lines.join("\n")
}

fn unasked(sheet: &CodeSheet) -> String {
    let told = sheet.unasked.iter().map(|u| format!("  {}, {}: {}", u.clause, u.what, u.why));
    std::iter::once("Looked at, and asks nothing here".to_owned()).chain(told).collect::<Vec<_>>().join("\n")
}

fn others(sheet: &CodeSheet) -> String {
    let told =
        sheet.left_to_others.iter().map(|left| format!("  {}, {}: {}", left.clause, left.what, left.to));
    std::iter::once("Not judged here, and who does".to_owned()).chain(told).collect::<Vec<_>>().join("\n")
}
