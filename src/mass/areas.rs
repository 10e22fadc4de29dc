//! Area of the head across its length.

use super::eye::concave_roots;
use super::pein;
use crate::design::Side;
use crate::numeric::order::sort_few;
use crate::numeric::quadrature::gauss;
use crate::numeric::roots::sign_change;
use crate::solid::{Ball, Cap, Head, Rim, Section, Solid, Tip};

/// Points along a piece of a face's outline, and in height through the eye: the integrands have
/// kinks, so the rule is generous.
const POINTS: usize = 32;

/// Areas of a section x = const, mm².
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SectionAreas {
    /// Of the body as if unpierced.
    pub body: f64,
    /// Of the pierced head.
    pub pierced: f64,
}

/// Areas of the section of `solid` at `x`, mm; zero beyond its ends.
///
/// # Accuracy
/// Closed forms between the faces and outside the eye; about 1e-5 of the area through a crown
/// or the eye.
pub fn section_areas(solid: &Solid, x: f64) -> SectionAreas {
    let head = solid.head();
    let side = if x >= 0.0 { Side::Front } else { Side::Back };
    let u = x.abs();
    let tail = head.end(side);
    let run = tail.runs.iter().find(|run| u <= run.to);
    let body = match run {
        Some(run) => run.at((u - run.from) / (run.to - run.from)).section.area(),
        None => match &tail.tip {
            Tip::Face(cap) => cap_section(cap, u),
            Tip::Ball(ball) => ball_section(ball, u),
            Tip::Pein(pein) => pein::section_area(pein, u),
        },
    };
    SectionAreas {
        body,
        pierced: body - eye_section(head, x),
    }
}

fn ball_section(ball: &Ball<f64>, u: f64) -> f64 {
    let off = u - ball.centre();
    std::f64::consts::PI * (ball.radius * ball.radius - off * off).max(0.0)
}

fn cap_section(cap: &Cap<f64>, u: f64) -> f64 {
    if u >= cap.reach {
        return 0.0;
    }
    let depth = cap.reach - u;
    // Squared distance from the axis up to which the crown is beyond u.
    let r2 = if cap.curvature > 0.0 {
        depth * (2.0 / cap.curvature - depth)
    } else {
        f64::INFINITY
    };
    let rule = gauss(POINTS);
    let mut sum = 0.0;
    let inner = if cap.rim == Rim::Sharp {
        cap.outline
    } else {
        cap.inner()
    };
    for piece in inner.pieces() {
        for (s, weight) in rule.nodes() {
            let (y, z, dy, dz) = inner.along(piece, s);
            sum += 2.0 * (y * dz - z * dy) * (r2 / (y * y + z * z)).min(1.0) * weight;
        }
    }
    if cap.rim == Rim::Sharp {
        return sum;
    }
    let Section { a, b, .. } = cap.outline;
    for piece in cap.outline.pieces() {
        for (s, weight) in rule.nodes() {
            let (y, z, dy, dz) = cap.outline.along(piece, s);
            let beyond = |t: f64| {
                let (delta, drop, ..) = cap.edge_at(t);
                let (across, up) = cap.shrink(delta);
                depth - drop - cap.sag((y * across).powi(2) + (z * up).powi(2))
            };
            // The height grows inwards: all of the band, none of it, or from one inset on.
            let from = match (beyond(0.0) >= 0.0, beyond(1.0) > 0.0) {
                (true, _) => 0.0,
                (false, false) => continue,
                (false, true) => cap.edge_at(sign_change(0.0, 1.0, beyond).unwrap_or(1.0)).0,
            };
            // ∫ of the area element, linear in the inset.
            let element =
                |delta: f64| y / a * (1.0 - delta / b) * dz - z / b * (1.0 - delta / a) * dy;
            let area = 0.5 * (element(from) + element(cap.edge)) * (cap.edge - from);
            sum += 4.0 * area * weight;
        }
    }
    sum
}

/// Area that the eye takes out of the section at `x`: its outline in this plane is cut by that of
/// the block.
fn eye_section(head: &Head<f64>, x: f64) -> f64 {
    let plug = &head.eye;
    let station = head.block_at(x);
    let section = &station.section;
    let [low, high] = [-1.0, 1.0].map(|way| station.centre + way * section.b);
    // Half-length that is left of the outline at x, and how far the block stands beyond it.
    let reach = |z: f64| plug.at(z).p - (x - plug.centre(z)[0]).abs();
    let side = |z: f64| section.half_width_at((z - station.centre).clamp(-section.b, section.b));
    let width = |z: f64| {
        if reach(z) <= 0.0 {
            return 0.0;
        }
        let [middle_x, middle_y] = plug.centre(z);
        let half = plug.at(z).half_width_at(x - middle_x);
        let side = side(z);
        ((middle_y + half).min(side) - (middle_y - half).max(-side)).max(0.0)
    };
    let flat = section.b - section.d;
    let mut joints = vec![low, high, station.centre - flat, station.centre + flat];
    joints.extend(plug.joints().into_iter().filter(|z| low < *z && *z < high));
    sort_few(&mut joints, |z| *z);
    for pair in joints.clone().windows(2) {
        // Where the eye begins to reach x, and where the block begins to cut it.
        concave_roots(pair[0], pair[1], &reach, &mut joints);
        for way in [1.0, -1.0] {
            let room = |z: f64| side(z) - plug.at(z).q - way * plug.centre(z)[1];
            concave_roots(pair[0], pair[1], &room, &mut joints);
        }
    }
    sort_few(&mut joints, |z| *z);
    joints
        .windows(2)
        .map(|pair| {
            // Square roots at the ends: t = s²(3 − 2s) makes them smooth.
            let length = pair[1] - pair[0];
            gauss(POINTS)
                .nodes()
                .map(|(s, weight)| {
                    let z = pair[0] + length * s * s * (3.0 - 2.0 * s);
                    width(z) * length * 6.0 * s * (1.0 - s) * weight
                })
                .sum::<f64>()
        })
        .sum()
}
