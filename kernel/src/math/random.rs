//! Seeded random numbers, the same bit for bit on every machine: integers, exact conversions and sums in a fixed order.

/// A generator of 64-bit integers: SplitMix64 (G. L. Steele, D. Lea, C. H. Flood, *Fast Splittable Pseudorandom Number Generators*, OOPSLA 2014,
/// fig. 14). A counter goes on by an odd constant, and each count's bits are mixed.
#[derive(Clone, Debug)]
pub struct Random(u64);

impl Random {
    /// The generator that a seed begins.
    pub fn seeded(seed: u64) -> Random {
        Random(seed)
    }

    /// The next integer.
    pub fn integer(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// The next number, uniform from 0 up to 1: 53 bits, exact in `f64`.
    pub fn unit(&mut self) -> f64 {
        (self.integer() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Uniform from −1 up to 1.
    pub fn uniform(&mut self) -> f64 {
        2.0 * self.unit() - 1.0
    }

    /// Normal with mean 0 and deviation 1, as nearly as the sum of twelve uniform numbers is: its deviation is exactly 1, it ends at ±6.
    pub fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.unit()).sum::<f64>() - 6.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// From the authors' C program `splitmix64.c` (S. Vigna, 2015), seed 1234567; the values as published with it for tests of other generators.
    #[test]
    fn integers_are_those_of_the_published_generator() {
        let mut random = Random::seeded(1_234_567);
        let expected = [6_457_827_717_110_365_317, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423_u64];
        assert_eq!(expected.map(|_| random.integer()), expected);
    }

    #[test]
    fn numbers_have_the_mean_and_the_deviation_they_should() {
        let mut random = Random::seeded(1);
        let n = 100_000;
        for (next, deviation) in
            [(Random::uniform as fn(&mut Random) -> f64, 1.0 / 3.0_f64.sqrt()), (Random::normal, 1.0)]
        {
            let numbers: Vec<f64> = (0..n).map(|_| next(&mut random)).collect();
            let mean = numbers.iter().sum::<f64>() / f64::from(n);
            let square = numbers.iter().map(|x| x * x).sum::<f64>() / f64::from(n);
            // Five standard errors.
            assert!(mean.abs() < 5.0 * deviation / f64::from(n).sqrt(), "{mean}");
            assert!((square.sqrt() / deviation - 1.0).abs() < 0.01, "{square}");
        }
    }
}
