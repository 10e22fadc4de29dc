//! Budgets: one fit 5 ms; of 2,000 with four holds and twelve free sizes the median 5 ms, the 99th
//! percentile 15 ms.

use criterion::{Criterion, criterion_group, criterion_main};
use headwright::design::starter;
use headwright::fit::{Outcome, fit_to};
use std::hint::black_box;
use std::time::Instant;

#[path = "common/cases.rs"]
mod cases;
mod common;
use cases::case;
use common::{targets, twelve_free};

/// Cases of the table.
const CASES: u64 = 2000;

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
    table();
}

/// Times every case once.
fn table() {
    let mut met = 0;
    let mut times: Vec<f64> = (0..CASES)
        .map(|number| {
            let (design, targets) = case(number);
            let start = Instant::now();
            let fitted = fit_to(black_box(&design), black_box(&targets)).expect("sound");
            let time = start.elapsed().as_secs_f64() * 1e3;
            met += u64::from(fitted.outcome == Outcome::Met);
            time
        })
        .collect();
    times.sort_by(f64::total_cmp);
    let share = |share: f64| times[(share * (times.len() - 1) as f64) as usize];
    println!(
        "fit, four holds, twelve free: median {:.2} ms, 99th percentile {:.2} ms, most {:.2} ms; \
         {met} of {CASES} met",
        share(0.5),
        share(0.99),
        share(1.0)
    );
}

criterion_group!(benches, fit);
criterion_main!(benches);
