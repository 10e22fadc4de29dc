//! The log: what was recorded is kept, and what follows from it is told.

use headwright::bar::LossKind;
use headwright::design::starter;
use headwright::log::{Build, Event, Weight, What};
use headwright::units::Mass;

mod common;
#[path = "log/file.rs"]
mod file;
#[path = "log/losses.rs"]
mod losses;
#[path = "log/minutes.rs"]
mod minutes;
#[path = "log/random.rs"]
mod random;
#[path = "log/said.rs"]
mod said;
#[path = "log/steps.rs"]
mod steps;
#[path = "log/csv.rs"]
mod table;

/// A morning on which builds begin, ms after 1970.
const MORNING: u64 = 1_772_611_200_000;

fn build() -> Build {
    let design = starter("rounding").expect("a starter");
    Build::begun("build-1", Some("entry-1".to_owned()), design, MORNING)
}

/// The id of the step of this name.
#[track_caller]
fn id(build: &Build, name: &str) -> u32 {
    let step = build.steps.iter().find(|step| step.name == name);
    step.expect("a step of that name").id
}

/// `build` with what happened at the steps of these names, so many minutes after the morning.
#[track_caller]
fn with(mut build: Build, events: &[(&str, i64, What)]) -> Build {
    for (step, minute, what) in events {
        let event = Event {
            step: id(&build, step),
            at: MORNING.saturating_add_signed(minute * 60_000),
            what: what.clone(),
        };
        build.record(event).expect("a reading that can be");
    }
    build
}

fn grams(grams: f64) -> What {
    What::weighed(Mass::grams(grams))
}

#[track_caller]
fn check_minutes(events: &[(&str, i64, What)], expected: &[(&str, f64)]) {
    let story = with(build(), events).story();
    let told = story.steps.iter().filter(|step| step.minutes > 0.0);
    let told: Vec<(&str, f64)> = told
        .map(|step| (step.name.as_deref().unwrap_or_default(), step.minutes))
        .collect();
    assert_eq!(told, expected);
    assert_eq!(story.notes, []);
}

#[test]
fn minutes_of_a_step_are_all_its_runs_together() {
    check_minutes(
        &[
            ("punch", 0, What::Start),
            ("punch", 12, What::Stop),
            ("drift", 20, What::Start),
            ("drift", 51, What::Stop),
            ("punch", 60, What::Start),
            ("punch", 63, What::Stop),
        ],
        &[("punch", 15.0), ("drift", 31.0)],
    );
}

#[test]
fn starting_a_step_ends_the_one_before() {
    check_minutes(
        &[
            ("punch", 0, What::Start),
            ("drift", 12, What::Start),
            ("drift", 20, What::Stop),
        ],
        &[("punch", 12.0), ("drift", 8.0)],
    );
}

#[test]
fn typed_minutes_stand_for_what_was_pressed_and_the_last_typed_count() {
    check_minutes(
        &[
            ("punch", 0, What::Start),
            ("punch", 12, What::Stop),
            ("punch", 500, What::Minutes { minutes: 45.0 }),
            ("punch", 510, What::Minutes { minutes: 35.5 }),
            ("grind", 520, What::Minutes { minutes: 50.0 }),
        ],
        &[("punch", 35.5), ("grind", 50.0)],
    );
}

#[test]
fn what_is_pressed_after_minutes_were_typed_adds_to_them() {
    check_minutes(
        &[
            ("punch", 0, What::Start),
            ("punch", 12, What::Stop),
            ("punch", 20, What::Minutes { minutes: 45.0 }),
            ("punch", 30, What::Start),
            ("punch", 37, What::Stop),
            ("drift", 40, What::Minutes { minutes: 5.0 }),
            ("drift", 40, What::Start),
            ("punch", 43, What::Start),
            ("punch", 44, What::Stop),
        ],
        &[("punch", 53.0), ("drift", 8.0)],
    );
}

#[test]
fn minutes_typed_while_the_step_runs_stand_for_what_has_run_until_then() {
    let typed = [
        ("punch", 0, What::Start),
        ("punch", 50, What::Minutes { minutes: 45.0 }),
    ];
    let story = with(build(), &typed).story();
    assert_eq!(story.minutes, 45.0);
    let punch = id(&build(), "punch");
    assert_eq!(story.open, Some((punch, MORNING + 50 * 60_000)));
    let mut stopped = typed.to_vec();
    stopped.push(("punch", 60, What::Stop));
    check_minutes(&stopped, &[("punch", 55.0)]);
    // Another step runs on untouched.
    check_minutes(
        &[
            ("punch", 0, What::Start),
            ("cut", 5, What::Minutes { minutes: 3.0 }),
            ("punch", 10, What::Stop),
        ],
        &[("cut", 3.0), ("punch", 10.0)],
    );
}

#[test]
fn typed_minutes_settle_what_was_said_of_a_step_that_was_left_running() {
    let left = [
        ("punch", 0, What::Start),
        ("punch", 800, What::Stop),
        ("drift", 900, What::Start),
        ("drift", 1700, What::Stop),
    ];
    assert_eq!(with(build(), &left).story().notes.len(), 2);
    let mut typed = left.to_vec();
    typed.push(("punch", 1710, What::Minutes { minutes: 40.0 }));
    let notes = with(build(), &typed).story().notes;
    let [note] = &notes[..] else {
        panic!("one note, of the other step: {notes:?}")
    };
    assert!(note.to_string().contains("drift"), "{note}");
}

#[test]
fn what_still_runs_is_told_and_is_in_no_sum() {
    let build = with(
        build(),
        &[
            ("punch", 0, What::Start),
            ("punch", 5, What::Stop),
            ("drift", 7, What::Start),
        ],
    );
    let story = build.story();
    assert_eq!(story.minutes, 5.0);
    assert_eq!(
        story.open,
        Some((id(&build, "drift"), MORNING + 7 * 60_000))
    );
}

#[test]
fn heats_add_up_by_step_and_in_all() {
    let build = with(
        build(),
        &[
            ("forge to size", 0, What::Heats { count: 1 }),
            ("punch", 1, What::Heats { count: 3 }),
            ("forge to size", 2, What::Heats { count: 2 }),
        ],
    );
    let story = build.story();
    let heats: Vec<u32> = story.steps.iter().map(|step| step.heats).collect();
    assert_eq!(heats[..4], [0, 3, 3, 0]);
    assert_eq!(story.heats, 6);
}

#[test]
fn weighings_are_losses_between_steps_however_late_they_are_typed() {
    let build = with(
        build(),
        &[
            ("drift", 90, grams(1310.0)),
            ("cut", 95, grams(1422.0)),
            ("temper", 300, grams(1240.0)),
            ("drift", 301, grams(1312.5)),
        ],
    );
    let losses = build.story().losses;
    let [first, second] = losses.as_slice() else {
        panic!("{losses:?}");
    };
    assert!((first.kg - 0.1095).abs() < 1e-12);
    assert_eq!(first.kinds, [LossKind::Slug, LossKind::ForgingScale]);
    assert!((second.kg - 0.0725).abs() < 1e-12);
    assert_eq!(
        second.kinds,
        [
            LossKind::ForgingScale,
            LossKind::HardeningScale,
            LossKind::Trimming
        ]
    );
    assert!(!second.to_target);
}

#[test]
fn what_is_ground_off_to_the_target_is_marked_and_a_tool_on_its_handle_is_no_gain() {
    let build = with(
        build(),
        &[
            ("temper", 0, grams(1240.0)),
            ("bring to weight", 10, grams(1134.0)),
            ("handle", 20, grams(1502.0)),
        ],
    );
    let story = build.story();
    assert_eq!(story.losses.len(), 1);
    assert!(story.losses[0].to_target);
    assert_eq!(story.tool, Some(Mass::grams(1502.0)));
    assert_eq!(story.notes, []);
}

#[test]
fn a_new_build_has_the_steps_of_the_work_in_its_order() {
    let build = build();
    let names: Vec<&str> = build.steps.iter().map(|step| step.name.as_str()).collect();
    assert_eq!(
        names,
        [
            "cut",
            "forge to size",
            "punch",
            "drift",
            "forge cheeks and ends",
            "normalize",
            "harden",
            "temper",
            "grind",
            "bring to weight",
            "handle"
        ]
    );
    assert_eq!(build.check(), Ok(()));
    // Every line of the ledger goes at some step, or no weighing could tell of it.
    for kind in LossKind::ALL {
        let goes =
            |weight: &Weight| matches!(weight, Weight::Loses(kinds) if kinds.contains(&kind));
        assert!(
            build.steps.iter().any(|step| goes(&step.weight)),
            "{kind:?}"
        );
    }
}
