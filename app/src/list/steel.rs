//! What belongs to the whole head: its note and the density of its steel.

use leptos::prelude::*;

use super::super::entry::Entry;
use super::super::field::Length;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::words;
use headwright::design::{Edit, LONGEST_NOTE};
use headwright::units::Density;

/// Note and density.
#[component]
pub fn Steel() -> impl IntoView {
    let workspace = Workspace::here();
    let read = move |text: String| {
        let density: Density = text
            .parse()
            .map_err(|e: headwright::units::UnitError| e.to_string())?;
        workspace.show("density", Edit::Density(density));
        Ok(())
    };
    let note = Signal::derive(move || workspace.design.with(|d| d.note.clone()));
    view! {
        <section class="group open" aria-labelledby="part-head">
            <h3 id="part-head" class="heading">"steel and note"</h3>
            <div class="rows">
                <Words id="steel-words" terms=&[Term::Density] />
                <div class="row">
                    <div class="row-line">
                        <label for="density">"density"</label>
                        <Entry
                            label="density"
                            value=Signal::derive(move || {
                                workspace.design.with(|d| words::density(d.density))
                            })
                            unit="g/cm³"
                            read=read
                            keep=move |()| workspace.keep()
                            put_back=move |()| workspace.put_back()
                            id="density"
                        />
                    </div>
                </div>
                <div class="row note">
                    <label for="note">"note"</label>
                    <textarea
                        id="note"
                        rows="3"
                        maxlength=LONGEST_NOTE
                        prop:value=note
                        on:input:target=move |event| {
                            workspace.show("note", Edit::Note(event.target().value()));
                        }
                        on:change=move |_| workspace.keep()
                    ></textarea>
                    <Length text=note longest=LONGEST_NOTE what="note" />
                </div>
            </div>
        </section>
    }
}
