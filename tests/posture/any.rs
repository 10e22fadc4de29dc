//! What must hold of any stance.

use std::f64::consts::PI;

use approx::assert_relative_eq;
use headwright::posture::{GRIP_DEG, Smith, Stance, Table, posture};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

fn smith() -> impl Strategy<Value = Smith> {
    prop_oneof![
        (1000.0..=2300.0).prop_map(|mm| Smith::Stature { mm }),
        (350.0..=900.0, 350.0..=700.0).prop_map(|(knuckle_mm, arm)| Smith::Measured {
            knuckle_mm,
            shoulder_mm: f64::max(knuckle_mm + arm, 800.0),
        }),
    ]
}

fn stance() -> impl Strategy<Value = Stance> {
    let table = prop::sample::select(Table::ALL.to_vec());
    let anvil = prop::option::of(200.0..=1300.0);
    let lengths = (0.0..=300.0, 5.0..=400.0, 10.0..=1200.0);
    let angles = (-20.0..=60.0, 60.0..=160.0);
    (smith(), table, anvil, lengths, angles).prop_map(
        |(
            smith,
            table,
            anvil_mm,
            (work_mm, face_offset_mm, grip_to_face_mm),
            (upper_arm_deg, elbow_deg),
        )| Stance {
            smith,
            table,
            anvil_mm,
            work_mm,
            face_offset_mm,
            grip_to_face_mm,
            upper_arm_deg,
            elbow_deg,
        },
    )
}

/// Length of the line from `a` to `b`, and its angle below level.
fn line(a: [f64; 2], b: [f64; 2]) -> (f64, f64) {
    let (dx, dz) = (b[0] - a[0], b[1] - a[1]);
    (dx.hypot(dz), (-dz).atan2(dx))
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 2000,
        rng_seed: RngSeed::Fixed(3),
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    /// Lengths and angles read off the drawing are those of the build and the arm.
    #[test]
    fn the_figure_is_the_arm_that_is_reported(stance in stance()) {
        let got = posture(&stance).expect("within bounds");
        let figure = got.figure;
        let (upper, _) = line(figure.shoulder, figure.elbow);
        let (fore, below) = line(figure.elbow, figure.wrist);
        let (hand, hand_below) = line(figure.wrist, figure.grip);
        assert_relative_eq!(upper, got.build.upper_arm_mm, max_relative = 1e-9);
        assert_relative_eq!(fore, got.build.forearm_mm, max_relative = 1e-9);
        assert_relative_eq!(figure.face[1] + stance.face_offset_mm, figure.grip[1], max_relative = 1e-12);
        assert_relative_eq!(figure.eye[1], got.hand_mm, max_relative = 1e-12);
        prop_assert_eq!(got.arm.is_none(), got.short_mm != 0.0);
        if let Some(arm) = got.arm {
            assert_relative_eq!(hand, got.build.hand_mm, max_relative = 1e-9);
            assert_relative_eq!(hand_below.to_degrees(), GRIP_DEG, max_relative = 1e-9);
            assert_relative_eq!(arm.forearm, below, epsilon = 1e-7);
            assert_relative_eq!(arm.wrist, hand_below - below, epsilon = 1e-7);
            // By the law of cosines over shoulder and wrist.
            let (chord, _) = line(figure.shoulder, figure.wrist);
            let cos = (upper * upper + fore * fore - chord * chord) / (2.0 * upper * fore);
            assert_relative_eq!(arm.elbow, cos.clamp(-1.0, 1.0).acos(), epsilon = 1e-6);
            prop_assert!((0.6..=PI).contains(&arm.elbow), "{}", arm.elbow);
        }
    }

    #[test]
    fn at_the_anvil_it_wants_the_elbow_has_the_angle_that_is_aimed_at(stance in stance()) {
        let wanted = posture(&stance).expect("within bounds").wanted_anvil_mm;
        prop_assume!((200.0..=1300.0).contains(&wanted));
        let there = Stance { anvil_mm: Some(wanted), ..stance };
        let got = posture(&there).expect("within bounds");
        // Where the forearm is upright, roundoff turns it most.
        prop_assert!(got.short_mm.abs() < 1e-6, "{}", got.short_mm);
        if let Some(arm) = got.arm {
            assert_relative_eq!(arm.elbow.to_degrees(), stance.elbow_deg, epsilon = 1e-4);
        }
        assert_relative_eq!(got.wanted_anvil_mm, wanted, max_relative = 1e-12);
    }

    #[test]
    fn a_longer_face_offset_wants_an_anvil_that_is_as_much_lower(stance in stance(), longer in 0.0..50.0) {
        prop_assume!(stance.face_offset_mm + longer <= 400.0);
        let other = Stance { face_offset_mm: stance.face_offset_mm + longer, ..stance };
        let (one, other) = (posture(&stance).expect("within bounds"), posture(&other).expect("within bounds"));
        assert_relative_eq!(one.wanted_anvil_mm - other.wanted_anvil_mm, longer, epsilon = 1e-9);
        assert_relative_eq!(other.hand_mm - one.hand_mm, longer, epsilon = 1e-9);
    }

    /// All lengths half as large again: the same angles.
    #[test]
    fn a_larger_smith_with_larger_things_stands_alike(stance in stance(), mm in 1000.0..1500.0) {
        let small = Stance { smith: Smith::Stature { mm }, anvil_mm: stance.anvil_mm.map(|mm| 0.6 * mm + 80.0), ..stance };
        let small = Stance { work_mm: 0.6 * small.work_mm, face_offset_mm: 0.6 * small.face_offset_mm + 2.0, ..small };
        let small = Stance { grip_to_face_mm: 0.6 * small.grip_to_face_mm + 4.0, ..small };
        let large = Stance {
            smith: Smith::Stature { mm: 1.5 * mm },
            anvil_mm: small.anvil_mm.map(|mm| 1.5 * mm),
            work_mm: 1.5 * small.work_mm,
            face_offset_mm: 1.5 * small.face_offset_mm,
            grip_to_face_mm: 1.5 * small.grip_to_face_mm,
            ..small
        };
        let (small, large) = (posture(&small).expect("within bounds"), posture(&large).expect("within bounds"));
        assert_relative_eq!(large.wanted_anvil_mm, 1.5 * small.wanted_anvil_mm, max_relative = 1e-9, epsilon = 1e-9);
        assert_relative_eq!(large.stand_off_mm, 1.5 * small.stand_off_mm, max_relative = 1e-6);
        assert_relative_eq!(large.short_mm, 1.5 * small.short_mm, max_relative = 1e-9, epsilon = 1e-9);
        if let (Some(small), Some(large)) = (small.arm, large.arm) {
            assert_relative_eq!(small.elbow, large.elbow, epsilon = 1e-6);
            assert_relative_eq!(small.wrist, large.wrist, epsilon = 1e-6);
        }
    }
}
