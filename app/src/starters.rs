//! Heads to begin with.

use leptos::prelude::*;

use super::silhouette::Silhouette;
use super::state::{Screen, Workspace};
use headwright::design::{Design, starter, starter_names};
use headwright::mass::mass_properties;
use headwright::solid::Solid;
use headwright::units::show_mass;

/// The sheet of the starters.
#[component]
pub fn Starters() -> impl IntoView {
    view! {
        <div class="sheet alone">
            <h1 class="screen-name">"Heads to begin with"</h1>
            <p class="said-once">
                "All drawn for this program. Choosing one puts it on the sheet; it goes on the rack once you change something. Undo brings the present head back."
            </p>
            <StarterList />
        </div>
    }
}

/// The list of starters.
#[component]
pub fn StarterList() -> impl IntoView {
    let heads: Vec<(Design, Solid)> = starter_names()
        .filter_map(starter)
        .filter_map(|design| design.build().ok().map(|solid| (design, solid)))
        .collect();
    // One scale for all, so that a sledge looks like one.
    let widest = heads
        .iter()
        .map(|(_, solid)| {
            let (back, front) = Silhouette::of(solid).ends;
            front - back
        })
        .fold(1.0, f64::max);
    view! {
        <ul class="starters">
            {heads
                .into_iter()
                .map(|(design, solid)| view! { <Starter design=design solid=solid widest=widest /> })
                .collect_view()}
        </ul>
    }
}

/// One starter: name, weight and side view to the scale of all.
#[component]
fn Starter(
    /// The design.
    design: Design,
    /// The head it makes.
    solid: Solid,
    /// Length of the longest head of the list, mm.
    widest: f64,
) -> impl IntoView {
    let workspace = Workspace::here();
    let view = Silhouette::of(&solid);
    let mass = mass_properties(&solid).mass;
    let (back, front) = view.ends;
    let height = view.half_height + 2.0;
    let frame = format!(
        "{} {} {} {}",
        back - 2.0,
        -height,
        front - back + 4.0,
        2.0 * height
    );
    let share = format!("width: {:.1}%", (front - back) / widest * 100.0);
    let (name, note) = (design.name.clone(), design.note.clone());
    view! {
        <li>
            <button
                type="button"
                class="starter"
                on:click=move |_| {
                    workspace.bring(design.name.clone(), design.clone(), None);
                    workspace.screen.set(Screen::Head);
                }
            >
                <span class="starter-picture">
                    <svg viewBox=frame style=share aria-hidden="true" focusable="false">
                        <path class="steel" d=view.outline />
                        <path class="hidden-edge" d=view.eye />
                    </svg>
                </span>
                <span class="starter-name">{name}</span>
                <span class="starter-mass">
                    {move || show_mass(mass, workspace.system.get())}
                </span>
                <span class="starter-note">{note}</span>
            </button>
        </li>
    }
}
