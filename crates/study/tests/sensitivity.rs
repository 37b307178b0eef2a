//! Indices of functions that have them in closed form.

use std::f64::consts::PI;

use study::winter::indices;

/// To this, and to three of their own deviations.
const CLOSE: f64 = 0.03;

fn close(f: impl Fn(&[f64]) -> f64, wanted: &[[f64; 2]]) {
    let found = indices(f, wanted.len(), 8192, 3);
    for (index, [first, total]) in found.iter().zip(wanted) {
        assert!((index.first - first).abs() < CLOSE, "{index:?} for {first}");
        assert!((index.total - total).abs() < CLOSE, "{index:?} for {total}");
        assert!((index.first - first).abs() < 4.0 * index.first_error + 1e-9, "{index:?} for {first}");
        assert!((index.total - total).abs() < 4.0 * index.total_error + 1e-9, "{index:?} for {total}");
    }
}

/// sin x + 7·sin² y + 0.1·z⁴·sin x on −π to π: variance 1/2 + 7²/8 + 0.1·π⁴/5 + 0.1²·π⁸/18, of which x has (1 + 0.1·π⁴/5)²/2, y 7²/8, x with z 8·0.1²·π⁸/225
/// (T. Ishigami and T. Homma 1990; closed forms by integration, worked by hand).
#[test]
fn the_function_of_ishigami_and_homma() {
    let at = |u: f64| PI * (2.0 * u - 1.0);
    let f = |u: &[f64]| {
        let [x, y, z] = [at(u[0]), at(u[1]), at(u[2])];
        x.sin() + 7.0 * y.sin().powi(2) + 0.1 * z.powi(4) * x.sin()
    };
    let x = (1.0 + 0.1 * PI.powi(4) / 5.0).powi(2) / 2.0;
    let (y, xz) = (49.0 / 8.0, 8.0 * 0.01 * PI.powi(8) / 225.0);
    let whole = 0.5 + y + 0.1 * PI.powi(4) / 5.0 + 0.01 * PI.powi(8) / 18.0;
    assert!((x + y + xz - whole).abs() < 1e-9, "the parts are the whole");
    close(f, &[[x / whole, (x + xz) / whole], [y / whole; 2], [0.0, xz / whole]]);
}

/// Π (|4·u − 2| + a)/(1 + a): each alone has V = 1/3/(1 + a)², all together Π (1 + V) − 1 (I. Sobol 1993; closed forms by integration).
#[test]
fn the_product_of_sobol() {
    let a = [0.0, 1.0, 4.5, 9.0, 99.0];
    let f = |u: &[f64]| u.iter().zip(a).map(|(u, a)| ((4.0 * u - 2.0).abs() + a) / (1.0 + a)).product();
    let own = a.map(|a: f64| 1.0 / 3.0 / (1.0 + a).powi(2));
    let all: f64 = own.iter().map(|v| 1.0 + v).product();
    let wanted = own.map(|v| [v / (all - 1.0), v * all / (1.0 + v) / (all - 1.0)]);
    close(f, &wanted);
}
