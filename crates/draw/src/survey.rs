//! What the job document says about a roof that its shape alone does not: what comes and goes, what is assumed.

use std::collections::{BTreeMap, BTreeSet};

use job::{Basis as Origin, Block, EdgeSlope, Figure, Form, Job, Overhang, State};
use measure::Length;
use roof::Plane;

use crate::notation::Basis;

/// The part of the job document that drawings need beside the roof.
///
/// The default knows nothing: all openings are there now, and all numbers are measured.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Survey {
    openings: BTreeMap<String, State>,
    /// Blocks whose roof rests on an assumed pitch or overhang or, beside others, an assumed plate.
    assumed: BTreeSet<String>,
    /// Blocks with an assumed plate.
    plates: BTreeSet<String>,
    /// Vertical depth of the roof edge by block.
    fascias: BTreeMap<String, Length>,
}

impl Survey {
    /// Reads it off the job document.
    pub fn of(job: &Job) -> Self {
        let openings = job.openings.iter().map(|opening| (opening.name.clone(), opening.state)).collect();
        let fascias = job.blocks.iter().map(|block| (block.name.clone(), block.fascia.value)).collect();
        let on_assumed_plate =
            |block: &&Block| block.edges.iter().flatten().any(|edge| is_assumed(&edge.plate));
        let plates: BTreeSet<String> =
            job.blocks.iter().filter(on_assumed_plate).map(|block| block.name.clone()).collect();
        // a plate shapes the roof where several blocks meet; alone it only lifts it
        let assumed = if job.blocks.len() > 1 { plates.clone() } else { BTreeSet::new() };
        let mut survey = Self { openings, assumed, plates, fascias };
        // A block may take its overhang from another, which takes its own from a third.
        for _ in 0..job.blocks.len() {
            let more = job.blocks.iter().filter(|block| survey.rests_on_assumption(block));
            let more: BTreeSet<_> = more.map(|block| block.name.clone()).collect();
            survey.assumed.extend(more);
        }
        survey
    }

    /// Whether an opening is there, comes or goes.
    pub(crate) fn state(&self, opening: &str) -> State {
        self.openings.get(opening).copied().unwrap_or(State::Found)
    }

    /// Whether lengths and areas of a plane rest on an assumed pitch or overhang or, beside other blocks, an assumed plate.
    pub fn is_assumed(&self, plane: &Plane) -> bool {
        plane.blocks.iter().any(|block| self.assumed.contains(block))
    }

    /// Whether the heights of a plane rest on an assumption.
    pub fn is_height_assumed(&self, plane: &Plane) -> bool {
        self.is_assumed(plane) || plane.blocks.iter().any(|block| self.plates.contains(block))
    }

    /// What the numbers of a plane rest on.
    pub(crate) fn basis(&self, plane: &Plane) -> Basis {
        Basis::assumed_if(self.is_assumed(plane))
    }

    /// Vertical depth of the roof edge of a block; 6 in for one the job does not know.
    pub(crate) fn fascia(&self, block: &str) -> Length {
        self.fascias.get(block).copied().unwrap_or(Length::from_in(6.0))
    }

    fn rests_on_assumption(&self, block: &Block) -> bool {
        let edges = block.edges.iter().flatten();
        let is_edge_assumed = |edge: &job::BlockEdge| {
            let slope = matches!(&edge.slope, EdgeSlope::Pitch(pitch) if is_assumed(pitch));
            let overhang = match &edge.overhang {
                Overhang::Run(run) => is_assumed(run),
                Overhang::LevelWith { block, .. } => self.assumed.contains(block),
            };
            slope || overhang
        };
        edges.into_iter().any(is_edge_assumed) || is_form_assumed(&block.form)
    }
}

fn is_form_assumed(form: &Form) -> bool {
    match form {
        Form::Plain => false,
        Form::HalfHip { from, pitch } => is_assumed(from) || is_assumed(pitch),
        Form::HipSkirt { run, .. } => is_assumed(run),
        Form::Broken { run, upper } => is_assumed(run) || is_assumed(upper),
    }
}

fn is_assumed<T>(figure: &Figure<T>) -> bool {
    matches!(figure.basis, Origin::Assumed { .. })
}
