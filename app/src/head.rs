//! The head screen: sheet, margin, and the list of all sizes below.

use leptos::context::Provider;
use leptos::prelude::*;

use super::field::Length;
use super::foot::Foot;
use super::list::List;
use super::margin::{Margin, Results};
use super::sheet::Sheet;
use super::state::Workspace;
use headwright::design::{Edit, LONGEST_NAME};
use headwright::units::System;

/// The head.
#[component]
pub fn Head() -> impl IntoView {
    let workspace = Workspace::here();
    view! {
        <div class="columns">
            <div class="sheet">
                <Title />
                <p class="said-once">
                    {move || match workspace.system.get() {
                        System::Metric => "all sizes in mm, cold",
                        System::Imperial => "all sizes in inches, cold",
                    }}
                </p>
                <Sheet
                    design=workspace.design
                    solid=workspace.sound
                    properties=workspace.properties
                    problems=workspace.problems
                    system=workspace.system
                    in_hand=workspace.in_hand
                    open_part=workspace.open_part
                />
                <Foot />
            </div>
            <Margin />
            <Provider value=workspace.behind()>
                <List />
                <Results />
            </Provider>
        </div>
    }
}

/// The head's name, to be written over.
#[component]
pub fn Title() -> impl IntoView {
    let workspace = Workspace::here();
    let name = Signal::derive(move || workspace.design.with(|d| d.name.clone()));
    view! {
        <h1 class="title">
            <input
                type="text"
                aria-label="name of the head"
                placeholder="hammer without a name"
                maxlength=LONGEST_NAME
                autocomplete="off"
                spellcheck="false"
                enterkeyhint="done"
                prop:value=name
                on:input:target=move |event| {
                    workspace.show("name", Edit::Name(event.target().value()));
                }
                on:change=move |_| workspace.keep()
                on:keydown:target=move |event| match event.key().as_str() {
                    "Enter" => {
                        workspace.keep();
                        // A field that cannot lose the focus keeps it; the name is kept anyway.
                        let _ = event.target().blur();
                    }
                    "Escape" => workspace.put_back(),
                    _ => {}
                }
            />
        </h1>
        <Length text=name longest=LONGEST_NAME what="name" />
    }
}
