//! From slot to eye: the opening, the drifts, how deep each goes, and the last one to be printed.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::super::workshop::Workshop;
use super::print::print_alone;
use headwright::drift::{CAUTIONS, DriftError, Plan, plan, profile_svg};

mod figure;
mod opening;
mod own;
mod series;
mod words;

/// What the drifts of the head in work are, or why there are none.
type Drifts = Result<Plan, Vec<DriftError>>;

/// The whole part of the sheet.
#[component]
pub fn SlotToEye() -> impl IntoView {
    let workspace = Workspace::here();
    let drifting = Workshop::here().drifting;
    let drifts: Signal<Drifts> = Memo::new(move |_| {
        let solid = workspace.sound;
        solid.with(|solid| drifting.value.with(|drifting| plan(solid, drifting)))
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
            <own::Own drifts=drifts />
            <h3>"punching and drifting"</h3>
            <ul class="cautions">
                {CAUTIONS.into_iter().map(|text| view! { <li>{text}</li> }).collect_view()}
                <li>"Local codes and licensed practice come first."</li>
            </ul>
        </section>
    }
}
