//! Weight and balance of the finished head, small, in the margin of the sheets beside the head's own.

use leptos::prelude::*;

use super::hanging::Hanging;
use super::margin::{HoldState, standing};
use super::quantity::MassNumber;
use super::state::Workspace;
use super::words;
use headwright::design::Quantity;

/// Weight and balance of the head, small.
#[component]
pub fn Finished() -> impl IntoView {
    let workspace = Workspace::here();
    let kg = Signal::derive(move || workspace.properties.with(|p| p.mass));
    view! {
        <section class="finished" aria-labelledby="finished-weight">
            <div>
                <h2 id="finished-weight">"finished weight"</h2>
                <p class="big">
                    <MassNumber kg=kg system=workspace.system />
                </p>
                <HoldState quantity=Quantity::Mass short=true />
                <p class="finished-balance">
                    {move || {
                        let system = workspace.system.get();
                        let balance = workspace.properties.with(|p| p.balance());
                        let (number, place) = words::balance(balance, system);
                        format!("{number} {place}")
                    }}
                </p>
                <HoldState quantity=Quantity::Balance short=true />
            </div>
            <Hanging
                solid=workspace.sound
                properties=workspace.properties
                standing=Signal::derive(move || standing(workspace))
            />
        </section>
    }
}
