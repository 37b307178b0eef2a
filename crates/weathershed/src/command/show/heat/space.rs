//! What one ceiling resists, and what is bought for it.

use job::Units;
use study::heat::{Buy, Ceiling, How, Space};

use super::super::roof::table;
use super::{list, r};

/// A ceiling as found and as planned, what is wrong with it, what to buy.
pub(super) fn space(space: &Space, units: Units) -> Vec<String> {
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
    if let Some(channel) = space.channel {
        let [found, plan] = channel.depths.map(|depth| {
            if depth.m() > 0.0 { units.length(depth) } else { "none: insulation fills the bays".to_owned() }
        });
        all.add_row(["way for air over it".to_owned(), found, plan]);
    }
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

/// A weight.
pub(super) fn mass(kg: f64, units: Units) -> String {
    match units {
        Units::Us => format!("{:.0} lb", kg / 0.453_592_37),
        Units::Si => format!("{kg:.1} kg"),
    }
}
