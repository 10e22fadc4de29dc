//! An answer depends on the head and what is wanted, not on how they are written down.

use approx::assert_abs_diff_eq;
use headwright::design::{Design, Dim, Edit, Range};
use headwright::fit::{Outcome, Target, fit_to};
use headwright::units::{Length, LengthNotation, Measure};

use super::cases::{Case, reachable};
use super::common::plain_sound_designs;

/// Heads tried.
const HEADS: u64 = 60;

/// `fit_to` of both gives the same head, to a millionth of a millimetre.
#[track_caller]
fn check_same(seed: u64, [(a, to_a), (b, to_b)]: [(&Design, &[Target]); 2]) {
    let [a, b] = [(a, to_a), (b, to_b)].map(|(design, targets)| {
        let fitted = fit_to(design, targets).expect("sound");
        assert_eq!(fitted.outcome, Outcome::Met, "{seed}");
        fitted.design
    });
    for ((dim, one), (_, other)) in a.sizes().into_iter().zip(b.sizes()) {
        let apart = (one.number() - other.number()).abs();
        assert!(apart <= 1e-6, "{seed}: {dim} {apart:e}");
    }
}

fn cases() -> impl Iterator<Item = (u64, Case)> {
    (0..HEADS).map(|seed| (seed, reachable(seed, plain_sound_designs())))
}

#[test]
fn the_order_of_targets_does_not_matter() {
    for (seed, case) in cases() {
        let backwards: Vec<Target> = case.targets.iter().rev().copied().collect();
        let design = &case.design;
        check_same(seed, [(design, &case.targets), (design, &backwards)]);
    }
}

#[test]
fn the_order_in_which_sizes_are_freed_does_not_matter() {
    for (seed, case) in cases() {
        let mut locked = case.design.clone();
        locked.free.clear();
        let free =
            |design: Design, (dim, range): (&Dim, &Range)| design.apply(Edit::Free(*dim, *range));
        let forwards = case.design.free.iter().fold(locked.clone(), free);
        let backwards = case.design.free.iter().rev().fold(locked, free);
        let targets: &[Target] = &case.targets;
        check_same(seed, [(&forwards, targets), (&backwards, targets)]);
    }
}

/// The same measure in inches.
fn in_inches(measure: Measure) -> Measure {
    match measure {
        Measure::Length(length) => {
            let read = format!("{:.12} in", length.in_mm() / 25.4);
            let read: Length = read.parse().expect("a length");
            assert_abs_diff_eq!(read.in_mm(), length.in_mm(), epsilon = 1e-9);
            // The number itself, so that a head as tight as may be stays sound.
            Measure::Length(Length::new(length.in_mm(), LengthNotation::InchDecimal))
        }
        angle => angle,
    }
}

#[test]
fn units_do_not_matter() {
    for (seed, case) in cases() {
        let mut inches = case.design.clone();
        inches.visit_sizes(&mut |_, size| *size = in_inches(*size));
        for range in inches.free.values_mut() {
            *range = Range {
                low: in_inches(range.low),
                high: in_inches(range.high),
            };
        }
        let targets: &[Target] = &case.targets;
        check_same(seed, [(&case.design, targets), (&inches, targets)]);
    }
}
