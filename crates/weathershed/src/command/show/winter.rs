//! Why ice comes back, and which fix stops it.

use job::Units;
use study::winter::{Ablation, State, Winter};

use super::roof::table;

const KG_PER_M_TO_LB_PER_FT: f64 = 0.671_969;
const KG_TO_GAL: f64 = 0.264_172;
const KG_S_TO_CFM: f64 = 2118.88 / 1.292;

/// States side by side, fixes one by one, what helps nothing, and how far to trust it.
pub(super) fn text(winter: &Winter, units: Units) -> String {
    let filled = if winter.filled.is_empty() {
        String::new()
    } else {
        format!("\nfilled in: {}", winter.filled.join("; "))
    };
    let heading = format!("winter of {}{filled}", winter.weather);
    let [energy, mass] = winter.closure;
    let closure = format!("what did not close: heat {energy:.0e}, water {mass:.0e} of all that moved");
    let legend = "Ice is the most that stands on a foot of eave because of the building: the same winter with rooms as cold as outdoors is taken off. Melt is snow melted from below. \
                  Expect half to twice the amounts; trust the order. After air sealing, have a qualified person test burning appliances for spillage and carbon monoxide before anyone sleeps there. \
                  Local code, makers and licensed practice decide.";
    [
        heading,
        states(winter, units),
        fixes(&winter.ablation, units),
        useless(winter),
        closure,
        legend.to_owned(),
    ]
    .into_iter()
    .filter(|part| !part.is_empty())
    .collect::<Vec<_>>()
    .join("\n\n")
}

fn states(winter: &Winter, units: Units) -> String {
    let is_us = units == Units::Us;
    let mut all = table(&["", "as found", "as planned"], usize::MAX);
    let mut row = |name: &str, of: &dyn Fn(&State) -> String| {
        all.add_row([name.to_owned(), of(&winter.found), of(&winter.plan)]);
    };
    if is_us {
        row("ice on the eaves, lb/ft", &|state| format!("{:.1}", state.ice * KG_PER_M_TO_LB_PER_FT));
        row("ice of the sun alone, lb/ft", &|state| format!("{:.1}", state.sun_ice * KG_PER_M_TO_LB_PER_FT));
        row("melted from below, gal", &|state| format!("{:.0}", state.melt * KG_TO_GAL));
    } else {
        row("ice on the eaves, kg/m", &|state| format!("{:.1}", state.ice));
        row("ice of the sun alone, kg/m", &|state| format!("{:.1}", state.sun_ice));
        row("melted from below, kg", &|state| format!("{:.0}", state.melt));
    }
    row("days with a pond past the membrane", &|state| format!("{:.1}", state.pond_days));
    row("attic at 22 °F under a foot of snow", &|state| temperature(state.attic_at_design, units));
    row("deck there", &|state| temperature(state.deck_at_design, units));
    row("air from outdoors through the attic", &|state| air(state.vent, units));
    row("air from the rooms into it", &|state| air(state.leak, units));
    row("heat into the attic, kWh", &|state| format!("{:.0}", state.heat));
    all.to_string()
}

/// Each fix alone and together.
pub(super) fn fixes(rows: &[Ablation], units: Units) -> String {
    let melt = if units == Units::Us { "melt, gal/day" } else { "melt, kg/day" };
    let mut all = table(
        &["at 22 °F under a foot of snow", "attic", "deck", melt, "from outdoors", "from the rooms"],
        usize::MAX,
    );
    for row in rows {
        let melt = if units == Units::Us { row.melt_day * KG_TO_GAL } else { row.melt_day };
        all.add_row([
            row.name.clone(),
            temperature(row.attic, units),
            temperature(row.deck, units),
            format!("{melt:.0}"),
            air(row.vent, units),
            air(row.leak, units),
        ]);
    }
    all.to_string()
}

/// Fixes that take less than a tenth off the melt, and why.
fn useless(winter: &Winter) -> String {
    let Some(found) = winter.ablation.first().filter(|found| found.melt_day > 0.0) else {
        return String::new();
    };
    let helps_nothing = |row: &&Ablation| row.melt_day > 0.9 * found.melt_day;
    let told = winter.ablation.iter().skip(1).filter(helps_nothing).map(|row| {
        let is_same = (row.attic - found.attic).abs() < 1e-9;
        let why = if is_same {
            "the job plans none of it"
        } else if row.leak > found.leak {
            "what it lets out it draws from the rooms: the way in from outdoors is as narrow as before"
        } else {
            "it changes too little of what warms the deck"
        };
        format!("helps nothing: {}; {why}", row.name)
    });
    told.collect::<Vec<_>>().join("\n")
}

pub(super) fn temperature(celsius: f64, units: Units) -> String {
    match units {
        Units::Us => format!("{:.1} °F", 1.8 * celsius + 32.0),
        Units::Si => format!("{celsius:.1} °C"),
    }
}

pub(super) fn air(kg_s: f64, units: Units) -> String {
    // a zero has no sign
    let whole = |of: f64| of.round() + 0.0;
    match units {
        Units::Us => format!("{} cfm", whole(kg_s * KG_S_TO_CFM)),
        Units::Si => format!("{} L/s", whole(kg_s / 1.292 * 1000.0)),
    }
}
