//! The round that cools at its centre as a bar of another section does.

use approx::{assert_abs_diff_eq, assert_relative_eq};
use headwright::heat::cooling::Plate;
use headwright::heat::{end_rounds, equivalent_round, heat_content_kj_per_kg};
use proptest::prelude::*;

use super::starters;

#[test]
fn a_round_is_its_own_round() {
    for severity in [0.02, 0.35, 1.5, 5.0] {
        for mm in [1.0, 38.0, 150.0] {
            let round = equivalent_round([mm, mm], 0.0, severity);
            assert_relative_eq!(round, mm, max_relative = 1e-9);
        }
    }
}

#[test]
fn a_square_is_a_larger_round_in_a_hard_quench_than_in_a_mild_one() {
    let share = |severity: f64| equivalent_round([40.0; 2], 1.0, severity) / 40.0;
    // In an ideal quench both fall as their first terms: (16/π²) exp(−π² Fo/2) against 1.6020 exp(−5.7832 Fo).
    assert_abs_diff_eq!(share(1e4), 1.09, epsilon = 0.005);
    // Cooled evenly, only volume to surface counts, and that is side/4 for both.
    assert_abs_diff_eq!(share(1e-4), 1.0, epsilon = 1e-3);
    let shares = [1e-3, 0.1, 0.5, 2.0].map(share);
    assert!(
        shares.windows(2).all(|pair| pair[0] < pair[1]),
        "{shares:?}"
    );
}

#[test]
fn a_wide_strip_is_the_round_of_a_plate() {
    // Mild: volume to surface is ab/2(a + b), of a round D/4. Ideal: half times 0.3787 (s/2)²/α and 0.2005 (D/2)²/α.
    let wide = |severity: f64| equivalent_round([8.0, 200.0], 1.0, severity) / 8.0;
    assert_abs_diff_eq!(wide(1e-4), 2.0 * 25.0 / 26.0, epsilon = 5e-3);
    let plate = {
        let plate = Plate::new(1e8);
        let (mut early, mut late) = (0.1, 1.0);
        for _ in 0..60 {
            let middle = 0.5 * (early + late);
            if plate.left(middle) > 0.5 {
                early = middle;
            } else {
                late = middle;
            }
        }
        early
    };
    assert_abs_diff_eq!(wide(1e6), f64::sqrt(plate / 0.20051), epsilon = 2e-4);
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(60) })]

    #[test]
    fn a_section_has_no_order_and_scales_with_its_severity(
        thin in 1.0..60.0_f64,
        wide in 1.0..150.0_f64,
        corners in 0.0..1.0_f64,
        severity in 0.02..5.0_f64,
        scale in 0.3..3.0_f64,
    ) {
        let round = equivalent_round([thin, wide], corners, severity);
        let turned = equivalent_round([wide, thin], corners, severity);
        prop_assert!((round - turned).abs() < 1e-9 * round);
        let scaled = equivalent_round([scale * thin, scale * wide], corners, severity / scale);
        prop_assert!((scaled - scale * round).abs() < 1e-6 * scaled);
        let least = thin.min(wide);
        prop_assert!((0.9 * least..=2.2 * least).contains(&round), "{round} mm");
        // More corners hold more heat.
        let full = equivalent_round([thin, wide], 1.0, severity);
        prop_assert!(full >= round - 1e-9);
    }
}

#[test]
fn every_end_of_every_starter_has_a_section_inside_its_head() {
    for design in starters() {
        let solid = design.build().expect("sound");
        for end in end_rounds(&solid) {
            let [a, b] = end.section_mm;
            assert!(
                a > 0.0 && b > 0.0 && end.behind_mm >= 0.0,
                "{}",
                design.name
            );
            assert!(
                (-1e-9..=1.0 + 1e-9).contains(&end.corners),
                "{}",
                design.name
            );
        }
    }
}

#[test]
fn the_heat_of_steel_is_the_integral_of_its_specific_heat() {
    // EN 1993-1-2:2005, 3.4.1.2, from memory; summed in steps of a thousandth of a degree at the middle of each.
    let specific = |t: f64| match t {
        t if t < 600.0 => 425.0 + 0.773 * t - 1.69e-3 * t * t + 2.22e-6 * t * t * t,
        t if t < 735.0 => 666.0 + 13002.0 / (738.0 - t),
        t if t < 900.0 => 545.0 + 17820.0 / (t - 731.0),
        _ => 650.0,
    };
    let mut sum = 0.0;
    for k in 0..1_180_000_u32 {
        sum += 1e-6 * specific(20.0 + 1e-3 * (f64::from(k) + 0.5));
        let t = 20.0 + 1e-3 * f64::from(k + 1);
        if (k + 1) % 59_000 == 0 {
            assert_relative_eq!(heat_content_kj_per_kg(t), sum, max_relative = 1e-6);
        }
    }
    assert_eq!(heat_content_kj_per_kg(20.0), 0.0);
    assert_relative_eq!(heat_content_kj_per_kg(1200.0), sum, max_relative = 1e-6);
}
