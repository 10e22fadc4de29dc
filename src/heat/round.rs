//! The round that cools at its centre as an end of the head does.

use serde::Serialize;

use super::cooling::{Plate, Round, when};
use crate::design::Side;
use crate::solid::{Pein, Section, Solid, Tip};
use crate::units::MM_PER_INCH;

/// How far behind its edge a pein is looked at, mm: half an inch, as far as ASME B107.54-2001 asks for a hard pein.
pub const BEHIND_THE_NOSE_MM: f64 = 12.7;

/// An end of the head as the quench sees it. Lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct EndRound {
    /// Which end.
    #[serde(skip)]
    pub side: Side,
    /// How far behind the farthest point its section is taken.
    pub behind_mm: f64,
    /// The section there: of a pein its thickness and its length along the edge, else across and up.
    pub section_mm: [f64; 2],
    /// What of the rectangle around it that section fills beyond the ellipse in it: 0 for a round, 1 for sharp corners.
    pub corners: f64,
}

/// Diameter of the round whose centre comes to half temperature when that of a long bar does, in the same quench.
///
/// The bar is a rectangle `section_mm` whose corners are taken off as far as `corners` says: at 1 it is the product of two
/// plates, at 0 an ellipse, which for equal sizes is that round itself and else shrinks as the rectangle does; between
/// them it goes by the share. `severity` is H in 1/in.
///
/// # Accuracy
/// Exact for a round and a rectangle; between them an estimate, within the 9 % by which a square and the round in it
/// differ at most.
pub fn equivalent_round(section_mm: [f64; 2], corners: f64, severity: f64) -> f64 {
    let [thin, wide] = [
        section_mm[0].min(section_mm[1]),
        section_mm[0].max(section_mm[1]),
    ];
    let rectangle = round_for_rectangle([thin, wide], severity);
    let round = rectangle * thin / round_for_rectangle([thin, thin], severity);
    round + (rectangle - round) * corners.clamp(0.0, 1.0)
}

fn round_for_rectangle(sides_mm: [f64; 2], severity: f64) -> f64 {
    let plates = sides_mm.map(|mm| Plate::new(severity * mm / MM_PER_INCH));
    let fourier = |side: f64, time: f64| time / (0.25 * side * side);
    // The time is counted in that of the thinner plate.
    let [thin, _] = sides_mm;
    let half = when(0.5, |time_of_thin| {
        let time = time_of_thin * 0.25 * thin * thin;
        plates[0].left(fourier(sides_mm[0], time)) * plates[1].left(fourier(sides_mm[1], time))
    });
    let alpha_t = half * 0.25 * thin * thin;
    // A greater round takes longer: between the thin side and far more than a plate's round the sign changes once. At the
    // centre and about half temperature the ninth term is below 1e-20.
    const TERMS: usize = 8;
    let misses = |diameter: f64| {
        let round = Round::of_terms(severity * diameter / MM_PER_INCH, TERMS);
        round.left(4.0 * alpha_t / (diameter * diameter), 0.0) - 0.5
    };
    const HALVINGS: usize = 30;
    crate::numeric::roots::bisected(HALVINGS, 0.9 * thin, 2.2 * thin, misses).unwrap_or(thin)
}

impl EndRound {
    /// The end of `solid` on `side`.
    pub fn of(solid: &Solid, side: Side) -> Self {
        match &solid.head().end(side).tip {
            Tip::Face(cap) => Self {
                side,
                behind_mm: cap.reach - cap.land_start(),
                section_mm: [2.0 * cap.outline.a, 2.0 * cap.outline.b],
                corners: corners(&cap.outline),
            },
            Tip::Ball(ball) => Self {
                side,
                behind_mm: ball.radius,
                section_mm: [2.0 * ball.radius; 2],
                corners: 0.0,
            },
            Tip::Pein(pein) => Self::of_pein(side, pein),
        }
    }

    fn of_pein(side: Side, pein: &Pein<f64>) -> Self {
        let at = (pein.reach - BEHIND_THE_NOSE_MM).max(pein.start);
        Self {
            side,
            behind_mm: pein.reach - at,
            section_mm: [2.0 * pein.thickness(at), 2.0 * pein.limit(at)],
            corners: 1.0,
        }
    }

    /// Its equivalent round in a quench of this severity, 1/in; mm.
    pub fn round_mm(&self, severity: f64) -> f64 {
        equivalent_round(self.section_mm, self.corners, severity)
    }
}

/// Front and back of `solid`.
pub fn end_rounds(solid: &Solid) -> [EndRound; 2] {
    Side::BOTH.map(|side| EndRound::of(solid, side))
}

/// The thickness that a soak has to warm through, mm: of all stations the thickest, measured across its thinner way.
pub(super) fn thickest_mm(solid: &Solid) -> f64 {
    let head = solid.head();
    let stations = head.ends.iter().flat_map(|tail| {
        let runs = tail.runs.iter().flat_map(|run| [run.inner, run.outer]);
        runs.chain([tail.tip.station().1])
    });
    let thickness = |section: Section<f64>| 2.0 * section.a.min(section.b);
    stations.map(thickness).fold(0.0, f64::max)
}

fn corners(outline: &Section<f64>) -> f64 {
    let rectangle = 4.0 * outline.a * outline.b;
    let ellipse = std::f64::consts::FRAC_PI_4 * rectangle;
    (outline.area() - ellipse) / (rectangle - ellipse)
}
