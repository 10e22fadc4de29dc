//! Budget: mass, centroid and inertia of one head 100 µs, with all first derivatives 1 ms; surface
//! area 1 ms.

use criterion::{Criterion, criterion_group, criterion_main};
use headwright::design::starter;
use headwright::mass::{mass_properties, surface_area};
use std::hint::black_box;

#[path = "common/derivatives.rs"]
mod derivatives;
use derivatives::with_derivatives;

fn mass(criterion: &mut Criterion) {
    for name in ["rounding", "heavy", "cross", "straight", "diagonal"] {
        let solid = starter(name).expect("a starter").build().expect("sound");
        criterion.bench_function(&format!("mass properties, {name}"), |bencher| {
            bencher.iter(|| mass_properties(black_box(&solid)));
        });
        let design = starter(name).expect("a starter");
        criterion.bench_function(&format!("with all derivatives, {name}"), |bencher| {
            bencher.iter(|| with_derivatives(black_box(&design)));
        });
        criterion.bench_function(&format!("surface area, {name}"), |bencher| {
            bencher.iter(|| surface_area(black_box(&solid)));
        });
    }
}

criterion_group!(benches, mass);
criterion_main!(benches);
