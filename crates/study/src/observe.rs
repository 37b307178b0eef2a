//! Observations: everything that was read off a tape or a gauge, each with its equation in the unknowns.
//!
//! From the blocks:
//! - a rectangle's size along its x and along its y, each a run between two wall lines; of an outline, the runs of its edges,
//!   one after the other, those left out that follow from the ones before;
//! - a block's place along each axis of the house, as a run from the datum, unless one of its walls lies in line with a wall of a
//!   block before it: then it was placed by that wall, and nothing more was taped;
//! - each plate, pitch, overhang and figure of a form, once for each time it is written.
//!
//! Their spread is that of a tape or a pitch gauge in the books (`spread.tape`, `spread.pitch.gauge`). A figure that was left
//! unknown enters once with the value and the spread of its default, that of a tape or gauge where the books give none. Spare
//! readings come with their own spread; see [`reading`].

mod reading;
mod runs;

use book::{Book, LookupError};
use job::{Block, Job, Problem, Span};
use measure::{Length, Pitch};

use crate::figure::{self, Written};
use crate::height::{Eave, Rafter, Ridge, distance};
use crate::network::{Corner, Network, Place};
use crate::term::Term;
use crate::value::Value;

/// Where an observation comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// A figure of a block.
    Block,
    /// A default of the books that stands in for a figure of a block.
    Assumed,
    /// A spare reading.
    Spare,
}

/// What an observation says of the unknowns.
#[derive(Clone, Debug)]
pub(crate) enum Equation {
    /// A number itself.
    Number(Place),
    /// From one line to a parallel one.
    Run([Place; 2]),
    /// From corner to corner.
    Distance([Corner; 2]),
    /// Height of a roof edge.
    Eave(Eave),
    /// Height of a ridge.
    Ridge(Ridge),
    /// Length of a rafter.
    Rafter(Rafter),
}

impl Equation {
    pub(crate) fn at(&self, values: &[f64]) -> Term {
        match self {
            Self::Number(place) => place.term(values),
            Self::Run([from, to]) => to.term(values) - from.term(values),
            Self::Distance(corners) => distance(*corners, values),
            Self::Eave(eave) => eave.height(values),
            Self::Ridge(ridge) => ridge.height(values),
            Self::Rafter(rafter) => rafter.length(values),
        }
    }
}

/// One thing read, with its equation.
#[derive(Clone, Debug)]
pub(crate) struct Observation {
    pub(crate) name: String,
    pub(crate) span: Span,
    pub(crate) origin: Origin,
    pub(crate) equation: Equation,
    pub(crate) read: Value,
    pub(crate) spread: Value,
}

impl Observation {
    /// The unknown of which this is the pitch as written in a block, if it is one.
    pub(crate) fn pitch(&self) -> Option<usize> {
        match (self.origin, &self.equation, self.read) {
            (Origin::Block, Equation::Number(place), Value::Pitch(_)) => place.unknown(),
            _ => None,
        }
    }

    /// The same, so much surer that nothing moves it if it is a pitch that was read.
    pub(crate) fn stiff_if_pitch(&self) -> Self {
        let part = if self.pitch().is_some() { STIFF } else { 1.0 };
        Self { spread: self.spread.with_si(self.spread.si() * part), ..self.clone() }
    }
}

/// Part of its spread at which a reading gives way to no other, and the numbers are still good to ten digits.
const STIFF: f64 = 1e-4;

/// Spreads of a tape and of a pitch gauge.
struct Spreads {
    tape: Value,
    gauge: Value,
}

impl Spreads {
    fn of(book: &Book) -> Result<Self, LookupError> {
        let tape: Length = book.rule("spread.tape")?.get()?;
        let gauge: Pitch = book.rule("spread.pitch.gauge")?.get()?;
        Ok(Self { tape: Value::Length(tape), gauge: Value::Pitch(gauge) })
    }

    fn like(&self, value: Value) -> Value {
        match value {
            Value::Length(_) => self.tape,
            Value::Pitch(_) => self.gauge,
        }
    }
}

/// All observations of a job, spare readings last, and a warning for each spare reading that has no equation.
///
/// # Errors
/// A spread that the books do not have.
pub(crate) fn observations(
    job: &Job,
    book: &Book,
    network: &Network,
) -> Result<(Vec<Observation>, Vec<Problem>), LookupError> {
    let spreads = Spreads::of(book)?;
    let mut all = runs::observations(&job.blocks, network, spreads.tape);
    all.extend(written(&job.blocks, book, network, &spreads));
    let start = network.start();
    let mut unused = Vec::new();
    for reading in &job.readings {
        match reading::observation(reading, &job.blocks, network, &start) {
            Ok(observation) => all.push(observation),
            Err(problem) => unused.push(problem),
        }
    }
    Ok((all, unused))
}

/// Plates, pitches and the other figures of the blocks.
fn written(blocks: &[Block], book: &Book, network: &Network, spreads: &Spreads) -> Vec<Observation> {
    let mut all = Vec::new();
    let mut seen: Vec<Written> = Vec::new();
    for block in blocks {
        for figure in figure::figures(block).into_iter().filter(Written::is_free) {
            if !seen.iter().any(|known| is_once_written(known, &figure)) {
                all.push(of_figure(&figure, block, book, network, spreads));
                seen.push(figure);
            }
        }
    }
    all
}

/// Whether two figures are one thing written once, or one default assumed once.
fn is_once_written(one: &Written, other: &Written) -> bool {
    let same = one.kind == other.kind && one.value == other.value;
    same && one.basis == other.basis && (one.span == other.span || one.assumed().is_some())
}

fn of_figure(
    figure: &Written,
    block: &Block,
    book: &Book,
    network: &Network,
    spreads: &Spreads,
) -> Observation {
    let assumed = figure.assumed().is_some();
    let spread = figure.assumed_spread(book).unwrap_or_else(|| spreads.like(figure.value));
    let name = format!("{} of {}", figure.kind.word(), block.name);
    Observation {
        name: if assumed { format!("assumed {name}") } else { name },
        span: figure.span.clone(),
        origin: if assumed { Origin::Assumed } else { Origin::Block },
        equation: Equation::Number(network.place(figure.kind, figure.value.si())),
        read: figure.value,
        spread,
    }
}
