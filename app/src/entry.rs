//! A field that takes any notation, shows what it reads at once and refuses in a sentence.

use leptos::prelude::*;
use web_sys::KeyboardEvent;

use super::quantity::Number;

/// A text field for one value.
///
/// What can be read is shown at once; Enter or leaving the field keeps it, Esc puts back. A text
/// that cannot be read leaves the design alone, says why, and is gone when the field is left.
#[component]
pub fn Entry(
    /// Name of the field for those who do not see it.
    #[prop(into)]
    label: Signal<String>,
    /// The value as shown, without its unit.
    #[prop(into)]
    value: Signal<String>,
    /// The unit that a bare number takes.
    #[prop(into)]
    unit: Signal<String>,
    /// Reads a text and shows its value, or says what is wrong.
    #[prop(into)]
    read: Callback<String, Result<(), String>>,
    /// Keeps what was shown.
    #[prop(into)]
    keep: Callback<()>,
    /// Puts back what stood before.
    #[prop(into)]
    put_back: Callback<()>,
    /// Moves the value by so many divisions.
    #[prop(optional, into)]
    step: Option<Callback<i32>>,
    /// Id of the field, one on the page.
    #[prop(into)]
    id: String,
    /// Id of what further describes the field.
    #[prop(optional, into)]
    described_by: Option<Signal<Option<String>>>,
    /// Shown while the field is empty.
    #[prop(optional, into)]
    placeholder: Option<Signal<String>>,
    /// Called when the field takes the focus or a letter.
    #[prop(optional, into)]
    taken: Option<Callback<()>>,
    /// Called when Enter or Esc lets the value go.
    #[prop(optional, into)]
    released: Option<Callback<()>>,
    /// Whether the field takes the focus as soon as it is there.
    #[prop(optional)]
    grab: bool,
) -> impl IntoView {
    let typed = RwSignal::new(None::<String>);
    let wrong = RwSignal::new(None::<String>);
    let input = NodeRef::<leptos::html::Input>::new();
    if grab {
        Effect::new(move || {
            if let Some(input) = input.get() {
                // A field that cannot take the focus is still there to be pressed.
                let _ = input.focus();
                input.select();
            }
        });
    }
    // Who takes a field means to write another number: what it holds is chosen, so that typing takes its place.
    let fresh = StoredValue::new(false);
    let choose_all = move || {
        if fresh.try_get_value() == Some(true)
            && let Some(input) = input.try_get_untracked().flatten()
        {
            input.select();
        }
    };
    let text = move || typed.get().unwrap_or_else(|| value.get());
    let settle = move || {
        // A field that is taken off the page with the focus in it loses that when it is gone.
        let Some(refused) = wrong.try_with_untracked(Option::is_some) else {
            return;
        };
        if refused {
            put_back.run(());
        } else {
            keep.run(());
        }
        typed.set(None);
        wrong.set(None);
    };
    let let_go = move || {
        if let Some(released) = released {
            released.run(());
        }
    };
    let take = move || {
        if let Some(taken) = taken {
            taken.run(());
        }
    };
    let on_key = move |event: KeyboardEvent| {
        fresh.set_value(false);
        let steps = if event.shift_key() { 10 } else { 1 };
        let by = match event.key().as_str() {
            "ArrowUp" => steps,
            "ArrowDown" => -steps,
            "Enter" => {
                if wrong.get_untracked().is_none() {
                    keep.run(());
                    typed.set(None);
                    let_go();
                }
                return;
            }
            "Escape" => {
                typed.set(None);
                wrong.set(None);
                put_back.run(());
                let_go();
                return;
            }
            _ => return,
        };
        if let Some(step) = step {
            event.prevent_default();
            typed.set(None);
            wrong.set(None);
            step.run(by);
        }
    };
    let name = StoredValue::new(format!("{id}-wrong"));
    view! {
        <span class="entry" class:wrong=move || wrong.with(Option::is_some)>
            <span class="entry-field">
                <input
                    node_ref=input
                    id=id
                    type="text"
                    autocomplete="off"
                    autocapitalize="off"
                    spellcheck="false"
                    enterkeyhint="done"
                    placeholder=move || placeholder.map(|words| words.get())
                    aria-label=move || {
                        let unit = unit.get();
                        let label = label.get();
                        if unit.is_empty() { label } else { format!("{label}, {unit}") }
                    }
                    aria-invalid=move || wrong.with(Option::is_some).to_string()
                    aria-describedby=move || {
                        wrong
                            .with(Option::is_some)
                            .then(|| name.get_value())
                            .or_else(|| described_by.and_then(|by| by.get()))
                    }
                    prop:value=text
                    on:input:target=move |event| {
                        take();
                        fresh.set_value(false);
                        let text = event.target().value();
                        typed.set(Some(text.clone()));
                        let problem = read.run(text).err();
                        if problem.is_some() {
                            put_back.run(());
                        }
                        wrong.set(problem);
                    }
                    on:change=move |_| {
                        if wrong.try_with_untracked(Option::is_none) == Some(true) {
                            keep.run(());
                        }
                    }
                    on:focus=move |_| {
                        take();
                        fresh.set_value(true);
                        request_animation_frame(choose_all);
                    }
                    on:click=move |_| {
                        // A press has put the mark between two letters.
                        choose_all();
                        fresh.set_value(false);
                    }
                    on:blur=move |_| settle()
                    on:keydown=on_key
                />
                <span class="set" aria-hidden="true">
                    <Number text=Signal::derive(text) />
                </span>
                {move || {
                    let unit = unit.get();
                    (!unit.is_empty()).then(|| view! { <span class="unit" aria-hidden="true">{unit}</span> })
                }}
            </span>
            {move || {
                wrong
                    .get()
                    .map(|sentence| {
                        view! {
                            <span class="sentence problem" role="alert" id=name.get_value()>
                                {sentence}
                            </span>
                        }
                    })
            }}
        </span>
    }
}
