//! Values with exact first derivatives: the code that gives the values, run on dual numbers.

use nalgebra::DVector;

use super::Worked;
use crate::design::{Design, Dim};
use crate::numeric::{Dual, Scalar};

/// Derivatives carried at once: the cost of a pass is one value and this many derivatives, and
/// the default free set needs four.
const WIDTH: usize = 6;

/// A number with the derivatives of one pass.
pub(super) type Gradient = Dual<WIDTH>;

/// A dimension to which derivatives are taken.
pub(super) struct Moving {
    pub(super) dim: Dim,
    /// One that moves with it.
    pub(super) follower: Option<Dim>,
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
            let moves = |moving: &Moving| moving.dim == dim || moving.follower == Some(dim);
            let Some(k) = moving.iter().position(moves) else {
                return Gradient::constant(number);
            };
            let Moving { number, step, .. } = moving[k];
            match k.checked_sub(first) {
                Some(place) if place < WIDTH => Gradient::variable(number, place, step),
                _ => Gradient::constant(number),
            }
        });
        let duals = evaluate(worked);
        if first == 0 {
            let empty = |dual: &Gradient| Value {
                value: dual.value,
                gradient: DVector::zeros(count),
            };
            values = duals.iter().map(empty).collect();
        }
        for (value, dual) in values.iter_mut().zip(&duals) {
            for (k, slope) in (first..count).zip(dual.slopes) {
                value.gradient[k] = slope;
            }
        }
    }
    values
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::starter;
    use crate::mass::{Order, moments};

    /// Volume, mm³, of `design` with `dims` moved by `by`.
    fn volume(design: &Design, dims: &[Dim], by: f64) -> f64 {
        let head = crate::solid::Head::lift(design, &mut |dim, number| {
            if dims.contains(&dim) {
                number + by
            } else {
                number
            }
        });
        moments(&head, Order::default()).volume
    }

    #[test]
    fn a_size_takes_the_one_that_moves_with_it_along_into_its_derivative() {
        let design = starter("square").expect("a starter");
        let mut tried = 0;
        for back in &design.alike {
            let front = design.leader(*back);
            let moving = |dim, follower| Moving {
                dim,
                follower,
                number: design.size(dim).expect("present").number(),
                step: 0.5,
            };
            let slope = |moving: Moving| {
                let values = gradients(&design, &[moving], |worked| {
                    vec![moments(&worked.head, Order::default()).volume]
                });
                values[0].gradient[0]
            };
            let both = slope(moving(front, Some(*back)));
            let sum = slope(moving(front, None)) + slope(moving(*back, None));
            assert!((both - sum).abs() < 1e-9 * sum.abs().max(1.0), "{back}");
            let h = 1e-3;
            let [below, above] = [-h, h].map(|by| volume(&design, &[front, *back], by));
            let difference = (above - below) / (2.0 * h) * 0.5;
            assert!(
                (both - difference).abs() <= 1e-5 * difference.abs() + 1e-3,
                "{back}: {both} by derivative, {difference} by difference"
            );
            tried += 1;
        }
        assert!(tried > 4, "{tried}");
    }
}
