//! Surface area: on demand, since it costs more than all the rest.

use std::f64::consts::TAU;

use super::Order;
use super::eye::{concave_roots, for_each_level, reach_of_strip, slice};
use crate::mesh::tessellate;
use crate::numeric::order::sort_few;
use crate::numeric::quadrature::gauss;
use crate::numeric::roots::sign_change;
use crate::numeric::{Dual, Scalar};
use crate::solid::{Cap, EyeSection, Form, Head, Piece, Rim, Run, Section, Solid, Tip};

/// Chord tolerance of the triangles that stand for what has no closed patch, mm.
const CHORD: f64 = 0.01;

/// A number with its derivative with respect to the share of a run.
type Along = Dual<1>;

/// Points of the rules, one along and one across every patch.
const POINTS: usize = 20;

/// Surface area of `solid`, mm²: body, faces and the wall of the eye, without the mouths.
///
/// ∫|r_s × r_t| ds dt over every patch of the definition.
///
/// # Accuracy
/// About 1e-9 relative; the patches are smooth, and the square roots where the eye leaves
/// through worked corners are run through so that they are too. A head with a pein, swell, lugs
/// or a cocked eye is measured on triangles of 0.01 mm: about 1e-4.
pub fn surface_area(solid: &Solid) -> f64 {
    let head = solid.head();
    let pein = head
        .ends
        .iter()
        .any(|tail| matches!(tail.tip, Tip::Pein(_)));
    if pein || head.bulge().is_some() || head.eye.lean.is_some() {
        return tessellate(solid, CHORD).area();
    }
    let ends: f64 = head
        .ends
        .iter()
        .map(|tail| {
            let tip = match &tail.tip {
                Tip::Face(cap) => land_area(cap) + crown_area(cap),
                // A zone of a sphere is as large as that of the cylinder around it.
                Tip::Ball(ball) => TAU * ball.radius * (ball.radius + ball.depth()),
                // Measured on its triangles.
                Tip::Pein(_) => 0.0,
            };
            tail.runs.iter().map(run_area).sum::<f64>() + tip
        })
        .sum();
    ends + wall_area(head) - mouth_area(head)
}

fn run_area(run: &Run<f64>) -> f64 {
    let length = run.to - run.from;
    let lift = |s: Section<f64>| Section {
        a: Along::constant(s.a),
        b: Along::constant(s.b),
        c: Along::constant(s.c),
        d: Along::constant(s.d),
        w: Along::constant(s.w),
    };
    let (inner, outer) = (lift(run.inner), lift(run.outer));
    let rule = gauss(POINTS);
    let mut sum = 0.0;
    for (tau, along) in rule.nodes() {
        let share = Along::variable(tau, 0, 1.0);
        let over = match run.form {
            Form::Smooth => share * share * (-share * 2.0 + 3.0),
            _ => share,
        };
        let section = inner.towards(&outer, over);
        let fall = -run.drop.slope * length;
        for piece in section.pieces() {
            for (s, across) in rule.nodes() {
                let (y, z, dy, dz) = section.along(piece, s);
                let (dy, dz) = (dy.value, dz.value);
                for up in [1.0, -1.0] {
                    let twist = y.slopes[0] * dz - (z.slopes[0] + up * fall) * dy;
                    let area = (twist * twist + length * length * (dy * dy + dz * dz)).sqrt();
                    sum += 2.0 * area * along * across;
                }
            }
        }
    }
    sum
}

/// The land: from its start to the sharp or broken rim, around.
fn land_area(cap: &Cap<f64>) -> f64 {
    let rule = gauss(POINTS);
    let start = cap.land_start();
    let mut sum = 0.0;
    for piece in cap.outline.pieces() {
        for (s, along) in rule.nodes() {
            let (.., dy, dz) = cap.outline.along(piece, s);
            sum += 4.0 * (cap.rim_at(piece, s) - start) * dy.hypot(dz) * along;
        }
    }
    sum
}

/// The crowned face and its broken rim.
pub(super) fn crown_area(cap: &Cap<f64>) -> f64 {
    let rule = gauss(POINTS);
    let mut sum = 0.0;
    // How much faster the crown rises than r²/2 grows.
    let steepness = |r2: f64| cap.curvature / (1.0 - cap.curvature * cap.curvature * r2).sqrt();
    for piece in cap.outline.pieces() {
        if cap.rim == Rim::Sharp {
            continue;
        }
        for (s, along) in rule.nodes() {
            let (y0, z0, dy0, dz0) = cap.outline.along(piece, s);
            for (t, across) in rule.nodes() {
                let (delta, _, d_delta, d_drop) = cap.edge_at(t);
                let (shrink_y, shrink_z) = cap.shrink(delta);
                let (y, z) = (y0 * shrink_y, z0 * shrink_z);
                let (ys, zs) = (dy0 * shrink_y, dz0 * shrink_z);
                let (yt, zt) = (-y0 / cap.outline.a * d_delta, -z0 / cap.outline.b * d_delta);
                let fall = steepness(y * y + z * z);
                let us = -fall * (y * ys + z * zs);
                let ut = -fall * (y * yt + z * zt) - d_drop;
                let normal = [ys * zt - zs * yt, zs * ut - us * zt, us * yt - ys * ut];
                let area = normal.iter().map(|n| n * n).sum::<f64>().sqrt();
                sum += 4.0 * area * along * across;
            }
        }
    }
    let inner = if cap.rim == Rim::Sharp {
        cap.outline
    } else {
        cap.inner()
    };
    for piece in inner.pieces() {
        for (s, along) in rule.nodes() {
            let (y0, z0, dy, dz) = inner.along(piece, s);
            let (turn, r2) = (y0 * dz - z0 * dy, y0 * y0 + z0 * z0);
            for (rho, inwards) in rule.nodes() {
                let kr2 = cap.curvature * cap.curvature * r2 * rho * rho;
                sum += 4.0 * turn * rho * along * inwards / (1.0 - kr2).sqrt();
            }
        }
    }
    sum
}

/// The wall of the eye as far as it lies in the block.
fn wall_area(head: &Head<f64>) -> f64 {
    let plug = &head.eye;
    let rule = gauss(POINTS);
    let mut sum = 0.0;
    for_each_level(head, Order(POINTS), POINTS, &mut |z, dz, [strip, _]| {
        let level = plug.at(z);
        // Straight walls and arcs: a difference about the middle is their slope.
        let (above, below) = (plug.at(z + STEP), plug.at(z - STEP));
        let per = |above: f64, below: f64| (above - below) / (2.0 * STEP);
        let slope = EyeSection {
            p: per(above.p, below.p),
            q: per(above.q, below.q),
            c: per(above.c, below.c),
            d: per(above.d, below.d),
        };
        let (section, change) = (level.section(), slope.section());
        let last = match strip.filter(|y| *y < level.q) {
            Some(y) => reach_of_strip(&level, y),
            None => (Piece::Top, 1.0),
        };
        for piece in section.pieces() {
            let until = match (piece as u8).cmp(&(last.0 as u8)) {
                std::cmp::Ordering::Less => 1.0,
                std::cmp::Ordering::Equal => last.1,
                std::cmp::Ordering::Greater => continue,
            };
            for (t, weight) in rule.nodes() {
                let (_, _, dx, dy) = section.along(piece, t * until);
                // A point of the outline is linear in the outline's numbers.
                let (xz, yz, ..) = change.along(piece, t * until);
                let turn = dx * yz - dy * xz;
                sum += 4.0 * (dx * dx + dy * dy + turn * turn).sqrt() * weight * until * dz;
            }
        }
    });
    sum
}

/// Step of the differences along the wall, mm.
const STEP: f64 = 1e-3;

/// What the mouths take off the surface of the block.
fn mouth_area(head: &Head<f64>) -> f64 {
    let (section, plug) = (&head.cheeks, &head.eye);
    let mut sum = 0.0;
    let [low, high] = plug.mouths;
    for (sign, level) in [(1.0, plug.at(high)), (-1.0, plug.at(low))] {
        let flat = section.a - section.c;
        if flat > 0.0 {
            sum += slice(&level, Some(flat)).area;
        }
        if section.c <= 0.0 {
            continue;
        }
        // Along the worked corner: the strip of surface at height z is removed over 2x, where x
        // is the eye's half-length at the block's half-width.
        let at = |t: f64| {
            let (y, z, ..) = section.along(Piece::Corner, t);
            (y, plug.at(sign * z))
        };
        let inside = |t: f64| {
            let (y, level) = at(t);
            level.q - y
        };
        let straight = |t: f64| {
            let (y, level) = at(t);
            level.q - level.d - y
        };
        let mut joints = vec![0.0, 1.0];
        for f in [&inside as &dyn Fn(f64) -> f64, &straight] {
            if let Some(t) = sign_change(0.0, 1.0, f) {
                joints.push(t);
            } else {
                concave_roots(0.0, 1.0, &|t| -f(t), &mut joints);
            }
        }
        sort_few(&mut joints, |t| *t);
        for pair in joints.windows(2) {
            let (low, high) = (pair[0], pair[1]);
            if high <= low || inside(0.5 * (low + high)) <= 0.0 {
                continue;
            }
            for (s, weight) in gauss(2 * POINTS).nodes() {
                let t = low + (high - low) * (s * s * (3.0 - 2.0 * s));
                let dt = (high - low) * 6.0 * s * (1.0 - s) * weight;
                let (y, level) = at(t);
                let (.., dy, dz) = section.along(Piece::Corner, t);
                if y < level.q {
                    sum += 4.0 * level.half_length_at(y) * dy.hypot(dz) * dt;
                }
            }
        }
    }
    sum
}
