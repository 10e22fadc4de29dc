//! A size with its field, worked by typing, by the arrow keys or by − and +.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, FocusEvent, Node};

use super::entry::Entry;
use super::quantity::Number;
use super::state::Workspace;
use super::words;
use headwright::design::Dim;

/// Whether the focus goes to something that neither lies in `host` nor works `dim`: list and
/// drawing each have a field for the size in hand, and going from one to the other keeps it there.
/// Focus that goes to nothing (a press on the bare sheet) lets nothing go.
pub fn lets_go(event: &FocusEvent, host: Option<&Node>, dim: Dim) -> bool {
    let to = event.related_target();
    to.and_then(|to| to.dyn_into::<Element>().ok())
        .is_some_and(|to| {
            let outside = host.is_some_and(|host| !host.contains(Some(&to)));
            let same = to.closest(&format!("[data-size=\"{dim}\"]"));
            outside && !same.is_ok_and(|same| same.is_some())
        })
}

/// What a size was before the present row of edits; nothing while it is the same.
#[component]
pub fn Was(
    /// The dimension.
    dim: Dim,
) -> impl IntoView {
    let workspace = Workspace::here();
    move || {
        let system = workspace.system.get();
        workspace.was(dim).map(|size| {
            view! {
                "was\u{a0}"
                <Number text=size.show(system) />
                {format!("\u{a0}{}", size.unit_word(system))}
            }
        })
    }
}

/// Field, − and + of one dimension. − and + stand beside it while it is in hand.
///
/// In the list it always stands. On the drawing it is mounted when the size is taken in hand, with
/// `grab` when it was taken there: a size taken in the list leaves the focus in the list.
#[component]
pub fn Stepper(
    /// The dimension.
    dim: Dim,
    /// Id of the field, where a label elsewhere needs it.
    #[prop(optional, into)]
    id: Option<String>,
    /// Whether the field takes the focus as soon as it is there.
    #[prop(optional)]
    grab: bool,
) -> impl IntoView {
    let workspace = Workspace::here();
    let group = NodeRef::<leptos::html::Div>::new();
    let in_hand = Memo::new(move |_| workspace.in_hand.get() == Some(dim));
    let value = Memo::new(move |_| {
        let system = workspace.system.get();
        workspace
            .design
            .with(|d| d.size(dim))
            .map(|size| size.show(system))
            .unwrap_or_default()
    });
    let read = move |text: String| {
        let Some(now) = workspace.design.with_untracked(|d| d.size(dim)) else {
            return Ok(());
        };
        let size = now
            .parse(&text, workspace.system.get_untracked())
            .map_err(|error| error.to_string())?;
        workspace.show_size(dim, size);
        Ok(())
    };
    let release = move || {
        if workspace.in_hand.get_untracked() == Some(dim) {
            workspace.in_hand.set(None);
        }
    };
    let press = move |count: i32| {
        move |_| {
            workspace.in_hand.set(Some(dim));
            workspace.step(dim, count);
        }
    };
    let hold_focus = move |event: web_sys::PointerEvent| event.prevent_default();
    let leave = move |event: FocusEvent| {
        let to = event.related_target();
        let inside = to
            .as_ref()
            .and_then(|to| to.dyn_ref::<Node>())
            .is_some_and(|to| {
                group
                    .try_get_untracked()
                    .flatten()
                    .is_some_and(|g| g.contains(Some(to)))
            });
        if !inside {
            workspace.keep();
        }
    };
    let label = move || dim.words();
    view! {
        <div
            class="stepper"
            class:inhand=in_hand
            node_ref=group
            role="group"
            aria-label=label
            data-size=dim.to_string()
            on:focusout=leave
        >
            <Show when=move || in_hand.get()>
                <button
                    type="button"
                    class="less"
                    aria-label="less"
                    on:pointerdown=hold_focus
                    on:click=press(-1)
                >
                    "−"
                </button>
            </Show>
            <Entry
                label=Signal::derive(label)
                value=value
                unit=Signal::derive(move || words::unit_of(dim, workspace.system.get()).to_owned())
                read=read
                keep=move |()| workspace.keep()
                put_back=move |()| workspace.put_back()
                step=Callback::new(move |count| workspace.step(dim, count))
                id=id.unwrap_or_else(|| format!("hand-{dim}"))
                taken=Callback::new(move |()| workspace.in_hand.set(Some(dim)))
                released=Callback::new(move |()| release())
                grab=grab
            />
            <Show when=move || in_hand.get()>
                <button
                    type="button"
                    class="more"
                    aria-label="more"
                    on:pointerdown=hold_focus
                    on:click=press(1)
                >
                    "+"
                </button>
            </Show>
        </div>
    }
}
