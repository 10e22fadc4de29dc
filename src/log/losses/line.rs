//! What is known of one line: normal heads of unknown mean and variance.

/// How many builds the published mean counts for (a choice: two weighed heads say as much as the default).
pub const PRIOR_BUILDS: f64 = 2.0;
/// Degrees of freedom that the published spread counts for (a choice: it is a guess, so few; with fewer than three
/// there would be no spread at all).
pub const PRIOR_FREEDOM: f64 = 4.0;
/// The least share of the published mean that its spread is taken as: nobody knows a loss for certain.
const LEAST_SPREAD: f64 = 0.01;

/// What is known of a line's amount x, in the unit of the amount.
///
/// x is normal over the heads of a smith, its mean μ and variance σ² unknown, with the conjugate prior: normal for μ
/// given σ², scaled inverse χ² for σ² (together a normal-inverse-gamma):
///
/// ```text
/// μ | σ² ~ N(mean, σ² / builds)        σ² ~ Inv-χ²(freedom, scale²)
/// ```
///
/// One x weighed alone makes of it
///
/// ```text
/// builds' = builds + 1                 mean' = mean + (x − mean) / (builds + 1)
/// freedom' = freedom + 1               freedom'·scale'² = freedom·scale² + builds / (builds + 1) · (x − mean)²
/// ```
///
/// and the next x is Student's t about the mean with that freedom and the scale scale·√(1 + 1 / builds).
///
/// # Sums
/// Of several lines weighed together only S = Σ uᵢ·xᵢ is seen, uᵢ in kg per unit. Then, with sᵢ² = uᵢ²·scaleᵢ², V =
/// Σ sᵢ²·(1 + 1 / buildsᵢ), r = S − Σ uᵢ·meanᵢ, gain gᵢ = sᵢ² / buildsᵢ / V and share wᵢ = sᵢ²·(1 + 1 / buildsᵢ) / V:
///
/// ```text
/// uᵢ·mean' = uᵢ·mean + gᵢ·r             builds' = builds / (1 − gᵢ)
/// freedom' = freedom + wᵢ               freedom'·scale'² = freedom·scale² + wᵢ·scale²·r² / V
/// ```
///
/// Given the variances the first line is the exact mean and variance of each μᵢ; that the means then hang together
/// is left out, and the surprise r² / V tells on each variance by its share. With one line both are the conjugate
/// update itself.
///
/// # Source
/// A. Gelman and others, Bayesian Data Analysis, third edition, 2013, section 3.3, normal data with a conjugate prior
/// distribution; from memory. The rule for sums is our own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Line {
    /// What a head loses on average.
    pub mean: f64,
    /// How many builds the mean counts for.
    pub builds: f64,
    /// Degrees of freedom of the scale.
    pub freedom: f64,
    /// The scale: what is known of the standard deviation.
    pub scale: f64,
}

/// What is to be expected of a sum of lines: Student's t.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sum {
    pub mean: f64,
    pub scale: f64,
    pub freedom: f64,
}

impl Line {
    /// The published numbers: with nothing weighed the mean is the published one and the spread of the next head too.
    pub fn of([mean, spread]: [f64; 2]) -> Self {
        let spread = spread.max(LEAST_SPREAD * mean);
        let of_next = (1.0 + 1.0 / PRIOR_BUILDS) * PRIOR_FREEDOM / (PRIOR_FREEDOM - 2.0);
        Self {
            mean,
            builds: PRIOR_BUILDS,
            freedom: PRIOR_FREEDOM,
            scale: spread / of_next.sqrt(),
        }
    }

    /// The scale of Student's t of the next head.
    pub fn next_scale(self) -> f64 {
        self.scale * (1.0 + 1.0 / self.builds).sqrt()
    }

    /// Standard deviation of the next head.
    pub fn spread(self) -> f64 {
        self.next_scale() * self.of_student()
    }

    /// Standard deviation of what is not known of the mean.
    pub fn mean_spread(self) -> f64 {
        self.scale / self.builds.sqrt() * self.of_student()
    }

    /// Standard deviation of Student's t over its scale. The freedom only grows from the prior's.
    fn of_student(self) -> f64 {
        (self.freedom / (self.freedom - 2.0)).sqrt()
    }

    /// Square of the scale of what the next head loses of this line, in kg².
    fn variance(self, kg_per_unit: f64) -> f64 {
        (self.next_scale() * kg_per_unit).powi(2)
    }

    /// What is to be expected of the sum of the lines at these places, with the kg of one of their unit. The freedom is
    /// that of the lines by their share in the variance.
    pub fn sum(lines: &[Self], units: &[(usize, f64)]) -> Sum {
        let (mut mean, mut variance, mut freedom) = (0.0, 0.0, 0.0);
        for (at, kg) in units {
            let line = lines[*at];
            mean += line.mean * kg;
            variance += line.variance(*kg);
            freedom += line.freedom * line.variance(*kg);
        }
        Sum {
            mean,
            scale: variance.sqrt(),
            freedom: freedom / variance,
        }
    }

    /// Learns from one sum of `kg`.
    pub fn learn(lines: &mut [Self], units: &[(usize, f64)], kg: f64) {
        let sum = Self::sum(lines, units);
        let (off, whole) = (kg - sum.mean, sum.scale * sum.scale);
        for (at, per_unit) in units {
            let line = &mut lines[*at];
            let share = line.variance(*per_unit) / whole;
            // gain = scale² / builds / whole, and variance = scale²·(1 + 1 / builds).
            let gain = share / (line.builds + 1.0);
            let squares = line.freedom * line.scale * line.scale
                + share * line.scale * line.scale * off * off / whole;
            line.mean += gain * off / per_unit;
            line.builds /= 1.0 - gain;
            line.freedom += share;
            line.scale = (squares / line.freedom).sqrt();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    const TOLD: [f64; 5] = [9.1, 7.4, 10.2, 8.8, 12.6];

    fn told(xs: &[f64]) -> Line {
        let mut lines = [Line::of([8.0, 3.0])];
        for x in xs {
            Line::learn(&mut lines, &[(0, 0.0123)], x * 0.0123);
        }
        lines[0]
    }

    #[test]
    fn with_nothing_weighed_a_line_is_as_published() {
        let line = told(&[]);
        assert_eq!(line.mean, 8.0);
        assert_relative_eq!(line.spread(), 3.0, max_relative = 1e-15);
    }

    /// The closed forms for n values at once: κₙ = κ₀ + n, μₙ = (κ₀μ₀ + n·x̄) / κₙ, νₙ = ν₀ + n, νₙσₙ² = ν₀σ₀² + Σ(x − x̄)²
    /// + κ₀n / κₙ·(x̄ − μ₀)².
    #[test]
    fn one_after_the_other_comes_to_the_closed_forms_for_all_at_once() {
        let (first, line) = (told(&[]), told(&TOLD));
        let n = TOLD.len() as f64;
        let mean = TOLD.iter().sum::<f64>() / n;
        let squares: f64 = TOLD.iter().map(|x| (x - mean).powi(2)).sum();
        let builds = 2.0 + n;
        assert_relative_eq!(line.builds, builds, max_relative = 1e-14);
        assert_relative_eq!(line.freedom, 4.0 + n, max_relative = 1e-14);
        assert_relative_eq!(
            line.mean,
            (2.0 * 8.0 + n * mean) / builds,
            max_relative = 1e-14
        );
        let sum = 4.0 * first.scale.powi(2) + squares + 2.0 * n / builds * (mean - 8.0).powi(2);
        assert_relative_eq!(line.scale, (sum / (4.0 + n)).sqrt(), max_relative = 1e-13);
    }

    #[test]
    fn the_order_of_what_was_weighed_alone_does_not_matter() {
        let mut turned = TOLD;
        turned.reverse();
        let (a, b) = (told(&TOLD), told(&turned));
        assert_relative_eq!(a.mean, b.mean, max_relative = 1e-14);
        assert_relative_eq!(a.scale, b.scale, max_relative = 1e-13);
    }

    #[test]
    fn with_much_evidence_the_published_numbers_are_forgotten() {
        // ±2 about 20 in turns: mean 20, standard deviation 2.
        let xs: Vec<f64> = (0..4000)
            .map(|i| if i % 2 == 0 { 22.0 } else { 18.0 })
            .collect();
        let line = told(&xs);
        assert_relative_eq!(line.mean, 20.0, max_relative = 1e-3);
        assert_relative_eq!(line.spread(), 2.0, max_relative = 1e-2);
        assert!(line.mean_spread() < 0.04);
    }

    /// Means given the variances: the normal model with Σ uᵢ·xᵢ seen, solved as two normal equations.
    #[test]
    fn a_sum_moves_each_mean_as_the_exact_model_with_known_variances_does() {
        let mut lines = [Line::of([8.0, 3.0]), Line::of([0.5, 0.2])];
        // Different numbers of builds behind the two.
        Line::learn(&mut lines, &[(1, 2.0)], 1.3);
        let before = lines;
        let (u, seen) = ([0.01, 0.3], 0.31);
        Line::learn(&mut lines, &[(0, u[0]), (1, u[1])], seen);
        let prior = [0, 1].map(|i| before[i].scale.powi(2) / before[i].builds);
        let noise: f64 = (0..2).map(|i| (u[i] * before[i].scale).powi(2)).sum();
        // Precision matrix P = diag(1 / prior) + u·uᵀ / noise, its right side prior means / prior + u·seen / noise.
        let p =
            |i: usize, j: usize| u[i] * u[j] / noise + if i == j { 1.0 / prior[i] } else { 0.0 };
        let right = [0, 1].map(|i| before[i].mean / prior[i] + u[i] * seen / noise);
        let det = p(0, 0) * p(1, 1) - p(0, 1) * p(1, 0);
        let mean = [
            (right[0] * p(1, 1) - right[1] * p(0, 1)) / det,
            (right[1] * p(0, 0) - right[0] * p(1, 0)) / det,
        ];
        let variance = [p(1, 1) / det, p(0, 0) / det];
        for i in 0..2 {
            assert_relative_eq!(lines[i].mean, mean[i], max_relative = 1e-12);
            let of_mean = before[i].scale.powi(2) / lines[i].builds;
            assert_relative_eq!(of_mean, variance[i], max_relative = 1e-12);
        }
    }

    #[test]
    fn a_line_that_is_said_to_be_certain_still_learns() {
        let mut lines = [Line::of([8.0, 0.0])];
        Line::learn(&mut lines, &[(0, 1.0)], 11.0);
        assert_relative_eq!(lines[0].mean, 9.0, max_relative = 1e-14);
        assert!(lines[0].spread() > 1.0);
    }
}
