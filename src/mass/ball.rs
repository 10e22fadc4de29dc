//! The ball: a sphere cut off at its neck, in closed form.

use std::f64::consts::PI;

use super::Moments;
use crate::numeric::Scalar;
use crate::solid::Ball;

/// Moments of the ball in u, from its neck to its pole. Exact to roundoff.
///
/// With t from the sphere's centre every slice is a disc of area π(r² − t²), whose second moment
/// about a diameter is π(r² − t²)²/4: polynomials in t.
pub(super) fn moments<T: Scalar>(ball: &Ball<T>) -> Moments<T> {
    let (r, centre) = (ball.radius, ball.centre());
    let (r2, low) = (r * r, -ball.depth());
    let between = |primitive: &dyn Fn(T) -> T| (primitive(r) - primitive(low)) * PI;
    let volume = between(&|t| t * (r2 - t * t * (1.0 / 3.0)));
    let first = between(&|t| t * t * (r2 * 0.5 - t * t * 0.25));
    let second = between(&|t| t * t * t * (r2 * (1.0 / 3.0) - t * t * 0.2));
    let across = between(&|t| {
        let t2 = t * t;
        t * (r2 * r2 - r2 * t2 * (2.0 / 3.0) + t2 * t2 * 0.2) * 0.25
    });
    Moments {
        volume,
        x: centre * volume + first,
        xx: centre * centre * volume + centre * first * 2.0 + second,
        yy: across,
        zz: across,
        ..Moments::zero()
    }
}
