//! Heads to begin with, by what they are for, each at the weight that is wanted.

use leptos::prelude::*;

use super::keep;
use super::mark::{Mark, State};
use super::silhouette::Silhouette;
use super::state::{Screen, Workspace};
use super::terms::{Term, Words};
use headwright::design::{Purpose, starter, starter_names, starter_purpose};
use headwright::units::show_mass;

mod begin;
mod wanted;

use begin::{Begin, Brought};

/// The starters under what they are for, and the weight that is wanted of them.
#[component]
pub fn Starters() -> impl IntoView {
    let workspace = Workspace::here();
    let wanted = workspace.wanted;
    let all: Vec<(Purpose, Begin)> = starter_names()
        .filter_map(|name| Some((starter_purpose(name)?, starter(name)?)))
        .filter_map(|(purpose, design)| Some((purpose, Begin::new(design, wanted.into())?)))
        .collect();
    let begins: Vec<Begin> = all.iter().map(|(_, begin)| begin.clone()).collect();
    begin::bring_all(&begins, workspace);
    let aside = keep::aside().and_then(|(design, _)| Begin::new(design, Signal::stored(None)));
    // One scale for all, so that a sledge looks like one.
    let views: Vec<_> = begins
        .iter()
        .chain(&aside)
        .map(|begin| begin.view)
        .collect();
    let widest = Memo::new(move |_| {
        views
            .iter()
            .map(|view| view.with(|view| view.ends.1 - view.ends.0))
            .fold(1.0, f64::max)
    });
    view! {
        <div class="sheet alone">
            <h1 class="screen-name">"Heads to begin with"</h1>
            <p class="said-once">
                "All drawn for this program, to one scale. Choosing one puts it in the place of the present head; undo brings that back. What each is for is common practice, without a source."
            </p>
            <wanted::Wanted begins=begins />
            <Words
                id="starters-words"
                terms=&[Term::DrawingOut, Term::Pein, Term::Crown, Term::Planishing, Term::Striker]
            />
            {aside
                .map(|begin| {
                    view! {
                        <section class="starter-group" aria-labelledby="put-aside">
                            <h2 id="put-aside">"put aside when a link or a file was opened"</h2>
                            <ul class="starters">
                                <Starter begin=begin widest=widest />
                            </ul>
                        </section>
                    }
                })}
            {Purpose::ALL
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
                .collect_view()}
        </div>
    }
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
                    workspace.replace(name, design);
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
