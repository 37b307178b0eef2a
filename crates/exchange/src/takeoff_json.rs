//! The takeoff as JSON.

use book::Because;
use job::Units;
use serde::Serialize;
use serde_json::Value;
use takeoff::{Amount, Line, Takeoff, VentCheck, Vented};

use crate::VERSION;
use crate::number::tidy;

#[derive(Serialize)]
struct Document<'a> {
    version: u32,
    lines: Vec<LineOut<'a>>,
    ventilation: Vec<VentOut<'a>>,
}

#[derive(Serialize)]
struct LineOut<'a> {
    item: &'a str,
    name: &'a str,
    net: Option<f64>,
    unit: Option<&'static str>,
    ordered: Option<u64>,
    package: Option<&'a str>,
    refused: Option<&'a str>,
    assumed: bool,
    because: &'a [Because],
}

#[derive(Serialize)]
struct VentOut<'a> {
    attic: &'a str,
    space_m2: f64,
    required_m2: f64,
    reduced_m2: f64,
    found: StateOut<'a>,
    plan: StateOut<'a>,
    gain: Option<f64>,
    because: &'a [Because],
}

#[derive(Serialize)]
struct StateOut<'a> {
    low_m2: f64,
    high_m2: f64,
    total_m2: f64,
    high_share: Option<f64>,
    effective_m2: f64,
    verdict: &'static str,
    parts: Vec<PartOut<'a>>,
}

#[derive(Serialize)]
struct PartOut<'a> {
    name: &'a str,
    place: &'static str,
    area_m2: f64,
}

/// The takeoff, quantities in the units of the job. A line that a rule forbids has `refused` instead of figures.
pub fn takeoff(takeoff: &Takeoff, units: Units) -> Value {
    crate::number::value(&Document {
        version: VERSION,
        lines: takeoff.lines.iter().map(|l| line(l, units)).collect(),
        ventilation: takeoff.vents.iter().map(vent).collect(),
    })
}

fn line(l: &Line, units: Units) -> LineOut<'_> {
    let net = l.net().map(|q| q.in_units(units));
    let (package, refused) = match &l.amount {
        Amount::Ordered { package, .. } => (Some(package.as_str()), None),
        Amount::Measured(_) => (None, None),
        Amount::Refused(why) => (None, Some(why.as_str())),
    };
    LineOut {
        item: &l.item.key,
        name: &l.item.name,
        net: net.map(|(value, _)| tidy(value)),
        unit: net.map(|(_, unit)| unit),
        ordered: l.ordered(),
        package,
        refused,
        assumed: l.is_assumed(),
        because: &l.because,
    }
}

fn vent(v: &VentCheck) -> VentOut<'_> {
    VentOut {
        attic: &v.attic,
        space_m2: tidy(v.space.m2()),
        required_m2: tidy(v.required.m2()),
        reduced_m2: tidy(v.reduced.m2()),
        found: state(&v.found),
        plan: state(&v.plan),
        gain: v.gain.map(tidy),
        because: &v.because,
    }
}

fn state(s: &Vented) -> StateOut<'_> {
    StateOut {
        low_m2: tidy(s.low.m2()),
        high_m2: tidy(s.high.m2()),
        total_m2: tidy(s.total.m2()),
        high_share: s.high_share.map(tidy),
        effective_m2: tidy(s.effective.m2()),
        verdict: s.verdict.words(),
        parts: (s.parts.iter())
            .map(|p| PartOut { name: &p.name, place: p.place.words(), area_m2: tidy(p.area.m2()) })
            .collect(),
    }
}
