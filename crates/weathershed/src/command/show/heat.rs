//! Where heat goes, what it costs, what there is to buy.

mod space;

use comfy_table::Table;
use job::Units;
use measure::{Area, Flow, RValue};
use study::heat::{Air, Breathing, Eave, Heat, Retarder, Sealed, Split, Year};
use study::winter::{design_air, design_words};

use super::roof::table;
use super::winter::{self, fixes};
use space::space;

/// Space by space, then air, cold days, the year, what must hold and what is lacking.
pub(super) fn text(heat: &Heat, units: Units) -> String {
    let mut parts: Vec<String> = heat.spaces.iter().flat_map(|one| space(one, units)).collect();
    parts.extend(list(
        "leaks of the ceilings with the house at 50 Pa",
        &heat.split.iter().map(|of| split(of, units)).collect::<Vec<_>>(),
    ));
    parts.extend(heat.air.as_ref().map(|air| leaks(air, units)));
    parts.extend(heat.air.as_ref().map(|air| days(air, units).to_string()));
    if !heat.cold.is_empty() {
        parts.push(fixes(&heat.cold, None, units));
    }
    if !heat.eaves.is_empty() {
        parts.push(eaves(&heat.eaves, units));
    }
    parts.extend(list(
        "bays and decks that insulation touches, as planned",
        &heat.sealed.iter().map(|of| sealed(of, units)).collect::<Vec<_>>(),
    ));
    parts.extend(list(
        "vapor retarders on the warm side, by what is asked of walls",
        &heat.retarders.iter().map(retarder).collect::<Vec<_>>(),
    ));
    parts.push(breathing(&heat.breathing, units));
    parts.extend(heat.year.as_ref().map(year));
    parts.extend(list("findings", &heat.findings));
    let holds: Vec<String> = heat
        .holds
        .iter()
        .map(|hold| format!("{}. Passes: {}. Prevents: {}.", hold.what, hold.passes, hold.prevents))
        .collect();
    parts.extend(list("hold points: nobody leaves before they pass", &holds));
    let lacking: Vec<String> = heat.lacking.iter().map(|lacks| lacks.message.clone()).collect();
    parts.extend(list("cannot tell", &lacking));
    parts.push(legend(units));
    parts.join("\n\n")
}

fn legend(units: Units) -> String {
    format!(
        "R is from air to air unless it says otherwise. Attics and decks at {} have lain so for ten days. Savings are from one in ten to nine in ten, as bills show \
         them. Labels of bags go before coverage from here. Local code, makers and licensed practice decide.",
        design_words(units)
    )
}

fn list(heading: &str, lines: &[String]) -> Option<String> {
    (!lines.is_empty()).then(|| format!("{heading}:\n- {}", lines.join("\n- ")))
}

fn r(of: RValue, units: Units) -> String {
    match units {
        Units::Us => format!("R-{:.1}", of.us()),
        Units::Si => format!("RSI {:.2}", of.si()),
    }
}

fn at_50(flow: Flow, units: Units) -> String {
    match units {
        Units::Us => format!("{:.0} cfm", flow.cfm()),
        Units::Si => format!("{:.0} L/s", flow.l_s()),
    }
}

fn split(of: &Split, units: Units) -> String {
    let [least, taken, most] = of.leaks.map(|flow| at_50(flow, units));
    let how = if of.is_measured {
        "as read, give or take one reading"
    } else {
        "taken from the whole house's, by area: have it measured"
    };
    format!("`{}`: {taken}, {least} to {most}, {how}", of.attic)
}

fn leaks(air: &Air, units: Units) -> String {
    let area = |of: Area| units.free_area(of);
    let mut all = table(&["leaks with the house at 50 Pa", "as found", "as planned"], usize::MAX);
    let mut row = |name: String, of: [String; 2]| {
        let [found, planned] = of;
        all.add_row([name, found, planned]);
    };
    row("whole house".into(), air.house.map(|flow| at_50(flow, units)));
    row("their area at 4 Pa".into(), air.area.map(area));
    row("part in the ceilings".into(), air.share.map(|share| format!("{:.0} %", share * 100.0)));
    for ceiling in &air.ceilings {
        row(format!("ceiling under `{}`", ceiling.attic), ceiling.leaks.map(|flow| at_50(flow, units)));
        row(format!("vents of `{}`, low and high in series", ceiling.attic), ceiling.series.map(area));
    }
    let by_pressure = air.ceilings.iter().filter_map(|ceiling| {
        let open = ceiling.by_pressure?;
        Some(format!(
            "by the pressures measured in it, attic `{}` is open to outdoors by {}; its vents add up to {}",
            ceiling.attic,
            area(open),
            area(ceiling.vents)
        ))
    });
    let off = format!("one reading of a blower door may be {:.0} % off", air.reading * 100.0);
    std::iter::once(all.to_string())
        .chain(std::iter::once(off))
        .chain(by_pressure)
        .collect::<Vec<_>>()
        .join("\n")
}

fn days(air: &Air, units: Units) -> Table {
    let heading = [
        "outdoors",
        "state",
        "attic",
        "its air",
        "through the ceiling",
        "in low",
        "in high",
        "house neutral at",
        "house at its floor",
    ];
    let mut all = table(&heading, 3);
    for day in &air.days {
        for attic in &day.attics {
            let fans = if day.fans { ", all fans on" } else { "" };
            all.add_row([
                temperature(day.outdoors.c(), units),
                format!("{}{fans}", day.state),
                attic.attic.clone(),
                temperature(attic.temperature.c(), units),
                kilograms(attic.ceiling, units),
                kilograms(attic.low, units),
                kilograms(attic.high, units),
                day.neutral
                    .map_or_else(|| "-".to_owned(), |height| units.length(measure::Length::from_m(height))),
                day.at_floor.map_or_else(|| "-".to_owned(), |pa| format!("{pa:.1} Pa")),
            ]);
        }
    }
    all
}

/// Eaves in section at 22 °F under a foot of snow.
fn eaves(all: &[Eave], units: Units) -> String {
    let [at, by] = match units {
        Units::Us => ["2 ft in", "floor by foot from the wall"],
        Units::Si => ["0.6 m in", "floor by 0.3 m from the wall"],
    };
    let first = format!("eave in section at {}", design_air(units));
    let heading = [first.as_str(), "state", "deck at the wall", at, by, "up, and by the field", "melts"];
    let mut rows = table(&heading, 2);
    for eave in all {
        for (state, of) in [("as found", &eave.states[0]), ("as planned", &eave.states[1])] {
            let Some(of) = of else { continue };
            let deck = |at: f64| {
                let near =
                    of.deck.iter().min_by(|a, b| (a.0.ft() - at).abs().total_cmp(&(b.0.ft() - at).abs()));
                near.map_or_else(String::new, |(_, t)| temperature(t.c(), units))
            };
            let floor: Vec<String> =
                of.floor.iter().take(4).map(|(.., through)| r(*through, units)).collect();
            let melts = of.melts.map_or_else(
                || "no".to_owned(),
                |[from, to]| format!("{} to {}", units.length(from), units.length(to)),
            );
            let up = match units {
                Units::Us => format!("{:.1}, {:.1} Btu/h ft", of.up * W_M_TO_BTU, of.field * W_M_TO_BTU),
                Units::Si => format!("{:.1}, {:.1} W/m", of.up, of.field),
            };
            rows.add_row([
                eave.at.clone(),
                state.to_owned(),
                deck(0.25),
                deck(2.0),
                floor.join(", "),
                up,
                melts,
            ]);
        }
    }
    rows.to_string()
}

const W_M_TO_BTU: f64 = 1.040_013;

/// With its unit.
fn temperature(celsius: f64, units: Units) -> String {
    let unit = if units == Units::Us { "°F" } else { "°C" };
    format!("{} {unit}", winter::temperature(celsius, units))
}

/// A flow of air in kg/s, with its unit.
fn kilograms(kg_s: f64, units: Units) -> String {
    let unit = if units == Units::Us { "cfm" } else { "L/s" };
    format!("{} {unit}", winter::air(kg_s, units))
}

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

fn per_area(kg_m2: f64, units: Units) -> String {
    match units {
        Units::Us => format!("{:.2} lb/ft²", kg_m2 * 0.204_816),
        Units::Si => format!("{kg_m2:.2} kg/m²"),
    }
}

/// What condenses where no attic lies between.
fn sealed(of: &Sealed, units: Units) -> String {
    let water = of.most.map_or_else(
        || "what condenses cannot be told without degree days and a design temperature".to_owned(),
        |(most, month)| {
            let after = match (of.dries, of.runs) {
                _ if most <= 0.0 => "",
                (_, Some(true)) => ", which RUNS OFF",
                (Some(true), _) => ", dry again within the year",
                _ => ", and MORE EACH YEAR",
            };
            format!(
                "at most {} condenses, by the end of {}{after}",
                per_area(most, units),
                MONTHS[usize::from(month) - 1]
            )
        },
    );
    let airtight = of.airtight.as_ref().map_or_else(String::new, |part| {
        let verdict = if part.meets_table() { "enough" } else { "NOT enough" };
        format!(
            "; IRC {} asks {} of insulation no air goes through, {} is planned: {verdict}",
            of.clause,
            r(part.least, units),
            r(part.has, units)
        )
    });
    let vented =
        if of.is_vented { "air goes over its insulation" } else { "no air goes over its insulation" };
    format!("`{}`, {vented} ({}): {water}{airtight}", of.space, of.layers.join(", "))
}

/// A retarder and how it stands.
fn retarder(of: &Retarder) -> String {
    let class = of.class.map_or_else(|| "none".to_owned(), |class| format!("class {class}"));
    let taken = if of.is_assumed { " (taken, since nobody looked)" } else { "" };
    format!("`{}`: {class}{taken}; {}: {}", of.space, of.by, of.verdict.words())
}

fn breathing(of: &Breathing, units: Units) -> String {
    let taken = if of.is_said { "" } else { " (taken: write `house.bedrooms`)" };
    let need = of.need.map_or_else(
        || "air for people: cannot tell without `house.floor_area`".to_owned(),
        |need| format!("air for people by ASHRAE 62.2: {}, {} bedrooms{taken}; have a fan for it before the house is sealed", at_50(need, units), of.bedrooms),
    );
    let drawn = of.drawn.map(|[found, planned]| {
        format!(
            "all fans take out {}; all at once they draw the house to {:.1} Pa as found, {:.1} Pa as planned",
            at_50(of.exhaust, units),
            found.pa(),
            planned.pa()
        )
    });
    let burns = of.burns.iter().map(|(kind, _, lowest)| {
        let is_beyond = of.too_far().any(|(beyond, ..)| beyond == kind);
        let verdict = if is_beyond { ": DRAWN TOO FAR" } else { "" };
        lowest.map_or_else(
            || format!("{kind}: no limit, it is to go"),
            |lowest| {
                format!(
                    "{kind} bears {:.0} Pa by a combustion test standard; the test on site decides{verdict}",
                    lowest.pa()
                )
            },
        )
    });
    std::iter::once(need).chain(drawn).chain(burns).collect::<Vec<_>>().join("\n")
}

fn year(year: &Year) -> String {
    let fuel = year.fuel.as_ref().map_or_else(
        || "no fuel is written".to_owned(),
        |burnt| {
            let said = if burnt.gives.1 { "" } else { " (usual)" };
            let price = burnt.price.map_or_else(
                || "price not written by that unit".to_owned(),
                |price| format!("{price} a {}", burnt.unit),
            );
            format!("{}, {:.0} % of it reaches the rooms{said}, {price}", burnt.name, burnt.gives.0 * 100.0)
        },
    );
    let unit = year.fuel.as_ref().map_or("", |burnt| burnt.unit.as_str());
    let mut all = table(&["saved in a year", "heat, kWh", unit, "money"], 1);
    for saved in &year.fixes {
        let units =
            saved.units.as_ref().map_or_else(String::new, |of| format!("{:.0} to {:.0}", of.low, of.high));
        let money = saved
            .money
            .map_or_else(String::new, |[low, _, high]| format!("{} to {}", low.to_cents(), high.to_cents()));
        all.add_row([saved.name.to_owned(), format!("{:.0}", saved.heat), units, money]);
    }
    let [conducted, leaked] = [year.conducted, year.leaked]
        .map(|[found, planned]| format!("{found:.0} kWh as found, {planned:.0} as planned"));
    format!("{fuel}\nthrough the ceilings in a year {conducted}; with the air through them {leaked}\n{all}")
}
