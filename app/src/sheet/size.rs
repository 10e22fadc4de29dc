//! A size on the drawing, to be taken in hand.

use leptos::prelude::*;

use web_sys::{KeyboardEvent, PointerEvent};

use super::super::state::Workspace;
use super::super::stepper::Was;
use super::drag::{self, Grip};
use super::id_of;
use headwright::design::Dim;
use headwright::drawing::{Key, LaidSize};

/// What answers a press on a size; the lines and figures below it are drawn with the sheet.
///
/// What follows from the sizes cannot be taken in hand: it is read aloud and answers nothing.
#[component]
pub fn Size(
    /// What it is.
    key: Key,
    /// Where it stands.
    #[prop(into)]
    laid: Signal<Option<LaidSize>>,
    /// Takes it in hand.
    take: Callback<Dim>,
    /// The size under the finger.
    grip: RwSignal<Option<Grip>>,
    /// The size that is being dragged.
    #[prop(into)]
    dragged: Signal<Option<Dim>>,
    /// Puts it under the finger.
    seize: Callback<(Dim, PointerEvent)>,
) -> impl IntoView {
    let workspace = Workspace::here();
    // The press that ends a drag is none.
    let done = StoredValue::new(false);
    let end = move |keeps: bool| done.set_value(drag::let_go(workspace, grip, keeps));
    let upright = move || {
        laid.with(|laid| {
            laid.as_ref()
                .and_then(|size| size.arrows.first())
                .is_some_and(|arrow| arrow.from[0] == arrow.to[0])
        })
    };
    let place = move || {
        laid.with(|laid| {
            laid.as_ref().map(|size| {
                let rect = size.press;
                format!(
                    "left:{:.1}px;top:{:.1}px;width:{:.1}px;height:{:.1}px",
                    rect.x, rect.y, rect.w, rect.h
                )
            })
        })
    };
    let spoken = move || laid.with(|laid| laid.as_ref().map(|size| size.spoken.clone()));
    match key {
        Key::Size(dim) => view! {
            <button
                type="button"
                id=id_of(key)
                class="press"
                class:upright=upright
                class:dragged=move || dragged.get() == Some(dim)
                style=place
                aria-label=spoken
                aria-pressed=move || {
                    laid.with(|laid| laid.as_ref().is_some_and(|size| size.in_hand)).to_string()
                }
                on:pointerdown=move |event| {
                    done.set_value(false);
                    if event.is_primary() && event.button() == 0 {
                        seize.run((dim, event));
                    }
                }
                on:pointermove=move |event| drag::follow(workspace, grip, &event)
                on:pointerup=move |_| end(true)
                on:pointercancel=move |_| end(false)
                on:keydown=move |event: KeyboardEvent| {
                    if event.key() == "Escape" && dragged.get_untracked() == Some(dim) {
                        end(false);
                    }
                }
                on:click=move |_| {
                    if !done.try_update_value(std::mem::take).unwrap_or_default() {
                        take.run(dim);
                    }
                }
            ></button>
            {move || {
                (dragged.get() == Some(dim))
                    .then(|| view! { <p class="drag-was" style=place><Was dim=dim /></p> })
            }}
        }
        .into_any(),
        Key::Balance | Key::Overall => {
            view! { <span id=id_of(key) class="follows" role="img" style=place aria-label=spoken></span> }
                .into_any()
        }
    }
}
