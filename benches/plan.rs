//! Budgets: the plan from bar to head 2 ms; the heat treatment of a head, which the page reckons at every keystroke, a frame of 16.7 ms.

use criterion::{Criterion, criterion_group, criterion_main};
use headwright::bar::billet;
use headwright::design::{Side, starter, starter_names};
use headwright::heat::{self, Grade, Heat, Steel};
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

fn heats(criterion: &mut Criterion) {
    for name in ["rounding", "cross"] {
        let design = starter(name).expect("a starter");
        let solid = design.build().expect("sound");
        for grade in [Grade::C1045, Grade::A4140, Grade::S7] {
            let heat = Heat {
                steel: Steel {
                    grade,
                    analysis: None,
                },
                ..Heat::default()
            };
            criterion.bench_function(&format!("heat, {name}, {}", grade.name()), |bencher| {
                bencher.iter(|| heat::plan(black_box(&solid), &heat));
            });
        }
    }
}

criterion_group!(benches, plans, heats);
criterion_main!(benches);
