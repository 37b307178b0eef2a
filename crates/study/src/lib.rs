//! One job in, all results out.
//!
//! [`Study::of`] is the one entry: the job with its readings adjusted, its roof, water, details and takeoff, what was assumed and what a person
//! should look at. `network` (the unknowns of a house) · `observe` (what was read, as equations; `height` has those of roofs, `term`
//! differentiates them) · `solve` (least squares; `chance`) · `adjust` (which reading does not fit) · `tell` (in words).
//! Then [`code`]: what the adopted edition asks of the house; [`winter`]: the ice it makes; [`diagnosis`]: why it shows what its owner saw.
//!
//! Invariant: without spare readings the job is studied as written, to the last digit.

mod adjust;
mod chance;
pub mod code;
pub mod diagnosis;
mod figure;
pub mod heat;
mod height;
mod network;
mod normal;
mod observe;
mod solve;
mod tell;
mod term;
mod value;
mod wary;
pub mod winter;

use book::{Book, LookupError};
use code::CodeSheet;
use detail::Details;
use heat::LookedAt;
use job::{Assumption, Job, Problem};
use roof::Roof;
use takeoff::{Dimension, Takeoff};
use water::{Drainage, GutterNeed, Water};

pub use adjust::{Accused, Adjustment, CRITICAL, Fit, Judged, Suspect, TOO_UNLIKELY};
pub use observe::Origin;
pub use value::Value;

use crate::network::Network;
use crate::solve::System;

/// Everything that follows from a job.
#[derive(Clone, Debug, PartialEq)]
pub struct Study {
    /// The job, its blocks as adjusted.
    pub job: Job,
    /// The measured roof.
    pub roof: Roof,
    /// Where its water goes.
    pub water: Water,
    /// What gutter and downspouts each eave needs.
    pub gutters: Vec<GutterNeed>,
    /// The gutters that hang when the job is done, and the water with them.
    pub drainage: Drainage,
    /// What stands between water and wood.
    pub details: Details,
    /// What it takes.
    pub takeoff: Takeoff,
    /// What the details measure on this house, in the order of their places.
    pub dimensions: Vec<Vec<Dimension>>,
    /// What the adopted edition asks of it.
    pub code: CodeSheet,
    /// Shares of the hours its fans run, in the order of the job.
    pub fan_hours: Vec<f64>,
    /// What a winter takes of decks, ground and attics that no survey has.
    pub taken: winter::Taken,
    /// How snow lies on its roof.
    pub snow: winter::OnRoof,
    /// What stands between rooms and roof besides field and vents.
    pub envelope: heat::Envelope,
    /// What was made of spare readings; none where there are none.
    pub adjustment: Option<Adjustment>,
    /// What the books filled in.
    pub assumptions: Vec<Assumption>,
    /// What a person should look at.
    pub warnings: Vec<Problem>,
}

impl Study {
    /// Studies a job.
    ///
    /// # Errors
    /// Every [`Problem`] that keeps the job from having a roof and a takeoff, and the warnings about its readings with them, since
    /// those may well be the cause.
    pub fn of(job: &Job, book: &Book) -> Result<Self, Vec<Problem>> {
        let Adjusted { job, adjustment, mut warnings } = Adjusted::of(job, book)?;
        let roof = Roof::of(&job, book).map_err(|problems| [problems, warnings.clone()].concat())?;
        let water = Water::of(&roof);
        let lost = |lost: LookupError| [vec![Problem::not_in_books(&lost)], warnings.clone()].concat();
        let gutters = water::gutters(&roof, &water, job.site.rain.value, book).map_err(lost)?;
        let hung = water::hang(&roof, &job.gutters, job.units)
            .map_err(|problems| [problems, warnings.clone()].concat())?;
        let drainage = Drainage::of(&roof, &hung, &[], job.site.rain.value, book).map_err(lost)?;
        let details = Details::of(&roof, &job, book).map_err(lost)?;
        if details.problems.iter().any(Problem::is_error) {
            return Err([details.problems, warnings].concat());
        }
        let takeoff = Takeoff::of(&roof, &job, book).map_err(lost)?;
        let dimensions =
            takeoff::dimensions(&details, &takeoff, &drainage, &roof, &job, book).map_err(lost)?;
        let code = CodeSheet::of(&roof, &details, &takeoff, &job, book).map_err(lost)?;
        let snow = winter::OnRoof::of(&job, book).map_err(lost)?;
        let taken = winter::Taken::of(book).map_err(lost)?;
        let fan_hours = winter::fans::shares(&job, book).map_err(lost)?;
        let LookedAt { warnings: of_heat, envelope } =
            heat::looked_at((&job, book), &roof, &takeoff).map_err(lost)?;
        warnings.extend(
            roof.warnings.iter().chain(&details.problems).chain(&takeoff.warnings).chain(&of_heat).cloned(),
        );
        warnings.extend(wary::metal_sheds(&job, &roof, &water));
        let assumptions = job.assumptions.clone();
        Ok(Self {
            job,
            roof,
            water,
            gutters,
            drainage,
            details,
            takeoff,
            dimensions,
            code,
            fan_hours,
            taken,
            snow,
            envelope,
            adjustment,
            assumptions,
            warnings,
        })
    }
}

/// A job with its readings adjusted.
#[derive(Clone, Debug, PartialEq)]
pub struct Adjusted {
    /// The job, its blocks as adjusted.
    pub job: Job,
    /// What was made of spare readings; none where there are none.
    pub adjustment: Option<Adjustment>,
    /// Readings that do not fit or say nothing.
    pub warnings: Vec<Problem>,
}

impl Adjusted {
    /// Adjusts the blocks of a job to all that was read.
    ///
    /// # Errors
    /// Readings that no house fits, and rows the books do not have.
    pub fn of(job: &Job, book: &Book) -> Result<Self, Vec<Problem>> {
        let network = Network::of(&job.blocks);
        let observed = observe::observations(job, book, &network);
        let (observations, mut warnings) = observed.map_err(|lost| vec![Problem::not_in_books(&lost)])?;
        if !observations.iter().any(|observation| observation.origin == Origin::Spare) {
            return Ok(Self { job: job.clone(), adjustment: None, warnings });
        }
        let system =
            System { observations: &observations, start: network.start(), pitches: network.pitches() };
        let contradiction = |_| [vec![tell::contradiction(&observations)], warnings.clone()].concat();
        let (adjustment, values) = adjust::adjust(&system).map_err(contradiction)?;
        warnings.extend(tell::warnings(&adjustment, job.units));
        if !network.is_sound(&job.blocks, &values) {
            return Err([vec![tell::contradiction(&observations)], warnings].concat());
        }
        let blocks = network.adjusted(&job.blocks, &values);
        Ok(Self { job: Job { blocks, ..job.clone() }, adjustment: Some(adjustment), warnings })
    }
}
