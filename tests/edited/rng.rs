//! A small deterministic generator of numbers: SplitMix64 (Steele, Lea and Flood, 2014).
//!
//! The numbers are the same at every run. `PLEACH_TEST_SEED`, a number, is mixed into every seed: with another
//! one, the same sources get other edits. Without it, or with 0, they are the committed ones.

use std::sync::LazyLock;

static OTHER: LazyLock<u64> = LazyLock::new(|| match std::env::var("PLEACH_TEST_SEED") {
    Ok(number) => number.parse().unwrap_or_else(|e| panic!("PLEACH_TEST_SEED={number}: {e}")),
    Err(_) => 0,
});

pub struct Rng(u64);

impl Rng {
    pub fn new(seed: u64) -> Rng {
        // Behind the multiplication: suites count their seeds, so that one changed by a small number before it
        // would be another one of the same suite.
        Rng(seed.wrapping_mul(0x2545_f491_4f6c_dd1d) ^ 0x5bd1_e995 ^ *OTHER)
    }

    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number below `n`, which is not 0.
    pub fn below(&mut self, n: usize) -> usize {
        (self.next() % n as u64) as usize
    }

    /// True `percent` times in a hundred.
    pub fn chance(&mut self, percent: usize) -> bool {
        self.below(100) < percent
    }

    pub fn pick<'a, T>(&mut self, from: &'a [T]) -> Option<&'a T> {
        if from.is_empty() { None } else { Some(&from[self.below(from.len())]) }
    }
}
