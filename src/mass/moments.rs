//! Volume integrals up to second order, and what follows from them.

use crate::numeric::Scalar;
use crate::solid::Drop;

/// ∫dV, ∫x dV, … ∫zx dV of a body, about the origin; mm³ to mm⁵.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moments<T> {
    /// ∫dV.
    pub volume: T,
    /// ∫x dV.
    pub x: T,
    /// ∫y dV.
    pub y: T,
    /// ∫z dV.
    pub z: T,
    /// ∫x² dV.
    pub xx: T,
    /// ∫y² dV.
    pub yy: T,
    /// ∫z² dV.
    pub zz: T,
    /// ∫xy dV.
    pub xy: T,
    /// ∫yz dV.
    pub yz: T,
    /// ∫zx dV.
    pub zx: T,
}

impl Moments<f64> {
    /// The same over another scalar, without derivatives.
    pub(super) fn still<T: Scalar>(&self) -> Moments<T> {
        Moments {
            volume: T::constant(self.volume),
            x: T::constant(self.x),
            y: T::constant(self.y),
            z: T::constant(self.z),
            xx: T::constant(self.xx),
            yy: T::constant(self.yy),
            zz: T::constant(self.zz),
            xy: T::constant(self.xy),
            yz: T::constant(self.yz),
            zx: T::constant(self.zx),
        }
    }
}

impl<T: Scalar> Moments<T> {
    /// Of nothing.
    pub fn zero() -> Self {
        let zero = T::constant(0.0);
        Self {
            volume: zero,
            x: zero,
            y: zero,
            z: zero,
            xx: zero,
            yy: zero,
            zz: zero,
            xy: zero,
            yz: zero,
            zx: zero,
        }
    }

    fn each(&self, other: &Self, f: impl Fn(T, T) -> T) -> Self {
        Self {
            volume: f(self.volume, other.volume),
            x: f(self.x, other.x),
            y: f(self.y, other.y),
            z: f(self.z, other.z),
            xx: f(self.xx, other.xx),
            yy: f(self.yy, other.yy),
            zz: f(self.zz, other.zz),
            xy: f(self.xy, other.xy),
            yz: f(self.yz, other.yz),
            zx: f(self.zx, other.zx),
        }
    }

    /// Of both bodies together.
    #[must_use]
    pub fn plus(&self, other: &Self) -> Self {
        self.each(other, |a, b| a + b)
    }

    /// Of this body without the other.
    #[must_use]
    pub fn minus(&self, other: &Self) -> Self {
        self.each(other, |a, b| a - b)
    }

    /// Of the body mirrored in the plane x = 0.
    #[must_use]
    pub fn mirrored_in_x(&self) -> Self {
        Self {
            x: -self.x,
            xy: -self.xy,
            zx: -self.zx,
            ..*self
        }
    }

    /// Of the body in u whose every section is moved to the height of a falling axis.
    #[must_use]
    pub fn dropped(&self, drop: &Drop<T>) -> Self {
        // z + t·(from − u) with t the slope: first the shear, then the shift.
        let t = drop.slope;
        let sheared = Self {
            z: self.z - t * self.x,
            zz: self.zz - t * self.zx * 2.0 + t * t * self.xx,
            yz: self.yz - t * self.xy,
            zx: self.zx - t * self.xx,
            ..*self
        };
        sheared.raised(t * drop.from)
    }

    /// Of the body moved up by `by`.
    #[must_use]
    pub fn raised(&self, by: T) -> Self {
        Self {
            z: self.z + by * self.volume,
            zz: self.zz + by * self.z * 2.0 + by * by * self.volume,
            yz: self.yz + by * self.y,
            zx: self.zx + by * self.x,
            ..*self
        }
    }

    /// Each multiplied by `factor`: with a density, ∫dm, ∫x dm and so on.
    #[must_use]
    pub fn times(&self, factor: f64) -> Self {
        self.each(self, |a, _| a * factor)
    }

    /// Of the body carried by the linear map r → `map`·r, rows of a matrix whose determinant is 1: a rotation or a
    /// shear.
    #[must_use]
    pub fn carried(&self, map: &[[T; 3]; 3]) -> Self {
        let dot = |row: [T; 3], [x, y, z]: [T; 3]| row[0] * x + row[1] * y + row[2] * z;
        let first = [self.x, self.y, self.z];
        let second = [
            [self.xx, self.xy, self.zx],
            [self.xy, self.yy, self.yz],
            [self.zx, self.yz, self.zz],
        ];
        let entry = |i: usize, j: usize| dot(map[i], second.map(|row| dot(map[j], row)));
        Self {
            volume: self.volume,
            x: dot(map[0], first),
            y: dot(map[1], first),
            z: dot(map[2], first),
            xx: entry(0, 0),
            yy: entry(1, 1),
            zz: entry(2, 2),
            xy: entry(0, 1),
            yz: entry(1, 2),
            zx: entry(2, 0),
        }
    }

    /// The centroid.
    pub fn centroid(&self) -> [T; 3] {
        let per_volume = self.volume.recip();
        [
            self.x * per_volume,
            self.y * per_volume,
            self.z * per_volume,
        ]
    }

    /// ∫(|r|² δᵢⱼ − rᵢrⱼ) dV with r from `point`, mm⁵.
    pub fn inertia_about(&self, point: [T; 3]) -> [[T; 3]; 3] {
        let [px, py, pz] = point;
        // ∫(x − p)(y − q) dV = ∫xy − p∫y − q∫x + pq∫1.
        let shifted = |both: T, first: (T, T), second: (T, T)| {
            both - first.1 * second.0 - second.1 * first.0 + first.1 * second.1 * self.volume
        };
        let (x, y, z) = ((self.x, px), (self.y, py), (self.z, pz));
        let (xx, yy, zz) = (
            shifted(self.xx, x, x),
            shifted(self.yy, y, y),
            shifted(self.zz, z, z),
        );
        let (xy, yz, zx) = (
            shifted(self.xy, x, y),
            shifted(self.yz, y, z),
            shifted(self.zx, z, x),
        );
        [
            [yy + zz, -xy, -zx],
            [-xy, zz + xx, -yz],
            [-zx, -yz, xx + yy],
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// A box with one corner at the origin: every product of inertia differs from zero.
    fn corner_box(a: f64, b: f64, c: f64) -> Moments<f64> {
        let v = a * b * c;
        Moments {
            volume: v,
            x: v * a / 2.0,
            y: v * b / 2.0,
            z: v * c / 2.0,
            xx: v * a * a / 3.0,
            yy: v * b * b / 3.0,
            zz: v * c * c / 3.0,
            xy: v * a * b / 4.0,
            yz: v * b * c / 4.0,
            zx: v * c * a / 4.0,
        }
    }

    #[test]
    fn a_box_about_its_centroid_has_no_products_of_inertia() {
        let moments = corner_box(3.0, 5.0, 11.0);
        let inertia = moments.inertia_about(moments.centroid());
        let v = 165.0;
        assert_relative_eq!(
            inertia[0][0],
            v * (25.0 + 121.0) / 12.0,
            max_relative = 1e-13
        );
        assert_relative_eq!(
            inertia[1][1],
            v * (121.0 + 9.0) / 12.0,
            max_relative = 1e-13
        );
        assert_relative_eq!(inertia[2][2], v * (9.0 + 25.0) / 12.0, max_relative = 1e-13);
        for (i, j) in [(0, 1), (1, 2), (0, 2)] {
            assert!(inertia[i][j].abs() < 1e-9, "{inertia:?}");
        }
    }

    #[test]
    fn products_of_inertia_carry_a_minus_sign() {
        let inertia = corner_box(3.0, 5.0, 11.0).inertia_about([0.0; 3]);
        assert_relative_eq!(inertia[0][1], -165.0 * 15.0 / 4.0, max_relative = 1e-13);
        assert_relative_eq!(inertia[2][0], -165.0 * 33.0 / 4.0, max_relative = 1e-13);
    }

    #[test]
    fn a_box_that_is_turned_and_sheared_has_the_moments_of_its_corners_box() {
        // A quarter turn about z takes x to y and y to −x.
        let turned = corner_box(3.0, 5.0, 11.0).carried(&[
            [0.0, -1.0, 0.0],
            [1.0, 0.0, 0.0],
            [0.0, 0.0, 1.0],
        ]);
        let expected = corner_box(5.0, 3.0, 11.0).mirrored_in_x();
        assert_eq!(turned, expected);
        // x → x + z/2: ∫(x + z/2)² = ∫x² + ∫zx + ∫z²/4.
        let plain = corner_box(3.0, 5.0, 11.0);
        let sheared = plain.carried(&[[1.0, 0.0, 0.5], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]);
        assert_relative_eq!(sheared.x, plain.x + 0.5 * plain.z, max_relative = 1e-14);
        let xx = plain.xx + plain.zx + 0.25 * plain.zz;
        assert_relative_eq!(sheared.xx, xx, max_relative = 1e-14);
        let xy = plain.xy + 0.5 * plain.yz;
        assert_relative_eq!(sheared.xy, xy, max_relative = 1e-14);
        assert_eq!(sheared.yz, plain.yz);
    }

    #[test]
    fn a_mirrored_body_lies_on_the_other_side() {
        let mirrored = corner_box(3.0, 5.0, 11.0).mirrored_in_x();
        assert_relative_eq!(mirrored.centroid()[0], -1.5);
        assert_relative_eq!(mirrored.inertia_about([0.0; 3])[0][1], 165.0 * 15.0 / 4.0);
    }
}
