//! Weight and balance in one line, stuck to the window wherever the margin does not show them.

use leptos::ev;
use leptos::prelude::*;

use super::hanging::Hanging;
use super::margin::{BalanceNumber, HoldState, standing};
use super::quantity::MassNumber;
use super::state::{Screen, Workspace};
use super::words;
use headwright::design::Quantity;

/// From here on the weight at the top of the margin has been scrolled away, px.
const PAST: f64 = 300.0;

/// The strip: always there up to where the margin stands beside the sheet; from there on once that is scrolled away.
#[component]
pub fn Strip() -> impl IntoView {
    let workspace = Workspace::here();
    let is_past = || window().scroll_y().is_ok_and(|y| y > PAST);
    let past = RwSignal::new(is_past());
    let scrolled = window_event_listener(ev::scroll, move |_| {
        if past.get_untracked() != is_past() {
            past.set(is_past());
        }
    });
    on_cleanup(move || scrolled.remove());
    let behind = workspace.behind();
    let weighed = workspace.weighed;
    let system = workspace.system;
    view! {
        <section
            class="strip"
            class:past=past
            class:away=move || matches!(workspace.screen.get(), Screen::Log | Screen::Rack | Screen::Starters)
            aria-label="weight and balance at a glance"
        >
            <div class="strip-weight">
                <p class="big">
                    <MassNumber kg=Signal::derive(move || weighed.with(|w| w.mass)) system=system />
                </p>
                <HoldState quantity=Quantity::Mass />
            </div>
            <div class="strip-balance">
                <p>
                    <BalanceNumber />
                    <span class="soft">
                        {move || {
                            let balance = weighed.with(|w| w.balance);
                            format!(" {}", words::balance(balance, system.get()).1)
                        }}
                    </span>
                </p>
                <HoldState quantity=Quantity::Balance short=true />
            </div>
            <Hanging
                solid=behind.sound
                properties=behind.properties
                standing=Signal::derive(move || standing(behind))
            />
            <p class="strip-said" role="status">{workspace.notice}</p>
        </section>
    }
}
