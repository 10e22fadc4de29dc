//! Builds drawn at random, over everything an event can say, sensible or not.

use headwright::design::{Design, Edit, starter, starter_names};
use headwright::log::{
    Build, Event, LONGEST_STEP, Log, Outcome, Step, Verdict, Weight, What, usual_steps,
};
use headwright::rack::LATEST;
use headwright::units::{Length, Mass};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

fn what() -> impl Strategy<Value = What> {
    let verdict = prop_oneof![
        Just(None),
        Just(Some(Verdict::Counts)),
        Just(Some(Verdict::LeftOut))
    ];
    let text = "[ -~äß\n\r\t,;\"'=€–]{0,40}";
    prop_oneof![
        3 => Just(What::Start),
        3 => Just(What::Stop),
        2 => (1u32..200_000, verdict).prop_map(|(grams, verdict)| What::Weighed {
            mass: Mass::grams(f64::from(grams)),
            verdict,
        }),
        1 => (0u32..=100).prop_map(|count| What::Heats { count }),
        1 => (0u32..=100_000).prop_map(|tenths| What::Minutes { minutes: f64::from(tenths) / 10.0 }),
        1 => (-100i32..2000, prop::option::of(-50i32..1500)).prop_map(|(half_mm, celsius)| What::Measured {
            dim: "back.reach".parse().expect("a dimension"),
            size: Length::mm(f64::from(half_mm) / 2.0).into(),
            celsius: celsius.map(f64::from),
        }),
        1 => text.prop_map(|text| What::Note { text }),
    ]
}

fn design() -> impl Strategy<Value = Design> {
    let names: Vec<String> = starter_names().map(|name| name.to_string()).collect();
    (prop::sample::select(names), "[ -~ä\n\",]{0,20}").prop_map(|(name, called)| {
        let design = starter(&name).expect("a starter");
        design.apply(Edit::Name(called))
    })
}

fn steps() -> impl Strategy<Value = Vec<Step>> {
    let weight = prop::sample::select(usual_steps()).prop_map(|step| step.weight);
    let step = ("[a-zä,\" ]{0,20}x", weight, prop::option::of(0u32..5000));
    prop::collection::vec(step, 0..12).prop_map(|steps| {
        let steps = (1..).zip(steps);
        let step = |(id, (name, weight, target)): (u32, (String, Weight, Option<u32>))| Step {
            id,
            name,
            weight,
            target_minutes: target.map(f64::from),
        };
        steps.map(step).collect()
    })
}

/// A build of which every number is as a file writes it.
pub fn builds() -> impl Strategy<Value = Build> {
    let outcome = prop::sample::select(vec![Outcome::Open, Outcome::Finished, Outcome::Spoiled]);
    let at = prop_oneof![4 => 0..500_000_000u64, 1 => 0..=LATEST];
    let event = (1u32..14, at, what()).prop_map(|(step, at, what)| Event { step, at, what });
    (
        ("[a-z0-9-]{1,20}", prop::option::of("[a-z0-9-]{1,20}")),
        (0..=LATEST, outcome),
        prop_oneof![Just(usual_steps()), steps()],
        prop::collection::vec(event, 0..60),
        design(),
    )
        .prop_map(
            |((id, entry), (begun, outcome), steps, events, design)| Build {
                id,
                entry,
                begun,
                outcome,
                steps,
                events,
                design,
            },
        )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 120, failure_persistence: None, rng_seed: RngSeed::Fixed(1), ..ProptestConfig::default() })]

    #[test]
    fn what_is_written_is_what_is_read(builds in prop::collection::vec(builds(), 0..4)) {
        let numbered = (0..).zip(builds).map(|(number, build): (usize, Build)| Build {
            id: format!("{}-{number}", build.id),
            ..build
        });
        let log = Log { builds: numbered.collect(), unread: Vec::new() };
        prop_assert_eq!(Log::from_json(&log.to_json()), Ok(log));
    }

    #[test]
    fn any_events_have_a_story_that_adds_up(build in builds()) {
        prop_assert_eq!(build.check(), Ok(()));
        let story = build.story();
        let minutes: f64 = story.steps.iter().map(|step| step.minutes).sum();
        prop_assert!(story.minutes >= 0.0 && story.minutes == minutes);
        let counted = build.events.iter().map(|event| match event.what {
            What::Heats { count } => count,
            _ => 0,
        });
        prop_assert_eq!(story.heats, counted.sum::<u32>());
        // Weighings telescope: what lies between the first and the last is the sum of what lies between.
        let weighed: Vec<f64> = story.losses.iter().map(|between| between.kg).collect();
        if let (Some(first), Some(last)) = (story.losses.first(), story.losses.last()) {
            let at = |place: usize| story.steps[place].weighed.map_or(0.0, Mass::in_kg);
            let off = weighed.iter().sum::<f64>() - (at(first.from) - at(last.to));
            prop_assert!(off.abs() < 1e-9, "off by {}", off);
        }
        for note in &story.notes {
            let sentence = note.to_string();
            prop_assert!(sentence.ends_with('.') && sentence.len() < 20 * LONGEST_STEP, "{}", sentence);
        }
    }

    /// A clock that is set elsewhere, once and before all events, changes nothing but the time that a step is open
    /// since.
    #[test]
    fn the_story_hangs_on_differences_of_time_alone(build in builds(), later in 0..1_000_000_000u64) {
        let mut moved = build.clone();
        for event in &mut moved.events {
            event.at += later;
        }
        let (mut a, mut b) = (build.story(), moved.story());
        prop_assert_eq!(a.open.map(|(step, at)| (step, at + later)), b.open);
        (a.open, b.open) = (None, None);
        prop_assert_eq!(a, b);
    }
}
