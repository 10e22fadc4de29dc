//! Values with all first derivatives.

use headwright::design::{Design, Dim};
use headwright::mass::{Order, moments};
use headwright::numeric::{Dual, Scalar};
use headwright::solid::Head;

/// Derivatives carried at once.
const WIDTH: usize = 8;

/// Mass, centroid and inertia about the handle axis of `design` with their derivatives to every
/// dimension; a number that depends on all of them.
pub fn with_derivatives(design: &Design) -> f64 {
    let dims: Vec<Dim> = design.sizes().into_iter().map(|(dim, _)| dim).collect();
    let pass = |some: &[Dim]| {
        let head = Head::lift(design, &mut |dim, mm| {
            let place = some.iter().position(|other| *other == dim);
            place.map_or(Dual::<WIDTH>::constant(mm), |place| {
                Dual::variable(mm, place, 1.0)
            })
        });
        let moments = moments(&head, Order::default());
        let inertia = moments.xx + moments.yy;
        let all = moments
            .centroid()
            .into_iter()
            .chain([moments.volume, inertia]);
        all.flat_map(|value| value.slopes).sum::<f64>()
    };
    dims.chunks(WIDTH).map(pass).sum()
}
