//! Roundings to a rule, against all there are.

use headwright::design::{Design, Edit, Quantity, Range, bounds, starter, starter_names};
use headwright::fit::{Rounded, RuleError, Target, fit_to, to_rule};
use headwright::units::{Angle, Length, Measure, Rule};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::cases::value_of;
use super::common::sound_designs;
use super::{dim, rounding, weigh};

fn rules() -> [Rule; 6] {
    let inch = |division: f64| Length::inches(1.0 / division);
    [
        Length::mm(0.5),
        Length::mm(1.0),
        Length::mm(2.0),
        inch(32.0),
        inch(16.0),
        inch(8.0),
    ]
    .map(|division| Rule::new(division).expect("a rule"))
}

/// The sum of squared misses, each by its scale; nothing when the head cannot be made.
pub fn missed(design: &Design, targets: &[Target]) -> Option<f64> {
    design.build().ok()?;
    let squares = targets.iter().map(|target| {
        let value = value_of(design, target.quantity);
        let scale = match target.quantity {
            Quantity::Mass | Quantity::ReachRatio => 0.01,
            Quantity::Balance | Quantity::Length | Quantity::LeastWall => 0.5,
            Quantity::Inertia => 20.0,
            of_tool => unreachable!("{of_tool:?} is not asked of a head"),
        };
        let off = match target.aim {
            Some(aim) => value - aim,
            None => (value - target.high).max(0.0) + (value - target.low).min(0.0),
        };
        (off / scale).powi(2)
    });
    Some(squares.sum())
}

/// The divisions next to every free dimension that are inside its limits; that it lies on one
/// leaves no other.
fn divisions(design: &Design, rule: Rule) -> Vec<(headwright::design::Dim, Vec<f64>)> {
    let mut all = Vec::new();
    for (dim, size) in design.sizes() {
        let Some(range) = design.free.get(&dim) else {
            continue;
        };
        let step = if dim.is_angle() {
            0.5
        } else {
            rule.division().in_mm()
        };
        let low = range.low.number().max(bounds(dim).low);
        let high = range.high.number().min(bounds(dim).high);
        if low >= high {
            continue;
        }
        let number = size.number().clamp(low, high);
        let near = (number / step).round() * step;
        let ways = if (near - number).abs() < 1e-6 {
            vec![near]
        } else {
            vec![
                (number / step).floor() * step,
                (number / step).ceil() * step,
            ]
        };
        let inside = |way: &f64| low - 1e-9 <= *way && *way <= high + 1e-9;
        all.push((dim, ways.into_iter().filter(inside).collect()));
    }
    all
}

/// The least miss of all sound roundings.
pub fn least(design: &Design, targets: &[Target], rule: Rule) -> Option<f64> {
    let mut heads = vec![design.clone()];
    for (dim, ways) in divisions(design, rule) {
        let with = |head: &Design, way: &f64| head.apply(Edit::set(dim, measure(dim, *way)));
        heads = heads
            .iter()
            .flat_map(|head| ways.iter().map(|way| with(head, way)))
            .collect();
    }
    let all = heads.iter().filter_map(|head| missed(head, targets));
    all.min_by(f64::total_cmp)
}

fn measure(dim: headwright::design::Dim, number: f64) -> Measure {
    if dim.is_angle() {
        Angle::degrees(number).into()
    } else {
        Length::mm(number).into()
    }
}

/// That the answer is on the rule, sound, inside its limits, and stays when it is rounded again.
#[track_caller]
fn check_on_rule(design: &Design, rounded: &Rounded, targets: &[Target], rule: Rule) {
    assert_eq!(rounded.design.build().err(), None);
    let ways = divisions(design, rule);
    for (dim, size) in rounded.design.sizes() {
        let Some((_, ways)) = ways.iter().find(|(other, _)| *other == dim) else {
            let leader = design.leader(dim);
            let as_it_was = if leader == dim {
                design.size(dim)
            } else {
                rounded.design.size(leader)
            };
            assert_eq!(as_it_was, Some(size), "{dim} is not free");
            continue;
        };
        let number = size.number();
        assert!(
            ways.iter().any(|way| (way - number).abs() < 1e-9),
            "{dim} {size}"
        );
        let range = rounded.design.free[&dim];
        assert!(
            range.low.number() <= number && number <= range.high.number(),
            "{dim} {size}"
        );
        if let Measure::Length(length) = size {
            assert_eq!(length.notation(), rule.division().notation());
        }
    }
    let again = to_rule(&rounded.design, targets, rule).expect("sound");
    assert_eq!(again.design, rounded.design);
    assert!(again.changed.is_empty());
    let opened = Design::from_json(&rounded.design.to_json()).expect("reads");
    for ((dim, saved), (_, size)) in opened.sizes().into_iter().zip(rounded.design.sizes()) {
        let free = ways.iter().any(|(other, _)| *other == dim);
        assert!(!free || saved == size, "{dim}: {saved:?} {size:?}");
    }
    for residual in &rounded.residuals {
        let value = value_of(&rounded.design, residual.target.quantity);
        assert!((value - residual.value).abs() < 1e-9);
        let left = residual.target.aim.map_or(residual.miss, |aim| value - aim);
        assert!((residual.left_over() - left).abs() < 1e-9);
    }
}

#[test]
fn the_rounding_of_every_starters_fit_is_the_best_of_all() {
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        let (mass, _) = weigh(&design);
        let targets = [
            Target::just(Quantity::Mass, 0.93 * mass),
            Target::just(Quantity::Balance, 0.0),
        ];
        let fitted = fit_to(&design, &targets).expect("sound").design;
        for rule in rules() {
            let rounded = to_rule(&fitted, &targets, rule).expect("sound");
            check_on_rule(&fitted, &rounded, &targets, rule);
            assert!(rounded.exact);
            let found = missed(&rounded.design, &targets).expect("sound");
            let best = least(&fitted, &targets, rule).expect("one is sound");
            assert!(
                found <= best + 1e-7,
                "{name} by {rule}: {found}, not {best}"
            );
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, rng_seed: RngSeed::Fixed(5), ..ProptestConfig::default() })]

    #[test]
    fn a_rounding_of_up_to_eight_sizes_is_the_best_of_all(
        mut design in sound_designs(),
        (first, count, rule) in (0usize..40, 1usize..9, 0usize..6),
        (heavier, further) in (-0.05..0.05, -1.0..1.0),
        narrow in any::<bool>(),
    ) {
        let rule = rules()[rule];
        let sizes = design.sizes();
        for k in 0..count.min(sizes.len()) {
            let (dim, size) = sizes[(first + 3 * k) % sizes.len()];
            let room = if narrow { 0.8 } else { 5.0 };
            let number = size.number();
            design.free.insert(dim, Range::new(measure(dim, number - room), measure(dim, number + 0.5 * room)));
        }
        let (mass, balance) = weigh(&design);
        let targets = [
            Target::just(Quantity::Mass, mass * (1.0 + heavier)),
            Target::just(Quantity::Balance, balance + further),
        ];
        let best = least(&design, &targets, rule);
        match to_rule(&design, &targets, rule) {
            Ok(rounded) => {
                check_on_rule(&design, &rounded, &targets, rule);
                let found = missed(&rounded.design, &targets).expect("sound");
                prop_assert!(best.is_some_and(|best| found <= best + 1e-7), "{found}, not {best:?}");
            }
            Err(RuleError::NoDivision { dim, .. }) => {
                let ways = divisions(&design, rule);
                prop_assert!(ways.iter().any(|(other, ways)| *other == dim && ways.is_empty()));
            }
            Err(error) => {
                prop_assert_eq!(error, RuleError::NoneSound(rule));
                prop_assert_eq!(best, None);
            }
        }
    }

}

proptest! {
    #![proptest_config(ProptestConfig { cases: 10, failure_persistence: None, rng_seed: RngSeed::Fixed(5), ..ProptestConfig::default() })]

    #[test]
    fn with_every_size_free_a_rounding_is_sound_and_no_worse_than_the_nearest(
        mut design in sound_designs(),
        rule in 0usize..6,
    ) {
        let rule = rules()[rule];
        for (dim, size) in design.sizes() {
            let number = size.number();
            design.free.insert(dim, Range::new(measure(dim, number - 4.0), measure(dim, number + 4.0)));
        }
        let (mass, balance) = weigh(&design);
        let targets = [Target::just(Quantity::Mass, mass), Target::just(Quantity::Balance, balance)];
        if let Ok(rounded) = to_rule(&design, &targets, rule) {
            check_on_rule(&design, &rounded, &targets, rule);
            let mut nearest = design.clone();
            for (dim, ways) in divisions(&design, rule) {
                let number = design.size(dim).expect("present").number();
                let off = |way: &&f64| (*way - number).abs();
                let way = ways.iter().min_by(|a, b| off(a).total_cmp(&off(b))).expect("a way");
                nearest = nearest.apply(Edit::set(dim, measure(dim, *way)));
            }
            let found = missed(&rounded.design, &targets).expect("sound");
            if let Some(nearest) = missed(&nearest, &targets) {
                prop_assert!(found <= nearest + 1e-7);
            }
        }
    }
}

/// Where a head counts as met, and the search among too many roundings may end.
const GOOD: f64 = 1e-4;

#[test]
fn with_fourteen_sizes_off_the_rule_the_search_finds_what_all_roundings_hold() {
    for (name, share) in [("rounding", 0.97), ("cross", 1.04)] {
        let mut design = starter(name).expect("a starter");
        design.free.clear();
        // Every size by itself, or there are not fourteen.
        design.alike.clear();
        let mut open = 0;
        for (dim, size) in design.sizes() {
            let number = size.number() + 0.3;
            let off = design.apply(Edit::set(dim, measure(dim, number)));
            if open < 14 && !dim.is_angle() && number.fract() != 0.0 && off.build().is_ok() {
                design = off;
                let range = Range::new(measure(dim, number - 3.0), measure(dim, number + 3.0));
                design.free.insert(dim, range);
                open += 1;
            }
        }
        assert_eq!(open, 14, "{name}");
        let targets = [
            Target::just(Quantity::Mass, share * weigh(&design).0),
            Target::just(Quantity::Balance, 0.2),
        ];
        let rounded = to_rule(&design, &targets, Rule::MILLIMETRE).expect("sound");
        assert!(!rounded.exact);
        check_on_rule(&design, &rounded, &targets, Rule::MILLIMETRE);
        let found = missed(&rounded.design, &targets).expect("sound");
        let best = least(&design, &targets, Rule::MILLIMETRE).expect("one is sound");
        println!("{name}: {found} against {best}");
        assert!(
            found <= best.max(GOOD) + 1e-7,
            "{name}: {found}, not {best}"
        );
    }
}

#[test]
fn of_roundings_that_all_meet_the_targets_the_nearest_is_taken() {
    let design = rounding().apply(Edit::set(dim("front.reach"), Length::mm(58.7)));
    let wide = Target {
        quantity: Quantity::Mass,
        low: 0.1,
        high: 9.0,
        aim: None,
    };
    for targets in [&[][..], &[wide]] {
        let rounded = to_rule(&design, targets, Rule::MILLIMETRE).expect("sound");
        let reach = rounded.design.size(dim("front.reach"));
        assert_eq!(reach, Some(Length::mm(59.0).into()));
    }
}

#[test]
fn inch_sizes_read_as_on_a_rule() {
    let design = rounding().apply(Edit::set(dim("front.reach"), Length::mm(58.7)));
    let rounded = to_rule::<Quantity>(&design, &[], Rule::SIXTEENTH).expect("sound");
    let reach = rounded.design.size(dim("front.reach")).expect("present");
    assert_eq!(reach.to_string(), "2 5/16 in");
}

#[test]
fn limits_without_a_division_between_them_are_named() {
    let reach = dim("front.reach");
    let design = rounding()
        .apply(Edit::set(reach, Length::mm(58.5)))
        .apply(Edit::Free(
            reach,
            Range::new(Length::mm(58.2), Length::mm(58.8)),
        ));
    let error = to_rule::<Quantity>(&design, &[], Rule::MILLIMETRE).expect_err("none");
    assert_eq!(
        error.to_string(),
        "No division of 1 mm lies between the limits of front face offset, 58.2 mm and 58.8 mm. Widen them or lock it."
    );
}

#[test]
fn where_no_rounding_is_sound_that_is_said() {
    // The eye just fits between the walls: on a rule of 20 mm nothing does.
    let mut design = rounding();
    design.free.clear();
    for path in ["cheeks.width", "eye.waist.width"] {
        let range = Range::new(Length::mm(4.0), Length::mm(60.0));
        design.free.insert(dim(path), range);
    }
    design = design
        .apply(Edit::set(dim("cheeks.width"), Length::mm(32.0)))
        .apply(Edit::set(dim("eye.waist.width"), Length::mm(17.0)));
    assert_eq!(design.build().err(), None);
    let rule = Rule::new(Length::mm(20.0)).expect("a rule");
    // 20 or 40 mm across with an eye of 20 mm: lock the cheeks' way to 40 mm.
    design.free.insert(
        dim("cheeks.width"),
        Range::new(Length::mm(10.0), Length::mm(39.0)),
    );
    assert_eq!(
        to_rule::<Quantity>(&design, &[], rule),
        Err(RuleError::NoneSound(rule))
    );
}

#[test]
fn an_unsound_design_is_not_rounded() {
    let design = rounding().apply(Edit::set(dim("cheeks.length"), Length::mm(20.0)));
    let error = to_rule::<Quantity>(&design, &[], Rule::MILLIMETRE);
    assert!(matches!(error, Err(RuleError::Unsound(_))), "{error:?}");
}
