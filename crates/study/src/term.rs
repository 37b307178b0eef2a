//! A number that knows how it changes with every unknown: forward differentiation, exact to rounding.
//!
//! Every equation of an observation is written once, as a formula of terms; its row of the design matrix comes out
//! beside its value.

use std::ops::{Add, Div, Mul, Sub};

/// Terms closer than this count as equal when the least is taken, metres.
const TIE: f64 = 1e-9;
/// Points closer than this have no direction from one to the other, metres.
const NO_DISTANCE: f64 = 1e-9;

/// A value and its derivative with respect to each unknown.
#[derive(Clone, Debug)]
pub(crate) struct Term {
    pub(crate) value: f64,
    pub(crate) slope: Vec<f64>,
}

impl Term {
    /// A number no unknown changes.
    pub(crate) fn held(value: f64, unknowns: usize) -> Self {
        Self { value, slope: vec![0.0; unknowns] }
    }

    /// An unknown itself.
    pub(crate) fn unknown(index: usize, values: &[f64]) -> Self {
        let mut term = Self::held(values[index], values.len());
        term.slope[index] = 1.0;
        term
    }

    /// Square root of one plus the square: slope length per run, of a slope.
    pub(crate) fn slope_factor(self) -> Self {
        let factor = self.value.hypot(1.0);
        Self { value: factor, slope: weighted([&self], [self.value / factor]) }
    }

    /// Length of the hypotenuse. Where there is no length there is no direction either, and the slope is taken as zero.
    pub(crate) fn hypot(self, other: &Self) -> Self {
        let length = self.value.hypot(other.value);
        if length < NO_DISTANCE {
            return Self::held(length, self.slope.len());
        }
        let slope = weighted([&self, other], [self.value / length, other.value / length]);
        Self { value: length, slope }
    }

    /// The least of some terms; of equals the mean, so that a roof whose four planes meet in a point stays so.
    pub(crate) fn least(terms: Vec<Self>) -> Option<Self> {
        let least = terms.iter().map(|term| term.value).reduce(f64::min)?;
        let mut tied = terms.into_iter().filter(|term| term.value <= least + TIE);
        let first = tied.next()?;
        let (count, sum) = tied.fold((1.0, first), |(count, sum), term| (count + 1.0, sum + term));
        Some(Self { value: sum.value / count, slope: weighted([&sum], [1.0 / count]) })
    }
}

/// Slopes of some terms, each with its weight, in sum.
fn weighted<const N: usize>(terms: [&Term; N], weights: [f64; N]) -> Vec<f64> {
    let unknowns = terms.first().map_or(0, |term| term.slope.len());
    let along =
        |index: usize| terms.iter().zip(weights).map(|(term, weight)| term.slope[index] * weight).sum();
    (0..unknowns).map(along).collect()
}

impl Add for Term {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { value: self.value + other.value, slope: weighted([&self, &other], [1.0, 1.0]) }
    }
}

impl Sub for Term {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self { value: self.value - other.value, slope: weighted([&self, &other], [1.0, -1.0]) }
    }
}

impl Mul for Term {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        let slope = weighted([&self, &other], [other.value, self.value]);
        Self { value: self.value * other.value, slope }
    }
}

impl Div for Term {
    type Output = Self;
    fn div(self, by: Self) -> Self {
        let value = self.value / by.value;
        let slope = weighted([&self, &by], [1.0 / by.value, -value / by.value]);
        Self { value, slope }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    type Formula = fn(Term, Term) -> Term;

    const FORMULAS: [Formula; 6] = [
        |a, b| a + b,
        |a, b| a - b,
        |a, b| a * b,
        |a, b| a / b,
        |a, b| a.hypot(&b),
        |a, b| a.slope_factor() * b.clone() / b.slope_factor(),
    ];

    fn value(formula: Formula, at: [f64; 2]) -> Term {
        formula(Term::unknown(0, &at), Term::unknown(1, &at))
    }

    #[test]
    fn slopes_are_those_of_central_differences() {
        for (formula, [a, b]) in FORMULAS.into_iter().flat_map(|f| [(f, [3.0, 4.0]), (f, [-0.7, 1.3])]) {
            let step = 1e-6;
            let difference = |up: Term, down: Term| (up.value - down.value) / (2.0 * step);
            let along = [
                difference(value(formula, [a + step, b]), value(formula, [a - step, b])),
                difference(value(formula, [a, b + step]), value(formula, [a, b - step])),
            ];
            let term = value(formula, [a, b]);
            assert!((0..2).all(|i| (term.slope[i] - along[i]).abs() < 1e-8), "{term:?} against {along:?}");
        }
    }

    #[test]
    fn the_least_of_equals_is_their_mean() {
        let least = value(|a, b| Term::least(vec![a, b]).expect("two terms"), [2.0, 2.0]);
        assert_eq!((least.value, least.slope[0], least.slope[1]), (2.0, 0.5, 0.5));
        let least = value(|a, b| Term::least(vec![a, b]).expect("two terms"), [2.0, 3.0]);
        assert_eq!((least.value, least.slope[0], least.slope[1]), (2.0, 1.0, 0.0));
        assert!(Term::least(Vec::new()).is_none());
    }

    #[test]
    fn no_distance_has_no_direction() {
        assert!(value(|a, b| a.hypot(&b), [0.0, 0.0]).slope.iter().all(|slope| *slope == 0.0));
    }
}
