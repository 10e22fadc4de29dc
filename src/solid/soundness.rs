//! What makes a head possible: every condition as a margin that must not be negative.
//!
//! One list serves both uses: a build refuses a head with a negative margin, and a fit, which
//! asks for the margins as dual numbers, stays on the right side of them.

use super::{Cap, Head, Rim, Section, Tail, Tip};
use crate::design::{Part, Side};
use crate::numeric::Scalar;
use crate::numeric::roots::peak;

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
    /// The cheek wall at the top, the waist and the bottom of where it is measured.
    Wall(Level),
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
}

/// Where a wall is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// As high as the block's sides count as cheeks.
    Top,
    /// The waist of the eye.
    Waist,
    /// As low as the block's sides count as cheeks.
    Bottom,
}

impl Level {
    /// All three.
    pub const ALL: [Level; 3] = [Level::Top, Level::Waist, Level::Bottom];
}

/// Calls `each` with every condition on `head` and its margin, mm (for [`Check::Crown`] a plain
/// number); a head is sound when none is negative and every dimension is inside its bounds.
pub fn checks<T: Scalar>(head: &Head<T>, each: &mut impl FnMut(Check, T)) {
    section(Part::Cheeks, &head.cheeks, each);
    eye(head, each);
    for side in Side::BOTH {
        end(side, head.end(side), each);
    }
}

fn section<T: Scalar>(part: Part, section: &Section<T>, each: &mut impl FnMut(Check, T)) {
    // A round section's corner is its whole size: always as large as it may be.
    if section.c != section.a {
        each(Check::CornerAcross(part), section.a - section.c);
    }
    if section.d != section.b {
        each(Check::CornerUp(part), section.b - section.d);
    }
}

fn eye<T: Scalar>(head: &Head<T>, each: &mut impl FnMut(Check, T)) {
    let plug = &head.eye;
    for (part, level) in [
        (Part::EyeTop, plug.top),
        (Part::EyeWaist, plug.waist),
        (Part::EyeBottom, plug.bottom),
    ] {
        if level.c != level.p {
            each(Check::EyeLength(part), level.p - level.c);
        }
        if level.d != level.q {
            each(Check::EyeRadius(part), level.q - level.d);
        }
    }
    for side in Side::BOTH {
        let room = head.end(side).block_end() - plug.longest() - LEAST_END_WALL;
        each(Check::EndWall(side), room);
    }
    let depth = plug.half_height - LEAST_WAIST_DEPTH;
    let waist = plug.waist_height;
    each(
        Check::Waist,
        if waist.value() < 0.0 {
            depth + waist
        } else {
            depth - waist
        },
    );
    for level in Level::ALL {
        if let Some((z, least)) = wall(head, level) {
            let side = head.cheeks.half_width_at(z);
            each(Check::Wall(level), side - plug.at(z).q - least);
        }
    }
}

/// Height at which a wall is measured and the least it must be there; nothing when it need not
/// be measured.
///
/// The wall is the block's half-width, concave in height, less the eye's half-width, linear on
/// either side of the waist: it is least at one of the three levels. A waist beyond the cheeks
/// proper may lie outside the steel, as a mouth does, but where the eye comes back into the steel on
/// its way to the mouth, the waist must lie within it too.
pub(crate) fn wall<T: Scalar>(head: &Head<T>, level: Level) -> Option<(T, f64)> {
    let Section { b, d, .. } = head.cheeks;
    let flat = b - d;
    let half = b * 0.5;
    let limit = if flat.value() > half.value() {
        flat
    } else {
        half
    };
    let waist = head.eye.waist_height;
    match level {
        Level::Top => Some((limit, LEAST_WALL)),
        Level::Bottom => Some((-limit, LEAST_WALL)),
        Level::Waist if waist.value().abs() < limit.value() => Some((waist, LEAST_WALL)),
        Level::Waist => comes_back(head).then_some((waist, 0.0)),
    }
}

/// Whether the eye, beyond its waist, leaves steel at its side.
fn comes_back<T: Scalar>(head: &Head<T>) -> bool {
    let wall = |z: f64| {
        let z = T::constant(z);
        (head.cheeks.half_width_at(z) - head.eye.at(z).q).value()
    };
    let waist = head.eye.waist_height.value();
    let mouth = head.eye.half_height.value().copysign(waist);
    // Concave between them, so it has one peak.
    wall(peak(waist.min(mouth), waist.max(mouth), wall)) > 0.0
}

fn end<T: Scalar>(side: Side, tail: &Tail<T>, each: &mut impl FnMut(Check, T)) {
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
    }
}

fn face<T: Scalar>(side: Side, cap: &Cap<T>, each: &mut impl FnMut(Check, T)) {
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

/// What the broken rim leaves of half the face, mm: it is smaller, not as large.
pub(crate) const LEAST_FACE: f64 = 0.05;
