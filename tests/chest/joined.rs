//! Two states of a build into one.

use std::collections::BTreeMap;

use headwright::bar::LossKind;
use headwright::log::losses::{LearnedLine, learn};
use headwright::log::{
    Build, BuildArrival, BuildArrived, Event, Log, MOST_BUILDS, MOST_EVENTS, Outcome, StepEdit,
    Weight, What,
};
use headwright::units::Mass;
use proptest::prelude::*;

use super::{build, ids, named, random};

fn note(at: u64, text: &str) -> Event {
    let text = text.to_owned();
    Event {
        step: 1,
        at,
        what: What::Note { text },
    }
}

fn texts(build: &Build) -> Vec<&str> {
    let texts = build.events.iter().filter_map(|event| match &event.what {
        What::Note { text } => Some(text.as_str()),
        _ => None,
    });
    texts.collect()
}

fn with(events: &[(u64, &str)]) -> Build {
    let mut build = Build::begun("build-1", None, named("Light"), 0);
    build.events = events.iter().map(|(at, text)| note(*at, text)).collect();
    build
}

/// How often each event is there.
fn counts(events: &[Event]) -> BTreeMap<String, usize> {
    let mut counts = BTreeMap::new();
    for event in events {
        *counts.entry(format!("{event:?}")).or_default() += 1;
    }
    counts
}

/// Whether `events` has those of `part` in their order, others between.
fn has_in_order(events: &[Event], part: &[Event]) -> bool {
    let mut events = events.iter();
    part.iter()
        .all(|wanted| events.any(|event| event == wanted))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_event_of_either_is_lost_or_doubled(
        common in prop::collection::vec((0u64..20, 0u8..6), 0..6),
        own in prop::collection::vec((0u64..40, 0u8..6), 0..8),
        other in prop::collection::vec((0u64..40, 0u8..6), 0..8),
    ) {
        let state = |tail: &[(u64, u8)]| {
            let events = common.iter().chain(tail);
            let mut build = with(&[]);
            build.events = events.map(|(at, kind)| note(*at, &kind.to_string())).collect();
            build
        };
        let (own, other) = (state(&own), state(&other));
        let joined = own.joined(&other).expect("two states of one build");
        let (a, b, both) = (counts(&own.events), counts(&other.events), counts(&joined.events));
        for event in a.keys().chain(b.keys()) {
            let most = a.get(event).max(b.get(event));
            prop_assert_eq!(both.get(event), most, "{}", event);
        }
        prop_assert_eq!(both.keys().filter(|event| !a.contains_key(*event) && !b.contains_key(*event)).count(), 0);
        prop_assert!(has_in_order(&joined.events, &own.events));
        // Joined again with either, nothing is new.
        prop_assert_eq!(joined.joined(&other), Some(joined.clone()));
        prop_assert_eq!(joined.joined(&own), Some(joined.clone()));
        let turned = other.joined(&own).expect("two states of one build");
        prop_assert_eq!(counts(&turned.events), both);
    }

    #[test]
    fn logs_of_any_builds_taken_in_twice_are_as_taken_in_once(
        standing in prop::collection::vec(random::builds(), 0..4),
        coming in prop::collection::vec(random::builds(), 0..4),
    ) {
        let few = |builds: Vec<Build>| {
            let builds = builds.into_iter().enumerate();
            builds.map(|(place, build)| Build { id: format!("build-{}", place % 2), ..build })
        };
        let mut log = Log::default();
        log.take_in(few(standing).collect(), ids());
        let mut number = 100;
        let mut new = || { number += 1; format!("other-{number}") };
        let coming: Vec<Build> = few(coming).collect();
        let before: usize = log.builds.iter().map(|build| build.events.len()).sum();
        log.take_in(coming.clone(), &mut new);
        let once = log.clone();
        prop_assert!(once.builds.iter().map(|build| build.events.len()).sum::<usize>() >= before);
        for build in &coming {
            let came = counts(&build.events);
            let there = once.builds.iter().any(|other| {
                let here = counts(&other.events);
                let has = |(event, count): (&String, &usize)| here.get(event) >= Some(count);
                other.design == build.design && came.iter().all(has)
            });
            prop_assert!(there, "{}", build.id);
        }
        let report = log.take_in(coming, &mut new);
        prop_assert!(report.iter().all(|it| it.arrival == BuildArrival::Skipped));
        prop_assert_eq!(log, once);
    }
}

#[test]
fn what_came_stands_in_the_order_of_the_times() {
    let own = with(&[(1, "cut"), (2, "forged"), (9, "ground")]);
    let other = with(&[(1, "cut"), (2, "forged"), (5, "hardened"), (7, "tempered")]);
    let joined = own.joined(&other).expect("two states");
    assert_eq!(
        texts(&joined),
        ["cut", "forged", "hardened", "tempered", "ground"]
    );
    // A clock that was set back keeps what came behind what stood before it.
    let set_back = with(&[(1, "cut"), (2, "forged"), (0, "set back")]);
    let joined = own.joined(&set_back).expect("two states");
    assert_eq!(texts(&joined), ["cut", "forged", "set back", "ground"]);
}

#[test]
fn steps_outcome_and_entry_are_joined_and_what_stands_here_stays() {
    let mut own = build("build-1", "one");
    own.entry = None;
    let mut other = build("build-1", "one");
    other.outcome = Outcome::Spoiled;
    let add = |place, name: &str| StepEdit::Add {
        place,
        name: name.to_owned(),
        weight: Weight::Same,
    };
    other.edit(add(3, "etch")).expect("a step");
    let joined = own.joined(&other).expect("two states");
    assert_eq!(joined.entry.as_deref(), Some("one"));
    assert_eq!(joined.outcome, Outcome::Spoiled);
    assert_eq!(joined.steps, other.steps);
    let finished = Build {
        outcome: Outcome::Finished,
        ..own.clone()
    };
    assert_eq!(
        finished.joined(&other).map(|it| it.outcome),
        Some(Outcome::Finished)
    );
    // The same id for two things of the work: both are steps of the build, the one that comes under another id.
    own.edit(add(5, "blue")).expect("a step");
    let joined = own.joined(&other).expect("two states");
    let added: Vec<&str> = joined.steps.iter().map(|step| step.name.as_str()).collect();
    assert!(
        added.contains(&"blue") && added.contains(&"etch"),
        "{added:?}"
    );
    assert_eq!(joined.check(), Ok(()));
}

/// A step of this name, and something weighed when it was done.
fn with_step(build: &Build, name: &str, at: u64, grams: f64) -> Build {
    let mut build = build.clone();
    let add = StepEdit::Add {
        place: 8,
        name: name.to_owned(),
        weight: Weight::Loses(vec![LossKind::HardeningScale]),
    };
    build.edit(add).expect("a step");
    let step = build.steps[8].id;
    let what = What::weighed(Mass::grams(grams));
    build.record(Event { step, at, what }).expect("a weight");
    build
}

#[test]
fn two_states_with_one_id_for_two_steps_are_one_build_and_no_weighing_counts_twice() {
    let common = build("build-1", "one");
    let own = with_step(&common, "blue", 3_000, 550.0);
    let other = with_step(&common, "etch", 4_000, 548.0);
    assert_eq!(own.steps[8].id, other.steps[8].id);
    let mut log = Log {
        builds: vec![own],
        unread: Vec::new(),
    };
    let once = learn(&log.builds);
    for arrival in [BuildArrival::Joined, BuildArrival::Skipped] {
        let report = log.take_in(vec![other.clone()], ids());
        assert_eq!(report[0].arrival, arrival);
        assert_eq!(log.builds.len(), 1);
        // The weighings of both, each at its step, and those in common once.
        assert_eq!(log.builds[0].events.len(), common.events.len() + 2);
        let built = |line: &LearnedLine| line.builds;
        let counts: Vec<u32> = learn(&log.builds).lines.iter().map(built).collect();
        let counted: Vec<u32> = once.lines.iter().map(built).collect();
        assert_eq!(counts, counted);
    }
    let weighed = |name: &str| {
        let build = &log.builds[0];
        let step = build.steps.iter().find(|step| step.name == name);
        let step = step.expect("a step").id;
        let at = build.events.iter().filter(|event| event.step == step);
        at.map(|event| event.at).collect::<Vec<_>>()
    };
    assert_eq!(
        (weighed("blue"), weighed("etch")),
        (vec![3_000], vec![4_000])
    );
    // A step that was renamed since is known by what was recorded at it.
    let step = log.builds[0].steps.iter().find(|step| step.name == "etch");
    let step = step.expect("a step").id;
    let name = "etch with acid".to_owned();
    log.builds[0]
        .edit(StepEdit::Rename { step, name })
        .expect("a name");
    let before = log.clone();
    let report = log.take_in(vec![other], ids());
    assert_eq!(report[0].arrival, BuildArrival::Skipped);
    assert_eq!(log, before);
}

/// Something done to a build on its way.
#[derive(Clone, Debug)]
enum Done {
    Add(usize, u8),
    Rename(usize, u8),
    Remove(usize),
    Note(usize, u8),
}

fn done() -> impl Strategy<Value = Vec<Done>> {
    let place = || 0usize..16;
    let one = prop_oneof![
        2 => (place(), 0u8..4).prop_map(|(place, name)| Done::Add(place, name)),
        1 => (place(), 0u8..4).prop_map(|(place, name)| Done::Rename(place, name)),
        1 => place().prop_map(Done::Remove),
        4 => (place(), 0u8..3).prop_map(|(place, text)| Done::Note(place, text)),
    ];
    prop::collection::vec(one, 0..10)
}

/// `build` after all of it; `at` goes on with every entry, as a clock does.
fn after(build: &Build, all: &[Done], at: &mut u64) -> Build {
    let mut build = build.clone();
    let step = |build: &Build, place: usize| {
        build
            .steps
            .get(place % build.steps.len().max(1))
            .map(|step| step.id)
    };
    for one in all {
        let edit = match one {
            Done::Add(place, name) => Some(StepEdit::Add {
                place: *place,
                name: format!("own {name}"),
                weight: Weight::Same,
            }),
            Done::Rename(place, name) => step(&build, *place).map(|step| StepEdit::Rename {
                step,
                name: format!("own {name}"),
            }),
            Done::Remove(place) => step(&build, *place).map(|step| StepEdit::Remove { step }),
            Done::Note(place, text) => {
                *at += 1;
                if let Some(step) = step(&build, *place) {
                    let text = text.to_string();
                    let what = What::Note { text };
                    build.events.push(Event {
                        step,
                        at: *at,
                        what,
                    });
                }
                None
            }
        };
        if let Some(edit) = edit {
            build.edit(edit).expect("a list that can be");
        }
    }
    build
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    /// From one state on two pages go on by themselves, with steps of their own.
    #[test]
    fn whatever_two_pages_do_to_a_build_it_stays_one_with_every_entry_once(
        common in done(),
        own in done(),
        other in done(),
    ) {
        let mut at = 0;
        let common = after(&with(&[]), &common, &mut at);
        let own = after(&common, &own, &mut at);
        let other = after(&common, &other, &mut at);
        let joined = own.joined(&other).expect("two states of one build");
        prop_assert_eq!(joined.check(), Ok(()));
        let times = |build: &Build| build.events.iter().map(|event| event.at).collect::<Vec<_>>();
        let mut all: Vec<u64> = [times(&own), times(&other)].concat();
        all.sort_unstable();
        all.dedup();
        let mut there = times(&joined);
        there.sort_unstable();
        prop_assert_eq!(there, all);
        for event in &own.events {
            prop_assert!(joined.events.contains(event));
        }
        // Whatever one page recorded at one step is at one step, and two steps of a page stay two.
        let mut ids = BTreeMap::new();
        for event in &other.events {
            let here = joined.events.iter().find(|it| it.at == event.at).map(|it| it.step);
            prop_assert_eq!(*ids.entry(event.step).or_insert(here), here);
        }
        let apart: std::collections::BTreeSet<_> = ids.values().collect();
        prop_assert_eq!(apart.len(), ids.len());
        prop_assert_eq!(joined.joined(&other), Some(joined.clone()));
        prop_assert_eq!(joined.joined(&own), Some(joined.clone()));
    }
}

#[test]
fn a_build_is_known_again_when_a_file_has_rounded_its_sizes() {
    let mut own = build("build-1", "one");
    let reach = own.design.front.reach;
    own.design.front.reach = reach.with_mm(50.0 + 1.0 / 3.0);
    let read = Build::from_json(&own.to_json()).expect("a build");
    assert_ne!(read.design, own.design);
    let mut log = Log {
        builds: vec![own],
        unread: Vec::new(),
    };
    let report = log.take_in(vec![read], ids());
    assert_eq!(report[0].arrival, BuildArrival::Skipped);
}

#[test]
fn builds_that_cannot_be_joined_stand_as_copies_once() {
    let mut log = Log {
        builds: vec![build("build-1", "one")],
        unread: Vec::new(),
    };
    let mut other = build("build-1", "one");
    other.design = named("Heavy");
    for arrival in [BuildArrival::Copied, BuildArrival::Skipped] {
        let report = log.take_in(vec![other.clone()], ids());
        assert_eq!(report[0].arrival, arrival);
        assert_eq!(log.builds.len(), 2);
        assert_eq!(report[0].build.id, "new-1");
    }
    // One that has more by the next time is still the same copy.
    other.outcome = Outcome::Finished;
    let report = log.take_in(vec![other], ids());
    assert_eq!(report[0].arrival, BuildArrival::Joined);
    assert_eq!(
        (log.builds.len(), log.builds[1].outcome),
        (2, Outcome::Finished)
    );
}

/// Each state has a weighing that the other has not: those in common count once.
#[test]
fn a_copy_that_went_on_here_and_there_is_one_build() {
    let weighed = |at: u64| Event {
        step: 1,
        at,
        what: What::weighed(Mass::grams(640.0)),
    };
    let mut other = build("build-1", "one");
    other.design = named("Heavy");
    let once = learn(&[build("build-1", "one"), other.clone()]);
    let mut log = Log {
        builds: vec![build("build-1", "one")],
        unread: Vec::new(),
    };
    log.take_in(vec![other.clone()], ids());
    log.builds[1].events.push(weighed(5_000));
    other.events.push(weighed(6_000));
    for arrival in [BuildArrival::Joined, BuildArrival::Skipped] {
        let report = log.take_in(vec![other.clone()], ids());
        assert_eq!(report[0].arrival, arrival);
        assert_eq!(report[0].build.id, "new-1");
        assert_eq!(log.builds.len(), 2);
        assert_eq!(log.builds[1].events.len(), 4);
        assert_eq!(learn(&log.builds), once);
    }
    // Where both are in the log, one that has all of what comes is found before one that has but some.
    let mut some = log.builds[1].clone();
    some.id = "before".to_owned();
    some.events.truncate(1);
    log.builds.insert(0, some);
    let before = log.clone();
    let report = log.take_in(vec![other], ids());
    assert_eq!(report[0].arrival, BuildArrival::Skipped);
    assert_eq!(log, before);
}

#[test]
fn a_state_that_is_too_much_for_the_copy_is_not_copied_again() {
    let mut other = build("build-1", "one");
    other.design = named("Heavy");
    let mut log = Log {
        builds: vec![build("build-1", "one")],
        unread: Vec::new(),
    };
    log.take_in(vec![other.clone()], ids());
    log.builds[1].events.resize(MOST_EVENTS, note(9_000, "own"));
    other.events.push(note(9_001, "one more"));
    let before = log.clone();
    let report = log.take_in(vec![other], ids());
    assert_eq!(report[0].arrival, BuildArrival::TooMuch);
    assert_eq!(log, before);
}

#[test]
fn two_states_that_are_too_much_for_one_build_leave_the_one_that_stands() {
    let mut full = with(&[]);
    full.events = vec![note(1, "own"); MOST_EVENTS];
    let more = with(&[(2, "one more")]);
    assert_eq!(full.joined(&more), None);
    let mut log = Log {
        builds: vec![full],
        unread: Vec::new(),
    };
    let before = log.clone();
    let report = log.take_in(vec![more.clone()], ids());
    let arrival = BuildArrival::TooMuch;
    assert_eq!(
        report,
        [BuildArrived {
            arrival,
            build: more
        }]
    );
    assert_eq!(log, before);
}

#[test]
fn a_whole_log_of_other_builds_under_the_same_ids_comes_as_copies() {
    let builds = |at: u64| {
        let builds = (0..MOST_BUILDS / 2).map(move |number| Build {
            id: format!("build-{number}"),
            begun: at + number as u64,
            ..with(&[])
        });
        builds.collect::<Vec<_>>()
    };
    let mut log = Log {
        builds: builds(1_000_000),
        unread: Vec::new(),
    };
    for arrival in [BuildArrival::Copied, BuildArrival::Skipped] {
        let report = log.take_in(builds(2_000_000), ids());
        assert!(report.iter().all(|it| it.arrival == arrival));
        assert_eq!(log.builds.len(), MOST_BUILDS);
    }
}

#[test]
fn a_full_log_takes_no_more_and_says_so() {
    let mut log = Log::default();
    let builds = (0..MOST_BUILDS).map(|number| Build {
        id: format!("build-{number}"),
        ..with(&[])
    });
    log.builds = builds.collect();
    let coming = vec![Build {
        id: "late".to_owned(),
        ..with(&[(1, "late")])
    }];
    let report = log.take_in(coming, ids());
    assert_eq!(report[0].arrival, BuildArrival::NoRoom);
    assert_eq!(log.builds.len(), MOST_BUILDS);
}
