//! What cannot be as it stands: each a sentence, and nothing is lost.

use expect_test::{Expect, expect};
use headwright::design::{Design, Edit, starter};
use headwright::log::{Build, Event, StepEdit, What};
use headwright::rack::Entry;
use headwright::units::{Mass, System};

use super::{build, grams, id, with};

#[track_caller]
fn check_said(build: &Build, expected: &Expect) {
    let notes = build.story().notes;
    let notes: Vec<String> = notes.iter().map(ToString::to_string).collect();
    expected.assert_eq(&notes.join("\n"));
}

#[test]
fn a_step_stopped_twice_is_said_and_the_first_stop_counts() {
    let build = with(
        build(),
        &[
            ("punch", 0, What::Start),
            ("punch", 9, What::Stop),
            ("punch", 11, What::Stop),
        ],
    );
    assert_eq!(build.story().minutes, 9.0);
    check_said(
        &build,
        &expect![
            "Entry 3 stops “punch”, which was not running. If time is missing, type the minutes of “punch”."
        ],
    );
}

#[test]
fn a_stop_of_another_step_leaves_the_one_that_runs_alone() {
    let build = with(
        build(),
        &[
            ("punch", 0, What::Start),
            ("drift", 3, What::Stop),
            ("punch", 9, What::Stop),
        ],
    );
    assert_eq!(build.story().minutes, 9.0);
    check_said(
        &build,
        &expect![
            "Entry 2 stops “drift”, which was not running. If time is missing, type the minutes of “drift”."
        ],
    );
}

#[test]
fn a_step_started_twice_is_said_and_the_first_start_counts() {
    let build = with(
        build(),
        &[
            ("punch", 0, What::Start),
            ("punch", 4, What::Start),
            ("punch", 9, What::Stop),
        ],
    );
    assert_eq!(build.story().minutes, 9.0);
    check_said(
        &build,
        &expect![
            "Entry 2 starts “punch”, which was running already; its time goes on from the first start."
        ],
    );
}

#[test]
fn time_that_runs_backwards_is_said_and_counts_nothing() {
    let build = with(
        build(),
        &[
            ("punch", 30, What::Start),
            ("punch", -28, What::Stop),
            ("drift", -20, What::Start),
            ("drift", -15, What::Stop),
        ],
    );
    assert_eq!(build.story().minutes, 5.0);
    check_said(
        &build,
        &expect![[r#"
            Entry 2 is 58 min earlier than the one before it: the clock was changed. If a step ran over it, type its minutes.
            Entry 2 ends “punch” before it began, so that no time of it counts. Type its minutes."#]],
    );
}

#[test]
fn a_step_left_running_overnight_is_asked_about() {
    let build = with(
        build(),
        &[
            ("grind", 0, What::Start),
            ("grind", 16 * 60 + 15, What::Stop),
        ],
    );
    check_said(
        &build,
        &expect!["“grind” ran for 16.3 h until entry 2. If it was left running, type its minutes."],
    );
}

#[test]
fn steel_that_gained_weight_is_said_in_either_system() {
    let build = with(
        build(),
        &[("cut", 0, grams(1180.0)), ("drift", 9, grams(1240.0))],
    );
    check_said(
        &build,
        &expect![
            "After “drift” the steel weighs 1.240 kg, but after “cut” it was 1.180 kg. Steel does not gain weight: weigh again, or mend the one that was misread."
        ],
    );
    let story = build.story();
    expect!["After “drift” the steel weighs 2 lb 11.7 oz, but after “cut” it was 2 lb 9.6 oz. Steel does not gain weight: weigh again, or mend the one that was misread."]
        .assert_eq(&story.notes[0].sentence(System::Imperial));
    assert!(story.losses[0].kg < 0.0);
}

#[test]
fn what_happened_at_a_step_that_was_taken_off_the_list_still_counts() {
    let mut build = with(
        build(),
        &[
            ("normalize", 0, What::Start),
            ("normalize", 40, What::Stop),
            ("normalize", 41, What::Heats { count: 3 }),
            ("harden", 50, What::Start),
            ("harden", 60, What::Stop),
        ],
    );
    let before = build.story();
    let step = id(&build, "normalize");
    build
        .edit(StepEdit::Remove { step })
        .expect("a list that can be");
    check_said(
        &build,
        &expect![
            "3 entries belong to step 6, which is no longer on the list: time and heats count in the sum, weights and losses do not."
        ],
    );
    let story = build.story();
    assert_eq!((story.minutes, story.heats), (before.minutes, before.heats));
    let last = story.steps.last().expect("steps");
    assert_eq!((last.id, &last.name, last.minutes), (step, &None, 40.0));
}

#[test]
fn a_design_that_was_changed_or_removed_since_is_said() {
    let build = build();
    let entry = |design: Design| Entry {
        id: "entry-1".to_owned(),
        design,
        made: 0,
        changed: 0,
        tags: Vec::new(),
    };
    let said = |found: Option<&Entry>| build.design_since(found).map(|note| note.to_string());
    let same = entry(build.design.clone());
    assert_eq!(said(Some(&same)), None);
    let changed = entry(build.design.apply(Edit::Name("Other".to_owned())));
    expect!["“Rounding hammer” was changed on the rack since this build was begun. The build keeps the design that it was begun with."]
        .assert_eq(&said(Some(&changed)).expect("a sentence"));
    expect![
        "“Rounding hammer” is no longer on the rack. The build keeps the design that it was begun with."
    ]
    .assert_eq(&said(None).expect("a sentence"));
    let of_no_entry = Build {
        entry: None,
        ..build.clone()
    };
    assert_eq!(of_no_entry.design_since(None), None);
}

#[track_caller]
fn check_refused(what: What, expected: &Expect) {
    let mut build = build();
    let event = Event {
        step: 1,
        at: 0,
        what,
    };
    let error = build.record(event).expect_err("cannot be");
    expected.assert_eq(&error.to_string());
    assert_eq!(build.events, []);
}

#[test]
fn readings_that_cannot_be_are_refused_and_leave_the_build_as_it_was() {
    check_refused(
        What::weighed(Mass::grams(-3.0)),
        &expect![
            "Entry 1: the weight is −0.003 kg. It must be at least 0.001 kg and at most 200 kg."
        ],
    );
    check_refused(
        What::weighed(Mass::kg(f64::NAN)),
        &expect!["Entry 1: the weight is NaN kg. It must be at least 0.001 kg and at most 200 kg."],
    );
    check_refused(
        What::Heats { count: 101 },
        &expect![
            "Entry 1: the number of heats is 101 heats. It must be at least 0 heats and at most 100 heats."
        ],
    );
    check_refused(
        What::Minutes { minutes: -1.0 },
        &expect!["Entry 1: the time is −1 min. It must be at least 0 min and at most 100000 min."],
    );
    let measured = |size: &str, celsius| What::Measured {
        dim: "front.reach".parse().expect("a dimension"),
        size: size.parse().expect("a size"),
        celsius,
    };
    check_refused(
        measured("3°", None),
        &expect!["Entry 1: front.reach is a length, but was measured as 3°."],
    );
    check_refused(
        measured("58 mm", Some(4000.0)),
        &expect!["Entry 1: the heat is 4000 °C. It must be at least −50 °C and at most 1500 °C."],
    );
    check_refused(
        What::Note {
            text: "ü".repeat(1001),
        },
        &expect!["Entry 1: the note has 1001 characters. Shorten it to at most 1000."],
    );
    let late = Event {
        step: 1,
        at: u64::MAX,
        what: What::Start,
    };
    expect!["Something is dated 18446744073709551615 ms after 1970, which is beyond the calendar."]
        .assert_eq(&build().record(late).expect_err("too late").to_string());
}

#[test]
fn starters_can_be_built_from() {
    for name in headwright::design::starter_names() {
        let design = starter(name).expect("a starter");
        assert_eq!(Build::begun("b", None, design, 0).check(), Ok(()));
    }
}
