//! Drifts for the hot eye: larger than the finished one by what the head shrinks as it cools.

use approx::assert_relative_eq;
use headwright::bar::Bar;
use headwright::design::starter_names;
use headwright::drift::{Drifting, OwnDrift, Plan, SectionSize, plan, profile_svg};
use headwright::plan::growth;
use headwright::solid::{EyeSection, Plug, Solid};
use headwright::units::{Length, System};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::{common, eye, head, in_steps, slot};

const HOT: f64 = 1050.0;

#[track_caller]
fn heated(solid: &Solid, drifting: &Drifting) -> Plan {
    plan(solid, &Bar::default(), drifting, HOT).expect("drifts")
}

/// The hole that a drift of `size` leaves when the head is cold.
fn cooled(size: SectionSize) -> [f64; 2] {
    let grown = 1.0 + growth(HOT).expect("known");
    [size.length_mm / grown, size.width_mm / grown]
}

#[test]
fn a_hole_left_by_the_last_drift_cools_to_the_eye() {
    // 2e-5 · 1050 − 6.2e-3 = 0.0148.
    let opened = heated(&head("rounding", &[]), &Drifting::default());
    let last = opened.drifts.last().expect("drifts");
    assert_relative_eq!(last.section.length_mm, 28.0 * 1.0148, max_relative = 1e-12);
    assert_relative_eq!(last.section.width_mm, 19.0 * 1.0148, max_relative = 1e-12);
    assert_relative_eq!(last.corner_mm[0], 9.5 * 1.0148, max_relative = 1e-12);
    for name in starter_names() {
        let solid = head(name, &[]);
        let opened = heated(&solid, &Drifting::default());
        let plug = eye(&solid);
        for (profile, mouth) in opened.profiles.iter().zip([plug.top, plug.bottom]) {
            for (cut, level) in profile.sections.iter().zip([mouth, plug.waist]) {
                let [length, width] = cooled(cut.size);
                assert_relative_eq!(length, 2.0 * level.p, max_relative = 1e-12);
                assert_relative_eq!(width, 2.0 * level.q, max_relative = 1e-12);
            }
        }
        let depth = opened
            .drifts
            .last()
            .and_then(|drift| drift.top)
            .expect("a depth");
        assert_eq!(
            cooled(depth.at_waist),
            cooled(opened.profiles[0].sections[1].size)
        );
        assert_eq!(opened.eye[1], plug.waist.into());
    }
}

#[test]
fn walls_are_those_of_the_cold_head() {
    let solid = head("rounding", &[]);
    let opened = heated(&solid, &in_steps(2, slot(24.0, 6.0)));
    let last = &opened.drifts[1];
    // 42 mm cheeks; at their ends, 15 mm from the waist, the eye has opened from 19 mm towards 21 mm in 21 mm.
    let wall = 0.5 * (42.0 - 19.0 - 2.0 * 15.0 / 21.0);
    assert_relative_eq!(last.wall_outer_kept_mm, wall, max_relative = 1e-12);
    // The punch's 6 mm are measured hot.
    assert_relative_eq!(
        opened.opening.wall_mm,
        0.5 * (42.0 - 6.0 / 1.0148),
        max_relative = 1e-12
    );
    assert_relative_eq!(
        last.outer_width_sideways_mm,
        42.0 + 21.0 - 6.0 / 1.0148,
        max_relative = 1e-12
    );
}

#[test]
fn a_drift_of_the_finished_eyes_size_leaves_it_short() {
    let own = OwnDrift {
        length: Length::mm(36.0),
        width: Length::mm(25.0),
        taper: Some(0.0),
    };
    // An eye of one size from mouth to mouth.
    let sizes = [
        ("eye.top.length", "36 mm"),
        ("eye.waist.length", "36 mm"),
        ("eye.bottom.length", "36 mm"),
        ("eye.top.width", "25 mm"),
        ("eye.waist.width", "25 mm"),
        ("eye.bottom.width", "25 mm"),
    ];
    let drifting = Drifting {
        own: vec![own],
        ..slot(34.0, 18.0)
    };
    let set = heated(&head("sledge", &sizes), &drifting).own.expect("own");
    assert!(!set.gives_eye);
    assert_relative_eq!(set.gap[1].length_mm, 36.0 * 0.0148, max_relative = 1e-9);
    assert!(
        set.notes[0].to_string().starts_with(
            "At the waist your drifts open 36 mm × 25 mm, but the hot eye is 36.53 mm × 25.37 mm:"
        ),
        "{}",
        set.notes[0]
    );
}

#[test]
fn the_last_drift_is_named_with_both_sizes() {
    let opened = heated(&head("rounding", &[]), &Drifting::default());
    let metric = "made for the eye hot, at 1050 °C: 0.4 mm longer and 0.3 mm wider";
    assert_eq!(opened.made_hot(System::Metric), metric);
    assert_eq!(
        opened.made_hot(System::Imperial),
        "made for the eye hot, at 1922 °F: 0.016 in longer and 0.011 in wider"
    );
    let drawn = profile_svg(&opened, System::Metric);
    for words in [
        metric,
        "waist 28.4 × 19.3 mm",
        "The finished eye, cold, is 28 × 19 mm at the waist.",
    ] {
        assert!(drawn.contains(words), "{words}");
    }
}

#[test]
fn a_heat_that_no_growth_is_known_for_is_refused() {
    let solid = head("rounding", &[]);
    for celsius in [0.0, 1300.0, f64::NAN] {
        let errors =
            plan(&solid, &Bar::default(), &Drifting::default(), celsius).expect_err("no growth");
        let sentence = errors[0].sentence(System::Metric);
        assert!(sentence.starts_with("The growth of steel at"), "{sentence}");
    }
}

/// The outline `times` as large.
fn times(level: EyeSection<f64>, times: f64) -> EyeSection<f64> {
    EyeSection {
        p: level.p * times,
        q: level.q * times,
        c: level.c * times,
        d: level.d * times,
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(10), ..ProptestConfig::with_cases(200) })]

    #[test]
    fn any_heads_last_drift_is_the_eye_at_the_heat(
        design in common::sound_designs(),
        celsius in 20.0..1200.0_f64,
    ) {
        let solid = design.build().expect("sound");
        let opened = plan(&solid, &Bar::default(), &Drifting::default(), celsius).expect("drifts");
        let grown = 1.0 + growth(celsius).expect("known");
        let cold = eye(&solid);
        let hot = Plug {
            top: times(cold.top, grown),
            waist: times(cold.waist, grown),
            bottom: times(cold.bottom, grown),
            waist_height: cold.waist_height * grown,
            mouths: cold.mouths.map(|z| z * grown),
            ..cold
        };
        for (profile, from_top) in opened.profiles.iter().zip([true, false]) {
            super::check_profile(profile, &hot, from_top, 0.0101);
        }
    }
}
