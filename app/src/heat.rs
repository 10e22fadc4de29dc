//! The heat sheet: how this head is normalized, hardened and tempered in its steel.

use leptos::prelude::*;

use super::state::Workspace;
use super::terms::{Term, Words};
use headwright::design::Edit;
use headwright::heat::{CAUTIONS, Heat};
use headwright::units::{System, show_whole_temperature};

mod analysis;
mod brittle;
mod curve;
mod ends;
mod lens;
mod margin;
mod quench;
mod row;
mod scale;
mod shown;
mod sources;
mod steel;
mod strip;
mod temper;
mod work;
mod worked;

use worked::Worked;

/// Shows the heat treatment changed by `change`, as a part of the row of edits called `subject`.
fn show_heat(workspace: Workspace, subject: &str, change: impl FnOnce(&mut Heat)) {
    let mut heat = workspace.design.with_untracked(|design| design.heat);
    change(&mut heat);
    workspace.show(subject, Edit::Heat(Box::new(heat)));
}

/// Makes a change at once, as a step of its own.
fn apply(workspace: Workspace, change: impl FnOnce(&mut Heat)) {
    workspace.keep();
    show_heat(workspace, "heat", change);
    workspace.keep();
}

/// The heat treatment.
#[component]
pub fn HeatScreen() -> impl IntoView {
    let workspace = Workspace::here();
    provide_context(Worked::new(workspace));
    view! {
        <Hatching />
        <div class="columns heat-screen">
            <div class="sheet">
                <h1 class="screen-name">{move || workspace.design.with(|d| d.name.clone())}</h1>
                <p class="said-once">
                    {move || match workspace.system.get() {
                        System::Metric => "its heat treatment, all heats in °C",
                        System::Imperial => "its heat treatment, all heats in °F",
                    }}
                </p>
                <steel::Steel />
                <Wrong />
                <strip::Strip />
                <brittle::Brittle />
            </div>
            <margin::Margin />
            <div class="under">
                <section class="workshop heat-fields" aria-labelledby="as-you-do-it">
                    <h2 id="as-you-do-it">"as you do it"</h2>
                    <Words id="doing-words" terms=&[Term::Agitation, Term::Soak, Term::Analysis] />
                    <div class="field-columns">
                        <quench::Fields />
                        <temper::Fields />
                        <analysis::Fields />
                    </div>
                </section>
                <work::Steps />
                <ends::Ends />
                <curve::Curve />
                <Cautions />
                <sources::Sources />
                <div class="actions">
                    <super::foot::Steps />
                </div>
            </div>
        </div>
    }
}

/// Why there is no plan; nothing while there is one.
#[component]
fn Wrong() -> impl IntoView {
    let workspace = Workspace::here();
    let worked = Worked::here();
    view! {
        <div role="status">
            <Show when=move || worked.errors.with(|errors| !errors.is_empty())>
                <div class="problems">
                    <h2>"There is no plan for this"</h2>
                    {move || {
                        let system = workspace.system.get();
                        let errors = worked.errors.get();
                        errors
                            .into_iter()
                            .map(|error| view! { <p>{error.sentence(system)}</p> })
                            .collect_view()
                    }}
                    <p class="soft">
                        "What is shown is the last plan there was, or the usual one for this steel."
                    </p>
                </div>
            </Show>
        </div>
    }
}

/// Where what is asked for has no plan: that what follows is another one's, and whose.
#[component]
fn Stale() -> impl IntoView {
    let workspace = Workspace::here();
    let worked = Worked::here();
    let of = move || {
        let system = workspace.system.get();
        worked.plan.with(|plan| {
            plan.as_ref().map(|plan| {
                format!(
                    "Not for what is asked for above: this is for {} in {}, tempered at {}.",
                    plan.steel.grade.name(),
                    plan.quench.medium.name(),
                    show_whole_temperature(plan.tempering.celsius, system)
                )
            })
        })
    };
    view! {
        <Show when=move || worked.errors.with(|errors| !errors.is_empty())>
            <p class="sentence problem">{of}</p>
        </Show>
    }
}

/// What is to be said of this plan.
#[component]
fn Notes() -> impl IntoView {
    let workspace = Workspace::here();
    let worked = Worked::here();
    let notes = move || {
        let system = workspace.system.get();
        worked.plan.with(|plan| {
            let notes = plan.iter().flat_map(|plan| plan.notes.iter());
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
                "Hardness is an estimate, given as a band: bars of one grade differ, and so do quenches of one name. A file on the face has the last word."
            </p>
        </section>
    }
}

/// What goes with every heat treatment.
#[component]
fn Cautions() -> impl IntoView {
    view! {
        <section class="workshop work-cautions" aria-labelledby="before-the-fire">
            <h2 id="before-the-fire">"before the fire is lit"</h2>
            <ul class="said">
                {CAUTIONS
                    .map(|caution| {
                        view! {
                            <li>
                                {caution.text}
                                <small>{format!(" {}", sources::named(caution.source, caution.certainty))}</small>
                            </li>
                        }
                    })
                    .collect_view()}
            </ul>
        </section>
    }
}

/// The hatchings of the sheet: the brittle range, and the two windows of hardness.
#[component]
fn Hatching() -> impl IntoView {
    view! {
        <svg class="hatching" width="0" height="0" aria-hidden="true" focusable="false">
            <defs>
                <pattern id="brittle" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
                    <path d="M0 0V6" />
                </pattern>
                <pattern id="window-wide" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
                    <path d="M0 0V7" />
                </pattern>
                <pattern id="window-narrow" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
                    <path d="M0 0V7" />
                </pattern>
            </defs>
        </svg>
    }
}
