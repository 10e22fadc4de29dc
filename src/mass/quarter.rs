//! The quarter of an eye's section, whole or cut by a strip: the integrals that eye and tongue are weighed by.

use crate::numeric::Scalar;
use crate::solid::EyeSection;

/// ∫dA, ∫x dA, ∫y dA, ∫x² dA, ∫y² dA over the quarter x, y ≥ 0 of a section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Quarter<T> {
    pub area: T,
    pub x: T,
    pub y: T,
    pub xx: T,
    pub yy: T,
}

impl<T: Scalar> Quarter<T> {
    /// Of `section` up to the distance `strip` from its middle, or of all of it.
    ///
    /// The corner is x = x₀ + c cos θ, y = y₀ + d sin θ; what lies below y has the integrals ∫x dy, ½∫x² dy, ∫yx dy,
    /// ⅓∫x³ dy and ∫y²x dy.
    pub fn of(section: &EyeSection<T>, strip: Option<T>) -> Self {
        let EyeSection { p, q, c, d } = *section;
        let (x0, y0) = (p - c, q - d);
        let cut = strip.filter(|y| y.value() < q.value());
        let straight = match cut {
            Some(y) if y.value() < y0.value() => y,
            _ => y0,
        };
        let mut quarter = Self {
            area: p * straight,
            x: p * p * straight * 0.5,
            y: p * straight * straight * 0.5,
            xx: p * p * p * straight * (1.0 / 3.0),
            yy: p * straight * straight * straight * (1.0 / 3.0),
        };
        let (theta, sin, cos) = match cut {
            Some(y) if y.value() <= y0.value() => return quarter,
            Some(y) => {
                let sin = (y - y0) / d;
                let theta = sin.asin();
                (theta, sin, theta.cos())
            }
            None => {
                let quarter_turn = std::f64::consts::FRAC_PI_2;
                (
                    T::constant(quarter_turn),
                    T::constant(1.0),
                    T::constant(0.0),
                )
            }
        };
        // ∫₀^θ cosⁿ for n = 1 to 4, then with sin and sin².
        let c1 = sin;
        let c2 = (theta + sin * cos) * 0.5;
        let c3 = (cos * cos * sin + sin * 2.0) * (1.0 / 3.0);
        let c4 = cos * cos * cos * sin * 0.25 + c2 * 0.75;
        let s_c1 = sin * sin * 0.5;
        let s_c2 = (-cos * cos * cos + 1.0) * (1.0 / 3.0);
        let s2_c1 = sin * sin * sin * (1.0 / 3.0);
        let s2_c2 = c2 - c4;
        quarter.area += d * (x0 * c1 + c * c2);
        quarter.x += d * 0.5 * (x0 * x0 * c1 + x0 * c * c2 * 2.0 + c * c * c3);
        quarter.y += d * (x0 * (y0 * c1 + d * s_c1) + c * (y0 * c2 + d * s_c2));
        quarter.xx += d
            * (1.0 / 3.0)
            * (x0 * x0 * x0 * c1 + x0 * x0 * c * c2 * 3.0 + x0 * c * c * c3 * 3.0 + c * c * c * c4);
        quarter.yy += d
            * (x0 * (y0 * y0 * c1 + y0 * d * s_c1 * 2.0 + d * d * s2_c1)
                + c * (y0 * y0 * c2 + y0 * d * s_c2 * 2.0 + d * d * s2_c2));
        quarter
    }

    /// Of this without the other.
    pub fn minus(&self, other: &Self) -> Self {
        Self {
            area: self.area - other.area,
            x: self.x - other.x,
            y: self.y - other.y,
            xx: self.xx - other.xx,
            yy: self.yy - other.yy,
        }
    }

    /// Moved outwards by `along` and `across`.
    pub fn moved(&self, along: T, across: T) -> Self {
        Self {
            area: self.area,
            x: self.x + along * self.area,
            y: self.y + across * self.area,
            xx: self.xx + along * self.x * 2.0 + along * along * self.area,
            yy: self.yy + across * self.y * 2.0 + across * across * self.area,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numeric::quadrature::gauss;
    use approx::assert_relative_eq;

    const ROUNDED: EyeSection<f64> = EyeSection {
        p: 15.0,
        q: 11.0,
        c: 4.0,
        d: 3.0,
    };

    #[test]
    fn a_cut_quarter_agrees_with_integration_across_the_strip() {
        let ellipse = EyeSection {
            p: 14.0,
            q: 9.5,
            c: 14.0,
            d: 9.5,
        };
        for section in [ROUNDED, ellipse] {
            for y in [1.3, 7.9, 8.5, 9.3] {
                let straight: f64 = section.q - section.d;
                let over = |f: &dyn Fn(f64) -> f64| {
                    let below = straight.min(y);
                    let rule = gauss(40);
                    rule.integrate(0.0, below, f) + rule.integrate(below, y.max(below), f)
                };
                let half = |v: f64| section.half_length_at(v);
                let got = Quarter::of(&section, Some(y));
                for (got, expected) in [
                    (got.area, over(&half)),
                    (got.x, over(&|v| 0.5 * half(v).powi(2))),
                    (got.y, over(&|v| v * half(v))),
                    (got.xx, over(&|v| half(v).powi(3) / 3.0)),
                    (got.yy, over(&|v| v * v * half(v))),
                ] {
                    assert_relative_eq!(got, expected, max_relative = 1e-7);
                }
            }
        }
    }

    #[test]
    fn a_quarter_moved_outwards_moves_its_middle_and_keeps_its_spread() {
        let quarter = Quarter::of(&ROUNDED, None);
        let moved = quarter.moved(0.7, 1.9);
        assert_relative_eq!(moved.x / moved.area, quarter.x / quarter.area + 0.7);
        assert_relative_eq!(moved.y / moved.area, quarter.y / quarter.area + 1.9);
        let spread = |q: &Quarter<f64>| q.yy / q.area - (q.y / q.area).powi(2);
        assert_relative_eq!(spread(&moved), spread(&quarter), max_relative = 1e-12);
    }
}
