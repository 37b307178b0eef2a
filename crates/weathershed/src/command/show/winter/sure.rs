//! How sure a winter's figures are, what they hang on, and what is worth measuring.

use study::heat::Bill;
use study::winter::Spread;

use super::{percent, table};

/// How sure the plan is.
pub(super) fn chances(spread: &Spread) -> String {
    let Spread { sampling, plan_lowers, plan_ends, .. } = spread;
    format!(
        "{} houses drawn (seed {}): the plan leaves less ice than there was in {} of them, and next to none (under 1 kg/m, 0.7 lb/ft) in {}",
        sampling.runs,
        sampling.seed,
        percent(*plan_lowers),
        percent(*plan_ends)
    )
}

/// What the ice hangs on, or why that is not told.
pub(super) fn influences(spread: &Spread) -> String {
    /// Shares less than this are left out.
    const SMALL: f64 = 0.02;
    if spread.influences.is_empty() {
        let why = match spread.told {
            None => "too few houses were drawn".to_owned(),
            Some(told) => format!(
                "the surface through them tells only {} of how houses it has not seen differ",
                percent(told.max(0.0))
            ),
        };
        return format!("what the ice as found hangs on is not told: {why}; give more `--runs`");
    }
    let mut all = table(&["what the ice as found hangs on", "alone", "with others"], usize::MAX);
    for one in spread.influences.iter().filter(|one| one.index.total >= SMALL) {
        let of = |share: f64, error: f64| format!("{} ± {}", percent(share.max(0.0)), percent(error));
        let index = &one.index;
        all.add_row([
            one.name.clone(),
            of(index.first, index.first_error),
            of(index.total, index.total_error),
        ]);
    }
    let told = percent(spread.told.unwrap_or_default());
    format!("{all}\nby a surface through the runs, which tells {told} of how houses it has not seen differ")
}

/// What narrows the ice, by more than chance would, and what it does to the heat.
pub(super) fn next(spread: &Spread) -> String {
    let mut all = table(
        &["measure this next", "with", "write it to", "narrows the ice by", "narrows the winter's heat by"],
        usize::MAX,
    );
    let mut is_empty = true;
    for of in spread.next.iter().filter(|of| of.is_clear()) {
        let field = of.field.clone().unwrap_or_else(|| "no field: a note".into());
        let told = |[narrows, error]: [f64; 2]| format!("{} ± {}", percent(narrows), percent(error));
        let heat = of.heating.map_or_else(|| "not told".to_owned(), told);
        all.add_row([of.name.clone(), of.by.clone(), field, told([of.narrows, of.error]), heat]);
        is_empty = false;
    }
    if is_empty {
        let is_told = !spread.influences.is_empty();
        let told = "nothing that can be measured narrows the ice by more than chance would";
        return if is_told { told.to_owned() } else { String::new() };
    }
    all.to_string()
}

/// Money of the winter's heat, with its ends.
pub(super) fn money(spread: &Spread, bill: &Bill) -> String {
    match (spread.money(bill), bill.lacks()) {
        (Some(told), _) => format!("heat of a winter for ceilings and the air up through them: {told}"),
        (None, Some(lacks)) => format!("what the winter's heat costs is not told: {lacks}"),
        (None, None) => String::new(),
    }
}
