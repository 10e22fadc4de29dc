//! What can be reached is met, whatever the head and whatever is free; what cannot is called so.

use headwright::design::{Design, Edit, Quantity, Range, bounds};
use headwright::fit::{FINEST, Fitted, LimitMove, Obstacle, Outcome, Target, fit_to, reliefs};
use proptest::strategy::Strategy;

use super::cases::{
    Even, drawn, free_sizes, on_all_cores, reachable, set_free, value_of, with_sizes,
};
use super::common::{plain_sound_designs, sound_designs};

/// Fits of heads with every part and of plain ones; a quarter as many must be out of reach.
const FITS: u64 = 2000;

/// A complaint when the fit of `design` to `targets` does not end in `expected`, or not in a
/// sound head.
fn complaint(design: &Design, targets: &[Target], expected: Outcome) -> Option<String> {
    let fitted = fit_to(design, targets).expect("a sound start");
    let sound = fitted.design.build().is_ok();
    let finite = fitted.residuals.iter().all(|one| one.value.is_finite());
    (fitted.outcome != expected || !sound || !finite).then(|| {
        format!(
            "{:?} after {} turns, sound {sound}, {:?}, free {:?}",
            fitted.outcome,
            fitted.turns,
            fitted.residuals,
            free_sizes(design)
        )
    })
}

#[track_caller]
fn check_none(count: u64, find: impl Fn(u64) -> Option<String> + Sync) {
    let found = on_all_cores(count, |seed| Some(format!("{seed}: {}", find(seed)?)));
    assert!(
        found.is_empty(),
        "{} of {count}:\n{}",
        found.len(),
        found.join("\n")
    );
}

/// What a head gives is met from another, for heads that `designs` draws.
#[track_caller]
fn check_reachable<S: Strategy<Value = Design>>(count: u64, designs: impl Fn() -> S + Sync) {
    check_none(count, |seed| {
        let case = reachable(seed, designs());
        complaint(&case.design, &case.targets, Outcome::Met)
    });
}

#[test]
fn what_a_plain_head_gives_is_met_from_another() {
    check_reachable(FITS, plain_sound_designs);
}

#[test]
fn what_any_sound_head_gives_is_met_from_another() {
    check_reachable(FITS, sound_designs);
}

/// Points tried inside the limits to show that none goes beyond what a corner gives.
const SAMPLES: usize = 100;

/// The values of `quantity` at every corner of the limits and at samples between; nothing when a
/// corner is not sound. The corner's number has a bit for every free size at its upper limit.
fn values(design: &Design, quantity: Quantity, even: &mut Even) -> Option<(Vec<f64>, Vec<f64>)> {
    let sizes = free_sizes(design);
    let sound = |design: &Design| design.build().is_ok().then(|| value_of(design, quantity));
    let corner = |number: usize| {
        let ends = sizes.iter().enumerate();
        let ends = ends
            .map(|(k, (dim, low, high))| (*dim, if number & (1 << k) == 0 { *low } else { *high }));
        sound(&with_sizes(design, ends))
    };
    let corners: Option<Vec<f64>> = (0..1 << sizes.len()).map(corner).collect();
    let between = (0..SAMPLES).filter_map(|_| {
        let points = sizes
            .iter()
            .map(|(dim, low, high)| (*dim, even.between(*low, *high)));
        let points: Vec<_> = points.collect();
        sound(&with_sizes(design, points))
    });
    Some((corners?, between.collect()))
}

/// Whether every free size moves the values at the corners one way only, along all edges.
fn monotone(corners: &[f64]) -> bool {
    let sizes = corners.len().ilog2();
    (0..sizes).all(|k| {
        let lower = (0..corners.len()).filter(|corner| corner & (1 << k) == 0);
        let mut signs = lower.map(|corner| (corners[corner | (1 << k)] - corners[corner]).signum());
        let first = signs.next();
        signs.all(|sign| Some(sign) == first)
    })
}

/// A plain head and a target that it cannot meet: a weight 1 to 30 % beyond the best corner of its
/// limits, where every free size changes the weight one way only, or a balance beyond all corners
/// and samples by half of what lies between them.
fn unreachable(seed: u64) -> (Design, Target) {
    let mut even = Even(seed);
    let quantity = if seed % 3 == 2 {
        Quantity::Balance
    } else {
        Quantity::Mass
    };
    for number in 0.. {
        let mut design = drawn(seed + 1_000_000 * (1 + number), plain_sound_designs());
        set_free(&mut design, 2 + even.below(4), &mut even);
        let Some((corners, between)) = values(&design, quantity, &mut even) else {
            continue;
        };
        let least = |values: &[f64]| values.iter().copied().fold(f64::INFINITY, f64::min);
        let most = |values: &[f64]| values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let (low, high) = (least(&corners), most(&corners));
        let (inner, outer) = (least(&between), most(&between));
        let more = even.next() < 0.5;
        let value = match quantity {
            Quantity::Mass if monotone(&corners) && low <= inner && outer <= high => {
                let share = even.between(0.01, 0.3);
                if more {
                    high * (1.0 + share)
                } else {
                    low * (1.0 - share)
                }
            }
            Quantity::Balance => {
                let (low, high) = (low.min(inner), high.max(outer));
                let beyond = 0.5 * (high - low) + 0.5;
                if more { high + beyond } else { low - beyond }
            }
            _ => continue,
        };
        return (design, Target::just(quantity, value));
    }
    unreachable!("some head has sound limits")
}

/// A complaint when a limit that is named is none: moved outwards by a step it must let the target
/// come nearer; and when moving limits as told is not enough.
fn untrue(design: &Design, target: Target) -> Option<String> {
    let targets = [target];
    let fitted = fit_to(design, &targets).expect("a sound start");
    let miss = |fitted: &Fitted| fitted.residuals[0].miss.abs();
    let wider = |dim, upper: bool| {
        let Range { low, high } = design.free[&dim];
        let step = bounds(dim).step;
        let range = if upper {
            Range::new(low, high.with_number(high.number() + step))
        } else {
            Range::new(low.with_number(low.number() - step), high)
        };
        fit_to(&design.apply(Edit::Free(dim, range)), &targets).expect("sound")
    };
    for obstacle in &fitted.in_the_way {
        let Obstacle::Limit { dim, upper, mm } = *obstacle else {
            continue;
        };
        let table = bounds(dim);
        if mm <= table.low || mm >= table.high {
            continue;
        }
        let wider = wider(dim, upper);
        // A limit just where soundness ends is as much in the way as soundness.
        let sound_too = wider.in_the_way.iter().any(|obstacle| {
            matches!(obstacle, Obstacle::Soundness(_)) && !fitted.in_the_way.contains(obstacle)
        });
        if miss(&wider) >= miss(&fitted) && !sound_too {
            return Some(format!("{dim} at {mm} is not in the way"));
        }
    }
    let moved = |relief: &Vec<LimitMove>| {
        let all = relief.iter();
        let design = all.fold(design.clone(), |design, limit| limit.on(&design));
        fit_to(&design, &targets).expect("sound").outcome == Outcome::Met
    };
    let told = reliefs(design, &targets, &fitted, 8, &|_| FINEST);
    let false_one = told.iter().find(|relief| !moved(relief));
    false_one.map(|relief| format!("{relief:?} is not enough"))
}

#[test]
fn what_lies_beyond_every_corner_is_out_of_reach_and_the_limits_named_are_true() {
    check_none(FITS / 4, |seed| {
        let (design, target) = unreachable(seed);
        complaint(&design, &[target], Outcome::OutOfReach).or_else(|| untrue(&design, target))
    });
}
