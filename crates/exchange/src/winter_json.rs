//! A winter as JSON.

use serde_json::{Map, Value, json};
use study::winter::{Ablation, Damp, State, Winter};

use crate::VERSION;
use crate::number::tidy;

/// Ice through a winter: states as found and as planned, each fix alone at 22 °F, what did not close. Amounts are single figures (`p50`) until their spread is
/// reckoned.
pub fn winter(winter: &Winter) -> Value {
    let mut states = Map::new();
    states.insert("found".into(), state(&winter.found));
    states.insert("plan".into(), state(&winter.plan));
    let [energy, mass] = winter.closure;
    json!({
        "version": VERSION,
        "weather": winter.weather,
        "filled": winter.filled,
        "states": states,
        "ablation": winter.ablation.iter().map(ablation).collect::<Vec<_>>(),
        "closure": { "energy_rel": energy, "mass_rel": mass },
    })
}

fn state(state: &State) -> Value {
    json!({
        "ice_kg_per_m_eave": { "p50": tidy(state.ice) },
        "sun_ice_kg_per_m_eave": { "p50": tidy(state.sun_ice) },
        "melt_kg": { "p50": tidy(state.melt) },
        "pond_days_over_membrane": { "p50": tidy(state.pond_days) },
        "deck_at_design_C": { "p50": tidy(state.deck_at_design) },
        "attic_at_design_C": { "p50": tidy(state.attic_at_design) },
        "vent_flow_m3_s": { "p50": tidy(state.vent_m3_s()) },
        "leak_flow_m3_s": { "p50": tidy(state.leak_m3_s()) },
        "heat_kwh": { "p50": tidy(state.heat) },
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

fn ablation(row: &Ablation) -> Value {
    json!({
        "fix": row.name,
        "deck_at_design_C": tidy(row.deck),
        "attic_at_design_C": tidy(row.attic),
        "melt_kg_day_at_design": tidy(row.melt_day),
    })
}
