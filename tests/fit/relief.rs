//! How far limits would have to move: true, and no farther than needed.

use headwright::design::{Edit, Quantity, Range};
use headwright::fit::{FINEST, LimitMove, Outcome, Target, fit_to, reliefs};
use headwright::units::Length;

use super::{Design, dim, rounding, weigh};

fn found(design: &Design, targets: &[Target]) -> Vec<Vec<LimitMove>> {
    let fitted = fit_to(design, targets).expect("sound");
    assert_eq!(fitted.outcome, Outcome::OutOfReach);
    reliefs(design, targets, &fitted, 8, &|_| FINEST)
}

/// `design` with the limits moved a share of what was told.
fn moved(design: &Design, relief: &[LimitMove], share: f64) -> Design {
    relief.iter().fold(design.clone(), |design, limit| {
        let (from, to) = (limit.from.number(), limit.to.number());
        let to = limit.from.with_number(from + share * (to - from));
        LimitMove { to, ..*limit }.on(&design)
    })
}

fn outcome(design: &Design, targets: &[Target]) -> Outcome {
    fit_to(design, targets).expect("sound").outcome
}

#[test]
fn moving_a_limit_as_told_is_enough_and_moving_it_less_is_not() {
    let design = rounding();
    let (mass, _) = weigh(&design);
    for share in [2.2, 2.4, 0.45] {
        let targets = [
            Target::just(Quantity::Mass, share * mass),
            Target::just(Quantity::Balance, 0.0),
        ];
        let reliefs = found(&design, &targets);
        assert!(!reliefs.is_empty(), "{share}");
        for relief in &reliefs {
            println!("{share}: {relief:?}");
            assert_eq!(
                outcome(&moved(&design, relief, 1.0), &targets),
                Outcome::Met
            );
            assert_eq!(
                outcome(&moved(&design, relief, 0.98), &targets),
                Outcome::OutOfReach,
                "{share}: {relief:?}"
            );
        }
    }
}

#[test]
fn where_no_limit_is_enough_by_itself_those_that_must_move_together_are_told() {
    let mut design = rounding();
    design.free.clear();
    // Both ends may hardly move: a longer head needs both, or it would not balance.
    let narrow = Range::new(Length::mm(53.0), Length::mm(55.0));
    for path in ["front.reach", "back.reach"] {
        design = design.apply(Edit::Free(dim(path), narrow));
    }
    let (mass, _) = weigh(&design);
    let targets = [
        Target::just(Quantity::Mass, 1.1 * mass),
        Target {
            quantity: Quantity::Balance,
            low: -0.5,
            high: 0.5,
            aim: None,
        },
    ];
    let reliefs = found(&design, &targets);
    let [relief] = reliefs.as_slice() else {
        panic!("one set of limits: {reliefs:?}");
    };
    assert_eq!(relief.len(), 2, "{relief:?}");
    assert!(relief.iter().all(|limit| limit.upper));
    assert_eq!(
        outcome(&moved(&design, relief, 1.0), &targets),
        Outcome::Met
    );
}

#[test]
fn nothing_is_told_where_no_limit_of_the_smiths_helps() {
    let design = rounding();
    assert_eq!(
        found(&design, &[Target::just(Quantity::Mass, 50.0)]),
        [] as [Vec<LimitMove>; 0]
    );
    let mut locked = design.clone();
    locked.free.clear();
    let (mass, _) = weigh(&design);
    let targets = [Target::just(Quantity::Mass, 1.1 * mass)];
    assert_eq!(found(&locked, &targets), [] as [Vec<LimitMove>; 0]);
    let met = fit_to(&design, &targets).expect("sound");
    assert_eq!(met.outcome, Outcome::Met);
    assert!(reliefs(&design, &targets, &met, 8, &|_| FINEST).is_empty());
}
