//! Files that are taken in, and what came of them, in words, with what of it cannot be read.
//!
//! A design's file is opened by the first page (`files.rs`), which must stay small; this is of the parts that come later.

use leptos::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{File, HtmlInputElement};

use super::files::{file_name, save_text};
use super::state::Workspace;
use headwright::rack::Unread;

/// Ending of the file with a text that cannot be read.
const UNREAD_ENDING: &str = "unread.json";

/// A button that takes a file in: its name and its text, or why there is none, go to `took`.
#[component]
pub fn TakeIn(
    /// The words of the button.
    label: &'static str,
    /// Which files there are to choose from, as browsers take them.
    kinds: &'static str,
    /// What such a file is: “a log”.
    what: &'static str,
    /// The largest that is read, bytes.
    most: f64,
    /// What is done with it.
    #[prop(into)]
    took: Callback<(String, Result<String, String>)>,
) -> impl IntoView {
    view! {
        <label class="plain open-file">
            {label}
            <input
                type="file"
                accept=kinds
                on:change:target=move |event| {
                    let input = event.target();
                    if let Some(file) = input.files().and_then(|files| files.get(0)) {
                        read(file, input, what, most, took);
                    }
                }
            />
        </label>
    }
}

fn read(
    file: File,
    input: HtmlInputElement,
    what: &'static str,
    most: f64,
    took: Callback<(String, Result<String, String>)>,
) {
    spawn_local(async move {
        let text = if file.size() > most {
            Err(format!("It is too large to be {what}."))
        } else {
            let text = JsFuture::from(file.text()).await.ok();
            text.and_then(|text| text.as_string())
                .ok_or_else(|| "The browser could not read it.".to_owned())
        };
        // The sheet may have been left meanwhile.
        took.try_run((file.name(), text));
        // The same file may be chosen again after it was mended.
        input.set_value("");
    });
}

/// What came in from a file.
#[derive(Clone, Debug, PartialEq)]
pub struct Report {
    /// In sentences.
    pub said: String,
    /// What of it cannot be read.
    pub unread: Vec<Unread>,
}

impl Report {
    /// Nothing but sentences.
    pub fn of(said: String) -> Self {
        Self {
            said,
            unread: Vec::new(),
        }
    }

    /// That the file `name` was not taken in, because of `reason`, and that `what` stands: “the log stands”.
    pub fn refused(name: &str, what: &str, reason: &str) -> Self {
        Self::of(format!(
            "The file {name} was not taken in; {what}. {reason}"
        ))
    }
}

/// What came of the last file.
#[component]
pub fn Reported(
    /// The report.
    report: RwSignal<Option<Report>>,
) -> impl IntoView {
    view! {
        <p class="rack-report" role="status">{move || report.get().map(|report| report.said)}</p>
        {move || report.get().map(|report| view! { <Unreadable all=report.unread /> })}
    }
}

/// What cannot be read, each to be saved as it stands.
#[component]
pub fn Unreadable(
    /// The texts.
    all: Vec<Unread>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let rows = all.into_iter().map(|unread| {
        let name = unread.name.clone();
        let name = name.unwrap_or_else(|| "something".to_owned());
        let label = format!("save {name} as it stands as a file");
        let file = file_name(&name, UNREAD_ENDING);
        view! {
            <li class="rack-row unread">
                <p>
                    <strong>{format!("{name} can’t be read. ")}</strong>
                    {unread.reason.clone()}
                </p>
                <button
                    type="button"
                    class="plain"
                    on:click=move |_| save_text(workspace, &file, &unread.text)
                >
                    {label}
                </button>
            </li>
        }
    });
    let rows = rows.collect_view();
    view! { <ul class="rack-unread">{rows}</ul> }
}
