//! The outlines that drifts have: perimeters, and the family between the slot and the eye.

use std::f64::consts::PI;

use crate::numeric::roots::sign_change;
use crate::solid::EyeSection;

/// Which outline the drifts of an eye have, apart from their size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Family {
    /// Two half circles joined by straights; a circle where length and width are equal.
    Obround,
    /// An ellipse.
    Ellipse,
    /// A rectangle whose corners have this share of half the shorter side as radius.
    Rounded(f64),
}

impl Family {
    /// The family of `eye`.
    pub fn of(eye: &EyeSection<f64>) -> Self {
        let shorter = eye.p.min(eye.q);
        if eye.c == shorter && eye.d == shorter {
            Self::Obround
        } else if eye.c == eye.p && eye.d == eye.q {
            Self::Ellipse
        } else {
            Self::Rounded(eye.c / shorter)
        }
    }

    /// The outline of this family with half-length `p` and half-width `q`.
    pub fn section(self, p: f64, q: f64) -> EyeSection<f64> {
        let shorter = p.min(q);
        let (c, d) = match self {
            Self::Obround => (shorter, shorter),
            Self::Ellipse => (p, q),
            Self::Rounded(share) => (share * shorter, share * shorter),
        };
        EyeSection { p, q, c, d }
    }

    /// The half-length, at least `least`, at which an outline of half-width `q` has `perimeter`.
    ///
    /// The perimeter grows with the half-length and is at least four times it. Good to about 1e-15 of the interval.
    pub fn half_length(self, q: f64, perimeter_mm: f64, least: f64) -> f64 {
        let over = |p: f64| perimeter(&self.section(p, q)) - perimeter_mm;
        if over(least) >= 0.0 {
            return least;
        }
        sign_change(least, 0.25 * perimeter_mm, over).unwrap_or(least)
    }
}

/// Perimeter of an outline, mm: four straights along, four across, four quarters of ellipses.
pub(super) fn perimeter(section: &EyeSection<f64>) -> f64 {
    let EyeSection { p, q, c, d } = *section;
    4.0 * (p - c) + 4.0 * (q - d) + ellipse_perimeter(c, d)
}

/// Perimeter of an ellipse with the half-axes `a` and `b`.
///
/// P = 2π/M · (a² − Σ 2ⁿ⁻¹cₙ²), n from 0, M the arithmetic-geometric mean of a and b, c₀² = a² − b² and cₙ₊₁ half the
/// difference of the n-th pair.
///
/// # Accuracy
/// Roundoff: each turn doubles the digits.
/// # Source
/// M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, 1964, 17.6 (from memory; checked against
/// numerical integration in the tests).
fn ellipse_perimeter(a: f64, b: f64) -> f64 {
    /// From any two half-axes within the limits, 0.1 to 75 mm, to roundoff.
    const TURNS: usize = 12;
    let (mut long, mut short) = if a < b { (b, a) } else { (a, b) };
    if short <= 0.0 {
        return 4.0 * long.max(0.0);
    }
    let square = long * long;
    let mut sum = 0.5 * (square - short * short);
    let mut power = 0.5;
    for _ in 0..TURNS {
        let half = 0.5 * (long - short);
        (long, short) = (0.5 * (long + short), (long * short).sqrt());
        power *= 2.0;
        sum += power * half * half;
    }
    2.0 * PI * (square - sum) / long
}

/// The outline as a closed row of points (along, across), counter-clockwise; the last joins the first.
///
/// # Accuracy
/// Its points lie on the outline; its chords stay within 0.02 mm of a corner of up to 40 mm.
pub(super) fn points(section: &EyeSection<f64>) -> Vec<[f64; 2]> {
    /// Chords in a quarter.
    const CHORDS: usize = 32;
    let EyeSection { p, q, c, d } = *section;
    let mut points: Vec<[f64; 2]> = Vec::with_capacity(4 * (CHORDS + 1));
    for quarter in 0..4 {
        let (x_way, y_way) = [(1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)][quarter];
        for chord in 0..=CHORDS {
            let share = chord as f64 / CHORDS as f64;
            let turned = if quarter % 2 == 0 { share } else { 1.0 - share };
            let (sine, cosine) = (0.5 * PI * turned).sin_cos();
            let point = [x_way * (p - c + c * cosine), y_way * (q - d + d * sine)];
            if points.last() != Some(&point) {
                points.push(point);
            }
        }
    }
    if points.len() > 1 && points.first() == points.last() {
        points.pop();
    }
    points
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    /// Ramanujan's second formula, relative error about 3h⁵/2¹⁷ (from memory).
    fn ramanujan(a: f64, b: f64) -> f64 {
        let h = ((a - b) / (a + b)).powi(2);
        PI * (a + b) * (1.0 + 3.0 * h / (10.0 + (4.0 - 3.0 * h).sqrt()))
    }

    #[test]
    fn the_perimeter_of_an_ellipse_is_that_of_published_formulas() {
        for (a, b) in [(12.0, 8.0), (8.0, 12.0), (14.0, 13.5), (10.0, 7.0)] {
            assert_relative_eq!(
                ellipse_perimeter(a, b),
                ramanujan(a, b),
                max_relative = 1e-7
            );
        }
        // 4·E(3/4)·2 = 9.688448220547675, half-axes 2 and 1.
        assert_relative_eq!(
            ellipse_perimeter(2.0, 1.0),
            9.688_448_220_547_675,
            max_relative = 1e-13
        );
        assert_relative_eq!(ellipse_perimeter(5.0, 5.0), 10.0 * PI, max_relative = 1e-14);
        assert_eq!(ellipse_perimeter(5.0, 0.0), 20.0);
        assert_relative_eq!(ellipse_perimeter(5.0, 1e-9), 20.0, max_relative = 1e-9);
    }

    #[test]
    fn the_perimeter_of_a_slender_ellipse_is_the_integral() {
        let (a, b) = (15.0_f64, 1.5_f64);
        let steps = 20_000;
        let speed = |t: f64| (a * t.sin()).hypot(b * t.cos());
        // A periodic integrand: the trapezoidal rule converges faster than any power.
        let sum: f64 = (0..steps)
            .map(|step| speed(2.0 * PI * f64::from(step) / f64::from(steps)))
            .sum();
        assert_relative_eq!(
            ellipse_perimeter(a, b),
            sum * 2.0 * PI / f64::from(steps),
            max_relative = 1e-12
        );
    }

    #[test]
    fn a_half_length_gives_back_its_perimeter() {
        for family in [Family::Obround, Family::Ellipse, Family::Rounded(0.4)] {
            let outline = family.section(14.0, 4.0);
            let found = family.half_length(4.0, perimeter(&outline), 4.0);
            assert_relative_eq!(found, 14.0, max_relative = 1e-12);
            assert_eq!(family.half_length(4.0, 1.0, 4.0), 4.0);
        }
    }

    #[test]
    fn the_points_of_an_outline_are_as_long_as_its_perimeter() {
        for family in [Family::Obround, Family::Ellipse, Family::Rounded(0.4)] {
            let outline = family.section(14.0, 9.0);
            let points = points(&outline);
            let length: f64 = (0..points.len())
                .map(|at| {
                    let ([x, y], [u, v]) = (points[at], points[(at + 1) % points.len()]);
                    (u - x).hypot(v - y)
                })
                .sum();
            assert_relative_eq!(length, perimeter(&outline), max_relative = 2e-4);
        }
    }
}
