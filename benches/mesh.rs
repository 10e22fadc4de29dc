//! Budget: the mesh for the screen, about 20,000 triangles with its normals, 5 ms. And what an
//! export takes, which has no budget: it is made once, when it is asked for.

use criterion::{Criterion, criterion_group, criterion_main};
use headwright::design::starter;
use headwright::mesh::{Format, SCREEN, STL, display, tessellate};
use std::hint::black_box;

fn screen(criterion: &mut Criterion) {
    for name in ["rounding", "straight"] {
        let solid = starter(name)
            .expect("a starter")
            .build()
            .expect("starters are sound");
        let mesh = tessellate(&solid, SCREEN);
        criterion.bench_function(
            &format!("mesh: tessellate {name} for the screen"),
            |bencher| {
                bencher.iter(|| tessellate(black_box(&solid), SCREEN));
            },
        );
        criterion.bench_function(
            &format!("mesh: normals and sharp edges of {name}"),
            |bencher| {
                bencher.iter(|| display(black_box(&mesh)));
            },
        );
    }
}

fn export(criterion: &mut Criterion) {
    let solid = starter("rounding")
        .expect("a starter")
        .build()
        .expect("starters are sound");
    let mesh = tessellate(&solid, STL);
    criterion.bench_function("mesh: tessellate for export", |bencher| {
        bencher.iter(|| tessellate(black_box(&solid), STL));
    });
    for format in Format::ALL {
        criterion.bench_function(&format!("mesh: export as {}", format.name()), |bencher| {
            bencher.iter(|| format.write(black_box(&mesh), "Rounding", 1.0));
        });
    }
}

criterion_group!(benches, screen, export);
criterion_main!(benches);
