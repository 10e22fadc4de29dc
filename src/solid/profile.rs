//! The family of sections: a rectangle whose corners are conics.

use std::f64::consts::FRAC_1_SQRT_2;

use crate::numeric::Scalar;

/// A section across the head, centred on its axis, mm.
///
/// In the quarter y, z ≥ 0 the outline is the flat y = a up to z = b − d, the conic, and the
/// flat z = b. With α = (a − y)/c and β = (b − z)/d the conic is α + β + 2w√(αβ) = 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section<T> {
    /// Half-width across the head (y).
    pub a: T,
    /// Half-height along the handle (z).
    pub b: T,
    /// Corner across.
    pub c: T,
    /// Corner up.
    pub d: T,
    /// Weight of the conic: 0 a chamfer, √½ a part of an ellipse.
    pub w: T,
}

/// A piece of the outline's quarter y, z ≥ 0, run through from the y axis to the z axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Piece {
    /// The flat y = a.
    Side,
    /// The conic.
    Corner,
    /// The flat z = b.
    Top,
}

impl Piece {
    /// All three, in order.
    pub const ALL: [Piece; 3] = [Piece::Side, Piece::Corner, Piece::Top];
}

/// What a corner of unit size takes off: with α and β measured inwards from the corner,
/// ∫dA, ∫α dA and ∫α² dA over α + β + 2w√(αβ) ≤ 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CornerShare<T> {
    area: T,
    first: T,
    second: T,
}

impl<T: Scalar> CornerShare<T> {
    /// The share for weight `w`.
    ///
    /// With α = p², β = q² and w = cos γ the corner is a sector of an ellipse in (p, q); in
    /// p = ρ sin θ / sin γ, q = ρ sin(γ − θ) / sin γ its integrals are elementary:
    /// ∫αᵏ dA = 4 / ((2k + 4) sin^(2k+3) γ) · ∫₀^γ sin^(2k+1) θ sin(γ − θ) dθ.
    ///
    /// # Accuracy
    /// Roundoff grows as γ falls: 1e-12 relative at the greatest weight, 0.95.
    pub fn new(w: T) -> Self {
        let gamma = w.acos();
        let (sin, cos) = (gamma.sin(), w);
        let sin2 = sin * sin;
        let sin3 = sin2 * sin;
        let sin5 = sin3 * sin2;
        // ∫₀^γ sinⁿ θ dθ for n = 2, 4, 6.
        let s2 = (gamma - sin * cos) * 0.5;
        let s4 = s2 * 0.75 - sin3 * cos * 0.25;
        let s6 = s4 * (5.0 / 6.0) - sin5 * cos * (1.0 / 6.0);
        // ∫₀^γ sinᵏ θ sin(γ − θ) dθ = sin^(k+2) γ / (k + 1) − cos γ ∫ sin^(k+1).
        let j1 = sin3 * 0.5 - cos * s2;
        let j3 = sin5 * 0.25 - cos * s4;
        let j5 = sin5 * sin2 * (1.0 / 6.0) - cos * s6;
        Self {
            area: j1 / sin3,
            first: j3 / sin5 * (2.0 / 3.0),
            second: j5 / (sin5 * sin2) * 0.5,
        }
    }
}

/// Area and second moments of a section: ∫dA, ∫y² dA, ∫z² dA; mm², mm⁴.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SectionMoments<T> {
    /// ∫dA.
    pub area: T,
    /// ∫y² dA.
    pub yy: T,
    /// ∫z² dA.
    pub zz: T,
}

impl<T: Scalar> Section<T> {
    /// Weight of a round corner.
    pub const ROUND: f64 = FRAC_1_SQRT_2;

    /// A circle.
    pub fn circle(radius: T) -> Self {
        Self {
            a: radius,
            b: radius,
            c: radius,
            d: radius,
            w: T::constant(Self::ROUND),
        }
    }

    /// Area and second moments; `share` is [`CornerShare::new`] of this section's weight.
    pub fn moments(&self, share: &CornerShare<T>) -> SectionMoments<T> {
        let Self { a, b, c, d, .. } = *self;
        let corner = c * d;
        let taken = |half: T, size: T| {
            half * half * share.area - half * size * share.first * 2.0 + size * size * share.second
        };
        let rectangle = a * b;
        SectionMoments {
            area: (rectangle - corner * share.area) * 4.0,
            yy: (rectangle * a * a * (1.0 / 3.0) - corner * taken(a, c)) * 4.0,
            zz: (rectangle * b * b * (1.0 / 3.0) - corner * taken(b, d)) * 4.0,
        }
    }

    /// The same without derivatives.
    pub fn values(&self) -> Section<f64> {
        let Self { a, b, c, d, w } = *self;
        Section {
            a: a.value(),
            b: b.value(),
            c: c.value(),
            d: d.value(),
            w: w.value(),
        }
    }

    /// Area, mm².
    pub fn area(&self) -> T {
        self.moments(&CornerShare::new(self.w)).area
    }

    /// Half-width at height `z`, |z| ≤ b.
    pub fn half_width_at(&self, z: T) -> T {
        let z = if z.value() < 0.0 { -z } else { z };
        if z.value() <= (self.b - self.d).value() {
            return self.a;
        }
        let beta = (self.b - z) / self.d;
        if self.w.value() == 0.0 {
            return self.a - self.c * (-beta + 1.0);
        }
        if beta.value() <= 0.0 {
            return self.a - self.c;
        }
        let w_root = self.w * beta.sqrt();
        let root = (w_root * w_root - beta + 1.0).sqrt() - w_root;
        self.a - self.c * root * root
    }

    /// Length of a piece's straight span, or of the conic's legs: nothing to walk when zero.
    fn is_there(&self, piece: Piece) -> bool {
        match piece {
            Piece::Side => (self.b - self.d).value() > 0.0,
            Piece::Corner => self.c.value() > 0.0,
            Piece::Top => (self.a - self.c).value() > 0.0,
        }
    }

    /// The pieces of the quarter that have a length.
    pub fn pieces(&self) -> impl Iterator<Item = Piece> + '_ {
        Piece::ALL.into_iter().filter(|piece| self.is_there(*piece))
    }

    /// Point of `piece` at `t`, 0 to 1, and its derivative with respect to t: (y, z, y′, z′).
    ///
    /// A chamfer is run through evenly, any other conic by its own parameter: the conic's
    /// parameter converges slowly on a straight cut.
    pub fn along(&self, piece: Piece, t: f64) -> (T, T, T, T) {
        let Self { a, b, c, d, w } = *self;
        let zero = T::constant(0.0);
        match piece {
            Piece::Side => (a, (b - d) * t, zero, b - d),
            Piece::Top => ((a - c) * (1.0 - t), b, c - a, zero),
            Piece::Corner if w.value() == 0.0 => (a - c * t, b - d * (1.0 - t), -c, d),
            Piece::Corner => {
                let s = 1.0 - t;
                let weight = w * (2.0 * t * s) + (s * s + t * t);
                let slope = w * (2.0 * (s - t)) + 2.0 * (t - s);
                let (inverse, square) = (weight.recip(), (weight * weight).recip());
                (
                    a - c * inverse * (t * t),
                    b - d * inverse * (s * s),
                    -c * square * (weight * (2.0 * t) - slope * (t * t)),
                    d * square * (weight * (2.0 * s) + slope * (s * s)),
                )
            }
        }
    }

    /// The section of the same family shrunk to `across` and `up` of its sizes.
    pub fn shrunk(&self, across: T, up: T) -> Self {
        Self {
            a: self.a * across,
            b: self.b * up,
            c: self.c * across,
            d: self.d * up,
            w: self.w,
        }
    }

    /// The section a share `g` of the way from `self` to `other`.
    ///
    /// A station without corners takes the weight of the other.
    pub fn towards(&self, other: &Self, g: T) -> Self {
        let mix = |from: T, to: T| from + (to - from) * g;
        let (from, to) = self.span_weights(other);
        Self {
            a: mix(self.a, other.a),
            b: mix(self.b, other.b),
            c: mix(self.c, other.c),
            d: mix(self.d, other.d),
            w: mix(from, to),
        }
    }

    /// The weights at the two ends of a span from `self` to `other`.
    pub fn span_weights(&self, other: &Self) -> (T, T) {
        match (self.c.value() > 0.0, other.c.value() > 0.0) {
            (false, true) => (other.w, other.w),
            (true, false) => (self.w, self.w),
            _ => (self.w, other.w),
        }
    }
}

/// Points tried on a conic for its farthest point from the axis, before refining.
const FARTHEST_TRIES: usize = 32;

impl<T: Scalar> Section<T> {
    /// Square of the distance of the outline's farthest point from the axis, mm².
    ///
    /// # Accuracy
    /// On the flats and at the joints exact; inside a conic refined until f64 shows no change.
    pub fn farthest_squared(&self) -> T {
        let square = |t: f64| {
            let (y, z, ..) = self.along(Piece::Corner, t);
            y * y + z * z
        };
        if self.c.value() <= 0.0 {
            return self.a * self.a + self.b * self.b;
        }
        let at = |k: usize| k as f64 / FARTHEST_TRIES as f64;
        let best = (0..=FARTHEST_TRIES)
            .max_by(|i, j| square(at(*i)).value().total_cmp(&square(at(*j)).value()))
            .unwrap_or(0);
        if best == 0 || best == FARTHEST_TRIES || self.w.value() == 0.0 {
            return square(at(best));
        }
        let t = crate::numeric::roots::peak(at(best - 1), at(best + 1), |t| square(t).value());
        square(t)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use std::f64::consts::PI;

    fn moments(a: f64, b: f64, c: f64, d: f64, w: f64) -> SectionMoments<f64> {
        Section { a, b, c, d, w }.moments(&CornerShare::new(w))
    }

    #[test]
    fn an_ellipse_has_its_closed_form() {
        let got = moments(21.0, 17.0, 21.0, 17.0, FRAC_1_SQRT_2);
        assert_relative_eq!(got.area, PI * 21.0 * 17.0, max_relative = 1e-13);
        assert_relative_eq!(
            got.yy,
            PI * 21f64.powi(3) * 17.0 / 4.0,
            max_relative = 1e-13
        );
        assert_relative_eq!(
            got.zz,
            PI * 21.0 * 17f64.powi(3) / 4.0,
            max_relative = 1e-13
        );
    }

    #[test]
    fn a_chamfered_rectangle_has_its_closed_form() {
        let got = moments(20.0, 15.0, 4.0, 6.0, 0.0);
        // Four right triangles, centroid a third of a leg from the corner.
        let (area, legs): (f64, (f64, f64)) = (12.0, (4.0, 6.0));
        let own = |leg: f64| area * leg * leg / 18.0;
        let yy = 40f64.powi(3) * 30.0 / 12.0
            - 4.0 * (own(legs.0) + area * (20.0 - legs.0 / 3.0).powi(2));
        let zz = 40.0 * 30f64.powi(3) / 12.0
            - 4.0 * (own(legs.1) + area * (15.0 - legs.1 / 3.0).powi(2));
        assert_relative_eq!(got.area, 1200.0 - 48.0, max_relative = 1e-14);
        assert_relative_eq!(got.yy, yy, max_relative = 1e-13);
        assert_relative_eq!(got.zz, zz, max_relative = 1e-13);
    }

    #[test]
    fn any_weight_agrees_with_integration_along_the_outline() {
        for w in [0.0, 0.1, 0.4, FRAC_1_SQRT_2, 0.9, 0.95] {
            let section = Section {
                a: 20.0,
                b: 14.0,
                c: 9.0,
                d: 13.0,
                w,
            };
            let (mut area, mut yy, mut zz) = (0.0, 0.0, 0.0);
            for piece in section.pieces() {
                for (t, weight) in crate::numeric::quadrature::gauss(40).nodes() {
                    let (y, z, _, dz) = section.along(piece, t);
                    let (.., dy, _) = section.along(piece, t);
                    area += 4.0 * weight * y * dz;
                    yy += 4.0 * weight * y.powi(3) / 3.0 * dz;
                    zz -= 4.0 * weight * z.powi(3) / 3.0 * dy;
                }
            }
            let got = section.moments(&CornerShare::new(w));
            assert_relative_eq!(got.area, area, max_relative = 1e-11);
            assert_relative_eq!(got.yy, yy, max_relative = 1e-11);
            assert_relative_eq!(got.zz, zz, max_relative = 1e-11);
        }
    }

    #[test]
    fn half_width_follows_the_outline() {
        for w in [0.0, 0.3, FRAC_1_SQRT_2, 0.95] {
            let section = Section {
                a: 20.0,
                b: 14.0,
                c: 9.0,
                d: 13.0,
                w,
            };
            for t in [0.05, 0.3, 0.7, 0.99] {
                let (y, z, ..) = section.along(Piece::Corner, t);
                assert_relative_eq!(section.half_width_at(z), y, max_relative = 1e-12);
                assert_relative_eq!(section.half_width_at(-z), y, max_relative = 1e-12);
            }
            assert_relative_eq!(section.half_width_at(0.5), 20.0);
        }
    }

    #[test]
    fn the_farthest_point_of_a_rounded_square_lies_on_the_diagonal() {
        let section = Section {
            a: 20.0,
            b: 20.0,
            c: 6.0,
            d: 6.0,
            w: FRAC_1_SQRT_2,
        };
        let diagonal = 14.0 * std::f64::consts::SQRT_2 + 6.0;
        assert_relative_eq!(
            section.farthest_squared(),
            diagonal * diagonal,
            max_relative = 1e-12
        );
    }
}
