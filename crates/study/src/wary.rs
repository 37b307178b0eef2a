//! What of a house a person should look at, seen only where roof, water and job come together.
//!
//! # Source
//! Common practice.

use std::collections::BTreeMap;

use job::{Job, OldRoof, Problem};
use roof::{EdgeId, Roof};
use water::{Finding, Spill, Water};

/// Snow of an old metal roof over places where people walk. What comes off an eave comes down where its water does; gutters do not hold it.
pub(crate) fn metal_sheds(job: &Job, roof: &Roof, water: &Water) -> Vec<Problem> {
    if job.covering.old != Some(OldRoof::Metal) {
        return Vec::new();
    }
    let mut over: BTreeMap<usize, Vec<EdgeId>> = BTreeMap::new();
    for finding in water.findings(roof) {
        if let Finding::DripsOnWalk { from: Spill::Edge(edge), walk, .. } = finding {
            over.entry(walk).or_default().push(edge);
        }
    }
    let told = |(walk, edges): (usize, Vec<EdgeId>)| {
        let edges: Vec<String> = edges.iter().map(EdgeId::to_string).collect();
        let name = &roof.walks[walk].name;
        let message = format!(
            "snow slides off the old metal roof onto `{name}` over {}, all at once",
            edges.join(" and ")
        );
        let mend = "keep people from under it until the metal is off; shingles hold the snow: have an engineer look whether the frame carries what \
                    slid off before; wherever metal stays or is laid again, snow guards or a canopy over the way in, and the load they hold and \
                    their fixing looked at by an engineer";
        let problem = Problem::warning("metal-sheds", message, mend);
        match job.walks.get(walk) {
            Some(walk) => problem.at(walk.name_span.clone(), "this walk"),
            None => problem,
        }
    };
    over.into_iter().map(told).collect()
}
