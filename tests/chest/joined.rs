//! Two states of a build into one.

use std::collections::BTreeMap;

use headwright::log::{
    Build, BuildArrival, Event, Log, MOST_BUILDS, MOST_EVENTS, Outcome, StepEdit, Weight, What,
};
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
    // The same id for two things of the work: they are kept apart.
    own.edit(add(5, "blue")).expect("a step");
    assert_eq!(own.joined(&other), None);
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
    let mut full = with(&[]);
    full.events = vec![note(1, "own"); MOST_EVENTS];
    assert_eq!(full.joined(&with(&[(2, "one more")])), None);
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
