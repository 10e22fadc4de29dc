//! One hold: its value, how far off it may be, and a way to let it go.

use leptos::prelude::*;

use super::super::super::entry::Entry;
use super::super::super::mark::{Mark, State};
use super::super::super::state::Workspace;
use headwright::fit::Quantity;
use headwright::units::mass_unit_word;

/// One hold: its value, how far off it may be, and a way to let it go.
#[component]
pub fn HoldRow(
    /// What is held.
    quantity: Quantity,
    /// Name of the value's field.
    label: &'static str,
    /// Whether it is held.
    held: Signal<bool>,
    /// Whether it has a middle and a tolerance.
    about: Signal<bool>,
    /// The value as shown.
    text: Signal<String>,
    /// The tolerance as shown; empty for the usual one.
    off: Signal<String>,
    /// Unit of a bare value.
    unit: Signal<String>,
    /// Unit of a bare tolerance.
    off_unit: Signal<String>,
    /// The usual tolerance.
    usual: String,
    /// Reads a value.
    #[prop(into)]
    read: Callback<String, Result<(), String>>,
    /// Reads a tolerance.
    #[prop(into)]
    read_off: Callback<String, Result<(), String>>,
    /// Lets it go.
    #[prop(into)]
    let_go: Callback<()>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let id = format!("hold-{}", quantity.name());
    let usual = StoredValue::new(usual);
    let keep = move |()| workspace.keep();
    let put_back = move |()| workspace.put_back();
    view! {
        <div class="hold" class:held=move || held.get()>
            <label for=id.clone()>
                <Show when=move || held.get()>
                    <Mark state=State::Held />
                </Show>
                {label}
            </label>
            <Entry
                label=Signal::derive(move || {
                    // A held weight is shown with its units, which may be two.
                    if unit.with(String::is_empty) {
                        format!("{label}, {}", mass_unit_word(workspace.system.get()))
                    } else {
                        label.to_owned()
                    }
                })
                value=text
                unit=unit
                read=read
                keep=keep
                put_back=put_back
                id=id.clone()
                placeholder="not held".to_owned()
            />
            <Show when=move || held.get()>
                <div class="hold-more">
                    <button
                        type="button"
                        class="plain"
                        aria-label=move || format!("let go of the {}", if quantity == Quantity::Mass { "weight" } else { "balance" })
                        on:click=move |_| let_go.run(())
                    >
                        "let go"
                    </button>
                    <Show when=move || about.get()>
                        <span class="plus-minus" aria-hidden="true">"±"</span>
                        <Entry
                            label=Signal::derive(move || format!("{label}: plus or minus, usually {}", usual.get_value()))
                            value=off
                            unit=off_unit
                            read=read_off
                            keep=keep
                            put_back=put_back
                            id=format!("off-{}", quantity.name())
                            placeholder=usual.get_value()
                        />
                    </Show>
                </div>
            </Show>
        </div>
    }
}
