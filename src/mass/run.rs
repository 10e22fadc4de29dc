//! The body between two stations: closed-form sections, one rule along the head.

use super::{Moments, Order};
use crate::design::Transition;
use crate::numeric::Scalar;
use crate::numeric::quadrature::gauss;
use crate::solid::{CornerShare, Run};

/// Exact for u² times an area that is quadratic in the share of the way, and for second moments,
/// which are quartic: degree 4.
const STRAIGHT: usize = 3;
/// The share of the way is cubic in u: second moments have degree 12.
const SMOOTH: usize = 7;

/// Moments of `run` in u, as if unpierced.
///
/// Exact to roundoff where the weight of the corners stays the same; where it changes, the order
/// of the rule tells.
pub(super) fn moments<T: Scalar>(run: &Run<T>, order: Order) -> Moments<T> {
    let exact = match run.transition {
        Transition::Straight => STRAIGHT,
        Transition::Smooth => SMOOTH,
    };
    let (from, to) = run.inner.span_weights(&run.outer);
    let same = from == to;
    let points = if same { exact } else { exact.max(order.0) };
    let fixed = CornerShare::new(from);
    let length = run.to - run.from;
    let mut sum = Moments::zero();
    for (tau, weight) in gauss(points).nodes() {
        let (u, section) = run.at(tau);
        let share = if same {
            fixed
        } else {
            CornerShare::new(section.w)
        };
        let slice = section.moments(&share);
        let dv = slice.area * length * weight;
        sum.volume += dv;
        sum.x += dv * u;
        sum.xx += dv * u * u;
        sum.yy += slice.yy * length * weight;
        sum.zz += slice.zz * length * weight;
    }
    sum
}
