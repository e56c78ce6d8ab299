//! A small generator of repeatable numbers: the same effort must give the same plan.

/// Source: Steele, Lea and Flood (2014), *Fast splittable pseudorandom number generators*.
#[derive(Clone, Debug)]
pub(crate) struct Rng(u64);

impl Rng {
    pub(crate) const fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A whole number below `n` (`n` > 0).
    #[allow(clippy::as_conversions, clippy::cast_possible_truncation, reason = "below n")]
    pub(crate) fn below(&mut self, n: usize) -> usize {
        ((u128::from(self.next()) * n as u128) >> 64) as usize
    }

    /// A number in [0, 1).
    #[allow(clippy::as_conversions, clippy::cast_precision_loss, reason = "53 bits fit")]
    pub(crate) fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / 9_007_199_254_740_992.0
    }
}
