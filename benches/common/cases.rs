//! Fits without end, each of another head: four holds, twelve free sizes, all within reach.

use headwright::design::{Design, Edit, Quantity, Range, bounds, starter, starter_names};
use headwright::fit::{Target, Worked};

#[path = "even.rs"]
mod even;

use even::Even;

/// Free sizes of a case.
const FREE: usize = 12;
/// How far a size of a case lies from its starter's, either way, as a share of it.
const DRAWN: f64 = 0.06;
/// How far a free size may go, either way, as a share of it.
const ROOM: f64 = 0.1;
/// Points tried inside the limits before others are drawn.
const POINTS: usize = 40;

/// The case of `number`: a sound head, and what another one inside its limits gives.
pub fn case(number: u64) -> (Design, Vec<Target>) {
    let mut even = Even(number);
    let names: Vec<&str> = starter_names().collect();
    let name = names[number as usize % names.len()];
    loop {
        let mut first = starter(name).expect("a starter");
        // Every size on its own, so that there are twelve.
        first.alike.clear();
        let mut design = drawn(&first, &mut even);
        if design.build().is_err() {
            continue;
        }
        set_free(&mut design, &mut even);
        let witness = (0..POINTS).find_map(|_| {
            let point = inside(&design, &mut even);
            point.build().is_ok().then_some(point)
        });
        if let Some(witness) = witness {
            return (design, targets_of(&witness));
        }
    }
}

/// `design` with every size a little different.
fn drawn(design: &Design, even: &mut Even) -> Design {
    let sizes = design.sizes().into_iter();
    sizes.fold(design.clone(), |design, (dim, size)| {
        let limits = bounds(dim);
        let number = size.number() * even.between(1.0 - DRAWN, 1.0 + DRAWN);
        let number = number.clamp(limits.low, limits.high);
        design.apply(Edit::set(dim, size.with_number(number)))
    })
}

fn set_free(design: &mut Design, even: &mut Even) {
    design.free.clear();
    let mut sizes = design.sizes();
    while design.free.len() < FREE && !sizes.is_empty() {
        let (dim, size) = sizes.swap_remove(even.below(sizes.len()));
        let limits = bounds(dim);
        let room = (ROOM * size.number().abs()).max(limits.step);
        let low = (size.number() - room).max(limits.low);
        let high = (size.number() + room).min(limits.high);
        let range = Range::new(size.with_number(low), size.with_number(high));
        design.free.insert(dim, range);
    }
}

/// `design` with every free size somewhere inside its limits.
fn inside(design: &Design, even: &mut Even) -> Design {
    let free = design.free.iter();
    free.fold(design.clone(), |point, (dim, range)| {
        let number = even.between(range.low.number(), range.high.number());
        point.apply(Edit::set(*dim, range.low.with_number(number)))
    })
}

/// Weight and balance as they are, inertia within a percent, length at most as it is.
fn targets_of(witness: &Design) -> Vec<Target> {
    let worked = Worked::lift(witness, &mut |_, number: f64| number);
    let per = worked.kg_per_mm3();
    let moments = worked.moments;
    let length = ["front.reach", "back.reach"].map(|path| {
        let dim = path.parse().expect("a dimension");
        worked.size(dim).expect("every end has a reach")
    });
    let inertia = (moments.xx + moments.yy) * per;
    let ends = |quantity: Quantity, low: f64, high: f64| Target {
        quantity,
        low,
        high,
        aim: None,
    };
    vec![
        Target::just(Quantity::Mass, moments.volume * per),
        Target::just(Quantity::Balance, moments.x / moments.volume),
        ends(Quantity::Inertia, 0.99 * inertia, 1.01 * inertia),
        ends(Quantity::Length, f64::NEG_INFINITY, length[0] + length[1]),
    ]
}
