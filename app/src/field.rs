//! A row with one field.

use leptos::prelude::*;

use super::entry::Entry;
use super::state::Workspace;

/// A label and its field.
#[component]
pub fn Field(
    /// Id of the field.
    #[prop(into)]
    id: String,
    /// Its label.
    #[prop(into)]
    label: String,
    /// What it is the size of, for those who do not see the heading, where the label alone does not say.
    #[prop(optional, into)]
    of: Option<String>,
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
    /// Keeps what was shown; left out, the design does.
    #[prop(optional, into)]
    keep: Option<Callback<()>>,
    /// Puts back what stood before; left out, the design does.
    #[prop(optional, into)]
    put_back: Option<Callback<()>>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let name = of.map_or_else(|| label.clone(), |of| format!("{of} {label}"));
    let keep = keep.unwrap_or_else(|| Callback::new(move |()| workspace.keep()));
    let put_back = put_back.unwrap_or_else(|| Callback::new(move |()| workspace.put_back()));
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

/// Said of a text that fills its field, which takes no more then, and of one from elsewhere that is longer.
#[component]
pub fn Length(
    /// The text.
    #[prop(into)]
    text: Signal<String>,
    /// The most characters.
    longest: usize,
    /// What it is: "name".
    #[prop(into)]
    what: String,
    /// Whether a link carries it, which takes no more.
    #[prop(default = true)]
    in_link: bool,
) -> impl IntoView {
    // As the browser counts, which stops at so many: an emoji is one character and two of these.
    let units = move || text.with(|text| text.encode_utf16().count());
    let characters = move || text.with(|text| text.chars().count());
    let said = move || {
        let characters = characters();
        if characters > longest && in_link {
            format!(
                "The {what} has {characters} characters, and a link takes at most {longest}: shorten it before one is made."
            )
        } else if characters > longest {
            format!("The {what} has {characters} characters: shorten it to at most {longest}.")
        } else if units() >= longest {
            format!("The {what} is full: it has {characters} characters, and no more are taken.")
        } else {
            String::new()
        }
    };
    view! { <p class="soft full" role="status">{said}</p> }
}
