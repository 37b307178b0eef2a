//! Where heat goes, what it costs, what there is to buy.

use comfy_table::Table;
use job::Units;
use measure::{Area, Flow, RValue};
use study::heat::{Air, Breathing, Buy, Ceiling, Heat, How, Space, Year};

use super::roof::table;
use super::winter::{air as kilograms, fixes, temperature};

/// Space by space, then air, cold days, the year, what must hold and what is lacking.
pub(super) fn text(heat: &Heat, units: Units) -> String {
    let mut parts: Vec<String> = heat.spaces.iter().flat_map(|one| space(one, units)).collect();
    parts.extend(heat.air.as_ref().map(|air| leaks(air, units)));
    parts.extend(heat.air.as_ref().map(|air| days(air, units).to_string()));
    if !heat.cold.is_empty() {
        parts.push(fixes(&heat.cold, None, units));
    }
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
    parts.push(LEGEND.to_owned());
    parts.join("\n\n")
}

const LEGEND: &str = "R is from air to air unless it says otherwise. Attics and decks at 22 °F lie under a foot of snow after ten days. Savings are from one in ten to nine in ten, as bills show \
    them. Labels of bags go before coverage from here. Local code, makers and licensed practice decide.";

fn list(heading: &str, lines: &[String]) -> Option<String> {
    (!lines.is_empty()).then(|| format!("{heading}:\n- {}", lines.join("\n- ")))
}

fn r(of: RValue, units: Units) -> String {
    match units {
        Units::Us => format!("R-{:.1}", of.us()),
        Units::Si => format!("RSI {:.2}", of.si()),
    }
}

fn space(space: &Space, units: Units) -> Vec<String> {
    let mut parts = Vec::new();
    let [found, planned] = space.states.each_ref().map(Option::as_ref);
    let heading = format!("{} `{}`, ceiling {}", space.kind.words(), space.name, units.area(space.area));
    let mut all = table(&[heading.as_str(), "as found", "as planned"], usize::MAX);
    let mut row = |name: &str, of: &dyn Fn(&Ceiling) -> String| {
        let cell = |state: Option<&Ceiling>| state.map_or_else(|| "cannot tell".to_owned(), of);
        all.add_row([name.to_owned(), cell(found), cell(planned)]);
    };
    row("insulation", &|of| format!("{}{}", of.kind, if of.kind_is_named { "" } else { " (taken)" }));
    row("label, depth", &|of| {
        format!(
            "{}, {}",
            of.label.map_or_else(|| "none".to_owned(), |label| r(label, units)),
            units.length(of.depth)
        )
    });
    row("by layers: parallel paths", &|of| r(of.bounds.upper, units));
    row("isothermal planes", &|of| r(of.bounds.lower, units));
    row("mean, and its error", &|of| {
        format!("{}, {:.0} %", r(of.bounds.mean(), units), of.bounds.error() * 100.0)
    });
    row("reckoned with", &|of| {
        format!("{}{}", r(of.reckoned, units), if of.is_read { ", as read" } else { "" })
    });
    row("loss with hatch and side walls", &|of| match units {
        Units::Us => format!("{:.0} Btu/h °F", of.loss * W_K_TO_BTU),
        Units::Si => format!("{:.1} W/K", of.loss),
    });
    parts.push(all.to_string());
    for (state, of) in [("as found", found), ("as planned", planned)] {
        let Some(of) = of else { continue };
        let told: Vec<String> = of.derates.iter().map(|derate| derate.what.clone()).collect();
        parts.extend(list(&format!("what makes it resist less, {state}"), &told));
    }
    parts.extend(space.buy.as_ref().map(|of| buy(of, units)));
    parts
}

const W_K_TO_BTU: f64 = 1.895_634;

fn buy(buy: &Buy, units: Units) -> String {
    let mut lines = vec![format!(
        "{} to {}, {} of it there already, over {}: {} settled",
        buy.kind,
        r(buy.wanted, units),
        r(buy.stays, units),
        units.area(buy.area),
        units.length(buy.settled)
    )];
    lines.push(match &buy.how {
        How::Bags { blown, bags, each } => {
            format!("blown {} deep, {bags} bags of {}", units.length(*blown), mass(*each, units))
        }
        How::Batts => "in batts".to_owned(),
        How::Foam { board_feet, lifts, weight } => {
            format!("{board_feet:.0} board feet in {lifts} lifts, {} of it", mass(*weight, units))
        }
    });
    let (load, most) = buy.load;
    let verdict =
        if load > most { "TOO HEAVY: thicker board, a lighter kind, or strapping" } else { "carried" };
    let said = if buy.board.1 { "" } else { ", spacing not read" };
    lines.push(format!(
        "on the ceiling {:.2} psf; {} carries {:.1} psf{said}: {verdict}",
        load.psf(),
        buy.board.0,
        most.psf()
    ));
    lines.push(buy.baffles.map_or_else(
        || "baffles: cannot tell, the spacing of the rafters is not written".to_owned(),
        |count| format!("baffles: {count}, one to each bay that takes air in"),
    ));
    lines.extend(buy.heels.iter().map(|(at, short)| {
        format!(
            "heel of {at}: {} fits of {}; {} at the edge, {} over the {} to full depth",
            units.length(short.taper.at_wall),
            units.length(short.taper.full),
            r(short.edge, units),
            r(short.average, units),
            units.length(short.reach)
        )
    }));
    lines.extend(buy.cautions.iter().map(|&caution| caution.to_owned()));
    format!("to buy:\n- {}", lines.join("\n- "))
}

fn mass(kg: f64, units: Units) -> String {
    match units {
        Units::Us => format!("{:.0} lb", kg / 0.453_592_37),
        Units::Si => format!("{kg:.1} kg"),
    }
}

fn at_50(flow: Flow, units: Units) -> String {
    match units {
        Units::Us => format!("{:.0} cfm", flow.cfm()),
        Units::Si => format!("{:.0} L/s", flow.l_s()),
    }
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
    ];
    let mut all = table(&heading, 3);
    for day in &air.days {
        for attic in &day.attics {
            all.add_row([
                temperature(day.outdoors.c(), units),
                day.state.to_owned(),
                attic.attic.clone(),
                temperature(attic.temperature.c(), units),
                kilograms(attic.ceiling, units),
                kilograms(attic.low, units),
                kilograms(attic.high, units),
                day.neutral
                    .map_or_else(|| "-".to_owned(), |height| units.length(measure::Length::from_m(height))),
            ]);
        }
    }
    all
}

fn breathing(of: &Breathing, units: Units) -> String {
    let taken = if of.is_said { "" } else { " (taken: write `house.bedrooms`)" };
    let need = of.need.map_or_else(
        || "air for people: cannot tell without `house.floor_area`".to_owned(),
        |need| format!("air for people by ASHRAE 62.2: {}, {} bedrooms{taken}; have a fan for it before the house is sealed", at_50(need, units), of.bedrooms),
    );
    let drawn = of.drawn.map(|[found, planned]| {
        format!(
            "fans that were counted take out {}; all at once they draw the house to {:.1} Pa as found, {:.1} Pa as planned",
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
