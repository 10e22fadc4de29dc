//! Third or first angle: the symbol in the foot of the drawing, to be pressed.

use leptos::prelude::*;

use super::super::keep;
use headwright::drawing::Projection;

/// Key of the projection in the browser's storage.
const KEY: &str = "headwright.projection";
const FIRST: &str = "first";
const THIRD: &str = "third";

/// The projection that was kept, and is kept when it changes.
pub fn kept() -> RwSignal<Projection> {
    let projection = RwSignal::new(match keep::read(KEY).as_deref() {
        Some(FIRST) => Projection::First,
        _ => Projection::Third,
    });
    Effect::new(move |before: Option<()>| {
        let word = match projection.get() {
            Projection::Third => THIRD,
            Projection::First => FIRST,
        };
        if before.is_some() {
            keep::store_word(KEY, word);
        }
    });
    projection
}

/// The symbol of the projection: a cone from its side and from its end, as each method places
/// them (ISO 128-3, ISO 5456-2).
#[component]
pub fn Choice(
    /// The projection.
    projection: RwSignal<Projection>,
) -> impl IntoView {
    let third = move || projection.get() == Projection::Third;
    view! {
        <button
            type="button"
            class="projection"
            aria-label=move || {
                if third() {
                    "third angle projection; change to first angle"
                } else {
                    "first angle projection; change to third angle"
                }
            }
            on:click=move |_| {
                projection
                    .update(|projection| {
                        *projection = match projection {
                            Projection::Third => Projection::First,
                            Projection::First => Projection::Third,
                        };
                    });
            }
        >
            <svg viewBox="0 0 46 24" width="46" height="24" aria-hidden="true" focusable="false">
                <g transform=move || if third() { "" } else { "translate(22 0)" }>
                    <circle cx="12" cy="12" r="9" />
                    <circle cx="12" cy="12" r="4.5" />
                    <path class="thin" d="M0 12h24M12 0v24" />
                </g>
                <g transform=move || if third() { "" } else { "translate(-22 0)" }>
                    <path d="M26 7.5 42 3v18l-16-4.5z" />
                    <path class="thin" d="M23.5 12h21" />
                </g>
            </svg>
            <span>{move || if third() { "third angle" } else { "first angle" }}</span>
        </button>
    }
}
