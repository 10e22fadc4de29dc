//! Heads to begin with, by what they are for, each at the weight that is wanted.

use leptos::prelude::*;

use super::log::ToExisting;
use super::mark::{Mark, State};
use super::silhouette::Silhouette;
use super::state::{Screen, Workspace};
use super::terms::{Term, Words};
use headwright::design::{Purpose, starter, starter_names, starter_purpose};
use headwright::units::show_mass;

mod begin;
mod wanted;

use begin::{Begin, Brought};

/// The sheet of the starters, and the weight that is wanted of them.
#[component]
pub fn Starters() -> impl IntoView {
    let all = all(Workspace::here());
    let begins = all.iter().map(|(_, begin)| begin.clone()).collect();
    view! {
        <div class="sheet alone">
            <h1 class="screen-name">"Heads to begin with"</h1>
            <p class="said-once">
                "All drawn for this program, to one scale. Choosing one puts it on the sheet; it goes on the rack once you change something, and undo brings the present head back. What each is for is common practice, without a source."
            </p>
            <wanted::Wanted begins=begins />
            <Words
                id="starters-words"
                terms=&[Term::DrawingOut, Term::Pein, Term::Crown, Term::Planishing, Term::Striker]
            />
            <ToExisting />
            <Groups all=all />
        </div>
    }
}

/// The starters alone, at the weight that was last wanted of them.
#[component]
pub fn StarterList() -> impl IntoView {
    view! { <Groups all=all(Workspace::here()) /> }
}

/// Every starter with what it is for, on its way to what is wanted.
fn all(workspace: Workspace) -> Vec<(Purpose, Begin)> {
    let wanted = workspace.wanted;
    let all: Vec<(Purpose, Begin)> = starter_names()
        .filter_map(|name| Some((starter_purpose(name)?, starter(name)?)))
        .filter_map(|(purpose, design)| Some((purpose, Begin::new(design, wanted.into())?)))
        .collect();
    let begins: Vec<Begin> = all.iter().map(|(_, begin)| begin.clone()).collect();
    begin::bring_all(&begins, workspace);
    all
}

/// The starters under what they are for.
#[component]
fn Groups(
    /// The starters.
    all: Vec<(Purpose, Begin)>,
) -> impl IntoView {
    // One scale for all, so that a sledge looks like one.
    let views: Vec<_> = all.iter().map(|(_, begin)| begin.view).collect();
    let widest = Memo::new(move |_| {
        views
            .iter()
            .map(|view| view.with(|view| view.ends.1 - view.ends.0))
            .fold(1.0, f64::max)
    });
    Purpose::ALL
        .map(|purpose| {
            let heading = format!("for-{}", purpose.words().replace([' ', ','], "-"));
            let of_it = all.iter().filter(|(of, _)| *of == purpose);
            view! {
                <section class="starter-group" aria-labelledby=heading.clone()>
                    <h2 id=heading.clone()>{purpose.words()}</h2>
                    <p>{purpose.sentence()}</p>
                    <ul class="starters">
                        {of_it
                            .map(|(_, begin)| view! { <Starter begin=begin.clone() widest=widest /> })
                            .collect_view()}
                    </ul>
                </section>
            }
        })
        .collect_view()
}

/// One starter: side view to the scale of all, name, weight and note.
#[component]
fn Starter(
    /// The starter.
    begin: Begin,
    /// Length of the longest head that is shown, mm.
    widest: Memo<f64>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let system = workspace.system;
    let view = begin.view;
    let came = begin.came;
    let drawn = begin.kg;
    let frame = move || {
        view.with(|view| {
            let (back, front) = view.ends;
            let height = view.half_height + 2.0;
            let width = front - back + 4.0;
            format!("{} {} {width} {}", back - 2.0, -height, 2.0 * height)
        })
    };
    let share = move || {
        let length = view.with(|view| view.ends.1 - view.ends.0);
        format!("width: {:.1}%", length / widest.get() * 100.0)
    };
    let (name, note) = (begin.design.name.clone(), begin.design.note.clone());
    view! {
        <li>
            <button
                type="button"
                class="starter"
                on:click=move |_| {
                    let (name, design) = begin.chosen(system.get_untracked());
                    workspace.bring(name, design, None);
                    if workspace.wanted.with_untracked(Option::is_some) {
                        workspace.fit_when_there();
                    }
                    workspace.screen.set(Screen::Head);
                }
            >
                <span class="starter-picture">
                    <svg viewBox=frame style=share aria-hidden="true" focusable="false">
                        <path class="steel" d=move || view.with(|view: &Silhouette| view.outline.clone()) />
                        <path class="hidden-edge" d=move || view.with(|view| view.eye.clone()) />
                    </svg>
                </span>
                <span class="starter-name">{name} " "</span>
                <span class="starter-mass">
                    {move || show_mass(came.with(|came| came.as_ref().map_or(drawn, |came| came.kg)), system.get())}
                </span>
                {move || came.get().map(|came| view! { <Became came=came drawn=drawn /> })}
                <span class="starter-note">{note}</span>
            </button>
        </li>
    }
}

/// How the weight of a starter stands to what is wanted of it.
#[component]
fn Became(
    /// What came of it.
    came: Brought,
    /// What it weighs as drawn, kg.
    drawn: f64,
) -> impl IntoView {
    let system = Workspace::here().system;
    let state = if came.is_met {
        State::Held
    } else {
        State::Problem
    };
    view! {
        <span class=format!("starter-became {}", state.class())>
            <Mark state=state />
            {move || came.words(drawn, system.get())}
        </span>
    }
}
