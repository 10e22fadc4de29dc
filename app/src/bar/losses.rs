//! The lines of loss, to be edited: how much, of what, how surely, says who.

use leptos::prelude::*;

use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::show_bar;
use headwright::bar::{Certainty, Loss, LossAmount, LossKind, MOST_LOSSES};

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
