//! The one door that takes readings.

use headwright::bar::LossKind;
use headwright::design::{Design, Edit, Hold, Quantity, Range};
use headwright::log::existing::{Rest, existing};
use headwright::log::{Precision, Reading, ReadingError, Readings, Weighing, forged::forged};
use headwright::plan::hot_sizes;
use headwright::units::{Amount, Angle, Length, Mass, Measure, System};
use proptest::prelude::*;

use super::{cold, common, dim, held, hot, number, of, precision, refused, sizes, weigh, weighed};

#[test]
fn a_hot_reading_comes_to_the_cold_size_that_the_plan_grows_it_from() {
    let design = held();
    for celsius in [20.0, 640.0, 800.0, 1050.0, 1200.0] {
        let sizes_at = hot_sizes(&design, celsius).expect("a heat that is known");
        let readings = sizes_at.sizes.iter().map(|size| Reading {
            dim: size.dim,
            size: size.hot.into(),
            celsius: Some(celsius),
        });
        let readings: Vec<Reading> = readings.collect();
        let taken = of(&design, &sizes(&readings)).taken;
        for size in sizes_at.sizes {
            let off = number(&taken.design, &size.dim.to_string()) - size.cold.in_mm();
            assert!(off.abs() < 1e-9, "{} at {celsius}: {off}", size.dim);
            assert!(!taken.design.is_free(size.dim), "{} is locked", size.dim);
        }
    }
}

#[test]
fn a_head_in_a_cold_shop_is_cold() {
    let design = held();
    let [shop, said] = [Some(-5.0), None].map(|celsius| {
        let reading = Reading {
            celsius,
            ..cold("cheeks.width", 42.7)
        };
        of(&design, &sizes(&[reading])).mass
    });
    assert_eq!(shop, said);
}

#[test]
fn of_several_readings_of_a_size_the_last_counts() {
    let design = held();
    let twice = of(
        &design,
        &sizes(&[
            cold("front.reach", 60.0),
            hot("front.reach", 55.0, 900.0),
            cold("front.reach", 53.5),
        ]),
    );
    assert_eq!(twice, of(&design, &sizes(&[cold("front.reach", 53.5)])));
}

#[test]
fn a_height_that_follows_its_width_is_its_own_when_it_is_measured() {
    let design = held();
    assert_eq!(design.size(dim("front.face.height")), None);
    let taken = of(&design, &sizes(&[cold("front.face.height", 38.0)])).taken;
    assert_eq!(number(&taken.design, "front.face.height"), 38.0);
    assert_eq!(number(&taken.design, "front.face.width"), 39.0);
    let taken = of(&design, &sizes(&[cold("front.face.width", 38.0)])).taken;
    assert_eq!(taken.design.size(dim("front.face.height")), None);
}

#[test]
fn a_size_that_the_design_does_without_is_there_when_it_is_measured() {
    let design = held();
    let taken = of(&design, &sizes(&[cold("cheeks.swell", 1.5)])).taken;
    assert_eq!(number(&taken.design, "cheeks.swell"), 1.5);
    assert!(weigh(&taken.design).mass > weigh(&design).mass);
}

#[test]
fn the_fellow_of_a_measured_size_stays_free_if_it_was() {
    let mut design = held();
    let range = Range::new(Length::mm(30.0), Length::mm(45.0));
    design.free.insert(dim("front.face.width"), range);
    for (measured, fellow) in [
        ("front.face.width", "back.face.width"),
        ("back.face.width", "front.face.width"),
    ] {
        let taken = of(&design, &sizes(&[cold(measured, 38.5)])).taken.design;
        assert_eq!(number(&taken, fellow), 39.0);
        assert_eq!(taken.range(dim(fellow)), Some(range), "{fellow}");
        assert_eq!(taken.range(dim(measured)), None, "{measured}");
    }
}

#[test]
fn what_is_still_to_be_lost_is_no_part_of_the_finished_weight() {
    let design = held();
    let billet = {
        let solid = design.build().expect("sound");
        let weighed = weigh(&design);
        headwright::bar::billet(
            &headwright::mass::causes(&solid, &weighed),
            design.density,
            &design.bar,
        )
        .expect("a bar in order")
    };
    let slug = billet
        .losses
        .iter()
        .find(|loss| loss.kind == LossKind::Slug)
        .expect("a slug");
    let readings = Readings {
        sizes: Vec::new(),
        weighed: Some(Weighing {
            mass: Mass::kg(1.3),
            to_come: vec![(LossKind::Slug, 0.25)],
        }),
    };
    let by_scale = of(&design, &readings).by_scale.expect("it was weighed");
    assert!((by_scale.value - (1.3 - 0.25 * slug.mass_kg)).abs() < 1e-12);
    let scale = 0.001 / 3.0_f64.sqrt();
    assert!((by_scale.spread - scale.hypot(0.25 * slug.spread_kg)).abs() < 1e-12);
}

#[track_caller]
fn check_refused(readings: &Readings, expected: &str) {
    let design = held();
    let told: Vec<String> = refused(&design, readings)
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(told.join(" "), expected);
}

#[test]
fn what_cannot_be_is_refused_in_a_sentence() {
    check_refused(
        &Readings::default(),
        "Nothing was measured and nothing weighed. Give a size or a weight.",
    );
    check_refused(
        &sizes(&[cold("front.ball.diameter", 30.0)]),
        "The head has no front ball diameter, so it can’t be measured.",
    );
    let angle = Reading {
        size: Angle::degrees(3.0).into(),
        ..cold("front.reach", 1.0)
    };
    check_refused(
        &sizes(&[angle]),
        "The front face offset is a length, but was measured as 3°.",
    );
    check_refused(
        &sizes(&[
            cold("front.reach", f64::NAN),
            hot("cheeks.width", 43.0, 1300.0),
        ]),
        "The front face offset was measured as NaN mm. It must be at least −1000 mm and at most 1000 mm. The cheek width \
         was measured at 1300 °C, at which the growth of steel is not known. It must be at least −50 °C and at most 1200 °C.",
    );
    check_refused(
        &Readings {
            sizes: Vec::new(),
            weighed: weighed(-3.0),
        },
        "The head was weighed as −0.003 kg. It must be at least 0.001 kg and at most 200 kg.",
    );
    let weighing = |grams: f64, share: f64| Readings {
        sizes: Vec::new(),
        weighed: Some(Weighing {
            mass: Mass::grams(grams),
            to_come: vec![(LossKind::Slug, share)],
        }),
    };
    check_refused(
        &weighing(1200.0, 1.5),
        "Of “slug” the share 1.5 is said to come. It must be at least 0 and at most 1.",
    );
    check_refused(
        &weighing(5.0, 1.0),
        "The head weighs 5.0 g, and 9.5 g of it are still to be lost: nothing is left. Look whether it was weighed at \
         that step.",
    );
}

#[test]
fn sizes_that_no_head_has_are_refused_with_the_reason() {
    let design = held();
    let errors = refused(&design, &sizes(&[cold("cheeks.width", 20.0)]));
    let [ReadingError::Unsound(reasons)] = errors.as_slice() else {
        panic!("{errors:?}");
    };
    assert!(
        errors[0]
            .to_string()
            .starts_with("No head has the sizes that were measured: ")
    );
    assert!(!reasons.is_empty());
}

#[test]
fn how_far_off_something_may_be_has_limits() {
    let design: Design = held();
    let off = Precision {
        cold: Length::mm(0.0),
        angle: Angle::degrees(f64::NAN),
        ..precision(&design)
    };
    let readings = sizes(&[cold("cheeks.width", 42.0)]);
    let errors = forged(&design, &readings, &off).expect_err("no caliper is exact");
    let told: Vec<String> = errors.iter().map(ToString::to_string).collect();
    assert_eq!(
        told,
        [
            "How far off a cold caliper may be is said to be 0 mm. It must be at least 0.001 mm and at most 20 mm.",
            "How far off a measured angle may be is said to be NaN°. It must be at least 0.01° and at most 45°.",
        ]
    );
}

#[test]
fn an_angle_stays_what_it_is_at_any_heat() {
    let design = held();
    let lean = Reading {
        dim: dim("front.drop"),
        size: Measure::from(Angle::degrees(1.5)),
        celsius: Some(1000.0),
    };
    let taken = of(&design, &sizes(&[lean])).taken;
    assert_eq!(number(&taken.design, "front.drop"), 1.5);
}

/// Numbers that somebody may type, and some that nobody would.
fn numbers() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => 0.0..80.0,
        1 => -1e4..1e4,
        1 => prop::sample::select(vec![0.0, -0.0, 1e-300, 1e300, f64::NAN, f64::INFINITY]),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_readings_of_any_head_are_answered_or_refused_in_sentences(
        design in common::sound_designs(),
        read in prop::collection::vec((any::<prop::sample::Index>(), numbers(), prop::option::of(-100.0..1500.0)), 0..4),
        (mass, share) in (prop::option::of(numbers()), -0.2..1.2),
        (held, rest) in (prop::option::of(0.2..3.0), 0usize..3),
    ) {
        let all = design.sizes();
        let read = read.into_iter().map(|(which, number, celsius)| {
            let (dim, size) = all[which.index(all.len())];
            Reading { dim, size: size.with_number(number), celsius }
        });
        let readings = Readings {
            sizes: read.collect(),
            weighed: mass.map(|kg| Weighing {
                mass: Mass::kg(kg / 40.0),
                to_come: vec![(LossKind::Slug, share), (LossKind::Grinding, 1.0)],
            }),
        };
        let hold = held.map(|kg| Hold::AtMost { most: Amount::Mass(Mass::kg(kg)) });
        let design = design.apply(Edit::Hold(Quantity::Mass, hold));
        let precision = precision(&design);
        let sentences = match forged(&design, &readings, &precision) {
            Ok(forged) => {
                prop_assert!(forged.mass.value.is_finite() && forged.mass.spread.is_finite());
                prop_assert!(forged.balance.value.is_finite() && forged.balance.spread.is_finite());
                prop_assert!(forged.taken.design.build().is_ok());
                forged.sentences(System::Imperial)
            }
            Err(errors) => errors.iter().map(|error| error.sentence(System::Imperial)).collect(),
        };
        let rest = [Rest::AsItIs, Rest::InProportion, Rest::ToWeight][rest];
        let more = match existing(&design, &readings, &precision, rest) {
            Ok(existing) => {
                prop_assert!(existing.design.build().is_ok());
                prop_assert!(existing.explanations.iter().all(|it| it.times.is_finite()));
                existing.sentences(System::Metric)
            }
            Err(errors) => errors.iter().map(|error| error.sentence(System::Metric)).collect(),
        };
        for sentence in sentences.iter().chain(&more) {
            prop_assert!(sentence.ends_with('.') && sentence.len() > 20, "{}", sentence);
        }
        prop_assert!(!sentences.is_empty() && !more.is_empty());
    }
}
