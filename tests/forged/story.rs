//! Readings that a build has.

use headwright::bar::LossKind;
use headwright::log::{Build, Event, Verdict, What};
use headwright::units::{Length, Mass};

use super::{cold, dim, held, hot, of, sizes};

fn build(events: &[(&str, What)]) -> Build {
    let mut build = Build::begun("build-1", None, held(), 0);
    for (at, (name, what)) in (0..).zip(events) {
        let step = build.steps.iter().find(|step| step.name == *name);
        let step = step.expect("a step of that name").id;
        let what = what.clone();
        build
            .record(Event { step, at, what })
            .expect("a reading that can be");
    }
    build
}

fn measured(path: &str, mm: f64, celsius: Option<f64>) -> What {
    What::Measured {
        dim: dim(path),
        size: Length::mm(mm).into(),
        celsius,
    }
}

#[test]
fn what_a_build_measured_is_what_its_head_is_reckoned_by() {
    let build = build(&[
        (
            "forge to size",
            measured("cheeks.width", 44.0, Some(1050.0)),
        ),
        ("drift", measured("cheeks.width", 42.4, None)),
        (
            "forge cheeks and ends",
            measured("front.reach", 55.1, Some(900.0)),
        ),
    ]);
    let readings = build.story().readings;
    let expected = sizes(&[
        hot("cheeks.width", 44.0, 1050.0),
        cold("cheeks.width", 42.4),
        hot("front.reach", 55.1, 900.0),
    ]);
    assert_eq!(readings, expected);
    let forged = of(&build.design, &readings);
    assert_eq!(forged.taken.sizes.len(), 2);
}

#[test]
fn the_last_weighing_of_the_head_counts_with_what_goes_after_its_step() {
    let grams = |grams: f64| What::weighed(Mass::grams(grams));
    let left_out = What::Weighed {
        mass: Mass::grams(900.0),
        verdict: Some(Verdict::LeftOut),
    };
    let build = build(&[
        ("drift", grams(1310.0)),
        ("cut", grams(1422.0)),
        ("normalize", left_out),
        ("handle", grams(1600.0)),
    ]);
    let weighed = build.story().readings.weighed.expect("it was weighed");
    assert_eq!(weighed.mass, Mass::grams(1310.0));
    // Forging scale goes at four steps, one of them after drifting.
    assert_eq!(
        weighed.to_come,
        [
            (LossKind::ForgingScale, 0.25),
            (LossKind::HardeningScale, 1.0),
            (LossKind::Trimming, 1.0),
            (LossKind::Grinding, 1.0),
            (LossKind::Dressing, 1.0),
        ]
    );
}

#[test]
fn a_head_that_was_only_weighed_when_done_is_what_the_scale_shows() {
    let build = build(&[("bring to weight", What::weighed(Mass::grams(1131.0)))]);
    let readings = build.story().readings;
    assert_eq!(
        readings.weighed.as_ref().map(|it| it.to_come.len()),
        Some(0)
    );
    let forged = of(&build.design, &readings);
    // The scale is far surer than sizes that nobody measured.
    assert!(
        (forged.mass.value - 1.131).abs() < 0.001,
        "{:?}",
        forged.mass
    );
    assert!(forged.mass.spread < 0.001);
}
