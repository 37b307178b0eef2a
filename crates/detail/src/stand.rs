//! Layers to wet: the fewest failures that let water reach wood.
//!
//! # Formula
//! With the ways of water as a graph whose steps may need a layer or a fastener to have failed, the answer is the least set of failures whose
//! steps join water to wood: the minimal cut set of fault tree analysis, of least order. Sets are carried along the ways,
//! smallest first; at a slot, a set that holds one already there tells nothing new.
//! # Source
//! Minimal cut sets: NUREG-0492, Fault Tree Handbook, 1981, chapter VII (published, from memory). That layers count alike and
//! sealant not at all is a rule of this program.
//! # Checks
//! property: against reachability under every set of failures, `tests/every_detail.rs`.

use std::collections::BTreeSet;

use crate::attack::Attack;
use crate::reach::{Slot, Ways};
use crate::section::Section;

/// More than this many failures at once are not looked for.
pub const MOST_FAILURES: usize = 6;

/// Something that can fail by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Failure {
    /// A layer, by its number: holed, torn, worn through.
    Layer(usize),
    /// The fasteners of a layer, by its number.
    Fastener(usize),
}

/// How a section stands against one attack.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stand {
    /// The attack.
    pub attack: Attack,
    /// The fewest failures that let water reach wood; none where not even [`MOST_FAILURES`] together do.
    pub failures: Option<usize>,
    /// All sets of so many failures that do, in order; the empty set where it takes none.
    pub sets: Vec<BTreeSet<Failure>>,
}

/// A set of failures that brought water to each slot: none holds another.
type Known = Vec<Vec<BTreeSet<Failure>>>;

impl Stand {
    /// How a section stands against an attack; none where that cannot happen there.
    pub fn of(section: &Section<'_>, attack: Attack) -> Option<Self> {
        attack.happens(section).then(|| {
            let sets = least_sets(section, attack);
            Self { attack, failures: sets.first().map(BTreeSet::len), sets }
        })
    }

    /// How a section stands against every attack that can happen there.
    pub fn all(section: &Section<'_>) -> Vec<Self> {
        Attack::ALL.into_iter().filter_map(|attack| Self::of(section, attack)).collect()
    }
}

/// Whether water reaches wood once these have failed.
pub fn wets(section: &Section<'_>, attack: Attack, failed: &BTreeSet<Failure>) -> bool {
    let ways = Ways::of(section, attack);
    ways.wet(|failure| failed.contains(&failure)).into_iter().any(|slot| ways.is_wood(slot))
}

impl Failure {
    /// All that can fail in a section.
    pub fn all(section: &Section<'_>) -> Vec<Self> {
        let fixed = |layer: &usize| !section.sheets[*layer].fixings.is_empty();
        let layers = 0..section.sheets.len();
        layers.clone().map(Self::Layer).chain(layers.filter(fixed).map(Self::Fastener)).collect()
    }

    /// Its name for papers.
    pub fn name(self, section: &Section<'_>) -> String {
        match self {
            Self::Layer(layer) => section.sheets[layer].layer.id.clone(),
            Self::Fastener(layer) => format!("fasteners of {}", section.sheets[layer].layer.id),
        }
    }
}

fn least_sets(section: &Section<'_>, attack: Attack) -> Vec<BTreeSet<Failure>> {
    let ways = Ways::of(section, attack);
    let offsets = offsets(section);
    let number = |slot: Slot| offsets[slot.stretch] + slot.depth;
    let slots = section.stretches.iter().map(|stretch| stretch.layers.len() + 1).sum();
    let mut known: Known = vec![Vec::new(); slots];
    let mut rounds: Vec<Vec<(Slot, BTreeSet<Failure>)>> = vec![Vec::new(); MOST_FAILURES + 1];
    rounds[0] = ways.starts().into_iter().map(|slot| (slot, BTreeSet::new())).collect();
    for round in 0..rounds.len() {
        let mut found = BTreeSet::new();
        while let Some((slot, failed)) = rounds[round].pop() {
            if known[number(slot)].iter().any(|there| there.is_subset(&failed)) {
                continue;
            }
            if ways.is_wood(slot) {
                found.insert(failed.clone());
            }
            for step in ways.steps(slot) {
                let with: BTreeSet<Failure> = failed.iter().copied().chain(step.needs).collect();
                if let Some(round) = rounds.get_mut(with.len()) {
                    round.push((step.to, with));
                }
            }
            known[number(slot)].push(failed);
        }
        if !found.is_empty() {
            return found.into_iter().collect();
        }
    }
    Vec::new()
}

/// Number of the first slot of each stretch.
fn offsets(section: &Section<'_>) -> Vec<usize> {
    let sizes = section.stretches.iter().map(|stretch| stretch.layers.len() + 1);
    sizes.scan(0, |sum, size| Some(std::mem::replace(sum, *sum + size))).collect()
}
