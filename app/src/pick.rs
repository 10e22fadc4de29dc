//! A choice of one word among a few, and a choice of yes or no.

use leptos::prelude::*;

/// A row with a list to choose from.
#[component]
pub fn Pick(
    /// What is chosen.
    #[prop(into)]
    label: String,
    /// The part it belongs to, for those who do not see the heading.
    #[prop(into)]
    of: String,
    /// The words to choose from.
    options: Vec<&'static str>,
    /// The word chosen.
    #[prop(into)]
    chosen: Signal<&'static str>,
    /// Called with the word that is chosen.
    #[prop(into)]
    choose: Callback<String>,
) -> impl IntoView {
    let name = format!("{of} {label}");
    view! {
        <div class="row pick">
            <label class="row-line">
                <span>{label}</span>
                <select
                    aria-label=name
                    prop:value=chosen
                    on:change:target=move |event| choose.run(event.target().value())
                >
                    {options
                        .into_iter()
                        .map(|word| {
                            view! {
                                <option value=word selected=move || chosen.get() == word>
                                    {word}
                                </option>
                            }
                        })
                        .collect_view()}
                </select>
            </label>
        </div>
    }
}

/// A row with a box to tick.
#[component]
pub fn Tick(
    /// What is so when it is ticked.
    #[prop(into)]
    label: String,
    /// The part it belongs to, for those who do not see the heading.
    #[prop(into)]
    of: String,
    /// Whether it is ticked.
    #[prop(into)]
    on: Signal<bool>,
    /// Called with what it is to be.
    #[prop(into)]
    choose: Callback<bool>,
) -> impl IntoView {
    let name = format!("{of}, {label}");
    view! {
        <div class="row pick">
            <label class="row-line">
                <span>{label}</span>
                <input
                    type="checkbox"
                    aria-label=name
                    prop:checked=on
                    on:change:target=move |event| choose.run(event.target().checked())
                />
            </label>
        </div>
    }
}
