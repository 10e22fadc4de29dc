//! The handle screen: what handle fits the eye, what it weighs, and how the finished tool balances.

use leptos::prelude::*;

use super::state::Workspace;
use super::terms::{Term, Words};
use headwright::design::Edit;
use headwright::handle::{CAUTIONS, Handle};
use headwright::units::System;

mod eye;
mod hammer;
mod levels;
mod margin;
mod path;
mod row;
mod stations;
mod tongue;
mod wedges;
mod wood;
mod worked;

use worked::Worked;

/// Shows the handle changed by `change`, as a part of the row of edits called `subject`.
fn show_handle(workspace: Workspace, subject: &str, change: impl FnOnce(&mut Handle)) {
    let mut handle = workspace.design.with_untracked(|d| d.handle.clone());
    change(&mut handle);
    workspace.show(subject, Edit::Handle(Box::new(handle)));
}

/// Makes a change at once, as a step of its own.
fn apply(workspace: Workspace, change: impl FnOnce(&mut Handle)) {
    workspace.keep();
    show_handle(workspace, "handle", change);
    workspace.keep();
}

/// The usual handle for the head, in the units that are shown.
fn usual(workspace: Workspace) -> Handle {
    let system = workspace.system.get_untracked();
    workspace
        .sound
        .with_untracked(|solid| Handle::usual(solid, system))
}

/// The handle.
#[component]
pub fn HandleScreen() -> impl IntoView {
    let workspace = Workspace::here();
    let worked = Worked::new(workspace);
    provide_context(worked);
    let put_usual = move |_| {
        let usual = usual(workspace);
        apply(workspace, |handle| *handle = usual);
    };
    view! {
        <div class="columns handle-screen">
            <div class="sheet">
                <h1 class="screen-name">{move || workspace.design.with(|d| d.name.clone())}</h1>
                <p class="said-once">
                    {move || match workspace.system.get() {
                        System::Metric => "the whole hammer, all sizes in mm",
                        System::Imperial => "the whole hammer, all sizes in inches",
                    }}
                </p>
                <Wrong />
                <hammer::Hammer />
            </div>
            <margin::Margin />
            <div class="under">
                <section class="workshop handle-fields" aria-labelledby="the-handle">
                    <div class="handle-head">
                        <h2 id="the-handle">"the handle"</h2>
                        <button type="button" class="plain" on:click=put_usual>
                            "usual handle for this head"
                        </button>
                    </div>
                    <Words
                        id="handle-words"
                        terms=&[Term::Gravity, Term::Moisture, Term::Butt, Term::Grip, Term::Oval]
                    />
                    <div class="field-columns">
                        <wood::Fields />
                        <stations::Stations />
                    </div>
                </section>
                <section class="workshop" aria-labelledby="in-the-eye">
                    <h2 id="in-the-eye">"in the eye"</h2>
                    <p class="soft">
                        "The waist governs: the tongue is no larger than the narrowest of the eye. Gaps are for both sides together, before anything swells or dries."
                    </p>
                    <Words
                        id="eye-words"
                        terms=&[Term::Waist, Term::Tongue, Term::Shoulder, Term::Kerf, Term::Wedge, Term::Crush, Term::CrossWedge]
                    />
                    <div class="in-the-eye">
                        <eye::Figure />
                        <div class="tongue-fields">
                            <tongue::Fields />
                            <wedges::Wedge />
                            <wedges::CrossWedge />
                        </div>
                    </div>
                    <levels::Table />
                </section>
                <Said />
                <div class="actions">
                    <super::foot::Steps />
                </div>
            </div>
        </div>
    }
}

/// Why the handle cannot be made; nothing while it can.
#[component]
fn Wrong() -> impl IntoView {
    let workspace = Workspace::here();
    let worked = Worked::here();
    view! {
        <div role="status">
            <Show when=move || worked.errors.with(|errors| !errors.is_empty())>
                <div class="problems">
                    <h2>"This handle can’t be made"</h2>
                    {move || {
                        let system = workspace.system.get();
                        let errors = worked.errors.get();
                        errors
                            .into_iter()
                            .map(|error| view! { <p>{error.sentence(system)}</p> })
                            .collect_view()
                    }}
                    <p class="soft">
                        "Drawing and numbers are those of the last handle that could, or of the usual one where there was none."
                    </p>
                </div>
            </Show>
        </div>
    }
}

/// What is to be said of the handle, and what goes with making and using one.
#[component]
fn Said() -> impl IntoView {
    let workspace = Workspace::here();
    let worked = Worked::here();
    let notes = move || {
        let system = workspace.system.get();
        worked.tool.with(|tool| {
            let notes = tool.iter().flat_map(|tool| tool.made.notes.iter());
            notes
                .map(|note| view! { <li>{note.sentence(system)}</li> })
                .collect_view()
        })
    };
    view! {
        <section class="workshop" aria-labelledby="to-be-said">
            <h2 id="to-be-said">"to be said of it"</h2>
            <ul class="said">{notes}</ul>
            <p class="soft">
                "Masses are estimates: wood of one name varies by a tenth and more, so weigh the finished handle."
            </p>
        </section>
        <section class="workshop" aria-labelledby="wood-and-wedge">
            <h2 id="wood-and-wedge">"wood, wedge and blow"</h2>
            <ul class="said">
                {CAUTIONS.map(|text| view! { <li>{text}</li> }).collect_view()}
            </ul>
            <p class="soft">"Local codes and licensed practice come first."</p>
        </section>
    }
}
