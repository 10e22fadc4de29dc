//! One build: its steps as a column of press areas, and what follows from them.

use leptos::prelude::*;

use super::super::clock;
use super::super::files::{file_name, save_text};
use super::super::journal::now;
use super::super::state::{Screen, Workspace};
use super::super::terms::{Term, Words};
use super::change::Change;
use super::entries::Entries;
use super::forged::AsForged;
use super::step::StepRow;
use super::steps::EditSteps;
use super::write::go_to;
use super::{Now, OnRack, here, words};
use headwright::log::{Build, Event, Log, LogError, Outcome, Story, What};
use headwright::units::show_mass;

/// What of a log file is one build.
const ENDING: &str = "headwright-log.json";

/// The build that is in front.
#[derive(Clone, Copy)]
pub struct Front {
    /// The build.
    pub build: Memo<Build>,
    /// What follows from it.
    pub story: Memo<Story>,
    /// The step whose presses are open, where that was chosen; else it is the one that runs, was last pressed, or is the first.
    pub chosen: RwSignal<Option<Option<u32>>>,
}

impl Front {
    /// The build that is in front of the sheet.
    pub fn here() -> Self {
        expect_context()
    }

    /// The step whose presses are open.
    pub fn open(self) -> Option<u32> {
        self.chosen.get().unwrap_or_else(|| {
            let runs = self.story.with(|story| story.open.map(|(step, _)| step));
            runs.or_else(|| {
                self.build.with(|build| {
                    let last = build.events.last().map(|event| event.step);
                    let last = last.filter(|step| build.step(*step).is_some());
                    last.or_else(|| build.steps.first().map(|step| step.id))
                })
            })
        })
    }

    /// Does something to the build.
    ///
    /// # Errors
    /// What cannot stand in a build, as a sentence.
    pub fn press(self, change: Change) -> Result<(), String> {
        let id = self.build.with_untracked(|build| build.id.clone());
        let pressed = here().press(&id, change);
        pressed.map_err(|error| said(&error))
    }

    /// Records what happened now at a step.
    ///
    /// # Errors
    /// A reading that cannot be, as a sentence.
    pub fn record(self, step: u32, what: What) -> Result<(), String> {
        let at = now();
        self.press(Change::Record(Event { step, at, what }))
    }
}

/// The sentence, without the number of an entry that does not stand yet.
fn said(error: &LogError) -> String {
    let sentence = error.to_string();
    let rest = sentence
        .strip_prefix("Entry ")
        .and_then(|rest| rest.split_once(": "));
    rest.map_or(sentence.clone(), |(_, rest)| {
        super::super::words::capitalized(rest)
    })
}

/// A build.
#[component]
pub fn BuildSheet(
    /// Its id.
    id: String,
) -> impl IntoView {
    let keeper = here();
    let first = untrack(|| keeper.build(&id));
    let Some(first) = first else {
        return ().into_any();
    };
    // One that another tab removed stands here until the sheet is drawn anew.
    let build = Memo::new(move |before: Option<&Build>| {
        let build = keeper.build(&id);
        build.unwrap_or_else(|| before.unwrap_or(&first).clone())
    });
    let front = Front {
        build,
        story: Memo::new(move |_| build.with(Build::story)),
        chosen: RwSignal::new(None),
    };
    provide_context(front);
    let ids =
        move || build.with(|build| build.steps.iter().map(|step| step.id).collect::<Vec<_>>());
    view! {
        <div class="log-top">
            <button type="button" class="plain" on:click=move |_| keeper.chosen.set(None)>
                "all builds"
            </button>
            <Others />
        </div>
        <h1 class="screen-name">{move || build.with(words::name)}</h1>
        <Facts />
        <Words id="log-build-words" terms=&[Term::HeatCounted, Term::Weighing, Term::TypedMinutes] />
        <div class="log-build">
            <div>
                <ol class="log-steps" aria-label="steps of the work">
                    <For each=ids key=|id| *id let:id>
                        <StepRow id=id />
                    </For>
                </ol>
                // Else it stands at the open step, where the last press was.
                <Show when=move || front.open().is_none()>
                    <TakeBackLine />
                </Show>
            </div>
            <div class="log-beside">
                <Lost />
                <AsForged />
                <Ends />
                <EditSteps />
                <Entries />
                <Away />
            </div>
        </div>
    }
    .into_any()
}

/// Other builds in which a step runs, each a press away.
#[component]
fn Others() -> impl IntoView {
    let keeper = here();
    let front = Front::here();
    move || {
        let own = front.build.with(|build| build.id.clone());
        let others = keeper.builds.with(|builds| {
            let others = builds.iter().flatten().filter(|build| build.id != own);
            let running = others.filter_map(|build| {
                let (step, _) = build.story().open?;
                let text = format!(
                    "{} in {} runs too",
                    words::step(build, step),
                    words::name(build)
                );
                Some((build.id.clone(), text))
            });
            running.collect::<Vec<_>>()
        });
        let others = others.into_iter().map(|(id, text)| {
            view! {
                <button type="button" class="plain" on:click=move |_| keeper.chosen.set(Some(id.clone()))>
                    {text}
                </button>
            }
        });
        others.collect_view()
    }
}

/// When it was begun, what it took, and what is to be said of it as a whole.
#[component]
fn Facts() -> impl IntoView {
    let workspace = Workspace::here();
    let front = Front::here();
    let on_rack: OnRack = expect_context();
    let Now(clock) = expect_context();
    let facts = move || {
        let (begun, outcome) = front.build.with(|build| (build.begun, build.outcome));
        let (minutes, heats) = front.story.with(|story| {
            let runs = story
                .open
                .map(|(_, since)| clock.get().saturating_sub(since));
            let runs = runs.unwrap_or_default() as f64 / clock::MINUTE_MS;
            (story.minutes + runs, story.heats)
        });
        format!(
            "begun {} · {} · {} in all · {}",
            clock::time(begun, now()),
            outcome.word(),
            clock::minutes(minutes),
            heats_in_words(heats)
        )
    };
    let notes = move || {
        let system = workspace.system.get();
        front.build.with(|build| {
            let whole = front.story.with(|story| {
                let notes = story.notes.iter();
                let notes = notes.filter(|note| words::place(build, note).is_none());
                notes.cloned().collect::<Vec<_>>()
            });
            let notes = on_rack.since(build).into_iter().chain(whole);
            notes
                .map(|note| view! { <p class="log-note">{note.sentence(system)}</p> })
                .collect_view()
        })
    };
    view! {
        <p class="said-once">{facts}</p>
        {notes}
    }
}

/// “3 heats”
pub fn heats_in_words(heats: u32) -> String {
    match heats {
        1 => "1 heat".to_owned(),
        heats => format!("{heats} heats"),
    }
}

/// What was pressed last, to be taken back; and what was taken back, to be put back.
#[component]
pub fn TakeBackLine() -> impl IntoView {
    let workspace = Workspace::here();
    let keeper = here();
    let front = Front::here();
    let wrong = RwSignal::new(None::<String>);
    let next = Memo::new(move |_| front.build.with(|build| keeper.take_back.next(build)));
    let taken = Memo::new(move |_| front.build.with(|build| keeper.take_back.taken(build)));
    let named = move |change: &Change| {
        let system = workspace.system.get();
        front
            .build
            .with(|build| words::press(build, change, system))
    };
    view! {
        <div class="log-presses log-back">
            {move || {
                next.get().map(|pressed| {
                    let text = format!("take back {}", named(&pressed.change));
                    view! {
                        <button
                            type="button"
                            class="way"
                            id="log-take-back"
                            on:click=move |_| {
                                let back = keeper.take_back.back(&pressed);
                                let id = front.build.with_untracked(|build| build.id.clone());
                                keeper.make(&id, back);
                                go_to("log-take-back".to_owned());
                            }
                        >
                            {text}
                        </button>
                    }
                })
            }}
            {move || {
                taken.get().map(|pressed| {
                    let text = format!("put {} back", named(&pressed.change));
                    view! {
                        <button
                            type="button"
                            class="way"
                            on:click=move |_| {
                                wrong.set(front.press(pressed.change.clone()).err());
                                go_to("log-take-back".to_owned());
                            }
                        >
                            {text}
                        </button>
                    }
                })
            }}
        </div>
        <p class="problem" role="status">{wrong}</p>
    }
}

/// What the head lost between two weighings.
#[component]
fn Lost() -> impl IntoView {
    let workspace = Workspace::here();
    let front = Front::here();
    let rows = move || {
        let system = workspace.system.get();
        let (losses, tool) = front.story.with(|story| (story.losses.clone(), story.tool));
        let steps = front.build.with(|build| build.steps.clone());
        let name = |place: usize| {
            steps
                .get(place)
                .map(|step| step.name.clone())
                .unwrap_or_default()
        };
        let rows = losses.into_iter().map(|between| {
            let kinds: Vec<&str> = between.kinds.iter().map(|kind| kind.words()).collect();
            let kinds = if between.to_target {
                "to come to the target: no loss".to_owned()
            } else if kinds.is_empty() {
                "no step in between takes from the ledger".to_owned()
            } else {
                kinds.join(", ")
            };
            view! {
                <tr>
                    <th scope="row">
                        {format!("{} to {}", name(between.from), name(between.to))}
                        <small>{kinds}</small>
                    </th>
                    <td>{show_mass(between.kg, system)}</td>
                </tr>
            }
        });
        let tool = tool.map(|mass| {
            view! {
                <tr>
                    <th scope="row">"the whole tool weighs"</th>
                    <td>{show_mass(mass.in_kg(), system)}</td>
                </tr>
            }
        });
        (rows.collect_view(), tool)
    };
    let any = Memo::new(move |_| {
        front
            .story
            .with(|story| !story.losses.is_empty() || story.tool.is_some())
    });
    view! {
        <section aria-labelledby="log-lost">
            <h2 id="log-lost">"lost between weighings"</h2>
            <Show
                when=move || any.get()
                fallback=|| view! { <p class="soft">"Weigh at two steps, and what went between them stands here. Weigh the cut piece first."</p> }
            >
                <table class="log-table">
                    <tbody>{rows}</tbody>
                </table>
            </Show>
        </section>
    }
}

/// How it ends.
#[component]
fn Ends() -> impl IntoView {
    let front = Front::here();
    let outcome = Memo::new(move |_| front.build.with(|build| build.outcome));
    let end = move |outcome: Outcome| {
        move |_| {
            // What runs at the end has run till then.
            let runs = front.story.with_untracked(|story| story.open);
            if let Some((step, _)) = runs.filter(|_| outcome != Outcome::Open) {
                let _ = front.record(step, What::Stop);
            }
            // An outcome is never refused.
            let _ = front.press(Change::End(outcome));
        }
    };
    view! {
        <section aria-labelledby="log-ends">
            <h2 id="log-ends">"how it ends"</h2>
            <div class="log-presses">
                {move || match outcome.get() {
                    Outcome::Open => {
                        view! {
                            <button type="button" class="way" on:click=end(Outcome::Finished)>"it is finished"</button>
                            <button type="button" class="way" on:click=end(Outcome::Spoiled)>"it is spoiled"</button>
                        }
                            .into_any()
                    }
                    ended => {
                        view! {
                            <p>{format!("It is {}.", ended.word())}</p>
                            <button type="button" class="way" on:click=end(Outcome::Open)>"go on with it"</button>
                        }
                            .into_any()
                    }
                }}
            </div>
        </section>
    }
}

/// The build as a file, its design, and its removal.
#[component]
fn Away() -> impl IntoView {
    let workspace = Workspace::here();
    let keeper = here();
    let front = Front::here();
    let save = move |_| {
        let build = front.build.get_untracked();
        let name = file_name(&words::name(&build), ENDING);
        let log = Log {
            builds: vec![build],
            unread: Vec::new(),
        };
        save_text(workspace, &name, &log.to_json());
    };
    let open = move |_| {
        let design = front.build.with_untracked(|build| build.design.clone());
        workspace.bring(design.name.clone(), design, None);
        workspace.screen.set(Screen::Head);
    };
    let remove = move |_| {
        // A removal is never refused.
        let _ = front.press(Change::Remove);
        keeper.chosen.set(None);
    };
    view! {
        <div class="log-away actions">
            <button type="button" class="plain" on:click=save>"save this build as a file"</button>
            <button type="button" class="plain" on:click=open>"put its design on the sheet"</button>
            <button type="button" class="plain" on:click=remove>"remove this build"</button>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::units::Mass;

    #[test]
    fn what_is_refused_is_said_without_the_number_of_an_entry() {
        let design = headwright::design::starter("rounding").expect("a starter");
        let mut build = Build::begun("b1", None, design, 5);
        let what = What::weighed(Mass::kg(900.0));
        let refused = build.record(Event {
            step: 1,
            at: 7,
            what,
        });
        let said = said(&refused.expect_err("no head weighs so much"));
        assert!(said.starts_with("The weight is 900 kg."), "{said}");
    }
}
