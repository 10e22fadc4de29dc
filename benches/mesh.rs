//! Budget: the mesh for the screen, about 20,000 triangles with its normals, 5 ms.

use criterion::{Criterion, criterion_group, criterion_main};
use headwright::design::starter;
use headwright::mesh::{SCREEN, display, tessellate};
use std::hint::black_box;

fn screen(criterion: &mut Criterion) {
    let solid = starter("rounding")
        .expect("a starter")
        .build()
        .expect("starters are sound");
    let mesh = tessellate(&solid, SCREEN);
    criterion.bench_function("mesh: tessellate for the screen", |bencher| {
        bencher.iter(|| tessellate(black_box(&solid), SCREEN));
    });
    criterion.bench_function("mesh: normals and sharp edges", |bencher| {
        bencher.iter(|| display(black_box(&mesh)));
    });
}

criterion_group!(benches, screen);
criterion_main!(benches);
