//! The land and the crowned face.

use super::{Moments, Order};
use crate::numeric::Scalar;
use crate::numeric::quadrature::gauss;
use crate::solid::{Cap, Rim};

/// Moments of the land and the face in u, from the land's start to the face.
///
/// The face is a height field over its outline: every moment is an integral over the outline of
/// a power of its height. The outline is walked piece by piece; inwards, first through the
/// broken rim, then to the middle.
pub(super) fn moments<T: Scalar>(cap: &Cap<T>, order: Order) -> Moments<T> {
    let base = cap.land_start();
    let mut sum = Moments::zero();
    let rule = gauss(order.0);
    if cap.rim != Rim::Sharp {
        let outline = &cap.outline;
        for piece in outline.pieces() {
            for (s, along) in rule.nodes() {
                let (y0, z0, dy, dz) = outline.along(piece, s);
                for (t, across) in rule.nodes() {
                    let (delta, drop, d_delta, _) = cap.edge_at(t);
                    let (shrink_y, shrink_z) = cap.shrink(delta);
                    let (y, z) = (y0 * shrink_y, z0 * shrink_z);
                    // |∂(y, z)/∂(δ, s)|: the two directions are (−y₀/a, −z₀/b) and the tangent.
                    let turn = y0 / outline.a * shrink_z * dz - z0 / outline.b * shrink_y * dy;
                    let area = turn * d_delta * (along * across);
                    let height = cap.reach - cap.sag(y * y + z * z) - drop;
                    add_column(&mut sum, base, height, y, z, area);
                }
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
            let turn = y0 * dz - z0 * dy;
            for (rho, inwards) in rule.nodes() {
                let (y, z) = (y0 * rho, z0 * rho);
                let area = turn * (rho * along * inwards);
                let height = cap.reach - cap.sag(y * y + z * z);
                add_column(&mut sum, base, height, y, z, area);
            }
        }
    }
    sum
}

/// Adds the four mirror images of a column over `area` from `base` to `height`.
fn add_column<T: Scalar>(sum: &mut Moments<T>, base: T, height: T, y: T, z: T, area: T) {
    let area = area * 4.0;
    let dv = (height - base) * area;
    sum.volume += dv;
    sum.x += dv * (height + base) * 0.5;
    sum.xx += dv * (height * height + height * base + base * base) * (1.0 / 3.0);
    sum.yy += dv * y * y;
    sum.zz += dv * z * z;
}
