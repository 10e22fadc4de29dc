//! The list of steps is the smith's to change.

use expect_test::expect;
use headwright::log::{Build, LogError, MOST_STEPS, StepEdit, Weight, What};

use super::{build, id, with};

fn names(build: &Build) -> Vec<&str> {
    build.steps.iter().map(|step| step.name.as_str()).collect()
}

fn add(place: usize, name: &str) -> StepEdit {
    StepEdit::Add {
        place,
        name: name.to_owned(),
        weight: Weight::Same,
    }
}

#[test]
fn steps_are_added_renamed_moved_and_removed_and_keep_what_happened() {
    let mut build = with(
        build(),
        &[("punch", 0, What::Start), ("punch", 9, What::Stop)],
    );
    let punch = id(&build, "punch");
    let edits = [
        StepEdit::Rename {
            step: punch,
            name: "slit".to_owned(),
        },
        StepEdit::Move {
            step: punch,
            place: 0,
        },
        add(1, "straighten"),
        add(999, "pack"),
        StepEdit::Remove {
            step: id(&build, "cut"),
        },
        StepEdit::Target {
            step: punch,
            minutes: Some(12.0),
        },
        // No such step: nothing happens.
        StepEdit::Remove { step: 77 },
    ];
    for edit in edits {
        build.edit(edit).expect("a list that can be");
    }
    assert_eq!(names(&build)[..3], ["slit", "straighten", "forge to size"]);
    assert_eq!(names(&build).last(), Some(&"pack"));
    let story = build.story();
    assert_eq!(story.steps[0].minutes, 9.0);
    assert_eq!(story.steps[0].target_minutes, Some(12.0));
    assert_eq!(story.notes, []);
}

#[test]
fn a_new_step_never_takes_what_happened_at_another() {
    let mut build = with(build(), &[("handle", 0, What::Heats { count: 2 })]);
    let step = id(&build, "handle");
    build.edit(StepEdit::Remove { step }).expect("fewer steps");
    build.edit(add(999, "pack")).expect("one more");
    assert_ne!(id(&build, "pack"), step);
    assert_eq!(build.story().heats, 2);
}

#[track_caller]
fn check_refused(build: &mut Build, edit: StepEdit, expected: &str) {
    let before = build.clone();
    let error: LogError = build.edit(edit).expect_err("cannot be");
    assert_eq!(error.to_string(), expected);
    assert_eq!(*build, before);
}

#[test]
fn a_list_that_cannot_be_is_refused_and_left_as_it_was() {
    let mut build = build();
    check_refused(&mut build, add(0, " "), "Step 1 has no name. Give it one.");
    check_refused(
        &mut build,
        add(1, &"é".repeat(61)),
        "The name of step 2 has 61 characters. Shorten it to at most 60.",
    );
    let target = StepEdit::Target {
        step: 3,
        minutes: Some(f64::INFINITY),
    };
    check_refused(
        &mut build,
        target,
        "Step 3 is to take inf min. It must be at least 0 min and at most 100000 min.",
    );
    while build.steps.len() < MOST_STEPS {
        build.edit(add(0, "again")).expect("room for one more");
    }
    expect!["The build has 41 steps. Keep at most 40."]
        .assert_eq(&build.edit(add(0, "again")).expect_err("full").to_string());
}
