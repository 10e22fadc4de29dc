//! Ways out of a hold that is out of reach, as buttons.

use std::time::Duration;

use leptos::prelude::*;

use super::super::fitting;
use super::super::later::Later;
use super::super::state::Workspace;
use super::super::ways::{TURNS, Way};
use super::super::words;
use headwright::units::show_mass;

/// How long the head rests before ways out are tried, so that a drag stays smooth.
const REST: Duration = Duration::from_millis(300);

/// Tries what is tried in one turn, and the rest in turns of their own, so that the page stays quick.
fn turn(
    workspace: Workspace,
    later: Later,
    number: usize,
    mut ways: Vec<Way>,
    found: RwSignal<Vec<Way>>,
    tried: RwSignal<bool>,
) {
    let before = untrack(|| workspace.before());
    let more = fitting::ways(
        &workspace.standing(),
        before.as_ref(),
        workspace.division().in_mm(),
        workspace.system.get_untracked(),
        number,
        &ways,
    );
    ways.extend(more);
    if number + 1 < TURNS {
        later.start(Duration::ZERO, move || {
            turn(workspace, later, number + 1, ways, found, tried);
        });
    } else {
        found.set(ways);
        tried.set(true);
    }
}

/// Buttons, each with the weight and the balance that it leads to.
#[component]
pub fn WaysOut() -> impl IntoView {
    let workspace = Workspace::here();
    let found = RwSignal::new(Vec::<Way>::new());
    let tried = RwSignal::new(false);
    let later = Later::new();
    Effect::new(move || {
        workspace.design.track();
        workspace.system.track();
        tried.set(false);
        later.start(REST, move || {
            turn(workspace, later, 0, Vec::new(), found, tried)
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
