//! A winter as JSON.

use serde_json::{Map, Value, json};
use study::winter::{Ablation, Band, Bands, Damp, FixBands, Influence, Measure, Spread, State, Winter};

use crate::VERSION;
use crate::number::tidy;

/// Ice through a winter: states as found and as planned, each fix alone at 22 °F, what did not close. With their spread, amounts are what one in ten is below, half are
/// and nine in ten; without, they are single figures (`p50`).
pub fn winter(winter: &Winter, spread: Option<&Spread>) -> Value {
    let mut states = Map::new();
    states.insert("found".into(), state(&winter.found, spread.map(|spread| &spread.found)));
    states.insert("plan".into(), state(&winter.plan, spread.map(|spread| &spread.plan)));
    let [energy, mass] = winter.closure;
    let fixes = winter.ablation.iter().enumerate();
    let mut all = json!({
        "version": VERSION,
        "weather": winter.weather,
        "filled": winter.filled,
        "states": states,
        "ablation": fixes.map(|(i, row)| ablation(row, spread.and_then(|spread| spread.fixes.get(i)))).collect::<Vec<_>>(),
        "closure": { "energy_rel": energy, "mass_rel": mass },
    });
    if let Some(spread) = spread {
        all["spread"] = spread_of(spread);
    }
    all
}

fn spread_of(spread: &Spread) -> Value {
    json!({
        "runs": spread.sampling.runs,
        "seed": spread.sampling.seed,
        "ice_saved_kg_per_m_eave": band(&spread.saved),
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

fn state(state: &State, bands: Option<&Bands>) -> Value {
    let of = |single: f64, band: fn(&Bands) -> &Band| figure(single, bands.map(band));
    json!({
        "ice_kg_per_m_eave": of(state.ice, |bands| &bands.ice),
        "sun_ice_kg_per_m_eave": of(state.sun_ice, |bands| &bands.sun_ice),
        "melt_kg": of(state.melt, |bands| &bands.melt),
        "pond_days_over_membrane": of(state.pond_days, |bands| &bands.pond_days),
        "deck_at_design_C": of(state.deck_at_design, |bands| &bands.deck_at_design),
        "attic_at_design_C": of(state.attic_at_design, |bands| &bands.attic_at_design),
        "vent_flow_m3_s": of(state.vent_m3_s(), |bands| &bands.vent),
        "leak_flow_m3_s": of(state.leak_m3_s(), |bands| &bands.leak),
        "heat_kwh": of(state.heat, |bands| &bands.heat),
        "slid_kg": tidy(state.slid),
        "blown_kg": tidy(state.blown),
        "attics": state.damp.iter().map(damp).collect::<Vec<_>>(),
    })
}

fn damp(damp: &Damp) -> Value {
    json!({
        "attic": damp.attic,
        "deck_moisture": tidy(damp.wood),
        "frost_kg_m2": tidy(damp.frost),
        "thaw_kg_m2": tidy(damp.thaw),
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
