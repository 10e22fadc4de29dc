//! How a quenched bar cools, and where an end-quench bar cools alike.
//!
//! A quench is one number, its severity H = h/2k: the heat that the skin gives away for every degree above the bath, over
//! twice the steel's conductivity. A long round of diameter D then cools as
//!
//! ```text
//! θ(Fo, ρ) = Σ 2 J₁(β) / (β (J₀²(β) + J₁²(β))) · J₀(βρ) · exp(−β² Fo),   β J₁(β) = Bi J₀(β),   Bi = H·D
//! ```
//!
//! with θ the share of the first temperature above the bath that is left, ρ the share of the radius and Fo = αt/R²; a
//! plate of thickness s at its middle as
//!
//! ```text
//! θ(Fo) = Σ 4 sin β / (2β + sin 2β) · exp(−β² Fo),   β tan β = Bi,   Bi = H·s
//! ```
//!
//! A prism with a rectangular section is the product of two plates.
//!
//! # Which place of an end-quench bar cools alike
//! Two answers, which are the edges of a band:
//! - **Half temperature** (M. A. Grossmann): the place that comes to half of its first temperature above the bath after the
//!   same time. The end-quench bar is taken as half-infinite with an ideal quench at its end, θ = erf(x / 2√(αt)), so that
//!   x = 0.9539 √(αt): diffusivity and temperatures drop out.
//! - **Rate at 704 °C**: the place that cools as fast when it passes 704 °C, by the rates that end-quench charts print
//!   ([`RATES`]). It finds the skin harder, where one severity for the whole quench says too little of the boiling that
//!   counts; measured skins are (50 HRC on a round of 2 in of 1040 from water, from memory), so at the skin it makes both
//!   edges.
//!
//! # Source
//! Series: textbooks of heat conduction, after H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids (from memory);
//! tried against an independent numerical solution in `tests/heat.rs`. Severity and half temperature: M. A. Grossmann, M. Asimow
//! and S. F. Urban, 1939, as G. E. Totten and others restate them.

use std::f64::consts::PI;

use crate::numeric::roots::{bisected, crossing};

/// Diffusivity of austenite near 700 °C, mm²/s (from memory: conductivity 26 W/(m·K), density 7600 kg/m³, specific heat
/// 610 J/(kg·K)). Only the rate at 704 °C needs it.
pub const DIFFUSIVITY_MM2_S: f64 = 5.6;
/// Where an end-quench chart prints rates, °C: 1300 °F.
pub const RATE_CELSIUS: f64 = 704.0;
/// Distance from the quenched end in sixteenths of an inch, and the rate there at 704 °C in °F/s, as the standard chart
/// prints them (rates read in a reprint of the chart, their distances from memory).
pub const RATES: [(f64, f64); 10] = [
    (1.0, 490.0),
    (2.0, 305.0),
    (4.0, 125.0),
    (6.0, 56.0),
    (8.0, 33.0),
    (12.0, 16.3),
    (16.0, 10.0),
    (20.0, 7.0),
    (24.0, 5.1),
    (32.0, 3.5),
];
const SIXTEENTH_MM: f64 = 25.4 / 16.0;
/// Twice the argument at which the error function is a half.
const HALF_DEPTH: f64 = 2.0 * 0.476_936_276_204_469_9;
/// Terms of a series: with them a skin is known down to the least Fourier number that is asked for.
const TERMS: usize = 80;
/// Fourier numbers between which a half is looked for.
const FOURIER: (f64, f64) = (1e-4, 1e6);
/// A term below this is nothing.
const NOTHING: f64 = 1e-15;

/// A long round that cools.
#[derive(Clone, Debug)]
pub struct Round {
    /// β and 2 J₁(β) / (β (J₀² + J₁²)).
    terms: Vec<(f64, f64)>,
}

/// Where `f` changes sign between two points.
fn between(from: f64, to: f64, f: impl Fn(f64) -> f64) -> Option<f64> {
    crossing((from, f(from)), (to, f(to)), f)
}

/// The k-th zero of J₁ from 1, or 0 for none: from McMahon's expansion, which brackets it, refined.
fn zero_of_j1(k: usize) -> f64 {
    if k == 0 {
        return 0.0;
    }
    let about = (k as f64 + 0.25) * PI;
    between(about - 0.3, about + 0.1, libm::j1).unwrap_or(about)
}

impl Round {
    /// With this Biot number, H·D.
    pub fn new(biot: f64) -> Self {
        Self::of_terms(biot, TERMS)
    }

    /// The same with fewer terms, for what is only asked of its centre and late.
    pub(super) fn of_terms(biot: f64, count: usize) -> Self {
        let balance = |x: f64| x * libm::j1(x) - biot * libm::j0(x);
        let zeros: Vec<f64> = (0..=count).map(zero_of_j1).collect();
        let terms = zeros.windows(2).filter_map(|pair| {
            // Between two zeros of J₁ the balance changes sign once.
            let beta = between(pair[0], pair[1], balance)?;
            let (j0, j1) = (libm::j0(beta), libm::j1(beta));
            Some((beta, 2.0 * j1 / (beta * (j0 * j0 + j1 * j1))))
        });
        Self {
            terms: terms.collect(),
        }
    }

    /// What is left of the first temperature above the bath at the share `rho` of the radius.
    pub fn left(&self, fourier: f64, rho: f64) -> f64 {
        self.sum(fourier, |beta, share| share * libm::j0(beta * rho))
    }

    /// How fast it falls: −dθ/dFo.
    pub fn falls(&self, fourier: f64, rho: f64) -> f64 {
        self.sum(fourier, |beta, share| {
            beta * beta * share * libm::j0(beta * rho)
        })
    }

    fn sum(&self, fourier: f64, term: impl Fn(f64, f64) -> f64) -> f64 {
        let sum = self.terms.iter().map(|(beta, share)| {
            let fading = (-beta * beta * fourier).exp();
            if fading < NOTHING {
                0.0
            } else {
                fading * term(*beta, *share)
            }
        });
        sum.sum()
    }

    /// The Fourier number at which `level` is left.
    pub fn fourier_at(&self, level: f64, rho: f64) -> f64 {
        when(level, |fourier| self.left(fourier, rho))
    }
}

/// A plate that cools from both sides, at its middle.
#[derive(Clone, Debug)]
pub struct Plate {
    /// β and 4 sin β / (2β + sin 2β).
    terms: Vec<(f64, f64)>,
}

impl Plate {
    /// With this Biot number, H·s.
    pub fn new(biot: f64) -> Self {
        // Between kπ and kπ + π/2 the balance β sin β − Bi cos β changes sign once.
        let balance = |x: f64| x * x.sin() - biot * x.cos();
        let terms = (0..TERMS).filter_map(|k| {
            let from = k as f64 * PI;
            let beta = between(from, from + 0.5 * PI, balance)?;
            Some((beta, 4.0 * beta.sin() / (2.0 * beta + (2.0 * beta).sin())))
        });
        Self {
            terms: terms.collect(),
        }
    }

    /// What is left at its middle.
    pub fn left(&self, fourier: f64) -> f64 {
        let sum = self.terms.iter().map(|(beta, share)| {
            let fading = (-beta * beta * fourier).exp();
            if fading < NOTHING {
                0.0
            } else {
                fading * share
            }
        });
        sum.sum()
    }
}

/// When a fall from 1 to 0 passes `level`, between the Fourier numbers that are looked at.
pub(super) fn when(level: f64, left: impl Fn(f64) -> f64) -> f64 {
    const HALVINGS: usize = 44;
    let (least, most) = (FOURIER.0.ln(), FOURIER.1.ln());
    let at = bisected(HALVINGS, least, most, |log| left(log.exp()) - level);
    at.map_or_else(
        || {
            if left(FOURIER.0) <= level {
                FOURIER.0
            } else {
                FOURIER.1
            }
        },
        f64::exp,
    )
}

/// The distance in an end-quench bar, mm, at which half of the first temperature is left after `alpha_t_mm2`, time
/// times diffusivity.
pub fn end_quench_by_half_mm(alpha_t_mm2: f64) -> f64 {
    HALF_DEPTH * alpha_t_mm2.sqrt()
}

/// The distance in an end-quench bar, mm, at which it cools by `kelvin_per_s` when it passes 704 °C: between the rates of the
/// chart, and beyond them, straight between logarithms.
pub fn end_quench_by_rate_mm(kelvin_per_s: f64) -> f64 {
    let rate = (1.8 * kelvin_per_s).max(f64::MIN_POSITIVE).ln();
    let logs = RATES.map(|(sixteenths, rate)| ((sixteenths * SIXTEENTH_MM).ln(), rate.ln()));
    let span = logs
        .windows(2)
        .find(|pair| rate >= pair[1].1)
        .unwrap_or(&logs[logs.len() - 2..]);
    let [(x0, y0), (x1, y1)] = [span[0], span[1]];
    (x0 + (x1 - x0) * (rate - y0) / (y1 - y0)).exp()
}
