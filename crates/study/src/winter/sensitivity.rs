//! Which unknown moves a result how much.
//!
//! # Formula
//! Of two samples A and B of n points, and A with coordinate i out of B: first-order index Sᵢ = Σ f(B)·(f(ABᵢ) − f(A))/n/V, of the share of the variance V that
//! goes if i alone were known; total index Tᵢ = Σ (f(A) − f(ABᵢ))²/2n/V, of the share that stays if all but i were known. f is taken about its mean.
//! # Source
//! Saltelli and others, Computer Physics Communications 181 (2010) 259-270; Jansen, the same 117 (1999) 35-43 (both from memory).
//! # Accuracy
//! Deviations of both are found by drawing the n points again from themselves (bootstrap).
//! # Checks
//! outside: functions of Ishigami and Homma (1990) and of Sobol, whose indices have closed forms (`tests/sensitivity.rs`)

use ::winter::year::Random;

use super::sample::{latin, place};

/// Samples drawn again for the deviations.
const AGAIN: usize = 200;

/// Indices of an unknown, each with its standard deviation.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Index {
    /// Share of the variance that goes if it alone were known.
    pub first: f64,
    /// Share that stays if all others were known.
    pub total: f64,
    /// Deviation of the first by the sample's chance.
    pub first_error: f64,
    /// Of the second.
    pub total_error: f64,
}

/// Indices of a function of coordinates each evenly between 0 and 1, from so many points.
pub fn indices(f: impl Fn(&[f64]) -> f64, dimensions: usize, points: usize, seed: u64) -> Vec<Index> {
    let [a, b] = [seed, seed ^ 0x5bd1_e995_9d1b_54a5].map(|seed| latin(dimensions, points, seed));
    let of = |points: &[Vec<f64>]| -> Vec<f64> { points.iter().map(|point| f(point)).collect() };
    let (of_a, of_b) = (of(&a), of(&b));
    let both = || of_a.iter().chain(&of_b);
    let mean = both().sum::<f64>() / (2 * points) as f64;
    let mut random = Random::new(seed);
    let again: Vec<Vec<usize>> =
        (0..AGAIN).map(|_| (0..points).map(|_| place(&mut random, points)).collect()).collect();
    let all: Vec<usize> = (0..points).collect();
    let index = |i: usize| {
        let mixed = a.iter().zip(&b).map(|(a, b)| {
            let mut point = a.clone();
            point[i] = b[i];
            f(&point)
        });
        let mixed: Vec<f64> = mixed.collect();
        let taken = |places: &[usize]| {
            let (mut first, mut total, mut variance) = (0.0, 0.0, 0.0);
            for k in places {
                let [a, b, ab] = [of_a[*k] - mean, of_b[*k] - mean, mixed[*k] - mean];
                first += b * (ab - a);
                total += (a - ab).powi(2) / 2.0;
                variance += f64::midpoint(a * a, b * b);
            }
            if variance > 0.0 { [first / variance, total / variance] } else { [0.0; 2] }
        };
        let [first, total] = taken(&all);
        let drawn: Vec<[f64; 2]> = again.iter().map(|places| taken(places)).collect();
        let error = |part: usize| {
            let mean = drawn.iter().map(|one| one[part]).sum::<f64>() / AGAIN as f64;
            let square = drawn.iter().map(|one| (one[part] - mean).powi(2)).sum::<f64>();
            (square / (AGAIN - 1) as f64).sqrt()
        };
        Index { first, total, first_error: error(0), total_error: error(1) }
    };
    (0..dimensions).map(index).collect()
}
