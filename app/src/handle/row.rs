//! A length of the handle in a row: its field, and beside it what is wrong with it.

use leptos::prelude::*;

use super::super::entry::Entry;
use super::super::state::Workspace;
use super::show_handle;
use super::worked::Worked;
use headwright::handle::{Handle, HandleError};
use headwright::units::{Length, parse_length, show_length, unit_word};

/// The sentences about a row, under its field, which refers to them by `id`.
#[component]
pub fn About(
    /// Their id.
    id: String,
    /// Which.
    #[prop(into)]
    concerns: Callback<HandleError, bool>,
) -> impl IntoView {
    let system = Workspace::here().system;
    let errors = Worked::here().errors;
    let sentences = Memo::new(move |_| {
        let mut all = errors.get();
        all.retain(|error| concerns.run(error.clone()));
        all.iter()
            .map(|error| error.sentence(system.get()))
            .collect::<Vec<_>>()
            .join(" ")
    });
    move || {
        let sentences = sentences.get();
        (!sentences.is_empty()).then(|| {
            view! { <p class="sentence problem" id=id.clone()>{sentences}</p> }
        })
    }
}

/// `handle` with `length` in the place of a size that it has; else as it is.
pub fn with_size(
    mut handle: Handle,
    length: Option<Length>,
    size: impl FnOnce(&mut Handle) -> Option<&mut Length>,
) -> Handle {
    if let (Some(size), Some(length)) = (size(&mut handle), length) {
        *size = length;
    }
    handle
}

/// A row for a length: any notation, arrow keys step by the rule.
#[component]
pub fn LengthRow(
    /// Id of its field.
    #[prop(into)]
    id: String,
    /// Its label.
    #[prop(into)]
    label: String,
    /// What it is the size of, for those who do not see the heading.
    #[prop(into)]
    of: String,
    /// The length; nothing when it is left out.
    #[prop(into)]
    get: Callback<Handle, Option<Length>>,
    /// Puts another in its place; nothing comes of an empty field only where `optional` says so.
    #[prop(into)]
    set: Callback<(Handle, Option<Length>), Handle>,
    /// Whether it may be left out.
    #[prop(optional)]
    optional: bool,
    /// Shown while it is empty.
    #[prop(optional, into)]
    placeholder: Option<Signal<String>>,
    /// Which errors are about it.
    #[prop(into)]
    concerns: Callback<HandleError, bool>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let system = workspace.system;
    let now = Memo::new(move |_| get.run(workspace.design.with(|d| d.handle.clone())));
    let name = format!("{of} {label}");
    let about = format!("{id}-about");
    let errors = Worked::here().errors;
    let described = {
        let about = about.clone();
        Signal::derive(move || {
            let wrong = errors.with(|all| all.iter().any(|error| concerns.run(error.clone())));
            wrong.then(|| about.clone())
        })
    };
    let show = {
        let subject = id.clone();
        move |length: Option<Length>| {
            show_handle(workspace, &subject, |handle| {
                *handle = set.run((handle.clone(), length));
            });
        }
    };
    let read = {
        let show = show.clone();
        move |text: String| {
            if optional && text.trim().is_empty() {
                show(None);
                return Ok(());
            }
            let length =
                parse_length(&text, system.get_untracked()).map_err(|error| error.to_string())?;
            show(Some(length));
            Ok(())
        }
    };
    let step = move |count: i32| {
        if let Some(length) = now.get_untracked() {
            show(Some(workspace.beside(length, count)));
        }
    };
    view! {
        <div class="row">
            <div class="row-line">
                <label for=id.clone()>{label}</label>
                <Entry
                    label=name
                    value=Signal::derive(move || {
                        now.get().map(|length| show_length(length, system.get())).unwrap_or_default()
                    })
                    unit=Signal::derive(move || unit_word(system.get()).to_owned())
                    placeholder=placeholder.unwrap_or_default()
                    read=read
                    keep=move |()| workspace.keep()
                    put_back=move |()| workspace.put_back()
                    step=Callback::new(step)
                    described_by=described
                    id=id
                />
            </div>
            <About id=about concerns=concerns />
        </div>
    }
}

/// A row for a number without a unit of its own.
#[component]
pub fn NumberRow(
    /// Id of its field.
    #[prop(into)]
    id: String,
    /// Its label.
    #[prop(into)]
    label: String,
    /// What it is of, for those who do not see the heading.
    #[prop(into)]
    of: String,
    /// The unit shown.
    #[prop(into)]
    unit: String,
    /// The number as a field shows it.
    #[prop(into)]
    get: Callback<Handle, String>,
    /// Reads a text, or says what is wrong with it.
    #[prop(into)]
    read: Callback<(Handle, String), Result<Handle, String>>,
    /// Which errors are about it.
    #[prop(into)]
    concerns: Callback<HandleError, bool>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let value = Memo::new(move |_| get.run(workspace.design.with(|d| d.handle.clone())));
    let about = format!("{id}-about");
    let subject = id.clone();
    let name = format!("{of} {label}");
    let read = move |text: String| {
        let handle = workspace.design.with_untracked(|d| d.handle.clone());
        let handle = read.run((handle, text))?;
        show_handle(workspace, &subject, |now| *now = handle);
        Ok(())
    };
    view! {
        <div class="row">
            <div class="row-line">
                <label for=id.clone()>{label}</label>
                <Entry
                    label=name
                    value=value
                    unit=unit
                    read=read
                    keep=move |()| workspace.keep()
                    put_back=move |()| workspace.put_back()
                    id=id
                />
            </div>
            <About id=about concerns=concerns />
        </div>
    }
}
