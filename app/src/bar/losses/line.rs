//! One line of loss: how much, of what, how surely, says who.

use leptos::prelude::*;

use super::super::super::entry::Entry;
use super::super::super::pick::Pick;
use super::super::super::state::Workspace;
use super::super::reckoned::Reckoned;
use super::super::show_bar;
use super::amount::{base, bases, is_length, read_into, rebased, shown};
use super::cause::CauseFields;
use headwright::bar::{Certainty, SOURCE_CHARACTERS};
use headwright::units::unit_word;

/// One line of loss.
#[component]
pub fn Line(
    /// Which one.
    index: usize,
) -> impl IntoView {
    let workspace = Workspace::here();
    let causes = Reckoned::here().causes;
    let line = Memo::new(move |_| workspace.design.with(|d| d.bar.losses.get(index).cloned()));
    let amount = Memo::new(move |_| line.with(|l| l.as_ref().map(|l| l.amount)));
    let words = Memo::new(move |_| {
        line.with(|l| {
            l.as_ref()
                .map(|l| bases(l.kind, l.amount))
                .unwrap_or_default()
        })
    });
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
                unit=Signal::derive(move || {
                    let system = workspace.system.get();
                    let unit = if amount.get().is_some_and(is_length) { unit_word(system) } else { "" };
                    unit.to_owned()
                })
                read=read
                keep=move |()| workspace.keep()
                put_back=move |()| workspace.put_back()
                id=format!("loss-{index}-{word}")
            />
        }
    };
    let rebase = move |word: String| {
        let causes = causes.get_untracked();
        let density = workspace.design.with_untracked(|d| d.density);
        show_bar(workspace, "what a loss is reckoned from", |bar| {
            let section = bar.section;
            if let Some(loss) = bar.losses.get_mut(index) {
                loss.amount = rebased(loss.amount, &word, &causes, density, section);
            }
        });
        workspace.keep();
    };
    let certain = move |word: String| {
        let chosen = Certainty::ALL.into_iter().find(|one| one.words() == word);
        if let Some(chosen) = chosen {
            show_bar(workspace, "how sure a loss is", |bar| {
                if let Some(loss) = bar.losses.get_mut(index) {
                    loss.certainty = chosen;
                }
            });
            workspace.keep();
        }
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
                prop:value=move || amount.get().map_or("", base)
                on:change:target=move |event| rebase(event.target().value())
            >
                {move || {
                    words
                        .get()
                        .into_iter()
                        .map(|word| {
                            view! {
                                <option
                                    value=word
                                    selected=move || amount.get().is_some_and(|amount| base(amount) == word)
                                >
                                    {word}
                                </option>
                            }
                        })
                        .collect_view()
                }}
            </select>
            <span class="plus-minus" aria-hidden="true">"±"</span>
            {field(true)}
            <button type="button" class="plain" aria-label=move || format!("take out {}", name()) on:click=take_out>
                "take out"
            </button>
            <div class="loss-causes">
                <CauseFields index=index amount=amount />
            </div>
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
            <Pick
                label="how sure"
                of=format!("loss {}", index + 1)
                options=Certainty::ALL.map(Certainty::words).to_vec()
                chosen=Signal::derive(move || line.with(|l| l.as_ref().map_or("", |l| l.certainty.words())))
                choose=certain
            />
        </div>
    }
}
