//! The margin at the right of the sheet: what the head weighs, where it balances, what is held.

use leptos::context::Provider;
use leptos::prelude::*;

use super::state::Workspace;

pub mod at_once;
mod balance;
mod holds;
mod problems;
mod results;
mod spread;
mod steps;
mod to_rule;
mod ways_out;
mod weight;

pub use balance::{BalanceNumber, standing};
pub use holds::HoldRow;
pub use problems::Problems;
pub use results::Results;
pub use weight::HoldState;

/// The margin of the head screen.
#[component]
pub fn Margin() -> impl IntoView {
    let workspace = Workspace::here().behind();
    let here = Memo::new(move |_| problems::place(workspace).is_none());
    view! {
        <aside class="margin" aria-label="weight, balance and holds">
            <weight::Weight />
            <balance::Balance />
            <Provider value=workspace>
            {move || here.get().then(|| view! { <problems::Problems /> }.into_any())}
            <holds::Holds />
            <to_rule::ToRule />
            <p class="hint">
                {move || {
                    let free = workspace.design.with(|d| d.free.len());
                    let held = workspace.design.with(super::settle::holds_something);
                    let sizes = match free {
                        0 => "No size is free".to_owned(),
                        1 => "One size is free".to_owned(),
                        count => format!("{count} sizes are free"),
                    };
                    if held && free > 0 {
                        format!("{sizes}. Change another: they follow, and what is held stays.")
                    } else if held {
                        format!("{sizes}: nothing can follow to keep what is held.")
                    } else {
                        format!("{sizes}. Name a weight, and they move until the head meets it.")
                    }
                }}
            </p>
            </Provider>
        </aside>
    }
}
