//! The marks of the states: a shape for each, so that none rests on colour.

use leptos::prelude::*;

/// What a size, a hold or a balance is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// A fit may move it.
    Free,
    /// It stays as it was set.
    Locked,
    /// A target that is met.
    Held,
    /// It cannot be.
    Problem,
}

impl State {
    /// Its class in the style sheets.
    pub const fn class(self) -> &'static str {
        match self {
            Self::Free => "free",
            Self::Locked => "locked",
            Self::Held => "held",
            Self::Problem => "problem",
        }
    }
}

/// The mark of a state, 16 px, in the colour of the text around it.
#[component]
pub fn Mark(
    /// The state.
    state: State,
) -> impl IntoView {
    let shape = match state {
        // Two outward arrowheads.
        State::Free => view! { <path class="open" d="M6 4 2 8l4 4zM10 4l4 4-4 4z" /> }.into_any(),
        // A driven pin.
        State::Locked => view! { <path d="M3.5 3.5h9v9h-9z" /> }.into_any(),
        // A witness mark.
        State::Held => view! {
            <circle class="open" cx="8" cy="8" r="5.5" />
            <circle cx="8" cy="8" r="2.2" />
        }
        .into_any(),
        // A crack with two branches.
        State::Problem => {
            view! { <path class="open" d="M9 1.5 6.5 6l3.5 3-2.5 5.5M10 9l4-.5M6.5 6 2.5 5" /> }
                .into_any()
        }
    };
    view! {
        <svg class="mark" viewBox="0 0 16 16" width="16" height="16" aria-hidden="true" focusable="false">
            {shape}
        </svg>
    }
}
