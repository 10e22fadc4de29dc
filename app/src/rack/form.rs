//! One line to be written in a row of the rack.

use leptos::html;
use leptos::prelude::*;

use super::super::field::Length;

/// A field that opens in its place: Enter keeps what is written, Esc leaves it.
#[component]
pub fn OneField(
    /// Name of the field.
    label: String,
    /// What is written: "name".
    what: &'static str,
    /// Whether a link carries it.
    in_link: bool,
    /// What stands in it at first.
    begin: String,
    /// The most characters.
    longest: usize,
    /// Takes what is written, or says what is wrong with it.
    keep: impl Fn(String) -> Result<(), String> + Clone + 'static,
    /// Closes the field.
    close: impl Fn() + Copy + 'static,
) -> impl IntoView {
    let input = NodeRef::<html::Input>::new();
    let wrong = RwSignal::new(None::<String>);
    let text = RwSignal::new(begin.clone());
    Effect::new(move || {
        if let Some(input) = input.get() {
            // A field that cannot take the focus is still there to be pressed.
            let _ = input.focus();
            input.select();
        }
    });
    let take = move || {
        let Some(text) = input
            .try_get_untracked()
            .flatten()
            .map(|input| input.value())
        else {
            return;
        };
        match keep(text) {
            Ok(()) => close(),
            Err(reason) => wrong.set(Some(reason)),
        }
    };
    let enter = take.clone();
    view! {
        <div class="rack-write">
            <input
                type="text"
                node_ref=input
                aria-label=label
                aria-invalid=move || wrong.with(Option::is_some).then_some("true")
                maxlength=longest
                autocomplete="off"
                enterkeyhint="done"
                value=begin
                on:input:target=move |event| text.set(event.target().value())
                on:keydown=move |event| match event.key().as_str() {
                    "Enter" => enter(),
                    "Escape" => close(),
                    _ => {}
                }
            />
            <button type="button" class="plain" on:click=move |_| take()>
                "keep"
            </button>
            <button type="button" class="plain" on:click=move |_| close()>
                "leave it"
            </button>
            <Length text=text longest=longest what=what in_link=in_link />
            <p class="problem" role="status">{wrong}</p>
        </div>
    }
}
