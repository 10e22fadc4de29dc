//! Numbers without pattern that are the same every time.

/// Evenly from 0 to 1: splitmix64 (G. L. Steele, D. Lea, C. H. Flood, Fast splittable
/// pseudorandom number generators, 2014; from memory).
pub struct Even(pub u64);

impl Even {
    /// The next number.
    pub fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    /// A number from `low` to `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.next()
    }

    /// One of the first `count` numbers from 0.
    pub fn below(&mut self, count: usize) -> usize {
        ((self.next() * count as f64) as usize).min(count - 1)
    }
}
