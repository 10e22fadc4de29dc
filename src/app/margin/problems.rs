//! What cannot be, in sentences, and ways out.

use std::time::Duration;

use leptos::prelude::*;

use super::super::holding::{Holding, holdings};
use super::super::state::Workspace;
use super::super::ways::{Way, ways};
use super::super::words;
use crate::design::Design;
use crate::fit::{Fitted, Outcome, Quantity};
use crate::units::{System, show_mass};

/// How long the head rests before ways out are tried, so that a drag stays smooth.
const REST: Duration = Duration::from_millis(150);

/// An unsound head, or a hold out of reach; nothing while all is well.
#[component]
pub fn Problems() -> impl IntoView {
    let workspace = Workspace::here();
    let unsound = move || workspace.problems.with(|p| !p.is_empty());
    let missed = Memo::new(move |_| {
        let design = workspace.design.get();
        let mut all = workspace.properties.with(|p| holdings(&design, p));
        all.retain(|holding| holding.miss != 0.0);
        all
    });
    view! {
        <Show when=unsound>
            <section class="problems" aria-labelledby="cannot-be">
                <h2 id="cannot-be">"This head can’t be made"</h2>
                {move || {
                    let system = workspace.system.get();
                    workspace
                        .problems
                        .get()
                        .into_iter()
                        .map(|error| view! { <p>{error.sentence(system)}</p> })
                        .collect_view()
                }}
                <p class="soft">"The drawing and the numbers are those of the last head that could."</p>
            </section>
        </Show>
        <Show when=move || !unsound() && missed.with(|m| !m.is_empty())>
            <section class="problems" aria-labelledby="not-kept">
                <h2 id="not-kept">{move || missed.with(|m| title(m))}</h2>
                <p>
                    {move || {
                        let system = workspace.system.get();
                        let lock = workspace
                            .moved
                            .get()
                            .and_then(|dim| Some((dim, workspace.design.with(|d| d.size(dim))?)))
                            .map(|(dim, size)| {
                                format!("With the {} at {}", dim.words(), words::length(size.in_mm(), system))
                            });
                        missed.with(|m| account(m, lock.as_deref(), system))
                    }}
                </p>
                {move || {
                    let system = workspace.system.get();
                    workspace
                        .fitted
                        .get()
                        .map(|fitted| in_the_way(&workspace.design.get(), &fitted, system))
                }}
                <WaysOut />
            </section>
        </Show>
    }
}

fn title(missed: &[Holding]) -> &'static str {
    match missed {
        [one] if one.target.quantity == Quantity::Mass => "The weight can’t be kept",
        [_] => "The balance can’t be kept",
        _ => "Weight and balance can’t both be kept",
    }
}

fn account(missed: &[Holding], lock: Option<&str>, system: System) -> String {
    let each = missed.iter().map(|holding| {
        let (name, value) = match holding.target.quantity {
            Quantity::Mass => ("weight", show_mass(holding.value, system)),
            Quantity::Balance => {
                let (number, place) = words::balance(holding.value, system);
                ("balance", format!("{number} {place}"))
            }
        };
        format!("the {name} comes no nearer than {value}")
    });
    let each = each.collect::<Vec<_>>().join(", and ");
    match lock {
        Some(lock) => format!("{lock} {each}."),
        None => {
            let mut letters = each.chars();
            let first = letters.next().map(|c| c.to_uppercase().to_string());
            format!("{}{}.", first.unwrap_or_default(), letters.as_str())
        }
    }
}

fn in_the_way(design: &Design, fitted: &Fitted, system: System) -> impl IntoView + use<> {
    let limits: Vec<String> = fitted
        .in_the_way
        .iter()
        .map(|obstacle| obstacle.words(system))
        .collect();
    let limits = match limits.as_slice() {
        [] => None,
        [one] => Some(format!("In the way: {one}.")),
        [others @ .., last] => Some(format!("In the way: {}, and {last}.", others.join("; "))),
    };
    let first = match fitted.outcome {
        Outcome::StepLimit => Some("The fit stopped before it had settled.".to_owned()),
        Outcome::Contradictory => Some("Two holds ask for different things.".to_owned()),
        _ if design.free.is_empty() => {
            Some("No size is free to move: set one free in the list.".to_owned())
        }
        _ => None,
    };
    view! {
        {first.map(|sentence| view! { <p>{sentence}</p> })}
        {limits.map(|sentence| view! { <p>{sentence}</p> })}
    }
}

/// Buttons, each with the weight and the balance that it leads to.
#[component]
fn WaysOut() -> impl IntoView {
    let workspace = Workspace::here();
    let found = RwSignal::new(Vec::<Way>::new());
    let tried = RwSignal::new(false);
    let waiting = StoredValue::new(None::<TimeoutHandle>);
    let stop = move || {
        if let Some(handle) = waiting.try_update_value(Option::take).flatten() {
            handle.clear();
        }
    };
    Effect::new(move || {
        workspace.design.track();
        stop();
        tried.set(false);
        let handle = set_timeout_with_handle(
            move || {
                let now = workspace.standing();
                let before = untrack(|| workspace.before());
                let system = workspace.system.get_untracked();
                let division = workspace.division().in_mm();
                found.set(ways(&now, before.as_ref(), division, system));
                tried.set(true);
            },
            REST,
        );
        waiting.set_value(handle.ok());
    });
    on_cleanup(stop);
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
