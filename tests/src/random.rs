//! Seeded random numbers for generated tests: the same on every machine, so that a failure
//! named by its seed can be seen again.

/// Source: Steele, Lea and Flood, "Fast splittable pseudorandom number generators", 2014
/// (`SplitMix64`).
#[derive(Clone, Debug)]
pub struct Random(u64);

impl Random {
    /// Numbers that follow from `seed`.
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// Any number.
    pub fn number(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number below `end`; 0 where `end` is.
    pub fn below(&mut self, end: u64) -> u64 {
        self.number().checked_rem(end).unwrap_or(0)
    }

    /// As [`Random::below`], for places in a list.
    pub fn index(&mut self, end: usize) -> usize {
        let end = u64::try_from(end).unwrap_or(u64::MAX);
        usize::try_from(self.below(end)).unwrap_or(0)
    }

    /// A number from `least` to `most`.
    pub fn from_to(&mut self, least: i64, most: i64) -> i64 {
        let count = most.abs_diff(least).saturating_add(1);
        least.saturating_add_unsigned(self.below(count))
    }

    /// A small number from `least` to `most`.
    pub fn small(&mut self, least: u32, most: u32) -> u32 {
        u32::try_from(self.from_to(least.into(), most.into())).unwrap_or(least)
    }

    /// True once in `times`.
    pub fn once_in(&mut self, times: u64) -> bool {
        self.below(times) == 0
    }

    /// One of several; there must be one.
    pub fn one_of<T: Clone>(&mut self, of: &[T]) -> T {
        of[self.index(of.len())].clone()
    }
}
