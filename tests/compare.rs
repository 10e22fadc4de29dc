//! Hammers against each other: their numbers, the words that follow from them, and sweeps.

use headwright::compare::{
    CompareError, Conditions, Figure, MOST_STEPS, Measured, Sweep, measure, sweep, words,
};
use headwright::design::{Design, Dim, Edit, Hold, Quantity, starter, starter_names};
use headwright::fit::targets;
use headwright::mass::mass_properties;
use headwright::units::{Length, Mass, Measure, System};

fn named(name: &str) -> Design {
    starter(name).expect("a starter")
}

fn measured(design: &Design) -> Measured {
    measure(design, &Conditions::default()).expect("a hammer")
}

fn reach() -> Dim {
    "front.reach".parse().expect("a size")
}

fn mm(value: f64) -> Measure {
    Length::mm(value).into()
}

fn said(a: &Measured, b: &Measured) -> Vec<String> {
    words([a, b], ["A", "B"], &Conditions::default(), System::Metric)
}

/// The design with its front reach swept.
fn swept(design: &Design, from: f64, to: f64, count: usize) -> Sweep {
    sweep(design, reach(), [mm(from), mm(to)], count).expect("a sweep")
}

#[test]
fn every_starter_is_measured_by_defaults() {
    for name in starter_names() {
        let hammer = measured(&named(name));
        for figure in Figure::ALL {
            assert!(hammer.get(figure).is_finite(), "{name}: {figure:?}");
        }
    }
}

#[test]
fn the_numbers_are_those_of_mass_tool_and_posture() {
    let design = named("rounding");
    let hammer = measured(&design);
    let weighed = mass_properties(&design.build().expect("sound"));
    assert_eq!(hammer.get(Figure::HeadMass), weighed.mass);
    assert_eq!(hammer.get(Figure::Balance), weighed.balance());
    // e / I by hand, 8 mm in metres over kg·m².
    let twist = 8e-3 / (hammer.tool.inertia_handle_axis_kg_mm2 * 1e-6);
    assert!((hammer.get(Figure::Twist) - twist).abs() < 1e-9 * twist);
    // Work of 20 mm and the face offset.
    let hand = 20.0 + hammer.get(Figure::Reach);
    assert!((hammer.get(Figure::Hand) - hand).abs() < 1e-9);
}

#[test]
fn a_hammer_against_itself_differs_in_nothing() {
    for name in starter_names() {
        let hammer = measured(&named(name));
        assert_eq!(
            said(&hammer, &hammer),
            [
                "A and B: heads of the same weight that balance alike.",
                "In nothing that is compared do they differ enough to be felt."
            ]
        );
    }
}

#[test]
fn what_is_said_turns_round_with_the_hammers() {
    let [short, long] = ["rounding", "long"].map(|name| measured(&named(name)));
    let there = said(&short, &long).join(" ");
    let back = said(&long, &short).join(" ");
    for (more, less) in [
        ("heavier", "lighter"),
        ("farther above", "nearer to"),
        ("larger", "smaller"),
    ] {
        assert!(there.contains(more) && !there.contains(less), "{there}");
        assert!(back.contains(less) && !back.contains(more), "{back}");
    }
    assert!(
        there.contains("more inertia about the handle") && there.contains("less, but it is slower")
    );
    assert!(
        back.contains("less inertia about the handle") && back.contains("more, but it is quicker")
    );
}

#[test]
fn a_sweep_keeps_weight_and_balance_and_comes_through_the_design() {
    for name in ["rounding", "long"] {
        let design = named(name);
        let hammer = measured(&design);
        let now = hammer.get(Figure::Reach);
        let sweep = swept(&design, now - 4.0, now + 4.0, 5);
        let mut before = 0.0;
        for index in 0..5 {
            let step = sweep
                .step(index, &Conditions::default(), &design)
                .expect("a step");
            let swept = step.hammer.expect("within reach");
            let get = |figure| swept.measured.get(figure);
            assert!((get(Figure::HeadMass) - hammer.get(Figure::HeadMass)).abs() <= 1e-4 + 1e-9);
            assert!((get(Figure::Balance) - hammer.get(Figure::Balance)).abs() <= 0.01 + 1e-9);
            assert_eq!(get(Figure::Reach), step.value.number());
            // At one weight a longer head has more inertia about its handle.
            assert!(get(Figure::HandleInertia) > before);
            before = get(Figure::HandleInertia);
            assert_eq!(
                (swept.design.holds, &swept.design.free),
                (design.holds, &design.free)
            );
            if index == 2 {
                for ((dim, size), (_, stood)) in swept.design.sizes().iter().zip(design.sizes()) {
                    assert!(
                        (size.number() - stood.number()).abs() < 0.02,
                        "{name} {dim}"
                    );
                }
            }
        }
        assert!(sweep.step(5, &Conditions::default(), &design).is_none());
    }
}

#[test]
fn what_the_design_holds_is_what_a_sweep_keeps() {
    let design = named("rounding").apply(Edit::hold(
        Quantity::Mass,
        Hold::About {
            value: Mass::kg(1.05),
            tolerance: None,
        },
    ));
    let sweep = swept(&design, 54.0, 58.0, 2);
    let step = sweep
        .step(1, &Conditions::default(), &design)
        .expect("a step");
    let hammer = step.hammer.expect("within reach");
    let held = &targets(&design)[0];
    assert_eq!(held.miss(hammer.measured.get(Figure::HeadMass)), 0.0);
}

#[test]
fn a_step_out_of_reach_says_what_cannot_be_kept() {
    let design = named("rounding");
    let step = swept(&design, 54.0, 150.0, 2)
        .step(1, &Conditions::default(), &design)
        .expect("a step");
    let why = step.hammer.expect_err("twice the length at one weight");
    let why = why[0].to_string();
    assert!(why.starts_with("With this size weight"), "{why}");
}

#[test]
fn a_sweep_that_cannot_be_is_refused() {
    let design = named("rounding");
    let refused = |from: f64, to: f64, count| {
        let errors = sweep(&design, reach(), [mm(from), mm(to)], count).expect_err("no sweep");
        errors[0].clone()
    };
    assert_eq!(refused(50.0, 60.0, 1), CompareError::Steps { count: 1 });
    let many = MOST_STEPS + 1;
    assert_eq!(
        refused(50.0, 60.0, many),
        CompareError::Steps { count: many }
    );
    assert_eq!(
        refused(60.0, 50.0, 3).to_string(),
        "The front face offset is to go from 60 mm to 50 mm: the first must be the smaller one."
    );
    assert!(
        refused(f64::NAN, 50.0, 3)
            .to_string()
            .contains("would be not a number")
    );
    assert!(
        refused(50.0, 1e9, 3)
            .to_string()
            .contains("must be between")
    );
    let ball: Dim = "front.ball.diameter".parse().expect("a size");
    let errors = sweep(&design, ball, [mm(20.0), mm(30.0)], 3).expect_err("no ball");
    assert_eq!(errors[0], CompareError::NoSuchSize(ball));
}

#[test]
fn a_hammer_that_cannot_be_says_why() {
    let conditions = Conditions::default();
    let design = named("rounding");
    let unsound = design.apply(Edit::Set(
        "eye.waist.width".parse().expect("a size"),
        mm(60.0),
    ));
    let first = |design: &Design, conditions: &Conditions| {
        let errors = measure(design, conditions).expect_err("no hammer");
        errors[0].clone()
    };
    assert!(matches!(
        first(&unsound, &conditions),
        CompareError::Design(_)
    ));
    let mut short = design.handle.clone();
    short.length = Length::mm(150.0);
    let short = design.apply(Edit::Handle(Box::new(short)));
    assert!(matches!(
        first(&short, &conditions),
        CompareError::Handle(_)
    ));
    let beside = Conditions {
        off_mm: 80.0,
        ..conditions
    };
    assert!(matches!(first(&design, &beside), CompareError::Swing(_)));
    let mut stance = conditions.stance;
    stance.work_mm = -1.0;
    let deep = Conditions {
        stance,
        ..conditions
    };
    assert!(matches!(first(&design, &deep), CompareError::Posture(_)));
}
