//! How likely readings are to disagree as much as they do by chance alone.
//!
//! # Formula
//! Probability that chi-square with f degrees of freedom exceeds x: 1 - P(f/2, x/2), with the regularised lower incomplete
//! gamma function P(a, y) = y^a e^-y / Γ(a + 1) · Σ y^n / ((a + 1) ... (a + n)).
//! # Source
//! Abramowitz and Stegun, Handbook of Mathematical Functions, 6.5.29 and 26.4.19 (published, from memory).
//! # Valid range
//! Any f; x from 0 up. The series is added up to rounding; without degrees of freedom nothing can disagree and the answer is 1.
//! # Accuracy
//! 1e-12, absolute.
//! # Checks
//! outside: 95 % and 99.9 % points of printed tables, below.

/// Terms of the series at the most; it converges once n passes y, and past this y the answer is 0 anyway.
const MOST_TERMS: usize = 20_000;
/// Exponents below this are no probability a person could act on, and under the smallest number there is.
const UNDERFLOW: f64 = -700.0;

/// Probability that a sum of squares of `freedom` standard normal errors exceeds `chi_square`.
pub(crate) fn of_more(chi_square: f64, freedom: usize) -> f64 {
    let (a, y) = (freedom as f64 / 2.0, chi_square / 2.0);
    if freedom == 0 || y <= 0.0 {
        return 1.0;
    }
    if y > 2.0 * a && a * y.ln() - y < UNDERFLOW {
        return 0.0;
    }
    (1.0 - lower_gamma(a, y)).clamp(0.0, 1.0)
}

fn lower_gamma(a: f64, y: f64) -> f64 {
    let mut term = (a * y.ln() - y - log_gamma_of_next(a)).exp();
    let mut sum = term;
    for n in 1..MOST_TERMS {
        term *= y / (a + n as f64);
        sum += term;
        if term < sum * f64::EPSILON {
            break;
        }
    }
    sum
}

/// Logarithm of Γ(a + 1) for a half or whole a, by Γ(a + 1) = a Γ(a) down to Γ(1/2) or Γ(1).
fn log_gamma_of_next(a: f64) -> f64 {
    let mut log = 0.0;
    let mut factor = a;
    while factor > 0.25 {
        log += factor.ln();
        factor -= 1.0;
    }
    if factor < -0.25 { log + 0.5 * std::f64::consts::PI.ln() } else { log }
}

#[cfg(test)]
mod tests {
    use super::of_more;

    /// Upper points of chi-square as printed in statistical tables (published, from memory).
    const TABLE: [(usize, f64, f64); 9] = [
        (1, 3.841, 0.05),
        (1, 10.828, 0.001),
        (2, 5.991, 0.05),
        (2, 13.816, 0.001),
        (3, 7.815, 0.05),
        (5, 11.070, 0.05),
        (10, 18.307, 0.05),
        (10, 29.588, 0.001),
        (30, 43.773, 0.05),
    ];

    #[test]
    fn chances_are_those_of_printed_tables() {
        for (freedom, point, chance) in TABLE {
            let found = of_more(point, freedom);
            assert!((found - chance).abs() < 5e-4 * chance, "{freedom} {point}: {found}");
        }
    }

    #[test]
    fn chances_of_two_degrees_are_an_exponential() {
        for x in [0.1_f64, 1.0, 7.3, 40.0] {
            assert!((of_more(x, 2) - (-x / 2.0).exp()).abs() < 1e-14);
        }
    }

    #[test]
    fn far_out_the_chance_is_nothing_and_without_freedom_it_is_all() {
        assert!(of_more(1e9, 3) < 1e-300);
        assert!(of_more(4000.0, 3) < 1e-12 && of_more(1300.0, 3) < 1e-12);
        assert!((of_more(5.0, 0) - 1.0).abs() < 1e-15 && (of_more(0.0, 4) - 1.0).abs() < 1e-15);
    }
}
