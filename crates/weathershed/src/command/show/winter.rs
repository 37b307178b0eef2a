//! Why ice comes back, and which fix stops it.

use draw::Quantity;
use job::Units;
use study::winter::{Ablation, Band, Bands, Damp, FREEZING_AIR, FixBands, Spread, State, Winter};

use super::roof::table;

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
    let told = spread.map_or_else(Vec::new, |spread| vec![chances(spread), influences(spread), next(spread)]);
    let legend = "Ice is the most that stands on a foot of eave because of the building: the same winter with rooms as cold as outdoors is taken off. Melt is snow melted from below. \
                  Expect half to twice the amounts; trust the order. After air sealing, have a qualified person test burning appliances for spillage and carbon monoxide before anyone sleeps there. \
                  Local code, makers and licensed practice decide.";
    let tables =
        [heading, states(winter, spread, units), fixes(&winter.ablation, spread, units), useless(winter)];
    let parts = tables.into_iter().chain(told).chain([closure, legend.to_owned()]);
    parts.filter(|part| !part.is_empty()).collect::<Vec<_>>().join("\n\n")
}

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
    let mut all = table(&["", "as found", "as planned"], usize::MAX);
    let mut row = |name: String, of: fn(&State) -> f64, band: fn(&Bands) -> &Band, told: Told| {
        let cell = |state: &State, bands: Option<&Bands>| ranged(of(state), bands.map(band), units, told);
        let found = cell(&winter.found, spread.map(|spread| &spread.found));
        all.add_row([name, found, cell(&winter.plan, spread.map(|spread| &spread.plan))]);
    };
    let eave = unit("lb/ft", "kg/m");
    row(format!("ice on the eaves, {eave}"), |state| state.ice, |bands| &bands.ice, ice);
    row(format!("ice of the sun alone, {eave}"), |state| state.sun_ice, |bands| &bands.sun_ice, ice);
    row(format!("melted from below, {}", unit("gal", "kg")), |state| state.melt, |bands| &bands.melt, melt);
    row(
        "days with a pond past the membrane".into(),
        |state| state.pond_days,
        |bands| &bands.pond_days,
        |days, _| format!("{days:.1}"),
    );
    row(
        format!("attic at 22 °F under a foot of snow, {}", unit("°F", "°C")),
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
    for (i, damp) in winter.found.damp.iter().enumerate() {
        let mut of_attic = |name: &str, of: &dyn Fn(&Damp) -> String| {
            let cells = [&winter.found, &winter.plan].map(|state| of(&state.damp[i]));
            all.add_row([format!("attic {}: {name}", damp.attic)].into_iter().chain(cells));
        };
        of_attic("wettest wood of the deck, %", &|damp| format!("{:.0}", 100.0 * damp.wood));
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
        "at 22 °F under a foot of snow".to_owned(),
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

/// How sure the plan is.
fn chances(spread: &Spread) -> String {
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
fn influences(spread: &Spread) -> String {
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

/// What narrows the ice, by more than chance would.
fn next(spread: &Spread) -> String {
    let mut all = table(&["measure this next", "with", "write it to", "narrows the ice by"], usize::MAX);
    // of ten that are tried one passes two deviations by chance
    let is_told = |of: &&study::winter::Measure| of.narrows > 3.0 * of.error && of.narrows > 0.01;
    let mut is_empty = true;
    for of in spread.next.iter().filter(is_told) {
        let field = of.field.clone().unwrap_or_else(|| "no field: a note".into());
        let narrows = format!("{} ± {}", percent(of.narrows), percent(of.error));
        all.add_row([of.name.clone(), of.by.clone(), field, narrows]);
        is_empty = false;
    }
    if is_empty {
        let is_told = !spread.influences.is_empty();
        let told = "nothing that can be measured narrows the ice by more than chance would";
        return if is_told { told.to_owned() } else { String::new() };
    }
    all.to_string()
}

/// Fixes that help nothing, and why.
fn useless(winter: &Winter) -> String {
    let told = |(row, why): (&Ablation, &str)| format!("helps nothing: {}; {why}", row.name);
    winter.useless().into_iter().map(told).collect::<Vec<_>>().join("\n")
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
