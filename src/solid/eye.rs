//! The plug that is taken out for the eye.

use super::Section;
use crate::design::Wall;
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
    /// At the upper mouth, before its corner is broken.
    pub top: EyeSection<T>,
    /// At the waist.
    pub waist: EyeSection<T>,
    /// At the lower mouth, before its corner is broken.
    pub bottom: EyeSection<T>,
    /// Height of the waist.
    pub waist_height: T,
    /// Heights of the lower and the upper mouth on the handle axis.
    pub mouths: [T; 2],
    /// How the wall runs.
    pub wall: Wall,
    /// The lean, where the eye is cocked.
    pub lean: Option<Lean<T>>,
    /// Size of the broken corners of the mouths, where they are broken.
    pub mouth_break: Option<T>,
}

/// Tangents of the angles by which an eye is cocked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lean<T> {
    /// Towards the front.
    pub along: T,
    /// Towards +y.
    pub across: T,
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

    /// Half-width at the distance `x` from the middle, |x| ≤ p.
    pub fn half_width_at(&self, x: T) -> T {
        let turned = Section {
            a: self.q,
            b: self.p,
            c: self.d,
            d: self.c,
            w: T::constant(Section::<T>::ROUND),
        };
        turned.half_width_at(x)
    }

    fn towards(&self, other: &Self, g: T) -> Self {
        let Self { p, q, c, d } = self.change(other, g);
        Self {
            p: self.p + p,
            q: self.q + q,
            c: self.c + c,
            d: self.d + d,
        }
    }

    /// What every size gains on the share `g` of the way to `other`.
    fn change(&self, other: &Self, g: T) -> Self {
        Self {
            p: (other.p - self.p) * g,
            q: (other.q - self.q) * g,
            c: (other.c - self.c) * g,
            d: (other.d - self.d) * g,
        }
    }

    /// The outline `by` further out all round.
    fn wider(&self, by: T) -> Self {
        Self {
            p: self.p + by,
            q: self.q + by,
            c: self.c + by,
            d: self.d + by,
        }
    }
}

impl<T: Scalar> Plug<T> {
    /// The same without derivatives.
    pub fn values(&self) -> Plug<f64> {
        let level = |level: &EyeSection<T>| EyeSection {
            p: level.p.value(),
            q: level.q.value(),
            c: level.c.value(),
            d: level.d.value(),
        };
        let lean = |lean: Lean<T>| Lean {
            along: lean.along.value(),
            across: lean.across.value(),
        };
        Plug {
            top: level(&self.top),
            waist: level(&self.waist),
            bottom: level(&self.bottom),
            waist_height: self.waist_height.value(),
            mouths: self.mouths.map(|z| z.value()),
            wall: self.wall,
            lean: self.lean.map(lean),
            mouth_break: self.mouth_break.map(|size| size.value()),
        }
    }

    /// The outline at height `z`, about [`Plug::centre`]; the same formulas hold beyond the
    /// mouths.
    pub fn at(&self, z: T) -> EyeSection<T> {
        let (mouth, tau, _) = self.half(z);
        let g = match self.wall {
            Wall::Straight => tau,
            Wall::Arc => tau * tau,
        };
        let mut level = self.waist.towards(mouth, g);
        if let Some(size) = self.mouth_break {
            let [low, high] = self.mouths;
            for depth in [high - z, z - low] {
                let wider = size - depth;
                if wider.value() > 0.0 {
                    level = level.wider(wider);
                }
            }
        }
        level
    }

    /// How fast the sizes of the outline at height `z` grow with it.
    pub fn growth(&self, z: T) -> EyeSection<T> {
        let (mouth, tau, span) = self.half(z);
        let rate = match self.wall {
            Wall::Straight => span.recip(),
            Wall::Arc => tau * 2.0 / span,
        };
        let mut growth = self.waist.change(mouth, rate);
        if let Some(size) = self.mouth_break {
            let [low, high] = self.mouths;
            for (depth, way) in [(high - z, 1.0), (z - low, -1.0)] {
                if depth.value() < size.value() {
                    growth = growth.wider(T::constant(way));
                }
            }
        }
        growth
    }

    /// The mouth on the side of the waist on which `z` lies, the share of the way to it, and the
    /// whole way.
    fn half(&self, z: T) -> (&EyeSection<T>, T, T) {
        let [low, high] = self.mouths;
        let above = z - self.waist_height;
        let (mouth, span) = if above.value() >= 0.0 {
            (&self.top, high - self.waist_height)
        } else {
            (&self.bottom, low - self.waist_height)
        };
        (mouth, above / span, span)
    }

    /// (x, y) of the outline's middle at height `z`.
    pub fn centre(&self, z: T) -> [T; 2] {
        match self.lean {
            Some(Lean { along, across }) => [z * along, z * across],
            None => [T::constant(0.0); 2],
        }
    }

    /// Heights at which the formula of the wall changes, the waist first.
    pub fn joints(&self) -> Vec<T> {
        let [low, high] = self.mouths;
        let mut joints = vec![self.waist_height];
        if let Some(size) = self.mouth_break {
            joints.extend([low + size, high - size]);
        }
        joints
    }

    /// Least length and least width between the mouths, before their corners are broken.
    pub fn least_sizes(&self) -> [T; 2] {
        let least = |a: T, b: T| if b.value() < a.value() { b } else { a };
        let of = |size: fn(&EyeSection<T>) -> T| {
            least(
                least(size(&self.top), size(&self.bottom)),
                size(&self.waist),
            ) * 2.0
        };
        [of(|level| level.p), of(|level| level.q)]
    }

    /// The height and the value of the greatest x (`way` 1) or −x (`way` −1) of all outlines
    /// between the mouths.
    ///
    /// Straight walls are longest at a joint; arcs that lean may be longest between two.
    pub fn farthest(&self, way: f64) -> (T, T) {
        let out = |z: T| self.at(z).p + self.centre(z)[0] * way;
        let [low, high] = self.mouths;
        let mut heights = self.joints();
        heights.extend([low, high]);
        if let (Wall::Arc, Some(Lean { along, .. })) = (self.wall, self.lean) {
            for (mouth, p) in [(high, self.top.p), (low, self.bottom.p)] {
                // Where the slope of p_w + (p − p_w)τ² and that of the lean add up to nothing.
                let span = mouth - self.waist_height;
                let growth = (p - self.waist.p) * 2.0;
                if growth.value() < 0.0 {
                    let tau = -along * way * span / growth;
                    if (0.0..=1.0).contains(&tau.value()) {
                        heights.push(self.waist_height + span * tau);
                    }
                }
            }
        }
        let mut best = (low, out(low));
        for z in heights {
            let here = out(z);
            let between = low.value() <= z.value() && z.value() <= high.value();
            if between && here.value() > best.1.value() {
                best = (z, here);
            }
        }
        best
    }
}
