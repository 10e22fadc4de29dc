//! The fit: nearest designs that meet their targets, and honest answers when there are none.

use approx::assert_abs_diff_eq;
use headwright::design::{Design, Dim, Edit, Hold, Quantity, Range, starter, starter_names};
use headwright::fit::{Effort, Obstacle, Outcome, Target, fit, fit_to};
use headwright::mass::mass_properties;
use headwright::units::{Length, Mass};

#[path = "fit/alike.rs"]
mod alike;
#[path = "common/cases.rs"]
mod cases;
mod common;
#[path = "fit/effects.rs"]
mod effects;
#[path = "fit/invariance.rs"]
mod invariance;
#[path = "fit/nearest.rs"]
mod nearest;
#[path = "fit/piece.rs"]
mod piece;
#[path = "fit/reach.rs"]
mod reach;
#[path = "fit/relief.rs"]
mod relief;
#[path = "fit/rule.rs"]
mod rule;
#[path = "fit/tool.rs"]
mod tool;
#[path = "fit/trade_off.rs"]
mod trade_off;

fn rounding() -> Design {
    starter("rounding").expect("a starter")
}

fn weigh(design: &Design) -> (f64, f64) {
    let properties = mass_properties(&design.build().expect("sound"));
    (properties.mass, properties.balance())
}

fn dim(path: &str) -> Dim {
    path.parse().expect("a dimension")
}

#[test]
fn every_starter_reaches_four_fifths_to_five_quarters_of_its_weight_at_balance_zero() {
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        let (mass, _) = weigh(&design);
        for share in [0.8, 0.9, 1.0, 1.1, 1.25] {
            let targets = [
                Target::just(Quantity::Mass, share * mass),
                Target::just(Quantity::Balance, 0.0),
            ];
            let fitted = fit_to(&design, &targets).expect("sound");
            assert_eq!(
                fitted.outcome,
                Outcome::Met,
                "{name} at {share}: {:?}",
                fitted.in_the_way
            );
            let (got, balance) = weigh(&fitted.design);
            assert_abs_diff_eq!(got, share * mass, epsilon = 1e-6);
            assert_abs_diff_eq!(balance, 0.0, epsilon = 1e-4);
            assert!(
                fitted.optimality < 1e-6,
                "{name} at {share}: {}",
                fitted.optimality
            );
            println!(
                "{name} {share}: {} turns, optimality {:.1e}",
                fitted.turns, fitted.optimality
            );
        }
    }
}

#[test]
fn only_free_dimensions_move_and_they_are_named() {
    let design = rounding();
    let fitted = fit_to(&design, &[Target::just(Quantity::Mass, 1.1)]).expect("sound");
    assert_eq!(fitted.outcome, Outcome::Met);
    assert!(!fitted.changed.is_empty());
    for (dim, before) in design.sizes() {
        let after = fitted.design.size(dim).expect("the same dimensions");
        assert_eq!(before != after, fitted.changed.contains(&dim), "{dim}");
        assert!(
            before == after || design.is_free(dim),
            "{dim} is locked and moved"
        );
    }
}

#[test]
fn a_design_that_meets_its_holds_stays_as_it_is() {
    let (mass, balance) = weigh(&rounding());
    let design = rounding()
        .apply(Edit::hold(
            Quantity::Mass,
            Hold::Between {
                low: Mass::kg(mass - 0.01),
                high: Mass::kg(mass + 0.01),
            },
        ))
        .apply(Edit::hold(
            Quantity::Balance,
            Hold::About {
                value: Length::mm(balance),
                tolerance: Some(Length::mm(0.5)),
            },
        ));
    let fitted = fit(&design, Effort::Thorough).expect("sound");
    assert_eq!(fitted.outcome, Outcome::Met);
    assert_eq!(fitted.design, design);
    assert!(fitted.changed.is_empty());
}

#[test]
fn the_answer_is_nearer_than_any_other_design_that_meets_the_holds() {
    let design = rounding();
    let targets = [
        Target::just(Quantity::Mass, 1.08),
        Target::just(Quantity::Balance, 0.0),
    ];
    let fitted = fit_to(&design, &targets).expect("sound");
    let distance = |other: &Design| -> f64 {
        let pairs = design.sizes().into_iter().zip(other.sizes());
        pairs
            .map(|((dim, a), (_, b))| {
                ((a.number() - b.number()) / headwright::design::bounds(dim).step).powi(2)
            })
            .sum()
    };
    let best = distance(&fitted.design);
    // Push one free dimension a little, lock it, and let the others meet the holds again.
    for free in design.free.keys() {
        for push in [-0.5, 0.5] {
            let length = fitted.design.size(*free).expect("present");
            let pushed = design
                .apply(Edit::set(*free, length.with_number(length.number() + push)))
                .apply(Edit::Lock(*free));
            let other = fit_to(&pushed, &targets).expect("sound");
            assert_eq!(other.outcome, Outcome::Met);
            assert!(distance(&other.design) > best, "{free} by {push}");
        }
    }
}

#[test]
fn a_weight_out_of_reach_gives_the_nearest_head_and_names_the_limits() {
    let design = rounding();
    let targets = [
        Target::just(Quantity::Mass, 5.0),
        Target::just(Quantity::Balance, 0.0),
    ];
    let fitted = fit_to(&design, &targets).expect("sound");
    assert_eq!(fitted.outcome, Outcome::OutOfReach);
    assert!(fitted.residuals[0].miss < -0.1);
    let limits: Vec<(Dim, bool)> = fitted
        .in_the_way
        .iter()
        .filter_map(|obstacle| match obstacle {
            Obstacle::Limit { dim, upper, .. } => Some((*dim, *upper)),
            Obstacle::Soundness(_) => None,
        })
        .collect();
    assert!(limits.contains(&(dim("cheeks.width"), true)), "{limits:?}");
    // A limit that is named is a true one: moved out, the weight comes nearer.
    let (mass, _) = weigh(&fitted.design);
    for (dim, upper) in limits {
        assert!(upper);
        let range = design.free[&dim];
        let wider = Range {
            low: range.low,
            high: range.high.with_number(range.high.number() + 5.0),
        };
        let freed = design.apply(Edit::Free(dim, wider));
        let more = fit_to(&freed, &targets).expect("sound");
        assert!(weigh(&more.design).0 > mass + 1e-3, "{dim}");
    }
}

#[test]
fn a_fit_that_meets_its_holds_at_a_limit_names_the_limit_as_in_force() {
    let width = dim("cheeks.width");
    let at = rounding().size(width).expect("present").number();
    let narrow = Range::new(Length::mm(at - 5.0), Length::mm(at + 0.1));
    let design = rounding().apply(Edit::Free(width, narrow));
    let (mass, _) = weigh(&design);
    let fitted = fit_to(&design, &[Target::just(Quantity::Mass, 1.05 * mass)]).expect("sound");
    assert_eq!(fitted.outcome, Outcome::Met);
    assert!(fitted.in_the_way.is_empty());
    let named = fitted.active.iter().any(
        |obstacle| matches!(obstacle, Obstacle::Limit { dim, upper: true, .. } if *dim == width),
    );
    assert!(named, "{:?}", fitted.active);
}

#[test]
fn without_free_dimensions_a_missed_hold_is_out_of_reach() {
    let mut design = rounding();
    design.free.clear();
    let fitted = fit_to(&design, &[Target::just(Quantity::Mass, 1.1)]).expect("sound");
    assert_eq!(fitted.outcome, Outcome::OutOfReach);
    assert_eq!(fitted.design, design);
}

#[test]
fn two_weights_at_once_are_contradictory() {
    let targets = [
        Target::just(Quantity::Mass, 1.0),
        Target::just(Quantity::Mass, 1.2),
    ];
    let fitted = fit_to(&rounding(), &targets).expect("sound");
    assert_eq!(fitted.outcome, Outcome::Contradictory);
}

#[test]
fn a_hold_as_a_range_stops_at_its_nearer_end() {
    let (mass, _) = weigh(&rounding());
    let range = Target {
        quantity: Quantity::Mass,
        low: mass + 0.05,
        high: mass + 0.2,
        aim: None,
    };
    let fitted = fit_to(&rounding(), &[range]).expect("sound");
    assert_eq!(fitted.outcome, Outcome::Met);
    assert_abs_diff_eq!(weigh(&fitted.design).0, mass + 0.05, epsilon = 1e-5);
}

#[test]
fn the_fit_keeps_the_cheek_wall() {
    // Free the eye's width as well: less steel would be easiest by a wider eye.
    let mut design = rounding();
    design.free.clear();
    let free = |path: &str, low: f64, high: f64| {
        (dim(path), Range::new(Length::mm(low), Length::mm(high)))
    };
    design.free.extend([
        free("cheeks.width", 20.0, 60.0),
        free("eye.waist.width", 10.0, 40.0),
    ]);
    let fitted = fit_to(&design, &[Target::just(Quantity::Mass, 0.6)]).expect("sound");
    assert_eq!(fitted.outcome, Outcome::OutOfReach);
    fitted.design.build().expect("the nearest head is sound");
    let walls = fitted
        .in_the_way
        .iter()
        .any(|o| matches!(o, Obstacle::Soundness(_)));
    assert!(walls, "{:?}", fitted.in_the_way);
}

#[test]
fn an_unsound_start_is_refused_with_its_reasons() {
    let design = rounding().apply(Edit::set(dim("cheeks.length"), Length::mm(20.0)));
    let errors = fit_to(&design, &[Target::just(Quantity::Mass, 1.0)]).expect_err("unsound");
    assert!(
        errors[0].to_string().contains("Lengthen the cheeks"),
        "{errors:?}"
    );
}

#[test]
fn a_dimension_brought_back_brings_the_others_back() {
    let design = rounding();
    let targets = [
        Target::just(Quantity::Mass, 1.0),
        Target::just(Quantity::Balance, 0.0),
    ];
    let start = fit_to(&design, &targets).expect("sound").design;
    let reach = dim("front.reach");
    let held = start.apply(Edit::Lock(reach));
    let at = |mm: f64| {
        let moved = held.apply(Edit::set(reach, Length::mm(mm)));
        fit_to(&moved, &targets).expect("sound").design
    };
    let original = start.size(reach).expect("present").number();
    let away = at(original + 3.0);
    assert!(away.size(dim("back.reach")) != start.size(dim("back.reach")));
    for ((dim, back), (_, first)) in at(original).sizes().iter().zip(start.sizes()) {
        assert_abs_diff_eq!(back.number(), first.number(), epsilon = 1e-6);
        assert!(dim.to_string().contains('.'));
    }
}
