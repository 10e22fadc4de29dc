//! Fits drawn at random whose targets are known to be reachable: a head gives them.

use std::ops::RangeInclusive;
use std::thread;

use headwright::design::{Design, Dim, Edit, Quantity, Range, bounds};
use headwright::fit::Target;
use headwright::handle::{Handle, make};
use headwright::mass::{MassProperties, mass_properties};
use headwright::solid::Solid;
use nalgebra::{Matrix3, Vector3};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{RngSeed, TestRunner};

#[path = "../../benches/common/even.rs"]
mod even;

pub use even::Even;

/// Free sizes of a case.
const FREE: RangeInclusive<usize> = 2..=12;
/// Points tried before other sizes are set free: in a head as tight as may be nearly every point
/// is unsound.
const POINTS: usize = 60;

/// The most targets of a case.
const MOST_TARGETS: usize = 4;

/// A design to begin with, and targets that another inside its limits meets.
#[derive(Clone, Debug)]
pub struct Case {
    pub design: Design,
    pub targets: Vec<Target>,
}

/// `find` of every number below `count`, on all cores; what it found, in order.
pub fn on_all_cores<T: Send>(count: u64, find: impl Fn(u64) -> Option<T> + Sync) -> Vec<T> {
    let cores = thread::available_parallelism().map_or(1, |cores| cores.get() as u64);
    let mut found: Vec<(u64, T)> = thread::scope(|scope| {
        let find = &find;
        let part = |first| {
            move || {
                let numbers = (first..count).step_by(cores as usize);
                let found = numbers.filter_map(|k| Some((k, find(k)?)));
                found.collect::<Vec<_>>()
            }
        };
        let parts: Vec<_> = (0..cores).map(|first| scope.spawn(part(first))).collect();
        let ended = parts.into_iter().map(|part| part.join().expect("no panic"));
        ended.flatten().collect()
    });
    found.sort_by_key(|(k, _)| *k);
    found.into_iter().map(|(_, found)| found).collect()
}

/// The design of number `seed` that `designs` draws.
pub fn drawn(seed: u64, designs: impl Strategy<Value = Design>) -> Design {
    let mut runner = runner(seed);
    let drawn = designs.new_tree(&mut runner).expect("a sound design");
    drawn.current()
}

fn runner(seed: u64) -> TestRunner {
    TestRunner::new(ProptestConfig {
        rng_seed: RngSeed::Fixed(seed),
        failure_persistence: None,
        ..ProptestConfig::default()
    })
}

/// The case of number `seed`, of the heads that `designs` draws.
#[allow(dead_code, reason = "the benchmark makes its own targets")]
pub fn reachable(seed: u64, designs: impl Strategy<Value = Design>) -> Case {
    let mut even = Even(seed);
    let (design, witness) = pair(seed, designs, FREE, &mut even);
    let targets = targets_of(&witness, &mut even);
    Case { design, targets }
}

/// A head with `free` sizes set free, and a sound one inside their limits.
pub fn pair(
    seed: u64,
    designs: impl Strategy<Value = Design>,
    free: RangeInclusive<usize>,
    even: &mut Even,
) -> (Design, Design) {
    let mut runner = runner(seed);
    loop {
        let drawn = designs.new_tree(&mut runner).expect("a sound design");
        let mut design = drawn.current();
        let count = free.start() + even.below(free.end() - free.start() + 1);
        set_free(&mut design, count, even);
        if let Some(witness) = sound_point(&design, even) {
            return (design, witness);
        }
    }
}

/// Sets `count` sizes free, from half a step to forty steps either way; sometimes a limit is
/// where the size stands.
pub fn set_free(design: &mut Design, count: usize, even: &mut Even) {
    let mut sizes = design.sizes();
    design.free.clear();
    for _ in 0..count.min(sizes.len()) {
        let (dim, size) = sizes.swap_remove(even.below(sizes.len()));
        let limits = bounds(dim);
        let mut room = || {
            if even.next() < 0.1 {
                0.0
            } else {
                limits.step * 0.5 * 80f64.powf(even.next())
            }
        };
        let low = (size.number() - room()).max(limits.low);
        let high = (size.number() + room()).min(limits.high);
        let range = Range {
            low: size.with_number(low),
            high: size.with_number(high),
        };
        design.free.insert(dim, range);
    }
}

/// Every free size with its limits in numbers.
pub fn free_sizes(design: &Design) -> Vec<(Dim, f64, f64)> {
    let sizes = design.free.iter();
    sizes
        .map(|(dim, range)| (*dim, range.low.number(), range.high.number()))
        .collect()
}

/// `design` with free sizes given new numbers.
pub fn with_sizes(design: &Design, numbers: impl IntoIterator<Item = (Dim, f64)>) -> Design {
    numbers
        .into_iter()
        .fold(design.clone(), |moved, (dim, number)| {
            let size = moved.size(dim).expect("a free size");
            moved.apply(Edit::set(dim, size.with_number(number)))
        })
}

/// A sound head with every free size drawn inside its limits, more and more often near the
/// design when that is hard to find; nothing when it is not found.
fn sound_point(design: &Design, even: &mut Even) -> Option<Design> {
    let sizes = free_sizes(design);
    (0..POINTS).find_map(|tried| {
        let share = 0.5f64.powf((tried as f64 - 20.0).max(0.0) / 10.0);
        let numbers = sizes.iter().map(|(dim, low, high)| {
            let from = design.size(*dim).expect("a free size").number();
            (*dim, from + share * (even.between(*low, *high) - from))
        });
        let numbers: Vec<(Dim, f64)> = numbers.collect();
        let moved = with_sizes(design, numbers);
        moved.build().is_ok().then_some(moved)
    })
}

/// What `design` gives of a quantity, by another way than the fit's.
pub fn value_of(design: &Design, quantity: Quantity) -> f64 {
    let solid = design.build().expect("sound");
    let properties = mass_properties(&solid);
    let [front, back] = ["front.reach", "back.reach"].map(|path| {
        let dim = path.parse().expect("a dimension");
        design.size(dim).expect("every end has a reach").number()
    });
    match quantity {
        Quantity::Mass => properties.mass,
        Quantity::Balance => properties.balance(),
        Quantity::Inertia => properties.inertia_handle_axis,
        Quantity::ReachRatio => front / back,
        Quantity::Length => front + back,
        Quantity::LeastWall => solid.head().least_wall().expect("a wall").thickness,
        Quantity::ToolMass | Quantity::ToolBalance | Quantity::GripInertia => {
            tool_value(&solid, &properties, &design.handle, quantity)
        }
    }
}

/// A quantity of the tool, by the parallel axis theorem from head and made handle.
fn tool_value(solid: &Solid, head: &MassProperties, handle: &Handle, quantity: Quantity) -> f64 {
    let made = make(solid, handle).expect("a handle that fits");
    let vector = Vector3::from;
    let axis = vector(made.axis);
    let bodies = [
        (head.mass, head.centroid, head.inertia_centroid),
        (made.mass_kg, made.centroid_mm, made.inertia_kg_mm2),
    ];
    let mass: f64 = bodies.iter().map(|(mass, ..)| mass).sum();
    let first: Vector3<f64> = bodies.iter().map(|(mass, at, _)| vector(*at) * *mass).sum();
    match quantity {
        Quantity::ToolMass => mass,
        Quantity::ToolBalance => -first.dot(&axis) / mass,
        _ => {
            let turn = axis.cross(&Vector3::x()).normalize();
            let about_grip = |(mass, at, inertia): &(f64, [f64; 3], [[f64; 3]; 3])| {
                let tensor = Matrix3::from_fn(|i, j| inertia[i][j]);
                let arm = vector(*at) - vector(made.grip_mm);
                turn.dot(&(tensor * turn)) + mass * arm.cross(&turn).norm_squared()
            };
            bodies.iter().map(about_grip).sum()
        }
    }
}

/// Some quantities, no more than are free, each to be met exactly, within a tolerance, in a range,
/// at least or at most.
fn targets_of(witness: &Design, even: &mut Even) -> Vec<Target> {
    let of_head = Quantity::ALL.into_iter().filter(|q| !q.is_of_tool());
    let mut quantities: Vec<Quantity> = of_head.collect();
    let count = 1 + even.below(witness.free.len().min(MOST_TARGETS));
    let drawn = (0..count).map(|_| quantities.swap_remove(even.below(quantities.len())));
    let drawn: Vec<Quantity> = drawn.collect();
    let target = |quantity: Quantity| {
        let value = value_of(witness, quantity);
        let off = quantity.default_tolerance();
        match even.below(5) {
            0 => Target::just(quantity, value),
            1 => within(
                quantity,
                value - 10.0 * off * even.next(),
                value + 10.0 * off * even.next(),
            ),
            2 => within(
                quantity,
                value - 100.0 * off * even.next(),
                value + 100.0 * off * even.next(),
            ),
            3 => within(quantity, value - off * even.next(), f64::INFINITY),
            _ => within(quantity, f64::NEG_INFINITY, value + off * even.next()),
        }
    };
    drawn.into_iter().map(target).collect()
}

/// Anything from `low` to `high`.
pub fn within(quantity: Quantity, low: f64, high: f64) -> Target {
    Target {
        quantity,
        low,
        high,
        aim: None,
    }
}
