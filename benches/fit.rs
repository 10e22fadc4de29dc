//! Budget: one fit 5 ms.

use criterion::{Criterion, criterion_group, criterion_main};
use headwright::design::{Design, starter};
use headwright::fit::{Outcome, Quantity, Target, fit_to};
use std::hint::black_box;

fn targets(mass: f64) -> [Target; 2] {
    let exactly = |quantity: Quantity, value: f64| {
        let off = quantity.default_tolerance();
        Target {
            quantity,
            low: value - off,
            high: value + off,
            aim: Some(value),
        }
    };
    [
        exactly(Quantity::Mass, mass),
        exactly(Quantity::Balance, 0.0),
    ]
}

/// The starter with twelve free dimensions: four by default, the rest in the order of the list.
fn twelve_free() -> Design {
    let mut design = starter("rounding").expect("a starter");
    for (dim, _) in design.sizes() {
        if design.free.len() < 12
            && let Some(range) = design.default_range(dim)
            && range.low.in_mm() < range.high.in_mm()
        {
            design.free.entry(dim).or_insert(range);
        }
    }
    design
}

fn fit(criterion: &mut Criterion) {
    let four = starter("rounding").expect("a starter");
    for (name, design) in [("four", four), ("twelve", twelve_free())] {
        let targets = targets(1.1);
        let fitted = fit_to(&design, &targets).expect("sound");
        assert_eq!(fitted.outcome, Outcome::Met, "{:?}", fitted.in_the_way);
        criterion.bench_function(
            &format!("fit, {name} free, {} turns", fitted.turns),
            |bencher| {
                bencher.iter(|| fit_to(black_box(&design), black_box(&targets)));
            },
        );
    }
    let four = starter("rounding").expect("a starter");
    let far = targets(5.0);
    criterion.bench_function("fit, out of reach", |bencher| {
        bencher.iter(|| fit_to(black_box(&four), black_box(&far)));
    });
}

criterion_group!(benches, fit);
criterion_main!(benches);
