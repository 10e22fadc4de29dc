//! What is learned of losses from weighings.

use approx::assert_relative_eq;
use expect_test::{Expect, expect};
use headwright::bar::{Bar, Causes, Certainty, Loss, LossAmount, LossKind};
use headwright::log::losses::{FAR_OUT, Learned, LearnedLine, RANGE_SHARE, learn};
use headwright::log::{Build, StepEdit, Verdict, Weight, What};
use headwright::mass::{causes, mass_properties};
use headwright::units::{Mass, System};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use statrs::distribution::{ContinuousCDF, StudentsT};

use super::random::builds;
use super::{build, grams, id, with};

#[track_caller]
fn line(learned: &Learned, kind: LossKind) -> &LearnedLine {
    let line = learned.lines.iter().find(|line| line.kind == kind);
    line.expect("a line of every kind")
}

/// The published expected amount and spread of a kind.
fn published(kind: LossKind) -> [f64; 2] {
    let usual = Loss::usual();
    let line = usual.iter().find(|line| line.kind == kind);
    line.map_or([0.0; 2], |line| line.amount.numbers())
}

/// The build's head, and what it has that causes losses.
fn of_head(build: &Build) -> Causes {
    let solid = build.design.build().expect("sound");
    causes(&solid, &mass_properties(&solid))
}

/// kg that a mm off the surface takes.
fn kg_per_mm_of_surface(build: &Build) -> f64 {
    of_head(build).surface_mm2 * 7.85e-6
}

/// The `number`th build, with these grams lost in hardening alone.
fn hardened(number: u64, lost: f64) -> Build {
    let build = with(
        build(),
        &[
            ("forge cheeks and ends", 0, grams(1240.0)),
            ("temper", 50, grams(1240.0 - lost)),
        ],
    );
    Build {
        id: format!("build-{number}"),
        begun: build.begun + number,
        ..build
    }
}

#[test]
fn with_no_builds_every_line_is_as_published() {
    let learned = learn(&[]);
    let kinds: Vec<LossKind> = learned.lines.iter().map(|line| line.kind).collect();
    assert_eq!(kinds, LossKind::ALL);
    for line in &learned.lines {
        let [mean, spread] = published(line.kind);
        assert_eq!((line.mean, line.builds), (mean, 0));
        assert_relative_eq!(line.spread, spread, max_relative = 1e-14);
        assert_eq!(line.source(), "as published: not weighed yet");
    }
    assert_eq!(learned.bar(&Bar::default()), Bar::default());
}

/// The closed forms for all weighings at once, ranges from another library's Student's t.
#[test]
fn a_line_weighed_alone_has_the_conjugate_estimate() {
    let lost = [5.2, 8.4, 6.9, 4.1, 7.7];
    let builds: Vec<Build> = (1..).zip(lost).map(|(n, lost)| hardened(n, lost)).collect();
    let unit = kg_per_mm_of_surface(&builds[0]);
    let xs = lost.map(|grams| grams / 1000.0 / unit);
    let [mean, spread] = published(LossKind::HardeningScale);
    let n = xs.len() as f64;
    let average = xs.iter().sum::<f64>() / n;
    let squares: f64 = xs.iter().map(|x| (x - average).powi(2)).sum();
    // The default counts for two builds and four degrees of freedom, its variance that of the next head.
    let (builds_then, freedom) = (2.0 + n, 4.0 + n);
    let scale2 = spread * spread / (1.5 * 4.0 / 2.0);
    let sum = 4.0 * scale2 + squares + 2.0 * n / builds_then * (average - mean).powi(2);
    let scale = (sum / freedom).sqrt();
    let learned = learn(&builds);
    let line = line(&learned, LossKind::HardeningScale);
    let expected = (2.0 * mean + n * average) / builds_then;
    assert_relative_eq!(line.mean, expected, max_relative = 1e-12);
    let of_student = (freedom / (freedom - 2.0)).sqrt();
    let next = scale * (1.0 + 1.0 / builds_then).sqrt();
    assert_relative_eq!(line.spread, next * of_student, max_relative = 1e-12);
    assert_relative_eq!(
        line.mean_spread,
        scale / builds_then.sqrt() * of_student,
        max_relative = 1e-12
    );
    let student = StudentsT::new(expected, next, freedom).expect("a distribution");
    for (end, share) in line
        .range
        .into_iter()
        .zip([0.5 - RANGE_SHARE / 2.0, 0.5 + RANGE_SHARE / 2.0])
    {
        assert_relative_eq!(student.cdf(end), share, max_relative = 1e-9);
    }
    assert_eq!((line.builds, line.alone), (5, 5));
    assert!(learned.questions.is_empty() && learned.unused.is_empty());
    assert_eq!(
        line.source(),
        "weighed in 5 builds; learned from the published default on"
    );
}

#[test]
fn a_range_ends_where_the_line_may_not_go_on() {
    let range = |lost: &[f64]| {
        let builds = (1..).zip(lost).map(|(number, lost)| {
            let mut build = hardened(number, *lost);
            // All count, however far out.
            for event in &mut build.events {
                if let What::Weighed { verdict, .. } = &mut event.what {
                    *verdict = Some(Verdict::Counts);
                }
            }
            build
        });
        let learned = learn(&builds.collect::<Vec<Build>>());
        let line = line(&learned, LossKind::HardeningScale);
        (line.mean, line.spread, line.range)
    };
    let (mean, spread, [least, most]) = range(&[0.5, 30.0, 0.5, 30.0]);
    assert!(mean < 1.5 * spread, "{mean} ± {spread}");
    assert_eq!(least, 0.0);
    assert!(most > mean, "{mean} to {most}");
    // A range that lies within is as wide below as above.
    let (mean, _, [least, most]) = range(&[6.0, 6.5, 6.0, 6.5, 6.0, 6.5]);
    assert!(least > 0.0);
    assert_relative_eq!(mean - least, most - mean, max_relative = 1e-9);
}

#[test]
fn the_order_in_which_builds_stand_in_the_log_does_not_matter() {
    let mut builds: Vec<Build> = (1..)
        .zip([5.2, 8.4, 3.9])
        .map(|(n, lost)| hardened(n, lost))
        .collect();
    let learned = learn(&builds);
    builds.rotate_left(1);
    assert_eq!(learn(&builds), learned);
}

#[test]
fn evidence_from_one_head_counts_for_another_by_its_surface() {
    let small = hardened(1, 6.0);
    let mut large = small.clone();
    large.design = headwright::design::starter("light").expect("a starter");
    let ratio = kg_per_mm_of_surface(&large) / kg_per_mm_of_surface(&small);
    assert!((ratio - 1.0).abs() > 0.02, "the two heads have one surface");
    let moved = |build: Build| {
        let learned = learn(&[build]);
        line(&learned, LossKind::HardeningScale).mean - published(LossKind::HardeningScale)[0]
    };
    // 3·mean' = 2·mean + grams / unit: what is added to the mean goes by 1 / surface.
    let [mean, _] = published(LossKind::HardeningScale);
    let of = |build: Build| 3.0 * moved(build) + mean;
    assert_relative_eq!(of(small) / of(large), ratio, max_relative = 1e-9);
}

#[test]
fn weighed_from_cut_to_temper_all_lines_of_the_fire_move_by_their_share() {
    let weighed = with(
        build(),
        &[("cut", 0, grams(1422.0)), ("temper", 9, grams(1290.0))],
    );
    let learned = learn(std::slice::from_ref(&weighed));
    assert!(learned.questions.is_empty() && learned.unused.is_empty());
    let mut moved_kg = 0.0;
    let mut expected_kg = 0.0;
    let (design, causes) = (&weighed.design, of_head(&weighed));
    for line in &learned.lines {
        let in_fire = !line.kind.is_after_forging();
        assert_eq!(
            (line.builds, line.alone),
            (u32::from(in_fire), 0),
            "{:?}",
            line.kind
        );
        if in_fire {
            let per_unit =
                line.published
                    .amount
                    .kg_per_unit(&causes, design.density, design.bar.section);
            let [mean, spread] = published(line.kind);
            expected_kg += mean * per_unit;
            moved_kg += (line.mean - mean) * per_unit;
            assert!((line.mean - mean).abs() < spread);
        }
    }
    // All have the same number of builds behind them, so that the sum moves as one line would: by a third.
    assert_relative_eq!(moved_kg, (0.132 - expected_kg) / 3.0, max_relative = 1e-9);
}

#[test]
fn heats_that_were_counted_count_in_the_place_of_those_planned() {
    let events = [
        ("cut", 0, grams(1422.0)),
        ("forge to size", 1, What::Heats { count: 4 }),
        ("forge to size", 2, grams(1422.0 - 36.0)),
    ];
    let mut counted = with(build(), &events);
    // The scale of forging goes at that step alone.
    for step in ["punch", "drift", "forge cheeks and ends"] {
        let step = id(&counted, step);
        let weight = Weight::Same;
        counted
            .edit(StepEdit::Weight { step, weight })
            .expect("a list");
    }
    let mean = |build: &Build| {
        let learned = learn(std::slice::from_ref(build));
        assert_eq!(line(&learned, LossKind::ForgingScale).alone, 1);
        line(&learned, LossKind::ForgingScale).mean
    };
    let mut planned = counted.clone();
    planned.events.remove(1);
    let [before, _] = published(LossKind::ForgingScale);
    // Eight heats are planned: the same loss in four is twice the thickness.
    let thickness = |mean: f64| 3.0 * mean - 2.0 * before;
    assert_relative_eq!(
        thickness(mean(&counted)),
        2.0 * thickness(mean(&planned)),
        max_relative = 1e-9
    );
    // Heats that were counted at one of two steps are not all.
    let mut partly = counted.clone();
    let step = id(&partly, "punch");
    let weight = Weight::Loses(vec![LossKind::ForgingScale]);
    partly
        .edit(StepEdit::Weight { step, weight })
        .expect("a list");
    partly = with(partly, &[("punch", 3, grams(1422.0 - 36.0))]);
    let mut as_planned = partly.clone();
    as_planned.events.remove(1);
    assert_eq!(mean(&partly), mean(&as_planned));
    let per_heat = 4.0 * kg_per_mm_of_surface(&counted);
    assert_relative_eq!(
        thickness(mean(&counted)),
        0.036 / per_heat,
        max_relative = 1e-9
    );
}

#[track_caller]
fn check_unused(build: &Build, expected: &Expect) {
    let learned = learn(std::slice::from_ref(build));
    let [unused] = learned.unused.as_slice() else {
        panic!("{learned:?}");
    };
    expected.assert_eq(&unused.to_string());
    assert!(learned.lines.iter().all(|line| line.builds == 0));
}

#[test]
fn weighings_that_teach_nothing_are_said_with_the_reason() {
    check_unused(
        &with(
            build(),
            &[
                ("temper", 0, grams(1240.0)),
                ("bring to weight", 9, grams(1134.0)),
            ],
        ),
        &expect![
            "“Rounding hammer”, from “temper” to “bring to weight”, teaches nothing: what is ground off only to come to the target is no loss. Weigh before that, too."
        ],
    );
    check_unused(
        &with(
            build(),
            &[("cut", 0, grams(1422.0)), ("punch", 9, grams(1340.0))],
        ),
        &expect![
            "“Rounding hammer”, from “cut” to “punch”, teaches nothing: scale in forging goes at a step before the first or after the last weighing, too. Weigh before the first and after the last."
        ],
    );
    check_unused(
        &hardened(1, -7.0),
        &expect![
            "“Rounding hammer”, from “forge cheeks and ends” to “temper”, teaches nothing: the steel gained weight."
        ],
    );
    let mut unsound = hardened(1, 7.0);
    unsound.design.cheeks.length = headwright::units::Length::mm(2.0);
    check_unused(
        &unsound,
        &expect![
            "“Rounding hammer”, from “forge cheeks and ends” to “temper”, teaches nothing: the head that it was begun with, or its bar, can’t be worked out."
        ],
    );
    let mut plain = hardened(1, 7.0);
    for step in ["normalize", "harden", "temper"] {
        let (step, weight) = (id(&plain, step), Weight::Same);
        plain
            .edit(StepEdit::Weight { step, weight })
            .expect("a list");
    }
    check_unused(
        &plain,
        &expect![
            "“Rounding hammer”, from “forge cheeks and ends” to “temper”, teaches nothing: no step in between takes from the ledger."
        ],
    );
}

/// `build` with this answer to the question about its last weighing.
fn answered(mut build: Build, answer: Verdict) -> Build {
    for event in &mut build.events {
        if let What::Weighed { verdict, .. } = &mut event.what {
            *verdict = Some(answer);
        }
    }
    build
}

#[test]
fn a_loss_far_out_is_asked_about_and_counts_only_when_the_smith_says_so() {
    let far = hardened(1, 90.0);
    let learned = learn(std::slice::from_ref(&far));
    let [question] = learned.questions.as_slice() else {
        panic!("{learned:?}");
    };
    assert!(question.probability < FAR_OUT);
    assert_eq!(question.step, id(&far, "temper"));
    expect!["“Rounding hammer” lost 90.0 g from “forge cheeks and ends” to “temper” (scale in heat treatment), where 4.5 g was to be expected; so far out lies less than 1 head in 1000. Was it so? Until you say that it counts, it does not."]
        .assert_eq(&question.sentence(System::Metric));
    expect!["“Rounding hammer” lost 3.2 oz from “forge cheeks and ends” to “temper” (scale in heat treatment), where 0.2 oz was to be expected; so far out lies less than 1 head in 1000. Was it so? Until you say that it counts, it does not."]
        .assert_eq(&question.sentence(System::Imperial));
    let [mean, _] = published(LossKind::HardeningScale);
    assert_eq!(line(&learned, LossKind::HardeningScale).mean, mean);

    let counted = learn(&[answered(far.clone(), Verdict::Counts)]);
    assert!(counted.questions.is_empty());
    let learned = line(&counted, LossKind::HardeningScale);
    let x = 0.09 / kg_per_mm_of_surface(&far);
    assert_relative_eq!(learned.mean, (2.0 * mean + x) / 3.0, max_relative = 1e-9);

    let left_out = learn(&[answered(far, Verdict::LeftOut)]);
    assert!(left_out.questions.is_empty());
    expect!["“Rounding hammer”, from “forge cheeks and ends” to “temper”, teaches nothing: you left it out."]
        .assert_eq(&left_out.unused[0].to_string());
    assert_eq!(line(&left_out, LossKind::HardeningScale).builds, 0);
}

/// The probability is that of the predictive distribution, by another library.
#[test]
fn how_far_out_a_loss_lies_is_reckoned_from_the_predictive_distribution() {
    let far = hardened(1, 30.0);
    let learned = learn(std::slice::from_ref(&far));
    let [mean, spread] = published(LossKind::HardeningScale);
    let student = StudentsT::new(0.0, spread / 2f64.sqrt(), 4.0).expect("a distribution");
    let off = 0.03 / kg_per_mm_of_surface(&far) - mean;
    assert_relative_eq!(
        learned.questions[0].probability,
        2.0 * student.cdf(-off),
        max_relative = 1e-9
    );
}

#[test]
fn a_bar_takes_what_was_learned_and_keeps_the_rest_of_its_ledger() {
    let builds: Vec<Build> = (1..)
        .zip([5.2, 8.4, 6.9])
        .map(|(n, lost)| hardened(n, lost))
        .collect();
    let learned = learn(&builds);
    let before = Bar::default();
    let bar = learned.bar(&before);
    assert_eq!(bar.check(), []);
    for (old, new) in before.losses.iter().zip(&bar.losses) {
        if new.kind != LossKind::HardeningScale {
            assert_eq!(old, new);
            continue;
        }
        let line = line(&learned, new.kind);
        for (number, told) in new
            .amount
            .numbers()
            .into_iter()
            .zip([line.mean, line.spread])
        {
            assert_relative_eq!(number, told, max_relative = 1e-12);
        }
        assert_eq!(new.certainty, Certainty::Own);
        assert_eq!(
            new.source,
            "weighed in 3 builds; learned from the published default on"
        );
    }
}

#[test]
fn a_learned_line_keeps_the_heats_that_are_planned_and_takes_the_place_of_all_of_its_kind() {
    let mut bar = Bar::default();
    let planned = |loss: &mut Loss| {
        if let LossAmount::PerHeat { heats, .. } = &mut loss.amount {
            *heats = 13;
        }
    };
    bar.losses.iter_mut().for_each(planned);
    let again = Loss {
        amount: LossAmount::Mass {
            expected: Mass::grams(20.0),
            spread: Mass::grams(5.0),
        },
        ..bar.losses[1].clone()
    };
    bar.losses.push(again);
    let weighed = with(
        build(),
        &[("cut", 0, grams(1422.0)), ("temper", 9, grams(1290.0))],
    );
    let learned = learn(&[weighed]).bar(&bar);
    let kinds: Vec<LossKind> = learned.losses.iter().map(|loss| loss.kind).collect();
    assert_eq!(kinds, LossKind::ALL);
    let heats = learned.losses.iter().find_map(|loss| match loss.amount {
        LossAmount::PerHeat { heats, .. } => Some(heats),
        _ => None,
    });
    assert_eq!(heats, Some(13));
    assert_eq!(
        learned.losses[0].source,
        "weighed in 1 build, always together with other losses; learned from the published default on"
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::default() })]

    #[test]
    fn any_builds_teach_finite_numbers_and_a_bar_within_its_limits(builds in prop::collection::vec(builds(), 0..6)) {
        let learned = learn(&builds);
        for line in &learned.lines {
            let numbers = [line.mean, line.spread, line.mean_spread, line.range[0], line.range[1]];
            prop_assert!(numbers.iter().all(|number| number.is_finite()), "{:?}", line);
            prop_assert!(line.spread > 0.0 && line.alone <= line.builds);
        }
        for loss in learned.bar(&Bar::default()).losses {
            let bar = Bar { losses: vec![loss], ..Bar::default() };
            prop_assert_eq!(bar.check(), []);
        }
    }

    /// Whatever is weighed before and after hardening is counted, asked about or said to be unused: one of the three.
    #[test]
    fn nothing_weighed_is_dropped_silently(lost in prop::collection::vec(-20.0..120.0, 1..8)) {
        let builds: Vec<Build> = (1..).zip(&lost).map(|(n, lost)| hardened(n, *lost)).collect();
        let learned = learn(&builds);
        let counted = line(&learned, LossKind::HardeningScale).builds as usize;
        prop_assert_eq!(counted + learned.questions.len() + learned.unused.len(), lost.len());
    }
}
