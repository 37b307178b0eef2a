//! Weighted least squares: the unknowns that fit all observations best, and how well each observation is checked by the others.
//!
//! # Formula
//! Least sum of ((l - f(x)) / σ)². With the rows of A being f'(x) / σ and w = (l - f(x)) / σ, Gauss-Newton goes from x to
//! x + (AᵀA)⁻¹ Aᵀw until a step is nothing. Residual v = l - f(x); redundancy number r = 1 - a (AᵀA)⁻¹ aᵀ;
//! standardised residual v / (σ √r).
//! # Symbols and units
//! l what was read, f its equation, x the unknowns, v residuals: metres, or rise over run; σ one standard deviation of l, the
//! same; r from 0 (nothing checks this observation) to 1 (the others say it all); a the row of an observation in A.
//! # Source
//! The method is that of any textbook of survey adjustment, e.g. Ghilani, Adjustment Computations; redundancy numbers and
//! standardised residuals after Baarda, A testing procedure for use in geodetic networks, 1968 (published, from memory).
//! # Validity
//! Every unknown is itself observed at least once, so `AᵀA` can be factored. A step is halved until it brings the sum down, and no pitch
//! loses more than half of itself at once. Where a sum cannot be brought down further the point is an optimum, or a ridge that two
//! sections of a roof reach at one height, which is as good.
//! # Errors
//! [`NoFit`]: numbers that are not finite, or steps that do not come to an end.
//! # Checks
//! outside: levelling net of Ghilani and Wolf, weighted mean, right triangle, all below.

use crate::chance;
use crate::normal::{Normal, dot, transposed_times};
use crate::observe::Observation;

/// A step this small ends the search, standard deviations of the unknowns.
const SMALL_STEP: f64 = 1e-6;
/// A sum of squares that falls by less than this part of itself has come to rest; rounding makes it tremble by less.
const LEAST_GAIN: f64 = 1e-12;
const MOST_STEPS: usize = 60;
const MOST_HALVINGS: u32 = 40;
/// Part of a pitch that one step may take from it.
const MOST_OF_A_PITCH: f64 = 0.5;
/// Observations with less redundancy cannot be tested: what they say is seen by hardly any other.
pub(crate) const TESTABLE: f64 = 0.01;

/// Observations, the unknowns as written and which of them are pitches.
pub(crate) struct System<'a> {
    pub(crate) observations: &'a [Observation],
    pub(crate) start: Vec<f64>,
    pub(crate) pitches: Vec<usize>,
}

/// No unknowns fit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct NoFit;

/// Unknowns that fit, and what that leaves of each observation.
#[derive(Clone, Debug)]
pub(crate) struct Solution {
    pub(crate) values: Vec<f64>,
    /// Read less fitted, of left out observations too.
    pub(crate) residuals: Vec<f64>,
    /// 1 for an observation left out.
    pub(crate) redundancies: Vec<f64>,
    /// None where the observation cannot be tested or was left out.
    pub(crate) standardized: Vec<Option<f64>>,
    pub(crate) freedom: usize,
    pub(crate) chi_square: f64,
}

impl Solution {
    /// Probability of a worse disagreement by chance.
    pub(crate) fn chance(&self) -> f64 {
        chance::of_more(self.chi_square, self.freedom)
    }
}

/// Observations seen from one point as linear functions of the unknowns; rows and misfits in spreads, those left out zero.
struct Linear {
    design: Vec<Vec<f64>>,
    misfits: Vec<f64>,
    normal: Normal,
}

impl Linear {
    fn step(&self) -> Vec<f64> {
        self.normal.solve(&transposed_times(&self.design, &self.misfits))
    }

    /// What a step changes in each misfit.
    fn change(&self, step: &[f64]) -> Vec<f64> {
        self.design.iter().map(|row| dot(row, step)).collect()
    }

    /// Length of a step in standard deviations.
    fn size(&self, step: &[f64]) -> f64 {
        squared(&self.change(step)).sqrt()
    }

    fn redundancies(&self) -> Vec<f64> {
        self.design.iter().map(|row| (1.0 - self.normal.leverage(row)).clamp(0.0, 1.0)).collect()
    }
}

/// Sum of squares.
fn squared(numbers: &[f64]) -> f64 {
    dot(numbers, numbers)
}

/// From one point a part of a step on.
fn along(from: &[f64], step: &[f64], part: f64) -> Vec<f64> {
    from.iter().zip(step).map(|(from, step)| from + step * part).collect()
}

impl System<'_> {
    /// The best fit to the observations kept.
    pub(crate) fn solve(&self, kept: &[bool]) -> Result<Solution, NoFit> {
        let mut values = self.start.clone();
        for _ in 0..MOST_STEPS {
            let linear = self.linear(&values, kept).ok_or(NoFit)?;
            let step = linear.step();
            let is_last = linear.size(&step) < SMALL_STEP;
            let next = if is_last {
                Some(along(&values, &step, 1.0))
            } else {
                self.downhill(&values, &step, &linear, kept)
            };
            let is_stuck = next.is_none();
            values = next.unwrap_or(values);
            if is_last || is_stuck {
                let misfits = self.misfits(&values, kept);
                return Ok(self.solution(values, &misfits, &linear, kept));
            }
        }
        Err(NoFit)
    }

    /// The first step towards the best fit, for telling who disagrees where no fit can be had.
    pub(crate) fn first_step(&self, kept: &[bool]) -> Result<Solution, NoFit> {
        let linear = self.linear(&self.start, kept).ok_or(NoFit)?;
        let step = linear.step();
        let misfits = along(&linear.misfits, &linear.change(&step), -1.0);
        Ok(self.solution(along(&self.start, &step, 1.0), &misfits, &linear, kept))
    }

    fn linear(&self, values: &[f64], kept: &[bool]) -> Option<Linear> {
        let mut design = vec![vec![0.0; values.len()]; self.observations.len()];
        let mut misfits = vec![0.0; self.observations.len()];
        for (row, observation) in self.kept(kept) {
            let term = observation.equation.at(values);
            let spread = observation.spread.si();
            misfits[row] = (observation.read.si() - term.value) / spread;
            design[row] = term.slope.iter().map(|slope| slope / spread).collect();
        }
        let finite = misfits.iter().all(|misfit| misfit.is_finite());
        let normal = finite.then(|| Normal::of(&design)).flatten()?;
        Some(Linear { design, misfits, normal })
    }

    fn kept<'k>(&'k self, kept: &'k [bool]) -> impl Iterator<Item = (usize, &'k Observation)> {
        self.observations.iter().enumerate().filter(|(row, _)| kept[*row])
    }

    /// Read less fitted over spread; zero where left out.
    fn misfits(&self, values: &[f64], kept: &[bool]) -> Vec<f64> {
        let mut misfits = vec![0.0; self.observations.len()];
        for (row, observation) in self.kept(kept) {
            misfits[row] =
                (observation.read.si() - observation.equation.at(values).value) / observation.spread.si();
        }
        misfits
    }

    /// The point a step leads to, the step halved until the sum of squares is less; none if that does not help.
    fn downhill(&self, values: &[f64], step: &[f64], linear: &Linear, kept: &[bool]) -> Option<Vec<f64>> {
        let here = squared(&linear.misfits);
        let most = self.allowed(values, step);
        let parts = (0..MOST_HALVINGS).map(|halvings| most / f64::from(halvings).exp2());
        let mut points = parts.map(|part| along(values, step, part));
        points.find(|next| squared(&self.misfits(next, kept)) < here - LEAST_GAIN * (1.0 + here))
    }

    /// How much of a step can be taken without any pitch losing more than it may.
    fn allowed(&self, values: &[f64], step: &[f64]) -> f64 {
        let limit = |index: &usize| {
            let loss = -step[*index] / values[*index];
            if loss > MOST_OF_A_PITCH { MOST_OF_A_PITCH / loss } else { 1.0 }
        };
        self.pitches.iter().map(limit).fold(1.0, f64::min)
    }

    fn solution(&self, values: Vec<f64>, misfits: &[f64], linear: &Linear, kept: &[bool]) -> Solution {
        let redundancies = linear.redundancies();
        let residual = |row: usize, observation: &Observation| {
            if kept[row] {
                misfits[row] * observation.spread.si()
            } else {
                observation.read.si() - observation.equation.at(&values).value
            }
        };
        let residuals =
            self.observations.iter().enumerate().map(|(row, observation)| residual(row, observation));
        let standardized = |row: usize| {
            let redundancy = redundancies[row];
            (kept[row] && redundancy >= TESTABLE).then(|| misfits[row] / redundancy.sqrt())
        };
        Solution {
            residuals: residuals.collect(),
            standardized: (0..kept.len()).map(standardized).collect(),
            freedom: self.kept(kept).count().saturating_sub(values.len()),
            chi_square: squared(misfits),
            redundancies,
            values,
        }
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use measure::Length;

    use super::*;
    use crate::network::Place;
    use crate::observe::{Equation, Origin};
    use crate::value::Value;

    /// A reading in metres with its spread.
    pub(crate) fn observation(equation: Equation, read: f64, spread: f64) -> Observation {
        let metres = |value| Value::Length(Length::from_m(value));
        Observation {
            name: String::new(),
            span: 0..0,
            origin: Origin::Spare,
            equation,
            read: metres(read),
            spread: metres(spread),
        }
    }

    pub(crate) fn system<'a>(observations: &'a [Observation], start: &[f64]) -> System<'a> {
        System { observations, start: start.to_vec(), pitches: Vec::new() }
    }

    fn solve(observations: &[Observation], start: &[f64]) -> Solution {
        let kept = vec![true; observations.len()];
        system(observations, start).solve(&kept).expect("a fit")
    }

    fn close(found: f64, wanted: f64, tolerance: f64) {
        assert!((found - wanted).abs() <= tolerance, "{found}, not {wanted}");
    }

    const A: Place = Place::Unknown(0);
    const B: Place = Place::Unknown(1);
    const C: Place = Place::Unknown(2);

    /// Levelling net with three benchmarks to find between two known ones, X at 100.00 and Y at 107.50: Ghilani and Wolf,
    /// Adjustment Computations, chapter on levelling nets (published, from memory; the normal equations were solved again by hand).
    fn net(distances: [f64; 7]) -> Vec<Observation> {
        let (x, y) = (Place::Held(100.0), Place::Held(107.5));
        let runs = [
            ([x, A], 5.10),
            ([A, y], 2.34),
            ([y, C], -1.25),
            ([C, x], -6.13),
            ([A, B], -0.68),
            ([y, B], -3.00),
            ([B, C], 1.70),
        ];
        let of = |(run, rise): ([Place; 2], f64), distance: f64| {
            observation(Equation::Run(run), rise, distance.sqrt())
        };
        runs.into_iter().zip(distances).map(|(run, distance)| of(run, distance)).collect()
    }

    #[test]
    fn a_levelling_net_of_equal_weights_is_adjusted_as_published() {
        let solution = solve(&net([1.0; 7]), &[100.0; 3]);
        for (found, wanted) in solution.values.iter().zip([105.141, 104.483, 106.188]) {
            close(*found, wanted, 0.0005);
        }
        assert_eq!(solution.freedom, 4);
    }

    #[test]
    fn a_levelling_net_weighted_by_distance_is_adjusted_as_published() {
        let solution = solve(&net([4.0, 3.0, 2.0, 3.0, 2.0, 2.0, 2.0]), &[0.0; 3]);
        for (found, wanted) in solution.values.iter().zip([105.150, 104.489, 106.197]) {
            close(*found, wanted, 0.0005);
        }
    }

    #[test]
    fn a_loop_closes_by_spreading_its_misclosure_over_the_squared_spreads() {
        let loop_of =
            [([Place::Held(0.0), A], 2.0, 1.0), ([A, B], 3.0, 2.0), ([B, Place::Held(0.0)], -4.4, 3.0)];
        let observations: Vec<Observation> =
            loop_of.map(|(run, read, spread)| observation(Equation::Run(run), read, spread)).into();
        let solution = solve(&observations, &[0.0; 2]);
        // read they come to 0.6 instead of 0, to be shared as 1 : 4 : 9
        for (residual, share) in solution.residuals.iter().zip([1.0, 4.0, 9.0]) {
            close(*residual, 0.6 * share / 14.0, 1e-12);
        }
        for (redundancy, share) in solution.redundancies.iter().zip([1.0, 4.0, 9.0]) {
            close(*redundancy, share / 14.0, 1e-12);
        }
        close(solution.chi_square, 0.6 * 0.6 / 14.0, 1e-12);
    }

    #[test]
    fn two_readings_of_one_length_give_their_weighted_mean() {
        let observations =
            [(12.0, 0.5), (12.3, 1.0)].map(|(read, spread)| observation(Equation::Number(A), read, spread));
        let solution = solve(&observations, &[10.0]);
        close(solution.values[0], (12.0 * 4.0 + 12.3) / 5.0, 1e-12);
        let [one, other] = [solution.standardized[0], solution.standardized[1]].map(|w| w.expect("tested"));
        close(one, -other, 1e-9);
        close(one.abs(), 0.3 / (0.25_f64 + 1.0).sqrt(), 1e-9);
    }

    /// Sides a and b and the diagonal d of a rectangle, all to one spread: by hand, the sum (a' - a)² + (b' - b)² + (d - |a', b'|)²
    /// is least for a' and b' along (a, b), half of what d is over going to d and half into the corner.
    #[test]
    fn a_rectangle_with_its_diagonal_takes_half_of_the_misfit() {
        let origin = [Place::Held(0.0); 2];
        let observations = [
            observation(Equation::Number(A), 3.0, 0.1),
            observation(Equation::Number(B), 4.0, 0.1),
            observation(Equation::Distance([origin, [A, B]]), 5.3, 0.1),
        ];
        let solution = solve(&observations, &[3.0, 4.0]);
        close(solution.values[0], 3.0 * (1.0 + 0.15 / 5.0), 1e-9);
        close(solution.values[1], 4.0 * (1.0 + 0.15 / 5.0), 1e-9);
        close(solution.residuals[2], 0.15, 1e-9);
        let shares = solution.redundancies.iter().zip([0.18, 0.32, 0.5]); // (3/5)², (4/5)² and 1, halved
        shares.for_each(|(found, wanted)| close(*found, wanted, 1e-9));
        let tested: Vec<f64> = solution.standardized.iter().map(|w| w.expect("tested").abs()).collect();
        for w in tested {
            close(w, 0.15 / 0.1 * 2.0_f64.sqrt(), 1e-6); // one misfit: none can be told from another
        }
    }

    /// What defines a least sum of squares: its slope is nothing in every direction.
    #[test]
    fn residuals_stand_at_right_angles_to_all_the_unknowns_can_do() {
        let origin = [Place::Held(0.0); 2];
        let mut observations = net([1.0, 4.0, 2.0, 3.0, 0.5, 2.0, 9.0]);
        observations.push(observation(Equation::Distance([origin, [A, B]]), 148.6, 0.7));
        observations.push(observation(Equation::Distance([[A, C], [B, Place::Held(50.0)]]), 56.0, 0.2));
        let kept = vec![true; observations.len()];
        let system = system(&observations, &[100.0; 3]);
        let solution = system.solve(&kept).expect("a fit");
        let linear = system.linear(&solution.values, &kept).expect("finite");
        let slope = transposed_times(&linear.design, &linear.misfits);
        let steepest = slope.iter().fold(0.0, |most: f64, one| most.max(one.abs()));
        let size: f64 = linear.design.iter().map(|row| squared(row)).sum();
        assert!(squared(&linear.misfits) > 0.01 && steepest < 1e-6 * size.sqrt(), "{slope:?}");
    }

    #[test]
    fn what_is_left_out_has_no_say_and_is_still_compared() {
        let observations = [12.0, 12.1, 18.0].map(|read| observation(Equation::Number(A), read, 0.1));
        let solution = system(&observations, &[12.0]).solve(&[true, true, false]).expect("a fit");
        close(solution.values[0], 12.05, 1e-12);
        close(solution.residuals[2], 5.95, 1e-12);
        assert_eq!((solution.freedom, solution.standardized[2]), (1, None));
    }

    #[test]
    fn numbers_that_are_none_have_no_fit() {
        let observations = [observation(Equation::Number(A), f64::NAN, 0.1)];
        assert_eq!(system(&observations, &[1.0]).solve(&[true]).err(), Some(NoFit));
        let nothing_sees_it = [observation(Equation::Number(Place::Held(1.0)), 1.0, 0.1)];
        assert_eq!(system(&nothing_sees_it, &[1.0]).solve(&[true]).err(), Some(NoFit));
    }
}
