//! What is said of a head on its way.

use expect_test::{Expect, expect};
use headwright::design::Design;
use headwright::log::Readings;
use headwright::units::System;

use super::{cold, held, of, only_mass, sizes, weighed};

fn check(design: &Design, readings: &Readings, system: System, expected: &Expect) {
    expected.assert_eq(&of(design, readings).sentences(system).join("\n"));
}

#[test]
fn weight_balance_and_the_size_to_move_are_told() {
    let design = only_mass(&held());
    let readings = sizes(&[cold("cheeks.width", 43.2)]);
    check(
        &design,
        &readings,
        System::Metric,
        &expect![[r#"
            The finished head will weigh 1.011 kg ± 7.3 g, and its balance will lie 0.72 mm ± 0.25 mm in front of the handle axis (± one standard deviation).
            To come back to what is held, move one size: front face offset from 54 mm to 51.93 mm."#]],
    );
    check(
        &design,
        &readings,
        System::Imperial,
        &expect![[r#"
            The finished head will weigh 2 lb 3.7 oz ± 0.3 oz, and its balance will lie 0.028 in ± 0.010 in in front of the handle axis (± one standard deviation).
            To come back to what is held, move one size: front face offset from 2.126 in to 2.045 in."#]],
    );
}

#[test]
fn a_scale_that_contradicts_the_caliper_is_told() {
    let readings = Readings {
        sizes: vec![cold("cheeks.width", 42.0)],
        weighed: weighed(1600.0),
    };
    check(
        &held(),
        &readings,
        System::Metric,
        &expect![[r#"
            The finished head will weigh 1.596 kg ± 0.6 g, and its balance will lie 1.34 mm ± 0.25 mm in front of the handle axis (± one standard deviation). By its sizes alone it is 991 g ± 7.3 g, by the scale 1.600 kg ± 0.6 g.
            The scale shows more than the sizes allow, by 83.6 standard deviations: measure and weigh again.
            No sizes that may still move come back to what is held: weight, balance can’t be kept. In the way: neck 1 and the land of the face at the front, at least 0.5 mm apart; neck 1 and the land of the face at the back, at least 0.5 mm apart; cheek height, at least 31 mm."#]],
    );
}

#[test]
fn two_sizes_and_none_are_told() {
    let readings = sizes(&[cold("front.reach", 55.5), cold("cheeks.width", 41.0)]);
    check(
        &held(),
        &readings,
        System::Metric,
        &expect![[r#"
            The finished head will weigh 988 g ± 6.8 g, and its balance will lie 1.47 mm ± 0.22 mm in front of the handle axis (± one standard deviation).
            No size alone comes back to what is held; move two: cheek height from 42 mm to 41.43 mm, back face offset from 54 mm to 55.41 mm."#]],
    );
    let mut design = held();
    design.free.clear();
    check(
        &design,
        &readings,
        System::Metric,
        &expect![[r#"
            The finished head will weigh 988 g ± 6.8 g, and its balance will lie 1.47 mm ± 0.22 mm in front of the handle axis (± one standard deviation).
            No size that may still move comes back to what is held. Free another, or hold less."#]],
    );
}
