//! Values with exact first derivatives: the code that gives the values, run on dual numbers.

use nalgebra::{Const, DVector, SVector};
use num_dual::{Derivative, DualSVec64};

use super::Worked;
use crate::design::{Design, Dim};
use crate::numeric::Scalar;

/// Derivatives carried at once: the cost of a pass is one value and this many derivatives, and
/// the default free set needs four.
const WIDTH: usize = 4;

/// A number with the derivatives of one pass.
pub(super) type Gradient = DualSVec64<WIDTH>;

/// A dimension to which derivatives are taken.
pub(super) struct Moving {
    pub(super) dim: Dim,
    /// Where it stands, mm or degrees.
    pub(super) number: f64,
    /// What counts as one, mm or degrees.
    pub(super) step: f64,
}

/// A quantity or margin with its gradient, per step of every moving dimension.
#[derive(Clone)]
pub(super) struct Value {
    pub(super) value: f64,
    pub(super) gradient: DVector<f64>,
}

/// What `evaluate` finds on the head of `design` with `moving` where they stand, with gradients.
///
/// `evaluate` is run once for every few dimensions and must give as many numbers every time.
pub(super) fn gradients(
    design: &Design,
    moving: &[Moving],
    mut evaluate: impl FnMut(Worked<Gradient>) -> Vec<Gradient>,
) -> Vec<Value> {
    let count = moving.len();
    let mut values: Vec<Value> = Vec::new();
    // At least one pass, so that a design of which nothing moves still has its values.
    for first in (0..count.max(1)).step_by(WIDTH) {
        let worked = Worked::lift(design, &mut |dim, number| {
            let Some(k) = moving.iter().position(|moving| moving.dim == dim) else {
                return Gradient::constant(number);
            };
            let mut dual = Gradient::constant(moving[k].number);
            if (first..first + WIDTH).contains(&k) {
                let mut seed = SVector::<f64, WIDTH>::zeros();
                seed[k - first] = moving[k].step;
                dual.eps = Derivative::some(seed);
            }
            dual
        });
        let duals = evaluate(worked);
        if first == 0 {
            let empty = |dual: &Gradient| Value {
                value: dual.re,
                gradient: DVector::zeros(count),
            };
            values = duals.iter().map(empty).collect();
        }
        for (value, dual) in values.iter_mut().zip(&duals) {
            let slope = dual.eps.unwrap_generic(Const::<WIDTH>, Const::<1>);
            for k in first..count.min(first + WIDTH) {
                value.gradient[k] = slope[k - first];
            }
        }
    }
    values
}
