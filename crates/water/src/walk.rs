//! What drips where people walk or drive.
//!
//! Water that leaves the roof for the ground comes down straight below where it leaves; a walk is wet by what comes down on it or within the
//! reach of its splash ([`roof::Walk::reach`]) around it.

use std::collections::BTreeMap;

use measure::{Area, Length};
use roof::plan::{P2, distance, sub};
use roof::{Roof, Walk};

use crate::finding::Finding;
use crate::flow::{Drip, Spill, Water};
use crate::packet::{Line, SHORT};

/// What comes down on each walk, by where it leaves the roof.
pub(crate) fn on_walks(roof: &Roof, water: &Water) -> Vec<Finding> {
    let mut wet: BTreeMap<(usize, Spill), Area> = BTreeMap::new();
    for (walk, place) in roof.walks.iter().enumerate() {
        for (drip, amount) in water.drips.iter().filter_map(|drip| Some((drip, drip.on(place)?))) {
            *wet.entry((walk, drip.from)).or_insert(Area::ZERO) += amount;
        }
    }
    wet.into_iter().map(|((walk, from), amount)| Finding::DripsOnWalk { from, walk, amount }).collect()
}

impl Drip {
    /// The part of it that wets a walk; none where it comes down clear of it.
    fn on(&self, walk: &Walk) -> Option<Area> {
        let [from, to] = within(walk, self.ends)?;
        if distance(self.ends[0], self.ends[1]) <= SHORT {
            return Some(self.amount);
        }
        let line = Line { ends: self.ends, per_m: self.depth.map(Length::m) };
        Some(Area::from_m2(line.part(from, to).amount()))
    }
}

/// Whether what comes down at a point wets a walk.
pub(crate) fn wets(walk: &Walk, at: P2) -> bool {
    within(walk, [at; 2]).is_some()
}

/// The part of a line, from its start, that lies within reach of a walk.
fn within(walk: &Walk, [a, b]: [P2; 2]) -> Option<[f64; 2]> {
    let reach = walk.reach.m();
    let run = sub(b, a);
    let mut part = [0.0_f64, 1.0];
    for i in 0..2 {
        let [near, far] = [walk.from[i] - reach - a[i], walk.to[i] + reach - a[i]];
        if run[i] == 0.0 {
            if near > 0.0 || far < 0.0 {
                return None;
            }
            continue;
        }
        let [enters, leaves] = if run[i] > 0.0 { [near, far] } else { [far, near] }.map(|at| at / run[i]);
        part = [part[0].max(enters), part[1].min(leaves)];
    }
    (part[0] <= part[1]).then_some(part)
}
