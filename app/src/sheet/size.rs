//! A size on the drawing, to be taken in hand.

use leptos::prelude::*;

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
) -> impl IntoView {
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
                style=place
                aria-label=spoken
                aria-pressed=move || {
                    laid.with(|laid| laid.as_ref().is_some_and(|size| size.in_hand)).to_string()
                }
                on:click=move |_| take.run(dim)
            ></button>
        }
        .into_any(),
        Key::Balance | Key::Overall => {
            view! { <span id=id_of(key) class="follows" role="img" style=place aria-label=spoken></span> }
                .into_any()
        }
    }
}
