//! The body between two stations: closed-form sections, one rule along the head.

use super::{Moments, Order};
use crate::numeric::Scalar;
use crate::numeric::quadrature::gauss;
use crate::solid::{Bulge, CornerShare, Form, Lugs, Run, Station};

/// Exact for u² times an area that is quadratic in the share of the way, and for second moments,
/// which are quartic: degree 4.
const STRAIGHT: usize = 3;
/// The share of the way is cubic in u: second moments have degree 12.
const SMOOTH: usize = 7;
/// Swell and lugs are quartic in u: second moments have degree 16.
const BLOCK: usize = 9;

/// Moments of `run` in u, as if unpierced.
///
/// Exact to roundoff where the weight of the corners stays the same; where it changes, the order
/// of the rule tells.
pub(super) fn moments<T: Scalar>(run: &Run<T>, order: Order) -> Moments<T> {
    let exact = match run.form {
        Form::Straight => STRAIGHT,
        Form::Smooth => SMOOTH,
        Form::Block(_) => BLOCK,
    };
    let (from, to) = run.inner.span_weights(&run.outer);
    let same = from.value() == to.value();
    let points = if same { exact } else { exact.max(order.0) };
    let mut sum = Moments::zero();
    for [low, high] in parts(run) {
        add(run, [low, high], points, same.then_some(from), &mut sum);
    }
    sum
}

/// The shares between which the run is smooth: lugs end within the block.
fn parts<T: Scalar>(run: &Run<T>) -> Vec<[T; 2]> {
    let (start, end) = (T::constant(0.0), T::constant(1.0));
    if let Form::Block(Bulge {
        lugs: Some(Lugs { half_length, .. }),
        ..
    }) = run.form
    {
        let share = half_length / run.to;
        if share.value() < 1.0 {
            return vec![[start, share], [share, end]];
        }
    }
    vec![[start, end]]
}

fn add<T: Scalar>(
    run: &Run<T>,
    [low, high]: [T; 2],
    points: usize,
    weight: Option<T>,
    sum: &mut Moments<T>,
) {
    let fixed = weight.map(CornerShare::new);
    let length = (run.to - run.from) * (high - low);
    for (s, weight) in gauss(points).nodes() {
        let Station { u, section, centre } = run.at_share(low + (high - low) * s);
        let share = fixed.unwrap_or_else(|| CornerShare::new(section.w));
        let slice = section.moments(&share);
        let dv = slice.area * length * weight;
        sum.volume += dv;
        sum.x += dv * u;
        sum.xx += dv * u * u;
        sum.yy += slice.yy * length * weight;
        sum.zz += slice.zz * length * weight + dv * centre * centre;
        sum.z += dv * centre;
        sum.zx += dv * u * centre;
    }
}
