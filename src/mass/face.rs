//! The area of what strikes: a crowned face, the nose of a pein, a ball.

use std::f64::consts::{FRAC_PI_2, TAU};

use super::surface::crown_area;
use crate::design::Side;
use crate::numeric::quadrature::gauss;
use crate::solid::{Pein, Solid, Tip};

/// Points of the rules over a pein's nose, around it and along the edge.
const POINTS: usize = 24;

/// Area of what strikes at one end of `solid`, mm²: what is ground there.
///
/// Of a face its crown with the broken rim, without the land: a round face of radius a with a sharp rim is a zone
/// of its sphere, 2πR(R − √(R² − a²)). Of a ball its outer half, 2πr². Of a pein its nose, from one slope over the
/// tip to the other, ∫∫ |∂r/∂φ × ∂r/∂ξ| dξ dφ over the angle φ about the nose circle; straight and with sharp ends
/// it is 2φr times the edge.
///
/// # Accuracy
/// Faces and balls as [`surface_area`](super::surface_area), about 1e-9. The edge of a pein is taken as long at
/// every φ as it is in the middle plane of the slab, which a nose that is thick against a rounded arm is not: up to
/// a few percent too much there, well inside what a grinder's allowance is known to.
pub fn face_area(solid: &Solid, side: Side) -> f64 {
    match &solid.head().end(side).tip {
        Tip::Face(cap) => crown_area(cap),
        Tip::Ball(ball) => TAU * ball.radius * ball.radius,
        Tip::Pein(pein) => nose_area(pein),
    }
}

fn nose_area(pein: &Pein<f64>) -> f64 {
    let [tangent, _] = pein.tangent;
    let centre = pein.nose_centre();
    // The slope meets the circle at φ from the tip: v = centre + r cos φ.
    let last = ((tangent - centre) / pein.nose).clamp(-1.0, 1.0).acos();
    let rule = gauss(POINTS);
    // Where the broken corners begin the length of the edge has a joint.
    let depth = (1.0 - pein.corner_break / pein.nose).clamp(-1.0, 1.0);
    let joint = depth.acos().min(last);
    let mut sum = 0.0;
    for [from, to] in [[0.0, joint], [joint, last]] {
        for (s, around) in rule.nodes() {
            // The length of the edge at the joint has a square root, which sin² runs through smoothly.
            let share = (FRAC_PI_2 * s).sin().powi(2);
            let change = FRAC_PI_2 * (2.0 * FRAC_PI_2 * s).sin();
            let phi = from + (to - from) * share;
            let (sin, cos) = phi.sin_cos();
            let v = centre + pein.nose * cos;
            let half = pein.limit(v);
            for (t, along) in rule.nodes() {
                let xi = half * t;
                let kx = pein.rocker * xi;
                // Of ∂r/∂ξ what leans out of the edge, and of ∂r/∂φ what the rocker leaves of it.
                let lean = (v - pein.start) * kx / (1.0 - kx * kx).sqrt() / pein.length();
                let left = pein.shortening(xi);
                let area = (cos * cos * (1.0 + lean * lean) + sin * sin * left * left).sqrt();
                // Both halves of the edge on both sides of the tip.
                let weight = around * along * change * (to - from);
                sum += 4.0 * pein.nose * area * half * weight;
            }
        }
    }
    sum
}
