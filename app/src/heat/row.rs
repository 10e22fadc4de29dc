//! A field of the heat treatment in a row, and under it what is wrong with it.

use leptos::prelude::*;

use super::super::entry::Entry;
use super::super::state::Workspace;
use super::show_heat;
use super::worked::Worked;
use headwright::heat::{Heat, HeatError};

/// The sentences about a field or a group of them, under it.
#[component]
pub fn About(
    /// Their id.
    #[prop(into)]
    id: String,
    /// Which.
    #[prop(into)]
    concerns: Callback<HeatError, bool>,
) -> impl IntoView {
    let system = Workspace::here().system;
    let errors = Worked::here().errors;
    let sentences = Memo::new(move |_| {
        let mut all = errors.get();
        all.retain(|error| concerns.run(*error));
        let sentences: Vec<String> = all.iter().map(|e| e.sentence(system.get())).collect();
        sentences.join(" ")
    });
    move || {
        let sentences = sentences.get();
        (!sentences.is_empty()).then(|| {
            view! { <p class="sentence problem" id=id.clone()>{sentences}</p> }
        })
    }
}

/// A row with one field.
#[component]
pub fn HeatRow(
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
    unit: Signal<String>,
    /// The value as the field shows it.
    #[prop(into)]
    get: Callback<Heat, String>,
    /// Reads a text, or says what is wrong with it.
    #[prop(into)]
    read: Callback<(Heat, String), Result<Heat, String>>,
    /// Which errors are about it.
    #[prop(into)]
    concerns: Callback<HeatError, bool>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let errors = Worked::here().errors;
    let value = Memo::new(move |_| get.run(workspace.design.with(|d| d.heat)));
    let about = format!("{id}-about");
    let described = {
        let about = about.clone();
        Signal::derive(move || {
            let wrong = errors.with(|all| all.iter().any(|error| concerns.run(*error)));
            wrong.then(|| about.clone())
        })
    };
    let subject = id.clone();
    let name = format!("{of} {label}");
    let read = move |text: String| {
        let heat = workspace.design.with_untracked(|d| d.heat);
        let heat = read.run((heat, text))?;
        show_heat(workspace, &subject, |now| *now = heat);
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
                    described_by=described
                    id=id
                />
            </div>
            <About id=about concerns=concerns />
        </div>
    }
}
