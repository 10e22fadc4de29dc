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
        <div class="columns head-screen">
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

/// From this many letters on the name is written smaller, and from this many smaller again, so that it stands whole in
/// its two lines beside the half plan.
const SMALLER: [usize; 2] = [24, 60];

/// The head's name, to be written over; however long, all of it is to be read.
#[component]
pub fn Title() -> impl IntoView {
    let workspace = Workspace::here();
    let name = Memo::new(move |_| workspace.design.with(|d| d.name.clone()));
    let longer_than = move |letters: usize| name.with(|name| name.chars().count() > letters);
    view! {
        <h1
            class="title"
            class:long=move || longer_than(SMALLER[0])
            class:longest=move || longer_than(SMALLER[1])
        >
            // It has the height of the field, which has none of its own.
            <span class="title-room" aria-hidden="true">{move || format!("{}\u{200b}", name.get())}</span>
            <textarea
                rows="1"
                aria-label="name of the head"
                placeholder="hammer without a name"
                maxlength=LONGEST_NAME
                autocomplete="off"
                spellcheck="false"
                enterkeyhint="done"
                prop:value=name
                on:input:target=move |event| {
                    let field = event.target();
                    let written = field.value();
                    let one_line = written.replace(['\n', '\r'], " ");
                    if one_line != written {
                        // The mark stays behind what was pasted; a field without one has no mark to lose.
                        let mark = field.selection_end().ok().flatten();
                        field.set_value(&one_line);
                        let _ = field.set_selection_start(mark);
                        let _ = field.set_selection_end(mark);
                    }
                    workspace.show("name", Edit::Name(one_line));
                }
                on:change=move |_| workspace.keep()
                on:keydown:target=move |event| match event.key().as_str() {
                    "Enter" if !event.is_composing() => {
                        event.prevent_default();
                        workspace.keep();
                        // A field that cannot lose the focus keeps it; the name is kept anyway.
                        let _ = event.target().blur();
                    }
                    "Escape" => workspace.put_back(),
                    _ => {}
                }
            ></textarea>
        </h1>
        <Length text=name longest=LONGEST_NAME what="name" />
    }
}
