//! A row with one field of the workshop's.

use leptos::prelude::*;

use super::super::entry::Entry;

/// A label and its field.
#[component]
pub fn Field(
    /// Id of the field.
    #[prop(into)]
    id: String,
    /// Its label.
    #[prop(into)]
    label: String,
    /// What it is the size of, for those who do not see the heading.
    #[prop(into)]
    of: String,
    /// Its value as shown.
    #[prop(into)]
    value: Signal<String>,
    /// Its unit.
    #[prop(into)]
    unit: Signal<String>,
    /// Shown while it is empty.
    #[prop(optional, into)]
    placeholder: Option<Signal<String>>,
    /// Reads a text.
    #[prop(into)]
    read: Callback<String, Result<(), String>>,
    /// Keeps what was shown.
    #[prop(into)]
    keep: Callback<()>,
    /// Puts back what stood before.
    #[prop(into)]
    put_back: Callback<()>,
) -> impl IntoView {
    let name = format!("{of} {label}");
    view! {
        <div class="row">
            <div class="row-line">
                <label for=id.clone()>{label}</label>
                <Entry
                    label=name
                    value=value
                    unit=unit
                    placeholder=placeholder.unwrap_or_default()
                    read=read
                    keep=keep
                    put_back=put_back
                    id=id
                />
            </div>
        </div>
    }
}
