//! `[crew]`: who does the work and what it costs.

use book::Share;
use measure::Money;

use crate::read::field::{May, Must, Section};
use crate::read::notation::{Count, Number, Quantity};
use crate::read::table::Table;
use crate::{Crew, Problem};

/// The section.
pub(crate) const CREW: Section = Section {
    name: "crew",
    what: "who does the work and what it costs",
    fields: &[&LEADS, &ROOFERS, &CARPENTERS, &DAY_HOURS, &PRODUCTIVE, &RATE, &OVERHEAD, &PROFIT],
};

const LEADS: May<Count> = May::new("leads", "people who lead", "1", Count(0, 100));
const ROOFERS: May<Count> = May::new("roofers", "roofers", "3", Count(0, 100));
const CARPENTERS: May<Count> = May::new("carpenters", "carpenters", "1", Count(0, 100));
const DAY_HOURS: Must<Number> = Must::new("day_hours", "hours of a working day", "9", Number(1.0, 24.0));
const PRODUCTIVE: Must<Quantity<Share>> = Must::new(
    "productive",
    "share of those hours that is work on the job",
    r#""85 %""#,
    Quantity::within("1 %", "100 %"),
);
const RATE: Must<Quantity<Money>> = Must::new(
    "rate_per_hour",
    "cost of one hour of one worker, burden included",
    r#""$38.50""#,
    Quantity::within("$0", "$1000"),
);
const OVERHEAD: Must<Quantity<Share>> =
    Must::new("overhead", "overhead on direct cost", r#""18 %""#, Quantity::ANY);
const PROFIT: Must<Quantity<Share>> =
    Must::new("profit", "profit on direct cost and overhead", r#""12 %""#, Quantity::ANY);

/// Reads the section.
pub(crate) fn crew(table: &mut Table<'_, '_>) -> Option<Crew> {
    let (leads, roofers, carpenters) = (table.may(&LEADS), table.may(&ROOFERS), table.may(&CARPENTERS));
    check_hands(table, &[leads, roofers, carpenters]);
    let (day_hours, productive) = (table.must(&DAY_HOURS), table.must(&PRODUCTIVE));
    let (rate_per_hour, overhead, profit) = (table.must(&RATE), table.must(&OVERHEAD), table.must(&PROFIT));
    Some(Crew {
        leads: leads.unwrap_or_default(),
        roofers: roofers.unwrap_or_default(),
        carpenters: carpenters.unwrap_or_default(),
        day_hours: day_hours?,
        productive: productive?,
        rate_per_hour: rate_per_hour?,
        overhead: overhead?,
        profit: profit?,
    })
}

/// Somebody must do the work. Nothing is said where a count is there but cannot be read.
fn check_hands(table: &mut Table<'_, '_>, counts: &[Option<u32>]) {
    let written =
        [LEADS.0.key, ROOFERS.0.key, CARPENTERS.0.key].into_iter().filter(|key| table.has(key)).count();
    let is_empty =
        counts.iter().flatten().all(|count| *count == 0) && counts.iter().flatten().count() == written;
    if is_empty {
        let message = format!("`{}` has nobody in it", table.path);
        let mend = format!(
            "write how many work, like `{} = {}`, or take the section out",
            ROOFERS.0.key, ROOFERS.0.example
        );
        let span = table.span.clone();
        table.desk.report(Problem::error("empty-crew", message, mend).at(span, ""));
    }
}
