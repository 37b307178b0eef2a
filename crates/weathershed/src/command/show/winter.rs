//! Why ice comes back, and which fix stops it.

mod states;
mod sure;
mod whole;

use draw::Quantity;
use job::Units;
use study::winter::{Ablation, Band, FixBands, Spread, Winter, design_words};

use super::roof::table;
use states::states;
use sure::{chances, influences, money, next};
use whole::{left_out, seasons, whys};

/// States side by side, fixes one by one, what helps nothing, what is worth measuring, and how far to trust it.
pub(super) fn text(winter: &Winter, spread: Option<&Spread>, units: Units) -> String {
    let filled = |what: &str, of: &[String]| {
        if of.is_empty() { String::new() } else { format!("\n{what}: {}", of.join("; ")) }
    };
    let of_hard = winter.hard.read.as_ref().map(|read| filled("filled in of the hard winter", &read.filled));
    let heading = format!(
        "winter of {}{}{}",
        winter.weather,
        filled("filled in", &winter.filled),
        of_hard.unwrap_or_default()
    );
    let [energy, mass] = winter.closure;
    let closure = format!("what did not close: heat {energy:.0e}, water {mass:.0e} of all that moved");
    let told = spread.map_or_else(Vec::new, |spread| {
        vec![chances(spread), money(spread, &winter.bill), influences(spread), next(spread)]
    });
    let legend = match units {
        Units::Us => LEGEND.to_owned(),
        Units::Si => LEGEND.replace("a foot of eave", "a metre of eave"),
    };
    let tables = [
        heading,
        states(winter, spread, units),
        fixes(&winter.ablation, spread, units),
        seasons(winter, units),
        whys(winter),
        left_out(winter),
        winter.hard.told(units),
    ];
    let parts = tables.into_iter().chain(told).chain([closure, legend]);
    parts.filter(|part| !part.is_empty()).collect::<Vec<_>>().join("\n\n")
}

const LEGEND: &str = "Ice is the most that stands on a foot of eave because of the building: the same winter with rooms as cold as outdoors is taken off. Melt is snow melted from below. \
    Heat is what the heater gives for ceilings and for the air that goes up through them; walls, windows and floors are not in it. \
    Expect half to twice the amounts; trust the order. After air sealing, have a qualified person test burning appliances for spillage and carbon monoxide before anyone sleeps there. \
    Local code, makers and licensed practice decide.";

/// How a figure is printed.
type Told = fn(f64, Units) -> String;

/// A figure, or the middle of its band with one chance in ten on either side.
fn ranged(single: f64, band: Option<&Band>, units: Units, told: Told) -> String {
    let Some(band) = band else { return told(single, units) };
    let [low, middle, high] = [band.p10, band.p50, band.p90].map(|value| told(value, units));
    if low == high { middle } else { format!("{middle}  ({low} to {high})") }
}

/// Each fix alone and together.
pub(super) fn fixes(rows: &[Ablation], spread: Option<&Spread>, units: Units) -> String {
    let [degrees, a_day, flow] =
        if units == Units::Us { ["°F", "gal/day", "cfm"] } else { ["°C", "kg/day", "L/s"] };
    let mut heading = vec![
        format!("at {}", design_words(units)),
        format!("attic, {degrees}"),
        format!("deck, {degrees}"),
        format!("melt, {a_day}"),
        format!("from outdoors, {flow}"),
        format!("from the rooms, {flow}"),
    ];
    heading.extend(spread.map(|_| "chance that it helps".to_owned()));
    let heading: Vec<&str> = heading.iter().map(String::as_str).collect();
    let mut all = table(&heading, usize::MAX);
    for (i, row) in rows.iter().enumerate() {
        let bands = spread.and_then(|spread| spread.fixes.get(i));
        let cell = |single: f64, band: fn(&FixBands) -> &Band, told: Told| {
            ranged(single, bands.map(band), units, told)
        };
        let mut cells = vec![
            row.name.clone(),
            cell(row.attic, |bands| &bands.attic, temperature),
            cell(row.deck, |bands| &bands.deck, temperature),
            cell(row.melt_day, |bands| &bands.melt_day, melt),
            cell(row.vent, |bands| &bands.vent, air),
            cell(row.leak, |bands| &bands.leak, air),
        ];
        if let Some(bands) = bands {
            let helps = bands.lowers.filter(|_| i > 0);
            cells.push(helps.map_or_else(String::new, percent));
        }
        all.add_row(cells);
    }
    all.to_string()
}

fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

fn ice(kg_per_m: f64, units: Units) -> String {
    format!("{:.1}", Quantity::Ice.shown(kg_per_m, units))
}

fn melt(kg: f64, units: Units) -> String {
    format!("{:.0}", Quantity::Water.shown(kg, units))
}

pub(super) fn temperature(celsius: f64, units: Units) -> String {
    format!("{:.1}", Quantity::Temperature.shown(celsius, units))
}

pub(super) fn air(kg_s: f64, units: Units) -> String {
    // a zero has no sign
    format!("{}", Quantity::Air.shown(kg_s, units).round() + 0.0)
}
