//! A curved surface through a sample of runs, on which indices are cheap.
//!
//! # Formula
//! y = c + Σ bᵢ·xᵢ + Σ aᵢⱼ·xᵢ·xⱼ by least squares, with as many of its terms as runs allow. How well it stands for runs it has not seen is found by leaving each
//! out in turn: what it then misses that run by is e/(1 − h), with e its residual and h its leverage (Allen 1974; from memory).

use crate::normal::{Normal, transposed_times};

/// Runs asked for each term.
const RUNS_BY_TERM: usize = 3;

/// A surface.
#[derive(Clone, Debug)]
pub(super) struct Surface {
    terms: Terms,
    factors: Vec<f64>,
    /// Share of the variance of runs it has not seen that it tells.
    pub(super) told: f64,
    /// Deviation of what it misses them by.
    pub(super) untold: f64,
}

/// Which terms it has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Terms {
    Straight,
    Curved,
    Crossed,
}

impl Terms {
    fn of(self, x: &[f64]) -> Vec<f64> {
        let mut row: Vec<f64> = std::iter::once(1.0).chain(x.iter().copied()).collect();
        for (i, a) in x.iter().enumerate() {
            match self {
                Self::Straight => {}
                Self::Curved => row.push(a * a),
                Self::Crossed => row.extend(x[i..].iter().map(|b| a * b)),
            }
        }
        row
    }
}

impl Surface {
    /// The one that tells runs it has not seen best; none for too few runs, or runs that are all alike.
    pub(super) fn through(points: &[Vec<f64>], values: &[f64]) -> Option<Self> {
        let all = [Terms::Straight, Terms::Curved, Terms::Crossed].into_iter();
        let fitted = all.filter_map(|terms| Self::with(terms, points, values));
        fitted.max_by(|a, b| a.told.total_cmp(&b.told))
    }

    fn with(terms: Terms, points: &[Vec<f64>], values: &[f64]) -> Option<Self> {
        let rows: Vec<Vec<f64>> = points.iter().map(|point| terms.of(point)).collect();
        if rows.len() < RUNS_BY_TERM * rows.first()?.len() {
            return None;
        }
        let normal = Normal::of(&rows)?;
        let factors = normal.solve(&transposed_times(&rows, values));
        let mean = values.iter().sum::<f64>() / values.len() as f64;
        let (mut missed, mut varied) = (0.0, 0.0);
        for (row, value) in rows.iter().zip(values) {
            let left_out = (value - crate::normal::dot(row, &factors)) / (1.0 - normal.leverage(row));
            missed += left_out * left_out;
            varied += (value - mean).powi(2);
        }
        let untold = (missed / values.len() as f64).sqrt();
        (varied > 0.0).then(|| Self { terms, factors, told: 1.0 - missed / varied, untold })
    }

    pub(super) fn at(&self, point: &[f64]) -> f64 {
        crate::normal::dot(&self.terms.of(point), &self.factors)
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::latin;
    use super::*;

    /// A sum of squares and products is met exactly, seen or not; a step is not, and says so.
    #[test]
    fn a_surface_says_how_well_it_stands_for_what_it_has_not_seen() {
        let points = latin(3, 60, 4);
        let values = |f: fn(&[f64]) -> f64| points.iter().map(|point| f(point)).collect::<Vec<f64>>();
        let bowl = |x: &[f64]| 2.0 + x[0] * x[1] - 3.0 * x[2] * x[2] + x[0];
        let surface = Surface::through(&points, &values(bowl)).expect("a surface");
        assert!(surface.told > 1.0 - 1e-9);
        assert!((surface.at(&[0.3, 0.2, 0.9]) - bowl(&[0.3, 0.2, 0.9])).abs() < 1e-9);
        let comb = |x: &[f64]| if (x[0] * 20.0).fract() > 0.5 { 1.0 } else { 0.0 };
        assert!(Surface::through(&points, &values(comb)).expect("a surface").told < 0.3);
        assert!(Surface::through(&points[..8], &values(bowl)[..8]).is_none());
    }
}
