//! Sections of the stem.

use crate::numeric::Scalar;

/// An oval of the stem, an ellipse: half-sizes along the head and across it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Oval {
    pub depth: f64,
    pub width: f64,
}

impl Oval {
    /// The oval a share of the way to `other`.
    pub fn towards<T: Scalar>(self, other: Self, share: T) -> [T; 2] {
        [
            share * (other.depth - self.depth) + self.depth,
            share * (other.width - self.width) + self.width,
        ]
    }

    /// Section modulus against bending along the head, π·width·depth²/32 of the whole sizes, mm³.
    pub fn modulus(self) -> f64 {
        0.25 * std::f64::consts::PI * self.width * self.depth * self.depth
    }
}
