//! What is said of a plan: steps, notes, and the ways round a brittle temper.

use approx::assert_relative_eq;
use expect_test::expect;
use headwright::design::starter;
use headwright::heat::temper::EMBRITTLEMENT;
use headwright::heat::{
    Aim, Element, Grade, Heat, HeatError, Medium, Note, Quench, Steel, Temper, WayKind, plan,
};
use headwright::units::System;

use super::plans::check;
use super::{composed, of_grade, rounding};

#[test]
fn the_steps_name_hardening_and_tempering_heat_in_both_units() {
    let plan = plan(&rounding(), &of_grade(Grade::A4140)).expect("sound");
    let text = |system| {
        let steps = plan.steps(system);
        let lines = steps
            .iter()
            .map(|step| format!("{}: {}", step.kind.name(), step.value));
        lines.collect::<Vec<_>>().join("\n")
    };
    expect![[r#"
        forge: 980 to 1200 °C
        normalize: 870 to 900 °C
        make ready: cold
        hardening heat: 845 to 870 °C
        quench: oil at 45 °C
        temper: 205 °C
        soften the eye: 650 °C
        prove: file and ring"#]]
    .assert_eq(&text(System::Metric));
    expect![[r#"
        forge: 1795 to 2190 °F
        normalize: 1600 to 1650 °F
        make ready: cold
        hardening heat: 1555 to 1600 °F
        quench: oil at 113 °F
        temper: 401 °F
        soften the eye: 1200 °F
        prove: file and ring"#]]
    .assert_eq(&text(System::Imperial));
}

#[test]
fn the_bath_of_a_step_warms_to_where_its_volume_was_reckoned_for() {
    let heat = |bath_celsius| Heat {
        quench: Some(Quench {
            bath_celsius,
            ..Quench::in_medium(Medium::Oil)
        }),
        ..of_grade(Grade::A4140)
    };
    let step = |bath_celsius, warms_to: &str| {
        let plan = plan(&rounding(), &heat(bath_celsius)).expect("sound");
        let steps = plan.steps(System::Metric);
        let said = format!("no warmer than {warms_to}");
        assert!(
            steps.iter().any(|step| step.work.contains(&said)),
            "{steps:?}"
        );
    };
    step(40.0, "65 °C");
    step(60.0, "65 °C");
}

#[test]
fn a_hardness_in_the_brittle_range_is_said_with_every_way_round_it() {
    let solid = rounding();
    for grade in Grade::ALL.into_iter().filter(|grade| grade.embrittles()) {
        let mut brittle = 0;
        for hrc in 30..=66 {
            let aim = Aim::Hrc(f64::from(hrc));
            let heat = Heat {
                temper: Some(Temper {
                    aim,
                    ..Temper::usual(grade)
                }),
                ..of_grade(grade)
            };
            let Ok(plan) = plan(&solid, &heat) else {
                continue;
            };
            if let Err(error) = check(&plan) {
                panic!("{}, {hrc} HRC: {error}", grade.name());
            }
            if !plan.tempering.embrittles {
                continue;
            }
            brittle += 1;
            let ways = &plan.tempering.ways;
            let way = |kind: WayKind| ways.iter().find(|way| way.kind == kind);
            let harder = way(WayKind::Lower).expect("below the range");
            let softer = way(WayKind::Higher).expect("above the range");
            let left = plan.tempering.martensite_hrc.value;
            assert!(
                softer.hrc < left && left < harder.hrc,
                "{}: {left} HRC",
                grade.name()
            );
            assert!(way(WayKind::Double).is_some());
            let tougher = way(WayKind::Tougher).expect("S7 has this hardness");
            assert!(!tougher.grade.embrittles());
            for way in ways {
                let Aim::Celsius(celsius) = way.temper.aim else {
                    panic!("a way is an oven’s heat");
                };
                assert!(!way.grade.embrittles() || !EMBRITTLEMENT.admits(celsius));
            }
        }
        assert!(brittle >= 3, "{}: {brittle}", grade.name());
    }
}

#[test]
fn no_way_round_promises_more_than_the_carbon_of_the_bar() {
    let lean = composed([(Element::C, 0.20), (Element::Mn, 0.7), (Element::Si, 0.2)]);
    let heat = Heat {
        steel: Steel {
            grade: Grade::C1045,
            analysis: Some(lean),
        },
        temper: Some(Temper {
            aim: Aim::Celsius(240.0),
            ..Temper::usual(Grade::C1045)
        }),
        ..Heat::default()
    };
    let plan = plan(&rounding(), &heat).expect("sound");
    // 44.4 HRC is all that 0.20 % carbon gives.
    let own = plan
        .tempering
        .ways
        .iter()
        .filter(|way| way.grade == Grade::C1045);
    let hardest = own.map(|way| way.hrc).fold(0.0, f64::max);
    assert_relative_eq!(hardest, 44.4, max_relative = 2e-3);
}

#[test]
fn an_analysis_of_another_steel_is_said() {
    // A bar of 4140 taken for 1045, which would go into water.
    let mistaken = composed([
        (Element::C, 0.43),
        (Element::Mn, 0.85),
        (Element::Si, 0.25),
        (Element::Cr, 0.95),
        (Element::Mo, 0.18),
        (Element::Cu, 0.20),
    ]);
    let heat = Heat {
        steel: Steel {
            grade: Grade::C1045,
            analysis: Some(mistaken),
        },
        ..Heat::default()
    };
    let refused = plan(&rounding(), &heat).expect_err("it would crack in water");
    assert!(
        refused.iter().any(|error| matches!(
            error,
            HeatError::AnalysisCracks {
                element: Element::Cr,
                ..
            }
        )),
        "{refused:?}"
    );
    let heat = Heat {
        quench: Some(Quench::in_medium(Medium::Oil)),
        ..heat
    };
    let plan = plan(&rounding(), &heat).expect("sound");
    let strange = plan.notes.iter().filter_map(|note| match note {
        Note::OutsideGrade { element, .. } => Some(*element),
        _ => None,
    });
    assert_eq!(strange.collect::<Vec<_>>(), [Element::Cr, Element::Mo]);
}

#[test]
fn notes_are_sentences_in_both_units() {
    let cross = starter("cross").expect("a starter").build().expect("sound");
    let heat = Heat {
        quench: Some(Quench::in_medium(Medium::Oil)),
        temper: Some(Temper {
            aim: Aim::Celsius(260.0),
            ..Temper::usual(Grade::C1060)
        }),
        ..of_grade(Grade::C1060)
    };
    let plan = plan(&cross, &heat).expect("sound");
    let text = |system| {
        let notes = plan.notes.iter().map(|note| note.sentence(system));
        notes.collect::<Vec<_>>().join("\n")
    };
    expect![[r#"
        1060 hardens in oil only where it is thin, about 6.35 mm; a face of this size is likely to stay soft inside and may stay soft at the skin.
        1060 hardens shallow: a hard skin over a tough core. That suits a hammer, but what is ground off the face comes off the hard part.
        A temper at 260 °C lies in the range from 230 °C to 370 °C, or within 5 °C of it, where this steel gets brittle: a blow breaks it with a third to a half less energy than after 200 °C, though it is softer (from memory).
        The front end comes to 34 HRC at the skin at most; the standards want at least 45 HRC. Move it harder in the bath that suits the grade, temper cooler, or take another steel.
        3 mm under the skin the front end has 32 HRC at most; DIN 1041 wants 50 HRC as deep as that. Grind little off, or take a steel that hardens deeper.
        The back end comes to 36 HRC at the skin at most; the standards want at least 45 HRC. Move it harder in the bath that suits the grade, temper cooler, or take another steel.
        3 mm under the skin the back end has 34 HRC at most; DIN 1041 wants 50 HRC as deep as that. Grind little off, or take a steel that hardens deeper.
        The back end is 14.84 mm thick, far less than the cheeks: it is hot first and cools first. Heat it last and hold it out of the hottest fire."#]].assert_eq(&text(System::Metric));
    expect![[r#"
        1060 hardens in oil only where it is thin, about 1/4 in; a face of this size is likely to stay soft inside and may stay soft at the skin.
        1060 hardens shallow: a hard skin over a tough core. That suits a hammer, but what is ground off the face comes off the hard part.
        A temper at 500 °F lies in the range from 446 °F to 698 °F, or within 9 °F of it, where this steel gets brittle: a blow breaks it with a third to a half less energy than after 392 °F, though it is softer (from memory).
        The front end comes to 34 HRC at the skin at most; the standards want at least 45 HRC. Move it harder in the bath that suits the grade, temper cooler, or take another steel.
        0.118 in under the skin the front end has 32 HRC at most; DIN 1041 wants 50 HRC as deep as that. Grind little off, or take a steel that hardens deeper.
        The back end comes to 36 HRC at the skin at most; the standards want at least 45 HRC. Move it harder in the bath that suits the grade, temper cooler, or take another steel.
        0.118 in under the skin the back end has 34 HRC at most; DIN 1041 wants 50 HRC as deep as that. Grind little off, or take a steel that hardens deeper.
        The back end is 0.584 in thick, far less than the cheeks: it is hot first and cools first. Heat it last and hold it out of the hottest fire."#]].assert_eq(&text(System::Imperial));
}
