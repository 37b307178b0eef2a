//! The takeoff as a table with its reasons below.

use book::Because;
use comfy_table::Table;
use job::Units;
use takeoff::{Amount, Line, Takeoff, VentCheck};

use super::roof::table;

/// Quantities, ventilation, and how each was reached.
pub(super) fn text(takeoff: &Takeoff, units: Units) -> String {
    let mut parts = vec![lines(&takeoff.lines, units).to_string()];
    if !takeoff.vents.is_empty() {
        parts.push(vents(&takeoff.vents, units).to_string());
    }
    parts.push("because".to_owned());
    parts.extend(takeoff.lines.iter().map(|l| reasons(&l.item.name, &l.because)));
    parts.extend(
        takeoff.vents.iter().map(|v| reasons(&format!("ventilation of attic {}", v.attic), &v.because)),
    );
    parts.join("\n\n")
}

fn lines(lines: &[Line], units: Units) -> Table {
    let mut table = table(&["item", "package", "net", "order"], 2);
    for line in lines {
        let (package, net, order) = match &line.amount {
            Amount::Ordered { net, count, package } => {
                (package.clone(), net.written(units), count.to_string())
            }
            Amount::Measured(net) => (String::new(), net.written(units), String::new()),
            Amount::Refused(why) => (format!("refused: {why}"), String::new(), String::new()),
        };
        let mark = if line.is_assumed() { " ◊" } else { "" };
        table.add_row([format!("{}{mark}", line.item.name), package, net, order]);
    }
    table
}

fn vents(vents: &[VentCheck], units: Units) -> Table {
    let mut table = table(&["attic", "state", "verdict", "low", "high", "total", "in series", "required"], 3);
    let square_inches = |area| units.free_area(area);
    for check in vents {
        for (name, state) in [("found", &check.found), ("plan", &check.plan)] {
            table.add_row([
                check.attic.clone(),
                name.to_owned(),
                state.verdict.words().to_owned(),
                square_inches(state.low),
                square_inches(state.high),
                square_inches(state.total),
                square_inches(state.effective),
                format!(
                    "{}, with conditions {}",
                    square_inches(check.required),
                    square_inches(check.reduced)
                ),
            ]);
        }
    }
    table
}

fn reasons(heading: &str, because: &[Because]) -> String {
    let steps = because.iter().map(|b| {
        let inputs: Vec<String> = b.inputs.iter().map(|(name, value)| format!("{name} {value}")).collect();
        let inputs = if inputs.is_empty() { String::new() } else { format!(" ({})", inputs.join(", ")) };
        format!("  {}: {}{inputs}\n    {}", b.what, b.rule, b.source)
    });
    format!("{heading}\n{}", steps.collect::<Vec<_>>().join("\n"))
}
