//! Budget: the plan from bar to head 2 ms.

use criterion::{Criterion, criterion_group, criterion_main};
use headwright::bar::billet;
use headwright::design::{Side, starter, starter_names};
use headwright::mass::{causes, mass_properties};
use headwright::plan::plan;
use std::hint::black_box;

fn plans(criterion: &mut Criterion) {
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        let solid = design.build().expect("sound");
        let mass = mass_properties(&solid);
        let billet =
            billet(&causes(&solid, &mass), design.density, &design.bar).expect("a sound bar");
        criterion.bench_function(&format!("plan, {name}"), |bencher| {
            bencher.iter(|| plan(black_box(&solid), &billet, &design.bar, Side::Front));
        });
    }
}

criterion_group!(benches, plans);
criterion_main!(benches);
