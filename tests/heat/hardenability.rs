//! Ideal diameter and end-quench curve (ASTM A255-10 (2014), as a public handbook restates it).

use approx::{assert_abs_diff_eq, assert_relative_eq};
use headwright::heat::hardenability::{
    EndQuench, Validity, factor, ideal_diameter_mm, ideal_range_mm, martensite_hrc, validity,
};
use headwright::heat::{Composition, Element, Span};
use proptest::prelude::*;

use super::composed;
use Element::{C, Cr, Cu, Mn, Mo, Ni, Si, V};

const INCH: f64 = 25.4;

#[test]
fn the_worked_example_of_the_standard_comes_out_either_way_of_rounding() {
    // SAE 4118 modified, with the factor that is printed for each element and 1.95 in for their product.
    let printed = [
        (C, 0.22, 0.119),
        (Mn, 0.80, 3.667),
        (Si, 0.18, 1.126),
        (Ni, 0.10, 1.036),
        (Cr, 0.43, 1.929),
        (Mo, 0.25, 1.75),
        (Cu, 0.10, 1.04),
        (V, 0.05, 1.09),
    ];
    let as_printed: f64 = printed.iter().map(|(.., factor)| factor).product();
    assert_abs_diff_eq!(as_printed, 1.95, epsilon = 0.005);
    for (element, percent, printed) in printed {
        assert_abs_diff_eq!(factor(element, percent), printed, epsilon = 0.004);
    }
    let steel = composed(printed.map(|(element, percent, _)| (element, percent)));
    assert_abs_diff_eq!(ideal_diameter_mm(&steel) / INCH, 1.932, epsilon = 5e-4);
}

#[test]
fn the_factors_have_no_jump_at_their_joints() {
    for (element, joint) in [
        (C, 0.39),
        (C, 0.55),
        (C, 0.65),
        (C, 0.75),
        (Mn, 1.20),
        (Ni, 1.50),
    ] {
        let (below, above) = (factor(element, joint), factor(element, joint + 1e-9));
        assert_relative_eq!(below, above, max_relative = 0.006);
    }
}

fn residuals(steel: Composition) -> Composition {
    [(Ni, 0.08), (Cr, 0.08), (Mo, 0.02), (Cu, 0.15)]
        .into_iter()
        .fold(steel, |all, (element, percent)| all.with(element, percent))
}

#[test]
fn middles_of_grades_come_out_as_reckoned_by_another_hand() {
    let si = (Si, 0.25);
    let plain = composed([(C, 0.45), (Mn, 0.75), si]);
    let table = [
        (plain, 0.926),
        (composed([(C, 0.60), (Mn, 0.75), si]), 1.08),
        (composed([(C, 0.60), (Mn, 0.875), si, (Cr, 0.80)]), 3.29),
        (
            composed([(C, 0.40), (Mn, 0.875), si, (Cr, 0.95), (Mo, 0.20)]),
            4.80,
        ),
        (
            composed([
                (C, 0.405),
                (Mn, 0.70),
                si,
                (Ni, 1.825),
                (Cr, 0.80),
                (Mo, 0.25),
            ]),
            6.80,
        ),
    ];
    for (steel, inches) in table {
        assert_relative_eq!(
            ideal_diameter_mm(&steel) / INCH,
            inches,
            max_relative = 0.005
        );
    }
}

#[test]
fn what_scrap_leaves_in_1045_makes_it_harden_a_third_deeper() {
    let plain = composed([(C, 0.45), (Mn, 0.75), (Si, 0.25)]);
    let share = ideal_diameter_mm(&residuals(plain)) / ideal_diameter_mm(&plain);
    // By hand 1.02904 × 1.1728 × 1.06 × 1.05475.
    assert_abs_diff_eq!(share, 1.3493, epsilon = 1e-4);
}

#[test]
fn a_composition_is_within_beyond_or_outside_the_method() {
    let steel = composed([(C, 0.45), (Mn, 0.75), (Si, 0.25)]);
    assert_eq!(validity(&steel), Validity::Within);
    assert_eq!(validity(&steel.with(Ni, 1.8)), Validity::Beyond(Ni));
    assert_eq!(validity(&steel.with(C, 0.95)), Validity::Outside(C));
    assert_eq!(validity(&steel.with(Cr, 3.25)), Validity::Outside(Cr));
    assert_eq!(validity(&steel.with(Mn, f64::NAN)), Validity::Outside(Mn));
}

#[test]
fn martensite_is_as_hard_as_both_editions_of_the_standard_say() {
    // The inch edition's formula is from memory.
    let inch_edition = |c: f64| {
        35.395 + c * (6.990 + c * (312.330 + c * (-821.744 + c * (1015.479 - c * 538.346))))
    };
    let table = [
        (0.20, 44.4),
        (0.30, 50.5),
        (0.40, 56.3),
        (0.45, 58.9),
        (0.50, 61.2),
        (0.60, 64.6),
        (0.70, 65.8),
    ];
    for (carbon, hrc) in table {
        assert_abs_diff_eq!(martensite_hrc(carbon), hrc, epsilon = 0.06);
        if carbon <= 0.60 {
            assert_abs_diff_eq!(martensite_hrc(carbon), inch_edition(carbon), epsilon = 0.35);
        }
    }
}

#[test]
fn martensite_never_gets_softer_with_more_carbon_nor_harder_than_can_be() {
    let hardnesses: Vec<f64> = (10..=210)
        .map(|hundredths| martensite_hrc(f64::from(hundredths) / 100.0))
        .collect();
    assert!(hardnesses.windows(2).all(|pair| pair[0] <= pair[1]));
    assert!(hardnesses.iter().all(|hrc| *hrc <= 67.0));
}

#[test]
fn points_of_two_curves_come_out_as_reckoned_by_another_hand() {
    let shallow = EndQuench::new(0.45, 23.5);
    for (mm, hrc) in [(3.0, 51.5), (5.0, 35.2), (7.0, 26.8), (9.0, 21.8)] {
        assert_abs_diff_eq!(shallow.hrc_at(mm), hrc, epsilon = 0.06);
    }
    let deep = EndQuench::new(0.40, 122.0);
    for (mm, hrc) in [
        (9.0, 55.1),
        (11.0, 53.6),
        (15.0, 50.0),
        (20.0, 46.0),
        (25.0, 42.7),
        (40.0, 37.6),
        (50.0, 35.7),
    ] {
        assert_abs_diff_eq!(deep.hrc_at(mm), hrc, epsilon = 0.1);
    }
    // Of 7 mm a whole number was written down.
    assert_abs_diff_eq!(deep.hrc_at(7.0), 56.0, epsilon = 0.5);
    // Unclamped the polynomial for 3 mm gives 0.6 HRC here.
    assert!((55.0..martensite_hrc(0.40)).contains(&deep.hrc_at(3.0)));
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(2000) })]

    #[test]
    fn a_curve_only_falls_and_a_deeper_steel_is_nowhere_softer(
        carbon in 0.10..0.90,
        ideal in 5.0..180.0,
        deeper in 0.0..60.0,
        at in 0.0..80.0,
        farther in 0.0..40.0,
    ) {
        let curve = EndQuench::new(carbon, ideal);
        let here = curve.hrc_at(at);
        // A factor is at least 1: nothing is harder than martensite. And nothing explodes.
        prop_assert!(here <= martensite_hrc(carbon));
        prop_assert!(here >= 5.0, "{here} HRC");
        prop_assert!(curve.hrc_at(at + farther) <= here);
        let deep = EndQuench::new(carbon, ideal + deeper).hrc_at(at);
        prop_assert!(deep >= here - 1e-9, "{here} HRC, then {deep} HRC");
    }
}

/// How far, HRC, the curves at the edges of `span` lie from a published band: sixteenths of an inch, least, most.
fn farthest(span: &Span, band: &[(f64, f64, f64)]) -> f64 {
    let [low, high] = ideal_range_mm(span);
    let soft = EndQuench::new(span.least.percent(C), low);
    let hard = EndQuench::new(span.most.percent(C), high);
    let off = band.iter().flat_map(|(sixteenths, least, most)| {
        let mm = sixteenths * INCH / 16.0;
        [soft.hrc_at(mm) - least, hard.hrc_at(mm) - most]
    });
    off.fold(0.0, |farthest, off: f64| farthest.max(off.abs()))
}

#[test]
fn bands_of_h_grades_are_met_as_well_as_is_said() {
    // A few points of ASTM A304, bands and compositions from memory.
    let shallow = Span {
        least: composed([(C, 0.42), (Mn, 0.50), (Si, 0.15)]),
        most: residuals(composed([(C, 0.51), (Mn, 1.00), (Si, 0.35)])),
    };
    let band_1045h = [
        (1.0, 55.0, 62.0),
        (2.0, 42.0, 59.0),
        (2.5, 34.0, 56.0),
        (4.0, 28.0, 38.0),
        (8.0, 24.0, 30.0),
        (14.0, 20.0, 27.0),
    ];
    let off = farthest(&shallow, &band_1045h);
    assert!((6.0..8.0).contains(&off), "1045H: {off} HRC");
    let deep = Span {
        least: composed([(C, 0.37), (Mn, 0.65), (Si, 0.15), (Cr, 0.75), (Mo, 0.15)]),
        most: composed([(C, 0.44), (Mn, 1.10), (Si, 0.35), (Cr, 1.20), (Mo, 0.25)]),
    };
    let band_4140h = [
        (1.0, 53.0, 60.0),
        (5.0, 51.0, 59.0),
        (8.0, 47.0, 57.0),
        (12.0, 39.0, 55.0),
        (20.0, 33.0, 51.0),
        (32.0, 30.0, 44.0),
    ];
    let off = farthest(&deep, &band_4140h);
    assert!((3.0..4.0).contains(&off), "4140H: {off} HRC");
}

#[test]
fn a_range_of_compositions_has_its_middle_inside_and_its_corners_outside() {
    let span = Span {
        least: composed([(C, 0.38), (Mn, 0.75), (Cr, 0.80)]),
        most: composed([(C, 0.43), (Mn, 1.00), (Cr, 1.10)]),
    };
    let [low, high] = ideal_range_mm(&span);
    let middle = ideal_diameter_mm(&span.middle());
    assert!(ideal_diameter_mm(&span.least) < low && low < middle);
    assert!(middle < high && high < ideal_diameter_mm(&span.most));
    // One composition has no range, and what is only iron no ideal diameter.
    let exactly = ideal_range_mm(&Span::exactly(span.least));
    assert!(
        exactly
            .iter()
            .all(|mm| (mm - ideal_diameter_mm(&span.least)).abs() < 1e-9)
    );
    assert_eq!(
        ideal_range_mm(&Span::exactly(Composition::NOTHING)),
        [0.0; 2]
    );
}
