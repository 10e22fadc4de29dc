//! The fits that are timed, natively and in the browser.

use headwright::design::{Design, Quantity, starter};
use headwright::fit::Target;

/// A weight in kg, and the balance in the middle of the eye.
pub fn targets(mass: f64) -> [Target; 2] {
    [(Quantity::Mass, mass), (Quantity::Balance, 0.0)]
        .map(|(quantity, value)| Target::just(quantity, value))
}

/// A starter with twelve free dimensions: four by default, the rest in the order of the list.
pub fn twelve_free() -> Design {
    let mut design = starter("rounding").expect("a starter");
    design.alike.clear();
    for (dim, _) in design.sizes() {
        if design.free.len() < 12
            && let Some(range) = design.default_range(dim)
            && range.low.number() < range.high.number()
        {
            design.free.entry(dim).or_insert(range);
        }
    }
    design
}
