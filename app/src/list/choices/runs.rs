//! How an end goes over from station to station, and how many necks it has.

use leptos::prelude::*;

use super::super::super::pick::Pick;
use super::super::super::state::Workspace;
use super::super::super::words;
use headwright::design::{Edit, MOST_NECKS, Part, Side, Transition};

const TRANSITIONS: [Transition; 2] = [Transition::Straight, Transition::Smooth];

/// How the run that leads to a part goes over.
#[component]
pub fn Over(
    /// A neck, or an end for the run into its tip.
    part: Part,
) -> impl IntoView {
    let workspace = Workspace::here();
    let chosen = Signal::derive(move || {
        workspace.design.with(|d| {
            let transition = match part {
                Part::Neck(side, index) => d
                    .end(side)
                    .necks
                    .get(usize::from(index))
                    .map(|neck| neck.transition),
                Part::End(side) => Some(d.end(side).transition),
                _ => None,
            };
            transition.map_or("", words::transition_word)
        })
    });
    let choose = move |word: String| {
        let found = TRANSITIONS
            .into_iter()
            .find(|transition| words::transition_word(*transition) == word);
        if let Some(transition) = found {
            workspace.apply(Edit::Transition(part, transition));
        }
    };
    view! {
        <Pick
            label="run up to it"
            of=words::heading(words::group(part))
            options=TRANSITIONS.map(words::transition_word).to_vec()
            chosen=chosen
            choose=choose
        />
    }
}

/// Takes the outermost neck off.
#[component]
pub fn TakeOff(
    /// The end.
    side: Side,
    /// The neck whose list this is.
    last: u8,
) -> impl IntoView {
    let workspace = Workspace::here();
    let outermost = move || {
        workspace
            .design
            .with(|d| d.end(side).necks.len() == usize::from(last) + 1)
    };
    view! {
        <Show when=outermost>
            <div class="row">
                <button
                    type="button"
                    class="plain"
                    on:click=move |_| workspace.apply(Edit::RemoveNeck(side))
                >
                    {format!("take the {} off", Part::Neck(side, last).words())}
                </button>
            </div>
        </Show>
    }
}

/// Adds a neck.
#[component]
pub fn AddNeck(
    /// The end.
    side: Side,
) -> impl IntoView {
    let workspace = Workspace::here();
    let room = move || {
        workspace
            .design
            .with(|d| d.end(side).necks.len() < MOST_NECKS)
    };
    view! {
        <Show when=room>
            <div class="row">
                <button
                    type="button"
                    class="plain"
                    on:click=move |_| workspace.apply(Edit::AddNeck(side))
                >
                    {format!("add a neck at the {}", side.word())}
                </button>
            </div>
        </Show>
    }
}
