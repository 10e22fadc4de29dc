//! Heat treatments drawn at random.

use headwright::heat::{
    Agitation, Aim, Bears, Composition, Element, Grade, Heat, Medium, Quench, Steel, Temper, temper,
};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{RngSeed, TestRunner};

/// `value` on a grid of this many steps to one.
fn on_grid(value: f64, steps: f64) -> f64 {
    (value * steps).round() / steps
}

/// An analysis within the range of `grade`, in hundredths of a percent.
fn analysis(grade: Grade, shares: &[f64]) -> Composition {
    let span = grade.practice().span.value;
    let elements = Element::ALL.into_iter().zip(shares);
    elements.fold(Composition::NOTHING, |all, (element, share)| {
        let (least, most) = span.of(element);
        all.with(element, on_grid(least + share * (most - least), 100.0))
    })
}

/// A quench that `grade` bears, the bath in tenths of a degree.
fn quench(grade: Grade, (medium, agitation, share): (usize, usize, f64)) -> Quench {
    let borne: Vec<Medium> = Medium::ALL
        .into_iter()
        .filter(|medium| matches!(grade.bears(*medium), Bears::Well | Bears::WithCare))
        .collect();
    let medium = borne[medium % borne.len()];
    // Oil must not be in a jet.
    let ways = if medium == Medium::Oil { 5 } else { 6 };
    let limit = medium.bath_celsius();
    Quench {
        medium,
        agitation: Agitation::ALL[agitation % ways],
        bath_celsius: on_grid(limit.least + share * (limit.most - limit.least), 10.0),
    }
}

/// A temper whose hardness is known, in tenths of a degree or of a point.
fn temper(grade: Grade, (by_hardness, share, soak, times): (bool, f64, u8, u8)) -> Temper {
    let soak_hours = on_grid(0.05 * f64::from(soak), 20.0);
    let celsius = on_grid(150.0 + 350.0 * share, 10.0);
    let hours = soak_hours * f64::from(times);
    let known = temper::hardness(grade, celsius, hours).filter(|_| by_hardness);
    Temper {
        aim: known.map_or(Aim::Celsius(celsius), |hrc| {
            Aim::Hrc((10.0 * hrc).floor() / 10.0)
        }),
        soak_hours,
        times,
    }
}

/// Heat treatments for which there is a plan: every grade, with and without an analysis, as usual or with a quench and a
/// temper of their own.
pub fn heats() -> impl Strategy<Value = Heat> {
    (
        0..Grade::ALL.len(),
        prop::option::of(prop::collection::vec(0.0..1.0, Element::COUNT)),
        prop::option::of((0..4_usize, 0..6_usize, 0.0..1.0)),
        prop::option::of((any::<bool>(), 0.0..1.0, 10..=80_u8, 1..=2_u8)),
    )
        .prop_map(|(grade, shares, bath, oven)| {
            let grade = Grade::ALL[grade];
            Heat {
                steel: Steel {
                    grade,
                    analysis: shares.map(|shares| analysis(grade, &shares)),
                },
                quench: bath.map(|drawn| quench(grade, drawn)),
                temper: oven.map(|drawn| temper(grade, drawn)),
            }
        })
}

/// One of [`heats`], the same for the same number: drawn apart, so that the heads that follow are not other ones for it.
pub fn heat_of(number: f64) -> Heat {
    let mut runner = TestRunner::new(ProptestConfig {
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(number.to_bits()),
        ..ProptestConfig::default()
    });
    let tree = heats().new_tree(&mut runner);
    tree.expect("nothing is refused").current()
}
