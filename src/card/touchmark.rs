//! Where a touchmark goes, and how deep.
//!
//! All of it is common practice, no source: a mark is struck on a flat that no work strikes, clear of the eye's rim, and
//! never deep into the thin wall beside the eye.

use crate::design::Side;
use crate::solid::Solid;

/// How far a mark keeps from the eye's rim, from edges and from the cheeks' ends, mm (common practice, no source).
pub const CLEAR_MM: f64 = 2.0;
/// The least flat that takes a mark, mm (common practice, no source).
pub const LEAST_FLAT_MM: f64 = 5.0;
/// The deepest a mark goes, mm (common practice, no source).
pub const DEEPEST_MM: f64 = 0.5;
/// The most of the steel under a mark, or of the cheek wall, that its depth may be (common practice, no source).
pub const MOST_OF_WALL: f64 = 0.05;

/// The surface that takes the mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Surface {
    /// The top of the cheeks, between the eye and this end of theirs.
    Top(Side),
    /// The flat of a cheek, beside the eye.
    Cheek,
}

/// A place for a touchmark.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Touchmark {
    /// On what.
    pub surface: Surface,
    /// x of its middle, mm in front of the handle axis.
    pub x_mm: f64,
    /// The flat that it has along the head and across that, mm.
    pub flat_mm: [f64; 2],
    /// How deep at most, mm.
    pub depth_mm: f64,
    /// What steel is then left under it, mm.
    pub left_mm: f64,
}

impl Touchmark {
    /// The place on `solid` with the largest square of flat, the solid top before the wall of a cheek; nothing where no
    /// flat is [`LEAST_FLAT_MM`] both ways.
    pub fn of(solid: &Solid) -> Option<Self> {
        let head = solid.head();
        let wall = head.least_wall()?.thickness;
        let (plug, cheeks) = (&head.eye, &head.cheeks);
        let [x, _] = plug.centre(plug.mouths[1]);
        let broken = plug.mouth_break.unwrap_or(0.0);
        // Swell and lugs leave nothing flat.
        if head.bulge().is_some() {
            return None;
        }
        let beyond = |side: Side| {
            let way = if side == Side::Front { 1.0 } else { -1.0 };
            let rim = way * x + plug.top.p + broken + CLEAR_MM;
            let end = head.end(side).block_end() - CLEAR_MM;
            let flat = [end - rim, 2.0 * (cheeks.a - cheeks.c - CLEAR_MM)];
            let under = 2.0 * cheeks.b;
            (
                Surface::Top(side),
                way * 0.5 * (rim + end),
                flat,
                under.min(wall),
            )
        };
        let block = [Side::Back, Side::Front].map(|side| head.end(side).block_end());
        let flat = [
            block[0] + block[1] - 2.0 * CLEAR_MM,
            2.0 * (cheeks.b - cheeks.d - CLEAR_MM),
        ];
        let beside = (Surface::Cheek, 0.5 * (block[1] - block[0]), flat, wall);
        let least = |flat: &[f64; 2]| flat[0].min(flat[1]);
        let tops = Side::BOTH.map(beyond);
        let top = if least(&tops[1].2) > least(&tops[0].2) {
            tops[1]
        } else {
            tops[0]
        };
        let (surface, x_mm, flat_mm, wall) = [top, beside]
            .into_iter()
            .find(|(_, _, flat, _)| least(flat) >= LEAST_FLAT_MM)?;
        let depth_mm = DEEPEST_MM.min(MOST_OF_WALL * wall);
        let steel = match surface {
            Surface::Top(_) => 2.0 * cheeks.b,
            Surface::Cheek => wall,
        };
        Some(Self {
            surface,
            x_mm,
            flat_mm,
            depth_mm,
            left_mm: steel - depth_mm,
        })
    }
}
