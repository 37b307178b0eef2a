//! Normal equations of a few dozen unknowns, factored after Cholesky.
//!
//! # Formula
//! `AᵀA = LLᵀ` with L lower triangular; `(AᵀA)⁻¹ b` by solving `Ly = b`, then `Lᵀx = y`; `aᵀ(AᵀA)⁻¹a = |L⁻¹a|²`.
//! # Symbols and units
//! A the design matrix, held by its rows a; all without unit.
//! # Source
//! Cholesky factorisation in its row-wise form: any textbook of numerical linear algebra, e.g. Golub and Van Loan, Matrix
//! Computations, section 4.2 (published, from memory).
//! # Validity
//! `AᵀA` positive definite. Cost is n³/6, of no account below some hundred unknowns; why no library does this is told in
//! `docs/decisions/0009-own-normal-equations.md`.
//! # Checks
//! outside: a factor from the literature, below; the nets of [`crate::solve`].

/// Sum of products.
pub(crate) fn dot(one: &[f64], other: &[f64]) -> f64 {
    one.iter().zip(other).map(|(a, b)| a * b).sum()
}

/// Aᵀb, the matrix given by its rows.
pub(crate) fn transposed_times(rows: &[Vec<f64>], right: &[f64]) -> Vec<f64> {
    let unknowns = rows.first().map_or(0, Vec::len);
    (0..unknowns).map(|column| rows.iter().zip(right).map(|(row, b)| row[column] * b).sum()).collect()
}

/// The factor L of the normal equations, its rows as long as they are not zero.
#[derive(Clone, Debug)]
pub(crate) struct Normal(Vec<Vec<f64>>);

impl Normal {
    /// The factor of `AᵀA`; none if that is not positive definite or holds numbers that are not finite.
    pub(crate) fn of(rows: &[Vec<f64>]) -> Option<Self> {
        let unknowns = rows.first()?.len();
        let product = |i: usize, j: usize| rows.iter().map(|row| row[i] * row[j]).sum::<f64>();
        Self::factor(unknowns, product)
    }

    /// The factor of a symmetric matrix given by its entries on and below the diagonal.
    fn factor(unknowns: usize, entry: impl Fn(usize, usize) -> f64) -> Option<Self> {
        let mut lower: Vec<Vec<f64>> = Vec::with_capacity(unknowns);
        for i in 0..unknowns {
            let mut row = Vec::with_capacity(i + 1);
            for (j, above) in lower.iter().enumerate() {
                row.push((entry(i, j) - dot(&row, above)) / above[j]);
            }
            let pivot = entry(i, i) - dot(&row, &row);
            if !(pivot > 0.0 && pivot.is_finite()) {
                return None;
            }
            row.push(pivot.sqrt());
            lower.push(row);
        }
        Some(Self(lower))
    }

    /// What the equations give for a right side.
    pub(crate) fn solve(&self, right: &[f64]) -> Vec<f64> {
        let mut solution = self.forward(right);
        for (i, row) in self.0.iter().enumerate().rev() {
            solution[i] /= row[i];
            let found = solution[i];
            for (rest, factor) in solution.iter_mut().zip(&row[..i]) {
                *rest -= factor * found;
            }
        }
        solution
    }

    /// `aᵀ(AᵀA)⁻¹a` of a row a: how much of its own value an observation of that row decides.
    pub(crate) fn leverage(&self, row: &[f64]) -> f64 {
        let forward = self.forward(row);
        dot(&forward, &forward)
    }

    /// L⁻¹ of a right side.
    fn forward(&self, right: &[f64]) -> Vec<f64> {
        let mut solution: Vec<f64> = Vec::with_capacity(right.len());
        for (row, b) in self.0.iter().zip(right) {
            let rest = b - dot(row, &solution);
            solution.push(rest / row[solution.len()]);
        }
        solution
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The worked example of the article "Cholesky decomposition" of an open encyclopaedia (published, from memory): the matrix and
    /// its factor are whole numbers.
    const MATRIX: [[f64; 3]; 3] = [[4.0, 12.0, -16.0], [12.0, 37.0, -43.0], [-16.0, -43.0, 98.0]];

    fn published() -> Normal {
        Normal::factor(3, |i, j| MATRIX[i][j]).expect("positive definite")
    }

    #[test]
    fn a_matrix_is_factored_as_published() {
        assert_eq!(published().0, [vec![2.0], vec![6.0, 1.0], vec![-8.0, 5.0, 3.0]]);
    }

    #[test]
    fn what_is_solved_gives_the_right_side_back() {
        let right = [3.0, -1.0, 0.5];
        let solution = published().solve(&right);
        for (row, b) in MATRIX.iter().zip(right) {
            assert!((dot(row, &solution) - b).abs() < 1e-9, "{solution:?}");
        }
    }

    #[test]
    fn leverages_of_all_rows_come_to_the_number_of_unknowns() {
        // the hat matrix projects onto as many directions as there are unknowns, so its trace is their number
        let rows = [[1.0, 2.0], [0.5, -1.0], [3.0, 0.25], [0.0, 1.0]].map(Vec::from);
        let normal = Normal::of(&rows).expect("positive definite");
        let trace: f64 = rows.iter().map(|row| normal.leverage(row)).sum();
        assert!((trace - 2.0).abs() < 1e-12);
    }

    #[test]
    fn what_no_row_sees_or_no_number_tells_has_no_factor() {
        assert!(Normal::of(&[vec![1.0, 0.0], vec![2.0, 0.0]]).is_none());
        assert!(Normal::of(&[vec![f64::NAN]]).is_none());
        assert!(Normal::of(&[vec![f64::INFINITY]]).is_none());
        assert!(Normal::of(&[]).is_none());
    }
}
