//! What a fit keeps: weight and balance always in sight, others once they are held.

use leptos::prelude::*;

use super::super::state::Workspace;
use headwright::design::{Edit, Hold, Quantity};

mod read;
mod row;

use row::HoldRow;

/// The fields of all holds.
#[component]
pub fn Holds() -> impl IntoView {
    let workspace = Workspace::here();
    let always = |quantity: &Quantity| matches!(quantity, Quantity::Mass | Quantity::Balance);
    let shown = Memo::new(move |_| {
        let held =
            |quantity: &Quantity| workspace.design.with(|d| d.holds.get(*quantity).is_some());
        let mut shown = Quantity::ALL.to_vec();
        shown.retain(|quantity| always(quantity) || held(quantity));
        shown
    });
    view! {
        <section class="holds" aria-labelledby="holds">
            <h2 id="holds">"holds"</h2>
            <For each=move || shown.get() key=|quantity| quantity.name() let:quantity>
                <HoldRow quantity=quantity />
            </For>
        </section>
    }
}

/// A button that holds a quantity where it is, beside its result; nothing while it is held.
#[component]
pub fn HoldHere(
    /// What to hold.
    quantity: Quantity,
) -> impl IntoView {
    let workspace = Workspace::here();
    let held = Memo::new(move |_| workspace.design.with(|d| d.holds.get(quantity).is_some()));
    let hold = move |_| {
        let value = workspace.sound.with_untracked(|solid| {
            workspace
                .properties
                .with_untracked(|p| quantity.of(solid, p))
        });
        let system = workspace.system.get_untracked();
        let amount = quantity.amount(value, system);
        // What is shown is what is held, so that the field has the number that was read.
        let shown = amount.parse(&amount.show(system), system).unwrap_or(amount);
        let hold = match quantity {
            Quantity::LeastWall => Hold::AtLeast { least: shown },
            _ => Hold::About {
                value: shown,
                tolerance: None,
            },
        };
        workspace.apply(Edit::Hold(quantity, Some(hold)));
    };
    view! {
        <Show when=move || !held.get()>
            <button
                type="button"
                class="plain hold-here"
                aria-label=format!("hold the {} where it is", quantity.words())
                on:click=hold
            >
                "hold"
            </button>
        </Show>
    }
}
