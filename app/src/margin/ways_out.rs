//! Ways out of a hold that is out of reach, as buttons.

use std::time::Duration;

use leptos::prelude::*;

use super::super::fitting;
use super::super::later::Later;
use super::super::state::Workspace;
use super::super::ways::Way;
use super::super::words;
use headwright::units::show_mass;

/// How long the head rests before ways out are tried, so that a drag stays smooth.
const REST: Duration = Duration::from_millis(150);

/// Buttons, each with the weight and the balance that it leads to.
#[component]
pub fn WaysOut() -> impl IntoView {
    let workspace = Workspace::here();
    let found = RwSignal::new(Vec::<Way>::new());
    let tried = RwSignal::new(false);
    let later = Later::new();
    Effect::new(move || {
        workspace.design.track();
        tried.set(false);
        later.start(REST, move || {
            let now = workspace.standing();
            let before = untrack(|| workspace.before());
            let system = workspace.system.get_untracked();
            let division = workspace.division().in_mm();
            found.set(fitting::ways(&now, before.as_ref(), division, system));
            tried.set(true);
        });
    });
    view! {
        <div class="ways">
            {move || {
                let system = workspace.system.get();
                found
                    .get()
                    .into_iter()
                    .enumerate()
                    .map(|(index, way)| {
                        let leads = format!(
                            "balance {}, weight {}",
                            words::about(way.balance.abs(), system),
                            show_mass(way.mass, system),
                        );
                        let words = way.words.clone();
                        view! {
                            <button
                                type="button"
                                class=if index == 0 { "way first" } else { "way" }
                                disabled=move || !tried.get()
                                on:click=move |_| workspace.replace(way.name(), way.design.clone())
                            >
                                <span>{words}</span>
                                <small>{leads}</small>
                            </button>
                        }
                    })
                    .collect_view()
            }}
        </div>
    }
}
