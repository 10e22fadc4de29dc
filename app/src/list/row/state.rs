//! What a size is for the fit, in its row.

use leptos::prelude::*;

use super::super::super::mark::{Mark, State};
use super::super::super::state::Workspace;
use super::set_free;
use super::tie::tie;
use headwright::design::Dim;

/// What a size is for the fit, and a press on it for the contrary; of a size of the back that is
/// as that of the front, that it is so, and a press to cut the tie.
#[component]
pub fn StateButton(
    /// The size.
    dim: Dim,
    /// Whether it is free.
    free: Memo<bool>,
    /// Whether it is as that of the front; nothing where it cannot be.
    tied: Memo<Option<bool>>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let is_tied = move || tied.get() == Some(true);
    let words = move || match (is_tied(), free.get()) {
        (true, true) => ("as the front, free", "part them"),
        (true, false) => ("as the front, locked", "part them"),
        (false, true) => ("free", "lock it"),
        (false, false) => ("locked", "set it free"),
    };
    view! {
        <button
            type="button"
            class=move || if free.get() { "state free" } else { "state locked" }
            aria-label=move || {
                let (state, other) = words();
                format!("{} {state}, press to {other}", dim.words())
            }
            on:click=move |_| {
                if tied.get_untracked() == Some(true) {
                    tie(workspace, dim, false);
                } else {
                    set_free(workspace, dim, !free.get_untracked());
                }
            }
        >
            {move || if free.get() {
                view! { <Mark state=State::Free /> }.into_any()
            } else {
                view! { <Mark state=State::Locked /> }.into_any()
            }}
            {move || match (is_tied(), free.get()) {
                (true, _) => "as the front",
                (false, true) => "free",
                (false, false) => "locked",
            }}
        </button>
    }
}
