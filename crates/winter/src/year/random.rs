//! Random numbers that are the same everywhere and always.

/// Generator xoshiro256++ of D. Blackman and S. Vigna (2019), its state filled from a seed by splitmix64 as they advise (both from memory; public domain).
#[derive(Clone, Debug)]
pub struct Random([u64; 4]);

impl Random {
    /// From a seed.
    pub fn new(seed: u64) -> Self {
        let mut state = seed;
        Self(std::array::from_fn(|_| {
            state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
            let mut z = state;
            z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
            z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
            z ^ (z >> 31)
        }))
    }

    fn bits(&mut self) -> u64 {
        let s = &mut self.0;
        let result = s[0].wrapping_add(s[3]).rotate_left(23).wrapping_add(s[0]);
        let t = s[1] << 17;
        s[2] ^= s[0];
        s[3] ^= s[1];
        s[1] ^= s[2];
        s[0] ^= s[3];
        s[2] ^= t;
        s[3] = s[3].rotate_left(45);
        result
    }

    /// Evenly above 0 and up to 1.
    pub fn even(&mut self) -> f64 {
        ((self.bits() >> 11) + 1) as f64 / 9_007_199_254_740_992.0
    }

    /// From 0 to below a count.
    pub fn below(&mut self, count: usize) -> usize {
        let place = self.even() * count as f64;
        (1..count).take_while(|k| (*k as f64) < place).count()
    }

    /// Normal with mean 0 and deviation 1 (G. Box and M. Muller 1958).
    pub fn normal(&mut self) -> f64 {
        let (u, v) = (self.even(), self.even());
        (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
    }

    /// Exponential with mean 1.
    pub(super) fn exponential(&mut self) -> f64 {
        -self.even().ln()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first numbers of splitmix64 from seed 0, as published with it (from memory): the state of the generator.
    #[test]
    fn the_state_is_that_of_splitmix() {
        let random = Random::new(0);
        assert_eq!(random.0[0], 0xe220_a839_7b1d_cdaf);
        assert_eq!(random.0[1], 0x6e78_9e6a_a1b9_65f4);
    }

    #[test]
    fn means_and_deviations_are_what_they_should_be() {
        let mut random = Random::new(7);
        let count = 40_000_u32;
        let mut sums = [0.0; 4];
        let mut places = [0_u32; 5];
        for _ in 0..count {
            let normal = random.normal();
            sums[0] += random.even();
            sums[1] += normal;
            sums[2] += normal * normal;
            sums[3] += random.exponential();
            places[random.below(5)] += 1;
        }
        // five deviations of the mean of so many
        let off = 5.0 / f64::from(count).sqrt();
        let means = sums.map(|sum| sum / f64::from(count));
        assert!((means[0] - 0.5).abs() < 0.29 * off);
        assert!(means[1].abs() < off && (means[2] - 1.0).abs() < 1.42 * off && (means[3] - 1.0).abs() < off);
        assert!(places.iter().all(|times| (f64::from(*times) / f64::from(count) - 0.2).abs() < 0.4 * off));
    }
}
