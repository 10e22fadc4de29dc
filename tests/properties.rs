//! What must hold of every sound design: accuracy of the mass, honesty of the fit, the reader's
//! copy of a file.

mod common;

use common::{plain_sound_designs, sound_designs};
use headwright::bar::{Bar, billet, from_piece};
use headwright::design::Quantity;
use headwright::design::{Design, Dim, Part, Side, Size};
use headwright::fit::{Outcome, Target, fit_to};
use headwright::mass::{Order, causes, mass_properties, mass_properties_of_order, surface_area};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};

/// Runs `check` on designs drawn with a fixed seed.
#[track_caller]
fn over_designs(cases: u32, check: impl Fn(&Design) -> Result<(), TestCaseError>) {
    over(sound_designs(), cases, check);
}

/// Runs `check` on what `designs` draws with a fixed seed.
#[track_caller]
fn over(
    designs: impl Strategy<Value = Design>,
    cases: u32,
    check: impl Fn(&Design) -> Result<(), TestCaseError>,
) {
    let config = Config {
        cases,
        failure_persistence: None,
        ..Config::default()
    };
    let random = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(config, random);
    if let Err(error) = runner.run(&designs, |design| check(&design)) {
        panic!("{error}");
    }
}

#[test]
fn every_sound_head_is_weighed_to_a_millionth() {
    over_designs(600, |design| {
        let solid = design.build().expect("drawn sound");
        let got = mass_properties(&solid);
        let fine = mass_properties_of_order(&solid, Order(48));
        let off = |a: f64, b: f64| ((a - b) / b).abs();
        prop_assert!(
            off(got.volume, fine.volume) < 1e-6,
            "volume {}",
            off(got.volume, fine.volume)
        );
        let axis = off(got.inertia_handle_axis, fine.inertia_handle_axis);
        prop_assert!(axis < 1e-6, "inertia {axis}");
        for k in 0..3 {
            let moment = off(got.principal_moments[k], fine.principal_moments[k]);
            prop_assert!(moment < 1e-6, "principal moment {moment}");
            // A centroid may be zero: against the size of the head.
            let shift = (got.centroid[k] - fine.centroid[k]).abs();
            prop_assert!(
                shift < 1e-6 * design.front.reach.in_mm(),
                "centroid {shift}"
            );
        }
        prop_assert!(off(got.front_mass + got.back_mass, got.mass) < 1e-12);
        Ok(())
    });
}

#[test]
fn no_sound_head_has_less_surface_than_a_sphere_of_its_volume() {
    over(sound_designs(), 200, |design| {
        let solid = design.build().expect("drawn sound");
        let volume = mass_properties(&solid).volume;
        let sphere = (36.0 * std::f64::consts::PI * volume * volume).cbrt();
        let area = surface_area(&solid);
        prop_assert!(
            area > sphere && area < 20.0 * sphere,
            "{area} against {sphere}"
        );
        Ok(())
    });
}

/// A design near `design` whose weight and balance are therefore reachable.
fn nearby(design: &Design) -> Option<Design> {
    let mut near = design.clone();
    let push = [(Part::End(Side::Front), 4.0), (Part::End(Side::Back), 2.5)];
    for (part, by) in push {
        let dim: Dim = part.size(Size::Reach);
        near.visit_sizes(&mut |other, length| {
            if other == dim {
                *length = length.with_number(length.number() + by);
            }
        });
    }
    near.visit_sizes(&mut |dim, length| {
        if dim == Part::Cheeks.size(Size::Width) {
            *length = length.with_number(length.number() + 1.5);
        }
    });
    near.build().is_ok().then_some(near)
}

#[test]
fn a_weight_and_balance_that_a_near_head_has_are_met() {
    let count = std::cell::Cell::new(0);
    over_designs(200, |drawn| {
        let mut design = drawn.clone();
        design.free = design.default_free();
        let Some(near) = nearby(&design) else {
            return Ok(());
        };
        count.set(count.get() + 1);
        let wanted = mass_properties(&near.build().expect("checked"));
        let targets = [
            Target::just(Quantity::Mass, wanted.mass),
            Target::just(Quantity::Balance, wanted.balance()),
        ];
        let fitted = fit_to(&design, &targets).expect("sound");
        prop_assert_eq!(fitted.outcome, Outcome::Met, "{:?}", fitted.in_the_way);
        let solid = fitted.design.build();
        prop_assert!(solid.is_ok(), "{:?}", solid.err());
        let got = mass_properties(&solid.expect("checked"));
        prop_assert!((got.mass - wanted.mass).abs() < 1e-4);
        prop_assert!((got.balance() - wanted.balance()).abs() < 0.01);
        Ok(())
    });
    assert!(
        count.get() > 100,
        "only {} heads had a neighbour",
        count.get()
    );
}

/// Asks three fits of `drawn` and checks their answers; `settles` when none may give up.
fn check_fits(drawn: &Design, settles: bool) -> Result<(), TestCaseError> {
    let mut design = drawn.clone();
    design.free = design.default_free();
    let now = mass_properties(&design.build().expect("drawn sound"));
    for (share, balance) in [(0.3, 0.0), (3.0, 0.0), (1.0, 25.0)] {
        let (mass, off) = (share * now.mass, 1e-4);
        let targets = [
            Target {
                quantity: Quantity::Mass,
                low: mass - off,
                high: mass + off,
                aim: None,
            },
            Target {
                quantity: Quantity::Balance,
                low: balance - 0.5,
                high: balance + 0.5,
                aim: None,
            },
        ];
        let fitted = fit_to(&design, &targets).expect("sound");
        let solid = fitted.design.build();
        prop_assert!(solid.is_ok(), "{:?}", solid.err());
        let got = mass_properties(&solid.expect("checked"));
        let met = (got.mass - mass).abs() <= off && (got.balance() - balance).abs() <= 0.5;
        prop_assert_eq!(
            fitted.outcome == Outcome::Met,
            met,
            "{:?}",
            fitted.residuals
        );
        prop_assert!(
            !settles || fitted.outcome != Outcome::StepLimit,
            "{share}, {balance}"
        );
    }
    Ok(())
}

#[test]
fn a_fit_always_answers_with_a_sound_head_and_tells_the_truth_about_its_targets() {
    over_designs(60, |drawn| check_fits(drawn, false));
}

#[test]
fn a_fit_of_faces_and_balls_never_gives_up() {
    over(plain_sound_designs(), 100, |drawn| check_fits(drawn, true));
}

#[test]
fn steel_balances_from_bar_to_any_head_and_back() {
    over_designs(120, |design| {
        let solid = design.build().expect("drawn sound");
        let causes = causes(&solid, &mass_properties(&solid));
        let bar = Bar::default();
        let there = billet(&causes, design.density, &bar).expect("a cut");
        let lost: f64 = there.losses.iter().map(|loss| loss.mass_kg).sum();
        let cut = there.finished_kg + lost + there.reserve_mass_kg + there.rounding_mass_kg;
        prop_assert!((cut - there.cut_mass_kg).abs() < 1e-9);
        prop_assert!(there.losses.iter().all(|loss| loss.mass_kg > 0.0));
        for piece in [there.billet_mass_kg, there.cut_mass_kg] {
            let back = from_piece(piece, &causes, design.density, &bar).expect("a head");
            let lost: f64 = back.losses.iter().map(|loss| loss.mass_kg).sum();
            prop_assert!((back.finished_kg + lost - piece).abs() < 1e-9);
        }
        let back = from_piece(there.billet_mass_kg, &causes, design.density, &bar);
        prop_assert!((back.expect("a head").finished_kg - causes.head_kg).abs() < 1e-9);
        // No face is larger than the head's whole surface.
        prop_assert!(causes.face_mm2.iter().sum::<f64>() < causes.surface_mm2);
        Ok(())
    });
}
