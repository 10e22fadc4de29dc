//! What makes a head possible: every condition as a margin that must not be negative.
//!
//! One list serves both uses: a build refuses a head with a negative margin, and a fit, which
//! asks for the margins as dual numbers, stays on the right side of them.

use super::{Bulge, Cap, Head, Lugs, Pein, Rim, Section, Tail, Tip};
use crate::design::{Part, Side};
use crate::numeric::Scalar;

/// Stations are at least this far apart, mm.
pub const LEAST_GAP: f64 = 0.5;
/// The least cheek wall, mm (common practice, no source).
pub const LEAST_WALL: f64 = 6.0;
/// The least steel between the eye and an end of the cheek block, mm (common practice, no source).
pub const LEAST_END_WALL: f64 = 4.0;
/// The waist lies at least this far inside both mouths, mm.
pub const LEAST_WAIST_DEPTH: f64 = 2.0;
/// κ²r² at the rim stays below this: nearer to 1 the crown turns vertical.
pub const MOST_CROWN: f64 = 0.98;

/// The neck of a ball is at most this share of the ball: nearer to 1 the sphere would leave it
/// without a crease.
pub const MOST_NECK: f64 = 0.98;

/// The rocker radius times this reaches every part of the pein: nearer to 1 it turns along the
/// head.
pub const MOST_ROCKER: f64 = 0.9;

/// A condition of soundness.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Check {
    /// The corner of a section is no larger than half its width.
    CornerAcross(Part),
    /// The corner of a section is no larger than half its height.
    CornerUp(Part),
    /// An obround or rounded-rectangle eye is at least as long as its corners need.
    EyeLength(Part),
    /// The corners of a rounded-rectangle eye fit its width.
    EyeRadius(Part),
    /// The eye stays clear of the block's end.
    EndWall(Side),
    /// The cheek walls beside the eye.
    Wall,
    /// A waist beyond the cheeks proper, from which the eye comes back into the steel.
    WaistBeyond,
    /// The lugs end within the block.
    LugLength(Side),
    /// The lugs rise less steeply than the eye's wall leans towards their middle, or the eye would
    /// leave the steel and come back into it.
    LugSlope,
    /// The waist lies inside the mouths.
    Waist,
    /// Run `.1` of an end is long enough for its stations not to touch.
    Gap(Side, u8),
    /// The crown is flat enough at the rim.
    Crown(Side),
    /// The land reaches the lowest point of the rim.
    Land(Side),
    /// The broken rim is smaller than half the width and half the height of the face.
    Edge(Side),
    /// The ball is thicker than its neck.
    BallNeck(Side),
    /// The nose circle lies within the pein.
    Nose(Side),
    /// The nose is no thicker than the pein where it begins.
    NoseThickness(Side),
    /// The hollow leaves steel.
    Hollow(Side),
    /// The rocker leaves half of the pein's length at the ends of the edge.
    Rocker(Side),
    /// The rocker is flat enough for every part of the pein.
    RockerReach(Side),
    /// The broken ends leave some of the edge.
    CornerBreak(Side),
}

/// Calls `each` with every condition on `head` and its margin, mm (for [`Check::Crown`] a plain
/// number); a head is sound when none is negative and every dimension is inside its bounds.
pub fn checks<T: Scalar>(head: &Head<T>, each: &mut dyn FnMut(Check, T)) {
    section(Part::Cheeks, &head.cheeks, each);
    eye(head, each);
    for side in Side::BOTH {
        end(side, head.end(side), each);
    }
}

fn section<T: Scalar>(part: Part, section: &Section<T>, each: &mut dyn FnMut(Check, T)) {
    // A round section's corner is its whole size: always as large as it may be.
    if section.c.value() != section.a.value() {
        each(Check::CornerAcross(part), section.a - section.c);
    }
    if section.d.value() != section.b.value() {
        each(Check::CornerUp(part), section.b - section.d);
    }
}

fn eye<T: Scalar>(head: &Head<T>, each: &mut dyn FnMut(Check, T)) {
    let plug = &head.eye;
    for (part, level) in [
        (Part::EyeTop, plug.top),
        (Part::EyeWaist, plug.waist),
        (Part::EyeBottom, plug.bottom),
    ] {
        if level.c.value() != level.p.value() {
            each(Check::EyeLength(part), level.p - level.c);
        }
        if level.d.value() != level.q.value() {
            each(Check::EyeRadius(part), level.q - level.d);
        }
    }
    for side in Side::BOTH {
        let way = if side == Side::Front { 1.0 } else { -1.0 };
        let (_, farthest) = plug.farthest(way);
        let room = head.end(side).block_end() - farthest - LEAST_END_WALL;
        each(Check::EndWall(side), room);
    }
    let [low, high] = plug.mouths;
    let (below, above) = (plug.waist_height - low, high - plug.waist_height);
    let nearer = if below.value() < above.value() {
        below
    } else {
        above
    };
    each(Check::Waist, nearer - LEAST_WAIST_DEPTH);
    for wall in head.walls() {
        each(Check::Wall, wall.thickness - LEAST_WALL);
    }
    if let Some(wall) = head.waist_beyond() {
        each(Check::WaistBeyond, wall.thickness);
    }
    if let Some(Bulge {
        lugs: Some(Lugs { half_length, .. }),
        ..
    }) = head.bulge()
    {
        each(Check::LugSlope, *half_length - head.least_lug());
        for side in Side::BOTH {
            each(
                Check::LugLength(side),
                head.end(side).block_end() - *half_length,
            );
        }
    }
}

fn end<T: Scalar>(side: Side, tail: &Tail<T>, each: &mut dyn FnMut(Check, T)) {
    for (index, run) in tail.runs.iter().enumerate().skip(1) {
        each(Check::Gap(side, index as u8), run.to - run.from - LEAST_GAP);
        if index + 1 < tail.runs.len() {
            section(Part::Neck(side, index as u8 - 1), &run.outer, each);
        }
    }
    match &tail.tip {
        Tip::Face(cap) => face(side, cap, each),
        Tip::Ball(ball) => each(
            Check::BallNeck(side),
            (ball.radius * MOST_NECK - ball.neck) * 2.0,
        ),
        Tip::Pein(tip) => pein(side, tip, each),
    }
}

fn pein<T: Scalar>(side: Side, pein: &Pein<T>, each: &mut dyn FnMut(Check, T)) {
    section(Part::Pein(side), &pein.section, each);
    let length = pein.reach - pein.nose - pein.start;
    let distance = (length * length + pein.root * pein.root).sqrt();
    each(Check::Nose(side), distance - pein.nose - LEAST_FACE);
    each(Check::NoseThickness(side), pein.root - pein.nose);
    each(Check::Hollow(side), pein.thinnest() - LEAST_FACE);
    if pein.rocker.value() > 0.0 {
        let farthest = pein.farthest();
        let radius = pein.rocker.recip();
        each(Check::RockerReach(side), radius * MOST_ROCKER - farthest);
        // Beyond that the rocker has no depth there to be asked for.
        if (radius * MOST_ROCKER).value() >= farthest.value() {
            let half = pein.length() * 0.5 - pein.recess(pein.half_edge);
            let most = pein.length() * MOST_ROCKER - pein.recess(farthest);
            each(
                Check::Rocker(side),
                if half.value() < most.value() {
                    half
                } else {
                    most
                },
            );
        }
    }
    if pein.corner_break.value() > 0.0 {
        let shorter = if pein.half_edge.value() < pein.length().value() {
            pein.half_edge
        } else {
            pein.length()
        };
        each(
            Check::CornerBreak(side),
            shorter - LEAST_FACE - pein.corner_break,
        );
    }
}

fn face<T: Scalar>(side: Side, cap: &Cap<T>, each: &mut dyn FnMut(Check, T)) {
    section(Part::Face(side), &cap.outline, each);
    let rim = cap.outline.farthest_squared();
    let steepness = cap.curvature * cap.curvature * rim;
    if cap.curvature.value() > 0.0 {
        each(Check::Crown(side), -steepness + MOST_CROWN);
    }
    if steepness.value() < MOST_CROWN {
        let drop = if cap.rim == Rim::Sharp {
            T::constant(0.0)
        } else {
            cap.edge
        };
        let top = cap.sag(cap.outline.b * cap.outline.b);
        each(Check::Land(side), cap.land - (cap.sag(rim) - top) - drop);
    }
    if cap.rim != Rim::Sharp {
        let Section { a, b, .. } = cap.outline;
        let half = if a.value() < b.value() { a } else { b };
        each(Check::Edge(side), half - LEAST_FACE - cap.edge);
    }
}

/// What is left of half a face by its broken rim, of half an edge by its broken ends, of half a
/// pein by its hollow, mm: some, not nothing.
pub const LEAST_FACE: f64 = 0.05;
