//! The list of steps: names, order, what each does to the weight, what it is to take.

use leptos::prelude::*;

use super::super::entry::Entry;
use super::super::terms::{Term, Words};
use super::build::Front;
use super::change::Change;
use super::list::next_steps;
use super::tools::read_minutes;
use super::{here, words};
use headwright::bar::LossKind;
use headwright::log::{Build, Step, StepEdit, Weight, usual_steps};
use headwright::units::show_number;

/// What a step does to the weight, in words.
const WEIGHTS: [&str; 4] = [
    "nothing in the ledger",
    "takes from the ledger",
    "brings it to its weight",
    "puts the handle on",
];

fn weight_word(weight: &Weight) -> &'static str {
    WEIGHTS[match weight {
        Weight::Same => 0,
        Weight::Loses(_) => 1,
        Weight::ToTarget => 2,
        Weight::OnHandle => 3,
    }]
}

/// The effect of this word; a step that takes from the ledger begins with the scale of forging.
fn weight_of(word: &str) -> Weight {
    match WEIGHTS.iter().position(|other| *other == word) {
        Some(1) => Weight::Loses(vec![LossKind::ForgingScale]),
        Some(2) => Weight::ToTarget,
        Some(3) => Weight::OnHandle,
        _ => Weight::Same,
    }
}

/// The lines that a step takes, with `kind` taken or not; in the order of the work.
fn with_kind(weight: &Weight, kind: LossKind, takes: bool) -> Weight {
    let has = |other: &LossKind| match weight {
        Weight::Loses(kinds) if *other != kind => kinds.contains(other),
        Weight::Loses(_) => takes,
        _ => false,
    };
    Weight::Loses(LossKind::ALL.into_iter().filter(has).collect())
}

/// Which steps the next build begins with, said at the steps of `build`.
fn next_begins(build: &Build, builds: &[Build]) -> String {
    if next_steps(builds) == build.steps {
        return "The next build begins with these.".to_owned();
    }
    match builds.first().filter(|newest| newest.id != build.id) {
        Some(newest) => format!(
            "What you change here is of this build alone: the next one begins with the steps of the newest, {}.",
            words::name(newest)
        ),
        None => "This list is empty: the next build begins with the usual steps.".to_owned(),
    }
}

/// Changes the list of steps.
#[component]
pub fn EditSteps() -> impl IntoView {
    let keeper = here();
    let front = Front::here();
    let shown = RwSignal::new(false);
    let wrong = RwSignal::new(None::<String>);
    let ids = move || {
        front
            .build
            .with(|build| build.steps.iter().map(|step| step.id).collect::<Vec<_>>())
    };
    let add = move |_| {
        let place = front.build.with_untracked(|build| build.steps.len());
        let edit = StepEdit::Add {
            place,
            name: "another step".to_owned(),
            weight: Weight::Same,
        };
        wrong.set(front.press(Change::Edit(edit)).err());
    };
    let usual = move |_| wrong.set(front.press(Change::Steps(usual_steps())).err());
    let next = Memo::new(move |_| {
        keeper.builds.with(|builds| {
            let builds = builds.as_deref().unwrap_or_default();
            front.build.with(|build| next_begins(build, builds))
        })
    });
    let is_usual = Memo::new(move |_| front.build.with(|build| build.steps == usual_steps()));
    view! {
        <section aria-labelledby="log-list">
            <h2 id="log-list">"the list of steps"</h2>
            <button
                type="button"
                class="plain"
                aria-expanded=move || shown.get().to_string()
                on:click=move |_| shown.update(|shown| *shown = !*shown)
            >
                {move || if shown.get() { "leave the list" } else { "change the steps" }}
            </button>
            <Show when=move || shown.get()>
                <p class="soft">
                    {next} " Losses are learned by what a step does to the weight."
                </p>
                <Words
                    id="log-steps-words"
                    terms=&[Term::TakesLoss, Term::ToWeight, Term::OnHandle, Term::Target]
                />
                <ol class="log-edit">
                    <For each=ids key=|id| *id let:id>
                        <EditStep id=id wrong=wrong />
                    </For>
                </ol>
                <div class="actions">
                    <button type="button" class="plain" on:click=add>"add a step"</button>
                    <Show when=move || !is_usual.get()>
                        <button type="button" class="plain" on:click=usual>"the usual steps"</button>
                    </Show>
                </div>
            </Show>
            <p class="problem" role="status">{wrong}</p>
        </section>
    }
}

/// One step of the list.
#[component]
fn EditStep(
    /// Its id.
    id: u32,
    /// What is wrong with the last change.
    wrong: RwSignal<Option<String>>,
) -> impl IntoView {
    let front = Front::here();
    let step = Memo::new(move |before: Option<&Option<Step>>| {
        let step = front.build.with(|build| build.step(id).cloned());
        step.or_else(|| before.cloned().flatten())
    });
    let name = Memo::new(move |_| front.build.with(|build| words::step(build, id)));
    let weight = Memo::new(move |_| {
        step.with(|step| step.as_ref().map(|step| step.weight.clone()))
            .unwrap_or_default()
    });
    let edit = move |edit: StepEdit| wrong.set(front.press(Change::Edit(edit)).err());
    let place = move || {
        front.build.with_untracked(|build| {
            let mut steps = build.steps.iter();
            steps.position(|step| step.id == id).unwrap_or_default()
        })
    };
    // What is typed is kept when the field is left: a change of the list is one press.
    let typed_name = RwSignal::new(None::<String>);
    let typed_target = RwSignal::new(None::<Option<f64>>);
    let target = move || {
        let minutes = step.with(|step| step.as_ref().and_then(|step| step.target_minutes));
        minutes.map(show_number).unwrap_or_default()
    };
    let kinds = move || {
        matches!(weight.get(), Weight::Loses(_)).then(|| {
            let ticks = LossKind::ALL.map(|kind| {
                let on = move || matches!(weight.get(), Weight::Loses(kinds) if kinds.contains(&kind));
                view! {
                    <label class="log-tick">
                        <input
                            type="checkbox"
                            prop:checked=on
                            on:change:target=move |event| {
                                let takes = event.target().checked();
                                let weight = with_kind(&weight.get_untracked(), kind, takes);
                                edit(StepEdit::Weight { step: id, weight });
                            }
                        />
                        <span>{kind.words()}</span>
                    </label>
                }
            });
            let ticks = ticks.into_iter().collect_view();
            view! {
                <div class="log-kinds" role="group" aria-label=move || format!("what {} takes", name.get())>
                    {ticks}
                </div>
            }
        })
    };
    view! {
        <li>
            <div class="log-edit-line">
                <Entry
                    label=Signal::derive(move || format!("name of {}", name.get()))
                    value=name
                    unit=Signal::derive(String::new)
                    read=move |text: String| {
                        typed_name.set(Some(text.trim().to_owned()));
                        Ok(())
                    }
                    keep=move |()| {
                        if let Some(name) = typed_name.try_update(Option::take).flatten() {
                            edit(StepEdit::Rename { step: id, name });
                        }
                    }
                    put_back=move |()| typed_name.set(None)
                    id=format!("log-name-{id}")
                />
                <Entry
                    label=Signal::derive(move || format!("what {} is to take; empty for no target", name.get()))
                    value=Signal::derive(target)
                    unit=Signal::derive(|| "min".to_owned())
                    placeholder=Signal::derive(|| "target".to_owned())
                    read=move |text: String| {
                        let minutes = if text.trim().is_empty() { None } else { Some(read_minutes(&text)?) };
                        typed_target.set(Some(minutes));
                        Ok(())
                    }
                    keep=move |()| {
                        if let Some(minutes) = typed_target.try_update(Option::take).flatten() {
                            edit(StepEdit::Target { step: id, minutes });
                        }
                    }
                    put_back=move |()| typed_target.set(None)
                    id=format!("log-target-{id}")
                />
            </div>
            <label class="row-line">
                <span>"to the weight"</span>
                <select
                    aria-label=move || format!("what {} does to the weight", name.get())
                    prop:value=move || weight_word(&weight.get())
                    on:change:target=move |event| {
                        let weight = weight_of(&event.target().value());
                        edit(StepEdit::Weight { step: id, weight });
                    }
                >
                    {WEIGHTS
                        .map(|word| {
                            view! {
                                <option value=word selected=move || weight_word(&weight.get()) == word>
                                    {word}
                                </option>
                            }
                        })
                        .into_iter()
                        .collect_view()}
                </select>
            </label>
            {kinds}
            <div class="actions">
                <button
                    type="button"
                    class="plain"
                    aria-label=move || format!("{} earlier", name.get())
                    on:click=move |_| edit(StepEdit::Move { step: id, place: place().saturating_sub(1) })
                >
                    "earlier"
                </button>
                <button
                    type="button"
                    class="plain"
                    aria-label=move || format!("{} later", name.get())
                    on:click=move |_| edit(StepEdit::Move { step: id, place: place() + 1 })
                >
                    "later"
                </button>
                <button
                    type="button"
                    class="plain"
                    aria-label=move || format!("remove {}", name.get())
                    on:click=move |_| edit(StepEdit::Remove { step: id })
                >
                    "remove"
                </button>
            </div>
        </li>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_effect_has_a_word_and_comes_back_from_it() {
        for step in usual_steps() {
            let word = weight_word(&step.weight);
            assert_eq!(weight_word(&weight_of(word)), word);
        }
    }

    #[test]
    fn what_the_next_build_begins_with_is_said_as_it_is() {
        let design = headwright::design::starter("rounding").expect("a starter");
        let begun = |id: &str, at| Build::begun(id, None, design.clone(), at);
        let (mut newest, older) = (begun("b2", 9), begun("b1", 5));
        let said =
            |build: &Build, newest: &Build| next_begins(build, &[newest.clone(), older.clone()]);
        let these = "The next build begins with these.";
        assert_eq!(said(&newest, &newest), these);
        assert_eq!(said(&older, &newest), these);
        newest.steps.pop();
        assert_eq!(said(&newest, &newest), these);
        assert!(said(&older, &newest).contains("of the newest, Rounding hammer"));
        newest.steps.clear();
        assert!(said(&newest, &newest).contains("begins with the usual steps"));
        assert_eq!(said(&older, &newest), these);
    }

    #[test]
    fn lines_are_taken_and_left_in_the_order_of_the_work() {
        let scale = Weight::Loses(vec![LossKind::ForgingScale]);
        let both = with_kind(&scale, LossKind::Slug, true);
        assert_eq!(
            both,
            Weight::Loses(vec![LossKind::Slug, LossKind::ForgingScale])
        );
        assert_eq!(with_kind(&both, LossKind::Slug, false), scale);
        assert_eq!(with_kind(&scale, LossKind::ForgingScale, true), scale);
    }
}
