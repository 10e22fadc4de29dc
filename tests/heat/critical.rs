//! Andrews' formulas (K. W. Andrews, J. Iron Steel Inst. 203 (1965) 721–727, as public codes quote them).

use approx::assert_abs_diff_eq;
use headwright::heat::critical::{self, Outside, UNCERTAINTY_CELSIUS, ac1, ac3, check, ms};
use headwright::heat::{Composition, Element, Grade, plan};

use super::{composed, of_grade, rounding};
use Element::{C, Cr, Cu, Mn, Mo, Ni, P, S, Si, V, W};

#[test]
fn every_element_acts_as_in_a_hand_computation() {
    // √0.36 = 0.6; every share differs, so that no two coefficients can be exchanged.
    let steel = composed([
        (C, 0.36),
        (Mn, 0.70),
        (Si, 0.20),
        (Ni, 0.50),
        (Cr, 0.90),
        (Mo, 0.30),
        (V, 0.10),
        (W, 0.40),
        (Cu, 0.15),
        (P, 0.02),
        (S, 0.03),
    ]);
    // 723 − 7.49 − 8.45 + 5.82 + 15.21 + 2.552
    assert_abs_diff_eq!(ac1(&steel), 730.642, epsilon = 1e-9);
    // 910 − 121.8 − 7.6 + 8.94 + 10.4 + 9.45 + 5.24
    assert_abs_diff_eq!(ac3(&steel), 814.63, epsilon = 1e-9);
    // 539 − 152.28 − 21.28 − 8.85 − 10.89 − 2.25
    assert_abs_diff_eq!(ms(&steel), 343.45, epsilon = 1e-9);
}

#[test]
fn a_measured_heat_of_1045_lies_within_what_is_said() {
    // steeldata.info, diagram 1889: austenitized at 825 °C, Ac1 725 °C, Ac3 798 °C.
    let heat = composed([
        (C, 0.45),
        (Mn, 0.59),
        (Si, 0.28),
        (Ni, 0.06),
        (Cr, 0.05),
        (Cu, 0.14),
    ]);
    assert_abs_diff_eq!(ac1(&heat), 725.0, epsilon = 0.5);
    assert_abs_diff_eq!(ac3(&heat), 798.0, epsilon = UNCERTAINTY_CELSIUS);
    assert_abs_diff_eq!(ac3(&heat) - 798.0, -12.6, epsilon = 0.1);
}

/// Middle of a grade's range with silicon at 0.25 %, as it was reckoned by another hand from the same formulas.
fn middles() -> [(Composition, [f64; 3]); 6] {
    let si = (Si, 0.25);
    [
        (composed([(C, 0.45), (Mn, 0.75), si]), [722.2, 785.0, 325.8]),
        (composed([(C, 0.60), (Mn, 0.75), si]), [722.2, 763.9, 262.4]),
        (composed([(C, 0.75), (Mn, 0.55), si]), [724.4, 745.4, 205.0]),
        (
            composed([(C, 0.40), (Mn, 0.875), si, (Cr, 0.95), (Mo, 0.20)]),
            [737.0, 799.1, 330.2],
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
            [705.5, 772.1, 302.5],
        ),
        (
            composed([(C, 0.60), (Mn, 0.875), si, (Cr, 0.80)]),
            [734.4, 763.9, 248.9],
        ),
    ]
}

#[test]
fn the_middles_of_grades_come_out_as_reckoned_by_another_hand() {
    for (steel, expected) in middles() {
        for (got, expected) in [ac1(&steel), ac3(&steel), ms(&steel)]
            .into_iter()
            .zip(expected)
        {
            assert_abs_diff_eq!(got, expected, epsilon = 0.06);
        }
    }
}

#[test]
fn published_values_lie_within_what_is_said_but_for_one() {
    // Approximate values on heating at 28 °C/h, Metals Handbook, from memory.
    let published = [
        (Grade::C1060, 725.0, 765.0),
        (Grade::A4140, 730.0, 805.0),
        (Grade::A4340, 725.0, 775.0),
        (Grade::A5160, 710.0, 765.0),
    ];
    for (grade, begins, ends) in published {
        let middle = grade.practice().span.value.middle();
        let off = (ac1(&middle) - begins).abs();
        // The formula lets chromium raise Ac1 of 5160, which is published lower than that of plain steel.
        let most = if grade == Grade::A5160 {
            25.0
        } else {
            UNCERTAINTY_CELSIUS
        };
        assert!(off <= most, "{}: Ac1 {off} off", grade.name());
        let off = (ac3(&middle) - ends).abs();
        assert!(off <= 8.0, "{}: Ac3 {off} off", grade.name());
    }
}

#[test]
fn nothing_is_reckoned_where_the_formulas_do_not_hold() {
    let solid = rounding();
    for grade in Grade::ALL {
        let plan = plan(&solid, &of_grade(grade)).expect("the usual way");
        let middle = grade.practice().span.value.middle();
        let holds = check(&middle).is_ok();
        let inside = matches!(
            grade,
            Grade::C1045 | Grade::C1060 | Grade::A4140 | Grade::A4340 | Grade::A5160
        );
        assert_eq!(holds, inside, "{}", grade.name());
        assert_eq!(plan.critical.ac1.is_some(), holds, "{}", grade.name());
        assert_eq!(plan.critical.ac3.is_some(), holds, "{}", grade.name());
    }
}

#[test]
fn the_limits_of_carbon_and_alloy_are_kept_with_the_rounding_of_a_certificate() {
    let carbon = |percent| check(&composed([(C, percent), (Mn, 0.7)]));
    assert_eq!(carbon(0.60), Ok(()));
    assert_eq!(carbon(0.604), Ok(()));
    assert_eq!(carbon(0.61), Err(Outside::Carbon(0.61)));
    assert_eq!(carbon(0.07), Err(Outside::Carbon(0.07)));
    assert!(carbon(f64::NAN).is_err());
    assert_eq!(
        check(&composed([(C, 0.5), (Cr, 5.1)])),
        Err(Outside::Alloy(5.1))
    );
}

#[test]
fn nearly_equal_steels_transform_nearly_alike() {
    let step = 1e-6;
    for (steel, _) in middles() {
        for element in Element::ALL {
            let other = steel.with(element, steel.percent(element) + step);
            for formula in [critical::ac1, critical::ac3, critical::ms] {
                // No coefficient is above 423.
                assert_abs_diff_eq!(formula(&steel), formula(&other), epsilon = 430.0 * step);
            }
        }
    }
}
