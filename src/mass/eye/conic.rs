//! What stands under the conic of a corner: incomplete integrals in closed form.

use crate::numeric::Scalar;

/// ∫αᵐβⁿ dα from α to 1 along the conic α + β + 2w√(αβ) = 1 of one weight.
///
/// With w = cos γ, κ = cot γ and √β = sin ψ / sin γ the other root is √α = cos ψ − κ sin ψ, so that
/// α and −dα/dψ are polynomials in x = sin²ψ plus such polynomials times sin ψ cos ψ. So is every
/// integrand, and both kinds of term have elementary integrals.
pub(super) struct Conic {
    weight: f64,
    /// sin² γ = 1 − w².
    square: f64,
    /// αᵐ·(−dα/dψ)/2, for m from 0 on.
    powers: [Turning; 3],
}

/// Σ even·xᵏ + sin ψ cos ψ · Σ odd·xᵏ, with x = sin²ψ.
#[derive(Clone, Copy)]
struct Turning {
    even: [f64; Self::TERMS],
    odd: [f64; Self::TERMS],
}

/// [`Conic`]'s integrals with m and n as in their names.
#[derive(Clone, Copy, Debug)]
pub(super) struct UnderConic<T> {
    pub(super) j00: T,
    pub(super) j10: T,
    pub(super) j20: T,
    pub(super) j01: T,
    pub(super) j11: T,
    pub(super) j21: T,
    pub(super) j02: T,
    pub(super) j12: T,
    pub(super) j03: T,
}

impl Turning {
    /// Terms of the longest, of α² times the slope.
    const TERMS: usize = 4;

    /// Times α = 1 − 2κ sin ψ cos ψ − (1 − κ²)x.
    fn times_alpha(&self, kappa: f64) -> Self {
        let ease = 1.0 - kappa * kappa;
        let mut product = *self;
        for k in 0..Self::TERMS {
            product.odd[k] -= 2.0 * kappa * self.even[k];
            if k > 0 {
                product.odd[k] -= ease * self.odd[k - 1];
                product.even[k] -= ease * self.even[k - 1] + 2.0 * kappa * self.odd[k - 1];
            }
            if k > 1 {
                // (sin ψ cos ψ)² = x − x².
                product.even[k] += 2.0 * kappa * self.odd[k - 2];
            }
        }
        product
    }

    /// ∫₀^ψ of this times xⁿ: with the powers of x and [`sine_integrals`].
    fn integral(&self, n: usize, x: &[f64; POWERS], sines: &[f64; POWERS]) -> f64 {
        (0..Self::TERMS)
            .map(|k| {
                let even = self.even[k] * sines[k + n];
                even + self.odd[k] * x[k + n + 1] / (2 * (k + n + 1)) as f64
            })
            .sum()
    }
}

/// As many powers of x as the highest integrand needs, α² β or β³ times the slope.
const POWERS: usize = Turning::TERMS + 4;

/// ∫₀^ψ sin²ᵏ for k from 0 on.
fn sine_integrals(psi: f64, sin: f64, cos: f64) -> [f64; POWERS] {
    let mut integrals = [psi; POWERS];
    let mut odd = sin;
    for k in 1..POWERS {
        let twice = 2.0 * k as f64;
        integrals[k] = ((twice - 1.0) * integrals[k - 1] - odd * cos) / twice;
        odd *= sin * sin;
    }
    integrals
}

impl Conic {
    pub(super) fn new(weight: f64) -> Self {
        let square = 1.0 - weight * weight;
        let kappa = weight / square.sqrt();
        let slope = Turning {
            even: [kappa, -2.0 * kappa, 0.0, 0.0],
            odd: [1.0 - kappa * kappa, 0.0, 0.0, 0.0],
        };
        let first = slope.times_alpha(kappa);
        Self {
            weight,
            square,
            powers: [slope, first, first.times_alpha(kappa)],
        }
    }

    /// √β where √α is `root`: from α + β + 2w√(αβ) = 1.
    fn other_root(&self, root: f64) -> f64 {
        ((1.0 - self.square * root * root).sqrt() - self.weight * root).max(0.0)
    }

    /// The integrals from `alpha`, 0 to 1.
    ///
    /// They are found without derivatives and carry the first: d/dα ∫αᵐβⁿ = −αᵐβⁿ.
    ///
    /// # Accuracy
    /// Roundoff grows with the weight: 1e-12 at 0.95.
    pub(super) fn integrals<T: Scalar>(&self, alpha: T) -> UnderConic<T> {
        let from = alpha.value().clamp(0.0, 1.0);
        let root = from.sqrt();
        let other = self.other_root(root);
        let beta = other * other;
        let (sin, cos) = (other * self.square.sqrt(), root + self.weight * other);
        let mut x = [1.0; POWERS];
        for k in 1..POWERS {
            x[k] = x[k - 1] * sin * sin;
        }
        let sines = sine_integrals(sin.atan2(cos), sin, cos);
        let moved = alpha - alpha.value();
        let integral = |m: usize, n: i32| {
            let value = self.powers[m].integral(n as usize, &x, &sines);
            let slope = from.powi(m as i32) * beta.powi(n);
            -moved * slope + 2.0 * value / self.square.powi(n)
        };
        let plain = |m: i32| {
            let value = (1.0 - from.powi(m + 1)) / f64::from(m + 1);
            -moved * from.powi(m) + value
        };
        UnderConic {
            j00: plain(0),
            j10: plain(1),
            j20: plain(2),
            j01: integral(0, 1),
            j11: integral(1, 1),
            j21: integral(2, 1),
            j02: integral(0, 2),
            j12: integral(1, 2),
            j03: integral(0, 3),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numeric::quadrature::gauss;
    use approx::assert_relative_eq;

    #[test]
    fn the_integrals_agree_with_integration_along_the_conic() {
        for weight in [0.0, 0.2, std::f64::consts::FRAC_1_SQRT_2, 0.95] {
            let conic = Conic::new(weight);
            for from in [0.0, 0.03, 0.4, 0.97, 1.0_f64] {
                let got = conic.integrals(from);
                // Even steps of √α are smooth at both ends.
                let sum = |m: i32, n: i32| {
                    gauss(40).integrate(from.sqrt(), 1.0, |root: f64| {
                        2.0 * root.powi(2 * m + 1) * conic.other_root(root).powi(2 * n)
                    })
                };
                for (value, m, n) in [
                    (got.j00, 0, 0),
                    (got.j10, 1, 0),
                    (got.j20, 2, 0),
                    (got.j01, 0, 1),
                    (got.j11, 1, 1),
                    (got.j21, 2, 1),
                    (got.j02, 0, 2),
                    (got.j12, 1, 2),
                    (got.j03, 0, 3),
                ] {
                    assert_relative_eq!(value, sum(m, n), epsilon = 1e-12);
                }
            }
        }
    }
}
