//! Air up the bays of a sloped ceiling.

use heat::air::Leak;

use crate::season::{Passing, Through};

/// Bays of a sloped ceiling, cut across into parts of one height.
#[derive(Clone, Debug, PartialEq)]
pub struct Bays {
    /// Share of the ceiling under each part, from the eaves up; they sum to 1.
    pub parts: Vec<f64>,
    /// What the ways from eaves to ridge let through, all of them side by side.
    pub way: Leak,
}

/// What the network found of bays, kg/s: to windward, to leeward and in their upper half up through the ceiling; in at the eaves to windward and to leeward; in at the
/// ridge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Up {
    pub(super) ceilings: [f64; 3],
    pub(super) low: [f64; 2],
    pub(super) high: f64,
}

/// Where to write what is followed: the first part's number among the attics of the season, air through all of them, and from one to another.
pub(super) struct Into<'a> {
    pub(super) first: usize,
    pub(super) flows: &'a mut [Through],
    pub(super) passing: &'a mut Vec<Passing>,
}

impl Bays {
    /// How much of a part lies in the lower half.
    fn lower(&self, part: usize) -> f64 {
        (self.parts.len() as f64 / 2.0 - part as f64).clamp(0.0, 1.0)
    }

    /// Share of the ceiling under the lower half.
    pub(super) fn low_share(&self) -> f64 {
        self.parts.iter().enumerate().map(|(part, share)| share * self.lower(part)).sum()
    }

    /// Temperatures of the zones of the network, by those of the parts: a column of air weighs by its mean.
    pub(super) fn zones(&self, parts: &[f64]) -> [f64; 3] {
        let half = self.parts.len() as f64 / 2.0;
        let weighed = |of: &dyn Fn(usize) -> f64| {
            parts.iter().enumerate().map(|(part, at)| at * of(part)).sum::<f64>() / half
        };
        let [low, high] = [weighed(&|part| self.lower(part)), weighed(&|part| 1.0 - self.lower(part))];
        [low, low, high]
    }

    /// Air past the parts from the eaves up, with what comes in at their foot from another attic, and what fans blow into them. It adds up in each part as it does in the network.
    pub(super) fn follow(&self, up: &Up, foot: [f64; 2], blown: f64, into: Into<'_>) {
        let Into { first, flows, passing } = into;
        let low_share = self.low_share();
        let mut sides = [0, 1].map(|side| up.low[side] + foot[side]);
        let last = self.parts.len() - 1;
        for (part, share) in self.parts.iter().copied().enumerate() {
            let low = share * self.lower(part);
            let of_zone = [(low, low_share), (low, low_share), (share - low, 1.0 - low_share)];
            let through = [0, 1, 2].map(|zone| {
                let (own, whole) = of_zone[zone];
                if own > 0.0 { up.ceilings[zone] * own / whole } else { 0.0 }
            });
            let of_rooms: f64 = through.iter().map(|flow| flow.max(0.0)).sum();
            let at_eaves = if part == 0 { up.low.iter().map(|flow| flow.max(0.0)).sum() } else { 0.0 };
            let at_ridge = if part == last { up.high.max(0.0) } else { 0.0 };
            flows[first + part] = Through { leak: of_rooms + blown * share, vent: at_eaves + at_ridge };
            for (side, through_own) in sides.iter_mut().zip(through) {
                *side += through_own + 0.5 * (through[2] + blown * share);
            }
            if part < last {
                let [from, to] = [first + part, first + part + 1];
                let flow = |way: f64| sides.iter().map(|side| (way * side).max(0.0)).sum();
                passing.push(Passing { from, to, flow: flow(1.0) });
                passing.push(Passing { from: to, to: from, flow: flow(-1.0) });
            }
        }
    }
}
