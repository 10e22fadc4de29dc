//! Values with all first derivatives.

use headwright::design::{Design, Dim};
use headwright::mass::{Order, moments};
use headwright::numeric::Scalar;
use headwright::solid::Head;
use nalgebra::SVector;
use num_dual::{Derivative, DualSVec64};

/// Derivatives carried at once.
const WIDTH: usize = 8;

/// Mass, centroid and inertia about the handle axis of `design` with their derivatives to every
/// dimension; a number that depends on all of them.
pub fn with_derivatives(design: &Design) -> f64 {
    let dims: Vec<Dim> = design.sizes().into_iter().map(|(dim, _)| dim).collect();
    let pass = |some: &[Dim]| {
        let head = Head::lift(design, &mut |dim, mm| {
            let mut dual = DualSVec64::<WIDTH>::constant(mm);
            if let Some(k) = some.iter().position(|other| *other == dim) {
                let mut seed = SVector::<f64, WIDTH>::zeros();
                seed[k] = 1.0;
                dual.eps = Derivative::some(seed);
            }
            dual
        });
        let moments = moments(&head, Order::default());
        let inertia = moments.xx + moments.yy;
        let all = moments
            .centroid()
            .into_iter()
            .chain([moments.volume, inertia]);
        all.map(|value| {
            let one = nalgebra::Const::<1>;
            value
                .eps
                .unwrap_generic(nalgebra::Const::<WIDTH>, one)
                .sum()
        })
        .sum::<f64>()
    };
    dims.chunks(WIDTH).map(pass).sum()
}
