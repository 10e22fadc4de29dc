//! Heats that there is no plan for, each with its sentence.

use expect_test::{Expect, expect};
use headwright::heat::{
    Agitation, Aim, Composition, Element, Grade, Heat, HeatPart, Medium, Quench, Steel, Temper,
    plan,
};
use headwright::units::System;

use super::{composed, of_grade, rounding};

#[track_caller]
fn check_refused(heat: &Heat, metric: Expect, imperial: Expect) {
    let errors = plan(&rounding(), heat).expect_err("it must be refused");
    let said = |system| {
        let sentences = errors.iter().map(|error| error.sentence(system));
        sentences.collect::<Vec<_>>().join("\n")
    };
    metric.assert_eq(&said(System::Metric));
    imperial.assert_eq(&said(System::Imperial));
    let shown: Vec<String> = errors.iter().map(ToString::to_string).collect();
    assert_eq!(shown.join("\n"), said(System::Metric));
}

fn analysed(grade: Grade, analysis: Composition) -> Heat {
    Heat {
        steel: Steel {
            grade,
            analysis: Some(analysis),
        },
        ..Heat::default()
    }
}

fn quenched(grade: Grade, quench: Quench) -> Heat {
    Heat {
        quench: Some(quench),
        ..of_grade(grade)
    }
}

fn tempered(grade: Grade, temper: Temper) -> Heat {
    Heat {
        temper: Some(temper),
        ..of_grade(grade)
    }
}

#[test]
fn a_composition_of_more_than_everything_is_refused() {
    let points_lost = composed([(Element::C, 0.45), (Element::Mn, 75.0), (Element::Si, 25.0)]);
    check_refused(
        &analysed(Grade::C1045, points_lost),
        expect!["The analysis adds up to 100.45 %, more than 100 %. Look at the decimal points."],
        expect!["The analysis adds up to 100.45 %, more than 100 %. Look at the decimal points."],
    );
}

#[test]
fn a_share_that_is_none_is_refused() {
    let wrong = composed([
        (Element::C, 0.45),
        (Element::Mn, -0.7),
        (Element::Cr, f64::NAN),
        (Element::Ni, 130.0),
    ]);
    check_refused(
        &analysed(Grade::C1045, wrong),
        expect![[r#"
            The analysis says −0.7 % manganese; it must be at least 0 % and at most 100 %.
            The analysis says 130 % nickel; it must be at least 0 % and at most 100 %.
            The analysis says NaN % chromium; it must be at least 0 % and at most 100 %."#]],
        expect![[r#"
            The analysis says −0.7 % manganese; it must be at least 0 % and at most 100 %.
            The analysis says 130 % nickel; it must be at least 0 % and at most 100 %.
            The analysis says NaN % chromium; it must be at least 0 % and at most 100 %."#]],
    );
}

#[test]
fn carbon_of_no_steel_is_refused() {
    for carbon in [0.05, 2.4] {
        let iron = composed([(Element::C, carbon), (Element::Mn, 0.7)]);
        let errors = plan(&rounding(), &analysed(Grade::C1045, iron)).expect_err("no steel");
        assert!(errors.iter().all(|error| error.part() == HeatPart::Steel));
    }
    let cast = composed([(Element::C, 3.4), (Element::Mn, 0.7)]);
    check_refused(
        &analysed(Grade::C1045, cast),
        expect![
            "The analysis says 3.4 % carbon. A steel that hardens has at least 0.1 % and at most 2.1 %."
        ],
        expect![
            "The analysis says 3.4 % carbon. A steel that hardens has at least 0.1 % and at most 2.1 %."
        ],
    );
}

#[test]
fn a_temper_above_ac1_is_refused() {
    let temper = |grade| Temper {
        aim: Aim::Celsius(760.0),
        ..Temper::usual(grade)
    };
    check_refused(
        &tempered(Grade::A4140, temper(Grade::A4140)),
        expect![
            "A temper at 760 °C lies above Ac1, about 735 °C: the steel would turn to austenite again. Temper at 650 °C at most."
        ],
        expect![
            "A temper at 1400 °F lies above Ac1, about 1360 °F: the steel would turn to austenite again. Temper at 1200 °F at most."
        ],
    );
    // Of W1 no formula says where Ac1 is.
    check_refused(
        &tempered(Grade::W1, temper(Grade::W1)),
        expect![
            "A temper at 760 °C lies above Ac1, about 725 °C: the steel would turn to austenite again. Temper at 650 °C at most."
        ],
        expect![
            "A temper at 1400 °F lies above Ac1, about 1335 °F: the steel would turn to austenite again. Temper at 1200 °F at most."
        ],
    );
}

#[test]
fn a_quench_that_the_grade_does_not_bear_is_refused() {
    let water = Quench::in_medium(Medium::Water);
    check_refused(
        &quenched(Grade::A4140, water),
        expect!["4140 is likely to crack in water. Quench it in oil."],
        expect!["4140 is likely to crack in water. Quench it in oil."],
    );
    let air = Quench::in_medium(Medium::Air);
    check_refused(
        &quenched(Grade::A4340, air),
        expect!["4340 does not get hard enough in air. Quench it in oil."],
        expect!["4340 does not get hard enough in air. Quench it in oil."],
    );
}

#[test]
fn a_bath_too_warm_and_a_jet_of_oil_are_refused_together() {
    let quench = Quench {
        medium: Medium::Oil,
        agitation: Agitation::Violent,
        bath_celsius: 90.0,
    };
    check_refused(
        &quenched(Grade::A4140, quench),
        expect![[r#"
            A jet throws burning oil about. Move the head hard in oil at most.
            The oil is at 90 °C; it must be at least 27 °C and at most 65 °C when the head goes in."#]],
        expect![[r#"
            A jet throws burning oil about. Move the head hard in oil at most.
            The oil is at 194 °F; it must be at least 80.6 °F and at most 149 °F when the head goes in."#]],
    );
}

#[test]
fn an_oven_out_of_range_and_no_soak_are_refused_together() {
    let temper = Temper {
        aim: Aim::Celsius(f64::NAN),
        soak_hours: 0.0,
        times: 0,
    };
    check_refused(
        &tempered(Grade::C1045, temper),
        expect![[r#"
            A soak of 0 h is not reckoned; it must be at least 0.25 h and at most 24 h.
            A head is tempered at least once and at most 3 times, not 0 times.
            A temper at NaN °C is not reckoned; it must be at least 100 °C and at most 650 °C."#]],
        expect![[r#"
            A soak of 0 h is not reckoned; it must be at least 0.25 h and at most 24 h.
            A head is tempered at least once and at most 3 times, not 0 times.
            A temper at NaN °F is not reckoned; it must be at least 212 °F and at most 1202 °F."#]],
    );
}

#[test]
fn a_hardness_that_no_temper_leaves_is_refused() {
    let aim = |hrc| Temper {
        aim: Aim::Hrc(hrc),
        ..Temper::usual(Grade::C1045)
    };
    check_refused(
        &tempered(Grade::C1045, aim(63.0)),
        expect![
            "A temper of 1045 leaves at least 19 HRC and at most 58 HRC, not 63 HRC. Ask for less or take a steel with more carbon."
        ],
        expect![
            "A temper of 1045 leaves at least 19 HRC and at most 58 HRC, not 63 HRC. Ask for less or take a steel with more carbon."
        ],
    );
    check_refused(
        &tempered(Grade::C1045, aim(700.0)),
        expect![
            "A hardness of 700 HRC is not reckoned; it must be at least 20 HRC and at most 68 HRC."
        ],
        expect![
            "A hardness of 700 HRC is not reckoned; it must be at least 20 HRC and at most 68 HRC."
        ],
    );
}

#[test]
fn a_temper_beyond_what_is_known_is_refused() {
    let temper = Temper {
        aim: Aim::Celsius(650.0),
        soak_hours: 24.0,
        times: 3,
    };
    check_refused(
        &tempered(Grade::C1045, temper),
        expect!["What 72 h at 650 °C leave of 1045 is not known. Temper shorter or cooler."],
        expect!["What 72 h at 1202 °F leave of 1045 is not known. Temper shorter or cooler."],
    );
}
