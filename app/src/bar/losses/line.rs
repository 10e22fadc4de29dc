//! One line of loss: how much, of what, how surely, says who.

use leptos::prelude::*;

use super::super::super::entry::Entry;
use super::super::super::state::Workspace;
use super::super::show_bar;
use super::amount::{BASES, base, read_into, rebased, shown};
use headwright::bar::SOURCE_CHARACTERS;
use headwright::units::Mass;

/// One line of loss.
#[component]
pub fn Line(
    /// Which one.
    index: usize,
) -> impl IntoView {
    let workspace = Workspace::here();
    let line = Memo::new(move |_| workspace.design.with(|d| d.bar.losses.get(index).cloned()));
    let name = move || line.with(|l| l.as_ref().map_or("", |l| l.kind.words()));
    let field = move |is_spread: bool| {
        let word = if is_spread { "spread" } else { "amount" };
        let value = Signal::derive(move || {
            let system = workspace.system.get();
            line.with(|l| l.as_ref().map(|l| shown(l.amount, is_spread, system)))
                .unwrap_or_default()
        });
        let read = move |text: String| {
            let Some(amount) = line.with_untracked(|l| l.as_ref().map(|l| l.amount)) else {
                return Ok(());
            };
            let amount = read_into(amount, &text, is_spread, workspace.system.get_untracked())?;
            show_bar(workspace, &format!("loss {index} {word}"), |bar| {
                if let Some(loss) = bar.losses.get_mut(index) {
                    loss.amount = amount;
                }
            });
            Ok(())
        };
        view! {
            <Entry
                label=Signal::derive(move || format!("{} {word}", name()))
                value=value
                unit=""
                read=read
                keep=move |()| workspace.keep()
                put_back=move |()| workspace.put_back()
                id=format!("loss-{index}-{word}")
            />
        }
    };
    let rebase = move |word: String| {
        let (finished, eye) = workspace
            .properties
            .with_untracked(|p| (Mass::kg(p.mass), Mass::kg(p.eye_mass)));
        show_bar(workspace, "what a loss is reckoned from", |bar| {
            if let Some(loss) = bar.losses.get_mut(index) {
                loss.amount = rebased(loss.amount, &word, finished, eye);
            }
        });
        workspace.keep();
    };
    let take_out = move |_| {
        show_bar(workspace, "take a loss out", |bar| {
            if index < bar.losses.len() {
                bar.losses.remove(index);
            }
        });
        workspace.keep();
    };
    let source = move |text: String| {
        show_bar(workspace, &format!("loss {index} source"), |bar| {
            if let Some(loss) = bar.losses.get_mut(index) {
                loss.source = text;
            }
        });
    };
    view! {
        <div class="loss" role="group" aria-label=name>
            <span class="loss-name">{name}</span>
            {field(false)}
            <select
                aria-label=move || format!("{}, reckoned from", name())
                prop:value=move || line.with(|l| l.as_ref().map_or("", |l| base(l.amount)))
                on:change:target=move |event| rebase(event.target().value())
            >
                {BASES
                    .into_iter()
                    .map(|word| {
                        view! {
                            <option
                                value=word
                                selected=move || line.with(|l| l.as_ref().is_some_and(|l| base(l.amount) == word))
                            >
                                {word}
                            </option>
                        }
                    })
                    .collect_view()}
            </select>
            <span class="plus-minus" aria-hidden="true">"±"</span>
            {field(true)}
            <button type="button" class="plain" aria-label=move || format!("take out {}", name()) on:click=take_out>
                "take out"
            </button>
            <input
                class="source"
                type="text"
                maxlength=SOURCE_CHARACTERS
                placeholder="who says so"
                aria-label=move || format!("{} source", name())
                prop:value=move || line.with(|l| l.as_ref().map(|l| l.source.clone()).unwrap_or_default())
                on:input:target=move |event| source(event.target().value())
                on:change=move |_| workspace.keep()
            />
        </div>
    }
}
