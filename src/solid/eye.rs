//! The plug that is taken out for the eye.

use super::Section;
use crate::numeric::Scalar;

/// The eye's outline at one level, mm: half-length `p` along the head, half-width `q` across
/// it, corners `c` along and `d` across, parts of ellipses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EyeSection<T> {
    /// Half-length along the head (x).
    pub p: T,
    /// Half-width across the head (y).
    pub q: T,
    /// Corner along the head.
    pub c: T,
    /// Corner across the head.
    pub d: T,
}

/// The union of the eye's outlines over all heights.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plug<T> {
    /// At the upper mouth.
    pub top: EyeSection<T>,
    /// At the waist.
    pub waist: EyeSection<T>,
    /// At the lower mouth.
    pub bottom: EyeSection<T>,
    /// Height of the waist.
    pub waist_height: T,
    /// Height of the upper mouth, and depth of the lower one.
    pub half_height: T,
}

impl<T: Scalar> EyeSection<T> {
    /// The same outline as a [`Section`], with x in the place of y and y in the place of z.
    pub fn section(&self) -> Section<T> {
        Section {
            a: self.p,
            b: self.q,
            c: self.c,
            d: self.d,
            w: T::constant(Section::<T>::ROUND),
        }
    }

    /// Half-length at the distance `y` from the middle, |y| ≤ q.
    pub fn half_length_at(&self, y: T) -> T {
        self.section().half_width_at(y)
    }

    fn towards(&self, other: &Self, g: T) -> Self {
        let mix = |from: T, to: T| from + (to - from) * g;
        Self {
            p: mix(self.p, other.p),
            q: mix(self.q, other.q),
            c: mix(self.c, other.c),
            d: mix(self.d, other.d),
        }
    }
}

impl<T: Scalar> Plug<T> {
    /// The outline at height `z`: straight walls from the waist to either mouth.
    pub fn at(&self, z: T) -> EyeSection<T> {
        let above = z - self.waist_height;
        if above.value() >= 0.0 {
            self.waist
                .towards(&self.top, above / (self.half_height - self.waist_height))
        } else {
            self.waist.towards(
                &self.bottom,
                -above / (self.half_height + self.waist_height),
            )
        }
    }

    /// The greatest half-length.
    pub fn longest(&self) -> T {
        [self.waist.p, self.bottom.p]
            .into_iter()
            .fold(
                self.top.p,
                |most, p| if p.value() > most.value() { p } else { most },
            )
    }
}
