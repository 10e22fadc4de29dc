//! Steel and heat treatment travel with the head.

use headwright::design::{Design, Edit, starter};
use headwright::heat::{
    Agitation, Aim, Composition, Element, Grade, Heat, Medium, Quench, Steel, Temper, plan,
};
use headwright::share::link::{LONGEST_DESIGN, decode, encode};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::common::heats::heats;
use super::{LINK_OF_VERSION_6, LINK_OF_VERSION_7, length_without_texts};

fn with(heat: Heat) -> Design {
    let design = starter("rounding").expect("a starter");
    design.apply(Edit::Heat(Box::new(heat)))
}

fn carried(heat: Heat) -> (Heat, usize) {
    let link = encode(&with(heat)).expect("goes into a link");
    let length = length_without_texts(&link);
    (decode(&link).expect("reads back").heat, length)
}

/// A steel, quench and temper in which every number is on a grid.
fn whole() -> Heat {
    Heat {
        steel: Steel {
            grade: Grade::A4140,
            analysis: Some(
                Composition::NOTHING
                    .with(Element::C, 0.41)
                    .with(Element::Mn, 0.87)
                    .with(Element::Si, 0.25)
                    .with(Element::Cr, 0.94)
                    .with(Element::Mo, 0.17)
                    .with(Element::P, 0.012)
                    .with(Element::S, 0.003),
            ),
        },
        quench: Some(Quench {
            medium: Medium::Oil,
            agitation: Agitation::Strong,
            bath_celsius: 48.5,
        }),
        temper: Some(Temper {
            aim: Aim::Hrc(52.5),
            soak_hours: 1.75,
            times: 2,
        }),
    }
}

/// A link opens to the same heat treatment for ever.
#[test]
fn a_link_with_every_part_of_a_heat_treatment_still_opens() {
    assert_eq!(decode(LINK).map(|design| design.heat), Ok(whole()));
    assert_eq!(encode(&with(whole())).as_deref(), Ok(LINK));
}

const LINK: &str = "7WFGdMN2KtMG6DRbbFvImDmvP4CBpcK5rTbw7lWLSF67NKA3yy1Ry9q5OkgX8FgxHb1qQ8-1mnV3HO0XhiAKGdoToJ9ACLNX5Be7fPjOJj2544Q.Um91bmRpbmcgaGFtbWVy.T25lIGZhY2UgbmVhcmx5IGZsYXQgdG8gZmluaXNoIHdpdGgsIG9uZSByb3VuZCB0byBkcmF3IHdpdGgu";

#[test]
fn the_usual_steel_takes_no_room_and_another_grade_a_handful_of_characters() {
    // All after version and checksum is as it was before a link said anything of the steel.
    assert_eq!(LINK_OF_VERSION_7[5..], LINK_OF_VERSION_6[5..]);
    let (heat, usual) = carried(Heat::default());
    assert_eq!(heat, Heat::default());
    for grade in Grade::ALL {
        let steel = Steel {
            grade,
            analysis: None,
        };
        let mut design = with(Heat::default());
        // The density is a number of its own.
        design.heat = Heat {
            steel,
            ..Heat::default()
        };
        let link = encode(&design).expect("goes into a link");
        assert_eq!(decode(&link), Ok(design));
        let length = length_without_texts(&link);
        assert!(length <= usual + 4, "{grade:?}: {length} against {usual}");
    }
}

#[test]
fn numbers_on_no_grid_are_rounded_and_whole_degrees_fahrenheit_stay_whole() {
    let heat = Heat {
        quench: Some(Quench {
            bath_celsius: (71.0 - 32.0) / 1.8,
            ..Quench::usual(Grade::C1045)
        }),
        temper: Some(Temper {
            aim: Aim::Celsius((401.0 - 32.0) / 1.8),
            soak_hours: 4.0 / 3.0,
            times: 1,
        }),
        ..Heat::default()
    };
    let (got, _) = carried(heat);
    let (bath, oven) = (got.quench(), got.temper());
    assert_eq!(bath.bath_celsius, 21.67);
    assert_eq!(oven.aim, Aim::Celsius(205.0));
    assert_eq!(oven.soak_hours, 1.33);
}

#[test]
fn an_impossible_heat_treatment_comes_back_as_impossible_as_it_was() {
    for number in [
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        -1e300,
        -0.5,
        1e9,
    ] {
        let heat = Heat {
            steel: Steel {
                grade: Grade::H13,
                analysis: Some(Composition::NOTHING.with(Element::Mo, number)),
            },
            quench: Some(Quench {
                medium: Medium::Brine,
                agitation: Agitation::Violent,
                bath_celsius: number,
            }),
            temper: Some(Temper {
                aim: Aim::Hrc(number),
                soak_hours: number,
                times: 255,
            }),
        };
        let sent = with(heat);
        let got = decode(&encode(&sent).expect("goes into a link")).expect("reads back");
        let sentences = |design: &Design| {
            let solid = design.build().expect("a sound head");
            let errors = plan(&solid, &design.heat).expect_err("impossible");
            errors.iter().map(ToString::to_string).collect::<Vec<_>>()
        };
        assert_eq!(sentences(&got), sentences(&sent), "{number}");
        assert_eq!(got.heat.temper.map(|temper| temper.times), Some(255));
    }
}

/// Off by more than this, a number has not come back.
fn near(sent: f64, got: f64, grid: f64) -> bool {
    (sent - got).abs() <= 0.5 * grid + 1e-9
}

proptest! {
    // A plan takes its time.
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(2), ..ProptestConfig::with_cases(32) })]

    #[test]
    fn what_is_drawn_has_a_plan(heat in heats()) {
        let solid = starter("rounding").expect("a starter").build().expect("sound");
        let planned = plan(&solid, &heat);
        prop_assert!(planned.is_ok(), "{:?}", planned.err());
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::with_cases(500) })]

    #[test]
    fn any_heat_treatment_on_the_grids_comes_back_just_as_it_is(heat in heats()) {
        let link = encode(&with(heat)).expect("goes into a link");
        prop_assert!(length_without_texts(&link) <= LONGEST_DESIGN);
        let got = decode(&link).expect("reads back");
        prop_assert_eq!(got.heat, heat);
    }

    #[test]
    fn any_heat_treatment_comes_back_within_half_a_step(
        percents in prop::collection::vec(0.0..9.0, Element::COUNT),
        (bath, oven, hardness, soak) in (5.0..38.0, 100.0..650.0, 20.0..68.0, 0.25..24.0),
    ) {
        let analysis = Element::ALL.into_iter().zip(&percents);
        let analysis = analysis.fold(Composition::NOTHING, |all, (element, percent)| {
            all.with(element, *percent)
        });
        let steel = Steel { grade: Grade::W2, analysis: Some(analysis) };
        let quench = Quench { bath_celsius: bath, ..Quench::in_medium(Medium::Water) };
        for aim in [Aim::Celsius(oven), Aim::Hrc(hardness)] {
            let temper = Temper { aim, soak_hours: soak, times: 3 };
            let (got, _) = carried(Heat { steel, quench: Some(quench), temper: Some(temper) });
            let back = got.steel.analysis.expect("an analysis");
            for (element, percent) in analysis.iter() {
                prop_assert!(near(percent, back.percent(element), 0.001));
            }
            prop_assert!(near(bath, got.quench().bath_celsius, 0.01));
            prop_assert!(near(soak, got.temper().soak_hours, 0.01));
            let aimed = match (aim, got.temper().aim) {
                (Aim::Celsius(sent), Aim::Celsius(got)) | (Aim::Hrc(sent), Aim::Hrc(got)) => {
                    near(sent, got, 0.01)
                }
                _ => false,
            };
            prop_assert!(aimed);
        }
    }
}
