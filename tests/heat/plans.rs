//! Plans of every head in every grade and quench, sound heats and wild ones.

use approx::assert_relative_eq;
use headwright::heat::temper::EMBRITTLEMENT;
use headwright::heat::{
    Agitation, Aim, Band, Bears, Composition, Element, EndHardness, Grade, Heat, Medium, Note,
    Place, Plan, Quench, Steel, Temper, heat_content_kj_per_kg, plan, severity,
};
use headwright::units::System;
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use regex::Regex;

use super::common::sound_designs;
use super::{composed, of_grade, rounding, starters};

const AGITATIONS: [Agitation; 6] = Agitation::ALL;

/// What must hold of every plan.
pub fn check(plan: &Plan) -> Result<(), TestCaseError> {
    // JSON would write null for them.
    let numbers = Regex::new(r"\b(NaN|inf)\b").expect("a pattern");
    let shown = format!("{plan:?}");
    prop_assert!(!numbers.is_match(&shown), "{shown}");
    prop_assert!(serde_json::to_string(plan).is_ok());
    for end in &plan.ends {
        check_end(end)?;
    }
    let tempering = &plan.tempering;
    // Within five degrees, as an oven may be off.
    let off = 5.0;
    let near = EMBRITTLEMENT.least - off < tempering.celsius
        && tempering.celsius < EMBRITTLEMENT.most + off;
    let brittle = plan.steel.grade.embrittles() && near;
    let said = plan
        .notes
        .iter()
        .any(|note| matches!(note, Note::Brittle { .. }));
    prop_assert_eq!(tempering.embrittles, brittle);
    prop_assert_eq!(said, brittle, "a brittle temper is never silent");
    prop_assert_eq!(!tempering.ways.is_empty(), brittle);
    for system in [System::Metric, System::Imperial] {
        let steps = plan.steps(system);
        prop_assert!(
            steps
                .iter()
                .all(|step| !step.value.is_empty() && !step.work.is_empty())
        );
        prop_assert!(
            plan.notes
                .iter()
                .all(|note| note.sentence(system).ends_with('.'))
        );
    }
    if let Some(bath) = plan.bath {
        prop_assert!(bath.heat_kj > 0.0 && bath.litres > 0.0 && bath.rise_kelvin >= 3.0);
    }
    Ok(())
}

fn ordered(band: Band) -> bool {
    band.low <= band.high
}

fn check_end(end: &EndHardness) -> Result<(), TestCaseError> {
    prop_assert!(ordered(end.round_mm) && end.round_mm.low > 0.0);
    for place in &end.places {
        let bands = [
            place.end_quench_mm,
            place.as_quenched_hrc,
            place.tempered_hrc,
        ];
        prop_assert!(bands.into_iter().flatten().all(ordered), "{place:?}");
        if let (Some(quenched), Some(tempered)) = (place.as_quenched_hrc, place.tempered_hrc) {
            prop_assert!(tempered.low <= quenched.low && tempered.high <= quenched.high);
        }
    }
    // 3 mm under the skin of what is thinner than 12 mm is deeper than halfway.
    let deeper = |outer: Place, inner: Place| {
        let at = |wanted| end.places.iter().find(|place| place.place == wanted);
        let (Some(outer), Some(inner)) = (at(outer), at(inner)) else {
            return false;
        };
        let falls = |outer: Option<Band>, inner: Option<Band>| match (outer, inner) {
            (Some(outer), Some(inner)) => {
                inner.low <= outer.low + 1e-9 && inner.high <= outer.high + 1e-9
            }
            (None, Some(_)) => false,
            (_, None) => true,
        };
        falls(outer.as_quenched_hrc, inner.as_quenched_hrc)
            && falls(outer.tempered_hrc, inner.tempered_hrc)
    };
    let mut pairs = vec![
        (Place::Skin, Place::Under),
        (Place::Skin, Place::MidRadius),
        (Place::Under, Place::Centre),
        (Place::MidRadius, Place::Centre),
    ];
    if end.round_mm.low > 12.0 {
        pairs.push((Place::Under, Place::MidRadius));
    }
    for (outer, inner) in pairs {
        prop_assert!(deeper(outer, inner), "{outer:?} and {inner:?}: {end:?}");
    }
    Ok(())
}

#[test]
fn every_starter_in_every_grade_and_medium_has_a_plan_or_a_sentence() {
    let (mut plans, mut refusals) = (0, 0);
    for design in starters() {
        let solid = design.build().expect("sound");
        for grade in Grade::ALL {
            for medium in Medium::ALL {
                let heat = Heat {
                    quench: Some(Quench::in_medium(medium)),
                    ..of_grade(grade)
                };
                let bears = grade.bears(medium);
                match plan(&solid, &heat) {
                    Ok(plan) => {
                        assert!(matches!(bears, Bears::Well | Bears::WithCare));
                        if let Err(error) = check(&plan) {
                            panic!(
                                "{}, {} in {}: {error}",
                                design.name,
                                grade.name(),
                                medium.name()
                            );
                        }
                        plans += 1;
                    }
                    Err(errors) => {
                        assert!(matches!(bears, Bears::Cracks | Bears::StaysSoft));
                        assert!(errors.iter().all(|error| error.to_string().ends_with('.')));
                        refusals += 1;
                    }
                }
            }
        }
    }
    assert!(
        plans > 100 && refusals > 50,
        "{plans} plans, {refusals} refusals"
    );
}

/// A number that is mostly sound and sometimes anything that a number can be.
fn number(low: f64, high: f64) -> impl Strategy<Value = f64> {
    prop_oneof![
        12 => low..high,
        1 => prop::num::f64::ANY,
        1 => prop::sample::select(vec![
            f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX, f64::MIN, f64::MIN_POSITIVE, -0.0, 0.0, low, high,
        ]),
    ]
}

fn analysis() -> impl Strategy<Value = Composition> {
    let others = prop::collection::vec(
        (
            prop::sample::select(Element::ALL.to_vec()),
            number(0.0, 2.0),
        ),
        0..6,
    );
    (number(0.10, 1.4), number(0.3, 1.5), others).prop_map(|(carbon, manganese, others)| {
        others.into_iter().fold(
            composed([(Element::C, carbon), (Element::Mn, manganese)]),
            |all, (element, percent)| all.with(element, percent),
        )
    })
}

fn heats() -> impl Strategy<Value = Heat> {
    let quench = (
        prop::sample::select(Medium::ALL.to_vec()),
        prop::sample::select(AGITATIONS.to_vec()),
        number(18.0, 45.0),
    )
        .prop_map(|(medium, agitation, bath_celsius)| Quench {
            medium,
            agitation,
            bath_celsius,
        });
    let aim = prop_oneof![
        number(30.0, 62.0).prop_map(Aim::Hrc),
        number(100.0, 650.0).prop_map(Aim::Celsius),
    ];
    let times = prop_oneof![8 => 1u8..=3, 1 => Just(0), 1 => Just(255)];
    let temper = (aim, number(0.25, 24.0), times).prop_map(|(aim, soak_hours, times)| Temper {
        aim,
        soak_hours,
        times,
    });
    (
        prop::sample::select(Grade::ALL.to_vec()),
        prop::option::of(analysis()),
        prop::option::of(quench),
        prop::option::of(temper),
    )
        .prop_map(|(grade, analysis, quench, temper)| Heat {
            steel: Steel { grade, analysis },
            quench,
            temper,
        })
}

#[test]
fn any_heat_of_any_sound_head_gives_ordered_bands_or_sentences() {
    let config = Config {
        cases: 200,
        failure_persistence: None,
        ..Config::default()
    };
    let random = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(config, random);
    // Most wild heats are refused: several for each head.
    let several = prop::collection::vec(heats(), 6);
    let plans = std::cell::Cell::new(0);
    let ended = runner.run(&(sound_designs(), several), |(design, heats)| {
        let solid = design.build().expect("drawn sound");
        for heat in heats {
            match plan(&solid, &heat) {
                Ok(plan) => {
                    plans.set(plans.get() + 1);
                    check(&plan)?;
                }
                Err(errors) => {
                    prop_assert!(!errors.is_empty());
                    for error in errors {
                        for system in [System::Metric, System::Imperial] {
                            prop_assert!(error.sentence(system).ends_with('.'));
                        }
                    }
                }
            }
        }
        Ok(())
    });
    if let Err(error) = ended {
        panic!("{error}");
    }
    assert!(plans.get() > 200, "only {} plans", plans.get());
}

#[test]
fn what_the_head_gives_off_is_what_the_bath_takes_up() {
    let solid = rounding();
    for (grade, medium, bath_celsius) in [
        (Grade::C1045, Medium::Water, 11.0),
        (Grade::A4140, Medium::Oil, 31.0),
        (Grade::W2, Medium::Brine, 22.0),
    ] {
        let quench = Quench {
            bath_celsius,
            ..Quench::in_medium(medium)
        };
        let heat = Heat {
            quench: Some(quench),
            ..of_grade(grade)
        };
        let plan = plan(&solid, &heat).expect("sound");
        let bath = plan.bath.expect("a liquid");
        let hot = plan.practice.harden.value.middle();
        let ends = bath_celsius + bath.rise_kelvin;
        assert_relative_eq!(ends, medium.bath_celsius().most, max_relative = 1e-12);
        let given = plan.mass_kg * (heat_content_kj_per_kg(hot) - heat_content_kj_per_kg(ends));
        let taken =
            bath.litres * medium.kj_per_litre_kelvin().expect("a liquid") * bath.rise_kelvin;
        assert_relative_eq!(given, bath.heat_kj, max_relative = 1e-12);
        assert_relative_eq!(given, taken, max_relative = 1e-12);
    }
}

#[test]
fn a_warmer_bath_must_be_larger_and_one_at_its_limit_must_cool_first() {
    let solid = rounding();
    let limit = Medium::Oil.bath_celsius();
    let planned = |bath_celsius: f64| {
        let quench = Quench {
            bath_celsius,
            ..Quench::in_medium(Medium::Oil)
        };
        let heat = Heat {
            quench: Some(quench),
            ..of_grade(Grade::A4140)
        };
        plan(&solid, &heat).expect("sound")
    };
    let temperatures = [limit.least, 40.0, 50.0, 60.0, 62.0];
    let needed = temperatures.map(|celsius| planned(celsius).bath.expect("oil").litres);
    assert!(
        needed.windows(2).all(|pair| pair[0] < pair[1]),
        "{needed:?}"
    );
    let warm = planned(limit.most);
    assert_eq!(warm.bath, None);
    let steps = warm.steps(System::Metric);
    assert!(
        steps
            .iter()
            .any(|step| step.work.contains("let it cool first"))
    );
}

#[test]
fn severities_rise_from_still_to_violent_and_from_air_to_brine() {
    for medium in Medium::ALL {
        let bands = AGITATIONS.map(|agitation| severity(medium, agitation).value);
        assert!(bands.into_iter().all(ordered));
        assert!(
            bands
                .windows(2)
                .all(|pair| pair[0].low <= pair[1].low && pair[0].high <= pair[1].high)
        );
    }
    for agitation in AGITATIONS {
        let bands = Medium::ALL.map(|medium| severity(medium, agitation).value);
        assert!(bands.windows(2).all(|pair| pair[0].low < pair[1].low));
    }
}

#[test]
fn a_usual_face_comes_out_as_hard_as_is_published() {
    // Hardness at the skin after a quench that suits, with the source of each in the grade's practice, of a face of 39 mm.
    for grade in Grade::ALL {
        let plan = plan(&rounding(), &of_grade(grade)).expect("the usual way");
        let published = grade.practice().as_quenched.value.middle();
        for end in &plan.ends {
            let skin = end.places.iter().find(|place| place.place == Place::Skin);
            let band = skin
                .and_then(|skin| skin.as_quenched_hrc)
                .expect("a hardness");
            assert!(
                band.low <= published && published <= band.high,
                "{}: {band:?}, published {published}",
                grade.name()
            );
        }
    }
}

#[test]
fn the_edge_cases_of_a_temper_are_planned_with_what_belongs_to_them() {
    // Three soaks of eight hours do what one of a day does.
    let temper = |soak_hours, times| Heat {
        temper: Some(Temper {
            aim: Aim::Celsius(200.0),
            soak_hours,
            times,
        }),
        ..of_grade(Grade::A4140)
    };
    let left = |heat| {
        let plan = plan(&rounding(), &heat).expect("sound");
        plan.tempering.martensite_hrc.value
    };
    assert_relative_eq!(
        left(temper(8.0, 3)),
        left(temper(24.0, 1)),
        max_relative = 1e-12
    );
    assert!(left(temper(8.0, 3)) < left(temper(8.0, 1)));
}
