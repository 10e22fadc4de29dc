//! Something to be written at a step, in its place.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// What is written into a form, and what is wrong with it.
#[derive(Clone, Copy)]
pub struct Written {
    wrong: RwSignal<Option<String>>,
}

impl Written {
    /// Nothing is wrong yet.
    pub fn new() -> Self {
        Self {
            wrong: RwSignal::new(None),
        }
    }

    /// Says what came of keeping it; whether it was kept.
    pub fn came(self, kept: Result<(), String>) -> bool {
        let wrong = kept.err();
        let kept = wrong.is_none();
        // A form that was kept may be gone.
        drop(self.wrong.try_set(wrong));
        kept
    }
}

/// A form: its fields, and below them keeping it or not. Enter keeps it, Esc leaves it.
#[component]
pub fn Form(
    /// What it is for.
    label: String,
    /// What is written.
    written: Written,
    /// Keeps it.
    #[prop(into)]
    keep: Callback<()>,
    /// Closes it.
    #[prop(into)]
    close: Callback<()>,
    /// Its fields.
    children: Children,
) -> impl IntoView {
    view! {
        <form
            class="log-form"
            aria-label=label
            on:submit=move |event| {
                event.prevent_default();
                keep.run(());
            }
            on:keydown=move |event| {
                if event.key() == "Escape" {
                    close.run(());
                }
            }
        >
            {children()}
            <p class="problem" role="status">{move || written.wrong.get()}</p>
            <div class="log-presses">
                <button type="submit" class="way first">"keep"</button>
                <button type="button" class="way" on:click=move |_| close.run(())>"leave it"</button>
            </div>
        </form>
    }
}

/// A line of a form.
#[component]
pub fn Line(
    /// Its name.
    label: String,
    /// Its unit.
    #[prop(optional, into)]
    unit: Signal<String>,
    /// What stands in it.
    text: RwSignal<String>,
    /// Whether it takes the focus when it is there.
    #[prop(optional)]
    grab: bool,
    /// Whether it is a number and nothing else, for which a phone has keys of its own.
    #[prop(optional)]
    number: bool,
) -> impl IntoView {
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
    let name = label.clone();
    view! {
        <label class="log-line">
            <span>{label}</span>
            <span class="log-field">
                <input
                    type="text"
                    node_ref=input
                    aria-label=move || {
                        let unit = unit.get();
                        if unit.is_empty() { name.clone() } else { format!("{name}, {unit}") }
                    }
                    autocomplete="off"
                    inputmode=number.then_some("decimal")
                    enterkeyhint="done"
                    prop:value=text
                    on:input:target=move |event| text.set(event.target().value())
                />
                <span class="unit" aria-hidden="true">{unit}</span>
            </span>
        </label>
    }
}

/// Gives the focus to the element of this id once the page is drawn anew.
pub fn go_to(id: String) {
    request_animation_frame(move || {
        let found = document().get_element_by_id(&id);
        if let Some(element) = found.and_then(|found| found.dyn_into::<HtmlElement>().ok()) {
            // What cannot take the focus is still there to be pressed.
            let _ = element.focus();
        }
    });
}
