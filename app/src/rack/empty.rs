//! The rack before anything stands on it, and a head on the sheet that does not stand there yet.

use leptos::prelude::*;

use super::super::starters::StarterList;
use super::super::state::Workspace;
use super::keeper::Keeper;

/// What the rack is for, and heads to begin with.
#[component]
pub fn Empty() -> impl IntoView {
    view! {
        <p class="rack-empty">
            "Nothing stands here yet. Change the head on the sheet, or put it here as it is; begin with one of these; or take in a rack that was saved as a file."
        </p>
        <StarterList />
    }
}

/// The head on the sheet, while it is on no rack.
#[component]
pub fn NotYet() -> impl IntoView {
    let workspace = Workspace::here();
    let keeper: Keeper = expect_context();
    let journal = workspace.journal;
    let name = move || workspace.design.with(|design| design.name.clone());
    let put = move |_| {
        journal.put_on(workspace);
        keeper.take_up();
    };
    move || {
        journal.entry.with(Option::is_none).then(|| {
            view! {
                <div class="rack-not-yet">
                    <p>
                        {move || {
                            format!("{} is on the sheet, and not on the rack as long as nothing is changed in it.", name())
                        }}
                    </p>
                    <button type="button" class="way" on:click=put>
                        <span>{move || format!("put {} on the rack", name())}</span>
                    </button>
                </div>
            }
        })
    }
}
