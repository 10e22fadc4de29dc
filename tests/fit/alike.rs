//! Front and back alike: two sizes that a fit moves as one.

use headwright::design::{Edit, Quantity, Range, bounds, starter, starter_names};
use headwright::fit::{
    Accuracy, Effect, Obstacle, Outcome, Target, effects, fit_to, mass_spread, to_rule,
};
use headwright::units::{Length, Measure, Rule};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::common::sound_designs;
use super::{Design, Dim, dim, rounding, weigh};

const FRONT: &str = "front.face.width";
const BACK: &str = "back.face.width";

fn number(design: &Design, path: &str) -> f64 {
    design.size(dim(path)).expect("present").number()
}

/// The rounding hammer with both faces free, as one or each by itself.
fn free_faces(alike: bool) -> Design {
    let range = Range::new(Length::mm(30.0), Length::mm(48.0));
    let design = rounding().apply(Edit::Alike(dim(BACK), alike));
    [FRONT, BACK].into_iter().fold(design, |design, path| {
        design.apply(Edit::Free(dim(path), range))
    })
}

/// How far apart two designs are, squared, in steps: what is as another is not counted again.
fn distance(design: &Design, other: &Design) -> f64 {
    let pairs = design.sizes().into_iter().zip(other.sizes());
    let pairs = pairs.filter(|((dim, _), _)| design.leader(*dim) == *dim);
    pairs
        .map(|((dim, a), (_, b))| ((a.number() - b.number()) / bounds(dim).step).powi(2))
        .sum()
}

#[test]
fn two_that_are_alike_move_as_one_and_both_are_named() {
    let design = free_faces(true);
    let targets = [
        Target::just(Quantity::Mass, 1.1),
        Target::just(Quantity::Balance, 0.0),
    ];
    let fitted = fit_to(&design, &targets).expect("sound");
    assert_eq!(fitted.outcome, Outcome::Met);
    assert!(number(&fitted.design, FRONT) > number(&design, FRONT) + 0.1);
    assert_eq!(
        fitted.design.size(dim(FRONT)),
        fitted.design.size(dim(BACK))
    );
    assert_eq!(fitted.design.alike, design.alike);
    for path in [FRONT, BACK] {
        assert!(fitted.changed.contains(&dim(path)), "{path}");
    }
    // Cut, the faces go their own ways.
    let parted = fit_to(&free_faces(false), &targets).expect("sound").design;
    assert!((number(&parted, FRONT) - number(&parted, BACK)).abs() > 0.01);
}

#[test]
fn the_back_moves_exactly_when_the_front_is_free() {
    let design = rounding().apply(Edit::Lock(dim(FRONT)));
    let targets = [Target::just(Quantity::Mass, 1.1)];
    let fitted = fit_to(&design, &targets).expect("sound").design;
    for path in [FRONT, BACK] {
        assert_eq!(fitted.size(dim(path)), design.size(dim(path)), "{path}");
    }
    // Limits of the back alone, as only a hand can write them beside a tie, free nothing.
    let mut odd = design.clone();
    let range = Range::new(Length::mm(30.0), Length::mm(48.0));
    odd.free.insert(dim(BACK), range);
    let fitted = fit_to(&odd, &targets).expect("sound").design;
    assert_eq!(fitted.size(dim(BACK)), design.size(dim(BACK)));
}

#[test]
fn the_nearest_head_is_that_of_the_problem_with_one_size_for_both() {
    let design = free_faces(true);
    let targets = [
        Target::just(Quantity::Mass, 1.08),
        Target::just(Quantity::Balance, 0.0),
    ];
    let fitted = fit_to(&design, &targets).expect("sound");
    assert_eq!(fitted.outcome, Outcome::Met);
    let best = distance(&design, &fitted.design);
    for free in design.free.keys() {
        for push in [-0.5, 0.5] {
            let length = fitted.design.size(*free).expect("present");
            let pushed = design
                .apply(Edit::set(*free, length.with_number(length.number() + push)))
                .apply(Edit::Lock(*free));
            let other = fit_to(&pushed, &targets).expect("sound");
            assert_eq!(other.outcome, Outcome::Met);
            let further = distance(&design, &other.design);
            assert!(further > best, "{free} by {push}: {further}, not {best}");
        }
    }
    // At a stationary point a small push costs little: the square of what a large one does.
    let costs = [0.05, 0.5].map(|push| {
        let pushed = design
            .apply(Edit::set(
                dim(FRONT),
                Length::mm(number(&fitted.design, FRONT) + push),
            ))
            .apply(Edit::Lock(dim(FRONT)));
        distance(&design, &fit_to(&pushed, &targets).expect("sound").design) - best
    });
    assert!(costs[0] < 0.03 * costs[1], "{costs:?}");
}

#[test]
fn a_limit_in_the_way_is_named_after_the_front() {
    let range = Range::new(Length::mm(38.0), Length::mm(40.0));
    let mut design = rounding();
    design.free.clear();
    let design = design.apply(Edit::Free(dim(BACK), range));
    let fitted = fit_to(&design, &[Target::just(Quantity::Mass, 2.0)]).expect("sound");
    assert_eq!(fitted.outcome, Outcome::OutOfReach);
    let expected = Obstacle::Limit {
        dim: dim(FRONT),
        upper: true,
        mm: 40.0,
    };
    assert_eq!(fitted.in_the_way, [expected]);
    assert_eq!(number(&fitted.design, BACK), 40.0);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, rng_seed: RngSeed::Fixed(11), ..ProptestConfig::default() })]

    #[test]
    fn ties_hold_through_fit_and_rule_on_any_head(
        mut design in sound_designs(),
        (heavier, which) in (-0.03..0.03, 0usize..1000),
    ) {
        design.back = design.front.clone();
        prop_assume!(design.build().is_ok());
        design.alike = design.default_alike();
        prop_assert!(!design.alike.is_empty());
        let near = |size: Measure, by: f64| size.with_number(size.number() + by);
        for (k, (dim, size)) in design.sizes().into_iter().enumerate() {
            if (k + which).is_multiple_of(3) {
                let range = Range { low: near(size, -6.0), high: near(size, 6.0) };
                design = design.apply(Edit::Free(dim, range));
            }
        }
        let (mass, balance) = weigh(&design);
        let targets = [
            Target::just(Quantity::Mass, mass * (1.0 + heavier)),
            Target::just(Quantity::Balance, balance),
        ];
        let fitted = fit_to(&design, &targets).expect("sound").design;
        let rounded = to_rule(&fitted, &targets, Rule::MILLIMETRE);
        for after in [Some(&fitted), rounded.as_ref().ok().map(|rounded| &rounded.design)] {
            let Some(after) = after else { continue };
            prop_assert_eq!(after.build().err(), None);
            // An edit that says nothing would cut what does not hold.
            let settled = after.apply(Edit::Name(after.name.clone()));
            prop_assert_eq!(&settled, after);
            prop_assert_eq!(&after.alike, &design.alike);
        }
    }
}

fn parted(mut design: Design) -> Design {
    design.alike.clear();
    design
}

#[test]
fn the_effect_of_a_size_and_the_one_that_is_as_it_is_the_sum_of_theirs() {
    let effect = |all: &[Effect], dim: Dim| {
        let found = all.iter().find(|effect| effect.dim == dim);
        *found.expect("an effect")
    };
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        let tied = effects(&design, Rule::MILLIMETRE).expect("sound");
        let apart = effects(&parted(design.clone()), Rule::MILLIMETRE).expect("sound");
        assert_eq!(apart.len(), tied.len() + design.alike.len());
        for back in &design.alike {
            let front = back.mirrored().expect("a fellow");
            let (both, one, other) = (
                effect(&tied, front),
                effect(&apart, front),
                effect(&apart, *back),
            );
            assert_eq!(both.follower, Some(*back));
            for (sum, parts) in [
                (both.mass, [one.mass, other.mass]),
                (both.balance, [one.balance, other.balance]),
                (
                    both.inertia_handle_axis,
                    [one.inertia_handle_axis, other.inertia_handle_axis],
                ),
                (both.follower_mass, [0.0, other.mass]),
            ] {
                assert!((sum - parts[0] - parts[1]).abs() < 1e-9, "{name}, {back}");
            }
        }
    }
}

#[test]
fn sizes_that_are_alike_on_paper_are_forged_apart() {
    let accuracy = Accuracy::within(Length::mm(0.5));
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        let spread = |design: &Design| {
            mass_spread(&effects(design, Rule::MILLIMETRE).expect("sound"), accuracy)
        };
        let (tied, apart) = (spread(&design), spread(&parted(design.clone())));
        assert!((tied - apart).abs() < 1e-12, "{name}: {tied} {apart}");
    }
}

#[test]
fn a_rule_rounds_both_alike_and_as_well_as_one_size_can() {
    let targets = [
        Target::just(Quantity::Mass, 1.07),
        Target::just(Quantity::Balance, 0.0),
    ];
    let fitted = fit_to(&free_faces(true), &targets).expect("sound").design;
    for rule in [Rule::MILLIMETRE, Rule::SIXTEENTH] {
        let rounded = to_rule(&fitted, &targets, rule).expect("sound");
        assert_eq!(
            rounded.design.size(dim(FRONT)),
            rounded.design.size(dim(BACK))
        );
        assert_eq!(rounded.design.alike, fitted.alike);
        assert_ne!(rounded.design.size(dim(BACK)), fitted.size(dim(BACK)));
        for path in [FRONT, BACK] {
            assert!(rounded.changed.contains(&dim(path)), "{path}");
        }
        let found = super::rule::missed(&rounded.design, &targets).expect("sound");
        let best = super::rule::least(&fitted, &targets, rule).expect("one is sound");
        assert!(found <= best + 1e-7, "{rule}: {found}, not {best}");
    }
}
