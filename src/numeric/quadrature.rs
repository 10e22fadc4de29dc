//! Gauss–Legendre rules.

use std::f64::consts::PI;
use std::sync::OnceLock;

use super::Scalar;

/// The most points a rule may have.
pub const MOST_POINTS: usize = 64;

/// A Gauss–Legendre rule on the interval 0 to 1: exact for polynomials up to degree 2n − 1.
#[derive(Debug)]
pub struct Rule {
    nodes: Vec<(f64, f64)>,
}

/// The rule with `points` points, at least 1 and at most [`MOST_POINTS`]; made once.
pub fn gauss(points: usize) -> &'static Rule {
    static RULES: [OnceLock<Rule>; MOST_POINTS] = [const { OnceLock::new() }; MOST_POINTS];
    let points = points.clamp(1, MOST_POINTS);
    RULES[points - 1].get_or_init(|| Rule::new(points))
}

impl Rule {
    /// Roots of the Legendre polynomial by Newton's method from Tricomi's estimate.
    ///
    /// # Source
    /// P. J. Davis and P. Rabinowitz, Methods of Numerical Integration, 2nd ed., Academic Press
    /// 1984, section 2.7 (from memory; checked below against exact monomials).
    fn new(points: usize) -> Self {
        let n = points as f64;
        let mut nodes = Vec::with_capacity(points);
        for k in 0..points {
            let mut x = (PI * (k as f64 + 0.75) / (n + 0.5)).cos();
            let mut slope = 1.0;
            // Newton converges quadratically from an estimate good to O(n^-4): five are plenty.
            for _ in 0..5 {
                let (mut last, mut now) = (1.0, x);
                for j in 2..=points {
                    let j = j as f64;
                    (last, now) = (now, ((2.0 * j - 1.0) * x * now - (j - 1.0) * last) / j);
                }
                slope = n * (x * now - last) / (x * x - 1.0);
                x -= now / slope;
            }
            let weight = 1.0 / ((1.0 - x * x) * slope * slope);
            nodes.push(((1.0 - x) / 2.0, weight));
        }
        Self { nodes }
    }

    /// Nodes on 0 to 1 with their weights, which sum to 1.
    pub fn nodes(&self) -> impl Iterator<Item = (f64, f64)> + Clone + '_ {
        self.nodes.iter().copied()
    }

    /// ∫ `f` from `from` to `to`.
    pub fn integrate<T: Scalar>(&self, from: T, to: T, mut f: impl FnMut(T) -> T) -> T {
        let width = to - from;
        let mut sum = T::constant(0.0);
        for (x, weight) in self.nodes() {
            sum += f(from + width * x) * weight;
        }
        sum * width
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn a_rule_of_n_points_integrates_every_power_below_2n() {
        for points in [1, 2, 3, 5, 8, 16, 32] {
            for power in 0..2 * points as i32 {
                let sum = gauss(points).integrate(0.0, 1.0, |x: f64| x.powi(power));
                assert_relative_eq!(sum, 1.0 / f64::from(power + 1), max_relative = 1e-13);
            }
        }
    }

    #[test]
    fn a_rule_of_n_points_misses_the_power_2n() {
        let sum = gauss(2).integrate(0.0, 1.0, |x: f64| x.powi(4));
        assert!((sum - 0.2).abs() > 1e-3);
    }

    #[test]
    fn the_bounds_may_lie_anywhere() {
        let sum = gauss(6).integrate(-2.0, 5.0, |x: f64| x * x - 3.0 * x);
        assert_relative_eq!(sum, 133.0 / 3.0 - 31.5, max_relative = 1e-13);
    }
}
