//! A step of the work: one large area that starts and stops it, and what can be done at it.

use leptos::prelude::*;

use super::super::clock;
use super::super::state::Workspace;
use super::build::{Front, heats_in_words};
use super::tools::Tools;
use super::{Now, words};
use headwright::log::{LONG_RUN_HOURS, StepStory, What};
use headwright::units::{System, show_mass};

/// Milliseconds of an hour.
const HOUR_MS: f64 = 60.0 * clock::MINUTE_MS;

/// What is known of the step, in a line.
fn facts(step: &StepStory, system: System) -> String {
    let mut facts = Vec::new();
    if step.minutes > 0.0 || step.typed {
        let minutes = clock::minutes(step.minutes);
        facts.push(match (step.typed, step.pressed_minutes > 0.0) {
            (false, _) => minutes,
            (true, false) => format!("{minutes}, typed"),
            (true, true) => {
                let typed = clock::minutes(step.minutes - step.pressed_minutes);
                format!("{minutes}, {typed} of it typed")
            }
        });
    }
    if step.heats > 0 {
        facts.push(heats_in_words(step.heats));
    }
    if let Some(mass) = step.weighed {
        facts.push(show_mass(mass.in_kg(), system));
    }
    if let Some(target) = step.target_minutes {
        facts.push(format!("to take {}", clock::minutes(target)));
    }
    facts.join(" · ")
}

/// A step.
#[component]
pub fn StepRow(
    /// Its id.
    id: u32,
) -> impl IntoView {
    let workspace = Workspace::here();
    let front = Front::here();
    let Now(now) = expect_context();
    let name = Memo::new(move |_| front.build.with(|build| words::step(build, id)));
    let since = Memo::new(move |_| {
        front.story.with(|story| {
            let open = story.open.filter(|(step, _)| *step == id);
            open.map(|(_, since)| since)
        })
    });
    let runs = Memo::new(move |_| since.get().is_some());
    let open = Memo::new(move |_| front.open() == Some(id));
    let facts = move || {
        let system = workspace.system.get();
        front.story.with(|story| {
            let step = story.steps.iter().find(|step| step.id == id);
            step.map(|step| facts(step, system)).unwrap_or_default()
        })
    };
    let wrong = RwSignal::new(None::<String>);
    let press = move |_| {
        let what = if runs.get_untracked() {
            What::Stop
        } else {
            What::Start
        };
        wrong.set(front.record(id, what).err());
        front.chosen.set(None);
    };
    let toggle = move |_| {
        let now = (!open.get_untracked()).then_some(id);
        front.chosen.set(Some(now));
    };
    let notes = move || {
        let system = workspace.system.get();
        front.build.with(|build| {
            let place = build.steps.iter().position(|step| step.id == id);
            front.story.with(|story| {
                let notes = story.notes.iter();
                let own =
                    notes.filter(|note| words::place(build, note) == place && place.is_some());
                own.map(|note| view! { <p class="log-note">{note.sentence(system)}</p> })
                    .collect_view()
            })
        })
    };
    let left_running = Memo::new(move |_| {
        let hours = since.get()?;
        let hours = now.get().saturating_sub(hours) as f64 / HOUR_MS;
        (hours >= LONG_RUN_HOURS).then(|| hours.floor() as u64)
    });
    view! {
        <li class="log-step" class:runs=runs class:open=open>
            <div class="log-step-line">
                <button
                    type="button"
                    class="log-press"
                    aria-pressed=move || runs.get().to_string()
                    on:click=press
                >
                    <span class="log-verb">{move || if runs.get() { "stop " } else { "start " }}</span>
                    <span class="log-name">{name}</span>
                    {move || {
                        since.get().map(|since| {
                            view! {
                                // The name stays while the time runs; the sheet says the sum.
                                <span class="log-clock" aria-hidden="true">
                                    {move || clock::running(now.get().saturating_sub(since))}
                                </span>
                            }
                        })
                    }}
                </button>
                <button
                    type="button"
                    class="log-more"
                    id=format!("log-more-{id}")
                    aria-expanded=move || open.get().to_string()
                    aria-label=move || {
                        let verb = if open.get() { "close" } else { "write at" };
                        format!("{verb} {}", name.get())
                    }
                    on:click=toggle
                >
                    {move || if open.get() { "close" } else { "write" }}
                </button>
            </div>
            <p class="log-facts">{facts}</p>
            {move || {
                left_running.get().map(|hours| {
                    view! {
                        <p class="log-note">
                            {format!("It has run for {hours} h. If it was left running, stop it and type its minutes.")}
                        </p>
                    }
                })
            }}
            {notes}
            <p class="problem" role="status">{wrong}</p>
            {move || open.get().then(|| view! { <Tools id=id name=name /> })}
        </li>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::units::Mass;

    #[test]
    fn a_step_says_what_it_took_and_what_was_weighed() {
        let mut step = StepStory {
            id: 3,
            name: None,
            minutes: 0.0,
            typed: false,
            pressed_minutes: 0.0,
            target_minutes: None,
            heats: 0,
            weighed: None,
        };
        assert_eq!(facts(&step, System::Metric), "");
        step.minutes = 42.0;
        step.heats = 3;
        step.weighed = Some(Mass::grams(1388.0));
        step.target_minutes = Some(40.0);
        assert_eq!(
            facts(&step, System::Metric),
            "42 min · 3 heats · 1.388 kg · to take 40 min"
        );
        step.minutes = 0.0;
        step.typed = true;
        assert!(facts(&step, System::Metric).starts_with("0 min, typed"));
        (step.minutes, step.pressed_minutes) = (57.0, 12.0);
        let both = "57 min, 45 min of it typed";
        assert!(facts(&step, System::Metric).starts_with(both));
    }
}
