//! A winter as JSON.

use job::Units;
use serde_json::{Map, Value, json};
use study::heat::Bill;
use study::winter::{
    Ablation, Band, Bands, Damp, FixBands, Influence, Measure, Spread, State, Winter, WoodState,
};

use crate::VERSION;
use crate::number::tidy;

/// Ice through a winter, typical and hard: states as found and as planned, each fix alone at 22 °F and through both winters, what did not close. With their spread, amounts are what one in ten is below, half are
/// and nine in ten; without, they are single figures (`p50`).
pub fn winter(winter: &Winter, spread: Option<&Spread>) -> Value {
    let mut states = Map::new();
    let bill = &winter.bill;
    states.insert("found".into(), state(&winter.found, spread.map(|spread| &spread.found), bill));
    states.insert("plan".into(), state(&winter.plan, spread.map(|spread| &spread.plan), bill));
    let [energy, mass] = winter.closure;
    let fixes = winter.rows().enumerate().map(|(i, (row, seasons))| {
        let mut told = ablation(row, spread.and_then(|spread| spread.fixes.get(i)));
        told["why"] = winter.why(row).into();
        for (name, of) in ["typical", "hard"].into_iter().zip(seasons) {
            told[name] = season(of, bill);
        }
        told
    });
    let mut all = json!({
        "version": VERSION,
        "weather": winter.weather,
        "filled": winter.filled,
        "states": states,
        "hard": hard(winter),
        "fuel": fuel(bill),
        "ablation": fixes.collect::<Vec<_>>(),
        "left_out": winter.left_out,
        "closure": { "energy_rel": energy, "mass_rel": mass },
    });
    if let Some(spread) = spread {
        all["spread"] = spread_of(spread, bill);
    }
    all
}

/// As found and as planned through the hard winter, and where that comes from.
fn hard(winter: &Winter) -> Value {
    let states = winter.hard_states();
    let of = |which: usize| states.map(|states| state(states[which], None, &winter.bill));
    let read = winter.hard.read.as_ref();
    json!({
        "found": of(0),
        "plan": of(1),
        "colder_K": tidy(winter.hard.colder),
        "times_the_snow": winter.hard.snowier.map(tidy),
        "made": winter.hard.told(Units::Si),
        "read": read.map(|read| json!({
            "weather": read.weather,
            "file": read.file,
            "sha256": read.hash,
            "filled": read.filled,
        })),
    })
}

fn fuel(bill: &Bill) -> Value {
    json!({
        "name": bill.burnt().map(|burnt| burnt.name.clone()),
        "unit": bill.burnt().map(|burnt| burnt.unit.clone()),
        "gives": bill.burnt().map(|burnt| tidy(burnt.gives.0)),
        "price": bill.burnt().and_then(|burnt| burnt.price).map(|price| price.to_string()),
        "lacks": bill.lacks(),
    })
}

/// What a whole winter comes to with a fix done.
fn season(state: &State, bill: &Bill) -> Value {
    json!({
        "ice_kg_per_m_eave": tidy(state.ice),
        "melt_kg": tidy(state.melt),
        "pond_days_over_membrane": tidy(state.pond_days),
        "heating_kwh": tidy(state.heating),
        "heating_fuel_units": bill.units(state.heating).map(tidy),
        "heating_money": money(state.heating, bill),
        "deck_at_design_C": tidy(state.deck_at_design),
        "deck_moisture": state.wettest().map(tidy),
    })
}

/// What so much heat costs, to the cent.
fn money(kwh: f64, bill: &Bill) -> Option<String> {
    bill.money(kwh).map(|money| money.to_cents().to_string())
}

fn money_band(of: &Band, bill: &Bill) -> Value {
    json!({ "p10": money(of.p10, bill), "p50": money(of.p50, bill), "p90": money(of.p90, bill) })
}

fn spread_of(spread: &Spread, bill: &Bill) -> Value {
    json!({
        "runs": spread.sampling.runs,
        "seed": spread.sampling.seed,
        "ice_saved_kg_per_m_eave": band(&spread.saved),
        "heating_saved_kwh": band(&spread.saved_heating),
        "heating_saved_money": money_band(&spread.saved_heating, bill),
        "plan_lowers_ice_probability": tidy(spread.plan_lowers),
        "plan_near_zero_probability": tidy(spread.plan_ends),
        "surface_told": spread.told.map(tidy),
        "sensitivity": spread.influences.iter().map(influence).collect::<Vec<_>>(),
        "measure_next": spread.next.iter().map(measure).collect::<Vec<_>>(),
    })
}

fn influence(of: &Influence) -> Value {
    json!({
        "unknown": of.name,
        "first_order": tidy(of.index.first),
        "first_order_error": tidy(of.index.first_error),
        "total": tidy(of.index.total),
        "total_error": tidy(of.index.total_error),
    })
}

fn measure(of: &Measure) -> Value {
    json!({
        "unknown": of.name,
        "by": of.by,
        "field": of.field,
        "narrows": tidy(of.narrows),
        "narrows_error": tidy(of.error),
        "narrows_heating": of.heating.map(|[narrows, _]| tidy(narrows)),
        "narrows_heating_error": of.heating.map(|[_, error]| tidy(error)),
    })
}

fn band(of: &Band) -> Value {
    json!({ "p10": tidy(of.p10), "p50": tidy(of.p50), "p90": tidy(of.p90) })
}

/// A figure with its band; alone it is its own middle.
fn figure(single: f64, of: Option<&Band>) -> Value {
    let Some(of) = of else { return json!({ "p50": tidy(single) }) };
    let mut told = band(of);
    told["as_written"] = tidy(single).into();
    told
}

fn state(state: &State, bands: Option<&Bands>, bill: &Bill) -> Value {
    let of = |single: f64, band: fn(&Bands) -> &Band| figure(single, bands.map(band));
    json!({
        "ice_kg_per_m_eave": of(state.ice, |bands| &bands.ice),
        "sun_ice_kg_per_m_eave": of(state.sun_ice, |bands| &bands.sun_ice),
        "melt_kg": of(state.melt, |bands| &bands.melt),
        "icicles_kg": of(state.icicles, |bands| &bands.icicles),
        "pond_days_over_membrane": of(state.pond_days, |bands| &bands.pond_days),
        "deck_at_design_C": of(state.deck_at_design, |bands| &bands.deck_at_design),
        "attic_at_design_C": of(state.attic_at_design, |bands| &bands.attic_at_design),
        "vent_flow_m3_s": of(state.vent_m3_s(), |bands| &bands.vent),
        "leak_flow_m3_s": of(state.leak_m3_s(), |bands| &bands.leak),
        "heat_kwh": of(state.heat, |bands| &bands.heat),
        "slid_kg": tidy(state.slid),
        "blown_kg": tidy(state.blown),
        "heating_kwh": of(state.heating, |bands| &bands.heating),
        "heating_money": bands.map_or_else(
            || json!({ "p50": money(state.heating, bill) }),
            |bands| money_band(&bands.heating, bill),
        ),
        "attics": state.damp.iter().map(damp).collect::<Vec<_>>(),
    })
}

fn damp(damp: &Damp) -> Value {
    json!({
        "attic": damp.attic,
        "deck_moisture": tidy(damp.wood),
        "wood": match damp.stands {
            WoodState::Dry => "dry",
            WoodState::Watch => "watch",
            WoodState::AtRisk => "at_risk",
            WoodState::Decays => "decays",
        },
        "frost_kg_m2": tidy(damp.frost),
        "thaw_kg_m2": tidy(damp.thaw),
        "dripped_kg": tidy(damp.dripped),
        "mold_index": tidy(damp.mold),
    })
}

fn ablation(row: &Ablation, bands: Option<&FixBands>) -> Value {
    let mut all = json!({
        "fix": row.name,
        "deck_at_design_C": tidy(row.deck),
        "attic_at_design_C": tidy(row.attic),
        "melt_kg_day_at_design": tidy(row.melt_day),
    });
    if let Some(bands) = bands {
        all["spread"] = json!({
            "deck_at_design_C": band(&bands.deck),
            "attic_at_design_C": band(&bands.attic),
            "melt_kg_day_at_design": band(&bands.melt_day),
            "lowers_melt_probability": bands.lowers.map(tidy),
        });
    }
    all
}
