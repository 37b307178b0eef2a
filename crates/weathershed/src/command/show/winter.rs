//! Why ice comes back, and which fix stops it.

mod sure;
mod whole;

use draw::Quantity;
use job::Units;
use study::winter::{
    Ablation, Band, Bands, Damp, FREEZING_AIR, FixBands, Spread, State, Winter, WoodState, design_words,
};

use super::roof::table;
use sure::{chances, influences, money, next};
use whole::{left_out, seasons, whys};

const KG_PER_M2_TO_LB_PER_SQUARE: f64 = 20.4816;

/// States side by side, fixes one by one, what helps nothing, what is worth measuring, and how far to trust it.
pub(super) fn text(winter: &Winter, spread: Option<&Spread>, units: Units) -> String {
    let filled = if winter.filled.is_empty() {
        String::new()
    } else {
        format!("\nfilled in: {}", winter.filled.join("; "))
    };
    let heading = format!("winter of {}{filled}", winter.weather);
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

fn states(winter: &Winter, spread: Option<&Spread>, units: Units) -> String {
    let unit = |us: &'static str, si: &'static str| if units == Units::Us { us } else { si };
    let hard = winter.hard_states();
    let mut all = table(&["", "as found", "as planned", "hard, as found", "hard, as planned"], usize::MAX);
    let mut row = |name: String, of: fn(&State) -> f64, band: fn(&Bands) -> &Band, told: Told| {
        let cell = |state: &State, bands: Option<&Bands>| ranged(of(state), bands.map(band), units, told);
        let found = cell(&winter.found, spread.map(|spread| &spread.found));
        let hard = hard.into_iter().flatten().map(|state| told(of(state), units));
        let planned = cell(&winter.plan, spread.map(|spread| &spread.plan));
        all.add_row([name, found, planned].into_iter().chain(hard));
    };
    let eave = unit("lb/ft", "kg/m");
    row(format!("ice on the eaves, {eave}"), |state| state.ice, |bands| &bands.ice, ice);
    row(format!("ice of the sun alone, {eave}"), |state| state.sun_ice, |bands| &bands.sun_ice, ice);
    row(format!("melted from below, {}", unit("gal", "kg")), |state| state.melt, |bands| &bands.melt, melt);
    let icicles = format!("drips off in freezing air, for icicles, {}", unit("gal", "kg"));
    row(icicles, |state| state.icicles, |bands| &bands.icicles, melt);
    row(
        "days with a pond past the membrane".into(),
        |state| state.pond_days,
        |bands| &bands.pond_days,
        |days, _| format!("{days:.1}"),
    );
    row(
        format!("attic at {}, {}", design_words(units), unit("°F", "°C")),
        |state| state.attic_at_design,
        |bands| &bands.attic_at_design,
        temperature,
    );
    row(
        format!("deck there, {}", unit("°F", "°C")),
        |state| state.deck_at_design,
        |bands| &bands.deck_at_design,
        temperature,
    );
    let flow = unit("cfm", "L/s");
    let through = format!("air from outdoors through the attic, {flow}");
    row(through, State::vent_m3_s, |bands| &bands.vent, |m3_s, units| air(m3_s * FREEZING_AIR, units));
    let leaks = format!("air from the rooms into it, {flow}");
    row(leaks, State::leak_m3_s, |bands| &bands.leak, |m3_s, units| air(m3_s * FREEZING_AIR, units));
    row(
        "heat into the attic, kWh".into(),
        |state| state.heat,
        |bands| &bands.heat,
        |kwh, _| format!("{kwh:.0}"),
    );
    row(
        "heat for ceilings and air up, kWh".into(),
        |state| state.heating,
        |bands| &bands.heating,
        |kwh, _| format!("{kwh:.0}"),
    );
    if let Some(lacks) = winter.bill.lacks() {
        all.add_row([format!("its money: {lacks}")]);
    } else {
        let cost = |state: &State| whole::money(state, &winter.bill);
        let states = [&winter.found, &winter.plan].into_iter().chain(hard.into_iter().flatten());
        all.add_row(std::iter::once("its money, a winter".to_owned()).chain(states.map(cost)));
    }
    for (i, damp) in winter.found.damp.iter().enumerate() {
        let mut of_attic = |name: &str, of: &dyn Fn(&Damp) -> String| {
            let states = [&winter.found, &winter.plan].into_iter().chain(hard.into_iter().flatten());
            let cells = states.map(|state| of(&state.damp[i]));
            all.add_row([format!("attic {}: {name}", damp.attic)].into_iter().chain(cells));
        };
        of_attic("wettest wood of the deck, %", &|damp| {
            format!("{:.0}, {}", 100.0 * damp.wood, stands(damp.stands))
        });
        of_attic(&format!("most frost under it, {}", unit("lb/100 ft²", "kg/m²")), &|damp| match units {
            Units::Us => format!("{:.0}", damp.frost * KG_PER_M2_TO_LB_PER_SQUARE),
            Units::Si => format!("{:.2}", damp.frost),
        });
        of_attic("mold index, 0 to 6", &|damp| format!("{:.1}", damp.mold));
    }
    let ranges = if spread.is_some() {
        "\nthe middle of all houses drawn, and between which ends eight of ten of them lie"
    } else {
        ""
    };
    format!("{all}{ranges}")
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

/// How wood stands, by the highest moisture it came to.
const fn stands(wood: WoodState) -> &'static str {
    match wood {
        WoodState::Dry => "dry",
        WoodState::Watch => "watch it",
        WoodState::AtRisk => "at risk if it stays",
        WoodState::Decays => "ROTS if it stays",
    }
}
