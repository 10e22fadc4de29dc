//! The learning curve: what the n-th build takes.

use std::fmt;

use serde::Serialize;

use crate::numeric::student::{two_sided_quantile, two_sided_tail};
use crate::units::show_number;

/// The fewest finished builds that a curve is drawn through: fewer leave its range so wide that it says nothing.
pub const LEAST_BUILDS: usize = 5;
/// The share of cases that ranges are for.
pub const CURVE_SHARE: f64 = 0.9;
/// The largest factor that is told (a choice: a range that is wider says nothing): either way for the rate, and from
/// the middle of the next build's time to an end of its range.
pub const LARGEST_FACTOR: f64 = 100.0;

/// The learning curve: the n-th build takes a·nᵇ minutes.
///
/// A straight line by least squares through the logarithms of number and minutes,
///
/// ```text
/// ln T = ln a + b·ln n + e,   e normal with one spread for all builds
/// ```
///
/// so that the curve is the middle time of the n-th build, not its mean, and what lies off it is a factor. The range
/// of the rate and of the next build are Student's t with n − 2 degrees of freedom.
///
/// # Source
/// T. P. Wright, Factors Affecting the Cost of Airplanes, Journal of the Aeronautical Sciences 3 (1936) 122–128, from
/// memory. Wright's law is of the average over all so far; that of the n-th, which is taken here, is usual since
/// J. R. Crawford (from memory). The line, its standard errors and ranges are those of any text on regression.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Curve {
    /// How many builds it is drawn through.
    pub builds: usize,
    /// a: what the first takes by the curve, in minutes.
    pub first_minutes: f64,
    /// b: below 0 where the work becomes faster.
    pub exponent: f64,
    /// The standard error of b.
    pub exponent_error: f64,
    /// What each doubling of the number leaves of the time: 2ᵇ.
    pub rate: f64,
    /// The range that the true rate lies in, with nine chances of ten.
    pub rate_range: [f64; 2],
    /// The factor by which a build lies off the curve, one standard deviation.
    pub off_factor: f64,
    /// The share of the spread in the logarithms that the curve explains.
    pub explained: f64,
    /// How often so clear a trend would come about by chance with none behind it.
    pub chance: f64,
    /// The number of the next build.
    pub next: u32,
    /// What it will take by the curve, in minutes.
    pub next_minutes: f64,
    /// The range that its time lies in, with nine chances of ten.
    pub next_range: [f64; 2],
}

/// What may be said of the trend.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trend {
    /// The whole range of the rate lies below 1.
    Faster,
    /// The whole range of the rate lies above 1.
    Slower,
    /// The range holds 1: neither can be told.
    None,
}

/// Why there is no curve.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoCurve {
    /// Too few builds.
    #[error(
        "A learning curve is drawn through at least {LEAST_BUILDS} finished builds with minutes; there {}.",
        if *.0 == 1 { "is 1".to_owned() } else { format!("are {}", .0) }
    )]
    TooFew(usize),
    /// Builds whose numbers lie too close together.
    #[error(
        "No learning curve can be told yet from these {0} builds: their numbers lie too close together for minutes that \
         are so unlike."
    )]
    TooClose(usize),
}

/// The curve through `points`, each the number of a build, counted from 1 and none twice, and its minutes, above 0;
/// `next` is the number of the one that it foretells.
///
/// # Errors
/// Fewer than [`LEAST_BUILDS`], or numbers so close together that rate or range come to more than [`LARGEST_FACTOR`].
///
/// # Examples
/// ```
/// use headwright::log::minutes::curve;
///
/// // Each doubling leaves 80 %: 300, 240, 192 min.
/// let points = [1, 2, 3, 4, 5].map(|n| (n, 300.0 * f64::from(n).powf(0.8f64.log2())));
/// let curve = curve(&points, 8).expect("five builds");
/// assert!((curve.rate - 0.8).abs() < 1e-12);
/// assert!((curve.next_minutes - 153.6).abs() < 1e-9);
/// ```
pub fn curve(points: &[(u32, f64)], next: u32) -> Result<Curve, NoCurve> {
    if points.len() < LEAST_BUILDS {
        return Err(NoCurve::TooFew(points.len()));
    }
    let count = points.len() as f64;
    let logs = || {
        points
            .iter()
            .map(|(n, minutes)| (f64::from(*n).ln(), minutes.ln()))
    };
    let sum = |part: &dyn Fn((f64, f64)) -> f64| logs().map(part).sum::<f64>();
    let (x_mean, y_mean) = (sum(&|(x, _)| x) / count, sum(&|(_, y)| y) / count);
    let xx = sum(&|(x, _)| (x - x_mean).powi(2));
    let xy = sum(&|(x, y)| (x - x_mean) * (y - y_mean));
    let yy = sum(&|(_, y)| (y - y_mean).powi(2));
    let exponent = xy / xx;
    let log_first = y_mean - exponent * x_mean;
    let left = sum(&|(x, y)| (y - log_first - exponent * x).powi(2));
    let freedom = count - 2.0;
    let variance = left / freedom;
    let exponent_error = (variance / xx).sqrt();
    let t = two_sided_quantile(1.0 - CURVE_SHARE, freedom);
    let range = |middle: f64, error: f64| [(middle - t * error).exp(), (middle + t * error).exp()];
    let doubling = 2f64.ln();
    let x_next = f64::from(next).ln();
    let log_next = log_first + exponent * x_next;
    let next_error = (variance * (1.0 + 1.0 / count + (x_next - x_mean).powi(2) / xx)).sqrt();
    let curve = Curve {
        builds: points.len(),
        first_minutes: log_first.exp(),
        exponent,
        exponent_error,
        rate: exponent.exp2(),
        rate_range: range(exponent * doubling, exponent_error * doubling),
        off_factor: variance.sqrt().exp(),
        // All alike: nothing to explain, and nothing explained.
        explained: if yy > 0.0 {
            (1.0 - left / yy).max(0.0)
        } else {
            0.0
        },
        chance: if exponent == 0.0 {
            1.0
        } else {
            two_sided_tail(exponent / exponent_error, freedom)
        },
        next,
        next_minutes: log_next.exp(),
        next_range: range(log_next, next_error),
    };
    // What is no number is within no range either.
    let sane = |factor: f64| (1.0 / LARGEST_FACTOR..=LARGEST_FACTOR).contains(&factor);
    let [_, latest] = curve.next_range;
    if curve.rate_range.into_iter().all(sane) && sane(latest / curve.next_minutes) {
        Ok(curve)
    } else {
        Err(NoCurve::TooClose(points.len()))
    }
}

impl Curve {
    /// What may be said of the trend.
    pub fn trend(&self) -> Trend {
        let [low, high] = self.rate_range;
        if high < 1.0 {
            Trend::Faster
        } else if low > 1.0 {
            Trend::Slower
        } else {
            Trend::None
        }
    }
}

/// The curve in sentences, with how sure it is.
impl fmt::Display for Curve {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let percent = |share: f64| show_number((share * 100.0).round());
        let whole = |minutes: f64| show_number(minutes.round());
        let [low, high] = self.rate_range;
        let (builds, rate) = (self.builds, percent(self.rate));
        let between = format!("between {} % and {} %", percent(low), percent(high));
        match self.trend() {
            Trend::Faster => write!(
                f,
                "Every doubling of the number leaves {rate} % of the time ({between} with nine chances of ten, by {builds} \
                 builds)."
            )?,
            Trend::Slower => write!(
                f,
                "The work becomes slower: every doubling of the number makes {rate} % of the time ({between} with nine \
                 chances of ten, by {builds} builds)."
            )?,
            Trend::None => write!(
                f,
                "No trend can be told yet from {builds} builds: every doubling of the number leaves {between} of the \
                 time, with nine chances of ten."
            )?,
        }
        let [soonest, latest] = self.next_range;
        write!(
            f,
            " Build {} will take {} min, with nine chances of ten between {} min and {} min.",
            self.next,
            whole(self.next_minutes),
            whole(soonest),
            whole(latest)
        )
    }
}
