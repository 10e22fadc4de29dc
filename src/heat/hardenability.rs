//! How deep a steel hardens, from its composition.
//!
//! The ideal diameter is that of a round whose centre is half martensite after an ideal quench, one that brings the skin
//! to the bath's temperature at once; in inches it is a product of one factor for each element. The hardness at a
//! distance from the quenched end of an end-quench bar is that of martensite, by carbon alone, divided by a factor that
//! depends on the ideal diameter.
//!
//! # Validity
//! [`Validity`]. An austenitic grain size of 7 is assumed; phosphorus and sulphur are left out.
//!
//! # Accuracy
//! Of steels that harden shallow the ideal diameter is too great by up to a third against bands of 1045H (from memory),
//! so the band that is shown begins lower there ([`SHALLOW_SHARE`]); the curves, which are made for the calculated one, are read at
//! that. The end-quench curves at the edges of [`ideal_range_mm`] stay within 8 HRC
//! of those of 1045H, with the scrap's residuals, and within 4 HRC of those of 4140H (`tests/heat.rs`).
//!
//! # Source
//! ASTM A255-10 (2014), after M. A. Grossmann, Trans. AIME 150 (1942) 227–259, as the Metallurgical Engineer's Handbook, a public
//! page, restates it; the standard itself not read.

use super::composition::{Composition, Element, Span};
use crate::units::MM_PER_INCH;

/// The source.
pub const SOURCE: &str =
    "ASTM A255-10 (2014), as a public handbook restates it; grain size 7 assumed; an estimate";

/// What of the calculated ideal diameter a shallow-hardening steel may have, at least.
pub const SHALLOW_SHARE: f64 = 0.67;

/// How far the formulas hold for a composition.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Validity {
    /// In the range that the method is for.
    Within,
    /// Factors exist, but an element lies outside the range that the method is for.
    Beyond(Element),
    /// No factor exists.
    Outside(Element),
}

/// Element, the range of the method, and that in which factors exist; percent.
const RANGES: [(Element, [f64; 2], [f64; 2]); 9] = [
    (Element::C, [0.10, 0.70], [0.01, 0.90]),
    (Element::Mn, [0.50, 1.65], [0.0, 1.95]),
    (Element::Si, [0.15, 0.60], [0.0, 2.00]),
    (Element::Ni, [0.0, 1.50], [0.0, 3.50]),
    (Element::Cr, [0.0, 1.35], [0.0, 2.50]),
    (Element::Mo, [0.0, 0.55], [0.0, 0.55]),
    (Element::Cu, [0.0, 0.35], [0.0, 0.55]),
    (Element::V, [0.0, 0.20], [0.0, 0.20]),
    (Element::W, [0.0, 0.0], [0.0, 0.0]),
];

/// Whether the formulas hold for `composition`.
pub fn validity(composition: &Composition) -> Validity {
    // A certificate rounds to hundredths.
    const ROUNDING: f64 = 0.005;
    let misses = |[least, most]: [f64; 2], percent: f64| {
        !(least - ROUNDING..=most + ROUNDING).contains(&percent)
    };
    let outside = |wide: bool| {
        RANGES.iter().find_map(|(element, method, factors)| {
            let range = if wide { *factors } else { *method };
            misses(range, composition.percent(*element)).then_some(*element)
        })
    };
    match (outside(true), outside(false)) {
        (Some(element), _) => Validity::Outside(element),
        (None, Some(element)) => Validity::Beyond(element),
        (None, None) => Validity::Within,
    }
}

/// The factor of carbon, inches.
fn carbon_factor(c: f64) -> f64 {
    if c <= 0.39 {
        0.54 * c
    } else if c <= 0.55 {
        0.171 + 0.001 * c + 0.265 * c * c
    } else if c <= 0.65 {
        0.115 + 0.268 * c - 0.038 * c * c
    } else if c <= 0.75 {
        0.143 + 0.2 * c
    } else {
        0.062 + 0.409 * c - 0.135 * c * c
    }
}

/// The factor of an element.
pub fn factor(element: Element, percent: f64) -> f64 {
    match element {
        Element::C => carbon_factor(percent),
        Element::Mn if percent > 1.20 => 5.10 * percent - 1.12,
        Element::Mn => 3.3333 * percent + 1.0,
        Element::Si => 0.7 * percent + 1.0,
        Element::Ni if percent > 1.5 => {
            0.3211 + percent * (1.4501 + percent * (-0.6119 + 0.1253 * percent))
        }
        Element::Ni => 0.363 * percent + 1.0,
        Element::Cr => 2.16 * percent + 1.0,
        Element::Mo => 3.0 * percent + 1.0,
        Element::Cu => 0.365 * percent + 1.0,
        Element::V => 1.73 * percent + 1.0,
        Element::W | Element::P | Element::S => 1.0,
    }
}

/// The ideal diameter, mm. A number even where the formulas do not hold: see [`validity`].
pub fn ideal_diameter_mm(composition: &Composition) -> f64 {
    let factors = composition
        .iter()
        .map(|(element, percent)| factor(element, percent));
    MM_PER_INCH * factors.product::<f64>()
}

/// The least and the greatest ideal diameter of a range of compositions, mm.
///
/// No melt lies at the lean end of every element at once, so how far each factor may lie from that of the middle adds as
/// independent spreads do: ln² (DI / DI of the middle) = Σ ln² (factor / factor of the middle). Our own choice: bands of 4140H
/// (from memory) are met so within 4 HRC, while all elements at one end together fall 12 HRC short of them.
pub fn ideal_range_mm(span: &Span) -> [f64; 2] {
    let middle = span.middle();
    let log = |element, percent: f64| factor(element, percent).max(f64::MIN_POSITIVE).ln();
    let spread = |edge: &Composition| {
        let squares = edge.iter().map(|(element, percent)| {
            let off = log(element, percent) - log(element, middle.percent(element));
            off * off
        });
        squares.sum::<f64>().sqrt().exp()
    };
    let ideal = ideal_diameter_mm(&middle);
    [ideal / spread(&span.least), ideal * spread(&span.most)]
}

/// The most carbon that adds to the hardness of martensite, percent: above it the polynomial falls, while published
/// hardnesses stay near 65 HRC.
const MOST_CARBON_THAT_COUNTS: f64 = 0.70;

/// Hardness of martensite with `carbon` percent carbon, HRC.
pub fn martensite_hrc(carbon: f64) -> f64 {
    let c = carbon.min(MOST_CARBON_THAT_COUNTS);
    33.087 + c * (50.723 + c * (33.662 + c * (-2.7048 + c * (-107.02 + c * 43.523))))
}

/// Distance from the quenched end up to which the steel is all martensite, mm.
const ALL_MARTENSITE_MM: f64 = 1.5;
/// Below this ideal diameter, mm, the factors turn back; the curve of this one is taken with its distances shrunk in proportion
/// (our own, no source).
const LEAST_IDEAL_MM: f64 = 17.8;
/// The largest that the factors are for, 7 in.
const MOST_IDEAL_MM: f64 = 7.0 * MM_PER_INCH;

/// Of each distance, mm: up to which ideal diameter its factor falls, mm, and the factor's polynomial in the ideal diameter.
/// Beyond, the polynomial rises again or explodes, and the factor stays as it is there.
const FACTORS: [(f64, f64, [f64; 6]); 14] = [
    (
        3.0,
        51.8,
        [
            0.170547,
            0.173925,
            -0.0109281,
            0.000313863,
            -4.32086e-06,
            2.31674e-08,
        ],
    ),
    (
        5.0,
        104.3,
        [
            3.03987,
            -0.0855161,
            0.00138048,
            -9.98717e-06,
            2.64963e-08,
            5.46044e-12,
        ],
    ),
    (
        7.0,
        128.9,
        [
            4.32366,
            -0.134451,
            0.00228151,
            -1.9625e-05,
            8.35338e-08,
            -1.38456e-10,
        ],
    ),
    (
        9.0,
        137.6,
        [
            4.46324,
            -0.0992003,
            0.00119387,
            -7.40686e-06,
            2.26087e-08,
            -2.46815e-11,
        ],
    ),
    (
        11.0,
        145.6,
        [
            4.40915,
            -0.0792024,
            0.000674319,
            -1.97223e-06,
            -3.21758e-09,
            2.08025e-11,
        ],
    ),
    (
        13.0,
        151.4,
        [
            4.60261,
            -0.0820023,
            0.000718416,
            -2.528e-06,
            2.30089e-10,
            1.25368e-11,
        ],
    ),
    (
        15.0,
        159.6,
        [
            5.01595,
            -0.0957696,
            0.00095624,
            -4.62213e-06,
            8.92787e-09,
            -8.74859e-13,
        ],
    ),
    (
        20.0,
        175.9,
        [
            5.51133,
            -0.10431,
            0.00115299,
            -7.51801e-06,
            2.75126e-08,
            -4.311e-11,
        ],
    ),
    (
        25.0,
        177.9,
        [
            6.15369,
            -0.127486,
            0.00157885,
            -1.12233e-05,
            4.21359e-08,
            -6.4246e-11,
        ],
    ),
    (
        30.0,
        177.9,
        [
            7.16001,
            -0.171328,
            0.0024282,
            -1.91259e-05,
            7.6732e-08,
            -1.21571e-10,
        ],
    ),
    (
        35.0,
        177.9,
        [
            8.46964,
            -0.229424,
            0.00354915,
            -2.97166e-05,
            1.24831e-07,
            -2.0543e-10,
        ],
    ),
    (
        40.0,
        177.9,
        [
            9.13657,
            -0.252296,
            0.00394419,
            -3.33383e-05,
            1.41462e-07,
            -2.35541e-10,
        ],
    ),
    (
        45.0,
        177.9,
        [
            8.84696,
            -0.223317,
            0.00325787,
            -2.6293e-05,
            1.0819e-07,
            -1.76244e-10,
        ],
    ),
    (
        50.0,
        177.9,
        [
            8.10202,
            -0.171039,
            0.00212643,
            -1.52754e-05,
            5.78179e-08,
            -8.7989e-11,
        ],
    ),
];

/// The end-quench curve of a steel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EndQuench {
    /// Hardness of its martensite, HRC.
    martensite_hrc: f64,
    /// Its ideal diameter, mm.
    ideal_mm: f64,
}

impl EndQuench {
    /// The distances that factors exist for, mm.
    pub fn distances_mm() -> impl Iterator<Item = f64> {
        FACTORS.iter().map(|(distance, ..)| *distance)
    }

    /// The curve of a steel of `carbon` percent carbon and this ideal diameter.
    pub fn new(carbon: f64, ideal_mm: f64) -> Self {
        Self {
            martensite_hrc: martensite_hrc(carbon),
            ideal_mm,
        }
    }

    /// Hardness of its martensite, HRC.
    pub fn martensite_hrc(&self) -> f64 {
        self.martensite_hrc
    }

    /// Hardness at `distance_mm` from the quenched end, HRC. Between the distances of the factors it runs straight; beyond
    /// the last it stays, as an upper limit.
    pub fn hrc_at(&self, distance_mm: f64) -> f64 {
        let shrink = (self.ideal_mm / LEAST_IDEAL_MM).min(1.0);
        let ideal = self.ideal_mm.clamp(LEAST_IDEAL_MM, MOST_IDEAL_MM);
        let distance = distance_mm / shrink;
        let (mut before, mut hrc) = (ALL_MARTENSITE_MM, self.martensite_hrc);
        if distance <= before {
            return hrc;
        }
        for (at, falls_to, polynomial) in FACTORS {
            let x = ideal.min(falls_to);
            let factor = polynomial.iter().rev().fold(0.0, |sum, c| sum * x + c);
            // Never harder farther in.
            let there = (self.martensite_hrc / factor.max(1.0)).min(hrc);
            if distance <= at {
                return hrc + (there - hrc) * (distance - before) / (at - before);
            }
            (before, hrc) = (at, there);
        }
        hrc
    }
}
