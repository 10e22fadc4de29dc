//! All builds, the newest first, and beginning another.

use leptos::prelude::*;

use super::super::clock;
use super::super::journal::{id, now};
use super::super::rack::Unreadable;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::change::Change;
use super::existing::ToExisting;
use super::learned::Losses;
use super::minutes::WhereTheyGo;
use super::out_in::OutAndIn;
use super::price::Price;
use super::{Now, OnRack, here, words};
use headwright::log::{Build, MOST_BUILDS, Step, usual_steps};

/// The list of builds.
#[component]
pub fn Builds() -> impl IntoView {
    let keeper = here();
    let builds = move || keeper.builds.get().unwrap_or_default();
    let unread = keeper.unread;
    view! {
        <h1 class="screen-name">"The log"</h1>
        <p class="said-once">
            "What really happened: press start and stop at every step, weigh, and count heats. It stands in this browser and nowhere else. Save the log as a file now and then."
        </p>
        <Words id="log-words" terms=&[Term::Build, Term::Weighing, Term::HeatCounted] />
        <Begin />
        <Removed />
        <ul class="log-builds" aria-label="builds">
            <For each=builds key=Build::to_json let:build>
                <Row of=build />
            </For>
        </ul>
        <Show when=move || keeper.builds.with(|builds| builds.as_ref().is_none_or(Vec::is_empty))>
            <p class="log-empty">"Nothing was logged yet."</p>
        </Show>
        {move || view! { <Unreadable all=unread.get() /> }}
        <ToExisting />
        <OutAndIn />
        <WhereTheyGo />
        <Losses />
        <Words
            id="log-losses-words"
            terms=&[
                Term::PublishedDefault,
                Term::BetweenTwo,
                Term::BuildsBehind,
                Term::NineInTen,
                Term::FarOut,
                Term::LeftOut,
                Term::Scale,
                Term::Spread,
            ]
        />
        <Price />
        <Words
            id="log-price-words"
            terms=&[Term::Wage, Term::Overhead, Term::Consumables, Term::Spoiled, Term::Fees]
        />
    }
}

/// The steps that the next build begins with: the smith's own, as the newest of `builds`, the first, has them.
pub fn next_steps(builds: &[Build]) -> Vec<Step> {
    let newest = builds.first().map(|build| build.steps.clone());
    newest
        .filter(|steps| !steps.is_empty())
        .unwrap_or_else(usual_steps)
}

/// Begins a build of the head on the sheet.
#[component]
fn Begin() -> impl IntoView {
    let workspace = Workspace::here();
    let keeper = here();
    let name = move || workspace.design.with(|design| design.name.clone());
    let refused = move || {
        if workspace.problems.with(|problems| !problems.is_empty()) {
            return Some(
                "The head on the sheet can’t be made as it is: no build begins with it.".to_owned(),
            );
        }
        let count = keeper
            .builds
            .with(|builds| builds.as_ref().map_or(0, Vec::len));
        (count >= MOST_BUILDS).then(|| {
            format!("The log holds {MOST_BUILDS} builds. Save it as a file, then remove some, before another begins.")
        })
    };
    let begin = move |_| {
        let design = workspace.design.get_untracked();
        let entry = workspace.journal.entry.get_untracked();
        let mut build = Build::begun(&id(), entry, design, now());
        build.steps = keeper
            .builds
            .with_untracked(|builds| next_steps(builds.as_deref().unwrap_or_default()));
        let id = build.id.clone();
        keeper.make(&id, Change::Put(Box::new(build)));
        keeper.chosen.set(Some(id));
    };
    move || match refused() {
        Some(sentence) => view! { <p class="problem log-begin">{sentence}</p> }.into_any(),
        None => view! {
            <div class="log-begin">
                <button type="button" class="way first" on:click=begin>
                    {move || format!("begin a build of {}", name())}
                </button>
            </div>
        }
        .into_any(),
    }
}

/// The build that was removed last, until something else is pressed.
#[component]
fn Removed() -> impl IntoView {
    let keeper = here();
    move || {
        keeper.take_back.removed().map(|(pressed, build)| {
            let name = words::name(&build);
            let said = format!(
                "The build of {name} was removed. It can be put back as long as this page is open."
            );
            view! {
                <div class="log-gone" role="status">
                    <p>{said}</p>
                    <button
                        type="button"
                        class="plain"
                        on:click=move |_| {
                            let back = keeper.take_back.back(&pressed);
                            keeper.make(&build.id, back);
                        }
                    >
                        {format!("put {name} back")}
                    </button>
                </div>
            }
        })
    }
}

/// A build: its name, when, what runs, how long it took.
#[component]
fn Row(
    /// The build.
    of: Build,
) -> impl IntoView {
    let build = of;
    let keeper = here();
    let on_rack: OnRack = expect_context();
    let Now(clock) = expect_context();
    let name = words::name(&build);
    let story = build.story();
    let begun = clock::time(build.begun, now());
    let facts = format!(
        "begun {begun} · {} · {}{}",
        build.outcome.word(),
        clock::minutes(story.minutes),
        match story.heats {
            0 => String::new(),
            1 => " · 1 heat".to_owned(),
            heats => format!(" · {heats} heats"),
        }
    );
    let runs = story.open.map(|(step, since)| {
        let step = words::step(&build, step);
        view! {
            <span class="log-running">
                {step} " runs " <strong aria-hidden="true">{move || clock::running(clock.get().saturating_sub(since))}</strong>
            </span>
        }
    });
    let id = build.id.clone();
    let since = {
        let build = build.clone();
        move || {
            let note = on_rack.since(&build)?;
            Some(view! { <span class="log-since">{note.to_string()}</span> })
        }
    };
    view! {
        <li>
            <button
                type="button"
                class="log-open"
                on:click=move |_| keeper.chosen.set(Some(id.clone()))
            >
                <span class="log-name">{name} " "</span>
                {runs}
                <span class="log-facts">{facts}</span>
                {since}
            </button>
        </li>
    }
}
