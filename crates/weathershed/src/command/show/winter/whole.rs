//! Each fix through whole winters, typical and hard, and in words what it does.

use job::Units;
use study::heat::Bill;
use study::winter::{State, Winter};

use super::{ice, melt, table};

/// What winters come to with each fix, typical and hard side by side.
pub(super) fn seasons(winter: &Winter, units: Units) -> String {
    let (eave, water) = if units == Units::Us { ("lb/ft", "gal") } else { ("kg/m", "kg") };
    let heading = [
        "a winter, typical | hard".to_owned(),
        format!("ice, {eave}"),
        format!("melt, {water}"),
        "days past the membrane".to_owned(),
        "heat, kWh".to_owned(),
        "money".to_owned(),
        "wettest deck, %".to_owned(),
    ];
    let heading: Vec<&str> = heading.iter().map(String::as_str).collect();
    let mut all = table(&heading, 1);
    for (row, seasons) in winter.rows() {
        let both = |of: &dyn Fn(&State) -> String| seasons.each_ref().map(of).join(" | ");
        all.add_row([
            row.name.clone(),
            both(&|state| ice(state.ice, units)),
            both(&|state| melt(state.melt, units)),
            both(&|state| format!("{:.0}", state.pond_days)),
            both(&|state| format!("{:.0}", state.heating)),
            both(&|state| money(state, &winter.bill)),
            both(&|state| {
                state.wettest().map_or_else(|| "-".to_owned(), |wood| format!("{:.0}", 100.0 * wood))
            }),
        ]);
    }
    let lacks = winter.bill.lacks().map_or_else(String::new, |lacks| format!("\nmoney is not told: {lacks}"));
    format!("{all}{lacks}")
}

/// What heat costs in whole dollars; a dash where nobody can tell.
pub(super) fn money(state: &State, bill: &Bill) -> String {
    bill.whole_dollars(state.heating).unwrap_or_else(|| "-".to_owned())
}

/// In words what each fix does.
pub(super) fn whys(winter: &Winter) -> String {
    winter.whys().collect::<Vec<_>>().join("\n")
}

/// Fixes that cannot be told of, and which field would tell.
pub(super) fn left_out(winter: &Winter) -> String {
    if winter.left_out.is_empty() {
        String::new()
    } else {
        format!("not looked at: {}", winter.left_out.join("; "))
    }
}
