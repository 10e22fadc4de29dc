//! Exact derivatives of the handle's moments against central differences, over random sound heads.

use headwright::design::{Design, Dim, Edit, Part, Size, bounds};
use headwright::handle::{Handle, body};
use headwright::numeric::{Dual, Scalar};
use headwright::solid::{EyeSection, Head, checks};
use headwright::units::System;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::{common, entries};

/// Half the step of a difference, mm or degrees.
const HALF_STEP: f64 = 1e-3;
/// What a difference may be off, against the moment's change over 100 mm.
const DIFFERENCE: f64 = 3e-6;

fn lifted<T: Scalar>(design: &Design, dim: Dim, replaced: impl Fn(f64) -> T) -> Head<T> {
    Head::lift(design, &mut |other, number| {
        if other == dim {
            replaced(number)
        } else {
            T::constant(number)
        }
    })
}

/// Whether two levels of the eye are so alike in a size that the narrowest of them changes within a step.
fn has_ties(head: &Head<f64>) -> bool {
    let eye = &head.eye;
    let sizes = [
        |level: &EyeSection<f64>| level.p,
        |level: &EyeSection<f64>| level.q,
        |level: &EyeSection<f64>| level.d,
    ];
    sizes.iter().any(|of| {
        let [top, waist, bottom] = [&eye.top, &eye.waist, &eye.bottom].map(of);
        let near = |a: f64, b: f64| (a - b).abs() < 4.0 * HALF_STEP;
        near(top, waist) || near(waist, bottom) || near(bottom, top)
    })
}

/// Compares at every dimension of the eye and the cheeks that can move either way; how many could.
#[track_caller]
fn check_derivatives(design: &Design) -> usize {
    let handle = Handle::usual(&design.build().expect("sound"), System::Metric);
    let ties = has_ties(&Head::lift(design, &mut |_, number| number));
    let mut tried = 0;
    for (dim, size) in design.sizes() {
        let of_level = matches!(dim.part, Part::EyeTop | Part::EyeWaist | Part::EyeBottom);
        if of_level && ties {
            continue;
        }
        let can_be = |by: f64| {
            let moved = size.with_number(size.number() + by);
            let head = Head::lift(&design.apply(Edit::set(dim, moved)), &mut |_, number| {
                number
            });
            let mut sound = bounds(dim).contain(moved.number());
            checks(&head, &mut |_, margin: f64| sound &= margin >= -1e-9);
            sound
        };
        if !can_be(-HALF_STEP) || !can_be(HALF_STEP) {
            continue;
        }
        tried += 1;
        let exact = {
            let head = lifted(design, dim, |number| Dual::<1>::variable(number, 0, 1.0));
            let m = body(&head, &handle);
            [m.volume, m.x, m.y, m.z, m.xx, m.yy, m.zz, m.xy, m.yz, m.zx]
        };
        let [below, above] = [-HALF_STEP, HALF_STEP]
            .map(|by| entries(&body(&lifted(design, dim, |number| number + by), &handle)));
        let mass = exact[0].value;
        let scales = [1.0, 1e2, 1e2, 1e2, 1e4, 1e4, 1e4, 1e4, 1e4, 1e4];
        for k in 0..10 {
            let difference = (above[k] - below[k]) / (2.0 * HALF_STEP);
            let off = (exact[k].slopes[0] - difference).abs();
            let allowed = DIFFERENCE * (scales[k] * mass / 100.0 + difference.abs());
            assert!(
                off <= allowed,
                "{dim} at {size}, moment {k}: exactly {}, by difference {difference}, allowed {allowed}",
                exact[k].slopes[0]
            );
            if !of_level
                && dim.part != Part::Eye
                && dim.part != Part::Cheeks
                && dim.part != Part::Lugs
            {
                assert_eq!(exact[k].slopes[0], 0.0, "{dim} is no size of the eye");
            }
            if dim.size == Size::Offset {
                assert_eq!(exact[k].slopes[0], 0.0, "the eye stays where it is");
            }
        }
    }
    tried
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::default() })]

    #[test]
    fn derivatives_to_every_dimension_agree_with_differences(design in common::sound_designs()) {
        let tried = check_derivatives(&design);
        prop_assert!(tried >= 3, "only {tried} sizes could move");
    }
}
