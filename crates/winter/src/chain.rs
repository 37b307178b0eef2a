//! Heat through nodes in a row, some of which melt or freeze.
//!
//! From the air below to the air above lie the deck, the interface at its top, the layers of snow on it and the surface. Each step is implicit; a node that
//! holds ice is no warmer than 0 °C and one that holds water no colder, until the ice is gone or the water frozen:
//!
//! - colder than 0: all its water freezes;
//! - at 0: as much melts or freezes as balances;
//! - warmer than 0: all its ice melts.
//!
//! Which of the three a node is in is found by trying: the system is that of a row of resistances, in which a node set right sets none wrong for good,
//! so that few passes do.

/// Most nodes in a row: deck, interface, layers of snow, surface.
pub(crate) const MOST: usize = 6;
/// Passes after which nodes stay as they are.
const PASSES: usize = 24;
/// What a phase may miss its end by, W/m²; a temperature 0 °C, K.
const TIE: f64 = 1e-9;

/// One node as it is before a step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Node {
    /// °C.
    pub(crate) temperature: f64,
    /// Heat it holds by the length of the step, W/(m²·K); 0 for an interface.
    pub(crate) stored: f64,
    /// To the next node above, W/(m²·K); of the last to the air.
    pub(crate) upward: f64,
    /// Heat from elsewhere, W/m².
    pub(crate) source: f64,
    /// Heat that would melt all its ice in the step, W/m².
    pub(crate) most_melt: f64,
    /// Heat that freezing all its water in the step would give, W/m².
    pub(crate) most_freeze: f64,
}

impl Node {
    /// Whether there is anything in it to melt or freeze.
    fn changes(&self) -> bool {
        self.most_melt > 0.0 || self.most_freeze > 0.0
    }
}

/// Where a node is in its change of phase.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Phase {
    #[default]
    Frozen,
    Mixed,
    Melted,
}

impl Phase {
    /// Heat into its melting, W/m²; none where that is what balances.
    const fn melt(self, node: &Node) -> Option<f64> {
        match self {
            Self::Frozen => Some(-node.most_freeze),
            Self::Melted => Some(node.most_melt),
            Self::Mixed => None,
        }
    }
}

/// What comes of a step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Step {
    /// By node, °C.
    pub(crate) temperatures: [f64; MOST],
    /// By node, W/m² into melting; freezing is negative.
    pub(crate) melts: [f64; MOST],
    /// Heat from below into the first node, W/m².
    pub(crate) from_below: f64,
    /// Heat from the last node into the air, W/m².
    pub(crate) to_above: f64,
    /// How the heat from below falls with each kelvin below, W/(m²·K).
    pub(crate) yielding: f64,
}

/// A row with its phases, eliminated from above downward: what other air below makes of it is soon told.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Row {
    phases: [Phase; MOST],
    /// Of each node: t = share · t below it + own; what it would get from above at 0 °C is the flux, W/m².
    shares: [f64; MOST],
    owns: [f64; MOST],
    fluxes: [f64; MOST],
    /// How the heat from below falls with each kelvin below, W/(m²·K).
    yielding: f64,
}

impl Row {
    /// One implicit step for nodes from below upward, between air `below` through a conductance and air `above`.
    pub(crate) fn step(&mut self, nodes: &[Node], below: (f64, f64), above: f64) -> Step {
        // where there is nothing to melt, nothing keeps it from being warm
        for (phase, node) in self.phases.iter_mut().zip(nodes) {
            *phase = if node.changes() { Phase::Frozen } else { Phase::Melted };
        }
        let mut pass = 0;
        loop {
            self.eliminate(nodes, below.1, above);
            let found = self.over(nodes, below, above);
            if pass == PASSES || !turned(&mut self.phases, nodes, &found) {
                return found;
            }
            pass += 1;
        }
    }

    /// The same row over other air below, where that leaves all phases as they are.
    pub(crate) fn again(&self, nodes: &[Node], below: (f64, f64), above: f64) -> Option<Step> {
        let found = self.over(nodes, below, above);
        let mut as_it_is = self.phases;
        (!turned(&mut as_it_is, nodes, &found)).then_some(found)
    }

    fn eliminate(&mut self, nodes: &[Node], inward: f64, above: f64) {
        // seen from below: heat that goes up into a node is `slope`·t below it − `flux`
        let last = &nodes[nodes.len() - 1];
        let (mut slope, mut flux) = (last.upward, last.upward * above);
        for (i, node) in nodes.iter().enumerate().rev() {
            let downward = if i == 0 { inward } else { nodes[i - 1].upward };
            self.fluxes[i] = flux;
            let Some(melt) = self.phases[i].melt(node) else {
                (self.shares[i], self.owns[i]) = (0.0, 0.0);
                (slope, flux) = (downward, 0.0);
                continue;
            };
            // stored·(t − t₀) + melt = downward·(t below − t) + flux − slope·t + source
            let held = node.stored + slope;
            let by = (downward + held).recip();
            let own = node.stored * node.temperature + flux + node.source - melt;
            (self.shares[i], self.owns[i]) = (downward * by, own * by);
            (slope, flux) = (self.shares[i] * held, self.shares[i] * own);
        }
        self.yielding = slope;
    }

    /// What air below makes of it, whether or not its phases hold.
    fn over(&self, nodes: &[Node], (below, inward): (f64, f64), above: f64) -> Step {
        let mut found = Step { yielding: self.yielding, ..Step::default() };
        let (mut under, mut downward) = (below, inward);
        for (i, node) in nodes.iter().enumerate() {
            let t = self.shares[i] * under + self.owns[i];
            let melt = self.phases[i].melt(node).unwrap_or_else(|| {
                downward * under + self.fluxes[i] + node.source + node.stored * node.temperature
            });
            (found.temperatures[i], found.melts[i]) = (t, melt);
            (under, downward) = (t, node.upward);
        }
        found.from_below = inward * (below - found.temperatures[0]);
        found.to_above = downward * (under - above);
        found
    }
}

/// Turns phases into those that what was found asks for; whether any was turned.
fn turned(phases: &mut [Phase; MOST], nodes: &[Node], found: &Step) -> bool {
    let mut is_turned = false;
    for (i, node) in nodes.iter().enumerate().filter(|(_, node)| node.changes()) {
        let (t, melt) = (found.temperatures[i], found.melts[i]);
        let next = match phases[i] {
            Phase::Frozen if t > TIE => Phase::Mixed,
            Phase::Melted if t < -TIE => Phase::Mixed,
            Phase::Mixed if melt < -node.most_freeze - TIE => Phase::Frozen,
            Phase::Mixed if melt > node.most_melt + TIE => Phase::Melted,
            same => same,
        };
        is_turned |= next != phases[i];
        phases[i] = next;
    }
    is_turned
}

#[cfg(test)]
mod tests {
    use rand::rngs::ChaCha8Rng;
    use rand::{RngExt, SeedableRng};

    use super::*;

    fn step(nodes: &[Node], below: (f64, f64), above: f64) -> Step {
        Row::default().step(nodes, below, above)
    }

    /// Deck 14 000 J/(m²·K) and 9 W/(m²·K) from 0 to −10 °C, two steps of 900 s: −5.987 °C by implicit Euler (worked by hand: 10·(1 − 1/(1 + 9·900/14000)²)).
    #[test]
    fn a_deck_cools_by_implicit_steps() {
        let mut deck = Node { stored: 14_000.0 / 900.0, upward: 9.0, ..Node::default() };
        for _ in 0..2 {
            deck.temperature = step(&[deck], (0.0, 0.0), -10.0).temperatures[0];
        }
        assert!((deck.temperature + 5.987).abs() < 1e-3, "{}", deck.temperature);
    }

    /// Deck, interface, snow of 75 kg/m² and surface through 48 hours (computed with a prototype written apart from this code): temperatures to 0.002 K,
    /// what melts or freezes to 0.2 %.
    #[test]
    fn strips_of_a_roof_come_to_what_a_prototype_found() {
        // below °C and m²·K/W, water offered each hour, hours; deck, interface, snow, surface °C; melted, frozen kg/m²
        type Case = ([f64; 3], u32, [f64; 4], [f64; 2]);
        let cases: [Case; 5] = [
            ([2.0, 0.107, 0.0], 1, [-1.45387, -1.77511, -4.93637, -5.53605], [0.0, 0.0]),
            ([2.0, 0.107, 0.0], 48, [0.636_054, 0.0, -2.96817, -5.4739], [1.43276, 0.0]),
            ([-1.0, 0.107, 0.0], 48, [-1.45604, -1.66818, -3.75579, -5.49877], [0.0, 0.0]),
            ([-5.5556, 0.307, 1.0], 48, [-1.05152, 0.0, -2.96243, -5.47372], [0.0, 7.9883]),
            ([-5.5556, 0.307, 0.05], 48, [-4.10534, -3.76651, -4.69473, -5.52842], [0.0, 2.4]),
        ];
        let (fusion, hour, mass, half_deck) = (333_550.0, 3600.0, 75.0, 0.187 / 2.0);
        let half_snow = 0.3 / 0.163_024 / 2.0;
        for ([below, film, water], hours, wanted, phases) in cases {
            let ice = fusion * mass / hour;
            let mut nodes = [
                Node {
                    temperature: -5.0,
                    stored: 14_000.0 / hour,
                    upward: 1.0 / half_deck,
                    ..Node::default()
                },
                Node {
                    upward: 1.0 / half_snow,
                    most_melt: ice,
                    most_freeze: fusion * water / hour,
                    ..Node::default()
                },
                Node {
                    temperature: -5.0,
                    stored: 2100.0 * mass / hour,
                    upward: 1.0 / half_snow,
                    most_melt: ice,
                    ..Node::default()
                },
                Node { upward: 1.0 / 0.03, most_melt: ice, ..Node::default() },
            ];
            let mut sums = [0.0; 2];
            for _ in 0..hours {
                let found = step(&nodes, (below, 1.0 / (film + half_deck)), -5.5556);
                nodes.iter_mut().zip(found.temperatures).for_each(|(node, t)| node.temperature = t);
                let kg = found.melts[1] * hour / fusion;
                sums[usize::from(kg < 0.0)] += kg.abs();
            }
            for (node, wanted) in nodes.iter().zip(wanted) {
                assert!((node.temperature - wanted).abs() < 0.002, "{nodes:?}");
            }
            for (sum, wanted) in sums.iter().zip(phases) {
                assert!((sum - wanted).abs() <= 0.002 * wanted, "{sum} for {wanted}");
            }
        }
    }

    /// Resistances in series, m²·K/W, under air at 21.1 °C and over air at some: the interface while nothing melts, °C, heat that melts once ice lies there, W/m²,
    /// and melt in a day, kg/m² (closed form; to 0.1 %).
    #[test]
    fn an_interface_melts_where_series_says_it_would_be_warm() {
        let cases: [([f64; 3], [f64; 3]); 3] = [
            ([2.0, 1.0, -5.5556], [3.3296, 4.9944, 1.2937]),
            ([4.0, 2.0, -15.0], [-2.9667, 0.0, 0.0]),
            ([1.0, 1.0, 0.5], [10.8, 21.6, 5.5951]),
        ];
        for ([below, above, outdoors], [dry, melt, day]) in cases {
            let node = |most_melt: f64| Node { upward: 1.0 / above, most_melt, ..Node::default() };
            let of = |most_melt| step(&[node(most_melt)], (21.1, 1.0 / below), outdoors);
            assert!((of(0.0).temperatures[0] - dry).abs() <= 1e-3 * f64::abs(dry));
            let found = of(1e4).melts[0];
            assert!((found - melt).abs() <= 1e-3 * melt + 1e-9, "{found} for {melt}");
            assert!((found * 86_400.0 / 333_550.0 - day).abs() <= 1e-3 * day + 1e-9);
        }
    }

    /// Snow that just brings an interface to 32 °F, by R below and °F outdoors, rooms at 70 °F: R·(32 − t)/(70 − 32) (series, closed form; to 0.01 %).
    #[test]
    fn snow_that_brings_an_interface_to_freezing() {
        for (below, outdoors, snow) in [
            (11.0, 22.0, 2.8947),
            (19.0, 22.0, 5.0),
            (30.0, 22.0, 7.8947),
            (38.0, 22.0, 10.0),
            (49.0, 22.0, 12.895),
            (60.0, 22.0, 15.789),
            (30.0, 10.0, 17.368),
            (30.0, 0.0, 25.263),
        ] {
            let celsius = |f: f64| (f - 32.0) / 1.8;
            let at = |snow: f64| {
                let node = Node { upward: 1.0 / snow, ..Node::default() };
                step(&[node], (celsius(70.0), 1.0 / below), celsius(outdoors)).temperatures[0]
            };
            assert!(
                at(snow * (1.0 - 1e-4)) < 0.0 && at(snow * (1.0 + 1e-4)) > 0.0,
                "R-{below}, {outdoors} °F"
            );
        }
    }

    /// Water on an overhang between 2.0 m²·K/W of snow and 0.494 of deck and film, −5.5556 °C on both sides: 14.024 W/m², 3.6326 kg/m² a day (closed form; 0.1 %).
    #[test]
    fn water_on_an_overhang_freezes_to_both_sides() {
        let node = Node { upward: 1.0 / 2.0, most_freeze: 1e4, ..Node::default() };
        let found = -step(&[node], (-5.5556, 1.0 / 0.494), -5.5556).melts[0];
        assert!((found / 14.024 - 1.0).abs() < 1e-3, "{found}");
        assert!((found * 86_400.0 / 333_550.0 / 3.6326 - 1.0).abs() < 1e-3);
    }

    /// Heat in and out, stored and melted balance, whatever the phases come to.
    #[test]
    fn heat_balances_in_every_row() {
        let mut rng = ChaCha8Rng::seed_from_u64(7);
        let mut again_told = 0;
        for _ in 0..20_000 {
            let nodes: Vec<Node> = (0..rng.random_range(2..MOST))
                .map(|_| Node {
                    temperature: rng.random_range(-20.0..0.0),
                    stored: if rng.random_bool(0.3) { 0.0 } else { rng.random_range(0.0..2e5) / 3600.0 },
                    upward: rng.random_range(0.1..20.1),
                    source: if rng.random_bool(0.5) { 0.0 } else { rng.random_range(0.0..300.0) },
                    most_melt: if rng.random_bool(0.3) { 0.0 } else { rng.random_range(0.0..400.0) },
                    most_freeze: if rng.random_bool(0.5) { 0.0 } else { rng.random_range(0.0..100.0) },
                })
                .collect();
            let (below, above) = (rng.random_range(-15.0..25.0), rng.random_range(-30.0..10.0));
            let inward = rng.random_range(0.0..5.0);
            let mut row = Row::default();
            let found = row.step(&nodes, (below, inward), above);
            let stored: f64 =
                nodes.iter().zip(found.temperatures).map(|(n, t)| n.stored * (t - n.temperature)).sum();
            let melted: f64 = found.melts.iter().sum();
            let source: f64 = nodes.iter().map(|node| node.source).sum();
            let left = found.from_below + source - found.to_above - stored - melted;
            assert!(left.abs() < 1e-7, "{left}: {nodes:?}");
            for (i, node) in nodes.iter().enumerate() {
                let (t, melt) = (found.temperatures[i], found.melts[i]);
                let changes = node.most_melt > 0.0 || node.most_freeze > 0.0;
                if changes {
                    assert!(melt >= -node.most_freeze - 1e-6 && melt <= node.most_melt + 1e-6);
                    // ice is left: not warm; water is left: not cold
                    assert!(melt >= node.most_melt - 1e-6 || t <= 1e-6, "{i}: {t} {melt} {node:?}");
                    assert!(melt <= -node.most_freeze + 1e-6 || t >= -1e-6, "{i}: {t} {melt} {node:?}");
                }
            }
            // what is yielded to the air below is the slope of the heat from it, as long as no phase changes
            let warmer = step(&nodes, (below + 1e-6, inward), above);
            let slope = (warmer.from_below - found.from_below) / 1e-6;
            assert!((slope - found.yielding).abs() < 1e-3, "{slope} {}", found.yielding);
            // the same row over other air is what it is reckoned anew, unless phases change
            let other = (below + rng.random_range(-2.0..2.0), inward);
            let mut own = Row::default();
            let anew = own.step(&nodes, other, above);
            if let Some(again) = row.again(&nodes, other, above) {
                again_told += 1;
                assert!(own.phases != row.phases || again == anew, "{again:?} {anew:?}");
                let off = |of: fn(&Step) -> f64| (of(&again) - of(&anew)).abs();
                assert!(off(|step| step.from_below).max(off(|step| step.to_above)) < 1e-6, "{nodes:?}");
            }
        }
        assert!(again_told > 10_000, "{again_told}");
    }
}
