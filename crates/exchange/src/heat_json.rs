//! Where heat goes as JSON.

use job::{SpaceKind, VentClass};
use measure::{Money, RValue};
use serde_json::{Value, json};
use study::heat::{
    Air, AtticDay, Breathing, Buy, Ceiling, CeilingLeak, Day, Eave, Heat, How, Retarder, Saved, Sealed,
    Section, Short, Space, Split, Standing, Year,
};
use study::winter::Ablation;

use crate::VERSION;
use crate::number::tidy;

/// Where the heat of a house goes: ceilings as found and as planned, leaks and air on cold days, a year's heat and what each fix saves, what there is to buy, what must
/// hold, what the survey lacks.
pub fn heat(heat: &Heat) -> Value {
    json!({
        "version": VERSION,
        "spaces": heat.spaces.iter().map(space).collect::<Vec<_>>(),
        "split": heat.split.iter().map(split).collect::<Vec<_>>(),
        "air": heat.air.as_ref().map(air),
        "breathing": breathing(&heat.breathing),
        "at_22_F": heat.cold.iter().map(cold).collect::<Vec<_>>(),
        "eaves": heat.eaves.iter().map(eave).collect::<Vec<_>>(),
        "climate": heat.climate.as_ref().map(|of| json!({ "means_C": of.means.map(tidy), "humidity": tidy(of.humidity) })),
        "sealed": heat.sealed.iter().map(sealed).collect::<Vec<_>>(),
        "retarders": heat.retarders.iter().map(retarder).collect::<Vec<_>>(),
        "year": heat.year.as_ref().map(year),
        "holds": heat.holds.iter().map(|hold| json!({ "what": hold.what, "passes": hold.passes, "prevents": hold.prevents })).collect::<Vec<_>>(),
        "findings": heat.findings,
        "lacking": heat.lacking.iter().map(|lacks| json!({ "message": lacks.message, "mend": lacks.mend })).collect::<Vec<_>>(),
    })
}

fn retarder(of: &Retarder) -> Value {
    let standing = match of.verdict {
        Standing::NothingAsked => "nothing asked",
        Standing::Meets => "meets",
        Standing::TooOpen(_) => "too open",
        Standing::Barred => "not permitted",
        Standing::ShutIn => "not permitted below a roof without vents",
        Standing::ZoneUnknown => "cannot tell",
    };
    let asks = if let Standing::TooOpen(asks) = of.verdict { Some(asks) } else { None };
    json!({
        "space": of.space,
        "class": of.class,
        "is_assumed": of.is_assumed,
        "by": of.by,
        "verdict": standing,
        "asks_class": asks,
    })
}

fn r(of: RValue) -> f64 {
    tidy(of.si())
}

fn space(space: &Space) -> Value {
    let kind = match space.kind {
        SpaceKind::Attic => "attic",
        SpaceKind::Cathedral => "cathedral",
    };
    json!({
        "name": space.name,
        "kind": kind,
        "ceiling_m2": tidy(space.area.m2()),
        "found": space.states[0].as_ref().map(ceiling),
        "plan": space.states[1].as_ref().map(ceiling),
        "way_for_air_m": space.channel.map(|channel| channel.depths.map(|depth| tidy(depth.m()))),
        "buy": space.buy.as_ref().map(buy),
    })
}

fn ceiling(of: &Ceiling) -> Value {
    json!({
        "insulation": of.kind,
        "insulation_is_named": of.kind_is_named,
        "label_m2k_w": of.label.map(r),
        "depth_m": tidy(of.depth.m()),
        "shares": of.shares.iter().copied().map(tidy).collect::<Vec<_>>(),
        "layers": of.layers.iter().map(|(name, paths)| json!({ "name": name, "m2k_w": paths.iter().copied().map(r).collect::<Vec<_>>() })).collect::<Vec<_>>(),
        "parallel_paths_m2k_w": r(of.bounds.upper),
        "isothermal_planes_m2k_w": r(of.bounds.lower),
        "mean_m2k_w": r(of.bounds.mean()),
        "mean_error": tidy(of.bounds.error()),
        "derates": of.derates.iter().map(|derate| json!({ "what": derate.what, "keeps": derate.keeps.map(tidy), "is_in": derate.is_in })).collect::<Vec<_>>(),
        "reckoned_m2k_w": r(of.reckoned),
        "is_read": of.is_read,
        "whole_w_m2k": tidy(of.whole.si()),
        "loss_w_k": tidy(of.loss),
    })
}

fn buy(buy: &Buy) -> Value {
    let how = match &buy.how {
        How::Bags { blown, bags, each } => {
            json!({ "by": "bags", "blown_m": tidy(blown.m()), "bags": bags, "bag_kg": tidy(*each) })
        }
        How::Batts => json!({ "by": "batts" }),
        How::Foam { board_feet, lifts, weight } => {
            json!({ "by": "foam", "board_feet": tidy(*board_feet), "lifts": lifts, "kg": tidy(*weight) })
        }
    };
    json!({
        "insulation": buy.kind,
        "wanted_m2k_w": r(buy.wanted),
        "stays_m2k_w": r(buy.stays),
        "area_m2": tidy(buy.area.m2()),
        "settled_m": tidy(buy.settled.m()),
        "how": how,
        "load_pa": tidy(buy.load.0.pa()),
        "load_most_pa": tidy(buy.load.1.pa()),
        "board": buy.board.0,
        "board_spacing_is_read": buy.board.1,
        "baffles": buy.baffles,
        "heels": buy.heels.iter().map(heel).collect::<Vec<_>>(),
        "cautions": buy.cautions,
    })
}

fn heel((name, short): &(String, Short)) -> Value {
    json!({
        "at": name,
        "room_m": tidy(short.taper.at_wall.m()),
        "full_m": tidy(short.taper.full.m()),
        "reach_m": tidy(short.reach.m()),
        "edge_m2k_w": r(short.edge),
        "taper_m2k_w": r(short.average),
    })
}

fn air(air: &Air) -> Value {
    let both = |of: [f64; 2]| json!({ "found": tidy(of[0]), "plan": tidy(of[1]) });
    json!({
        "house_at_50_pa_m3_s": both(air.house.map(measure::Flow::m3_s)),
        "reading_may_be_off": tidy(air.reading),
        "leak_area_at_4_pa_m2": both(air.area.map(measure::Area::m2)),
        "ceiling_share": both(air.share),
        "shell_at_50_pa_m3_s": tidy(air.shell.m3_s()),
        "ceilings": air.ceilings.iter().map(ceiling_leak).collect::<Vec<_>>(),
        "days": air.days.iter().map(day).collect::<Vec<_>>(),
    })
}

fn ceiling_leak(of: &CeilingLeak) -> Value {
    json!({
        "attic": of.attic,
        "found_at_50_pa_m3_s": tidy(of.leaks[0].m3_s()),
        "plan_at_50_pa_m3_s": tidy(of.leaks[1].m3_s()),
        "vents_by_pressure_m2": of.by_pressure.map(|area| tidy(area.m2())),
        "vents_found_m2": tidy(of.vents.m2()),
        "vents_in_series_m2": of.series.map(|area| tidy(area.m2())),
    })
}

fn split(of: &Split) -> Value {
    let [least, taken, most] = of.leaks.map(|flow| tidy(flow.m3_s()));
    json!({ "attic": of.attic, "is_measured": of.is_measured, "least_m3_s": least, "taken_m3_s": taken, "most_m3_s": most })
}

fn day(day: &Day) -> Value {
    json!({
        "outdoors_C": tidy(day.outdoors.c()),
        "state": day.state,
        "all_fans_run": day.fans,
        "house_at_floor_pa": day.at_floor.map(tidy),
        "neutral_height_m": day.neutral.map(tidy),
        "attics": day.attics.iter().map(attic).collect::<Vec<_>>(),
    })
}

fn attic(of: &AtticDay) -> Value {
    json!({
        "attic": of.attic,
        "temperature_C": tidy(of.temperature.c()),
        "ceiling_kg_s": tidy(of.ceiling),
        "low_kg_s": tidy(of.low),
        "high_kg_s": tidy(of.high),
        "fans_kg_s": tidy(of.fans),
    })
}

fn breathing(of: &Breathing) -> Value {
    let vent = |class: VentClass| match class {
        VentClass::Atmospheric => "atmospheric",
        VentClass::FanAssisted => "fan-assisted",
        VentClass::Sealed => "sealed",
        VentClass::Unvented => "unvented",
    };
    json!({
        "need_m3_s": of.need.map(|need| tidy(need.m3_s())),
        "bedrooms": of.bedrooms,
        "bedrooms_are_said": of.is_said,
        "exhaust_m3_s": tidy(of.exhaust.m3_s()),
        "drawn_pa": of.drawn.map(|drawn| drawn.map(|pressure| tidy(pressure.pa()))),
        "burns": of.burns.iter().map(|(kind, class, lowest)| json!({ "kind": kind, "vent": vent(*class), "lowest_pa": lowest.map(|pressure| tidy(pressure.pa())) })).collect::<Vec<_>>(),
        "drawn_too_far": of.too_far().map(|(kind, ..)| kind).collect::<Vec<_>>(),
    })
}

fn cold(row: &Ablation) -> Value {
    json!({
        "fix": row.name,
        "attic_C": tidy(row.attic),
        "deck_C": tidy(row.deck),
        "melt_kg_day": tidy(row.melt_day),
        "vent_kg_s": tidy(row.vent),
        "leak_kg_s": tidy(row.leak),
    })
}

fn eave(of: &Eave) -> Value {
    let [found, plan] = of.states.each_ref().map(|state| state.as_ref().map(section));
    json!({ "attic": of.attic, "at": of.at, "found": found, "plan": plan })
}

fn section(of: &Section) -> Value {
    let deck = of.deck.iter().map(|(at, t)| json!({ "inward_m": tidy(at.m()), "C": tidy(t.c()) }));
    let floor = of.floor.iter().map(
        |(from, to, through)| json!({ "from_m": tidy(from.m()), "to_m": tidy(to.m()), "m2k_w": r(*through) }),
    );
    json!({
        "deck": deck.collect::<Vec<_>>(),
        "floor": floor.collect::<Vec<_>>(),
        "up_w_m": tidy(of.up),
        "field_w_m": tidy(of.field),
        "melts_m": of.melts.map(|ends| ends.map(|at| tidy(at.m()))),
        "closure_rel": of.closure,
    })
}

fn sealed(of: &Sealed) -> Value {
    json!({
        "space": of.space,
        "is_vented": of.is_vented,
        "layers": of.layers,
        "most_kg_m2": of.most.map(|(kg, _)| tidy(kg)),
        "most_in_month": of.most.map(|(_, month)| month),
        "dries": of.dries,
        "runs": of.runs,
        "airtight": of.airtight.as_ref().map(|part| json!({
            "clause": of.clause,
            "least_m2k_w": r(part.least),
            "least_share": part.least_share.map(tidy),
            "has_m2k_w": r(part.has),
            "share": tidy(part.share),
            "meets_table": part.meets_table(),
            "meets_share": part.meets_share(),
        })),
    })
}

fn year(year: &Year) -> Value {
    json!({
        "degree_days_K": tidy(year.degree_days),
        "mean_outdoors_C": tidy(year.mean.c()),
        "fuel": year.fuel.as_ref().map(|burnt| json!({
            "name": burnt.name,
            "unit": burnt.unit,
            "gives": tidy(burnt.gives.0),
            "gives_is_said": burnt.gives.1,
            "price": burnt.price.map(|price| price.to_string()),
        })),
        "conducted_kwh": { "found": tidy(year.conducted[0]), "plan": tidy(year.conducted[1]) },
        "leaked_kwh": { "found": tidy(year.leaked[0]), "plan": tidy(year.leaked[1]) },
        "fixes": year.fixes.iter().map(saved).collect::<Vec<_>>(),
    })
}

fn saved(saved: &Saved) -> Value {
    let three = |of: [f64; 3]| json!({ "p10": tidy(of[0]), "p50": tidy(of[1]), "p90": tidy(of[2]) });
    let money = |of: [Money; 3]| {
        let [low, middle, high] = of.map(|money| money.to_cents().to_string());
        json!({ "p10": low, "p50": middle, "p90": high })
    };
    json!({
        "fix": saved.name,
        "heat_kwh": tidy(saved.heat),
        "units": saved.units.as_ref().map(|units| three([units.low, units.middle, units.high])),
        "money": saved.money.map(money),
    })
}
