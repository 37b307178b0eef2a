//! Spare measurements: what fits all readings best, and which reading does not fit.
//!
//! # Method
//! 1. All observations are adjusted by weighted least squares ([`crate::solve`]).
//! 2. If any standardised residual is over 3.29, the observation with the largest is the first suspect (data snooping).
//! 3. Others whose removal would leave nearly as good a fit cannot be told apart from it and are its rivals: removing an
//!    observation lowers chi-square by the square of its standardised residual, and a rival is one that lowers it by no more than 3.84
//!    less, so that the odds between the two are under 7 to 1.
//! 4. One observation is left out: the suspect, unless it has rivals; then, of suspect and rivals, the spare reading most at
//!    odds, the one written last of equals, so that the document stands until readings clearly speak against it.
//! 5. The rest is adjusted anew, and again from 2 until nothing is suspect. Both fits are kept: with all and with what was left.
//! 6. Roofs are framed to whole pitches, and a clause that begins at 4/12 must not turn on a hundredth. So the last fit is tried once more
//!    with every pitch as it was read, and stands if that raises chi-square by no more than its 1 % point with as many degrees of freedom as
//!    there are pitches (likelihood ratio).
//!
//! What a suspect would have to read comes from a fit without it.
//! # Source
//! Baarda, A testing procedure for use in geodetic networks, 1968: one test per observation, two-sided at 0.1 %, critical value
//! 3.29 (published, from memory). Test of all readings together: chi-square against its 1 % point, common practice. The
//! test of rivals is the likelihood ratio with the 95 % point of chi-square with one degree of freedom, 3.841 (published, from memory).
//! # Limits
//! - A slip in an observation with little redundancy shows little: with r = 0.1 a tape that reads to 1/2 in can be off by 5 in
//!   before it is named, and what no other reading sees is never named.
//! - One misfit of readings that all see the same thing, such as two sizes and a diagonal, cannot be laid at the door of one.
//! - A size written down wrong may leave walls apart that should touch; the roof then refuses them, and the warning beside it
//!   says what the size would have to be.
//! - Two slips at once can hide each other or point at a third reading.
//! - Spreads are taken as given; if they are too small, sound readings become suspects.

use job::Span;

use crate::chance;
use crate::observe::{Observation, Origin};
use crate::solve::{NoFit, Solution, System};
use crate::value::Value;

/// Standardised residual over which an observation is suspect (0.1 %, two-sided).
pub const CRITICAL: f64 = 3.29;
/// Chance under which all readings together disagree too much.
pub const TOO_UNLIKELY: f64 = 0.01;
/// Difference in chi-square under which two suspects cannot be told apart.
const RIVAL: f64 = 3.841;
/// Suspects closer than this in chi-square are equals.
const EQUAL: f64 = 1e-6;

/// What was made of the readings of a job.
#[derive(Clone, Debug, PartialEq)]
pub struct Adjustment {
    /// With all readings.
    pub whole: Fit,
    /// What disagrees, first suspect first; empty when all readings agree.
    pub suspects: Vec<Suspect>,
    /// Without what was left out; this is what the roof stands on.
    pub settled: Fit,
}

/// Readings as fitted.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// What was read, in the order of the document, spare readings last.
    pub readings: Vec<Judged>,
    /// Readings over unknowns.
    pub degrees_of_freedom: usize,
    /// Sum of squared residuals over squared spreads.
    pub chi_square: f64,
    /// Probability that sound readings of these spreads disagree more.
    pub chance: f64,
}

/// One thing read, and what the fit makes of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// What was read, in words.
    pub name: String,
    /// Where it stands in the document; of walls, the name of their block.
    pub span: Span,
    /// Where it comes from.
    pub origin: Origin,
    /// As read.
    pub read: Value,
    /// One standard deviation.
    pub spread: Value,
    /// As fitted.
    pub adjusted: Value,
    /// Read less fitted.
    pub residual: Value,
    /// From 0, nothing checks it, to 1, the others say it all.
    pub redundancy: f64,
    /// Residual over its own standard deviation; none where hardly anything checks the reading, or it was left out.
    pub standardized: Option<f64>,
    /// Whether it was left out of the fit.
    pub left_out: bool,
}

/// A reading that disagrees with the others.
#[derive(Clone, Debug, PartialEq)]
pub struct Suspect {
    /// The most suspect reading.
    pub first: Accused,
    /// Readings that cannot be told apart from it.
    pub rivals: Vec<Accused>,
    /// Which was left out, by its place in [`Fit::readings`].
    pub left_out: usize,
}

/// A reading and what would acquit it.
#[derive(Clone, Debug, PartialEq)]
pub struct Accused {
    /// Place in [`Fit::readings`].
    pub reading: usize,
    /// What it would have to read to agree with all others.
    pub would_be: Value,
    /// Its standardised residual.
    pub standardized: f64,
}

/// Adjusts, leaving out what does not fit; also gives the unknowns.
///
/// # Errors
/// [`NoFit`] when not even what is left can be fitted.
pub(crate) fn adjust(system: &System<'_>) -> Result<(Adjustment, Vec<f64>), NoFit> {
    let mut kept = vec![true; system.observations.len()];
    let all = best(system, &kept)?;
    let whole = fit(system.observations, &all, &kept);
    let mut suspects = Vec::new();
    let mut last = all;
    while let Some(suspect) = first_suspect(system, &last, &kept) {
        kept[suspect.left_out] = false;
        suspects.push(suspect);
        last = best(system, &kept)?;
    }
    let last = system.solve(&kept)?;
    let last = as_framed(system, &last, &kept).unwrap_or(last);
    let settled = fit(system.observations, &last, &kept);
    Ok((Adjustment { whole, suspects, settled }, last.values))
}

/// The fit with every pitch as it was read, unless the other readings speak against it; none where no pitch was read.
fn as_framed(system: &System<'_>, free: &Solution, kept: &[bool]) -> Option<Solution> {
    let read = |observation: &Observation| Some((observation.pitch()?, observation.read.si()));
    let observed = system.observations.iter().zip(kept).filter(|(_, kept)| **kept);
    let pitches: Vec<(usize, f64)> = observed.filter_map(|(observation, _)| read(observation)).collect();
    if pitches.is_empty() {
        return None;
    }
    let stiff: Vec<Observation> = system.observations.iter().map(Observation::stiff_if_pitch).collect();
    let start = free.values.clone();
    let mut held =
        System { observations: &stiff, start, pitches: system.pitches.clone() }.solve(kept).ok()?;
    if chance::of_more(held.chi_square - free.chi_square, pitches.len()) < TOO_UNLIKELY {
        return None;
    }
    for (unknown, read) in pitches {
        held.values[unknown] = read; // what is left of the difference is rounding
    }
    Some(held)
}

/// The best fit, or where there is none the first step towards it.
fn best(system: &System<'_>, kept: &[bool]) -> Result<Solution, NoFit> {
    system.solve(kept).or_else(|NoFit| system.first_step(kept))
}

fn fit(observations: &[Observation], solution: &Solution, kept: &[bool]) -> Fit {
    let judged = |(row, observation): (usize, &Observation)| {
        let residual = solution.residuals[row];
        Judged {
            name: observation.name.clone(),
            span: observation.span.clone(),
            origin: observation.origin,
            read: observation.read,
            spread: observation.spread,
            adjusted: observation.read.with_si(observation.read.si() - residual),
            residual: observation.read.with_si(residual),
            redundancy: solution.redundancies[row],
            standardized: solution.standardized[row],
            left_out: !kept[row],
        }
    };
    Fit {
        readings: observations.iter().enumerate().map(judged).collect(),
        degrees_of_freedom: solution.freedom,
        chi_square: solution.chi_square,
        chance: solution.chance(),
    }
}

/// The observation most at odds with the others, if any is over the critical value.
fn first_suspect(system: &System<'_>, solution: &Solution, kept: &[bool]) -> Option<Suspect> {
    let tested = |row: usize| Some((row, solution.standardized[row]?));
    let mut suspects: Vec<(usize, f64)> = (0..kept.len()).filter_map(tested).collect();
    let worst = suspects.iter().map(|(_, standardized)| standardized.abs()).reduce(f64::max)?;
    if worst <= CRITICAL {
        return None;
    }
    suspects.retain(|(_, standardized)| worst.powi(2) - standardized.powi(2) < RIVAL);
    let left_out = left_out(&suspects, system.observations);
    let first = suspects.iter().position(|(_, standardized)| standardized.abs() >= worst)?;
    let (first, first_standardized) = suspects.remove(first);
    let accuse = |(reading, standardized)| Accused {
        reading,
        would_be: without(system, solution, kept, reading),
        standardized,
    };
    Some(Suspect {
        first: accuse((first, first_standardized)),
        rivals: suspects.into_iter().map(accuse).collect(),
        left_out: left_out.unwrap_or(first),
    })
}

/// What the others say a reading should be; where they have no fit, what it would be if nothing bent: the reading less v / r.
fn without(system: &System<'_>, solution: &Solution, kept: &[bool], reading: usize) -> Value {
    let others: Vec<bool> = kept.iter().enumerate().map(|(row, kept)| *kept && row != reading).collect();
    let straight = solution.residuals[reading] / solution.redundancies[reading];
    let off = system.solve(&others).map_or(straight, |others| others.residuals[reading]);
    let read = system.observations[reading].read;
    read.with_si(read.si() - off)
}

/// Of several suspects with their standardised residuals, the spare reading most at odds, the last of equals.
fn left_out(suspects: &[(usize, f64)], observations: &[Observation]) -> Option<usize> {
    if suspects.len() == 1 {
        return None;
    }
    let spare = suspects.iter().filter(|(row, _)| observations[*row].origin == Origin::Spare);
    let worse_or_later = |most: f64, next: f64| next.powi(2) > most.powi(2) - EQUAL;
    spare.reduce(|most, next| if worse_or_later(most.1, next.1) { next } else { most }).map(|(row, _)| *row)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::network::Place;
    use crate::observe::Equation;
    use crate::solve::tests::{observation, system};

    const A: Place = Place::Unknown(0);

    fn adjusted(observations: &[Observation]) -> Adjustment {
        adjust(&system(observations, &[12.0])).expect("a fit").0
    }

    fn lengths(read: &[f64]) -> Vec<Observation> {
        read.iter().map(|read| observation(Equation::Number(A), *read, 0.1)).collect()
    }

    #[test]
    fn readings_within_their_spread_leave_no_suspect() {
        let adjustment = adjusted(&lengths(&[12.0, 12.1, 11.9]));
        assert_eq!(adjustment.suspects, []);
        assert_eq!(adjustment.settled, adjustment.whole);
        assert!(adjustment.whole.chance > 0.3);
    }

    #[test]
    fn one_reading_of_four_that_is_off_is_named_and_left_out() {
        let adjustment = adjusted(&lengths(&[12.0, 12.0, 13.0, 12.0]));
        let [suspect] = adjustment.suspects.as_slice() else { panic!("{:?}", adjustment.suspects) };
        assert_eq!((suspect.first.reading, suspect.left_out, suspect.rivals.len()), (2, 2, 0));
        assert!((suspect.first.would_be.si() - 12.0).abs() < 1e-9);
        let settled = &adjustment.settled.readings[2];
        assert!(
            settled.left_out && (settled.residual.si() - 1.0).abs() < 1e-9 && settled.standardized.is_none()
        );
        assert!((adjustment.whole.readings[2].residual.si() - 0.75).abs() < 1e-9);
    }

    #[test]
    fn of_two_that_contradict_each_other_both_are_named_and_the_document_stands() {
        let mut observations = lengths(&[12.0, 13.0]);
        observations[0].origin = Origin::Block;
        let adjustment = adjusted(&observations);
        let [suspect] = adjustment.suspects.as_slice() else { panic!("{:?}", adjustment.suspects) };
        let mut named: Vec<usize> =
            suspect.rivals.iter().chain([&suspect.first]).map(|one| one.reading).collect();
        named.sort_unstable();
        assert_eq!((named, suspect.left_out), (vec![0, 1], 1));
        assert!((adjustment.settled.readings[0].adjusted.si() - 12.0).abs() < 1e-9);
    }

    #[test]
    fn two_slips_are_named_one_after_the_other() {
        let adjustment = adjusted(&lengths(&[12.0, 12.0, 14.0, 12.0, 12.0, 12.0, 11.0, 12.0]));
        let named: Vec<usize> = adjustment.suspects.iter().map(|suspect| suspect.first.reading).collect();
        assert_eq!(named, [2, 6]);
        assert!((adjustment.settled.chance - 1.0).abs() < 1e-12);
    }
}
