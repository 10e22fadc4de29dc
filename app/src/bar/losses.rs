//! The lines of loss, to be edited: how much, of what, how surely, says who.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::super::fetched;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::show_bar;
use headwright::bar::{Bar, Certainty, Loss, LossAmount, LossKind, MOST_LOSSES};

mod amount;
mod cause;
mod line;

use line::Line;

/// All lines.
#[component]
pub fn Losses() -> impl IntoView {
    let workspace = Workspace::here();
    let count = Memo::new(move |_| workspace.design.with(|d| d.bar.losses.len()));
    let add = move |word: String| {
        if let Some(kind) = LossKind::ALL.into_iter().find(|kind| kind.words() == word) {
            show_bar(workspace, "add a loss", |bar| {
                bar.losses.push(Loss {
                    kind,
                    amount: LossAmount::PercentOfHead {
                        expected: 0.0,
                        spread: 0.0,
                    },
                    source: String::new(),
                    certainty: Certainty::Own,
                });
            });
            workspace.keep();
        }
    };
    view! {
        <section class="losses" aria-labelledby="losses">
            <h2 id="losses">"losses"</h2>
            <Words
                id="losses-words"
                terms=&[Term::Slug, Term::Web, Term::Scale, Term::Heats, Term::Trimming, Term::Dressing, Term::Spread]
            />
            <div class="loss-lines">
                {move || (0..count.get()).map(|index| view! { <Line index=index /> }).collect_view()}
            </div>
            <FromTheLog />
            <Show when=move || count.get() < MOST_LOSSES>
                <label class="row-line add-loss">
                    <span>"add a line"</span>
                    <select
                        aria-label="add a line of loss"
                        prop:value=""
                        on:change:target=move |event| {
                            add(event.target().value());
                            event.target().set_value("");
                        }
                    >
                        <option value="">"choose"</option>
                        {LossKind::ALL
                            .into_iter()
                            .map(|kind| view! { <option value=kind.words()>{kind.words()}</option> })
                            .collect_view()}
                    </select>
                </label>
            </Show>
        </section>
    }
}

/// The losses that the log has taught, at a press.
#[component]
fn FromTheLog() -> impl IntoView {
    let workspace = Workspace::here();
    let said = RwSignal::new(None::<String>);
    // What the log has taught comes later; by then the sheet may have been left.
    let done = Callback::new(move |(bar, words): (Option<Bar>, String)| {
        if said.try_set(Some(words)).is_none()
            && let Some(bar) = bar
        {
            workspace.keep();
            show_bar(workspace, "losses from the log", |own| {
                own.losses = bar.losses
            });
            workspace.keep();
        }
    });
    let sheet = Owner::current().unwrap_or_default();
    let take = move |_| {
        let bar = workspace.design.with_untracked(|design| design.bar.clone());
        let sheet = sheet.clone();
        spawn_local(async move {
            if fetched::learned(workspace, sheet, bar, done).await.is_err() {
                let missing = "The log could not be fetched. Try again when you have a connection.";
                drop(said.try_set(Some(missing.to_owned())));
            }
        });
    };
    view! {
        <button type="button" class="plain" on:click=take>
            "losses from the log"
        </button>
        <p class="soft" role="status">{said}</p>
    }
}
