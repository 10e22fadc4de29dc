//! Where the minutes go, and the learning curve.

use approx::assert_relative_eq;
use expect_test::expect;
use headwright::log::minutes::{Curve, LEAST_BUILDS, NoCurve, Trend, curve, minutes};
use headwright::log::{Build, Outcome, StepEdit, What};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::random::builds;
use super::{build, id, with};

/// The `number`th build, which took these minutes to forge and to grind.
fn took(number: u64, forge: f64, grind: f64) -> Build {
    let typed = |minutes| What::Minutes { minutes };
    let build = with(
        build(),
        &[
            ("forge to size", 0, typed(forge)),
            ("grind", 1, typed(grind)),
        ],
    );
    Build {
        id: format!("build-{number}"),
        begun: build.begun + number,
        outcome: Outcome::Finished,
        ..build
    }
}

#[test]
fn minutes_are_told_by_step_and_by_build_against_their_target() {
    let mut first = took(1, 60.0, 90.0);
    let mut second = took(2, 40.0, 60.0);
    for (build, target) in [(&mut first, 50.0), (&mut second, 45.0)] {
        let step = id(build, "forge to size");
        let minutes = Some(target);
        build
            .edit(StepEdit::Target { step, minutes })
            .expect("a list");
    }
    let told = minutes(&[second, first]);
    let numbers: Vec<u32> = told.builds.iter().map(|build| build.number).collect();
    assert_eq!(numbers, [1, 2]);
    assert_eq!(told.builds[0].minutes, 150.0);
    assert_eq!(told.builds[0].target_minutes, Some(50.0));
    assert_eq!(told.builds[0].over_minutes, Some(10.0));
    assert_eq!(told.builds[1].over_minutes, Some(-5.0));
    let step = |name: &str| {
        told.steps
            .iter()
            .find(|step| step.name == name)
            .expect("a step")
    };
    let forge = step("forge to size");
    assert_eq!(
        (forge.builds, forge.minutes, forge.mean_minutes),
        (2, 100.0, 50.0)
    );
    assert_eq!(forge.target_minutes, Some(45.0));
    assert_eq!(forge.percent, 40.0);
    let punch = step("punch");
    assert_eq!(
        (punch.builds, punch.mean_minutes, punch.target_minutes),
        (0, 0.0, None)
    );
}

/// The unit curve of 85 % with 100 h for the first takes 33.96796 h for the hundredth: B. Boehmke, learningCurve (an R
/// package), the example of `unit_curve`, as read in its documentation.
#[test]
fn a_published_curve_is_found_again_and_foretells_what_is_published() {
    let points = [1, 2, 5, 9, 14, 30].map(|n| (n, 100.0 * f64::from(n).powf(0.85f64.log2())));
    let drawn = curve(&points, 100).expect("six builds");
    assert_relative_eq!(drawn.rate, 0.85, max_relative = 1e-12);
    assert_relative_eq!(drawn.first_minutes, 100.0, max_relative = 1e-12);
    assert_relative_eq!(drawn.next_minutes, 33.96796, epsilon = 5e-6);
    assert_eq!(drawn.trend(), Trend::Faster);
}

/// S. Nahmias, Production and Operations Analysis, the example of learning curves by least squares: the data as read in
/// course notes (Lesson 10a, Learning Curve, coursehero.com/file/238836), the text's answer ln Y = 3.1301 − 0.42276·ln u
/// from memory.
#[test]
fn a_worked_example_of_a_text_comes_out_as_in_the_text() {
    let hours = [
        (10, 9.22),
        (25, 4.85),
        (100, 3.8),
        (250, 2.44),
        (500, 1.7),
        (1000, 1.03),
        (5000, 0.6),
        (10_000, 0.5),
    ];
    let drawn = curve(&hours, 20_000).expect("eight units");
    assert_relative_eq!(drawn.exponent, -0.42276, epsilon = 5e-6);
    assert_relative_eq!(drawn.first_minutes.ln(), 3.1301, epsilon = 5e-5);
}

/// Minutes with gaps between the numbers.
const TOOK: [(u32, f64); 7] = [
    (1, 412.0),
    (2, 371.0),
    (3, 390.0),
    (5, 288.0),
    (6, 301.0),
    (8, 262.0),
    (9, 270.0),
];

/// Against `scipy.stats.linregress(log(n), log(T))` and `scipy.stats.t.isf(0.05, 5)`, SciPy 1.17.1.
#[test]
fn the_curve_is_the_regression_of_another_library() {
    let drawn = curve(&TOOK, 10).expect("seven builds");
    let expected = Curve {
        builds: 7,
        first_minutes: 433.20998786016867,
        exponent: -0.21736331465986872,
        exponent_error: 0.03761379329694705,
        rate: 0.8601359948295383,
        rate_range: [0.8161142693389147, 0.9065322803394856],
        off_factor: 1.076382809834172,
        explained: 0.8697738708079403,
        chance: 0.0021826026656543017,
        next: 10,
        next_minutes: 262.624444180653,
        next_range: [220.65227486376313, 312.58050126055537],
    };
    for (ours, theirs) in [
        (drawn.first_minutes, expected.first_minutes),
        (drawn.exponent, expected.exponent),
        (drawn.exponent_error, expected.exponent_error),
        (drawn.rate, expected.rate),
        (drawn.rate_range[0], expected.rate_range[0]),
        (drawn.rate_range[1], expected.rate_range[1]),
        (drawn.off_factor, expected.off_factor),
        (drawn.explained, expected.explained),
        (drawn.chance, expected.chance),
        (drawn.next_minutes, expected.next_minutes),
        (drawn.next_range[0], expected.next_range[0]),
        (drawn.next_range[1], expected.next_range[1]),
    ] {
        assert_relative_eq!(ours, theirs, max_relative = 1e-10);
    }
    assert_eq!((drawn.builds, drawn.next), (expected.builds, expected.next));
}

#[test]
fn a_curve_says_how_sure_it_is() {
    expect!["Every doubling of the number leaves 86 % of the time (between 82 % and 91 % with nine chances of ten, by 7 builds). Build 10 will take 263 min, with nine chances of ten between 221 min and 313 min."]
        .assert_eq(&curve(&TOOK, 10).expect("seven builds").to_string());
    let slower = TOOK.map(|(n, minutes)| (n, 90_000.0 / minutes));
    expect!["The work becomes slower: every doubling of the number makes 116 % of the time (between 110 % and 123 % with nine chances of ten, by 7 builds). Build 10 will take 343 min, with nine chances of ten between 288 min and 408 min."]
        .assert_eq(&curve(&slower, 10).expect("seven builds").to_string());
    let wild = [(1, 200.0), (2, 260.0), (3, 170.0), (4, 240.0), (5, 205.0)];
    let wild = curve(&wild, 6).expect("five builds");
    assert_eq!(wild.trend(), Trend::None);
    expect!["No trend can be told yet from 5 builds: every doubling of the number leaves between 78 % and 128 % of the time, with nine chances of ten. Build 6 will take 213 min, with nine chances of ten between 120 min and 379 min."]
        .assert_eq(&wild.to_string());
}

#[test]
fn builds_that_took_alike_have_a_flat_curve_and_no_trend() {
    let flat = curve(&[1, 2, 3, 4, 5].map(|n| (n, 200.0)), 6).expect("five builds");
    assert_eq!(flat.trend(), Trend::None);
    assert_relative_eq!(flat.next_minutes, 200.0, max_relative = 1e-12);
    assert_eq!((flat.explained, flat.chance), (0.0, 1.0));
}

#[test]
fn a_curve_is_drawn_only_through_enough_finished_builds_but_all_are_practice() {
    let mut builds: Vec<Build> = (1..=6).map(|n| took(n, 100.0 - n as f64, 80.0)).collect();
    builds[1].outcome = Outcome::Spoiled;
    builds[3].outcome = Outcome::Open;
    let told = minutes(&builds);
    let numbers: Vec<u32> = told.finished().iter().map(|(number, _)| *number).collect();
    assert_eq!(numbers, [1, 3, 5, 6]);
    let refused = told.curve().expect_err("too few");
    assert_eq!(refused, NoCurve::TooFew(4));
    expect![
        "A learning curve is drawn through at least 5 finished builds with minutes; there are 4."
    ]
    .assert_eq(&refused.to_string());
    builds[3].outcome = Outcome::Finished;
    let drawn = minutes(&builds).curve().expect("enough");
    assert_eq!((drawn.builds, drawn.next), (LEAST_BUILDS, 7));
}

#[test]
fn builds_with_numbers_close_together_have_no_curve() {
    let took = [200.0, 260.0, 170.0, 240.0, 205.0];
    let from = |first: u32| {
        let points: Vec<(u32, f64)> = (first..).zip(took).collect();
        curve(&points, first + 5)
    };
    assert!(from(1).is_ok());
    let refused = from(90).expect_err("too close");
    assert_eq!(refused, NoCurve::TooClose(5));
    expect!["No learning curve can be told yet from these 5 builds: their numbers lie too close together for minutes that are so unlike."]
        .assert_eq(&refused.to_string());
    // However sure the line is, nothing leaves a billionth of the time at every doubling.
    let steep = [0.0, 1.0, 2.0, 3.0, 4.0].map(|n: f64| (1_000 + n as u32, 300.0 - n));
    assert!(curve(&steep, 1_005).is_ok());
    let steep = steep.map(|(n, minutes)| (n, minutes.powi(9)));
    assert_eq!(curve(&steep, 1_005), Err(NoCurve::TooClose(5)));
    // Beyond what doubles hold.
    assert_eq!(from(4_000_000_000), Err(NoCurve::TooClose(5)));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::default() })]

    #[test]
    fn every_number_of_a_curve_is_one(
        first in 1u32..3_000_000_000,
        gaps in prop::collection::vec(1u32..9, 5..12),
        took in prop::collection::vec(0.1..100_000.0, 12),
        alike in 0.0..1.0,
        early in any::<bool>(),
    ) {
        let mut number = if early { first % 9 } else { first };
        let points: Vec<(u32, f64)> = gaps.iter().zip(took).map(|(gap, minutes): (&u32, f64)| {
            number += gap;
            (number, minutes.powf(alike))
        }).collect();
        match curve(&points, number + 1) {
            Ok(curve) => {
                let json = serde_json::to_string(&curve).expect("JSON");
                prop_assert!(!json.contains("null"), "{}", json);
                prop_assert!(curve.rate_range.iter().all(|rate| (0.01..=100.0).contains(rate)));
            }
            Err(none) => prop_assert_eq!(none, NoCurve::TooClose(points.len())),
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::default() })]

    #[test]
    fn minutes_of_steps_and_of_builds_add_up_to_the_same(builds in prop::collection::vec(builds(), 0..6)) {
        let told = minutes(&builds);
        let by_step: f64 = told.steps.iter().map(|step| step.minutes).sum();
        let by_build: f64 = told.builds.iter().map(|build| build.minutes).sum();
        prop_assert!((by_step - by_build).abs() <= 1e-9 * by_build);
        let percent: f64 = told.steps.iter().map(|step| step.percent).sum();
        prop_assert!(by_build == 0.0 || (percent - 100.0).abs() < 1e-9);
    }

    /// Hours in the place of minutes scale the first and the next, and nothing else.
    #[test]
    fn the_curve_hangs_on_ratios_alone(took in prop::collection::vec(1.0..1000.0, 5..20), scale in 0.01..100.0) {
        let numbered = |scale: f64| {
            let points: Vec<(u32, f64)> = (1..).zip(took.iter().map(|minutes| minutes * scale)).collect();
            curve(&points, 30)
        };
        let (a, b) = match (numbered(1.0), numbered(scale)) {
            (Ok(a), Ok(b)) => (a, b),
            (a, b) => {
                // Minutes so wild that there is none, or there would be none to compare.
                prop_assert_eq!(a.err(), Some(NoCurve::TooClose(took.len())));
                prop_assert_eq!(b.err(), Some(NoCurve::TooClose(took.len())));
                return Ok(());
            }
        };
        prop_assert!((a.rate / b.rate - 1.0).abs() < 1e-9);
        prop_assert!((a.chance - b.chance).abs() < 1e-9);
        prop_assert!((a.next_range[1] * scale / b.next_range[1] - 1.0).abs() < 1e-8);
        prop_assert!(a.next_range[0] <= a.next_minutes && a.next_minutes <= a.next_range[1]);
    }
}
