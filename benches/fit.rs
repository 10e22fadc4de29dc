//! Budget: one fit 5 ms.

use criterion::{Criterion, criterion_group, criterion_main};
use headwright::design::starter;
use headwright::fit::{Outcome, fit_to};
use std::hint::black_box;

mod common;
use common::{targets, twelve_free};

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
