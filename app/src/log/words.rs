//! What was pressed, in words.

use super::super::clock;
use super::change::Change;
use headwright::log::{Build, BuildNote, Outcome, StepEdit, What};
use headwright::units::{System, show_mass, show_temperature};

/// What a step of `build` is called; one that is off the list by its number.
pub fn step(build: &Build, id: u32) -> String {
    build
        .step(id)
        .map_or_else(|| format!("step {id}"), |step| step.name.clone())
}

/// What happened, without its step.
pub fn what(what: &What, system: System) -> String {
    match what {
        What::Start => "start".to_owned(),
        What::Stop => "stop".to_owned(),
        What::Weighed { mass, .. } => format!("weighs {}", show_mass(mass.in_kg(), system)),
        What::Heats { count: 1 } => "1 heat".to_owned(),
        What::Heats { count } => format!("{count} heats"),
        What::Minutes { minutes } => format!("{} in all, typed", clock::minutes(*minutes)),
        What::Measured { dim, size, celsius } => {
            let at = celsius.map(|celsius| format!(" at {}", show_temperature(celsius, system)));
            let at = at.unwrap_or_default();
            format!("{} {}{at}", dim.words(), size.words(system))
        }
        What::Note { text } => format!("“{text}”"),
    }
}

/// A press, as what takes it back names it.
pub fn press(build: &Build, change: &Change, system: System) -> String {
    match change {
        Change::Record(event) => {
            let what = match &event.what {
                What::Note { .. } => "note".to_owned(),
                other => what(other, system),
            };
            format!("{}: {what}", step(build, event.step))
        }
        Change::Strike(event) => format!("the strike of {}", what(&event.what, system)),
        Change::Edit(_) | Change::Steps(_) => "the change of the steps".to_owned(),
        Change::End(Outcome::Open) => "going on".to_owned(),
        Change::End(outcome) => format!("“{}”", outcome.word()),
        Change::Put(_) | Change::Join(_) | Change::Restore(..) | Change::Remove => {
            build.design.name.clone()
        }
    }
}

/// A press that could not be done, for a sentence, with what would be lost if it were not said.
pub fn pressed(change: &Change, system: System) -> String {
    match change {
        Change::Record(event) | Change::Restore(_, event) => {
            format!("the entry {}", what(&event.what, system))
        }
        Change::Edit(StepEdit::Add { name, .. }) => format!("the step “{name}”"),
        _ => "what was pressed last".to_owned(),
    }
}

/// The place on the list of the step that a note is about; nothing for one about the whole build.
pub fn place(build: &Build, note: &BuildNote) -> Option<usize> {
    let named = |name: &str| build.steps.iter().position(|step| step.name == name);
    match note {
        BuildNote::NotRunning { step, .. }
        | BuildNote::Running { step, .. }
        | BuildNote::NoTime { step, .. }
        | BuildNote::LongRun { step, .. } => named(step),
        BuildNote::Gained { to, .. } => named(to),
        BuildNote::Backwards { entry, .. } => {
            let event = build.events.get(entry.checked_sub(1)?)?;
            build.steps.iter().position(|step| step.id == event.step)
        }
        BuildNote::OffTheList { .. }
        | BuildNote::DesignChanged { .. }
        | BuildNote::DesignRemoved { .. } => None,
    }
}

/// A name, or what a hammer without one is called.
pub fn name(build: &Build) -> String {
    let name = build.design.name.trim();
    if name.is_empty() {
        "hammer without a name".to_owned()
    } else {
        name.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::log::Event;
    use headwright::units::Mass;

    fn build(events: &[(u32, u64, What)]) -> Build {
        let design = starter("rounding").expect("a starter");
        let mut build = Build::begun("b1", None, design, 5);
        for (step, at, what) in events {
            let (step, at, what) = (*step, *at, what.clone());
            build.record(Event { step, at, what }).expect("it can be");
        }
        build
    }

    #[test]
    fn a_note_stands_at_the_step_that_it_is_about() {
        let build = build(&[
            (1, 9000, What::weighed(Mass::kg(1.2))),
            (2, 8000, What::weighed(Mass::kg(1.3))),
            (3, 9000, What::Stop),
            (99, 9000, What::Heats { count: 1 }),
        ]);
        let places: Vec<Option<usize>> = build
            .story()
            .notes
            .iter()
            .map(|note| place(&build, note))
            .collect();
        // The clock went back and the weight up at the second step, the third was stopped, one is off the list.
        assert_eq!(places.len(), 4);
        assert_eq!(places.iter().filter(|at| **at == Some(1)).count(), 2);
        assert!(places.contains(&Some(2)) && places.contains(&None));
    }

    #[test]
    fn what_is_taken_back_is_named_with_its_step() {
        let build = build(&[]);
        let told = |what: What| {
            let event = Event {
                step: 3,
                at: 9,
                what,
            };
            press(&build, &Change::Record(event), System::Metric)
        };
        assert_eq!(told(What::Start), "punch: start");
        assert_eq!(told(What::Heats { count: 1 }), "punch: 1 heat");
        assert_eq!(
            told(What::weighed(Mass::grams(1388.0))),
            "punch: weighs 1.388 kg"
        );
        let note = "x".repeat(900);
        assert_eq!(told(What::Note { text: note }), "punch: note");
        assert_eq!(
            told(What::Minutes { minutes: 90.0 }),
            "punch: 1 h 30 min in all, typed"
        );
    }
}
