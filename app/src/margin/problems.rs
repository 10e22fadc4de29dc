//! What cannot be, in sentences, and ways out.

use leptos::prelude::*;

use super::super::fitting::Arrival;
use super::super::holding::{Holding, on};
use super::super::state::Workspace;
use super::super::words;
use super::to_rule::is_done;
use super::ways_out::WaysOut;
use headwright::design::{Design, Quantity};
use headwright::fit::{Fitted, Outcome};
use headwright::units::System;

/// The result under which it is said what cannot be: that of the hold asked for last. Nothing where
/// the margin says it: the head cannot be made, or what was asked for stands there or on the sheet.
pub fn place(workspace: Workspace) -> Option<Quantity> {
    let asked = workspace.asked.get()?;
    let elsewhere = matches!(asked, Quantity::Mass | Quantity::Balance)
        || asked.is_of_tool()
        || workspace.moved.with(Option::is_some)
        || workspace.problems.with(|p| !p.is_empty())
        || workspace.holdings.with(|all| on(all, asked).is_none());
    (!elsewhere).then_some(asked)
}

/// An unsound head, or a hold out of reach; nothing while all is well.
#[component]
pub fn Problems() -> impl IntoView {
    let workspace = Workspace::here();
    let unsound = move || workspace.problems.with(|p| !p.is_empty());
    let missed = Memo::new(move |_| {
        let mut all = workspace.holdings.get();
        all.retain(|holding| holding.miss != 0.0);
        all
    });
    // A head from elsewhere is shown as it came, whatever a fit could make of it.
    let reachable = move || {
        workspace
            .fitted
            .with(|f| f.as_ref().is_some_and(|f| f.outcome == Outcome::Met))
    };
    let here = move || workspace.fit_file.get() == Arrival::Here;
    // Rounded on purpose, and near: no trouble, and fitting again is not the first thing to do.
    let rounded = move || is_done(workspace);
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
        <Show when=move || !unsound() && missed.with(|m| !m.is_empty()) && !here()>
            <Awaited />
        </Show>
        <Show when=move || !unsound() && missed.with(|m| !m.is_empty()) && reachable()>
            <section
                class="problems"
                class:rounded=rounded
                aria-labelledby="not-fitted"
            >
                <h2 id="not-fitted">
                    {move || if rounded() { "On the rule, not fitted" } else { "Not yet fitted" }}
                </h2>
                <p>
                    {move || if rounded() {
                        "The free sizes are on the rule and miss what is held by a little. A fit takes them off the rule."
                    } else {
                        "The head is shown as it came. It does not keep what it holds, but it can."
                    }}
                </p>
                <div class="ways">
                    <button
                        type="button"
                        class="way"
                        class:first=move || !rounded()
                        on:click=move |_| workspace.fit()
                    >
                        "Fit it"
                    </button>
                </div>
            </section>
        </Show>
        <Show when=move || {
            !unsound() && missed.with(|m| !m.is_empty()) && here() && !reachable()
        }>
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
                                format!("With the {} at {}", dim.words(), size.words(system))
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

/// What is held is not kept, because the fit is not there yet.
#[component]
fn Awaited() -> impl IntoView {
    let workspace = Workspace::here();
    let missing = move || workspace.fit_file.get() == Arrival::Missing;
    view! {
        <section class="problems" aria-labelledby="awaited">
            <h2 id="awaited">
                {move || if missing() { "What is held can’t follow yet" } else { "What is held follows in a moment" }}
            </h2>
            <p role="status">
                {move || if missing() {
                    "The part of the page that fits a head to what is held could not be fetched. Until it is there the head stays as you set it. Try again when you have a connection."
                } else {
                    "The part of the page that fits a head to what is held is being fetched …"
                }}
            </p>
            <Show when=missing>
                <div class="ways">
                    <button type="button" class="way" on:click=move |_| workspace.fetch_fit()>
                        "Try again"
                    </button>
                </div>
            </Show>
        </section>
    }
}

fn title(missed: &[Holding]) -> String {
    let names: Vec<&str> = missed.iter().map(|m| m.target.quantity.words()).collect();
    match names.as_slice() {
        [one, other] => {
            format!("{} and {other} can’t both be kept", words::capitalized(one))
        }
        [one] => format!("The {one} can’t be kept"),
        all => format!("{} holds can’t all be kept", all.len()),
    }
}

fn account(missed: &[Holding], lock: Option<&str>, system: System) -> String {
    let each = missed.iter().map(|holding| {
        let quantity = holding.target.quantity;
        let value = if quantity == Quantity::Balance {
            let (number, place) = words::balance(holding.value, system);
            format!("{number} {place}")
        } else {
            quantity.amount(holding.value, system).words(system)
        };
        format!("the {} no nearer than {value}", quantity.words())
    });
    let each = each.collect::<Vec<_>>().join(", ");
    let each = each.replacen(" no nearer", " comes no nearer", 1);
    match lock {
        Some(lock) => format!("{lock} {each}."),
        None => format!("{}.", words::capitalized(&each)),
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
        Outcome::Contradictory => Some(
            "No limit is in the way: what is free can meet one only at the cost of another."
                .to_owned(),
        ),
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
