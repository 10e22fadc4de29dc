//! From slot to eye: the opening, the drifts, how deep each goes, and the last one to be printed.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::workshop::Workshop;
use super::print::print_alone;
use headwright::drift::{DriftError, Drifting, OwnSet, Plan, plan, profile_svg};

mod figure;
mod opening;
mod own;
mod series;
mod words;

pub use opening::down;

/// What the drifts of the head in work are, or why there are none.
type Drifts = Result<Plan, Vec<DriftError>>;
/// What the smith's own drifts do, or what is wrong with them.
type OwnDrifts = Result<Option<OwnSet>, Vec<DriftError>>;

/// The whole part of the sheet.
#[component]
pub fn SlotToEye() -> impl IntoView {
    let workspace = Workspace::here();
    let drifting = Workshop::here().drifting.value;
    let heat = Workshop::here().celsius.value;
    // A drift of one's own that cannot be is no reason to show no series.
    let series = Memo::new(move |_| Drifting {
        own: Vec::new(),
        ..drifting.get()
    });
    let bar = Memo::new(move |_| workspace.design.with(|design| design.bar.clone()));
    let drifts: Signal<Drifts> = Memo::new(move |_| {
        let celsius = heat.get();
        workspace
            .sound
            .with(|solid| bar.with(|bar| series.with(|series| plan(solid, bar, series, celsius))))
    })
    .into();
    let own: Signal<OwnDrifts> = Memo::new(move |_| {
        if drifts.with(Result::is_err) || drifting.with(|d| d.own.is_empty()) {
            return Ok(None);
        }
        let celsius = heat.get();
        workspace
            .sound
            .with(|solid| {
                bar.with(|bar| drifting.with(|drifting| plan(solid, bar, drifting, celsius)))
            })
            .map(|plan| plan.own)
    })
    .into();
    let print = move |_| {
        let system = workspace.system.get_untracked();
        let sheet = drifts
            .with_untracked(|drifts| drifts.as_ref().ok().map(|plan| profile_svg(plan, system)));
        if let Some(sheet) = sheet {
            print_alone(&sheet);
        }
    };
    view! {
        <section class="drifts workshop" aria-labelledby="slot-to-eye">
            <h2 id="slot-to-eye">"from slot to eye"</h2>
            <Words id="drift-words" terms=&[Term::Slit, Term::Drift, Term::Waist, Term::Bolster, Term::Room] />
            <p class="soft">
                "Opening, drifts and clearance are your workshop’s: they stay in this browser, whatever head is in work."
            </p>
            <div class="drifts-begin">
                <opening::Choices drifts=drifts />
                <figure::Nested drifts=drifts />
            </div>
            <series::Series drifts=drifts />
            <Show when=move || drifts.with(Result::is_ok)>
                <button type="button" class="plain" on:click=print>
                    "print the last drift full size"
                </button>
            </Show>
            <own::Own own=own />
            <p class="soft">
                "Hot slug and scale fly, and the punch has to be cooled: read what goes with saw, fire, punch and grinder above."
            </p>
        </section>
    }
}
