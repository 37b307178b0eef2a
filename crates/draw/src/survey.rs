//! What the job document says about a roof that its shape alone does not: what comes and goes, what is assumed.

use std::collections::BTreeMap;

use job::{Job, State};
use measure::Length;
use takeoff::{Assumed, Of};

use crate::notation::Basis;

/// The part of the job document that drawings need beside the roof.
///
/// The default knows nothing: all openings are there now, and all numbers are measured.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Survey {
    openings: BTreeMap<String, State>,
    /// Vertical depth of the roof edge by block.
    fascias: BTreeMap<String, Length>,
    assumed: Assumed,
}

impl Survey {
    /// Reads it off the job document; which figures rest on what nobody measured is judged already.
    pub fn of(job: &Job, assumed: Assumed) -> Self {
        let openings = job.openings.iter().map(|opening| (opening.name.clone(), opening.state)).collect();
        let fascias = job.blocks.iter().map(|block| (block.name.clone(), block.fascia.value)).collect();
        Self { openings, fascias, assumed }
    }

    /// Whether an opening is there, comes or goes.
    pub(crate) fn state(&self, opening: &str) -> State {
        self.openings.get(opening).copied().unwrap_or(State::Found)
    }

    /// What a figure rests on.
    pub(crate) fn basis(&self, of: Of) -> Basis {
        Basis::assumed_if(self.assumed.touches(of))
    }

    /// Vertical depth of the roof edge of a block; 6 in for one the job does not know.
    pub(crate) fn fascia(&self, block: &str) -> Length {
        self.fascias.get(block).copied().unwrap_or(Length::from_in(6.0))
    }
}
