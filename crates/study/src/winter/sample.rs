//! Samples in strata, and what they tell.

use ::winter::year::Random;

/// A Latin hypercube: of `runs` points every coordinate has one in each of as many equal strata, at random within it (`McKay`, Beckman and Conover 1979; from
/// memory). The same seed gives the same bits.
pub(super) fn latin(dimensions: usize, runs: usize, seed: u64) -> Vec<Vec<f64>> {
    let mut random = Random::new(seed);
    let mut points = vec![vec![0.0; dimensions]; runs];
    for dimension in 0..dimensions {
        let mut strata: Vec<usize> = (0..runs).collect();
        for last in (1..runs).rev() {
            strata.swap(last, place(&mut random, last + 1));
        }
        for (point, stratum) in points.iter_mut().zip(strata) {
            point[dimension] = (stratum as f64 + 1.0 - random.even()) / runs as f64;
        }
    }
    points
}

/// One of so many places.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to below a count")]
pub(super) fn place(random: &mut Random, count: usize) -> usize {
    (((1.0 - random.even()) * count as f64) as usize).min(count - 1)
}

/// The value below which a share of a weighted sample lies, straight between the middles of its steps; values and their order are given apart, so that one order
/// serves many weights.
pub(super) fn quantile(values: &[f64], order: &[usize], weights: &[f64], share: f64) -> f64 {
    let whole: f64 = weights.iter().sum();
    let (mut sum, mut before) = (0.0, None);
    for i in order {
        let middle = (sum + weights[*i] / 2.0) / whole;
        if middle >= share {
            return match before {
                Some((at, value)) if middle > at => {
                    value + (values[*i] - value) * (share - at) / (middle - at)
                }
                _ => values[*i],
            };
        }
        sum += weights[*i];
        before = Some((middle, values[*i]));
    }
    before.map_or(f64::NAN, |(_, value)| value)
}

/// Places in rising order of their values.
pub(super) fn order(values: &[f64]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_by(|a, b| values[*a].total_cmp(&values[*b]));
    order
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_stratum_has_one_point_and_a_seed_is_a_sample() {
        let points = latin(3, 40, 9);
        for dimension in 0..3 {
            let mut values: Vec<f64> = points.iter().map(|point| point[dimension]).collect();
            values.sort_by(f64::total_cmp);
            for (k, value) in values.iter().enumerate() {
                assert!(*value >= k as f64 / 40.0 && *value < (k + 1) as f64 / 40.0, "{k} {value}");
            }
        }
        assert_eq!(points, latin(3, 40, 9));
        assert_ne!(points, latin(3, 40, 10));
    }

    /// Of 1, 2, 3, 4, 5 the median is 3 and a tenth lies below 1 (its step's middle); with all weight on one value that is every quantile.
    #[test]
    fn quantiles_of_a_handful() {
        let values = [3.0, 1.0, 5.0, 2.0, 4.0];
        let order = order(&values);
        let of = |weights: &[f64; 5], share| quantile(&values, &order, weights, share);
        assert!((of(&[1.0; 5], 0.5) - 3.0).abs() < 1e-12);
        assert!((of(&[1.0; 5], 0.1) - 1.0).abs() < 1e-12 && (of(&[1.0; 5], 0.4) - 2.5).abs() < 1e-12);
        assert!((of(&[0.0, 0.0, 1.0, 0.0, 0.0], 0.9) - 5.0).abs() < 1e-12);
        // twice the weight of 1: steps end at 2/6 and 3/6, their middles are 1/6 and 5/12; 1/4 is a third of the way
        assert!((of(&[1.0, 2.0, 1.0, 1.0, 1.0], 0.25) - 4.0 / 3.0).abs() < 1e-12);
    }
}
