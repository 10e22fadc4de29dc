//! What an end can be worked into, by its word in the trade.

use super::{Ball, Corner, Crown, Design, Edge, Face, Outline, Pein, Side, Tip};
use crate::solid::Head;
use crate::units::{Angle, Length};

/// What an end is worked into, without its sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TipShape {
    /// A striking face.
    Face,
    /// A ball.
    Ball,
    /// A pein whose edge lies across the handle.
    CrossPein,
    /// A pein whose edge lies along the handle.
    StraightPein,
    /// A pein whose edge lies aslant.
    DiagonalPein,
}

/// A pein turned by no more than this is a cross pein, and by no less than a right angle less this a straight one.
const NEARLY_DEGREES: f64 = 22.5;

impl TipShape {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::Face,
        Self::Ball,
        Self::CrossPein,
        Self::StraightPein,
        Self::DiagonalPein,
    ];

    /// What `tip` is; a pein goes by the nearest direction.
    pub fn of(tip: &Tip) -> Self {
        match tip {
            Tip::Face(_) => Self::Face,
            Tip::Ball(_) => Self::Ball,
            Tip::Pein(pein) => {
                let turned = pein.direction.in_degrees().abs();
                if turned <= NEARLY_DEGREES {
                    Self::CrossPein
                } else if turned >= 90.0 - NEARLY_DEGREES {
                    Self::StraightPein
                } else {
                    Self::DiagonalPein
                }
            }
        }
    }

    /// Its name: "cross pein".
    pub const fn words(self) -> &'static str {
        match self {
            Self::Face => "face",
            Self::Ball => "ball",
            Self::CrossPein => "cross pein",
            Self::StraightPein => "straight pein",
            Self::DiagonalPein => "diagonal pein",
        }
    }

    /// How far the edge is turned from across the handle, where it is a pein.
    const fn direction(self) -> Option<Angle> {
        match self {
            Self::Face | Self::Ball => None,
            Self::CrossPein => Some(Angle::degrees(0.0)),
            Self::DiagonalPein => Some(Angle::degrees(45.0)),
            Self::StraightPein => Some(Angle::degrees(90.0)),
        }
    }
}

impl Design {
    /// The end of `side` worked into another thing, about as wide as what it is, and the reach with which it begins where
    /// the other did: then the stations before it stay in order. A pein that becomes another is turned and stays as long.
    pub fn worked_into(&self, side: Side, shape: TipShape) -> (Tip, Length) {
        let end = self.end(side);
        if let (Tip::Pein(pein), Some(direction)) = (&end.tip, shape.direction()) {
            let pein = Pein {
                direction,
                ..pein.clone()
            };
            return (Tip::Pein(pein), end.reach);
        }
        let head = Head::lift(self, &mut |_, number| number);
        let (begin, _) = head.end(side).tip.station();
        let half_up = |mm: f64| (mm * 2.0).ceil() / 2.0;
        let across = match &end.tip {
            Tip::Face(face) => face.outline.width,
            Tip::Ball(ball) => ball.diameter,
            Tip::Pein(pein) => pein.outline.width,
        };
        let share = |share: f64| across.with_mm(half_up(across.in_mm() * share));
        let (tip, length) = match (shape, shape.direction()) {
            (_, Some(direction)) => {
                let pein = Pein {
                    at: end.reach.with_mm(half_up(begin)),
                    outline: Outline::equal(across, Corner::Octagon),
                    direction,
                    edge: across,
                    nose: share(0.125),
                    rocker: None,
                    hollow: None,
                    corner_break: None,
                };
                (Tip::Pein(pein), across.in_mm())
            }
            (TipShape::Ball, None) => {
                // Three quarters look like a neck, and leave room for a sound one.
                let neck = share(0.75);
                let (r, n) = (0.5 * across.in_mm(), 0.5 * neck.in_mm());
                let depth = (r * r - n * n).max(0.0).sqrt();
                let diameter = across;
                (Tip::Ball(Ball { diameter, neck }), r + depth)
            }
            _ => {
                let (land, crown) = (share(0.25), share(4.0));
                let face = Face {
                    outline: Outline::equal(across, Corner::Round),
                    land,
                    crown: Crown::Radius(crown),
                    edge: Edge::Rounded(across.with_mm(2.0)),
                };
                // The crown falls by less than the square of half the width over its radius.
                let fall = (0.5 * across.in_mm()).powi(2) / crown.in_mm();
                (Tip::Face(face), land.in_mm() + fall)
            }
        };
        (tip, end.reach.with_mm(half_up(begin + length)))
    }
}
